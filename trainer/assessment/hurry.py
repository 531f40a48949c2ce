"""Answers that came faster than their sheet can be read.

No reader takes in more than 600 words a minute: that is the pace of looking a page over for one word (Carver 1990,
*Reading Rate*; known from quotations, not read in the original). Whoever answers sooner has not read the sheet, or
knew it already. The pace is set so high that nobody is blamed who reads fast, and it never counts against a person;
it tells how far an item's figures can be trusted.
"""

from dataclasses import dataclass

from trainer.assessment.samples import FEW, must_be_counts, too_few
from trainer.wording import Sentence

WORDS_A_MINUTE = 600


@dataclass(frozen=True, slots=True, kw_only=True)
class Hurried:
    """How many answers came too fast. ``timed`` are those whose time is known; ``right`` are right among the fast."""

    timed: int
    fast: int
    right: int
    share: float | None
    note: Sentence | None


def least_ms(words: int) -> int:
    """Return how long a sheet of so many words has to be looked at, in ms, rounded down."""
    return max(0, words) * 60_000 // WORDS_A_MINUTE


def too_fast(took_ms: int, words: int) -> bool:
    """Say whether an answer came before its sheet could be read; a time of 0 is one that is not known."""
    return 0 < took_ms < least_ms(words)


def hurried(timed: int, fast: int, right: int, *, few: int = FEW) -> Hurried:
    """Sum up the answers to an item."""
    must_be_counts(fast, timed)
    must_be_counts(right, fast)
    return Hurried(timed=timed, fast=fast, right=right, share=fast / timed if timed else None, note=too_few(timed, few))
