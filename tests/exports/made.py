"""Entries, people and standings made by hand, for tests of what leaves the house."""

from dataclasses import replace
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from trainer.exports.about import About
from trainer.records.chain import START, Entry, EntryKind, Row, canonical, digest_of
from trainer.records.history import HistoryRow, Identity
from trainer.records.instants import instant_text
from trainer.records.judging import Reason, Standing, StandingWord
from trainer.records.people import PersonRow
from trainer.wording import say

DAY = date(2026, 3, 9)
NOW = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)
ZONE = ZoneInfo("America/Chicago")
DANA = Identity(since=DAY, number="00241", name="Zoë O’Brien")
SITTING = "a1b2c3d4e5f64718a93a4b5c6d7e8f90"
ABOUT = About(what=say("Entries of the ledger"), site="Ostrand Mill", zone=ZONE, made_at=NOW, edition=3)


def entry(**changed):
    """Return an entry with the digest that it must have."""
    made = Entry(
        number=12,
        person="p",
        seq=2,
        kind=EntryKind.SITTING_MARKED,
        happened_on=DAY,
        recorded_at=datetime(2026, 3, 9, 18, 12, 4, 250_000, tzinfo=UTC),
        zone="America/Chicago",
        by="p",
        body=sitting(),
        previous=START,
        digest="",
    )
    made = replace(made, **changed)
    return made if made.digest else replace(made, digest=_digest(made))


def _digest(made):
    texts = {name: getattr(made, name) for name in ("number", "person", "seq", "zone", "by", "previous", "digest")}
    return digest_of(
        Row(
            **texts,
            kind=made.kind.value,
            happened_on=made.happened_on.isoformat(),
            recorded_at=instant_text(made.recorded_at),
            body=canonical(made.body),
        )
    )


def sitting(**changed):
    body = {
        "programme": "press-brake-operator-induction",
        "role": "operator",
        "machine_kinds": ["press-brake-hydraulic"],
        "policy": {"period": "P12M"},
        "sitting": SITTING,
        "kiosk": "K1",
        "language": "es",
        "languages": ["en", "es"],
        "started_at": "2026-03-09T17:50:00.000000Z",
        "ended_at": "2026-03-09T18:12:04.250000Z",
        "edition": 3,
        "fingerprint": "f" * 64,
        "items": [item("PB-S14/q1", chosen="a"), item("PB-D01", kind="drill", value="379 mm", right=False)],
        "score": {"right": 9, "out_of": 10},
        "needed": 9,
        "critical_missed": [],
        "passed": True,
        "due_on": "2027-03-09",
    }
    return {**body, **changed}


def item(name, **changed):
    made = {
        "item": name,
        "version": 3,
        "kind": "question",
        "competency": "die-ends",
        "critical": False,
        "order": ["c", "a", "b"],
        "drawn": {},
        "chosen": None,
        "value": None,
        "verdict": "right",
        "right": True,
        "misconception": None,
        "slips": [],
        "gap": None,
        "needed": None,
        "language": "es",
        "took_ms": 9000,
    }
    return {**made, **changed}


def row(**changed):
    return HistoryRow(entry=entry(**changed), person=DANA, by=DANA, late_days=0)


def person(**changed):
    made = PersonRow(
        key="p",
        number="00241",
        badge=None,
        name="Zoë O’Brien",
        sort_name="O’Brien",
        shift="Early",
        crew="",
        language="en",
        kind="employee",
        agency=None,
        status="active",
        started=None,
        ended=None,
        born=None,
        roles=frozenset({"learner"}),
        login=None,
    )
    return replace(made, **changed)


def standing(**changed):
    made = Standing(
        person="p",
        machine="PB-1",
        role="operator",
        word=StandingWord.AUTHORISED,
        may_run=True,
        reasons=(Reason(sentence=say("Passed on {day}.", day="2026-03-09"), entries=(12, 3)),),
        lacks=(),
        holds_until=date(2027, 3, 9),
        due_on=date(2027, 3, 9),
    )
    return replace(made, **changed)
