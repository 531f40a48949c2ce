"""Rules for slow closing, the floor field, safe distance and the limited opening."""

from fractions import Fraction

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import (
    ALWAYS,
    above_small_gap,
    between,
    has,
    nearer_than,
    too_near,
    within,
)
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.rules.shared import FLYWHEEL
from trainer.safeguarding.selection.rulesets import INTL, US
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

ARM_REACH = 850  # mm, ISO 13855 (2010), second hand
FOUR_INCHES = Fraction("101.6")  # mm, OSHA CPL 02-01-025 (1997), second hand; Michigan R 408.10034 (5)

OPEN_POINT = above_small_gap("die_opening_mm")

RULES = (
    Rule(
        id="SS-01",
        applies=only("slow_hold"),
        when=has("slow_mode", "none", "over_10", "latching"),
        verdict=Verdict.NOT_VALID,
        reason=mark("It does not close at 10 mm/s or less, or it goes on when you let go."),
        sources=(s.DGUV_030_7, s.DGUV_008_21),
    ),
    Rule(
        id="SS-02",
        applies=only("slow_hold"),
        when=FLYWHEEL,
        verdict=Verdict.NOT_VALID,
        reason=mark("Slipping or inching a flywheel clutch does not give a speed that can be trusted."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="SS-03",
        applies=only("slow_hold"),
        sets=frozenset({US}),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("The federal agency accepts a safe speed together with a safeguard, and not by itself."),
        sources=(s.LETTER_2012_JAN, s.LETTER_2012_AUG),
    ),
    Rule(
        id="SS-04",
        applies=only("slow_hold"),
        sets=frozenset({INTL}),
        when=has("slow_mode", "last_part_only"),
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("The fast approach before it is left unguarded. That part needs a safeguard of its own."),
        sources=(s.DGUV_008_14_2,),
    ),
    Rule(
        id="SS-05",
        applies=only("slow_hold"),
        sets=frozenset({INTL}),
        when=has("slow_mode", "whole_stroke"),
        verdict=Verdict.VALID_COND,
        reason=mark("The whole closing is slow. That protects the hands of the person who holds the control."),
        conditions=(
            mark("The whole closing runs at 10 mm/s or less and stops on release."),
            mark("Each person at the brake holds a control of his or her own."),
            mark("The slow mode is locked."),
        ),
        sources=(s.DGUV_030_7, s.DGUV_008_11, s.DGUV_008_21, s.BGHM_001),
    ),
    Rule(
        id="DF-01",
        applies=only("distancing_field"),
        when=within("df_at_mm", 0),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="DF-02",
        applies=only("distancing_field"),
        sets=frozenset({US}),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("No United States text was found that takes a floor field alone. Use it beside a safeguard."),
        sources=(s.JUDGEMENT,),
    ),
    Rule(
        id="DF-03",
        applies=only("distancing_field"),
        sets=frozenset({INTL}),
        when=too_near("df_at_mm", "df_needs_mm"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The field is too close. Somebody can stand outside it and still reach the tools."),
        sources=(s.DGUV_008_16,),
    ),
    Rule(
        id="DF-04",
        applies=only("distancing_field"),
        sets=frozenset({INTL}),
        when=has("part_holding", "hand_held")
        & between("hand_mm", "df_at_mm", lambda hand, field, _by: hand < field - ARM_REACH),
        verdict=Verdict.NOT_VALID,
        reason=mark("The part must be held closer than an arm reaches from outside the field. You would lean over it."),
        sources=(s.ISO_13855_REACH,),
    ),
    Rule(
        id="DF-05",
        applies=only("distancing_field"),
        sets=frozenset({INTL}),
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("With a large sheet the work can be done from outside the field."),
        conditions=(
            mark("The device is of type 4."),
            mark("Each person has a pedal of his or her own."),
            mark("Nobody stands inside the field."),
        ),
        sources=(s.DGUV_008_16,),
    ),
    Rule(
        id="SD-01",
        applies=only("safe_distance"),
        sets=frozenset({INTL}),
        when=ALWAYS,
        verdict=Verdict.NOT_VALID,
        reason=mark("Each operator must be protected by a technical measure. Being told to keep back is none."),
        sources=(s.DGUV_030_4, s.DGUV_008_20_2),
    ),
    Rule(
        id="SD-02",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=has("other_feasible", "yes"),
        verdict=Verdict.NOT_VALID,
        reason=mark("A guard or a device could work here. Distance by procedure is for jobs where none can."),
        sources=(s.CPL_A, s.WAC_46504, s.CCR_DISTANCE),
    ),
    Rule(
        id="SD-03",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=has("job_kind", "repeat"),
        verdict=Verdict.NOT_VALID,
        reason=mark("This is repeat work. Distance by procedure is for custom jobs of a few pieces."),
        sources=(s.CPL_SUMMARY,),
    ),
    Rule(
        id="SD-04",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=nearer_than("hand_mm", FOUR_INCHES),
        verdict=Verdict.NOT_VALID,
        reason=mark("The hands get too close to the die. The limit is 4 in (101.6 mm)."),
        sources=(s.CPL_SUMMARY, s.MICHIGAN_4_IN),
    ),
    Rule(
        id="SD-05",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=has("sd_program", "partial", "none"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The programme behind it is not complete. Then keeping away is left to luck."),
        sources=(s.CPL_SUMMARY, s.WAC_46514),
    ),
    Rule(
        id="SD-06",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=has("needs_reach_in", "yes"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Hands go between the tools at each part. That is no distance at all."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="SD-07",
        applies=only("safe_distance"),
        sets=frozenset({US}),
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("It is a last resort: no device, one operator, one job, one distance."),
        conditions=(
            mark("It is in writing why no guard and no device works for this job."),
            mark("This operator has shown the written method and is supervised."),
            mark("No hand comes nearer to the die than 4 in (101.6 mm)."),
            mark("A barrier keeps everybody else out."),
        ),
        sources=(s.CPL_A, s.CPL_D1),
    ),
    Rule(
        id="LO-01",
        applies=only("limited_opening"),
        when=OPEN_POINT,
        verdict=Verdict.NOT_VALID,
        reason=mark("The tools open far enough for a finger."),
        sources=(s.WAC_46504, s.DGUV_030_GAP),
    ),
    Rule(
        id="LO-02",
        applies=only("limited_opening"),
        when=~OPEN_POINT,
        verdict=Verdict.VALID_COND,
        reason=mark("No finger fits between the tools, as long as the stroke stays locked."),
        conditions=(
            mark("The stroke stop is locked at this opening for the whole job."),
            mark("The opening is measured before the first piece."),
        ),
        sources=(s.WAC_46504, s.DGUV_030_GAP),
    ),
)
