"""Upper tools out of their clamp: a section by itself, and the cart that carries sections."""

from trainer.figures.ink import box, boxes, dot, group, line, n, path
from trainer.figures.kit.brake_side import DIES, PUNCHES
from trainer.figures.kit.registry import Measures, Piece, floats, part

TONGUE, HEIGHT = 40.0, 190.0  # mm: what sits in the clamp, and a whole section
SIZE = 1.25  # how much larger than at the brake the tools on the cart are


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
    """Draw one section: the tongue with its safety groove, the shoulder, the body, the taper to the edge."""
    shoulder = HEIGHT - TONGUE
    tongue = box("part", x + 6, y + shoulder, wide - 12, TONGUE)
    groove = path(
        "fine",
        f"M{n(x + 6)} {n(y + shoulder + 16)}H{n(x + wide - 6)}M{n(x)} {n(y + 22)}H{n(x + wide)}M{n(x)} {n(y + 66)}H{n(x + wide)}",
    )
    rim = line("fine", (x, y + shoulder - 18), (x + wide, y + shoulder - 18))
    return tongue + box("part", x, y, wide, shoulder) + groove + rim


@part("tool-cart", "front", x=3700, loaded=True)
def tool_cart(m: Measures) -> Piece:
    """Draw a cart on castors with its middle at ``x``; ``loaded`` puts tool sections on its shelves, upper ones edge down in a rack."""
    (x,) = floats(m, "x")
    left, wide = x - 430, 860.0
    posts = boxes("part", [(left, 160, 44, 820), (left + wide - 44, 160, 44, 820)])
    rows = (214.0, 494.0, 774.0)
    load = _dies(left + 70, rows[0]) + _punches(left + 56, rows[1]) if m["loaded"] else ""
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


def _punches(x: float, y: float) -> str:
    """Draw upper tools that stand in a rack, edge down, seen on their ends."""
    profiles = [
        PUNCHES[name] for name in ("straight", "straight", "gooseneck", "gooseneck", "straight", "wide", "wide")
    ]
    return "".join(_stood(profile, x + 50 + 104 * i, y + 24) for i, profile in enumerate(profiles))


def _dies(x: float, y: float) -> str:
    """Draw lower tools that stand on a shelf, seen on their ends."""
    profiles = [DIES[name] for name in ("v", "v", "wide", "wide", "v")]
    places = (40, 136, 280, 468, 610)
    return "".join(_stood(profile, x + at, y + 10 + 70 * SIZE) for profile, at in zip(profiles, places, strict=True))


def _stood(profile: str, x: float, y: float) -> str:
    return group(path("part", profile), transform=f"translate({n(x)} {n(y)}) scale({n(SIZE)})")


def _castors(left: float, wide: float) -> str:
    marks = ""
    for x in (left + 80, left + wide - 80):
        marks += box("part", x - 50, 128, 100, 24) + path(
            "part", f"M{n(x - 38)} 128L{n(x - 16)} 70H{n(x + 16)}L{n(x + 38)} 128z"
        )
        marks += dot("part", x, 66, 66) + dot("fine", x, 66, 22)
    return marks
