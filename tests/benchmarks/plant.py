"""A large invented plant, written straight into SQLite but chained, headed and sealed as the program itself does it."""

import json
import random
import sqlite3
from contextlib import closing
from dataclasses import astuple, dataclass, fields, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from trainer.bank import Bank
from trainer.clock import FixedClock
from trainer.records import Record, heads, machines, open_record, people, tree
from trainer.records.chain import START, Row, canonical, digest_of
from trainer.records.checkpoints import EVERY, Checkpoint, entry_leaf
from trainer.records.checkpoints import digest_of as checkpoint_digest
from trainer.records.headtree import HeadTree
from trainer.records.instants import instant_text
from trainer.settings import Settings

BEGINNING = datetime(2016, 1, 4, 7, 0, tzinfo=UTC)
LAST = date(2026, 3, 9)
KINDS = ("press-brake-hydraulic", "press-brake-mechanical", "press-brake-servo", "folder", "plate-rolls")
INDUCTION = "press-brake-operator-induction"
POLICY = {"period": "P1Y", "count_from": "day", "leap_day": "feb28", "warn_days": 30}
COLUMNS = tuple(field.name for field in fields(Row))


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """A record with its people and the file that it is in."""

    record: Record
    settings: Settings
    path: Path
    people: tuple[str, ...]
    entries: int


def build(settings: Settings, bank: Bank, *, headcount: int, machine_count: int, entries: int) -> Plant:
    """Return a plant of so many people and machines, whose people have ``entries`` entries in turn."""
    record = open_record(settings, FixedClock(datetime(2026, 3, 9, 13, 12, tzinfo=UTC)))
    with record.writing() as w:
        first = people.add(w, number="0", name="Rosalind Achterberg", roles=("trainer",), started=BEGINNING.date()).key
        for number in range(machine_count):
            machines.add(w, id=f"M-{number}", kind=KINDS[number % len(KINDS)], name=f"Machine {number}")
    path = Path(settings.data) / "record.sqlite"
    keys = (first, *(f"{number:032x}" for number in range(1, headcount)))
    with closing(sqlite3.connect(path)) as connection:
        guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _sql in guards:
            connection.execute(f"DROP TRIGGER {name}")
        _write_people(connection, keys[1:])
        _write_ledger(connection, bank, keys, entries, machine_count)
        for _name, sql in guards:
            connection.execute(sql)
        connection.commit()
        connection.execute("ANALYZE")
        connection.commit()
    return Plant(record=record, settings=settings, path=path, people=keys, entries=entries)


def _write_people(connection: sqlite3.Connection, keys: tuple[str, ...]) -> None:
    for table, key_column in (("person", "key"), ("person_name", "person")):
        names = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        model = dict(zip(names, connection.execute(f"SELECT * FROM {table}").fetchone(), strict=True))
        model.pop("id", None)
        marks = ", ".join("?" for _ in model)
        rows = (
            tuple((model | {key_column: key, "number": str(place)} | _named(place, model)).values())
            for place, key in enumerate(keys, 1)
        )
        columns = ", ".join(f'"{name}"' for name in model)
        connection.executemany(f"INSERT INTO {table} ({columns}) VALUES ({marks})", rows)
    connection.executemany("INSERT INTO person_role (person, role) VALUES (?, 'learner')", ((key,) for key in keys))


def _named(place: int, model: dict) -> dict[str, str]:
    return {name: f"Worker {place:05}" for name in ("name", "sort_name", "folded") if name in model}


def _write_ledger(
    connection: sqlite3.Connection, bank: Bank, keys: tuple[str, ...], entries: int, machine_count: int
) -> None:
    marks = ", ".join("?" for _ in COLUMNS)
    columns = ", ".join(f'"{name}"' for name in COLUMNS)
    sealed = Sealing()
    rows = (astuple(row) for row in _rows(bank, keys, entries, machine_count, sealed))
    connection.executemany(f"INSERT INTO entry ({columns}) VALUES ({marks})", rows)
    for point in sealed.points:
        connection.execute(f"INSERT INTO checkpoint VALUES ({', '.join('?' * 9)})", astuple(point))
    connection.executemany("INSERT INTO head (chain, seq, digest) VALUES (?, ?, ?)", sealed.ends())


