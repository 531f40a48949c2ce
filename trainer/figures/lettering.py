"""How wide words are on the sheet, so that labels neither overlap nor run off it.

Widths are those of DejaVu Sans Condensed, which is among the widest of the faces that the sheets ask for: words that fit in
it fit in the others.
"""

from collections.abc import Sequence

SIZE = 22.0  # px, the least on a kiosk sheet
LEAD = 25.0  # px from line to line

# Advance in thousandths of the size, and the characters that have it.
_PLAIN = (
    "250 ijlí'|265 IJÍ|286 ,.’· |303 /:;\\|316 f|325 -|351 ()[]|353 t|360 !¡|370 r|414 \"|450 *_`–°|466 “”|469 s|472 z"
    "|495 c|501 L|518 F|521 k|532 vxy|542 P|549 TY|550 oó|551 aá|554 eé|568 EÉ|570 hnuúüñ?¿|571 bdgpqS|590 K"
    "|572 0123456789${}|615 AVÁ|616 XZ|617 B|625 R|628 C|659 UÚÜ|673 NÑ|677 H|693 D|697 G|702 &|708 OQÓ|736 w"
    "|754 #+<=>^~−×|776 M|855 %|872 ½|876 m|890 W|900 @"
)
BOLD = 1.15  # the bold face is wider by up to this


def _table(text: str) -> dict[str, float]:
    widths: dict[str, float] = {"|": 303}
    for entry in text.split("|"):
        advance, _space, letters = entry.partition(" ")
        widths |= dict.fromkeys(letters, float(advance))
    return widths


WIDTHS = _table(_PLAIN)
WIDEST = 900.0


def width_of(text: str, size: float = SIZE, *, bold: bool = False) -> float:
    """Return how wide words are at most, in px."""
    plain = sum(WIDTHS.get(letter, WIDEST) for letter in text.replace("_", "")) * size / 1000
    return plain * BOLD if bold else plain


def wrapped(text: str, room: float, *, size: float = SIZE, bold: bool = False) -> tuple[str, ...]:
    """Break words into lines no wider than ``room``, as even as they can be; a word is never broken."""
    parts = text.split()
    if not parts or width_of(text, size, bold=bold) <= room:
        return (text,)
    for count in range(2, len(parts) + 1):
        lines = min(_splits(parts, count), key=lambda lines: max(width_of(line, size, bold=bold) for line in lines))
        if max(width_of(line, size, bold=bold) for line in lines) <= room:
            return lines
    return tuple(parts)


def _splits(parts: Sequence[str], count: int) -> list[tuple[str, ...]]:
    if count == 1:
        return [(" ".join(parts),)]
    return [
        (" ".join(parts[:first]), *rest)
        for first in range(1, len(parts) - count + 2)
        for rest in _splits(parts[first:], count - 1)
    ]
