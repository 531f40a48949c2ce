"""The upper and the lower group of a test, without leaving it to the order of a list who is in them.

Where more people tie at the edge of a group than it has places, each of them counts with the same fraction of a place.
"""

from collections.abc import Mapping
from fractions import Fraction

# Kelley (1939): with 27 % at each end a difference shows best against its error.
SHARE = Fraction(27, 100)

Levels = Mapping[Fraction, int]  # how many have which score
Places = Mapping[Fraction, Fraction]  # which fraction of those with a score is in a group


def ends(levels: Levels, share: Fraction = SHARE) -> tuple[Places, Places]:
    """Return who is in the upper and in the lower group, each ``share`` of all."""
    places = sum(levels.values()) * share
    return _filled(levels, sorted(levels, reverse=True), places), _filled(levels, sorted(levels), places)


def _filled(levels: Levels, order: list[Fraction], places: Fraction) -> Places:
    taken: dict[Fraction, Fraction] = {}
    for score in order:
        if places <= 0:
            break
        taken[score] = min(Fraction(1), places / levels[score])
        places -= levels[score]
    return taken


def held(group: Places, counts: Levels) -> Fraction:
    """Return how many of those counted by their score are in a group."""
    return sum((group[score] * count for score, count in counts.items() if score in group), Fraction(0))
