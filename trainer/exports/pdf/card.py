"""Pocket cards, two sides, by themselves or on a sheet to print on both sides and cut.

A card is as large as a bank card (85.6 x 54 mm, ISO/IEC 7810 ID-1). On a sheet the backs are mirrored, so that each lies
behind its front when the sheet is turned over its long edge.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from trainer.exports.about import About
from trainer.exports.pdf.marks import MARK, scan, standing_mark
from trainer.exports.pdf.paper import CARD, FINE, MEDIUM, SIZES, Paper, Pen
from trainer.exports.pdf.proven import Proof
from trainer.exports.pdf.shown import kind_of, role_of, where
from trainer.exports.voice import PLAIN, Voice
from trainer.wording import mark

PAD, IN = 3.5, 1.8  # from the edge to the words; from the edge to the frame
LABEL, VALUE, CODE, SMALL = Pen(size=5.5, soft=True), Pen(size=8, bold=True), Pen(size=8, mono=True), Pen(size=6)
TICK, OFF = 4.0, 1.0  # crop marks: how long, how far from the corner
PRINTABLE = 6.0  # what a printer leaves white at an edge
FOOT = 11.0  # height of the block at a card's foot
NOT_SHOWN = (
    mark("Holds only while the check code says: authorised."),
    mark("It can be suspended on any day."),
    mark("It does not show that a machine or a job is safe, and counts for no other machine or role."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cards:
    """Cards that are being printed."""

    paper: Paper
    about: About
    home: str


def cards_pdf(
    proofs: Sequence[Proof], about: About, voice: Voice = PLAIN, *, paper: str = "card", home: str = ""
) -> bytes:
    """Return cards: ``paper`` is ``card`` for two pages of a card's size each, else ``a4`` or ``letter`` for sheets."""
    title = ", ".join(dict.fromkeys(proof.name for proof in proofs))
    size = CARD if paper == "card" else SIZES[paper]
    made = Paper(size, voice, title=title, site=about.site, made_at=about.made_at)
    cards = Cards(paper=made, about=about, home=home)
    if paper == "card":
        for proof in proofs:
            for side in (front, back):
                made.add_page()
                side(cards, proof, 0.0, 0.0)
        return made.data()
    places = list(_places(size))
    for start in range(0, len(proofs), len(places)):
        some = proofs[start : start + len(places)]
        _sheet(cards, some, places, front)
        _sheet(cards, some, [(size[0] - x - CARD[0], y) for x, y in places], back)
    return made.data()


