"""Lives the plant's year: every step goes through the service that a door would use, on the day it happened."""

import random
from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from typing import Any

from trainer.assessment.paper import build_paper
from trainer.assessment.result import result
from trainer.bank import Bank
from trainer.cli._seeding.answers import answer_paper
from trainer.cli._seeding.diary import Step, diary
from trainer.cli._seeding.plant import Hand, Plant
from trainer.clock import FixedClock
from trainer.records import (
    Record,
    Writing,
    acts,
    asking,
    assignments,
    coaching,
    hazards,
    ledger,
    machines,
    people,
    practicals,
    sittings,
)

PASSWORD = "ostrand-mill-plant-two"  # noqa: S105  (of the invented plant, printed by the demo)


class Life:
    """One run of the plant's year into an empty record whose clock is ``clock``."""

    def __init__(self, plant: Plant, bank: Bank, record: Record, clock: FixedClock, today: date) -> None:
        self.plant, self.bank, self.record, self.clock, self.today = plant, bank, record, clock, today
        self.keys: dict[str, str] = {}
        self.kinds = {machine["id"]: machine["kind"] for machine in plant.machines}
        self.acts: dict[str, Callable[[Writing, Step], object]] = {
            "entitle": self.entitle,
            "assign": self.assign,
            "paper": self.paper,
            "coach": self.coach,
            "practical": self.practical,
            "attend": self.attend,
            "accept-prior": self.accept_prior,
            "suspend": self.suspend,
            "leave": self.leave,
        }

    def run(self, progress: Callable[[int, int], None]) -> None:
        """Live every step of the diary, oldest first; ``progress`` hears how many are done of how many."""
        now = self.clock.now()
        steps = diary(self.plant, self.today)
        self._open(steps[0].at - timedelta(days=5))
        month = steps[0].at.month
        for number, step in enumerate(steps, 1):
            self.clock.instant = step.at
            with self.record.writing() as writing:
                if step.at.month != month:
                    ledger.checkpoint(writing)
                    month = step.at.month
                self.acts[step.do](writing, step)
            progress(number, len(steps))
        for report in sorted(self.plant.hazards, key=lambda one: -one["hours"]):
            self.hazard(report, now)
        for question in sorted(self.plant.questions, key=lambda one: -one["hours"]):
            self.ask(question, now)
        self.clock.instant = now
        with self.record.writing() as writing:
            self._measure(writing)
            ledger.checkpoint(writing)

    def _measure(self, writing: Writing) -> None:
        """Put the stopping times on file, as somebody who copies them from the log."""
        for machine in self.plant.machines:
            for ago, times in machine.get("readings", {}).items():
                for time in times:
                    machines.note_reading(
                        writing, machine["id"], time, on=self.today - timedelta(days=int(ago.split()[0])), by=None
                    )

    def _open(self, moment: datetime) -> None:
        self.clock.instant = moment
        with self.record.writing() as writing:
            for machine in self.plant.machines:
                machines.add(
                    writing,
                    id=machine["id"],
                    kind=machine["kind"],
                    name=machine["name"],
                    facts={key: str(value) for key, value in machine["facts"].items()},
                )
            for hand in self.plant.people:
                self.keys[hand.number] = self._hire(writing, hand)

    def _hire(self, writing: Writing, hand: Hand) -> str:
        row = people.add(
            writing,
            number=hand.number,
            name=hand.name,
            shift=hand.shift,
            language=hand.language,
            kind=hand.kind,
            agency=hand.agency,
            badge=hand.badge,
            pin=hand.pin,
            roles=hand.roles,
            login=hand.login,
            password=PASSWORD if hand.login else None,
            started=self.today - timedelta(days=440),
        )
        return row.key

    def hazard(self, report: Mapping[str, Any], now: datetime) -> None:
        """Report a hazard at the kiosk, and answer it where the plant did."""
        self.clock.instant = now - timedelta(hours=report["hours"])
        by = self.keys[report["by"]] if "by" in report else None
        with self.record.writing() as writing:
            made = hazards.report(writing, words=report["words"], kiosk="K1", person=by, machine=report["machine"])
        if answer := report.get("answer"):
            self.clock.instant = now - timedelta(hours=answer["hours"])
            with self.record.writing() as writing:
                hazards.answer(
                    writing, made.id, by=self.keys[answer["by"]], words=answer["words"], closes=answer["closes"]
                )

    def ask(self, question: Mapping[str, Any], now: datetime) -> None:
        """Ask at the kiosk what nobody has answered yet."""
        self.clock.instant = now - timedelta(hours=question["hours"])
        with self.record.writing() as writing:
            named = asking.on_shift(writing, people.must(writing, self.keys[question["by"]]))
            asking.ask(
                writing,
                person=self.keys[question["by"]],
                kiosk="K1",
                words=question["words"],
                about=question["about"],
                to=named.key if named else None,
            )

    def entitle(self, writing: Writing, step: Step) -> None:
        """Give a trainer the right to judge, to a day that the story names."""
        acts.entitle(
            writing,
            person=self.keys[step.hand.number],
            machine_kinds=sorted({self.kinds[machine] for machine in step.hand.machines}),
            roles=step.details["roles"],
            basis="Appointed by the safety manager; evaluator course of two days",
            valid_to=self.today - timedelta(days=step.details["until-day"]),
            by=self._officer(),
            happened_on=step.happened_on,
        )

    def assign(self, writing: Writing, step: Step) -> None:
        """Assign a programme."""
        assignments.assign(
            writing,
            person=self.keys[step.hand.number],
            programme=step.details["programme"],
            by=self._trainer(step),
            reason=step.details["reason"],
            happened_on=step.happened_on,
            machine=step.hand.machines[0] if step.hand.machines else None,
        )

    def paper(self, writing: Writing, step: Step) -> None:
        """Sit a paper as the story says, and hand it in."""
        person, programme = self.keys[step.hand.number], step.details["programme"]
        rng = random.Random(f"{self.plant.seed}/{step.hand.number}/{step.details['day']}")  # noqa: S311
        recent = sittings.recent_papers(writing, person, programme)
        paper = build_paper(self.bank, programme, rng.randrange(2**31), recent=recent)
        sitting = sittings.start(
            writing,
            self.bank,
            person=person,
            programme=programme,
            paper=paper.as_data(),
            language=step.hand.language,
            kiosk="K1",
        )
        answered = answer_paper(self.bank, paper, step.details.get("wrong", ()), rng)
        for one in answered:
            self.clock.advance(timedelta(milliseconds=one.took_ms))
            sittings.save_answer(
                writing,
                sitting.id,
                one.sheet.number,
                one.answer.as_data(),
                one.mark.as_data(),
                key=f"{sitting.id}-{one.sheet.number}",
                took_ms=one.took_ms,
            )
            sittings.lock(writing, sitting.id, one.sheet.number)
        sittings.hand_in(writing, sitting.id, result(self.bank, paper, [one.mark for one in answered]))

    def coach(self, writing: Writing, step: Step) -> None:
        """Talk over whatever paper was not passed, so that the next try is open."""
        person = self.keys[step.hand.number]
        for held in coaching.waiting(writing, person).values():
            coaching.note(
                writing, person=person, after=held.number, words=step.details["words"], by=self._trainer(step)
            )

    def practical(self, writing: Writing, step: Step) -> None:
        """Have somebody entitled watch and sign, on each of the person's machines."""
        role = step.details["role"]
        for machine in step.hand.machines:
            checklist = self._checklist(machine, role)
            if checklist is None:
                continue
            fails = next((s.id for s in checklist.steps if s.critical), None) if step.details.get("fails") else None
            practicals.sign(
                writing,
                self.bank,
                person=self.keys[step.hand.number],
                evaluator=self._evaluator(writing, step, machine, role),
                machine=machine,
                checklist=checklist.id,
                role=role,
                steps={one.id: "failed" if one.id == fails else "right" for one in checklist.steps},
                comment=step.details.get("comment", "") if fails else "",
                happened_on=step.happened_on,
            )

    def attend(self, writing: Writing, step: Step) -> None:
        """Be there at a toolbox talk."""
        acts.attend(
            writing,
            person=self.keys[step.hand.number],
            topic=step.details["topic"],
            presenter=self._trainer(step),
            by=self._trainer(step),
            happened_on=step.happened_on,
            language=step.hand.language,
        )

    def accept_prior(self, writing: Writing, step: Step) -> None:
        """Accept what was learnt elsewhere."""
        acts.accept_prior(
            writing,
            self.bank,
            person=self.keys[step.hand.number],
            programme=step.details["programme"],
            evidence=step.details["evidence"],
            trained_on=self.today - timedelta(days=step.details["trained"]),
            assessor=self._trainer(step),
            reason="Judged adequate after a talk of an hour at PB-1",
            happened_on=step.happened_on,
        )

    def suspend(self, writing: Writing, step: Step) -> None:
        """Stop somebody from running any machine."""
        acts.suspend(
            writing,
            person=self.keys[step.hand.number],
            reason=step.details["reason"],
            by=self._trainer(step),
            happened_on=step.happened_on,
        )

    def leave(self, writing: Writing, step: Step) -> None:
        """Leave the plant at the end of the day."""
        people.leave(writing, self.keys[step.hand.number], on=step.happened_on, by=self._officer(), reason="Moved away")

    def _officer(self) -> str:
        return self.keys[next(hand.number for hand in self.plant.people if "officer" in hand.roles)]

    def _trainer(self, step: Step) -> str:
        trainers = [hand for hand in self.plant.people if "trainer" in hand.roles and hand.number != step.hand.number]
        return self.keys[next((hand for hand in trainers if hand.shift == step.hand.shift), trainers[0]).number]

    def _checklist(self, machine: str, role: str) -> Any | None:
        kind = self.kinds[machine]
        return next((c for c in self.bank.checklists.values() if kind in c.machine_kinds and c.role == role), None)

    def _evaluator(self, writing: Writing, step: Step, machine: str, role: str) -> str:
        trainers = [hand for hand in self.plant.people if "trainer" in hand.roles and hand.number != step.hand.number]
        trainers.sort(key=lambda hand: hand.shift != step.hand.shift)
        return next(
            self.keys[hand.number]
            for hand in trainers
            if practicals.may_judge(writing, self.keys[hand.number], self.kinds[machine], role, step.happened_on)
        )
