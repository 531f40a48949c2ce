"""Taking an identity out: who a key belongs to is forgotten; what was done stays, and every chain still verifies.

Name, numbers, badge, login, PIN, password, birthday, shift, crew, agency and the log of sign-ins go. Entries, sittings,
answers and practicals stay under the opaque key, so counts and proofs stay whole. The act is itself an entry.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import delete, func, select

from trainer.errors import RecordError
from trainer.records import access, asking, hashing, hazards, heads, ledger, reminders, sessions
from trainer.records.chain import Entry, EntryKind
from trainer.records.models import (
    Asked,
    Hazard,
    MailAddress,
    Person,
    PersonName,
    PrivacyRequest,
    Secret,
    SignIn,
    WebSession,
)
from trainer.records.names import folded
from trainer.records.people import PersonRow, must
from trainer.records.privacy import requests
from trainer.records.privacy.namesakes import Wanted, entries_naming, must_not_name
from trainer.records.privacy.officers import checked_reason, must_be_officer, not_erased
from trainer.records.privacy.periods import Period, period
from trainer.records.work import Reading, Writing
from trainer.wording import Sentence, say

ERASED = "erased"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What taking an identity out would do.

    ``refusals`` stand against it; a ``firm`` one cannot be overruled. ``removes`` counts what goes, by what it is,
    ``entries`` how many stay, ``named_in`` are the numbers of those whose words may still name the person.
    """

    person: PersonRow
    period: Period
    refusals: tuple[Sentence, ...]
    firm: bool
    removes: dict[str, int]
    entries: int
    named_in: tuple[int, ...]


def plan(r: Reading, person: str) -> Plan:
    """Return what taking a person's identity out would do; changes nothing."""
    found = not_erased(must(r, person))
    kept = period(r, found)
    firm = tuple(_firm(found, kept))
    return Plan(
        person=found,
        period=kept,
        refusals=(*firm, *_yielding(r, found, kept)),
        firm=bool(firm),
        removes=_removed(r, person),
        entries=sum(1 for _ in ledger.entries(r, person=person)),
        named_in=tuple(entries_naming(r, Wanted(r, found))),
    )


def erase(w: Writing, person: str, *, by: str, reason: str, force: bool = False) -> Entry:
    """Take a person's identity out and return the entry that says so.

    Refused under a legal hold and while the person is here, always; inside the retention period, or without rules for
    it, unless an officer forces it, which the entry says. Raises :class:`RecordError` then.
    """
    must_be_officer(w, by)
    heads.alone(w)  # what is checked here must still be so when it is done
    found = not_erased(must(w, person))
    wanted, why = Wanted(w, found), checked_reason(reason)
    must_not_name(wanted, why)
    kept = period(w, found)
    firm, yielding = list(_firm(found, kept)), list(_yielding(w, found, kept))
    if firm or (yielding and not force):
        raise RecordError((firm or yielding)[0])
    return take_out(w, person, by=by, note=why, forced=bool(yielding))


def take_out(w: Writing, person: str, *, by: str, note: str, forced: bool) -> Entry:
    """Take an identity out without asking again whether that may be; whoever calls has asked."""
    body = {"event": ERASED, "note": note, "forced": forced}
    entry = ledger.append(w, person, EntryKind.EVENT, body, happened_on=w.today(), by=by)
    requests.answer_open(w, person=person, kind=requests.Wish.ERASURE, by=by, words=entry.reference)
    _forget(w, person)
    return entry


def pseudonym(key: str) -> str:
    """Return what stands in place of name and number: it tells two people apart and says nothing about either."""
    return f"erased-{key[:12]}"


def _firm(person: PersonRow, kept: Period) -> Iterator[Sentence]:
    if kept.hold is not None:
        yield say(
            "There is a legal hold since {day} (L-{entry}); it has to be lifted first.",
            day=kept.hold.since.isoformat(),
            entry=kept.hold.entry,
        )
    if person.status == "active":
        yield say("This person still belongs to the site; note first when they leave.")


def _yielding(r: Reading, person: PersonRow, kept: Period) -> Iterator[Sentence]:
    if person.status == "active":
        return
    if kept.unset:
        yield say("No rule says how long to keep: {kinds}.", kinds=", ".join(kept.unset))
    elif kept.until is not None and r.today() <= kept.until:
        yield say("It is to be kept until {day}, by the rule for {kind}.", day=kept.until.isoformat(), kind=kept.kind)


def _removed(r: Reading, person: str) -> dict[str, int]:
    counted = {
        "names": select(func.count()).where(PersonName.person == person),
        "secrets": select(func.count()).where(Secret.person == person),
        "sign-ins": select(func.count()).where(SignIn.person == person),
        "sessions": select(func.count()).where(WebSession.person == person),
        "mail-address": select(func.count()).where(MailAddress.person == person),
        "hazard-names": select(func.count()).where(Hazard.person == person),
        "question-names": select(func.count()).where(Asked.person == person),
    }
    return {what: r.session.scalar(query) or 0 for what, query in counted.items()}


def _forget(w: Writing, person: str) -> None:
    beside = (hashing, access, sessions, hazards, asking, reminders)
    for forget in (each.forget for each in beside):
        forget(w, person)
    for request in w.session.scalars(select(PrivacyRequest).where(PrivacyRequest.person == person)):
        request.note = ""
    found = w.session.get_one(Person, person)
    w.session.execute(delete(PersonName).where(PersonName.person == person))
    alias = pseudonym(person)
    found.number = found.name = found.sort_name = alias
    found.badge = found.login = found.agency = found.born = found.started = None
    found.shift = found.crew = ""
    found.language, found.kind, found.status, found.erased = "en", "employee", "left", True
    found.roles = []
    w.session.add(
        PersonName(
            person=person,
            number=alias,
            name=alias,
            sort_name=alias,
            folded=folded(alias),
            since=found.ended or w.today(),
            recorded_at=w.now(),
        )
    )
    w.session.flush()
