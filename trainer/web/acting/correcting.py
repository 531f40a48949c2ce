"""Putting an entry right: it does not count, it happened on another day, or it belongs to somebody else."""

from collections.abc import Sequence

from trainer.errors import UsageError
from trainer.records import Reading, Writing, acts, ledger, people
from trainer.records.ledger import Entry, EntryKind
from trainer.web.acting.act import Act, Asked, why
from trainer.web.acting.blanks import Blank
from trainer.web.words import _, _l
from trainer.wording import say

MOVED = frozenset({EntryKind.CORRECTED, EntryKind.MOVED})


def _entry_blank() -> Blank:
    return Blank(name="entry", label=_("Entry"), kind="text", hint="L-123")


def _number(w: Reading, asked: Asked) -> int:
    """Return the entry's number; it has to be one of the person's own chain."""
    text = asked.given.raw("entry").strip().removeprefix("L-").removeprefix("l-")
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise UsageError(say("Write the number of the entry as L-123."))
    found = ledger.entry(w, int(text))
    if found.person != asked.person.key:
        raise UsageError(
            say("{entry} is not in the chain of {person}.", entry=found.reference, person=asked.person.name)
        )
    return found.number


def _withdraw_blanks(_r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    return _entry_blank(), why()


def _withdraw(w: Writing, asked: Asked) -> Sequence[Entry]:
    number = _number(w, asked)
    return [acts.withdraw(w, entry=number, reason=asked.given.reason(), by=asked.by, happened_on=asked.today)]


def _confirm_blanks(_r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    return _entry_blank(), Blank(name="day", label=_("happened on"), kind="day"), why()


def _confirm(w: Writing, asked: Asked) -> Sequence[Entry]:
    given, number = asked.given, _number(w, asked)
    if not given.raw("day").strip():
        raise UsageError(say("Write the day on which it happened."))
    on = given.day("day", asked.today)
    return [acts.confirm_day(w, entry=number, day=on, reason=given.reason(), by=asked.by, happened_on=asked.today)]


def _move_blanks(_r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    return (
        _entry_blank(),
        Blank(name="to", label=_("belongs to, number"), kind="text"),
        Blank(name="second", label=_("Second who approves, number"), kind="text"),
        why(),
    )


def _move(w: Writing, asked: Asked) -> Sequence[Entry]:
    given, number = asked.given, _number(w, asked)
    to = _person(w, given.raw("to"), say("Write the number of the person to whom it belongs."))
    second = _person(w, given.raw("second"), say("Write the number of the second person, who approves it."))
    row = people.must(w, second)
    if row.status != "active" or not row.roles & {"trainer", "officer"}:
        raise UsageError(say("The second person is a trainer or an officer who is here."))
    return acts.move(
        w, entry=number, to=to, reason=given.reason(), by=asked.by, approved_by=second, happened_on=asked.today
    )


def _person(r: Reading, number: str, missing: object) -> str:
    found = people.with_number(r, number.strip())
    if len(found) != 1:
        raise UsageError(missing)  # type: ignore[arg-type]
    return found[0].key


WITHDRAW = Act(
    id="withdraw",
    title=_l("Let an entry not count"),
    note=_l("it stays on the record, struck, with the reason beside it"),
    told=(
        _l("Whoever was signed off by a right that is withdrawn has to show it again."),
        _l("It can be taken back by withdrawing the new entry."),
    ),
    blanks=_withdraw_blanks,
    do=_withdraw,
    wide=True,
)
CONFIRM = Act(
    id="confirm-day",
    title=_l("Confirm a day"),
    note=_l("of an entry whose day is in doubt or wrong"),
    told=(_l("Both days stay on the record."),),
    blanks=_confirm_blanks,
    do=_confirm,
)
MOVE = Act(
    id="move",
    title=_l("Move an entry to whom it belongs"),
    note=_l("after a badge mix-up; it takes two people"),
    told=(_l("Both histories show it. Neither of the two who do it may be one of the two whom it is about."),),
    blanks=_move_blanks,
    do=_move,
    wide=True,
    second=True,
)
