"""What can be said of a safeguard for one job on one machine, from the best word to the worst."""

from collections.abc import Iterable
from enum import StrEnum

from trainer.wording import mark


class Verdict(StrEnum):
    """The word for one safeguard. The order below is the order of weight: the last one that is cast wins."""

    VALID = "valid"
    VALID_COND = "valid_cond"  # after each condition is met and checked before the first stroke
    SUPPLEMENTARY = "supplementary"  # worth having, never counts as the safeguard
    CANNOT_RELY = "cannot_rely"  # something it needs is not known
    NOT_VALID = "not_valid"

    @property
    def weight(self) -> int:
        """Say how heavily the verdict weighs; 0 is the best."""
        return _WEIGHTS[self]

    @property
    def usable(self) -> bool:
        """Say whether the job may run on this safeguard."""
        return self in {Verdict.VALID, Verdict.VALID_COND}

    @property
    def label(self) -> str:
        """Return the message that a person reads."""
        return _LABELS[self]


_WEIGHTS = {verdict: place for place, verdict in enumerate(Verdict)}
_LABELS = {
    Verdict.VALID: mark("valid"),
    Verdict.VALID_COND: mark("valid with conditions"),
    Verdict.SUPPLEMENTARY: mark("supplementary only"),
    Verdict.CANNOT_RELY: mark("cannot be relied on until known"),
    Verdict.NOT_VALID: mark("not valid"),
}


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the heaviest verdict; where nothing was cast, nothing speaks against: valid."""
    return max(verdicts, key=lambda verdict: verdict.weight, default=Verdict.VALID)


def best(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the lightest verdict; where nothing was cast, nothing may be claimed: not valid."""
    return min(verdicts, key=lambda verdict: verdict.weight, default=Verdict.NOT_VALID)
