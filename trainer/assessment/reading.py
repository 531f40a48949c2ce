"""A number as somebody typed it at the kiosk: read it, or ask back; never guess.

It is asked back where one text can be two numbers (``1,234``), and where a number without a unit is out of the way in
the unit of the field but would make sense in another (300 in a field for seconds). A unit that was written stands. A
badge that was scanned into the field is refused and never repeated on the screen.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from trainer import units
from trainer.assessment.amounts import exact_text
from trainer.errors import BadQuantity, UsageError
from trainer.wording import Sentence, mark, say

MOST_DIGITS = 8  # from so many digits on, a plain number is a badge
ZERO_LED = 5  # from so many digits on, a number that begins with a nought is a badge
_SCAN = re.compile(r"^\W{0,2}(\d+)\W{0,2}$")
# The units that somebody at a machine may have meant, and may choose with the switch beside the field.
MEANT: Mapping[str, tuple[str, ...]] = {
    "length": ("mm", "cm", "m", "inch"),
    "time": ("ms", "s"),
    "speed": ("mm/s", "m/s", "inch/s"),
}
BADGE = mark("That looks like a badge number, not an answer. Nothing was saved. Type the answer with the keys.")


@dataclass(frozen=True, slots=True, kw_only=True)
class AskBack:
    """The text can be read in several ways; ``choices`` are the readings, each with its unit, to pick from. Not scored."""

    sentence: Sentence
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """What a field is for: the dimension, the unit of the switch, and what is plausible (least, greatest), if known."""

    dimension: str
    unit: str
    plausible: tuple[Any, Any] | None = None

    def fits(self, quantity: Any) -> bool:
        """Say whether a quantity is not out of the way here."""
        return self.plausible is None or bool(self.plausible[0] <= quantity <= self.plausible[1])


def read_number(text: str, field: Field, language: str = "en") -> Any | AskBack:
    """Read a typed number as an exact quantity, or ask back.

    Raises :class:`BadQuantity` with one sentence for what is no number, has a unit of another kind, is less than
    nothing, or looks like a badge; nothing typed counts as not answered, never as 0.
    """
    if _is_badge(text):
        raise BadQuantity(say(BADGE))
    reading = units.read_quantity(text, field.dimension, field.unit)
    readings = [*reading.candidates, *_dotted(text, field, language, reading)]
    if len(readings) > 1:
        return AskBack(
            sentence=say("That can be read as two numbers. Which one do you mean?"), choices=_texts(readings, field)
        )
    quantity = readings[0]
    if reading.unit_given or field.fits(quantity):
        return quantity
    others = [other for other in _in_other_units(quantity, field) if field.fits(other)]
    if not others:
        return quantity
    return AskBack(
        sentence=say("{amount} is unusual here. Which one do you mean?", amount=exact_text(quantity, field.dimension)),
        choices=_texts([quantity, *others], field),
    )


def unit_named(sign: str, dimension: str) -> str:
    """Return the unit that a switch's sign stands for; raises :class:`UsageError` where it is none of this dimension."""
    spelling = units.SPELLINGS[dimension].get(sign.strip().lower())
    if spelling is None:
        raise UsageError(say("“{sign}” is not a unit for this answer. Choose one of those shown.", sign=sign[:12]))
    return spelling


def _is_badge(text: str) -> bool:
    scanned = _SCAN.match(text.strip())
    if scanned is None or len(text) > units.MAX_TYPED:
        return False
    digits = scanned[1]
    return len(digits) >= MOST_DIGITS or (digits.startswith("0") and len(digits) >= ZERO_LED)


def _dotted(text: str, field: Field, language: str, reading: units.Reading) -> Iterable[Any]:
    """Give the reading of ``1.234`` with a dot for the thousands, where the language may write it so."""
    grouped = re.match(r"^([1-9]\d{0,2})\.(\d{3})(?!\d)", text.strip())
    if language == "en" or grouped is None or len(reading.candidates) > 1:
        return
    yield units.Q(int(grouped[1] + grouped[2]), _unit_of(reading, field))


def _unit_of(reading: units.Reading, field: Field) -> str:
    written = exact_text(reading.candidates[0], field.dimension).rpartition(" ")[2]
    return unit_named(written, field.dimension)


def _in_other_units(quantity: Any, field: Field) -> Iterable[Any]:
    same = MEANT.get(field.dimension, ())
    return (units.Q(quantity.magnitude, unit) for unit in same if unit != field.unit)


def _texts(quantities: Iterable[Any], field: Field) -> tuple[str, ...]:
    return tuple(dict.fromkeys(exact_text(quantity, field.dimension) for quantity in quantities))
