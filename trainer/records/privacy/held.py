"""Everything that is held on one person, as plain data, for a copy that they may have. Other people are hidden.

Secrets are named, never given, not even hashed. What is asked of a paper is given with its items' ids, not their text:
the paper itself can be printed again from the sitting.
"""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from typing import Any

from sqlalchemy import Select, or_, select

from trainer.records import ledger
from trainer.records.chain import Entry
from trainer.records.instants import instant_text
from trainer.records.models import (
    Asked,
    AskedAnswer,
    Hazard,
    HazardAnswer,
    Kiosk,
    MachineFact,
    MachineReading,
    MailAddress,
    Person,
    PersonName,
    PrivacyRequest,
    Reminder,
    RetentionRule,
    RetentionRun,
    RosterImport,
    Secret,
    SignIn,
    Sitting,
    WebSession,
)
from trainer.records.models import (
    Entry as Stored,
)
from trainer.records.people import must
from trainer.records.privacy.masking import Mask
from trainer.records.work import Reading

Data = dict[str, Any]
Section = Callable[[Reading, str], Any]


def held(r: Reading, person: str) -> Data:
    """Return everything that is held on a person, section by section, with other people hidden."""
    must(r, person)
    mask = Mask(r, person)
    return {name: mask.of(section(r, person)) for name, section in SECTIONS.items()}


def _identity(r: Reading, person: str) -> Data:
    row = r.session.get_one(Person, person)
    return {**_columns(row), "roles": sorted(role.role for role in row.roles)}


def _columns(row: Any, *, without: Iterable[str] = ()) -> Data:
    hidden = set(without)
    found = {column.key: getattr(row, column.key) for column in row.__table__.columns if column.key not in hidden}
    return {key: _plain(value) for key, value in found.items()}


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return instant_text(value)
    return value.isoformat() if isinstance(value, date) else value


def _rows(query: Callable[[str], Select[Any]], *without: str) -> Section:
    def section(r: Reading, person: str) -> list[Data]:
        return [_columns(row, without=without) for row in r.session.scalars(query(person))]

    return section


def _entry(entry: Entry) -> Data:
    return {
        "number": entry.reference,
        "kind": entry.kind.value,
        "happened_on": entry.happened_on.isoformat(),
        "recorded_at": instant_text(entry.recorded_at),
        "recorded_by": entry.by,
        "body": dict(entry.body),
        "digest": entry.digest,
    }


def _entries(r: Reading, person: str) -> list[Data]:
    return [_entry(entry) for entry in ledger.entries(r, person=person)]


def _acts(r: Reading, person: str) -> list[Data]:
    """Say which entries about others a person wrote; what they say of those others is theirs."""
    query = (
        select(Stored.number, Stored.kind, Stored.happened_on)
        .where(Stored.by == person, Stored.person != person)
        .order_by(Stored.number)
    )
    return [
        {"number": f"L-{number}", "kind": kind, "happened_on": on.isoformat()}
        for number, kind, on in r.session.execute(query)
    ]


def _sittings(r: Reading, person: str) -> list[Data]:
    query = select(Sitting).where(Sitting.person == person).order_by(Sitting.started_at, Sitting.id)
    return [
        {
            **_columns(row, without=("paper",)),
            "paper": {key: row.paper.get(key) for key in ("programme", "edition", "fingerprint", "seed")},
            "answers": [_columns(answer, without=("sitting", "key")) for answer in row.answers],
        }
        for row in r.session.scalars(query)
    ]


SECTIONS: Mapping[str, Section] = {
    "identity": _identity,
    "names": _rows(lambda key: select(PersonName).where(PersonName.person == key).order_by(PersonName.id), "folded"),
    "secrets": _rows(lambda key: select(Secret).where(Secret.person == key).order_by(Secret.kind), "hash", "pepper"),
    "entries": _entries,
    "entries-about-others": _acts,
    "sittings": _sittings,
    "hazards": _rows(lambda key: select(Hazard).where(Hazard.person == key).order_by(Hazard.id)),
    "hazard-answers": _rows(lambda key: select(HazardAnswer).where(HazardAnswer.by == key).order_by(HazardAnswer.id)),
    "questions": _rows(lambda key: select(Asked).where(Asked.person == key).order_by(Asked.id)),
    "question-answers": _rows(lambda key: select(AskedAnswer).where(AskedAnswer.by == key).order_by(AskedAnswer.id)),
    "machine-facts": _rows(lambda key: select(MachineFact).where(MachineFact.by == key).order_by(MachineFact.id)),
    "machine-readings": _rows(
        lambda key: select(MachineReading).where(MachineReading.by == key).order_by(MachineReading.id)
    ),
    "sign-ins": _rows(lambda key: select(SignIn).where(SignIn.person == key).order_by(SignIn.id)),
    "sessions": _rows(
        lambda key: select(WebSession).where(WebSession.person == key).order_by(WebSession.began_at), "token"
    ),
    "mail-address": _rows(lambda key: select(MailAddress).where(MailAddress.person == key)),
    "reminders": _rows(lambda key: select(Reminder).where(Reminder.person == key).order_by(Reminder.id), "letter"),
    "requests": _rows(
        lambda key: select(PrivacyRequest).where(PrivacyRequest.person == key).order_by(PrivacyRequest.id)
    ),
    "rules-set": _rows(lambda key: select(RetentionRule).where(RetentionRule.by == key).order_by(RetentionRule.id)),
    "kiosks": _rows(
        lambda key: select(Kiosk).where(or_(Kiosk.invited_by == key, Kiosk.withdrawn_by == key)).order_by(Kiosk.id),
        "code",
        "token",
    ),
    "rosters-taken": _rows(lambda key: select(RosterImport).where(RosterImport.by == key).order_by(RosterImport.id)),
    "removals-run": _rows(lambda key: select(RetentionRun).where(RetentionRun.by == key).order_by(RetentionRun.id)),
}
