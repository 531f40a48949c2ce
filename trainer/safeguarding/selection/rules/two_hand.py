"""Rules for two-hand control, and for two-hand control that hands over to a pedal."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import above_small_gap, has, too_near
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.rules.shared import FULL_REVOLUTION, SLOW_AND_HELD
from trainer.safeguarding.selection.rulesets import INTL
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

BOTH_KINDS = only("two_hand", "two_hand_foot")
FINGER_FITS_AT_CHANGEOVER = above_small_gap("changeover_gap_mm")

RULES = (
    Rule(
        id="TH-01",
        applies=BOTH_KINDS,
        when=has("two_hand_build", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="TH-02",
        applies=only("two_hand"),
        when=has("part_holding", "hand_held"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part needs a hand, and the buttons need two. Somebody would fix one button."),
        sources=(s.WAC_46502, s.PRACTICE),
    ),
    Rule(
        id="TH-03",
        applies=BOTH_KINDS,
        when=has("two_hand_build", "weak"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The buttons can be cheated. Then a hand is free while the tools close."),
        sources=(s.DGUV_008_13, s.WAC_20052),
    ),
    Rule(
        id="TH-04",
        applies=BOTH_KINDS,
        when=too_near("th_at_mm", "th_needs_mm"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The buttons are too close. A hand gets from button to tools before the tools are at rest."),
        sources=(s.CFR_217_TWO_HAND, s.ISO_13855_8),
    ),
    Rule(
        id="TH-05",
        applies=only("two_hand"),
        sets=frozenset({INTL}),
        when=has("build", "from_2002_08"),
        verdict=Verdict.NOT_VALID,
        reason=mark("On a brake built in or after August 2002, two-hand control may not stand alone."),
        sources=(s.DGUV_008_14_2,),
    ),
    Rule(
        id="TH-06",
        applies=BOTH_KINDS,
        when=has("actuation", "foot_trip", "foot_hold"),
        verdict=Verdict.VALID_COND,
        reason=mark("A pedal mode is selected. While a pedal works, the buttons protect nobody."),
        conditions=(
            mark("The two-hand mode is selected and the selector is locked."),
            mark("No pedal that could start the ram by itself is left at the brake."),
        ),
        sources=(s.ACCIDENT_PEDAL, s.PRACTICE),
    ),
    Rule(
        id="TH-07",
        applies=only("two_hand"),
        when=~FULL_REVOLUTION & has("can_stop_mid_stroke", "no"),
        verdict=Verdict.NOT_VALID,
        reason=mark("When the hands leave the buttons this ram goes on."),
        sources=(s.CFR_217_TWO_HAND, s.PRACTICE),
    ),
    Rule(
        id="TF-01",
        applies=only("two_hand_foot"),
        when=FINGER_FITS_AT_CHANGEOVER & ~SLOW_AND_HELD,
        verdict=Verdict.NOT_VALID,
        reason=mark("The pedal takes over too early. Hands are free while a finger still fits, and the ram is fast."),
        sources=(s.DGUV_030_GAP, s.B11_3_GAP),
    ),
    Rule(
        id="TF-02",
        applies=only("two_hand_foot"),
        when=FINGER_FITS_AT_CHANGEOVER & SLOW_AND_HELD,
        verdict=Verdict.VALID_COND,
        reason=mark("A finger fits when the pedal takes over. From there on only slow closing protects."),
        conditions=(
            mark("The buttons must be held until the ram is slow."),
            mark("The rest closes at 10 mm/s or less and stops when the pedal is released."),
        ),
        sources=(s.DGUV_008_14_2, s.DGUV_008_20_2, s.LETTER_2012_JAN),
    ),
    Rule(
        id="TF-03",
        applies=only("two_hand_foot"),
        when=~has("actuation", "two_hand_then_foot"),
        verdict=Verdict.VALID_COND,
        reason=mark("Another mode is selected. The order of hands first, pedal second is not forced."),
        conditions=(mark("Two-hand first, pedal second is selected and locked; the control forces that order."),),
        sources=(s.DGUV_008_20_2, s.PRACTICE),
    ),
)
