"""Rules for every kind of light curtain, blanked and muted ones included."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import between, has, too_near
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.safeguards import CURTAINS
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

# A hand exactly at the field stands in it; the sheet's "nearer than the field" is taken on the safe side.
HAND_IN_THE_FIELD = has("part_holding", "hand_held") & between(
    "hand_mm", "curtain_at_mm", lambda hand, field, _by: hand <= field
)

RULES = (
    Rule(
        id="LC-01",
        applies=CURTAINS,
        when=has("curtain_state", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LC-02",
        applies=CURTAINS,
        when=has("curtain_state", "bypassed"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The curtain is there but it is off. It sees nothing."),
        sources=(s.ACCIDENT_CURTAIN_OFF, s.CFR_212_A1),
    ),
    Rule(
        id="LC-03",
        applies=only("curtain", "curtain_muted"),
        when=too_near("curtain_at_mm", "curtain_needs_mm"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The curtain is too close. A hand gets from the field to the tools before the ram is at rest."),
        sources=(s.CFR_217_DISTANCE, s.LETTER_1980_FORMULA, s.ISO_13855_6),
    ),
    Rule(
        id="LC-05",
        applies=CURTAINS,
        when=~has("reach_past", "closed"),
        verdict=Verdict.NOT_VALID,
        reason=mark("A hand gets past the field without breaking it."),
        sources=(s.WAC_45516, s.DGUV_008_10),
    ),
    Rule(
        id="LC-06",
        applies=CURTAINS,
        when=has("stand_inside", "possible"),
        verdict=Verdict.NOT_VALID,
        reason=mark("A person fits between field and tools. Whoever stands there is not seen."),
        sources=(s.LETTER_1998_WALK_IN, s.DGUV_008_10),
    ),
    Rule(
        id="LC-07",
        applies=CURTAINS,
        when=has("starts_by_field", "yes"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The ram starts when the field is clear. What protects must not give the order to close."),
        sources=(s.CFR_217_TRIP_BY_FIELD, s.DGUV_008_19),
    ),
    Rule(
        id="LC-08",
        applies=CURTAINS,
        when=has("everyone_covered", "no"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Somebody can reach the tools from outside this field. For that person the brake is unguarded."),
        sources=(s.DGUV_030_4, s.CFR_212_A1),
    ),
    Rule(
        id="LC-09",
        applies=CURTAINS,
        when=HAND_IN_THE_FIELD,
        verdict=Verdict.NOT_VALID,
        reason=mark(
            "The hand that holds the part is in the field. The ram will not close, and the curtain gets turned off."
        ),
        sources=(s.PRACTICE, s.TRADE_PRESS),
    ),
    Rule(
        id="LC-10",
        applies=CURTAINS,
        when=has("blanking_setting", "left_from_other_part"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Beams are still off for another part. Nothing fills that hole now."),
        sources=(s.WAC_20046, s.DGUV_008_10),
    ),
    Rule(
        id="LC-11",
        applies=CURTAINS,
        when=has("environment", "shiny_near"),
        verdict=Verdict.CANNOT_RELY,
        reason=mark(
            "A mirror can lead light round a hand. Put the part in place and try the field with the test piece."
        ),
        sources=(s.IEC_61496_2,),
    ),
    Rule(
        id="LC-12",
        applies=CURTAINS,
        when=has("environment", "mist_or_flash"),
        verdict=Verdict.VALID_COND,
        reason=mark("Mist, dust or glare trips the field. That is safe, but it tempts people to turn it off."),
        conditions=(mark("The cause of the false trips is dealt with, and the lenses are clean."),),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LC-13",
        applies=only("curtain"),
        when=~has("part_in_field", "clear"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part breaks the field, so each bend would stop. Take a kind of curtain that fits this part."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="LC-14",
        applies=only("curtain_muted"),
        when=has("part_in_field", "fixed_spot", "moving_spot", "large_area"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part breaks the field before muting begins. Muting earlier would leave room for a finger."),
        sources=(s.PRACTICE, s.LETTER_1980_MUTING),
    ),
)
