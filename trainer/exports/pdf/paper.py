"""The paper itself: sizes, faces, pens, and text that is fitted to its place and never cut. Lengths are millimetres."""

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from fpdf import FPDF
from fpdf.enums import Align, MethodReturnValue
from fpdf.fonts import TTFFont

from trainer.exports.voice import Voice
from trainer.figures.faces import face

A4, LETTER, CARD = (210.0, 297.0), (215.9, 279.4), (85.6, 54.0)  # ISO 216; ANSI/ASME Y14.1 A; ISO/IEC 7810 ID-1
SIZES = {"a4": A4, "letter": LETTER}
INK, SOFT = (22, 33, 43), (52, 66, 78)
THICK, MEDIUM, FINE = 0.7, 0.35, 0.15  # pens
POINT = 25.4 / 72  # mm
LEAD = 1.25  # from line to line, in sizes of the letters
STEP = 0.25  # pt by which letters are made smaller until they fit
LEAST = 4.0  # pt
FACES = (("sans", "", "DejaVuSans"), ("sans", "B", "DejaVuSans-Bold"), ("mono", "", "DejaVuSansMono"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """How words are set: size in points, weight, colour, face."""

    size: float = 8.0
    bold: bool = False
    soft: bool = False
    mono: bool = False

    @property
    def line(self) -> float:
        """Return the distance from line to line."""
        return self.size * POINT * LEAD

    def at(self, size: float) -> "Pen":
        """Return the same pen at another size."""
        return Pen(size=size, bold=self.bold, soft=self.soft, mono=self.mono)


class Paper(FPDF):
    """A document in one voice. The same words and the same instant give the same bytes."""

    def __init__(self, size: tuple[float, float], voice: Voice, *, title: str, site: str, made_at: datetime) -> None:
        super().__init__(unit="mm", format=size)
        self.voice = voice
        self.set_auto_page_break(auto=False)
        self.set_margin(0)
        self.c_margin = 0
        for family, style, name in FACES:
            self.add_font(family, style, face(name))
        faces = (self.fonts["sans"], self.fonts["sansB"])
        self.known = frozenset.intersection(*(frozenset(one.cmap) for one in faces if isinstance(one, TTFFont)))
        self.set_title(title)
        self.set_author(site)
        self.set_creator("trainer")
        self.set_lang(voice.language)
        self.set_creation_date(made_at.astimezone(UTC).replace(microsecond=0))

    def clean(self, text: str) -> str:
        """Return a text as it can be printed: a character that the faces lack is named, not left out."""
        whole = unicodedata.normalize("NFC", text)
        return "".join(sign if ord(sign) in self.known or sign == "\n" else f"[U+{ord(sign):04X}]" for sign in whole)

    def take(self, pen: Pen) -> None:
        """Write with this pen from now on."""
        self.set_font("mono" if pen.mono else "sans", "B" if pen.bold and not pen.mono else "", pen.size)
        self.set_text_color(*(SOFT if pen.soft else INK))

    def wide(self, text: str, pen: Pen) -> float:
        """Return how wide a text is on one line."""
        self.take(pen)
        return float(self.get_string_width(self.clean(text)))

    def broken(self, text: str, width: float, pen: Pen) -> list[str]:
        """Break a text into lines no wider than ``width``; a word that is wider by itself is broken too."""
        self.take(pen)
        lines = self.multi_cell(width, text=self.clean(text), dry_run=True, output=MethodReturnValue.LINES, align="L")
        return [str(line) for line in lines] if isinstance(lines, list) else []

    def put(self, x: float, y: float, text: str, pen: Pen, *, width: float = 0.0, align: str = "L") -> None:
        """Write one line with its top at ``y``; with ``width`` it is set against that width."""
        if not text:
            return
        self.take(pen)
        self.set_xy(x, y)
        self.cell(width or None, pen.line, self.clean(text), align=Align.coerce(align))

    def lines(self, x: float, y: float, width: float, text: str, pen: Pen) -> float:
        """Write a text on as many lines as it needs and return where it ends."""
        for line in self.broken(text, width, pen):
            self.put(x, y, line, pen)
            y += pen.line
        return y

    def fitted(
        self, x: float, y: float, room: tuple[float, float], text: str, pen: Pen, *, least: float = LEAST
    ) -> float:
        """Write a text as large as ``pen`` at most, within a width and a height, and return where it ends."""
        width, height = room
        pen = self.fitting(width, height, text, pen, least=least)
        return self.lines(x, y, width, text, pen)

    def fitting(self, width: float, height: float, text: str, pen: Pen, *, least: float = LEAST) -> Pen:
        """Return the largest pen with which a text fits, no word broken unless none else does."""
        for size in _smaller(pen.size, least):
            tried = pen.at(size)
            whole = all(self.wide(word, tried) <= width for word in text.split())
            if whole and len(self.broken(text, width, tried)) * tried.line <= height + 0.01:
                return tried
        for size in _smaller(pen.size, least):
            tried = pen.at(size)
            if len(self.broken(text, width, tried)) * tried.line <= height + 0.01:
                return tried
        return pen.at(least)

    def rule(self, x1: float, y1: float, x2: float, y2: float, pen: float = FINE) -> None:
        """Draw a line."""
        self.set_draw_color(*INK)
        self.set_line_width(pen)
        self.line(x1, y1, x2, y2)

    def box(self, x: float, y: float, width: float, height: float, pen: float = FINE) -> None:
        """Draw a box."""
        self.set_draw_color(*INK)
        self.set_line_width(pen)
        self.rect(x, y, width, height)

    def data(self) -> bytes:
        """Return the document."""
        return bytes(self.output())


def _smaller(size: float, least: float) -> Iterator[float]:
    while size > least:
        yield size
        size -= STEP
    yield least


def paragraphs(*parts: str) -> str:
    """Join the parts that are not empty to one running text."""
    return " ".join(part for part in parts if part)


def listed(words: Sequence[str]) -> str:
    """Join words with commas."""
    return ", ".join(words)
