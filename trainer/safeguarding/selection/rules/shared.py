"""Rules that bear on several safeguards: the other sides of the brake, the crew, the stop, the check after a change."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import has, more_than
from trainer.safeguarding.selection.rule import ALL_PRIMARIES, Rule, only
from trainer.safeguarding.selection.safeguards import CURTAINS
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

STOPS_THE_RAM = CURTAINS | only("aopd", "two_hand", "two_hand_foot", "slow_hold", "distancing_field")
RESTS_ON_STOP_TIME = CURTAINS | only("two_hand", "two_hand_foot", "distancing_field")
SERVES_ONE_PERSON = only(
    "two_hand", "two_hand_foot", "slow_hold", "distancing_field", "pull_back", "restraint", "safe_distance"
)

FLYWHEEL = has("drive", "mech_full_rev", "mech_part_rev")
FULL_REVOLUTION = has("drive", "mech_full_rev")
CANNOT_STOP = FULL_REVOLUTION | has("can_stop_mid_stroke", "no")
STOP_TIME_NOT_CURRENT = has("stop_time_status", "measured_old", "never")
SLOW_AND_HELD = has("slow_mode", "whole_stroke", "last_part_only")
HELPER_WITHOUT_CONTROL = more_than("people", 1) & has("own_control", "no")

RULES = (
    Rule(
        id="GEN-01",
        applies=ALL_PRIMARIES,
        when=has("ends_closed", "no") | has("rear_closed", "no"),
        verdict=Verdict.VALID_COND,
        reason=mark("An end or the rear is open. What guards the front does nothing there."),
        conditions=(mark("The covers at both die ends and the rear guard are on."),),
        sources=(s.DGUV_030_4, s.DGUV_008_20_4, s.CPL_D1),
    ),
    Rule(
        id="GEN-02",
        applies=ALL_PRIMARIES,
        when=has("backstop", "powered_unguarded"),
        verdict=Verdict.VALID_COND,
        reason=mark("The back-stop moves and nothing guards it. It can pinch fingers behind the die, ram up or down."),
        conditions=(mark("The travel of the back-stop is guarded, slowed down, or started by a control of its own."),),
        sources=(s.DGUV_008_20_1, s.DGUV_008_20_4),
    ),
    Rule(
        id="GEN-03",
        applies=SERVES_ONE_PERSON,
        when=HELPER_WITHOUT_CONTROL,
        verdict=Verdict.NOT_VALID,
        reason=mark("It looks after the one person who uses it. The helper is left with nothing."),
        sources=(s.DGUV_030_4, s.DGUV_008_20_2, s.WAC_20052, s.WAC_45520, s.CFR_217_EACH_OPERATOR),
    ),
    Rule(
        id="GEN-04",
        applies=CURTAINS | only("aopd", "adjustable_guard"),
        when=HELPER_WITHOUT_CONTROL,
        verdict=Verdict.VALID_COND,
        reason=mark(
            "It keeps the helper's hands out too. But a stroke that somebody else starts can still hit him or her."
        ),
        conditions=(
            mark("The helper holds a control of his or her own, or stands where neither tools nor part reach."),
        ),
        sources=(s.DGUV_008_11, s.DGUV_008_20_2),
    ),
    Rule(
        id="SC-01",
        applies=STOPS_THE_RAM | only("interlocked_guard"),
        when=has("stop_circuit", "basic"),
        verdict=Verdict.NOT_VALID,
        reason=mark("It can only ask the ram to stop. Here a single fault can swallow the request."),
        sources=(s.CFR_217_FAULT, s.CFR_217_B13, s.DGUV_008_20_2),
    ),
    Rule(
        id="NS-01",
        applies=STOPS_THE_RAM - only("two_hand"),
        when=CANNOT_STOP,
        verdict=Verdict.NOT_VALID,
        reason=mark("This stroke runs to its end once it has started. Nothing that asks for a stop can help."),
        sources=(s.CFR_217_CLUTCH,),
    ),
    Rule(
        id="ST-01",
        applies=RESTS_ON_STOP_TIME,
        # A two-hand trip on a full-revolution clutch goes by the turning of the crank, not by a stop.
        when=~FULL_REVOLUTION & STOP_TIME_NOT_CURRENT,
        verdict=Verdict.CANNOT_RELY,
        reason=mark(
            "There is no current stopping time. So nobody can say how far away it has to be. Have it measured."
        ),
        sources=(s.CFR_217_DISTANCE, s.ISO_13855_5, s.DGUV_030_9),
    ),
    Rule(
        id="ST-02",
        applies=RESTS_ON_STOP_TIME,
        when=~FULL_REVOLUTION & has("stop_monitor", "none"),
        verdict=Verdict.VALID_COND,
        reason=mark("Nothing watches the stop. It can grow longer and nobody will see it."),
        conditions=(
            mark("The distance has a margin for wear in it."),
            mark("The stop is measured again at a fixed interval, and the last measurement is in date."),
        ),
        sources=(s.LETTER_1980_MONITOR, s.WEAR_MARGIN),
    ),
    Rule(
        id="FC-01",
        applies=CURTAINS | only("aopd"),
        when=has("setup_check", "failed"),
        verdict=Verdict.NOT_VALID,
        reason=mark("It failed its check. Take it out of use until it is mended."),
        sources=(s.DGUV_008_10, s.PUWER_33),
    ),
    Rule(
        id="FC-02",
        applies=CURTAINS | only("aopd"),
        when=has("setup_check", "not_since_change"),
        verdict=Verdict.CANNOT_RELY,
        reason=mark("A change of tools shifts what it sees. It was not checked since. Check it with the test piece."),
        sources=(s.DGUV_008_10, s.EN_12622),
    ),
)
