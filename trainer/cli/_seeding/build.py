"""Builds the plant into an empty folder and says how to get in."""

from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn

from trainer.bank import open_bank
from trainer.cli._seeding.life import PASSWORD, Life
from trainer.cli._seeding.plant import Plant, read_plant
from trainer.clock import Clock, FixedClock
from trainer.errors import UsageError
from trainer.figures import scene_problems
from trainer.records import open_record
from trainer.settings import Settings, shipped
from trainer.wording import say

MARK = "demo-plant.txt"


def is_built(folder: Path) -> bool:
    """Say whether a demo plant was built into a folder, to its end."""
    return (folder / MARK).is_file()


def build(plant: Plant, settings: Settings, day: str | None = None) -> None:
    """Live the plant's year up to ``day`` (default: today) in the settings' folder, which must hold no record.

    Raises :class:`UsageError` for a folder that holds something else, or a day that is none.
    """
    now = _moment(day, settings)
    if (settings.data / "record.sqlite").exists():
        raise UsageError(
            say("{folder} holds a record that is not a finished demo. Name an empty folder.", folder=str(settings.data))
        )
    bank = open_bank(settings.content_folder, settings.extra_folder, check_drawing=scene_problems)
    clock = FixedClock(now)
    record = open_record(settings, clock)
    life = Life(plant, bank, record, clock, now.astimezone(settings.zone).date())
    with Progress(TextColumn("Living a year at the plant"), BarColumn(), console=Console(stderr=True)) as bar:
        task = bar.add_task("", total=None)
        life.run(lambda done, total: bar.update(task, completed=done, total=total))
    (settings.data / MARK).write_text("An invented plant, built by `trainer demo`.\n", encoding="utf-8")


def doors(address: str) -> str:
    """Say where the doors are, with one sign-in for each."""
    people = read_plant(shipped("seed_scenarios")).people
    new: Any = next(hand for hand in people if hand.story == "new")
    rows = [("Kiosk", address, f"badge {new.badge}, PIN {new.pin}", f"{new.name}, new operator")]
    for door, role in (("Desk", "trainer"), ("Office", "officer")):
        hand = next(hand for hand in people if role in hand.roles)
        rows.append((door, f"{address}{door.lower()}/", f"{hand.login} / {PASSWORD}", f"{hand.name}, {role}"))
    width = max(len(row[1]) for row in rows)
    lines = [f"  {door:7} {where:{width}}   {how}   ({who})" for door, where, how, who in rows]
    return "\n".join(["An invented plant. One sign-in for each door:", *lines, "Stop with Ctrl+C."])


def _moment(day: str | None, settings: Settings) -> datetime:
    if day is None:
        return Clock().now()
    try:
        return datetime.combine(date.fromisoformat(day), time(7, 12), settings.zone)
    except ValueError as error:
        raise UsageError(say("{day} is not a date. Write it as 2026-03-09.", day=repr(day))) from error
