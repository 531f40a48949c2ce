"""Upper tools out of their clamp: a section by itself, and the cart that carries sections."""

from trainer.figures.ink import box, boxes, dot, line, n, path, shape
from trainer.figures.kit.registry import Measures, Piece, floats, part

TONGUE, HEIGHT = 40.0, 190.0  # mm: what sits in the clamp, and a whole section


@part("tool-section", "front", x=400, y=1120, wide=500)
def tool_section(m: Measures) -> Piece:
    """Draw a piece of upper tool out of its clamp, its left lower corner at ``x``, ``y``: tongue above, edge below."""
    x, y, wide = floats(m, "x", "y", "wide")
    marks = section(x, y, wide)
    places = {
        "middle": (x + wide / 2, y + 80),
        "left": (x, y + 80),
        "right": (x + wide, y + 80),
        "top": (x + wide / 2, y + HEIGHT),
        "tongue": (x + wide / 2, y + HEIGHT - TONGUE / 2),
        "tip": (x + wide / 2, y),
    }
    return Piece(marks=marks, places=places)


def section(x: float, y: float, wide: float) -> str:
    """Draw one section: the tongue with its safety groove, the shoulder, the body, the tapered edge."""
    shoulder = HEIGHT - TONGUE
    body = [(x, y + 26), (x + 8, y), (x + wide - 8, y), (x + wide, y + 26), (x + wide, y + shoulder), (x, y + shoulder)]
    tongue = box("part", x + 6, y + shoulder, wide - 12, TONGUE)
    groove = path("fine", f"M{n(x + 6)} {n(y + shoulder + 16)}H{n(x + wide - 6)}M{n(x)} {n(y + 26)}H{n(x + wide)}")
    rim = line("fine", (x, y + shoulder - 18), (x + wide, y + shoulder - 18))
    return tongue + shape("part", body) + groove + rim


@part("tool-cart", "front", x=3700, loaded=True)
def tool_cart(m: Measures) -> Piece:
    """Draw a cart on castors with its middle at ``x``; ``loaded`` puts tool sections on its shelves, edge down in grooves."""
    (x,) = floats(m, "x")
    left, wide = x - 430, 860.0
    posts = boxes("part", [(left, 160, 44, 820), (left + wide - 44, 160, 44, 820)])
    rows = (214.0, 494.0, 774.0)
    load = "".join(_row(left + 60, y) for y in rows[:2]) if m["loaded"] else ""
    load += section(left + 80, rows[2] + 10, 300) if m["loaded"] else ""
    shelves = "".join(
        box("part", left + 44, y - 44, wide - 88, 54) + line("fine", (left + 44, y - 10), (left + wide - 44, y - 10))
        for y in rows
    )
    frame = box("part", left - 10, 150, wide + 20, 30)
    handle = path(
        "part",
        f"M{n(left + wide)} 940H{n(left + wide + 90)}Q{n(left + wide + 120)} 940 {n(left + wide + 120)} 910V880H{n(left + wide + 92)}V910H{n(left + wide)}z",
    )
    places = {
        "middle": (x, 500.0),
        "top": (x, 784.0),
        "shelf": (x, 480.0),
        "load": (x - 200, 870.0),
        "handle": (left + wide + 106, 900.0),
        "wheel": (left + 80, 75.0),
        "foot": (x, 160.0),
    }
    return Piece(marks=load + shelves + posts + frame + handle + _castors(left, wide), places=places)


def _row(x: float, y: float) -> str:
    """Draw the ends of a row of tools on a shelf, long and short ones side by side."""
    marks, at = "", x
    for wide in (260.0, 200.0, 120.0, 90.0):
        marks += section(at, y + 8, wide)
        at += wide + 18
    return marks


def _castors(left: float, wide: float) -> str:
    marks = ""
    for x in (left + 80, left + wide - 80):
        marks += box("part", x - 50, 128, 100, 24) + path(
            "part", f"M{n(x - 38)} 128L{n(x - 16)} 70H{n(x + 16)}L{n(x + 38)} 128z"
        )
        marks += dot("part", x, 66, 66) + dot("fine", x, 66, 22)
    return marks
