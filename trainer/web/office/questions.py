"""The questions that auditors ask, each a sentence with blanks."""

from collections.abc import Sequence
from datetime import date

from dateutil.relativedelta import relativedelta
from flask import url_for

from trainer.bank import Bank
from trainer.records.checkpoints import Checkpoint
from trainer.records.instants import read_instant
from trainer.records.privacy.requests import RequestRow
from trainer.records.roster.imports import ImportRow
from trainer.web.filters import day
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import Deadline, Ledger, QuestionsPage
from trainer.web.office.privacypages import left
from trainer.web.roster import Roster
from trainer.web.sheet import Box, Link, moment
from trainer.web.standings import any_of
from trainer.web.words import _, ngettext
from trainer.wording import Sentence


def questions_page(
    bank: Bank,
    roster: Roster,
    last: Checkpoint | None,
    *,
    today: date,
    waiting: Sequence[RequestRow] = (),
    last_roster: ImportRow | None = None,
    refusal: Sentence | None = None,
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
        deadlines=_deadlines(waiting, last_roster, today),
    )


def _deadlines(waiting: Sequence[RequestRow], last: ImportRow | None, today: date) -> tuple[Deadline, ...]:
    """Return what the office itself has to do; asked of the record cheaply, as this sheet is opened often."""
    told = _("No request is open.")
    if waiting:
        open_ones = ngettext("%(num)s request is open.", "%(num)s requests are open.", len(waiting))
        told = f"{open_ones} " + _(
            "Due on %(day)s: %(left)s.", day=day(waiting[0].due_on), left=left(waiting[0].due_on, today)
        )
    ask = Link(label=_("Answer it") if waiting else _("Enter one"), url=url_for("office.requests"))
    read = _("No roster was taken yet.")
    if last is not None:
        read = _("Last taken on %(moment)s: %(changed)s changed.", moment=moment(last.at), changed=last.changed)
    roster = Link(label=_("See the log"), url=url_for("office.roster"))
    keep = Link(label=_("Look at what has had its time"), url=url_for("office.retention"))
    return (
        Deadline(title=_("Requests about own data"), words=told, act=ask),
        Deadline(title=_("Roster"), words=read, act=roster),
        Deadline(title=_("Retention"), words=_("Rules, legal holds, what is kept until when."), act=keep),
    )


def _ledger(last: Checkpoint | None) -> Ledger:
    if last is None:
        return Ledger(number=_("No checkpoint yet"), words="")
    number = ngettext("%(num)s entry", "%(num)s entries", last.entries)
    return Ledger(number=number, words=_("under the checkpoint of %(moment)s", moment=moment(read_instant(last.at))))
