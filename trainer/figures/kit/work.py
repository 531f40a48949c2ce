"""What is worked with and on: tooling and sheet, the arms that carry the sheet, the rod that tests the field."""

from trainer.figures.ink import box, boxes, dot, line, n, path, shape
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, part

TABLE_TOP, DIE_TOP, CLAMP_BOTTOM = 892.0, 1000.0, 1202.0
SECTION = 500.0  # mm: tooling comes in sections of about this length


@part("tooling", "front", left=60, right=2990, punch=1095, lift=0)
def tooling(m: Measures) -> Piece:
    """Draw a row of punch and die sections from ``left`` to ``right``; ``punch`` is the height of the tip, ``lift`` the ram's."""
    left, right, lift = float(m["left"]), float(m["right"]), float(m["lift"])
    tip = float(m["punch"]) + lift
    width, middle = right - left, (left + right) / 2
    die = boxes(
        "part", [(left - 12, TABLE_TOP, width + 24, 44), (left, TABLE_TOP + 44, width, DIE_TOP - TABLE_TOP - 44)]
    )
    marks = die + _punches(left, right, tip, CLAMP_BOTTOM + lift) + line("hidden", (left, 985), (right, 985))
    places = {
        "punch": (middle, tip + 60),
        "punch-left": (left, tip + 60),
        "punch-right": (right, tip + 60),
        "die": (middle, 965.0),
        "die-left": (left, 965.0),
        "die-right": (right, 965.0),
        "left-end": (left, DIE_TOP),
        "right-end": (right, DIE_TOP),
    }
    return Piece(marks=marks, places=places)


def _punches(left: float, right: float, tip: float, top: float) -> str:
    foot = [(right, tip + 26), (right - 8, tip), (left + 8, tip), (left, tip + 26)]
    outline = shape("part", [(left, top), (right, top), *foot])
    count = max(1, round((right - left) / SECTION))
    joints = [left + (right - left) * i / count for i in range(1, count)]
    seams = "".join(f"M{n(x)} {n(TABLE_TOP + 44)}V{n(DIE_TOP)}M{n(x)} {n(tip)}V{n(top)}" for x in joints)
    return outline + path("fine", f"M{n(left)} {n(tip + 26)}H{n(right)}{seams}")


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
