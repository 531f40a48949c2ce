"""Drawings of the screen on paper: the SVG that ``figures`` made, with the pens of its style sheet, in black and grey.

A drawing holds groups that are moved, scaled or turned, paths, circles and words; nothing else is read. What the glass
fills with hatching is grey on paper, since the hatching is as fine as the print.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, cos, hypot, radians, sin
from xml.etree.ElementTree import Element

from defusedxml.ElementTree import fromstring
from fpdf.drawing import GraphicsContext, PaintedPath
from fpdf.drawing_primitives import Transform
from fpdf.svg import svg_path_converter

from trainer.exports.pdf.paper import INK, Paper, Pen

PAPER_WHITE, WASH, HATCHED, BLACK = "#ffffff", "#efede4", "#d0cfc8", "#16212b"
FINE, PART, CUT = 1.25, 2.0, 3.2  # px on the glass, as in drawing.css
PX = 0.75  # pt of a pixel
FILLS = {
    **dict.fromkeys(("part", "fine-part", "phantom-part", "paper", "round"), PAPER_WHITE),
    **dict.fromkeys(("behind", "wash", "wash-part"), WASH),
    **dict.fromkeys(("solid", "act-solid", "spot"), BLACK),
    **dict.fromkeys(("hatched", "hatched-back", "warn", "danger"), HATCHED),
}
WIDTHS = {
    **dict.fromkeys(("part", "edge", "phantom-part", "act-line", "act-arrow", "warn", "danger", "danger-line"), PART),
    **dict.fromkeys(("fine", "fine-part", "wash-part", "gap-part", "behind", "hidden", "centre", "phantom"), FINE),
    **dict.fromkeys(("dimension", "leader", "faint", "lead"), FINE),
    **dict.fromkeys(("cut", "hatched", "hatched-back"), CUT),
    "round": 2.2,
}
DASHES = {
    **dict.fromkeys(("hidden", "gap-part"), (7.0, 4.0)),
    "centre": (16.0, 3.0, 3.0, 3.0),
    **dict.fromkeys(("phantom", "phantom-part"), (9.0, 3.0, 2.0, 3.0, 2.0, 3.0)),
    "faint": (1.0, 4.0),
    "balloon-wrong": (5.0, 3.0),
}
STATES = {"balloon-right": 5.0, "balloon-wrong": 3.0}  # px of the ring
SIZES = {"ask-for": 30.0}
LETTERS = 22.0  # px
NUMBER = re.compile(r"-?\d*\.?\d+")
MOVES = re.compile(r"(translate|scale|rotate)\(([^)]*)\)")


@dataclass(frozen=True, slots=True)
class _Place:
    """How a drawing's own measures come to lie on the page: a matrix, and how much it enlarges."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    @property
    def scale(self) -> float:
        return hypot(self.a, self.b)

    def at(self, x: float, y: float) -> tuple[float, float]:
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def then(self, o: "_Place") -> "_Place":
        """Return the place of what lies at ``o`` within this one."""
        return _Place(
            self.a * o.a + self.c * o.b,
            self.b * o.a + self.d * o.b,
            self.a * o.c + self.c * o.d,
            self.b * o.c + self.d * o.d,
            *self.at(o.e, o.f),
        )

    def as_transform(self) -> Transform:
        return Transform(self.a, self.b, self.c, self.d, self.e, self.f)


def size_of(svg: str) -> tuple[float, float]:
    """Return the width and height of a drawing in its own measures."""
    _x, _y, width, height = _numbers(fromstring(svg).get("viewBox", "0 0 1 1"))
    return width, height


def draw(paper: Paper, svg: str, x: float, y: float, width: float) -> float:
    """Draw at a place of the page, as wide as ``width``, and return how high it came out. Lengths are millimetres."""
    root = fromstring(svg)
    left, top, wide, high = _numbers(root.get("viewBox", "0 0 1 1"))
    scale = width / wide
    place = _Place(scale, 0, 0, scale, x - left * scale, y - top * scale)
    with paper.local_context(), paper.rect_clip(x=x, y=y, w=width, h=high * scale):
        for one in root:
            _put(paper, one, place)
    return high * scale


def _put(paper: Paper, one: Element, place: _Place, state: tuple[str, ...] = ()) -> None:
    """Draw an element; ``state`` is what the group around it says of a place that could be pressed."""
    tag, names = one.tag.rpartition("}")[2], [*state, *one.get("class", "").split()]
    if tag in {"title", "desc", "defs"}:
        return
    here = place.then(_moved(one.get("transform", "")))
    if tag == "g":
        for inner in one:
            _put(paper, inner, here, tuple(name for name in names if name in STATES))
    elif tag == "path":
        _path(paper, one, names, here)
    elif tag == "circle":
        x, y, r = (float(one.get(key, "0")) for key in ("cx", "cy", "r"))
        _inked(paper, f"M{x - r} {y}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0z", names, here)
    elif tag == "text":
        _words(paper, one, names, here)


