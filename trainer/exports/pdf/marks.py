"""What is drawn beside words: the four marks of a standing, hatching, an interval as a dimension line, a code to scan."""

import segno

from trainer.assessment.mastery import Gap, State
from trainer.exports.pdf.paper import FINE, INK, MEDIUM, Paper

MARK = (5.0, 2.4)  # mm
SLANT = 1.1  # mm between lines of hatching


def standing_mark(paper: Paper, x: float, y: float, mark: str) -> None:
    """Draw the mark of a standing: ``solid``, ``hatched``, ``struck`` or ``broken``; its word always stands beside it."""
    width, height = MARK
    if mark == "broken":
        paper.set_dash_pattern(dash=0.8, gap=0.6)
        paper.box(x, y, width, height, 0.25)
        paper.set_dash_pattern()
        return
    if mark == "solid":
        paper.set_fill_color(*INK)
        paper.rect(x, y, width, height, style="F")
    elif mark == "hatched":
        hatching(paper, x, y, width, height)
    elif mark == "struck":
        paper.rule(x, y + height, x + width, y, 0.25)
    paper.box(x, y, width, height, 0.25)


def hatching(paper: Paper, x: float, y: float, width: float, height: float) -> None:
    """Hatch a box with lines that rise to the right."""
    offset = SLANT / 2
    while offset < width + height:
        left, right = max(0.0, offset - height), min(offset, width)
        paper.rule(x + left, y + offset - left, x + right, y + offset - right)
        offset += SLANT


def interval(paper: Paper, x: float, y: float, width: float, gap: Gap) -> None:
    """Draw where a competency lies: 0 to 100, the level required as a centre line, the interval with its most likely dot."""
    middle = y + 1.6
    level = x + width * gap.level
    paper.set_dash_pattern(dash=1.6, gap=0.7)
    paper.rule(level, y - 0.4, level, y + 3.6, MEDIUM)
    paper.set_dash_pattern()
    if gap.state is State.NO_EVIDENCE:
        paper.set_dash_pattern(dash=0.8, gap=0.6)
        paper.box(x, y + 0.4, width, 2.4, 0.25)
        paper.set_dash_pattern()
        return
    low, median, high = (x + width * share for share in (gap.low, gap.median, gap.high))
    if gap.state is State.GAP and level > high:
        hatching(paper, high, middle - 0.9, level - high, 1.8)
    paper.set_dash_pattern(dash=0.2, gap=1.0)
    paper.rule(x, middle, x + width, middle, FINE)
    paper.set_dash_pattern()
    paper.rule(low, middle, high, middle, MEDIUM)
    for end in (low, high):
        paper.rule(end, middle - 1.2, end, middle + 1.2, MEDIUM)
    paper.set_fill_color(*INK)
    paper.circle(median, middle, 0.8, style="F")


def scan(paper: Paper, x: float, y: float, side: float, address: str) -> None:
    """Draw a QR code (ISO/IEC 18004) of an address, with its quiet zone, as boxes of ink."""
    rows = [list(row) for row in segno.make(address, error="m", micro=False).matrix_iter(border=4)]
    size = side / len(rows)
    paper.set_fill_color(*INK)
    for down, row in enumerate(rows):
        start = None
        for across, dark in enumerate([*row, 0]):
            if dark and start is None:
                start = across
            elif not dark and start is not None:
                paper.rect(x + start * size, y + down * size, (across - start) * size, size * 1.02, style="F")
                start = None
