"""Tables that run over pages: a head that is repeated, rows under fine lines, cells of words and of drawings."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from trainer.exports.pdf.paper import FINE, MEDIUM, Paper, Pen

Drawing = Callable[[Paper, float, float], None]
GAP, AIR = 2.5, 1.1  # between columns; above and below the words of a row
HEAD = Pen(size=6.5, soft=True)
REST = 12.0  # a row that is higher than the rest of a page is begun on a new one, unless it is higher than a page


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph in a cell; ``indent`` leaves room at its left."""

    text: str
    pen: Pen = Pen()  # noqa: RUF009  (frozen)
    indent: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A drawing in a cell. With height 0 it stands beside the words that follow."""

    height: float
    draw: Drawing


Part = Words | Drawn
Cell = Sequence[Part]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its head and its width."""

    head: str
    width: float


class Flow:
    """Where the next thing goes. ``turn`` begins a new page and says what is free on it: left, top, right, bottom."""

    def __init__(self, paper: Paper, turn: Callable[[], tuple[float, float, float, float]]) -> None:
        self.paper = paper
        self.turn = turn
        self.y = self.bottom = self.left = self.right = self.top = 0.0
        self.next_page()

    def next_page(self) -> None:
        """Begin a new page."""
        self.left, self.top, self.right, self.bottom = self.turn()
        self.y = self.top

    def need(self, height: float) -> bool:
        """Begin a new page unless so much is free on this one; say whether it did."""
        if self.y + height <= self.bottom:
            return False
        self.next_page()
        return True


def table(flow: Flow, columns: Sequence[Column], rows: Iterable[Sequence[Cell]]) -> None:
    """Write a table. A row is kept together where a page can hold it; its head is repeated on each page."""
    fresh = True
    for row in rows:
        cells = [list(_lines(flow.paper, cell, column.width)) for cell, column in zip(row, columns, strict=True)]
        height = max(sum(size for size, _ in cell) for cell in cells) + 2 * AIR
        head = _head_height(flow, columns) if fresh else 0.0
        if flow.need(head + min(height, flow.bottom - flow.top - REST)):
            fresh = True
        if fresh:
            _head(flow, columns)
        fresh = False
        _row(flow, columns, cells)


def _head_height(flow: Flow, columns: Sequence[Column]) -> float:
    tell = flow.paper.voice.tell
    return max(len(flow.paper.broken(tell(column.head), column.width, HEAD)) for column in columns) * HEAD.line + 1.0


def _head(flow: Flow, columns: Sequence[Column]) -> None:
    x, height = flow.left, _head_height(flow, columns)
    for column in columns:
        flow.paper.lines(x, flow.y, column.width, flow.paper.voice.tell(column.head), HEAD)
        x += column.width + GAP
    flow.y += height
    flow.paper.rule(flow.left, flow.y, flow.right, flow.y, MEDIUM)


def _lines(paper: Paper, cell: Cell, width: float) -> Iterator[tuple[float, Drawing]]:
    """Take a cell apart into lines that can stand on different pages."""
    for part in cell:
        if isinstance(part, Drawn):
            yield part.height, part.draw
        else:
            for line in paper.broken(part.text, width - part.indent, part.pen):
                yield part.pen.line, _written(line, part)


def _written(line: str, part: Words) -> Drawing:
    return lambda paper, x, y: paper.put(x + part.indent, y, line, part.pen)


def _row(flow: Flow, columns: Sequence[Column], cells: list[list[tuple[float, Drawing]]]) -> None:
    left = cells
    while True:
        left, end = _as_far(flow, columns, left)
        if not any(left):
            break
        flow.next_page()
        _head(flow, columns)
    flow.y = end + AIR
    flow.paper.rule(flow.left, flow.y, flow.right, flow.y, FINE)


def _as_far(
    flow: Flow, columns: Sequence[Column], cells: list[list[tuple[float, Drawing]]]
) -> tuple[list[list[tuple[float, Drawing]]], float]:
    """Write as much of a row as the page holds; return what is left of it, and where it ends."""
    x, end, rest = flow.left, flow.y, []
    for column, cell in zip(columns, cells, strict=True):
        y, done = flow.y + AIR, 0
        for height, draw in cell:
            if y + height > flow.bottom - AIR:
                break
            draw(flow.paper, x, y)
            y, done = y + height, done + 1
        rest.append(cell[done:])
        end = max(end, y)
        x += column.width + GAP
    return rest, end