class Sealing:
    """Heads and checkpoints of a ledger that is written in the order of its numbers."""

    def __init__(self) -> None:
        self.chains: dict[str, tuple[int, str]] = {}
        self.tree = HeadTree()
        self.frontier = tree.Frontier()
        self.points: list[Checkpoint] = []
        self.newest = (0, START)

    def entry(self, row: Row) -> None:
        self.chains[row.person] = (row.seq, row.digest)
        self.tree.move(row.person, row.seq, row.digest)
        self.newest = (row.number, row.digest)
        self.frontier.add(entry_leaf(row.digest))

    def seal(self, at: str) -> None:
        row = Checkpoint(
            number=len(self.points) + 1,
            at=at,
            entries=self.frontier.size,
            chains=len(self.chains),
            entries_root=self.frontier.root().hex(),
            heads_root=self.tree.root().hex(),
            frontier=json.dumps([peak.hex() for peak in self.frontier.peaks], separators=(",", ":")),
            previous=self.points[-1].digest if self.points else START,
            digest="",
        )
        self.points.append(replace(row, digest=checkpoint_digest(row)))

    def ends(self) -> list[tuple[str, int, str]]:
        last = self.points[-1]
        own = [(heads.ENTRIES, *self.newest), (heads.CHECKPOINTS, last.number, last.digest)]
        return [*own, *((key, seq, digest) for key, (seq, digest) in self.chains.items())]


def _rows(bank: Bank, keys: tuple[str, ...], entries: int, machine_count: int, sealed: Sealing):
    """Give the rows: the trainer's right to judge first, then everybody in turn, checkpoints beside them."""
    chance = random.Random(entries)
    step = (datetime(2026, 3, 8, tzinfo=UTC) - BEGINNING) / entries
    bodies = _Bodies(bank, machine_count)
    for number in range(1, entries + 1):
        at = BEGINNING + step * number
        turn = number - 2
        person = keys[0] if number == 1 else keys[1 + turn % (len(keys) - 1)]
        seq, previous = sealed.chains.get(person, (0, START))
        kind, body = bodies.right() if number == 1 else bodies.give(turn // (len(keys) - 1), at, number, chance)
        row = Row(
            number=number,
            person=person,
            seq=seq + 1,
            kind=kind,
            happened_on=at.date().isoformat(),
            recorded_at=instant_text(at),
            zone="America/Chicago",
            by=keys[0],
            body=body,
            previous=previous,
            digest="",
        )
        row = replace(row, digest=digest_of(row))
        sealed.entry(row)
        yield row
        if number % EVERY == 0 or number == entries:
            sealed.seal(row.recorded_at)


class _Bodies:
    """What entries hold: each person is assigned, passes, is shown a machine, attends, renews, and so on in turn."""

    def __init__(self, bank: Bank, machine_count: int) -> None:
        self.competencies = list(bank.competencies)
        self.brakes = [number for number in range(machine_count) if number % len(KINDS) < 3]

    def right(self) -> tuple[str, str]:
        whole = {"machine_kinds": list(KINDS), "roles": ["operator"], "basis": "Appointed.", "valid_to": "2027-12-31"}
        return "entitled", canonical(whole)

    def give(self, turn: int, at: datetime, number: int, chance: random.Random) -> tuple[str, str]:
        if turn % 5 == 0:
            return "assigned", canonical({"programme": INDUCTION, "reason": "New at the brakes."})
        if turn % 5 == 2:
            return "practical-signed", self._practical(chance)
        if turn % 5 == 4 and chance.random() < 0.1:
            return "corrected", canonical({"corrects": number, "effect": "time-confirmed", "reason": "The clock."})
        if turn % 5 == 4:
            return "attended", canonical({"topic": f"Talk {number}: loose pedals", "presenter": "x"})
        return "sitting-marked", self._sitting(at, chance)

    def _practical(self, chance: random.Random) -> str:
        return canonical(
            {
                "machine": f"M-{chance.choice(self.brakes)}",
                "role": "operator",
                "checklist": "operator-hydraulic-brake",
                "result": "passed" if chance.random() < 0.9 else "failed",
                "entitlement": 1,
                "comment": "",
            }
        )

    def _sitting(self, at: datetime, chance: random.Random) -> str:
        items = [
            {
                "item": f"PB-S14/q{chance.randrange(40)}",
                "version": 1,
                "competency": chance.choice(self.competencies),
                "order": ["c", "a", "b", "d"],
                "chosen": "a",
                "language": "en",
                "took_ms": 20_000,
                "verdict": "right",
                "right": chance.random() < 0.8,
                "misconception": None,
                "slips": [],
                "gap": None,
            }
            for _ in range(3)
        ]
        body = {
            "programme": INDUCTION,
            "role": "operator",
            "machine_kinds": list(KINDS[:3]),
            "policy": POLICY,
            "passed": chance.random() < 0.9,
            "score": {"right": 9, "out_of": 10},
            "needed": 9,
            "critical_missed": [],
            "items": items,
            "edition": 3,
            "languages": ["en"],
            "due_on": (at.date() + timedelta(days=365)).isoformat(),
        }
        return canonical(body)
