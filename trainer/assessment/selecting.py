"""Drills that ask for a safeguard: which of those offered is right, usable though less good, or none at all.

The key comes from the selection rules alone. Right is the best of what is offered and usable. Another usable one is
called right as well, and the better one is named. What cannot be relied on, or only adds to a safeguard, is wrong.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from trainer.assessment.paper import NOTHING_FITS
from trainer.bank.model import SelectDrill
from trainer.safeguarding.selection import SafeguardVerdict, select


class Worth(StrEnum):
    """What choosing a safeguard is worth."""

    RIGHT = "right"
    LESS_GOOD = "less-good"
    WRONG = "wrong"


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """What each safeguard offered is worth in one setting, and the verdict of the rules behind it (None for "none")."""

    worth: Mapping[str, Worth]
    verdicts: Mapping[str, SafeguardVerdict]

    @property
    def right(self) -> tuple[str, ...]:
        """Return the codes that are right."""
        return tuple(code for code, worth in self.worth.items() if worth is Worth.RIGHT)


def key_of(drill: SelectDrill, setting_id: str) -> Key:
    """Ask the rules what the safeguards offered in a setting are worth."""
    selection = select(drill.facts_of(setting_id), drill.rule_set)
    offered = drill.setting(setting_id).offered
    verdicts = {code: selection.verdicts[code] for code in offered if code != NOTHING_FITS}
    usable = [code for code in (*selection.best, *selection.less_good) if code in verdicts]
    right = _best(usable, verdicts)
    worth = {code: _worth(code, usable, right) for code in offered}
    return Key(worth=MappingProxyType(worth), verdicts=MappingProxyType(verdicts))


def _best(usable: Sequence[str], verdicts: Mapping[str, SafeguardVerdict]) -> tuple[str, ...]:
    """Return those of the usable safeguards that the rules speak best of; with none usable, that none is."""
    if not usable:
        return (NOTHING_FITS,)
    word = min((verdicts[code].verdict for code in usable), key=lambda verdict: verdict.weight)
    return tuple(code for code in usable if verdicts[code].verdict is word)


def _worth(code: str, usable: Sequence[str], right: Sequence[str]) -> Worth:
    if code in right:
        return Worth.RIGHT
    return Worth.LESS_GOOD if code in usable else Worth.WRONG
