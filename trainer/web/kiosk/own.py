"""The shop's own machine in a paper: which one it is drawn from, and telling the trainer where it stands too close."""

from collections.abc import Iterable

from trainer.assessment import judging
from trainer.assessment.own import OwnMachine
from trainer.assessment.paper import Paper
from trainer.records import hazards, machines
from trainer.records.mounts import own_machine
from trainer.records.work import Reading, Writing
from trainer.wording import say


def own_machine_of(r: Reading, ids: Iterable[str]) -> OwnMachine | None:
    """Return the first of the machines from which a drill can be drawn today."""
    found = (own_machine(machines.get(r, machine), r.today()) for machine in ids)
    return next((own for own in found if own is not None), None)


def tell_trainer(w: Writing, own: OwnMachine, paper: Paper, kiosk: str) -> None:
    """Report a machine that a paper asks about and that stands too close, once while the report is open."""
    if not own.too_close or not any(judging.MACHINE in sheet.drawn for sheet in paper.sheets):
        return
    words = str(
        say(
            "The safeguard of {machine} stands at {mounted}. By its stopping time of {time} that is too close. Stop using it.",
            machine=own.id,
            mounted=own.mounted,
            time=own.inputs["stopping-time"],
        )
    )
    if not any(row.machine == own.id and row.words == words for row in hazards.reports(w, only_open=True)):
        hazards.report(w, words=words, kiosk=kiosk, machine=own.id)
