"""What each slip makes of one draw: the figures that a typed number is compared with, worked out once."""

from collections.abc import Iterator, Sequence
from functools import cached_property, lru_cache
from itertools import combinations
from types import SimpleNamespace
from typing import Any

from trainer.safeguarding.problem import Begun
from trainer.safeguarding.problems import Figure, Problem, problem
from trainer.safeguarding.slips import Slip

Explained = tuple[tuple[str, ...], Figure]  # the codes of slips and the figure that they lead to together


class SlipValues:
    """The right figure of one draw and what slips make of it, in numbers of one unit.

    The sum itself is run once for each slip and once for each pair that has to be; slips of the unit or the rounding
    only act on what is there already. Pairs are worked out when somebody asks for them.
    """

    def __init__(self, sum_: Problem, numbers: Any, unit: str, codes: Sequence[str]) -> None:
        self.problem, self.numbers, self.unit = sum_, numbers, unit
        self.slips = tuple(sum_.slip(code) for code in codes)
        self._begun = sum_.begin(numbers, ())
        self.right = sum_.end(self._begun, (), unit=unit) if self._begun else None

    @cached_property
    def singles(self) -> tuple[Explained, ...]:
        """Return what each slip leads to, without those that change nothing here or lead to no figure."""
        return tuple(((slip.code,), figure) for slip in self.slips if (figure := self._alone(slip)))

    @cached_property
    def pairs(self) -> tuple[Explained, ...]:
        """Return what two slips at once lead to."""
        return tuple(self._pairs())

    @cached_property
    def _begun_with(self) -> dict[str, Begun | None]:
        begun = ((slip, self.problem.begin(self.numbers, (slip,))) for slip in self.slips if not slip.at_the_end)
        return {slip.code: it for slip, it in begun}

    def _alone(self, slip: Slip) -> Figure | None:
        begun = self._begun if slip.at_the_end else self._begun_with[slip.code]
        figure = self.problem.end(begun, (slip,), unit=self.unit) if begun else None
        return None if figure is None or self._is_right(figure) else figure

    def _is_right(self, figure: Figure) -> bool:
        right = self.right
        return right is not None and figure.value == right.value and figure.rounded == right.rounded

    def _pairs(self) -> Iterator[Explained]:
        for pair in combinations(self.slips, 2):
            figure = self._together(pair)
            if figure is not None:
                yield (pair[0].code, pair[1].code), figure

    def _together(self, pair: tuple[Slip, Slip]) -> Figure | None:
        inside = [slip for slip in pair if not slip.at_the_end]
        if len(inside) == 2:
            begun = self.problem.begin(self.numbers, pair)
        else:
            begun = self._begun_with[inside[0].code] if inside else self._begun
        return self.problem.end(begun, pair, unit=self.unit) if begun else None


def slip_values(sum_: Problem, numbers: Any, unit: str, codes: Sequence[str]) -> SlipValues:
    """Return the values of a draw; those of the draws asked for last are kept."""
    return _kept(sum_.name, unit, tuple(codes), tuple(vars(numbers).items()))


@lru_cache(maxsize=512)
def _kept(name: str, unit: str, codes: tuple[str, ...], numbers: tuple[tuple[str, Any], ...]) -> SlipValues:
    return SlipValues(problem(name), SimpleNamespace(**dict(numbers)), unit, codes)
