"""Rules for what is worn on the wrists: pull-backs and restraints."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import ALWAYS, has
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.rulesets import INTL, US
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

RULES = (
    Rule(
        id="WD-01",
        applies=only("pull_back", "restraint"),
        sets=frozenset({INTL}),
        when=ALWAYS,
        verdict=Verdict.NOT_VALID,
        reason=mark("The international rules do not name devices on the wrists among the measures for press brakes."),
        sources=(s.EN_12622, s.DGUV_030_4_PART),
    ),
    Rule(
        id="PB-01",
        applies=only("pull_back"),
        sets=frozenset({US}),
        when=has("pullback_set", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="PB-02",
        applies=only("pull_back"),
        sets=frozenset({US}),
        when=has("pullback_set", "other_operator", "other_die"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The cables are set for other arms or another die. They may be too slack to draw the hands out."),
        sources=(s.CFR_217_PULL_OUT,),
    ),
    Rule(
        id="PB-03",
        applies=only("pull_back"),
        sets=frozenset({US}),
        when=has("pullback_set", "not_checked"),
        verdict=Verdict.CANNOT_RELY,
        reason=mark(
            "Nobody has checked the cables this shift. Check them on the wrists, at this die, before the work."
        ),
        sources=(s.CFR_217_PULL_OUT,),
    ),
    Rule(
        id="PB-04",
        applies=only("pull_back"),
        sets=frozenset({US}),
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("The ram itself draws the hands out, so a slow stop does not matter. It serves one person."),
        conditions=(
            mark("Both wrists of this operator are attached."),
            mark("The cables are checked at the start of the shift, and again after each change of die or operator."),
        ),
        sources=(s.CCR_PULL_OUT, s.CFR_217_PULL_OUT, s.LETTER_1975),
    ),
    Rule(
        id="RS-01",
        applies=only("restraint"),
        sets=frozenset({US}),
        when=has("restraint_set", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="RS-02",
        applies=only("restraint"),
        sets=frozenset({US}),
        when=has("restraint_set", "too_long", "other_operator"),
        verdict=Verdict.NOT_VALID,
        reason=mark("With arms stretched out the fingertips still get to the tools."),
        sources=(s.WAC_45520,),
    ),
    Rule(
        id="RS-03",
        applies=only("restraint"),
        sets=frozenset({US}),
        when=has("needs_reach_in", "yes"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Loading needs hands between the tools. A restraint forbids that, so somebody would let it out."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="RS-04",
        applies=only("restraint"),
        sets=frozenset({US}),
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("It is right for one person at one tool, and for nobody else."),
        conditions=(
            mark("Both hands are attached and the anchor is sound."),
            mark("With arms stretched out, this operator cannot touch these tools."),
            mark("It is checked again after each change of tool or operator."),
        ),
        sources=(s.WAC_45520, s.CCR_RESTRAINT),
    ),
)