def _path(paper: Paper, one: Element, names: list[str], here: _Place) -> None:
    line = one.get("d", "")
    _inked(paper, line, names if "url(" not in one.get("fill", "") else [*names, "hatched"], here)
    for end, key in ((-1, "marker-end"), (0, "marker-start")):
        if one.get(key) and (found := _points(line)):
            tip, before = found[end], found[-2 if end else 1]
            _arrow(paper, here.at(*tip), here.at(*before))


def _inked(paper: Paper, line: str, names: list[str], here: _Place) -> None:
    if "round" not in names:  # the ring alone shows a state
        names = [name for name in names if name not in STATES]
    fill = next((FILLS[name] for name in reversed(names) if name in FILLS), None)
    pen = next(((STATES | WIDTHS)[name] for name in names if name in STATES or name in WIDTHS), None)
    if fill is None and pen is None:
        return
    path = PaintedPath()
    svg_path_converter(path, line)
    path.style.fill_color, path.style.stroke_color = fill, BLACK if pen else None
    path.style.paint_rule = "fill_nonzero" if pen is None else "stroke" if fill is None else "stroke_fill_nonzero"
    one = _pixel(paper) / here.scale
    path.style.auto_close = False
    path.style.stroke_width = (pen or 0) * one
    dash = next((DASHES[name] for name in names if name in DASHES), None)
    path.style.stroke_dash_pattern = tuple(length * one for length in dash) if dash else None
    path.style.stroke_cap_style, path.style.stroke_join_style = "butt" if dash else "round", "round"
    group = GraphicsContext()
    group.transform = here.as_transform()
    group.add_item(path)
    with paper.drawing_context() as made:
        made.add_item(group)


def _arrow(paper: Paper, tip: tuple[float, float], before: tuple[float, float]) -> None:
    """Draw a slim filled arrowhead that ends at ``tip``."""
    turn, long, half = atan2(tip[1] - before[1], tip[0] - before[0]), 13 * _pixel(paper), 3 * _pixel(paper)
    back = tip[0] - long * cos(turn), tip[1] - long * sin(turn)
    side = half * sin(turn), half * cos(turn)
    corners = (tip, (back[0] + side[0], back[1] - side[1]), (back[0] - side[0], back[1] + side[1]))
    line = "M" + "L".join(f"{x} {y}" for x, y in corners) + "z"
    _inked(paper, line, ["solid"], _Place())


def _words(paper: Paper, one: Element, names: list[str], here: _Place) -> None:
    said = "".join(one.itertext())
    size = next((SIZES[name] for name in names if name in SIZES), LETTERS)
    pen = Pen(size=size * here.scale * 72 / 25.4, bold=bool({"strong", "title", "ask-for"} & set(names)))
    x, y = here.at(*(float(one.get(key, "0")) for key in ("x", "y")))
    wide = paper.wide(said, pen)
    shift = wide / 2 if "mid" in names else wide if "end" in names else 0.0
    paper.set_text_color(*INK)
    paper.text(x - shift, y, paper.clean(said))


def _moved(text: str) -> _Place:
    place = _Place()
    for kind, inside in MOVES.findall(text):
        given = _numbers(inside)
        if kind == "translate":
            place = place.then(_Place(e=given[0], f=given[1] if len(given) > 1 else 0.0))
        elif kind == "scale":
            place = place.then(_Place(a=given[0], d=given[-1]))
        else:
            turn = radians(given[0])
            place = place.then(_Place(cos(turn), sin(turn), -sin(turn), cos(turn)))
    return place


def _points(line: str) -> list[tuple[float, float]]:
    """Return the corners of a path of straight lines; nothing for one with curves."""
    found: list[tuple[float, float]] = []
    for command, inside in re.findall(r"([A-Za-z])([^A-Za-z]*)", line):
        if command.upper() not in "MLHV":
            return []
        found.extend(_steps(command, _numbers(inside), found[-1] if found else (0.0, 0.0)))
    return found if len(found) > 1 else []


def _steps(command: str, given: list[float], now: tuple[float, float]) -> Iterator[tuple[float, float]]:
    (x, y), near = now, command.islower()
    if command.upper() in "HV":
        pairs = [(n, 0.0 if near else y) if command.upper() == "H" else (0.0 if near else x, n) for n in given]
    else:
        pairs = list(zip(given[::2], given[1::2], strict=False))
    for dx, dy in pairs:
        x, y = (x + dx, y + dy) if near else (dx, dy)
        yield x, y


def _numbers(text: str) -> list[float]:
    return [float(one) for one in NUMBER.findall(text)]


def _pixel(paper: Paper) -> float:
    """Return what a pixel of the glass is on paper: lines on paper are finer than on a kiosk seen from an arm's length."""
    return PX / paper.k / 2
