"""Rules for what helps but never protects by itself, and for the pedal, which is no safeguard."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import ALWAYS
from trainer.safeguarding.selection.rule import Rule, only
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

RULES = (
    Rule(
        id="HT-01",
        applies=only("hand_tools"),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("A tool keeps the hand farther away, but it stops nothing. Add it to a safeguard."),
        sources=(s.CFR_212_TOOLS, s.MICHIGAN_TOOLS),
    ),
    Rule(
        id="AB-01",
        applies=only("awareness_barrier"),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("It warns. Neither a hand nor the ram is held back by it."),
        sources=(s.PRACTICE, s.CPL_SUMMARY),
    ),
    Rule(
        id="TR-01",
        applies=only("signs_training"),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("People must have it for any work. It protects nobody's hands."),
        sources=(s.CFR_212_A1, s.ISO_12100),
    ),
    Rule(
        id="SR-01",
        applies=only("side_rear_guards"),
        when=ALWAYS,
        verdict=Verdict.SUPPLEMENTARY,
        reason=mark("Each job needs them. But they leave open the side where you work."),
        sources=(s.DGUV_030_4, s.CPL_D1),
    ),
    Rule(
        id="FS-01",
        applies=only("foot_switch"),
        when=ALWAYS,
        verdict=Verdict.NOT_VALID,
        reason=mark("The pedal tells the ram to close. A cover only keeps it from being stepped on by chance."),
        sources=(s.BGHM_001, s.DGUV_008_14_1),
    ),
)
