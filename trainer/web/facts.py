"""What the plant has on file about a machine, with the trade's names for it. Nothing is added that is not there."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from trainer.web.filters import day
from trainer.web.language import localise
from trainer.web.words import _l

LABELS = MappingProxyType(
    {
        "made": _l("Made in"),
        "drive": _l("Drive"),
        "safeguard": _l("Safeguard"),
        "object-sensitivity": _l("Object sensitivity"),
        "beam-pitch": _l("Beam pitch"),
        "stopping-time": _l("Stopping time"),
        "measured": _l("Measured on"),
        "control-response": _l("Control response"),
        "device-response": _l("Device response"),
        "monitor-allowance": _l("Monitor allowance"),
        "mounted-distance": _l("Mounted at"),
        "distance-rule": _l("Distance rule"),
        "measure-every": _l("Measured every"),
        "detection-capability": _l("Detection capability"),
        "beams-blanked": _l("Beams blanked"),
        "appointed": _l("Appointed checker"),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One fact as shown."""

    label: str
    value: str


def told_facts(facts: Mapping[str, str]) -> tuple[Fact, ...]:
    """Show the facts in the trade's order; a fact without a name of its own goes by its key, at the end."""
    known = [key for key in LABELS if key in facts]
    other = [key for key in facts if key not in LABELS]
    return tuple(
        Fact(label=str(LABELS.get(key, key.replace("-", " ").capitalize())), value=_value(facts[key]))
        for key in (*known, *other)
    )


def _value(text: str) -> str:
    try:
        return day(date.fromisoformat(text))
    except ValueError:
        return localise(text)