def _places(size: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Give the places of cards on a sheet, row by row, in its middle."""
    wide, high = size
    across, down = int((wide - 2 * PRINTABLE) // CARD[0]), int((high - 2 * PRINTABLE) // CARD[1])
    left, top = (wide - across * CARD[0]) / 2, (high - down * CARD[1]) / 2
    for row in range(down):
        for column in range(across):
            yield left + column * CARD[0], top + row * CARD[1]


def _sheet(
    cards: Cards,
    proofs: Sequence[Proof],
    places: Sequence[tuple[float, float]],
    side: Callable[[Cards, Proof, float, float], None],
) -> None:
    cards.paper.add_page()
    used = places[: len(proofs)]
    for proof, (x, y) in zip(proofs, used, strict=True):
        side(cards, proof, x, y)
    _crop(cards.paper, used)


def _crop(paper: Paper, used: Sequence[tuple[float, float]]) -> None:
    """Draw marks to cut along, outside what is printed."""
    left, right = min(x for x, _ in used), max(x for x, _ in used) + CARD[0]
    top, bottom = min(y for _, y in used), max(y for _, y in used) + CARD[1]
    for x in sorted({edge for start, _ in used for edge in (start, start + CARD[0])}):
        paper.rule(x, top - OFF - TICK, x, top - OFF, FINE)
        paper.rule(x, bottom + OFF, x, bottom + OFF + TICK, FINE)
    for y in sorted({edge for _, start in used for edge in (start, start + CARD[1])}):
        paper.rule(left - OFF - TICK, y, left - OFF, y, FINE)
        paper.rule(right + OFF, y, right + OFF + TICK, y, FINE)


def front(cards: Cards, proof: Proof, x: float, y: float) -> None:
    """Draw the front: who, for what, until when."""
    paper, voice = cards.paper, cards.paper.voice
    width, high = CARD[0] - 2 * PAD, CARD[1]
    paper.box(x + IN, y + IN, CARD[0] - 2 * IN, high - 2 * IN, MEDIUM)
    paper.fitted(x + PAD, y + 3.2, (width * 0.62, 4.5), cards.about.site, SMALL, least=3.5)
    paper.put(x + PAD, y + 3.2, voice.tell(mark("Pocket card")), SMALL, width=width, align="R")
    paper.rule(x + IN, y + 7.6, x + CARD[0] - IN, y + 7.6, FINE)
    end = paper.fitted(x + PAD, y + 9.0, (width, 13.0), proof.name, Pen(size=14, bold=True))
    paper.put(x + PAD, end + 0.3, proof.person.number, Pen(size=7.5))
    standing_mark(paper, x + PAD, y + 28.2, "solid")
    what = f"{proof.standing.machine}, {role_of(voice, proof)}"
    room = width - MARK[0] - 1.5
    paper.fitted(x + PAD + MARK[0] + 1.5, y + 27.0, (room, 5.0), what, Pen(size=11, bold=True))
    kind = f"{proof.machine.name} ({kind_of(voice, proof)})"
    paper.fitted(x + PAD, y + 32.5, (width, 7.0), kind, Pen(size=7.5))
    foot = y + high - IN - FOOT
    paper.rule(x + IN, foot, x + CARD[0] - IN, foot, FINE)
    third = (CARD[0] - 2 * IN) / 3
    today = cards.about.made_at.astimezone(cards.about.zone).date()
    boxes = (
        (mark("Valid until"), voice.day(proof.standing.holds_until), VALUE),
        (mark("Printed"), voice.day(today), VALUE),
        (mark("Check code"), proof.code, Pen(size=7.5, mono=True)),
    )
    for number, (label, value, pen) in enumerate(boxes):
        at = x + IN + number * third
        if number:
            paper.rule(at, foot, at, foot + FOOT, FINE)
        paper.fitted(at + 1.7, foot + 1.6, (third - 2.6, 2.6), voice.tell(label), LABEL)
        paper.fitted(at + 1.7, foot + 5.0, (third - 2.6, 4.6), value, pen)


def back(cards: Cards, proof: Proof, x: float, y: float) -> None:
    """Draw the back: how to check it, and what it does not show."""
    paper, voice = cards.paper, cards.paper.voice
    paper.box(x + IN, y + IN, CARD[0] - 2 * IN, CARD[1] - 2 * IN, MEDIUM)
    address = where(cards.home, proof.code)
    left = x + PAD
    if address:
        scan(paper, x + IN + 0.6, y + IN + 0.6, 33.0, address)
        paper.put(x + IN, y + IN + 34.0, proof.code, CODE, width=34.2, align="C")
        left = x + IN + 35.0
    width = x + CARD[0] - PAD - left
    top = y + 4.0
    for number, text in enumerate(NOT_SHOWN):
        pen = Pen(size=7.5, bold=number == 0) if number < 1 else Pen(size=7)
        top = paper.lines(left, top, width, voice.tell(text), pen) + 1.3
    where_to = voice.tell(mark("Check it at")) if address else voice.tell(mark("Check it with the plant, by its code"))
    foot = y + CARD[1] - IN - FOOT
    paper.rule(x + IN, foot, x + CARD[0] - IN, foot, FINE)
    paper.put(x + PAD, foot + 1.6, where_to, LABEL)
    shown = address.removesuffix(f"/{proof.code}").removeprefix("https://") if address else proof.code
    paper.fitted(x + PAD, foot + 4.6, (CARD[0] - 2 * PAD, 5.2), shown, CODE)
