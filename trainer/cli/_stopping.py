"""What ``trainer stopping`` reads and prints. Read only when it is asked for."""

import csv
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from trainer import units
from trainer.cli import _calc
from trainer.clock import Clock
from trainer.errors import Missing, UsageError
from trainer.figures.history import story_of, told
from trainer.figures.printed import print_history
from trainer.safeguarding import show
from trainer.safeguarding.cautions import CAUTION
from trainer.safeguarding.inputs import short
from trainer.safeguarding.problems import problem
from trainer.safeguarding.stopping import KEY, History, Mounted, Unmeasured, history
from trainer.safeguarding.trend import StopReading
from trainer.settings import read_settings
from trainer.wording import say

COLUMNS = ("date", "stopping-time")
TENTH = Fraction(1, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command was given beside the problem's words."""

    readings: Path
    mounted: str
    interval: int
    rule: str
    on: date | None
    plot: Path | None


def answer(words: Sequence[str], asked: Asked, *, as_json: bool) -> int:
    """Print what the readings say; return the exit code."""
    on = asked.on or Clock().today(read_settings({}).zone)
    readings = list(read_readings(asked.readings))
    found = history(readings, _mounted(words, asked), on=on, rule=asked.rule)
    if as_json:
        click.echo(json.dumps(as_data(found), ensure_ascii=False, indent=2))
    else:
        click.echo("\n".join(_lines(readings, found)))
    if asked.plot is not None:
        if isinstance(found, Unmeasured):
            raise UsageError(say("There is no reading to draw. Measure the stopping time first."))
        print_history(readings, found, asked.plot, title=asked.readings.stem)
    return found.report.exit_code


def read_readings(path: Path) -> Iterator[StopReading]:
    """Read the dated readings; :class:`UsageError` names the line and says what would be right."""
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = csv.reader(file, strict=True)
            if tuple(cell.strip() for cell in next(rows, ())) != COLUMNS:
                raise UsageError(
                    say("{file}, line 1: write the heads of the columns: date,stopping-time.", file=path.name)
                )
            for row in rows:
                if any(cell.strip() for cell in row):
                    yield _reading(row, f"{path.name}, line {rows.line_num}")
    except (csv.Error, UnicodeDecodeError) as error:
        raise UsageError(
            say("{file} is not a CSV file in UTF-8: {reason}.", file=path.name, reason=str(error))
        ) from error


def _reading(row: Sequence[str], where: str) -> StopReading:
    if len(row) != len(COLUMNS):
        raise UsageError(say("{where}: write a day and a time, such as 2026-03-02,186ms.", where=where))
    day, time = (cell.strip() for cell in row)
    try:
        on = date.fromisoformat(day)
    except ValueError as error:
        raise UsageError(
            say("{where}: “{day}” is not a day. Write 2026-03-02.", where=where, day=short(day))
        ) from error
    try:
        read = problem("stopping-time-from-readings").read({"readings": time})["readings"]
    except UsageError as error:
        raise UsageError(say("{where}: {reason}", where=where, reason=str(error.sentence))) from error
    if len(read) != 1:
        raise UsageError(say("{where}: write one time on a line, such as 186ms.", where=where))
    return StopReading(on=on, time=read[0])


def _mounted(words: Sequence[str], asked: Asked) -> Mounted:
    name, texts = _calc.split(words)
    if KEY in texts:
        raise UsageError(say("The stopping time comes from the readings. Leave stopping-time out."))
    try:
        sum_ = problem(name)
    except Missing as error:
        raise UsageError(error.sentence) from error
    if KEY not in {field.key for field in sum_.fields}:
        raise UsageError(say("{name} does not give a distance from a stopping time.", name=name))
    values: dict[str, Any] = sum_.read({**texts, KEY: "1 ms"})  # stands in for the readings until they are known
    del values[KEY]
    distance = units.parse(asked.mounted, "length")
    return Mounted(
        name=name,
        values=values,
        distance=distance,
        interval=timedelta(days=asked.interval),
        machine=asked.readings.stem,
    )


def _lines(readings: Sequence[StopReading], found: History | Unmeasured) -> Iterator[str]:
    if isinstance(found, History):
        yield from (str(sentence) for sentence in told(story_of(readings, found)))
        margin = units.magnitude(found.margin, "mm") // TENTH * TENTH  # never told as more than there is
        yield f"The margin is {show.amount(margin, 'mm', 1)}."
    elif found.limit is not None:
        yield f"The longest time allowed at that distance is {units.show(found.limit, 'ms')}."
    yield from (str(finding) for finding in found.report)
    if isinstance(found, History):
        yield f"\nThe distance needed now:\n\n{show.as_text(found.needed).rstrip()}"
    else:
        yield f"\n{CAUTION}"


def as_data(found: History | Unmeasured) -> dict[str, Any]:
    """Return what the readings say as plain data: times in ms, lengths in mm, days as ISO text."""
    data = {
        "on": found.on.isoformat(),
        "mounted_mm": _number(found.mounted, "mm"),
        "longest_allowed_ms": _number(found.limit, "ms"),
        "findings": found.report.as_data(),
    }
    if isinstance(found, Unmeasured):
        return data
    trend = found.trend
    return data | {
        "measured_on": found.measured_on.isoformat(),
        "measure_by": found.due.isoformat(),
        "use_ms": _number(found.use, "ms"),
        "needed_mm": _number(found.needed.rounded, "mm"),
        "margin_mm": _number(found.margin, "mm"),
        "too_close": found.too_close,
        "trend_ms_per_year": None if trend is None else round(float(trend.slope) * 1000 * 365.25, 3),
        "margin_ends": _day(found.ends),
        "margin_ends_from": _day(found.ends_from),
        "margin_ends_to": _day(found.ends_to),
        "needed": show.as_data(found.needed),
    }


def _number(quantity: Any | None, unit: str) -> float | None:
    return None if quantity is None else float(units.magnitude(quantity, unit))


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
