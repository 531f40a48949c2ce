"""The questions that auditors ask, each a sentence with blanks."""

from datetime import date

from dateutil.relativedelta import relativedelta

from trainer.bank import Bank
from trainer.records.checkpoints import Checkpoint
from trainer.records.instants import read_instant
from trainer.web.filters import day
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import Ledger, QuestionsPage
from trainer.web.roster import Roster
from trainer.web.sheet import Box, moment
from trainer.web.standings import any_of
from trainer.web.words import _, ngettext
from trainer.wording import Sentence


def questions_page(
    bank: Bank, roster: Roster, last: Checkpoint | None, *, today: date, refusal: Sentence | None = None
) -> QuestionsPage:
    """Build the sheet."""
    machines = tuple((machine, machine) for machine in roster.machines)
    taught = {kind for programme in bank.programmes.values() for kind in programme.machine_kinds}
    first = next((machine.id for machine in roster.machines.values() if machine.kind in taught), None)
    return QuestionsPage(
        frame=office_frame(
            "office.questions",
            _("What does the auditor ask?"),
            Box(label=_("People on the roster"), value=str(len(roster.present()))),
        ),
        ledger=_ledger(last),
        machines=machines,
        machine=first or "",
        any_machine=any_of(machines),
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        today=day(today),
        first=day(today - relativedelta(years=1)),
        refusal=refusal,
    )


def _ledger(last: Checkpoint | None) -> Ledger:
    if last is None:
        return Ledger(number=_("No checkpoint yet"), words="")
    number = ngettext("%(num)s entry", "%(num)s entries", last.entries)
    return Ledger(number=number, words=_("under the checkpoint of %(moment)s", moment=moment(read_instant(last.at))))
