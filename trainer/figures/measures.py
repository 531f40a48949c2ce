"""What of a part's measures is not understood, in plain sentences."""

from collections.abc import Iterable
from typing import Any

from trainer.figures.kit import Part


def wrong(part: Part, key: str, value: Any) -> Iterable[str]:
    """Say, in one plain sentence, that a measure of a part is no number, no switch, no point or no known word."""
    if isinstance(value, str) and value.startswith("$"):
        return
    expected = _expected(part, key, value)
    if expected:
        yield f"The measure {key} of {part.name} is {value!r}; it is {expected}."


def _expected(part: Part, key: str, value: Any) -> str:
    """Return what the measure should be, in words, where it is not; else nothing."""
    usual = part.usual[key]
    if key in part.choices:
        return "" if value in part.choices[key] else _or(part.choices[key])
    if isinstance(usual, bool):
        return "" if isinstance(value, bool) else "true or false"
    if isinstance(usual, int | float):
        return "" if _number(value) else "a number of millimetres"
    if isinstance(usual, tuple):
        return _no_points(usual, value)
    return ""


def _no_points(usual: tuple[Any, ...], value: Any) -> str:
    if isinstance(usual[0], tuple):
        ok = isinstance(value, list | tuple) and len(value) > 1 and all(map(_point, value))
        return "" if ok else "two or more points, each [x, y] in millimetres"
    return "" if _point(value) else "a point, [x, y] in millimetres"


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _point(value: Any) -> bool:
    return isinstance(value, list | tuple) and len(value) == 2 and all(map(_number, value))


def _or(words: Iterable[str]) -> str:
    *most, last = sorted(words)
    return f"{', '.join(most)} or {last}" if most else last
