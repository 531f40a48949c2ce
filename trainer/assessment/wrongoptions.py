"""What the wrong options of a question are worth: who chooses them, and whether anybody does.

An option that less than one in twenty chooses does no work (Haladyna & Downing, from memory); a wrong one that the
better people choose more often than the weaker may be right as well.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.assessment.ends import SHARE, ends, held
from trainer.assessment.itemstats import Doubt
from trainer.assessment.samples import FEW, too_few
from trainer.errors import UsageError
from trainer.wording import Sentence, say

NEVER = Fraction(1, 20)


@dataclass(frozen=True, slots=True)
class Chosen:
    """One choice in the light of its paper; ``score`` of ``out_of`` were right, this answer counted in."""

    option: str
    score: int
    out_of: int

    @property
    def level(self) -> Fraction:
        """Return the share of the whole paper that was right."""
        return Fraction(self.score, self.out_of)


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionStatistics:
    """One option: how often it was ``chosen``, and the share of the upper and of the lower group that did.

    ``difference`` is the upper's share less the lower's; a wrong option that works has it below nought. None where
    everybody has the same score.
    """

    option: str
    right: bool
    chosen: int
    share: float | None
    upper: float | None
    lower: float | None
    difference: float | None
    doubts: tuple[Doubt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """All options of a question in their order. ``note`` says that the sample is too small; then nothing is in doubt."""

    answers: int
    options: tuple[OptionStatistics, ...]
    note: Sentence | None


def option_statistics(
    tally: Mapping[Chosen, int],
    options: Sequence[str],
    right: frozenset[str],
    *,
    share: Fraction = SHARE,
    few: int = FEW,
) -> Options:
    """Return the statistics of each option; those that nobody chose too.

    Raises :class:`UsageError` where something was chosen that is no option.
    """
    strange = sorted({chosen.option for chosen in tally} - set(options))
    if strange:
        raise UsageError(say("{option} is not an option of this question.", option=strange[0]))
    levels = _levels(tally, None)
    answers, note = sum(levels.values()), too_few(sum(levels.values()), few)
    groups = ends(levels, share) if len(levels) > 1 else None
    found = []
    for option in options:
        counts = _levels(tally, option)
        upper, lower = (float(held(g, counts) / (answers * share)) for g in groups) if groups else (None, None)
        chosen = sum(counts.values())
        gap = None if upper is None or lower is None else upper - lower
        doubts = () if note or option in right else _doubts(Fraction(chosen, answers), gap)
        found.append(
            OptionStatistics(
                option=option,
                right=option in right,
                chosen=chosen,
                share=chosen / answers if answers else None,
                upper=upper,
                lower=lower,
                difference=gap,
                doubts=doubts,
            )
        )
    return Options(answers=answers, options=tuple(found), note=note)


def _levels(tally: Mapping[Chosen, int], option: str | None) -> dict[Fraction, int]:
    levels: dict[Fraction, int] = {}
    for chosen, count in tally.items():
        if option in {None, chosen.option}:
            levels[chosen.level] = levels.get(chosen.level, 0) + count
    return levels


def _doubts(share: Fraction, gap: float | None) -> tuple[Doubt, ...]:
    if share < NEVER:
        return (Doubt.NEVER,)
    return (Doubt.BACKWARDS,) if gap is not None and gap > 0 else ()
