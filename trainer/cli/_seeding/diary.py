"""Turns each person's story into dated steps, and all of them into one diary in the order in which they happened."""

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from trainer.cli._seeding.plant import Hand, Plant

START = {"Early": time(6, 40), "Late": time(14, 35), "Night": time(22, 20)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that happens to one person."""

    at: datetime  # when it is recorded
    happened_on: date
    hand: Hand
    do: str
    details: Mapping[str, Any]


def diary(plant: Plant, today: date) -> list[Step]:
    """Return every step of every story, oldest first; the same for the same plant and day."""
    steps = [step for hand in plant.people for step in _steps(plant, hand, today)]
    return sorted(steps, key=lambda step: (step.at, step.hand.number))


def _steps(plant: Plant, hand: Hand, today: date) -> Iterator[Step]:
    zone = ZoneInfo(plant.zone)
    rng = random.Random(f"{plant.seed}/{hand.number}")  # noqa: S311  (a made-up plant, not a secret)
    shift = 0  # one shift for the whole story keeps its steps in order
    for number, entry in enumerate(plant.stories[hand.story]):
        if entry.get("spread") and not shift:
            shift = rng.randrange(entry["spread"] + 1)
        happened = _workday(today - timedelta(days=max(entry["day"] - min(shift, entry.get("spread", 0)), 1)))
        recorded = happened + timedelta(days=entry.get("recorded-after", 0))
        moment = datetime.combine(recorded, START[hand.shift], zone) + timedelta(minutes=rng.randrange(6) + 25 * number)
        yield Step(at=moment.astimezone(UTC), happened_on=happened, hand=hand, do=entry["do"], details=entry)


def _workday(day: date) -> date:
    """Move a Sunday to the Saturday before; the plant rests on Sundays."""
    return day - timedelta(days=1) if day.isoweekday() == 7 else day
