"""A small site for tests: a learner, a trainer with the right to judge, an officer, two machines."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from trainer.bank import Bank
from trainer.clock import FixedClock
from trainer.records import Record, acts, coaching, machines, people, practicals, sittings
from trainer.records.chain import Entry

INDUCTION, REFRESHER = "press-brake-operator-induction", "press-brake-operator-refresher"
TODAY = date(2026, 3, 9)


@dataclass
class Site:
    """Keys of the people, and shortcuts for what a test needs to have happened."""

    record: Record
    clock: FixedClock
    bank: Bank
    learner: str = ""
    trainer: str = ""
    officer: str = ""
    count: int = field(default=0)

    def sit(self, person: str, programme: str = INDUCTION, *, right: bool = True, **result: Any) -> Entry:
        """Let a person take a paper of two sheets and hand it in."""
        with self.record.writing() as w:
            sitting = sittings.start(
                w, self.bank, person=person, programme=programme, paper=paper(programme), language="en", kiosk="K1"
            )
        self.clock.advance(timedelta(minutes=2))
        with self.record.writing() as w:
            sittings.save_answer(w, sitting.id, 2, {"chosen": "a"}, mark(right), key="one", took_ms=9_000)
            return sittings.hand_in(w, sitting.id, {**outcome(passed=right), **result})

    def talk_over(self, person: str) -> None:
        """Let the trainer note that every paper that waits for a coach was talked over."""
        with self.record.writing() as w:
            for held in coaching.waiting(w, person).values():
                coaching.note(w, person=person, after=held.number, words="Talked it over", by=self.trainer)

    def show(self, person: str, *, machine: str = "PB-1", failing: str | None = None, **changed: Any) -> Entry:
        """Let the trainer sign a practical, with one step failed or none."""
        checklist = self.bank.checklists["operator-hydraulic-brake"]
        steps = {step.id: "failed" if step.id == failing else "right" for step in checklist.steps}
        given = {
            "person": person,
            "evaluator": self.trainer,
            "machine": machine,
            "checklist": checklist.id,
            "role": "operator",
            "steps": steps,
            "comment": "The pedal was pressed with a hand on the sheet." if failing else "",
            "happened_on": self.clock.today(self.zone),
        }
        with self.record.writing() as w:
            return practicals.sign(w, self.bank, **(given | changed))

    @property
    def zone(self) -> Any:
        with self.record.reading() as r:
            return r.zone

    def today(self) -> date:
        return self.clock.today(self.zone)


def build_site(record: Record, clock: FixedClock, bank: Bank) -> Site:
    site = Site(record, clock, bank)
    with record.writing() as w:
        site.learner = people.add(w, number="00241", name="Dana Ruiz", badge="0013748911").key
        site.trainer = people.add(w, number="00101", name="Rosalind Achterberg", roles=("trainer",)).key
        site.officer = people.add(w, number="00112", name="Harriet Lindqvist-Moss", roles=("officer",)).key
        machines.add(w, id="PB-1", kind="press-brake-hydraulic", name="Press brake 110 t", facts={"made": "2014"})
        machines.add(w, id="PB-4", kind="press-brake-mechanical", name="Flywheel press brake 60 t")
        entitle(w, site)
    return site


def entitle(w: Any, site: Site, **changed: Any) -> Entry:
    given = {
        "person": site.trainer,
        "machine_kinds": ["press-brake-hydraulic"],
        "roles": ["operator"],
        "basis": "Appointed by the plant manager.",
        "valid_to": date(2027, 12, 31),
        "by": site.officer,
        "happened_on": w.today(),
    }
    return acts.entitle(w, **(given | changed))


def paper(programme: str = INDUCTION, seed: int = 7) -> dict[str, Any]:
    sheets = [
        {"number": 1, "kind": "lesson", "item": "PB-S14/l1", "version": 0, "competency": ""},
        {
            "number": 2,
            "kind": "question",
            "item": "PB-S14/q1",
            "version": 3,
            "competency": "die-ends",
            "critical": True,
        },
        {"number": 3, "kind": "drill", "item": "PB-D01", "version": 1, "competency": "mounting-distance"},
    ]
    fill = {"critical": False, "order": ["c", "a", "b", "d"], "drawn": {"stopping-time": "120 ms"}}
    whole = [fill | sheet for sheet in sheets]
    return {"programme": programme, "edition": 1, "fingerprint": "f" * 64, "seed": seed, "sheets": whole}


def mark(right: bool) -> dict[str, Any]:
    return {"verdict": "right" if right else "wrong", "right": right, "misconception": None, "slips": [], "gap": None}


def outcome(*, passed: bool) -> dict[str, Any]:
    return {"passed": passed, "right": 2 if passed else 1, "out_of": 2, "needed": 2, "critical_missed": []}


def tamper(record: Record, *statements: str) -> None:
    """Change the database as somebody would who may do everything: guards off, changes, guards on again."""
    if record.engine.dialect.name == "sqlite":
        with closing(sqlite3.connect(record.engine.url.database, timeout=30)) as connection, connection:
            found = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
            for statement in [*(f"DROP TRIGGER {name}" for name, _ in found), *statements, *(sql for _, sql in found)]:
                connection.execute(statement)
    else:
        with record.engine.begin() as connection:
            for statement in ("SET LOCAL session_replication_role = replica", *statements):
                connection.exec_driver_sql(statement)
