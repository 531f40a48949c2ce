"""Parts and labels that are there only for some of a drill's draws: ``when: {setting: [flywheel]}``, or ``unless``."""

from collections.abc import Iterable, Mapping
from itertools import product
from typing import Any

KEYS = frozenset({"when", "unless"})
OTHER = ""  # a draw that no condition names


def kept(entries: Iterable[Mapping[str, Any]], numbers: Mapping[str, str]) -> list[dict[str, Any]]:
    """Return the entries that are there for a draw, without their conditions."""
    return [{key: value for key, value in one.items() if key not in KEYS} for one in entries if _holds(one, numbers)]


def sound(entry: Mapping[str, Any]) -> bool:
    """Say whether the conditions of an entry are lists of values for what is drawn."""
    conditions = [entry[key] for key in KEYS & set(entry)]
    return all(
        isinstance(one, Mapping) and all(isinstance(v, list | tuple) for v in one.values()) for one in conditions
    )


def _holds(entry: Mapping[str, Any], numbers: Mapping[str, str]) -> bool:
    wanted, barred = entry.get("when", {}), entry.get("unless", {})
    return all(numbers.get(key, OTHER) in values for key, values in wanted.items()) and not any(
        numbers.get(key, OTHER) in values for key, values in barred.items()
    )


def variants(spec: Mapping[str, Any]) -> list[dict[str, str]]:
    """Return a draw for each way that a drawing can come out; one empty draw for a drawing without conditions."""
    named: dict[str, set[str]] = {}
    for entry in (*spec.get("parts", ()), *spec.get("labels", ())):
        for condition in (entry.get("when", {}), entry.get("unless", {})):
            for key, values in condition.items():
                named.setdefault(key, set()).update(map(str, values))
    choices = [[(key, value) for value in (OTHER, *sorted(values))] for key, values in sorted(named.items())]
    return [dict(choice) for choice in product(*choices)]
