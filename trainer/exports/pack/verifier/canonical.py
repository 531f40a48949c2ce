"""Canonical JSON as in RFC 8785 (2020), and the digests that are taken of it."""

import hashlib
import json
from decimal import Decimal
from typing import Any


def canonical(value: Any) -> str:
    """Return a value as canonical JSON; ValueError for what has none."""
    if isinstance(value, dict):
        keys = sorted(value, key=lambda key: key.encode("utf-16-be", "surrogatepass"))
        return "{" + ",".join(f"{canonical(key)}:{canonical(value[key])}" for key in keys) + "}"
    if isinstance(value, list):
        return "[" + ",".join(map(canonical, value)) + "]"
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) >= 1 << 53:
        raise ValueError("a number that has no exact form")
    return number_text(value) if isinstance(value, float) else json.dumps(value, ensure_ascii=False)


def number_text(value: float) -> str:
    """Write a number as ECMAScript does."""
    if value == 0:
        return "0"
    sign, figures, shift = Decimal(repr(value)).normalize().as_tuple()
    if not isinstance(shift, int):
        raise ValueError("not a number")  # noqa: TRY004  (a wrong value, whatever its type)
    digits, point = "".join(map(str, figures)), len(figures) + shift
    minus = "-" if sign else ""
    if 0 < point <= 21:
        whole = digits[:point].ljust(point, "0")
        return minus + whole + (f".{digits[point:]}" if digits[point:] else "")
    if -6 < point <= 0:
        return f"{minus}0.{'0' * -point}{digits}"
    return f"{minus}{digits[0]}{'.' * (len(digits) > 1)}{digits[1:]}e{point - 1:+d}"


def parsed(line: bytes) -> tuple[dict[str, Any] | None, bool]:
    """Return the object that a line holds, if any, and whether the line is its canonical form."""
    try:
        text = line.decode("utf-8")
        data = json.loads(text, object_pairs_hook=_once)
        return (data, canonical(data) + "\n" == text) if isinstance(data, dict) else (None, False)
    except (ValueError, RecursionError):
        return None, False


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len(dict(pairs)) != len(pairs):
        raise ValueError("a key stands twice")
    return dict(pairs)


def digest_of(data: dict[str, Any]) -> str:
    """Return the SHA-256 of the canonical JSON of everything but ``digest``."""
    kept = {key: value for key, value in data.items() if key != "digest"}
    return hashlib.sha256(canonical(kept).encode()).hexdigest()
