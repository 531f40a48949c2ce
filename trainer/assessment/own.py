"""A drill about a machine of the shop: by what is on file about it, is its safeguard far enough as it stands."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from trainer.assessment import judging
from trainer.bank import Bank
from trainer.bank.model import JudgeDrill
from trainer.errors import TrainerError


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnMachine:
    """What is on file about a machine, as texts with units: the sum its distance comes from, its inputs, its mounting."""

    id: str
    name: str
    problem: str
    inputs: Mapping[str, str]
    mounted: str
    measured_on: date
    too_close: bool


def own_drill(bank: Bank, own: OwnMachine) -> tuple[JudgeDrill, Mapping[str, str]] | None:
    """Return the drill of the bank that fits a machine, and what it is drawn from; None where none fits.

    It fits where it goes by the same sum and the machine's numbers leave choices that can be told apart. A machine
    that stands exactly at its least distance gives none: there is no gap to choose.
    """
    drawn = MappingProxyType(
        {
            **own.inputs,
            judging.MOUNTED: own.mounted,
            judging.MACHINE: f"{own.id} {own.name}",
            judging.MEASURED: own.measured_on.isoformat(),
        }
    )
    for drill in bank.drills.values():
        if isinstance(drill, JudgeDrill) and drill.kind == "mounted" and drill.base.problem == own.problem:
            try:
                fair = judging.is_fair(drill, drawn)
            except TrainerError:
                continue
            if fair:
                return drill, drawn
    return None
