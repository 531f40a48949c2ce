"""What the register says of a machine's safeguard on a day, and what a drill about it is drawn from."""

from dataclasses import dataclass
from datetime import date

from trainer.assessment.own import OwnMachine
from trainer.errors import UsageError
from trainer.records.machines import MachineRow
from trainer.safeguarding.problems import problem
from trainer.safeguarding.register import OnFile, on_file
from trainer.safeguarding.stopping import KEY, History, Unmeasured, history
from trainer.safeguarding.trend import StopReading
from trainer.units import parse, show
from trainer.wording import Sentence

PLACES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What the register says of a machine's safeguard on a day; ``found`` is None where something is missing or wrong."""

    on_file: OnFile
    found: History | Unmeasured | None
    wrong: Sentence | None

    @property
    def too_close(self) -> bool:
        """Say whether somebody can be hurt: the safeguard is known to stand too close."""
        return isinstance(self.found, History) and self.found.too_close

    @property
    def measured_in_time(self) -> bool:
        """Say whether the stopping time was measured within its interval."""
        return isinstance(self.found, History) and self.found.on <= self.found.due


def readings_of(machine: MachineRow) -> list[StopReading]:
    """Return the stopping times of a machine, for the sums."""
    return [StopReading(on=one.on, time=parse(one.time, "time")) for one in machine.readings]


def judge(machine: MachineRow, on: date) -> Judged:
    """Judge whether a machine's safeguard stands far enough, from nothing but what is on file."""
    filed = on_file(machine.facts, machine.id)
    if filed.mounted is None:
        return Judged(on_file=filed, found=None, wrong=filed.wrong)
    try:
        return Judged(on_file=filed, found=history(readings_of(machine), filed.mounted, on=on), wrong=None)
    except UsageError as error:
        return Judged(on_file=filed, found=None, wrong=error.sentence)


def own_machine(machine: MachineRow, on: date) -> OwnMachine | None:
    """Return what a drill about this machine is drawn from; None while a fact is missing or the reading is too old."""
    seen = judge(machine, on)
    if seen.on_file.mounted is None or not isinstance(seen.found, History) or not seen.measured_in_time:
        return None
    name = seen.on_file.mounted.name
    inputs = {field.key: machine.facts[field.key] for field in problem(name).fields if field.key in machine.facts}
    return OwnMachine(
        id=machine.id,
        name=machine.name,
        problem=name,
        inputs={**inputs, KEY: show(seen.found.use, "ms", PLACES)},
        mounted=show(seen.found.mounted, "mm", PLACES),
        measured_on=seen.found.measured_on,
        too_close=seen.too_close,
    )
