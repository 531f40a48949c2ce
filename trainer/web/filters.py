"""What templates may call: sentences, numbers, days, symbols, entry references."""

import re
from datetime import date, datetime
from typing import Any

from babel.dates import format_date, format_time
from flask import Flask
from markupsafe import Markup, escape

from trainer.web import language

_SYMBOL = re.compile(r"\b([A-Za-zΔα-ω]{1,2})_([A-Za-z0-9]+)\b|(?<![\w.])([A-Zαdnpvtbae])(?![\w.])")


def told(sentence: Any) -> str:
    """Show a sentence (or a marked text) in the reader's language."""
    return language.translate(sentence)


def number(text: Any) -> str:
    """Show a number that stands by itself with the reader's decimal mark."""
    return language.localise(str(text))


def day(value: date | datetime | None) -> str:
    """Show a day as ``9 Mar 2026`` does in the reader's language."""
    if value is None:
        return ""
    return str(format_date(value, "d MMM y", locale=language.current()))


def day_long(value: date) -> str:
    """Show a day with its weekday: ``Tuesday 17 February 2026``."""
    pattern = "EEEE d 'de' MMMM 'de' y" if language.current() == "es" else "EEEE d MMMM y"
    return str(format_date(value, pattern, locale=language.current()))


def clock_time(value: datetime) -> str:
    """Show hours and minutes."""
    return str(format_time(value, "HH:mm", locale=language.current()))


def symbols(formula: str) -> Markup:
    """Set a formula's symbols slanted, with the index lowered: ``T_s`` becomes *T*, index s."""

    def dress(match: re.Match[str]) -> str:
        if match[3]:
            return f"<i>{match[3]}</i>"
        return f"<i>{match[1]}</i><sub>{match[2]}</sub>"

    return Markup(_SYMBOL.sub(dress, str(escape(language.localise(formula)))))  # noqa: S704  (escaped above)


def entry(reference: int) -> str:
    """Show a ledger entry's number as people refer to it."""
    return f"L-{reference}"


def init_app(app: Flask) -> None:
    """Register the filters."""
    for function in (told, number, day, day_long, clock_time, symbols, entry):
        app.add_template_filter(function)
    app.add_template_global(language.offered, "languages")
    app.add_template_global(language.current, "language")
