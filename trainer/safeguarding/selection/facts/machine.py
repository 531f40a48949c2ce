"""Facts about the brake itself: drive, stop, slow speed, the mode that is selected."""

from trainer.safeguarding.selection.facts.fact import choice, length
from trainer.wording import mark

MACHINE = (
    choice(
        "drive",
        mark("Drive"),
        mark("Nobody has said what moves the ram. Read the machine plate and the manual."),
        mech_full_rev=mark("flywheel; its clutch lets go after a whole turn only (full revolution)"),
        mech_part_rev=mark("flywheel; its friction clutch can let go at any point (part revolution)"),
        hyd_down=mark("hydraulic, closing downwards"),
        hyd_up=mark("hydraulic, closing upwards"),
        servo=mark("electric, by servo motors"),
    ),
    choice(
        "can_stop_mid_stroke",
        mark("Ram can be stopped part way down"),
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
        control_reliable=mark("control reliable: after a single fault it still stops, and will not start again"),
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
        whole_stroke=mark("from the top to the bend, at most 10 mm/s, only while held"),
        last_part_only=mark("at most 10 mm/s and only while held, but after a fast approach"),
        latching=mark("slow, but goes on when the control is released"),
        over_10=mark("called slow, but faster than 10 mm/s"),
        none=mark("none"),
    ),
    length(
        "die_opening_mm",
        mark("How far the tools open in this set-up"),
        mark("Nobody has measured how far the tools open in this set-up. Measure it with the stroke stop locked."),
    ),
    choice(
        "actuation",
        mark("Mode at the selector"),
        mark("Nobody has looked which mode is selected. Look at the selector."),
        foot_trip=mark("pedal; one kick runs the stroke"),
        foot_hold=mark("pedal; the ram runs while it is down"),
        two_hand=mark("two-hand control"),
        two_hand_then_foot=mark("buttons first, pedal second"),
    ),
    choice(
        "two_hand_build",
        mark("Two-hand buttons"),
        mark("Nobody has tried whether the two-hand buttons can be cheated. Try them one at a time and tied down."),
        full=mark("sound: they need two hands at the same moment, every stroke anew, to the end"),
        weak=mark("weak: one hand, a strap or a wire is enough, or the stroke repeats"),
        not_fitted=mark("not fitted"),
    ),
    length(
        "th_at_mm",
        mark("Two-hand buttons stand this far from the tools"),
        mark("Nobody has measured how far the two-hand buttons are from the tools. Measure it."),
    ),
    length(
        "th_needs_mm",
        mark("Two-hand buttons should stand this far from the tools"),
        mark("The distance for the two-hand buttons was not worked out. Work it out from the measured time."),
    ),
    length(
        "changeover_gap_mm",
        mark("Gap between the tools when the pedal takes over"),
        mark("Nobody has measured the opening at which the pedal takes over. Measure it above the sheet."),
    ),
)
