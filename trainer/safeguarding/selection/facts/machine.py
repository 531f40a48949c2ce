"""Facts about the brake itself: drive, stop, slow speed, the mode that is selected."""

from trainer.safeguarding.selection.facts.fact import choice, length
from trainer.wording import mark

MACHINE = (
    choice(
        "drive",
        mark("What moves the ram"),
        mark("Nobody has said what moves the ram. Read the machine plate and the manual."),
        mech_full_rev=mark("a flywheel with a full-revolution clutch"),
        mech_part_rev=mark("a flywheel with a friction (part-revolution) clutch"),
        hyd_down=mark("hydraulic, the beam comes down"),
        hyd_up=mark("hydraulic, the table comes up"),
        servo=mark("servo-electric"),
    ),
    choice(
        "can_stop_mid_stroke",
        mark("Closing can be stopped anywhere in the stroke"),
        mark("Nobody knows whether the ram can be stopped part way down. Have it tried with the tools empty."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "stop_time_status",
        mark("Stopping time"),
        mark("Nobody knows whether the stopping time was measured. Find the record, or have it measured."),
        measured_current=mark("measured, and still in date"),
        measured_old=mark("measured, but out of date or before work on brake or valves"),
        never=mark("never measured"),
    ),
    choice(
        "stop_monitor",
        mark("Watch on the stopping performance"),
        mark("Nobody knows whether the stop is watched on each stroke. Look in the manual or ask the maker."),
        each_stroke=mark("automatic, on each stroke"),
        none=mark("none"),
    ),
    choice(
        "stop_circuit",
        mark("Stop circuit"),
        mark("Nobody knows whether one fault can lose the stop. Find the circuit drawing, or have the circuit tested."),
        control_reliable=mark("one fault still stops the ram and blocks the next stroke"),
        basic=mark("one fault can lose the stop"),
    ),
    choice(
        "build",
        mark("Built"),
        mark("Nobody knows when the brake was built. Read the year on the machine plate."),
        pre_2002_08=mark("before August 2002"),
        from_2002_08=mark("in or after August 2002"),
    ),
    choice(
        "slow_mode",
        mark("Slow closing"),
        mark("Nobody knows how fast the slow mode closes and whether it stops on release. Have both measured."),
        whole_stroke=mark("10 mm/s or less for the whole closing, stops on release"),
        last_part_only=mark("10 mm/s or less after a fast approach, stops on release"),
        latching=mark("slow, but goes on when the control is released"),
        over_10=mark("called slow, but faster than 10 mm/s"),
        none=mark("none"),
    ),
    length(
        "die_opening_mm",
        mark("Largest opening of the tools in this set-up"),
        mark("Nobody has measured how far the tools open in this set-up. Measure it with the stroke stop locked."),
    ),
    choice(
        "actuation",
        mark("Mode selected now"),
        mark("Nobody has looked which mode is selected. Look at the selector."),
        foot_trip=mark("a pedal that trips the stroke"),
        foot_hold=mark("a pedal that must be held"),
        two_hand=mark("two-hand control"),
        two_hand_then_foot=mark("two-hand down, then the pedal"),
    ),
    choice(
        "two_hand_build",
        mark("Two-hand buttons"),
        mark("Nobody has tried whether the two-hand buttons can be cheated. Try them one at a time and tied down."),
        full=mark("both hands at once, both released between strokes, held until the danger is over"),
        weak=mark("can be tied down, bridged, worked with one hand, or repeat the stroke"),
        not_fitted=mark("not fitted"),
    ),
    length(
        "th_at_mm",
        mark("Two-hand buttons to the nearest pinch point"),
        mark("Nobody has measured how far the two-hand buttons are from the tools. Measure it."),
    ),
    length(
        "th_needs_mm",
        mark("Distance worked out for the two-hand buttons"),
        mark("The distance for the two-hand buttons was not worked out. Work it out from the measured time."),
    ),
    length(
        "changeover_gap_mm",
        mark("Opening left when two-hand hands over to the pedal"),
        mark("Nobody has measured the opening at which the pedal takes over. Measure it above the sheet."),
    ),
)
