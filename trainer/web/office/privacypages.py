"""Requests of people about their own data, each with its due day, and taking an identity out, as data for the sheets."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from trainer.records.people import PersonRow
from trainer.records.privacy.erasing import Plan
from trainer.records.privacy.requests import RequestRow, Wish
from trainer.web.filters import day
from trainer.web.office.frames import office_frame
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Link, Named, address
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence

WISHES = MappingProxyType(
    {
        Wish.COPY: _l("a copy of their data"),
        Wish.ERASURE: _l("to be taken out"),
        Wish.CORRECTION: _l("something put right"),
        Wish.OBJECTION: _l("objects to a use"),
    }
)
REMOVED = MappingProxyType(
    {
        "names": _l("names and numbers of now and before"),
        "secrets": _l("PIN and password"),
        "sign-ins": _l("sign-ins"),
        "sessions": _l("sessions"),
        "mail-address": _l("mail address"),
        "hazard-names": _l("the name on reports of hazards"),
        "question-names": _l("the name on questions"),
    }
)
NEWEST = 50  # answered requests on the sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedRow:
    """One request. ``late`` is filled once its day is over, ``act`` where something else than words answers it."""

    id: int
    reference: str
    person: Named
    wish: str
    received: str
    due: str
    left: str
    late: bool
    note: str
    copy: str
    act: Link | None
    answered: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RequestsPage:
    """What people asked about their own data: open ones first, by their due day."""

    frame: Frame
    answer: str
    open: tuple[AskedRow, ...]
    done: tuple[AskedRow, ...]
    wishes: tuple[tuple[str, str], ...]
    fields: Mapping[str, str]
    refusal: Sentence | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ErasePage:
    """What taking an identity out would do."""

    frame: Frame
    person: Named
    key: str
    against: tuple[Sentence, ...]
    firm: bool
    goes: tuple[tuple[str, int], ...]
    stays: str
    until: str
    named_in: tuple[int, ...]
    reason: str
    forced: bool
    refusal: Sentence | None
    back: Link


def requests_page(
    rows: Sequence[RequestRow],
    people: Mapping[str, PersonRow],
    today: date,
    *,
    fields: Mapping[str, str],
    refusal: Sentence | None = None,
) -> RequestsPage:
    """Build the sheet of requests."""
    waiting = [row for row in rows if row.answered_on is None]
    done = sorted((row for row in rows if row.answered_on), key=lambda row: row.id, reverse=True)[:NEWEST]
    return RequestsPage(
        frame=office_frame("office.requests", _("Requests"), Box(label=_("Open"), value=str(len(waiting)))),
        answer=_answer(waiting, today),
        open=tuple(_row(row, people, today) for row in waiting),
        done=tuple(_row(row, people, today) for row in done),
        wishes=tuple((wish.value, str(words)) for wish, words in WISHES.items()),
        fields=fields,
        refusal=refusal,
    )


def _answer(waiting: Sequence[RequestRow], today: date) -> str:
    if not waiting:
        return _("No request is open.")
    late = sum(row.due_on < today for row in waiting)
    count = ngettext("%(num)s request is open.", "%(num)s requests are open.", len(waiting))
    if late:
        return f"{count} " + ngettext("%(num)s is overdue.", "%(num)s are overdue.", late)
    return f"{count} " + _("The next is due on %(day)s.", day=day(waiting[0].due_on))


def _row(row: RequestRow, people: Mapping[str, PersonRow], today: date) -> AskedRow:
    waiting, late = row.answered_on is None, row.answered_on is None and row.due_on < today
    erase = address("office.erase", key=row.person)
    return AskedRow(
        id=row.id,
        reference=row.reference,
        person=named(people[row.person], "office.person"),
        wish=str(WISHES[row.kind]),
        received=day(row.received_on),
        due=day(row.due_on),
        left=left(row.due_on, today) if waiting else "",
        late=late,
        note=row.note,
        copy=row.person if waiting and row.kind is Wish.COPY else "",
        act=Link(label=_("See what would go"), url=erase) if waiting and row.kind is Wish.ERASURE else None,
        answered=day(row.answered_on),
        words=row.answer,
    )


def left(due: date, today: date) -> str:
    """Say how many days are left to a day, or how many it is over."""
    days = (due - today).days
    if days < 0:
        return ngettext("%(num)s day overdue", "%(num)s days overdue", -days)
    return ngettext("%(num)s day left", "%(num)s days left", days)


def erase_page(plan: Plan, *, reason: str = "", forced: bool = False, refusal: Sentence | None = None) -> ErasePage:
    """Build the sheet that says what would go, what stays and what stands against it."""
    person = plan.person
    kept = ngettext(
        "%(num)s entry with papers and answers, under a key that says nothing",
        "%(num)s entries with papers and answers, under a key that says nothing",
        plan.entries,
    )
    until = plan.period.until
    return ErasePage(
        frame=office_frame("office.requests", _("Taking out: %(person)s", person=person.name)),
        person=named(person, "office.person"),
        key=person.key,
        against=plan.refusals,
        firm=plan.firm,
        goes=tuple((str(REMOVED.get(what, what)), count) for what, count in plan.removes.items() if count),
        stays=kept,
        until=_("By the rules it is to be kept until %(day)s.", day=day(until)) if until else "",
        named_in=plan.named_in,
        reason=reason,
        forced=forced,
        refusal=refusal,
        back=Link(label=_("Leave it"), url=address("office.requests")),
    )
