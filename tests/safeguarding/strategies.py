"""Inputs of any problem, drawn from what its fields say, as texts that a person could type."""

from fractions import Fraction

from hypothesis import strategies as st

from trainer.safeguarding.inputs import Field
from trainer.safeguarding.problem import Problem
from trainer.units import digits

# key -> (first, last, step, unit) where the range of its dimension would mostly be refused
NARROW = {
    "object-sensitivity": (7, 62, Fraction(1, 2), "mm"),
    "detection-capability": (7, 70, Fraction(1, 2), "mm"),
    "beam-pitch": (5, 20, Fraction(1, 2), "mm"),
    "field-height": (0, 1000, 5, "mm"),
    "step-height": (0, 400, 5, "mm"),
    "hazard-height": (0, 2800, 10, "mm"),
    "upper-edge-height": (900, 2800, 10, "mm"),
    "barrier-height": (1000, 2800, 10, "mm"),
    "opening": (1, 53, Fraction(1, 4), "mm"),
    "slot-length": (60, 400, 5, "mm"),
    "thickness": (1, 6, Fraction(1, 4), "mm"),
    "die-opening": (8, 100, 1, "mm"),
    "distance": (20, 790, 1, "mm"),
    "hand-distance": (50, 200, 1, "mm"),
    "hand-speed": (1601, 2540, 1, "mm/s"),
    "gap": (1, 600, 1, "mm"),
    "penetration": (0, 190, 1, "mm"),
    "strokes-per-minute": (20, 200, 1, "/min"),
}
WIDE = {
    "length": (1, 2000, 1, "mm"),
    "time": (1, 400, Fraction(1, 2), "ms"),
    "speed": (5, 300, 1, "mm/s"),
    "acceleration": (100, 5000, 10, "mm/s2"),
    "angle": (0, 90, 1, "deg"),
    "rate": (20, 200, 1, "/min"),
    "pressure": (150, 900, 5, "MPa"),
    "force-per-length": (100, 3000, 10, "kN/m"),
}
MOST_COUNT = {"beams-blanked": 4, "beams": 4, "engaging-points": 28, "persons": 60}


def amounts(first, last, step, unit: str) -> st.SearchStrategy[str]:
    count = int((Fraction(last) - first) / Fraction(step))
    return st.integers(0, count).map(lambda n: f"{digits(Fraction(first) + n * Fraction(step), 4)} {unit}")


def texts(field: Field) -> st.SearchStrategy[str]:
    if field.choices:
        return st.sampled_from(field.choices)
    if field.dimension == "count":
        return st.integers(int(field.least or 0), MOST_COUNT.get(field.key, 9)).map(str)
    if field.dimension == "list":
        return st.lists(amounts(80, 260, Fraction(1, 2), "ms"), min_size=3, max_size=3).map(", ".join)
    return amounts(*NARROW.get(field.key, WIDE[field.dimension]))


def inputs(asked: Problem) -> st.SearchStrategy[dict[str, str]]:
    """Every needed input and any of the others; not each draw passes the door together."""
    needed = {field.key: texts(field) for field in asked.fields if not field.optional}
    others = {field.key: texts(field) for field in asked.fields if field.optional}
    return st.fixed_dictionaries(needed, optional=others)
