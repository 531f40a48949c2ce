"""The smallest marks of a drawing, as SVG text: paths, groups, words. Classes only; the pen is in `drawing.css`."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

Point = tuple[float, float]
SYMBOL = re.compile(r"\b([A-Za-z])_([A-Za-z0-9]+)\b")


@dataclass(frozen=True, slots=True)
class Figure:
    """A finished drawing and the words that say the same with all its numbers."""

    svg: str
    text: str

    def __html__(self) -> str:
        return self.svg


def n(value: float) -> str:
    """Write a coordinate shortly and always alike."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


FILLS = {"hatched": "hatch", "hatched-back": "hatch-back", "danger": "danger"}
TIPS = {
    "dimension": ("tip", "tip"),
    "leader": ("", "tip"),
    "act-line": ("tip-act", "tip-act"),
    "act-arrow": ("", "tip-act"),
}


def path(classes: str, d: str, *, start: str = "", end: str = "") -> str:
    """Draw a path of class ``classes``; hatchings and arrowheads follow from the class, or are given by name."""
    extra = "".join(f' marker-{place}="url(#@{tip})"' for place, tip in (("start", start), ("end", end)) if tip)
    for name in classes.split():
        if name in FILLS:
            extra += f' fill="url(#@@{FILLS[name]})"'
        for place, tip in zip(("start", "end"), TIPS.get(name, ("", "")), strict=True):
            if tip:
                extra += f' marker-{place}="url(#@{tip})"'
    return f'<path class="{classes}"{extra} d="{d}"/>'


def line(classes: str, *points: Point) -> str:
    """Draw an open line through points."""
    return path(classes, "M" + "L".join(f"{n(x)} {n(y)}" for x, y in points))


def shape(classes: str, points: Iterable[Point]) -> str:
    """Draw a closed outline through points."""
    return path(classes, "M" + "L".join(f"{n(x)} {n(y)}" for x, y in points) + "z")


def box(classes: str, x: float, y: float, width: float, height: float) -> str:
    """Draw a rectangle from its lower left corner."""
    return path(classes, f"M{n(x)} {n(y)}h{n(width)}v{n(height)}h{n(-width)}z")


def boxes(classes: str, rectangles: Sequence[tuple[float, float, float, float]]) -> str:
    """Draw several rectangles as one path."""
    return path(classes, "".join(f"M{n(x)} {n(y)}h{n(w)}v{n(h)}h{n(-w)}z" for x, y, w, h in rectangles))


def dot(classes: str, x: float, y: float, radius: float) -> str:
    """Draw a circle."""
    return f'<circle class="{classes}" cx="{n(x)}" cy="{n(y)}" r="{n(radius)}"/>'


def disc(classes: str, x: float, y: float, radius: float) -> str:
    """Draw a circle that may be hatched."""
    half = f"a{n(radius)} {n(radius)} 0 1 0 "
    return path(classes, f"M{n(x - radius)} {n(y)}{half}{n(2 * radius)} 0{half}{n(-2 * radius)} 0z")


def group(body: str, *, transform: str = "", clip: str = "", classes: str = "") -> str:
    """Hold marks together."""
    names = (("class", classes), ("transform", transform), ("clip-path", f"url(#{clip})" if clip else ""))
    attributes = "".join(f' {name}="{value}"' for name, value in names if value)
    return f"<g{attributes}>{body}</g>"


def words(x: float, y: float, text: str, *, classes: str = "") -> str:
    """Write words; ``classes`` may be ``mid`` or ``end`` for what ``x`` is."""
    dressed = f' class="{classes}"' if classes else ""
    return f'<text{dressed} x="{n(x)}" y="{n(y)}">{_lowered(escape(text))}</text>'


def _lowered(text: str) -> str:
    """Set symbols with an index (``D_pf``) slanted with the index below; the rest stands as it is."""
    marks, end = "", 0
    for found in SYMBOL.finditer(text):
        tail = ' dy="-6"' if end else ""
        between = text[end : found.start()]
        marks += f"<tspan{tail}>{between}</tspan>" if tail and between else between
        rise = ' dy="-6"' if tail and not between else ""
        marks += f'<tspan class="symbol"{rise}>{found[1]}</tspan><tspan class="sub" dy="6">{found[2]}</tspan>'
        end = found.end()
    rest = text[end:]
    return marks + (f'<tspan dy="-6">{rest}</tspan>' if end and rest else rest)


def view(body: str, *, prefix: str, name: str, x: float, y: float, scale: float, clip: str = "") -> tuple[str, str]:
    """Place marks that are drawn in millimetres, y up: the origin at ``x``, ``y`` px, ``scale`` px for a millimetre.

    Returns the placed marks and the hatchings they need, whose pitch is the same on the glass at any scale.
    """
    own = f"{prefix}-{name}-"
    placed = group(body.replace("@@", own), transform=f"translate({n(x)} {n(y)}) scale({scale:.6g} {-scale:.6g})")
    return (group(placed, clip=clip) if clip else placed), hatchings(own, scale)


def hatchings(own: str, scale: float = 1.0) -> str:
    """Return the hatchings of a view whose marks say ``@@`` for ``own``; their pitch is the same on the glass at any scale."""
    return "".join(
        (
            _hatching(f"{own}hatch", 7.5, scale, 45, "hatch"),
            _hatching(f"{own}hatch-back", 6, scale, -45, "hatch"),
            _hatching(f"{own}danger", 6, scale, -45, "hatch-red", ground=False),
        )
    )


def whole(
    body: str,
    *,
    width: float,
    height: float,
    title: str,
    text: str,
    prefix: str,
    defs: str = "",
    classes: str = "drawing view",
) -> str:
    """Wrap a drawing: its name, its words for those who do not see it, arrowheads and hatchings."""
    head = (
        f'<svg class="{classes}" viewBox="0 0 {n(width)} {n(height)}" role="img" '
        f'aria-labelledby="{prefix}-name {prefix}-text">'
    )
    named = f'<title id="{prefix}-name">{escape(title)}</title><desc id="{prefix}-text">{escape(text)}</desc>'
    tips = _tip(f"{prefix}-tip", 14, 8, "solid") + _tip(f"{prefix}-tip-act", 16, 10, "act-solid")
    return f"{head}{named}<defs>{tips}{defs}</defs>{body.replace('url(#@', f'url(#{prefix}-')}</svg>"


def _tip(name: str, length: int, breadth: int, classes: str) -> str:
    half = breadth / 2
    return (
        f'<marker id="{name}" viewBox="0 0 {length} {breadth}" refX="{length - 1}" refY="{n(half)}" '
        f'markerWidth="{length}" markerHeight="{breadth}" markerUnits="userSpaceOnUse" orient="auto-start-reverse">'
        f'<path class="{classes}" d="M{length} {n(half)} 0 1v{breadth - 2}z"/></marker>'
    )


def _hatching(name: str, px: float, scale: float, angle: int, classes: str, *, ground: bool = True) -> str:
    pitch = px / scale
    paper = f'<path class="paper" d="M0 0h{n(pitch)}v{n(pitch)}H0z"/>' if ground else ""
    pen = n((1.1 if ground else 2) / scale)  # a pattern's lines scale with it, so the pen is set in millimetres
    return (
        f'<pattern id="{name}" width="{n(pitch)}" height="{n(pitch)}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({angle})">{paper}'
        f'<path class="{classes}" stroke-width="{pen}" d="M{n(pitch / 2)} 0v{n(pitch)}"/></pattern>'
    )
