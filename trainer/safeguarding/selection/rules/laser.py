"""Rules for the laser at the punch, and for laser and curtain together."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import above_small_gap, has, more_than, within
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.rules.shared import FLYWHEEL, SLOW_AND_HELD
from trainer.safeguarding.selection.rulesets import US
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

LEG_IN_THE_BEAM = 6  # mm, common practice
FINGERS_AT_THE_BEAM = 15  # mm, trade press, second hand

LASER = only("aopd")
FINGER_FITS_AT_MUTE_POINT = above_small_gap("aopd_mute_gap_mm")

RULES = (
    Rule(
        id="LA-01",
        applies=LASER,
        when=has("aopd_mode", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LA-02",
        applies=LASER,
        when=FLYWHEEL,
        verdict=Verdict.NOT_VALID,
        reason=mark("It sees a finger only millimetres before the tools do. A flywheel brake does not stop that fast."),
        sources=(s.TRADE_PRESS, s.LETTER_2004_LASER, s.INRS_879),
    ),
    Rule(
        id="LA-03",
        applies=LASER,
        when=has("aopd_overrun", "fail"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The overrun test failed. The punch runs past the place that the laser watches."),
        sources=(s.EN_12622, s.KINEMATICS),
    ),
    Rule(
        id="LA-04",
        applies=LASER,
        when=has("aopd_overrun", "not_done"),
        verdict=Verdict.CANNOT_RELY,
        reason=mark("It rests on a very short stop, and nobody has shown that. Run the overrun test first."),
        sources=(s.EN_12622,),
    ),
    Rule(
        id="LA-05",
        applies=LASER,
        when=has("bend_form", "hem_flatten", "wide_deep_punch"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The laser watches a narrow tip. This tool is wider and pinches outside the beam."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LA-06",
        applies=LASER,
        when=has("bend_form", "large_radius", "gooseneck"),
        verdict=Verdict.VALID_COND,
        reason=mark("With this tool the beam has to sit elsewhere, and the rising leg can pinch at the punch."),
        conditions=(
            mark("This type of tool is chosen in the device, and the beam is aimed again."),
            mark("Fingers stay out of the place where the rising leg meets the punch."),
        ),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LA-07",
        applies=LASER,
        when=has("aopd_mode", "full") & has("flange_place", "side_ends") & more_than("flange_mm", LEG_IN_THE_BEAM),
        verdict=Verdict.NOT_VALID,
        reason=mark(
            "A bent-up leg at the tool end keeps breaking the beam. Work with a ram that always stops tempts people to disable it."
        ),
        sources=(s.LASER_MANUAL, s.PRACTICE),
    ),
    Rule(
        id="LA-08",
        applies=LASER,
        when=has("aopd_mode", "box"),
        verdict=Verdict.VALID_COND,
        reason=mark("In box mode the laser is blind at the front."),
        conditions=(
            mark("Box mode is selected for this bend only, and full mode comes back by itself."),
            mark("Hands stay off the front of the tools."),
        ),
        sources=(s.LASER_MANUAL, s.EN_12622),
    ),
    Rule(
        id="LA-09",
        applies=LASER,
        when=has("aopd_mode", "field_muted", "off"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The laser is muted or off. Nothing watches the tools."),
        sources=(s.LASER_MANUAL, s.COURT_2020),
    ),
    Rule(
        id="LA-10",
        applies=LASER,
        when=FINGER_FITS_AT_MUTE_POINT & ~SLOW_AND_HELD,
        verdict=Verdict.NOT_VALID,
        reason=mark("The laser looks away too early. A finger still fits, and the ram is fast."),
        sources=(s.DGUV_030_GAP, s.EN_12622),
    ),
    Rule(
        id="LA-11",
        applies=LASER,
        when=FINGER_FITS_AT_MUTE_POINT & SLOW_AND_HELD,
        verdict=Verdict.VALID_COND,
        reason=mark("A finger fits when the laser looks away. From there on only slow closing protects."),
        conditions=(
            mark("From the mute point on it closes at 10 mm/s or less and stops on release; the control forces it."),
        ),
        sources=(s.DGUV_008_14_2, s.LETTER_2012_JAN),
    ),
    Rule(
        id="LA-12",
        applies=LASER,
        when=has("part_holding", "hand_held") & within("hand_mm", FINGERS_AT_THE_BEAM),
        verdict=Verdict.NOT_VALID,
        reason=mark("Fingers are at the beam while the tools close. Use a holder, a magnet or a larger blank."),
        sources=(s.TRADE_PRESS_15_MM,),
    ),
    Rule(
        id="LA-13",
        applies=LASER,
        sets=frozenset({US}),
        when=has("drive", "servo"),
        verdict=Verdict.VALID_COND,
        reason=mark("The federal opinion on lasers was about hydraulic brakes. This one is servo-electric."),
        conditions=(mark("The maker's statement for this drive and the passed overrun test are on file."),),
        sources=(s.LETTER_2004_LASER,),
    ),
    Rule(
        id="LA-14",
        applies=LASER,
        when=has("drive", "hyd_up"),
        verdict=Verdict.VALID_COND,
        reason=mark("Here the table rises, and most lasers are made for a beam that comes down."),
        conditions=(mark("The maker offers this laser for a rising table, and it is aimed that way."),),
        sources=(s.MEMORY_RISING_TABLE,),
    ),
    Rule(
        id="AC-01",
        applies=only("aopd_plus_curtain"),
        when=has("mode_changeover", "operator_switch"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Anyone may switch between laser and curtain. Which one is live is then a matter of memory."),
        sources=(s.DGUV_030_4, s.PRACTICE),
    ),
)
