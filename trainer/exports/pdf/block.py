"""The frame of a sheet and the title block at its foot."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.exports.pdf.marks import scan
from trainer.exports.pdf.paper import FINE, LEAST, THICK, Paper, Pen
from trainer.wording import mark, say

LEFT, RIGHT, TOP, BOTTOM = 15.0, 10.0, 15.0, 10.0  # margins outside the frame; a punched edge at the left
ROW = 10.0  # height of a row of the block
PAD = 2.0
LABEL, VALUE, NOTE, STRIP = (
    Pen(size=6.5, soft=True),
    Pen(size=9, bold=True),
    Pen(size=7, soft=True),
    Pen(size=9, bold=True),
)
PAGES = "{nb}"  # what the library puts the number of pages for
CAUTION = mark(
    "A training record, not a risk assessment. The machine’s manual, local rules and a competent person decide."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One field of the block: a label, a value and how wide it is beside the others of its row."""

    label: str
    value: str
    share: float = 1.0
    mono: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A title block: rows of boxes, a note below, and an address to scan at its left."""

    rows: Sequence[Sequence[Box]]
    note: str = ""
    address: str = ""
    code_note: str = ""
    strip: str = ""
    site: str = ""


def block_height(paper: Paper, block: Block) -> float:
    """Return how high a block is."""
    width = _inner(paper) - (_code_side(block) if block.address else 0.0)
    lines = len(paper.broken(block.note, width - 2 * PAD, NOTE)) if block.note else 0
    return max(len(block.rows) * ROW + (lines * NOTE.line + 2.4 if lines else 0.0), 30.0 if block.address else 0.0)


def frame(paper: Paper, block: Block) -> tuple[float, float, float, float]:
    """Draw the frame, the strip above it and the block; return left, top, right and bottom of what is free."""
    left, top, right, bottom = LEFT, TOP, paper.w - RIGHT, paper.h - BOTTOM
    paper.put(left, top - 6, paper.voice.tell(block.strip).upper(), STRIP)
    paper.put(left, top - 6, block.site, Pen(size=9), width=right - left, align="R")
    foot = bottom - block_height(paper, block)
    _block(paper, block, (left, foot), (right, bottom))
    paper.rule(left, foot, right, foot, THICK)
    paper.box(left, top, right - left, bottom - top, THICK)
    return left, top, right, foot


def sheet_box(paper: Paper, share: float = 1.0) -> Box:
    """Return the box that counts the sheets."""
    told = say("{page} of {pages}", page=str(paper.page_no()), pages="@")
    return Box(label=mark("Sheet"), value=paper.voice.tell(told).replace("@", PAGES), share=share)


def _inner(paper: Paper) -> float:
    return paper.w - LEFT - RIGHT


def _code_side(block: Block) -> float:
    return max(len(block.rows) * ROW, 30.0)


def _block(paper: Paper, block: Block, start: tuple[float, float], end: tuple[float, float]) -> None:
    (left, top), (right, bottom) = start, end
    if block.address:
        side = bottom - top
        _code(paper, block, left, top, side)
        left += side
    for row in block.rows:
        _row(paper, row, left, top, right)
        top += ROW
        if block.note or row is not block.rows[-1]:
            paper.rule(left, top, right, top, FINE)
    if block.note:
        paper.lines(left + PAD, top + 1.2, right - left - 2 * PAD, block.note, NOTE)


def _code(paper: Paper, block: Block, left: float, top: float, side: float) -> None:
    note = Pen(size=6, soft=True)
    lines = paper.broken(block.code_note, side - 2, note)
    room = side - len(lines) * note.line - 1.0
    scan(paper, left + (side - room) / 2, top + 0.3, room, block.address)
    for number, line in enumerate(lines):
        paper.put(left + 1, top + room + number * note.line, line, note, width=side - 2, align="C")
    paper.rule(left + side, top, left + side, top + side, FINE)


def _row(paper: Paper, row: Sequence[Box], left: float, top: float, right: float) -> None:
    whole = sum(box.share for box in row)
    x = left
    for number, box in enumerate(row):
        width = (right - left) * box.share / whole
        if number:
            paper.rule(x, top, x, top + ROW, FINE)
        room = width - 2 * PAD
        paper.fitted(x + PAD, top + 0.9, (room, LABEL.line), paper.voice.tell(box.label), LABEL, least=LEAST)
        pen = Pen(size=VALUE.size, bold=not box.mono, mono=box.mono)
        _value(paper, (x + PAD, top + 4.0), room, box.value, pen)
        x += width


def _value(paper: Paper, at: tuple[float, float], width: float, text: str, pen: Pen) -> None:
    shown = text.replace(PAGES, "88")  # as wide as the number that comes
    fitting = paper.fitting(width, ROW - 4.4, shown, pen)
    if PAGES in text:
        paper.take(fitting)
        paper.set_xy(*at)
        paper.cell(width, fitting.line, text)
        return
    paper.lines(*at, width, text, fitting)


__all__ = ["CAUTION", "LEFT", "PAD", "RIGHT", "Block", "Box", "block_height", "frame", "sheet_box"]
