"""Openings in guards: how large at which distance, by the US table and by the international one."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers, Unverified
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import INCH, UNIT_SLIPS, Slip, pick
from trainer.safeguarding.tables import band_of, bands, table
from trainer.safeguarding.working import Refused, Seen, Working
from trainer.wording import mark, say

NEAREST, FURTHEST = INCH / 2, Fraction("31.5") * INCH  # mm
WIDEST, BEYOND = Fraction("2.125") * INCH, 6 * INCH  # mm; the second is from memory
SHORT_SLOT = Fraction(65)  # mm
SMALLEST = say("The figure is the smallest dimension of the opening. Check the guard once it is mounted.")
NOTHING_BEYOND = say(
    "The table ends at 31 1/2 in (800.1 mm). What is done beyond is known from memory only; unverified=yes uses it."
)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the US table, in mm."""

    first: Fraction
    last: Fraction
    opening: Fraction

    @property
    def middle(self) -> Fraction:
        """Return the distance in the middle of the row."""
        return (self.first + self.last) / 2


@cache
def us_rows() -> tuple[Row, ...]:
    """Return the rows of the US table, nearest first."""
    return tuple(Row(*(Fraction(cell) * INCH for cell in row)) for row in table("osha-o10").rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsGuardOpening(Inputs):
    """Inputs of the US table: the distance of the opening, or the opening."""

    distance: Annotated[Any, Given("D", mark("Distance of the opening from the hazard"), "length", above=0)] = None
    opening: Annotated[Any, Given("e", mark("Smallest dimension of the opening"), "length", above=0)] = None
    unverified: Unverified = "no"

    def agree(self) -> None:
        """Refuse both, or neither."""
        if (self.distance is None) == (self.opening is None):
            raise UsageError(say("Give either distance or opening; the other is the result."))


def _us(w: Working, g: Numbers) -> Any:
    w.warn(SMALLEST, say("The table is for guards. It does not place a light curtain."))
    w.cite(sources.O_10, sources.OSHA_LETTER_1998)
    memory = g.unverified == "yes"
    return _greatest_opening(w, g, memory=memory) if g.opening is None else _least_distance(w, g, memory=memory)


def _greatest_opening(w: Working, g: Numbers, *, memory: bool) -> Any:
    distance = w.given("D", g.distance, "length", mark("Distance of the opening from the hazard"))
    w.bounds(Sense.AT_MOST, "fine-length")
    label = mark("Greatest opening, from the table")
    if distance < NEAREST:
        raise Refused(say("The table says nothing nearer than 1/2 in (12.7 mm). No opening is allowed there by it."))
    w.term("distance", distance)
    if distance > FURTHEST:
        return w.step("e", label, "6 in", _from_memory(w, BEYOND, memory=memory))
    matching = [number for number, row in enumerate(us_rows()) if row.first <= distance <= row.last]
    w.seen["matching"] = matching
    row = us_rows()[w.ask("row", matching[0])]
    opening = w.ask("cell", row.opening)
    return w.step("e", label, "table(D)", opening)


def _least_distance(w: Working, g: Numbers, *, memory: bool) -> Any:
    opening = w.given("e", g.opening, "length", mark("Smallest dimension of the opening"))
    label = mark("Least distance, from the table")
    w.bounds(Sense.MORE_THAN, "distance")
    if opening > WIDEST:
        if opening > BEYOND:
            raise Refused(say("The table has no opening of this size. Make it smaller or use another guard."))
        furthest = _from_memory(w, FURTHEST, memory=memory)
        w.term("distance", furthest)
        return w.step("D", label, "31.5 in", furthest)
    fitting = next(number for number, row in enumerate(us_rows()) if opening <= row.opening)
    w.seen["matching"] = [fitting]
    row = w.ask("row", fitting)
    if row == 0:  # only here is the near end of the row not shared with a stricter one
        w.bounds(Sense.AT_LEAST, "distance")
    distance = w.step("D", label, "table(e)", us_rows()[row].first)
    w.term("distance", distance)
    return distance


def _from_memory(w: Working, value: Fraction, *, memory: bool) -> Fraction:
    w.from_memory(NOTHING_BEYOND, "yes" if memory else "no")
    w.cite(sources.O_10_BEYOND)
    return value


def _interpolated(seen: Seen) -> Any:
    distance, rows = seen["D"], us_rows()
    after = next((number for number, row in enumerate(rows) if row.middle >= distance), len(rows) - 1)
    before = max(after - 1, 0)
    low, high = rows[before], rows[after]
    if low is high or not low.middle <= distance <= high.middle:
        return rows[seen["row"]].opening
    share = (distance - low.middle) / (high.middle - low.middle)
    return low.opening + share * (high.opening - low.opening)


def _by_opening_column(seen: Seen) -> Fraction:
    rows = us_rows()
    return next((row.opening for row in rows if seen["D"] <= row.opening), rows[-1].opening)


def _one_row_on(row: int, seen: Seen) -> int:
    at_an_edge = len(seen["matching"]) > 1  # there the next row is the other one that fits, which is a slip of its own
    return row if at_an_edge else min(row + 1, len(us_rows()) - 1)


US_SLIPS = (
    Slip(
        code="larger-at-the-edge",
        title=mark("Takes the larger opening where two rows share an edge"),
        tell=mark("That distance is in two rows. The smaller opening counts."),
        symbol="e",
        changes={"row": pick(lambda seen: seen["matching"][-1])},
    ),
    Slip(
        code="interpolates",
        title=mark("Interpolates between the rows"),
        tell=mark("You interpolated. The table is never interpolated; the row counts as it stands."),
        symbol="e",
        changes={"cell": pick(_interpolated)},
    ),
    Slip(
        code="opening-as-distance",
        title=mark("Looks the distance up in the column of openings"),
        tell=mark("You looked the distance up in the column of openings."),
        symbol="e",
        changes={"cell": pick(_by_opening_column)},
    ),
    Slip(
        code="next-row",
        title=mark("Reads one row too far"),
        tell=mark("You read one row too far."),
        symbol="e",
        changes={"row": _one_row_on},
    ),
    Slip(
        code="row-before",
        title=mark("Reads one row too near"),
        tell=mark("You read one row too near."),
        symbol="e",
        changes={"row": lambda value, _seen: max(value - 1, 0)},
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class IsoGuardOpening(Inputs):
    """Inputs of the international table of regular openings."""

    shape: Annotated[Any, Given("shape", mark("Shape of the opening"), "choice", choices=("slot", "square", "round"))]
    opening: Annotated[Any, Given("e", mark("Width of the slot, side of the square, or diameter"), "length", above=0)]
    slot_length: Annotated[Any, Given("l", mark("Length of the slot"), "length", above=0)] = None

    def agree(self) -> None:
        """Refuse a slot length where there is no slot, or a slot shorter than it is wide."""
        if self.slot_length is not None and self.shape != "slot":
            raise UsageError(say("slot-length: only a slot has one."))
        if self.slot_length is not None and self.numbers().slot_length < self.numbers().opening:
            raise UsageError(say("slot-length: a slot is not shorter than it is wide."))


def _iso(w: Working, g: Numbers) -> Any:
    shape = w.given("shape", g.shape, "choice", mark("Shape of the opening"))
    size = w.given("e", g.opening, "length", mark("Width, side or diameter of the opening"))
    length = None if g.slot_length is None else w.given("l", g.slot_length, "length", mark("Length of the slot"))
    w.warn(
        say("For people of 14 years and over. In other openings measure the smallest square, circle or slot around.")
    )
    w.cite(sources.ISO_13857_OPENINGS)
    if band_of("iso-13857-openings", size) is None:
        raise Refused(say("Above 120 mm the table of openings ends. Use the distance for reaching over."))
    column = "short_slot" if shape == "slot" and w.ask("short", length is not None and length <= SHORT_SLOT) else shape
    row = w.ask("row", next(n for n, band in enumerate(bands("iso-13857-openings")) if band.above < size <= band.to))
    cell = w.ask("cell", Fraction(bands("iso-13857-openings")[row].cells[column]))
    formula = "table(shape, e)" if length is None else "table(shape, e, l)"
    distance = w.step("s_r", mark("Least distance, from the table"), formula, cell)
    w.term("distance", distance)
    return distance


def _older(own: Any, seen: Seen) -> Any:
    band = band_of("en-294-openings", seen["e"])
    older = own if band is None else Fraction(band.cells[seen["shape"]])
    relief = Fraction(bands("iso-13857-openings")[seen["row"]].cells["short_slot"])
    # Where a slot's length is given, its short-slot figure is what was misread, not an older table.
    return own if "l" in seen and older == relief else older


ISO_SLIPS = (
    Slip(
        code="square-for-slot",
        title=mark("Reads the column for squares although it is a slot"),
        tell=mark("You read the column for squares. This is a slot: an arm goes in sideways."),
        symbol="s_r",
        changes={"shape": lambda value, _seen: "square" if value == "slot" else value},
    ),
    Slip(
        code="short-slot-relief",
        title=mark("Uses the figure for a slot of 65 mm or less on a longer one"),
        tell=mark("You used the figure for short slots. It holds only up to 65 mm of length."),
        symbol="s_r",
        changes={"short": lambda value, seen: value or "l" in seen},
    ),
    Slip(
        code="row-before",
        title=mark("Reads the row for smaller openings"),
        tell=mark("You read the row for smaller openings. The opening must not be above the row's end."),
        symbol="s_r",
        changes={"row": lambda value, _seen: max(value - 1, 0)},
    ),
    Slip(
        code="next-row",
        title=mark("Reads the row for larger openings"),
        tell=mark("You read the row for larger openings. At its end an opening still belongs to the row."),
        symbol="s_r",
        changes={"row": lambda value, _seen: min(value + 1, len(bands("iso-13857-openings")) - 1)},
    ),
    Slip(
        code="older-numbers",
        title=mark("Uses the numbers of an older standard"),
        tell=mark("You used older numbers, which some national law still carries. This asks for the present table."),
        symbol="s_r",
        changes={"cell": _older},
    ),
)

PROBLEMS = (
    Problem(
        name="us-guard-opening",
        title=mark("Opening in a guard and its distance, US table"),
        inputs=UsGuardOpening,
        sum=_us,
        answer=answer("e", Sense.AT_MOST, "fine-length"),
        slips=(*US_SLIPS, *UNIT_SLIPS),
    ),
    Problem(
        name="iso-guard-opening",
        title=mark("Distance of a guard with regular openings, international table"),
        inputs=IsoGuardOpening,
        sum=_iso,
        answer=answer("s_r", Sense.AT_LEAST),
        slips=(*ISO_SLIPS, *UNIT_SLIPS),
    ),
)
