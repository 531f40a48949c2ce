"""Drills made in memory for what the shipped ones do not have, and the shipped bank."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from trainer.assessment.paper import Sheet, SheetKind
from trainer.bank import Bank, open_bank
from trainer.bank.model import ComputeDrill, Text

CONTENT = Path(__file__).parents[2] / "content"


def words(text: str = "—") -> Text:
    return Text(words={"en": text})


def made_drill(problem: str, inputs: Mapping[str, Any], slips: tuple[str, ...] = (), **more: Any) -> ComputeDrill:
    return ComputeDrill.model_validate(
        {
            "id": "PB-D99",
            "version": 1,
            "kind": "compute",
            "competency": "mounting-distance",
            "sources": (),
            "title": words(),
            "told": words(),
            "asked": words(),
            "drawings": {},
            "drawing_texts": {},
            "problem": problem,
            "unit": "mm",
            "inputs": inputs,
            "slips": slips,
            "over": "100 mm",
            **more,
        }
    )


def sheet_of(drill: ComputeDrill, drawn: Mapping[str, str]) -> Sheet:
    return Sheet(
        number=1, kind=SheetKind.DRILL, item=drill.id, version=drill.version, competency=drill.competency, drawn=drawn
    )


def bank_with(bank: Bank, *drills: ComputeDrill) -> Bank:
    return bank.model_copy(update={"drills": {**bank.drills, **{drill.id: drill for drill in drills}}})


@cache
def shipped() -> Bank:
    return open_bank(CONTENT)


def computed(bank: Bank) -> list[ComputeDrill]:
    return [drill for drill in bank.drills.values() if isinstance(drill, ComputeDrill)]


# 14 + 1 × 201.9 = 215.9 mm, which is 8 1/2 in: the right answer of the reference's table of nasty inputs.
NASTY = made_drill(
    "effective-object-sensitivity", {"object-sensitivity": "14 mm", "beams-blanked": "1", "beam-pitch": "201.9 mm"}
)
NASTY_DRAW = {"object-sensitivity": "14 mm", "beams-blanked": "1", "beam-pitch": "201.9 mm"}
# The figures of a printed example: T = 194 ms, O_eff = 34 mm, D_s = 402.20344 mm.
BLANKED_DRAW = {
    "stopping-time": "120 ms",
    "control-response": "25 ms",
    "device-response": "20 ms",
    "monitor-allowance": "29 ms",
    "object-sensitivity": "14 mm",
    "beams-blanked": "2",
    "beam-pitch": "10 mm",
}
BLANKED_SLIPS = (
    "nominal-sensitivity",
    "beams-as-millimetres",
    "pitch-added-to-distance",
    "leaves-out-monitor",
    "leaves-out-device",
    "leaves-out-control",
    "leaves-out-penetration",
    "bare-press-rule",
    "milliseconds-as-hundredths",
    "inches-as-millimetres",
    "rounds-down",
    "rounds-down-far",
)
BLANKED = made_drill("ansi-presence-sensing", BLANKED_DRAW, BLANKED_SLIPS)
