"""A worked result as a person writes it down, and as plain data."""

import textwrap
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from trainer import units
from trainer.safeguarding.cautions import CAUTION, MEASURED
from trainer.safeguarding.result import Citation, Sense, Step, Worked
from trainer.safeguarding.rounding import exact_in, round_in
from trainer.safeguarding.written import SYSTEM_NAMES, show_value, substitute, unit_and_places

WIDTH = 96
BOUNDS = {
    Sense.AT_LEAST: "at least",
    Sense.MORE_THAN: "more than",
    Sense.AT_MOST: "at most",
    Sense.LESS_THAN: "less than",
    Sense.VALUE: "",
}
ROUNDED = {
    Sense.AT_LEAST: "rounded up",
    Sense.MORE_THAN: "rounded up, more than the exact figure",
    Sense.AT_MOST: "rounded down",
    Sense.LESS_THAN: "rounded down, less than the exact figure",
    Sense.VALUE: "rounded up",
}
OTHER_UNIT = {"mm": "inch", "inch": "mm"}
METRIC_ONLY = frozenset({"kN", "kN/m"})  # a shop formula with its factor holds in these units only
SIXTEENTH = 16
NO_BREAK = "\u00a0"


def unit_of(worked: Worked, unit: str | None) -> str:
    """Return the unit to show a result in: the one asked for where it is one of its units, else its own."""
    wanted = SYSTEM_NAMES.get(unit or "", unit or "")
    return wanted if wanted in worked.grid else worked.unit


def restated(step: Step, system: str) -> tuple[str, str]:
    """Return the numbers of a step and its value, written in one unit system (``mm`` or ``inch``)."""
    return (
        substitute(step.formula, step.uses, step.dimension, system),
        show_value(step.value, step.dimension, system),
    )


def amount(value: Fraction, unit: str, places: int) -> str:
    """Write a number with its unit; inches that fall on a sixteenth are written as a tape shows them."""
    number = units.digits(value, places)
    if unit == "inch" and (value * SIXTEENTH).denominator == 1 and value.denominator > 1:
        whole, part = divmod(value, 1)
        number = f"{whole} {part}" if whole else str(part)
    return f"{number} {units.UNIT_SIGNS.get(unit, unit)}".rstrip()


