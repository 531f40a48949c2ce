"""Rules for beams that are off (blanking) and for a field that looks away (muting)."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import ALWAYS, has, too_coarse, too_near
from trainer.safeguarding.selection.rule import Rule, only
from trainer.safeguarding.selection.rules.shared import SLOW_AND_HELD
from trainer.safeguarding.selection.safeguards import BLANKED
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

MAY_LOOK_AWAY = BLANKED | only("curtain_muted")
LOOKS_AWAY_EARLY = has("mute_starts", "gap_large")

RULES = (
    Rule(
        id="BL-01",
        applies=BLANKED,
        when=too_coarse("eff_res_mm"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Too many beams are off. The field no longer notices a hand."),
        sources=(s.B11_19_RANGE, s.ISO_13855_6),
    ),
    Rule(
        id="BL-02",
        applies=BLANKED,
        when=too_near("curtain_at_mm", "blanked_needs_mm"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Each beam that is off lets fingers in deeper. The curtain is too close for that."),
        sources=(s.CURTAIN_MANUALS, s.ISO_13855_6),
    ),
    Rule(
        id="BL-03",
        applies=BLANKED,
        when=has("part_in_field", "large_area"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part covers most of the field. If all of that is blanked, no field is left."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="BL-04",
        applies=BLANKED,
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("Blanking makes the field coarser, and it fits one part only."),
        conditions=(
            mark("An authorised person has set the blanking for this part."),
            mark("The coarser resolution is posted at the brake, and tested with a test piece of that size."),
            mark("The blanking is taken out again after the job."),
        ),
        sources=(s.WAC_20046, s.CURTAIN_MANUALS),
    ),
    Rule(
        id="FB-01",
        applies=only("curtain_fixed_blank"),
        when=has("part_in_field", "moving_spot"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part shifts. A fixed window would trip, or stand open."),
        sources=(s.CURTAIN_MANUALS,),
    ),
    Rule(
        id="FB-02",
        applies=only("curtain_fixed_blank"),
        when=has("blank_gap", "open"),
        verdict=Verdict.NOT_VALID,
        reason=mark(
            "The window is not filled. Beside the object an arm gets through, because a blanked beam is off from end to end."
        ),
        sources=(s.FILLED_WINDOW, s.WAC_45516),
    ),
    Rule(
        id="FL-01",
        applies=only("curtain_float_blank"),
        when=has("part_in_field", "fixed_spot"),
        verdict=Verdict.NOT_VALID,
        reason=mark(
            "The object covers more beams than are allowed to float. Allowing that many would open the field to a hand."
        ),
        sources=(s.CURTAIN_MANUALS,),
    ),
    Rule(
        id="MU-01",
        applies=MAY_LOOK_AWAY,
        when=LOOKS_AWAY_EARLY & ~SLOW_AND_HELD,
        verdict=Verdict.NOT_VALID,
        reason=mark("The field looks away too early. The ram is fast, and the gap is still wide enough for a finger."),
        sources=(s.DGUV_030_GAP, s.LETTER_1980_MUTING, s.LETTER_1991),
    ),
    Rule(
        id="MU-02",
        applies=MAY_LOOK_AWAY,
        when=LOOKS_AWAY_EARLY & SLOW_AND_HELD,
        verdict=Verdict.VALID_COND,
        reason=mark("A finger fits when the field looks away. From there on only slow closing protects."),
        conditions=(
            mark("The control forces slow closing from the mute point on; nobody has to select it."),
            mark("It closes at 10 mm/s or less and stops on release."),
        ),
        sources=(s.DGUV_030_4, s.LETTER_2012_JAN),
    ),
    Rule(
        id="MU-03",
        applies=MAY_LOOK_AWAY,
        when=has("mute_starts", "by_hand"),
        verdict=Verdict.NOT_VALID,
        reason=mark("A person can turn the field off by hand. Muting must come and go by itself."),
        sources=(s.IEC_61496_1, s.LETTER_1980_MUTING),
    ),
    Rule(
        id="MU-04",
        applies=MAY_LOOK_AWAY,
        when=~has("mute_starts", "not_used") & has("mute_signals", "one"),
        verdict=Verdict.NOT_VALID,
        reason=mark("One signal starts the muting. If that one sticks, the field never watches again."),
        sources=(s.CURTAIN_MANUALS,),
    ),
    Rule(
        id="MU-05",
        applies=only("curtain_muted"),
        when=has("part_in_field", "after_pinch_only") & has("mute_starts", "not_used", "upstroke_only"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The rising leg breaks the field and nothing mutes it. The ram stops in each bend."),
        sources=(s.PRACTICE,),
    ),
)
