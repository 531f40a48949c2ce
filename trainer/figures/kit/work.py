"""What is worked with and on: tooling and sheet, the arms that carry the sheet, the rod that tests the field."""

from trainer.figures.ink import Point, box, boxes, dot, group, line, n, path, shape
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, part

TABLE_TOP, DIE_TOP, CLAMP_BOTTOM = 892.0, 1000.0, 1202.0
GAP = 44.0  # mm between the segments of a parted punch
SECTION = 500.0  # mm: tooling comes in sections of about this length


@part("tooling", "front", left=60, right=2990, punch=1095, lift=0, rise=0, segments=0, chipped=False)
def tooling(m: Measures) -> Piece:
    """Draw a row of punch and die sections from ``left`` to ``right``; ``punch`` is the height of the tip.

    ``lift`` is how far the ram has moved, ``rise`` how far the die (of an up-acting brake). ``segments`` parts the punch
    into so many pieces with gaps for the sides of a box; ``chipped`` breaks a piece out of its edge.
    """
    left, right, lift, rise = (float(m[key]) for key in ("left", "right", "lift", "rise"))
    tip, middle = float(m["punch"]) + lift, (left + right) / 2
    die = _die(left, right)
    pieces = _pieces(left, right, int(m["segments"]))
    marks = (group(die, transform=f"translate(0 {n(rise)})") if rise else die) + "".join(
        _punches(*piece, tip, CLAMP_BOTTOM + lift) for piece in pieces
    )
    chip = pieces[len(pieces) // 2]
    broken = ((chip[0] + chip[1]) / 2, tip)
    marks += _chip(*broken) if m["chipped"] else ""
    return Piece(
        marks=marks,
        places=_places(left, right, tip, DIE_TOP + rise)
        | _between(pieces, tip)
        | {"chip": broken, "middle": (middle, tip + 60)},
    )


def _places(left: float, right: float, tip: float, die: float) -> dict[str, Point]:
    middle = (left + right) / 2
    return {
        "punch": (middle, tip + 60),
        "punch-left": (left, tip + 60),
        "punch-right": (right, tip + 60),
        "die": (middle, die - 35),
        "die-left": (left, die - 35),
        "die-right": (right, die - 35),
        "left-end": (left, die),
        "right-end": (right, die),
    }


def _between(pieces: list[tuple[float, float]], tip: float) -> dict[str, Point]:
    """Name the pieces of a parted punch and the first gap between them."""
    if len(pieces) == 1:
        return {}
    named = {f"segment-{i}": ((start + end) / 2, tip + 60) for i, (start, end) in enumerate(pieces, 1)}
    return named | {"gap": ((pieces[0][1] + pieces[1][0]) / 2, tip + 60)}


def _pieces(left: float, right: float, count: int) -> list[tuple[float, float]]:
    if count < 2:
        return [(left, right)]
    pitch = (right - left + GAP) / count
    return [(left + pitch * i, left + pitch * (i + 1) - GAP) for i in range(count)]


def _die(left: float, right: float) -> str:
    width, low = right - left, TABLE_TOP + 44
    body = boxes("part", [(left - 12, TABLE_TOP, width + 24, 44), (left, low, width, DIE_TOP - low)])
    seams = "".join(f"M{n(x)} {n(low)}V{n(DIE_TOP)}" for x in _joints(left, right))
    return body + (path("fine", seams) if seams else "") + line("hidden", (left, 985), (right, 985))


def _joints(left: float, right: float) -> list[float]:
    count = max(1, round((right - left) / SECTION))
    return [left + (right - left) * i / count for i in range(1, count)]


def _punches(left: float, right: float, tip: float, top: float) -> str:
    foot = [(right, tip + 26), (right - 8, tip), (left + 8, tip), (left, tip + 26)]
    outline = shape("part", [(left, top), (right, top), *foot])
    seams = "".join(f"M{n(x)} {n(tip)}V{n(top)}" for x in _joints(left, right))
    return outline + path("fine", f"M{n(left)} {n(tip + 26)}H{n(right)}{seams}")


def _chip(x: float, tip: float) -> str:
    """Break a piece out of the punch's lower edge, with a crack above it."""
    rim = f"M{n(x - 58)} {n(tip)}l14 15 18-4 12 22 22-7 16 12 14-20 20-2 12-16"
    return (
        path("paper", f"{rim}v-5H{n(x - 58)}z")
        + path("edge", rim)
        + path("fine", f"M{n(x + 8)} {n(tip + 36)}l-8 16 12 12-4 16")
    )


@part("sheet", "front", left=200, right=2800, y=1000, drop=0)
def sheet_front(m: Measures) -> Piece:
    """Draw a flat sheet on the die, seen on its front edge; ``drop`` shows the face of a flange that hangs below."""
    left, right, y, drop = (float(m[key]) for key in ("left", "right", "y", "drop"))
    marks = box("part", left, y - drop, right - left, drop) if drop else box("part", left, y, right - left, 6)
    return Piece(marks=marks, places={"left": (left, y), "right": (right, y), "middle": ((left + right) / 2, y)})


@part("sheet", "side", left=-640, right=232, y=1000, thick=6, bent=0, wide=0)
def sheet_side(m: Measures) -> Piece:
    """Draw a sheet on the die, seen on its edge; ``bent`` turns both sides of the bend line up by so many degrees."""
    left, right, y, thick = (float(m[key]) for key in ("left", "right", "y", "thick"))
    flat = box("solid", left, y, right - left, thick)
    marks = _bent(left, right, y, float(m["bent"]), thick) if m["bent"] else flat
    return Piece(
        marks=marks,
        places={"left": (left, y), "right": (right, y), "front": (left + 120, y + thick), "middle": (0.0, y)},
    )


def _bent(left: float, right: float, y: float, angle: float, thick: float) -> str:
    turned = "".join(
        f'<g transform="rotate({n(turn)})">{box("solid", min(0, end), 0, abs(end), thick)}</g>'
        for turn, end in ((-angle, left), (angle, right))
    )
    return f'<g transform="translate(0 {n(y)})">{turned}</g>'


@part("supports", "front", left=700, right=2300, y=1000)
def supports_front(m: Measures) -> Piece:
    """Draw two support arms on their rail, which carry the sheet in front of the bed."""
    marks, top = "", float(m["y"])
    for x in (float(m["left"]), float(m["right"])):
        marks += boxes("part", [(x - 70, 722, 140, 74), (x - 34, 796, 68, top - 836), (x - 84, top - 40, 168, 40)])
        marks += dot("fine", x - 46, 759, 12) + dot("fine", x + 46, 759, 12)
        marks += path("fine", f"M{n(x)} 796V{n(top - 40)}M{n(x - 84)} {n(top - 14)}h168")
    places = {
        "left-foot": (float(m["left"]), 722.0),
        "right-foot": (float(m["right"]), 722.0),
        "left": (float(m["left"]) - 34, 850.0),
        "right": (float(m["right"]) + 34, 850.0),
    }
    return Piece(marks=marks, places=places)


@part("supports", "side", left=-620, right=-90, y=1000, shows=False)
def supports_side(m: Measures) -> Piece:
    """Draw a support arm in front of the bed that carries the sheet; ``shows`` lets through what lies behind it."""
    left, right, y = (float(m[key]) for key in ("left", "right", "y"))
    arm = f"M{n(left)} {n(y - 14)}q0 14 14 14H{n(right)}v-40H{n(left)}z"
    rib = f"M{n(right)} {n(y - 40)}V{n(y - 190)}h-40L{n(right - 250)} {n(y - 40)}z"
    marks = path("edge" if m["shows"] else "part", arm) + path("part", rib)
    marks += path("fine", f"M{n(left + 10)} {n(y - 26)}H{n(right)}") + boxes("part", [(right, y - 190, 24, 190)])
    marks += dot("fine", right - 20, y - 150, 9) + dot("fine", right - 20, y - 70, 9)
    return Piece(
        marks=marks,
        places={"front": (left + 60, y - 40), "middle": ((left + right) / 2, y - 40), "rib": (right - 60, y - 110)},
    )


@part("rod", "side", x=-420, y=1180, size=14, length=230, moves=False)
def rod(m: Measures) -> Piece:
    """Draw a test rod in the field, on its handle; ``moves`` adds arrows: it is taken up and down through the field."""
    x, y, size, length = (float(m[key]) for key in ("x", "y", "size", "length"))
    start = x - length
    grip = path("part", f"M{n(start)} {n(y - 17)}H{n(start - 116)}q-14 0-14 17t14 17H{n(start)}z")
    marks = box("part", start, y - size / 2, length + 50, size) + grip
    marks += path("fine", "".join(f"M{n(start - 24 - 18 * i)} {n(y - 17)}v34" for i in range(4)))
    if m["moves"]:
        marks += moves(x - 90, y + 190, 140, -90) + moves(x - 90, y - 190, 140, 90)
    return Piece(
        marks=marks,
        places={
            "handle": (start - 60, y + 17),
            "low": (start - 60, y - 17),
            "tip": (x + 50, y),
            "middle": (start + length / 2, y + size / 2),
        },
    )