def as_text(worked: Worked, unit: str | None = None) -> str:
    """Write a result out with its working, as in a handbook. ``unit`` is ``mm`` or ``in``."""
    shown = unit_of(worked, unit)
    system = "inch" if SYSTEM_NAMES.get(unit or "", shown) == "inch" and shown not in METRIC_ONLY else "mm"
    parts = [
        [worked.title, "-" * len(worked.title), worked.problem],
        _given(worked, system),
        _working(worked, system),
        _result(worked, shown),
        _sources(worked.citations),
        _beware(worked),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _given(worked: Worked, system: str) -> list[str]:
    if not worked.given:
        return []
    rows = [(step.symbol, step.label, show_value(step.value, step.dimension, system)) for step in worked.given]
    symbols, labels = (max(len(row[column]) for row in rows) for column in (0, 1))
    lines = ["Given"]
    for symbol, label, value in rows:
        start = f"  {symbol:<{symbols}}  {label:<{labels}}  "
        kept = value.replace(" ", NO_BREAK).replace(f",{NO_BREAK}", ", ")
        lines.extend(line.replace(NO_BREAK, " ") for line in _wrapped(kept, start, " " * len(start)))
    return lines


def _working(worked: Worked, system: str) -> list[str]:
    lines = ["Working"] if worked.steps else []
    for number, step in enumerate(worked.steps, 1):
        substituted, shown = restated(step, system)
        lines.append(f"  {number}. {step.label}")
        lines.extend(_equation(step.symbol, step.formula, substituted, shown))
    return lines


def _equation(symbol: str, formula: str, substituted: str, shown: str) -> Iterable[str]:
    indent = " " * (5 + len(symbol))
    sides = [side for side in (formula, substituted) if side and side != shown]
    sides = [*dict.fromkeys(sides), shown]
    for number, side in enumerate(sides):
        yield f"     {symbol} = {side}" if number == 0 else f"{indent} = {side}"


def _result(worked: Worked, unit: str) -> list[str]:
    lines = ["Result"]
    if worked.refusal is not None:
        return [*lines, *_wrapped(str(worked.refusal), "  ")]
    if worked.word is not None:
        lines.append(f"  {worked.word}")
    if worked.value is not None:
        lines.extend(_figures(worked, unit))
    return lines


def _figures(worked: Worked, unit: str) -> Iterable[str]:
    exact, rounded = exact_in(worked, unit), round_in(worked, unit)
    places = 4 if unit in {"inch", ""} else 3
    bound = BOUNDS[worked.sense]
    other = OTHER_UNIT.get(unit)
    beside = f" ({units.show(worked.value, other, 2)})" if other else ""
    yield f"  {worked.symbol} {bound or '='} {amount(exact, unit, places)}{beside}"
    if rounded != exact:
        line = f"  Use {amount(rounded, unit, places)}"
        if other:
            line += f", or {amount(round_in(worked, other), other, places)}"
        yield f"{line} ({ROUNDED[worked.sense]})."


def _sources(citations: Iterable[Citation]) -> list[str]:
    lines = [f"  - {citation}" for citation in citations]
    return ["Sources", *lines] if lines else []


def _beware(worked: Worked) -> list[str]:
    lines = ["Beware"]
    for warning in worked.warnings:
        first, *rest = _wrapped(str(warning), "  - ", "    ")
        lines.extend([first, *rest])
    return lines


def _wrapped(text: str, indent: str, hanging: str | None = None) -> list[str]:
    return textwrap.wrap(
        text,
        max(WIDTH, len(indent) + 24),
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
    )


def number_of(value: Fraction) -> int | float:
    """Return a number for JSON: whole where it is whole, else rounded to a millionth."""
    return int(value) if value.denominator == 1 else round(float(value), 6)


def as_data(worked: Worked, unit: str | None = None) -> dict[str, Any]:
    """Return a result as plain data.

    ``rounded_up`` is the value on the safe side: rounded up for a distance, down for a time or an opening. ``word``
    and ``refusal`` are there only where the result is one; then ``result`` may be None.
    """
    shown = unit_of(worked, unit)
    system = "inch" if SYSTEM_NAMES.get(unit or "", shown) == "inch" else "mm"
    told = worked.value is not None
    data: dict[str, Any] = {
        "problem": worked.problem,
        "result": number_of(exact_in(worked, shown)) if told else None,
        "unit": units.UNIT_SIGNS.get(shown, shown),
        "rounded_up": number_of(round_in(worked, shown)) if told else None,
        "steps": [_step_data(step, system) for step in worked.steps],
        "citations": [_citation_data(citation) for citation in worked.citations],
        "warnings": [str(warning) for warning in worked.warnings],
    }
    if worked.word is not None:
        data["word"] = worked.word
    if worked.refusal is not None:
        data["refusal"] = str(worked.refusal)
    return data


def _step_data(step: Step, system: str) -> Mapping[str, Any]:
    substituted, shown = restated(step, system)
    data: dict[str, Any] = {
        "symbol": step.symbol,
        "label": step.label,
        "formula": step.formula,
        "substituted": substituted,
        "shown": shown,
    }
    if units.is_quantity(step.value):
        unit, _ = unit_and_places(step.dimension, system)
        data["value"] = number_of(units.magnitude(step.value, unit))
        data["unit"] = units.UNIT_SIGNS.get(unit, unit)
    return data


def _citation_data(citation: Citation) -> Mapping[str, str]:
    return {
        "document": citation.document,
        "clause": citation.clause,
        "year": citation.year,
        "read": citation.read.value,
    }


__all__ = ["CAUTION", "MEASURED", "amount", "as_data", "as_text", "number_of", "restated", "unit_of"]
