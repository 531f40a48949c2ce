"""Days as people type them into a sentence: ``17 Feb 2026``, ``2026-02-17``, ``today``.

A day of figures alone, such as 3/4/2026, is refused: half of its readers would take it for another day.
"""

import re
from datetime import date, timedelta

from babel.dates import get_month_names

from trainer.errors import UsageError
from trainer.web import language
from trainer.web.words import _
from trainer.wording import say

_WRITTEN = re.compile(r"(\d{1,2})\s+(?:de\s+)?([^\W\d_]+)\.?\s+(?:de\s+)?(\d{4})")
_LONGEST = 40  # characters


def read_day(text: str, *, today: date) -> date:
    """Read a typed day; nothing typed means ``today``.

    Raises :class:`~trainer.errors.UsageError` that says how to write one.
    """
    plain = " ".join(text.split())
    if plain.casefold() in {"", "today", _("today").casefold()}:
        return today
    found = _iso(plain) or _written(plain)
    if found is None:
        shown = plain if len(plain) <= _LONGEST else plain[:_LONGEST] + "…"
        raise UsageError(say("“{text}” is not a day. Write it as 17 Feb 2026 or 2026-02-17.", text=shown))
    return found


def _iso(text: str) -> date | None:
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _written(text: str) -> date | None:
    match = _WRITTEN.fullmatch(text)
    number = _months().get(match[2].casefold()) if match else None
    if match is None or number is None:
        return None
    try:
        return date(int(match[3]), number, int(match[1]))
    except ValueError:
        return None


def _months() -> dict[str, int]:
    names: dict[str, int] = {}
    for locale in {*language.NAMES, language.current()}:
        for width in ("wide", "abbreviated"):
            found = get_month_names(width, locale=locale)
            names.update({name.casefold().rstrip("."): number for number, name in found.items()})
    names["sept"] = 9  # as many write it, in both languages
    return names


def read_last_day(text: str, *, today: date) -> date:
    """Read a day that must not lie ahead: nothing can be known of tomorrow."""
    found = read_day(text, today=today)
    if found > today:
        raise UsageError(say("That day lies ahead. Nothing is known of it yet; ask for today or earlier."))
    return found


def week_of(today: date) -> tuple[date, date]:
    """Return the Monday and the Sunday of the week that holds ``today``."""
    monday = today - timedelta(days=today.weekday())
    return monday, monday + timedelta(days=6)
