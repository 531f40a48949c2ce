"""The press brake cut through at mid-length, seen from the side: the operator is always at the left.

Millimetres from the bend line and the floor. What the cutting plane meets is hatched, neighbours leaning the other way;
the C-frame stands far behind it.
"""

from trainer.figures.ink import Point, box, boxes, dot, group, line, n, path
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, part

DIE_TOP = 1000.0
THROAT = 400.0  # how deep the C-frame is open behind the bend line
PUNCHES = {
    "straight": "M-2 0H2L13 15 15 58 21 66V112L12 118V152H-12V118L-21 112V66L-15 58-13 15z",
    "gooseneck": "M-2 0H2L12 12 16 40C18 58 48 62 50 84V104L14 120V152H-12V118L-20 112V84C-20 70-16 62-14 50L-12 12z",
    "wide": "M-9 0H9L24 12V112L14 118V152H-14V118L-24 112V12z",
}
CHIPPED = {  # the same profiles with a piece broken out of the tip, and the cracks that run on from it
    "straight": (
        "M-2 0L1 4-1 13 6 17 3 27 11 30 9 39 15 46 15 58 21 66V112L12 118V152H-12V118L-21 112V66L-15 58-13 15z",
        "M9 39L4 50 7 60",
    ),
    "gooseneck": (
        "M-2 0L1 4-1 13 7 16 4 26 12 29 16 40C18 58 48 62 50 84V104L14 120V152H-12V118L-20 112V84C-20 70-16 62-14 50L-12 12z",
        "M12 29L5 40 9 52",
    ),
    "wide": ("M-9 0H0L2 8-2 16 8 20 6 32 16 35 24 46V112L14 118V152H-14V118L-24 112V12z", "M16 35L8 46 12 58"),
}
DIES = {
    "v": "M-30-70V0H-15L0-17 15 0H30V-70z",
    "wide": "M-75-70V0H-42L0-46 42 0H75V-70z",
    "hemming": "M-40-70V-18H-34L0-50 20-18H40V-70zM-40-12H40V0H-40z",
}


@part(
    "brake",
    "side",
    punch=1110,
    top=1600,
    low=700,
    back=520,
    tool="straight",
    die="v",
    chipped=False,
    choices={"tool": PUNCHES, "die": DIES},
)
def brake(m: Measures) -> Piece:
    """Draw frame, ram, clamp, punch, die, holder and bed.

    ``punch`` is the height of the punch tip; ``top``, ``low`` and ``back`` are where the drawing is broken off (``low`` 0:
    it stands on the floor); ``tool`` and ``die`` are profiles of the tooling; ``chipped`` breaks a piece out of the punch.
    """
    tip, top, low, back = (float(m[key]) for key in ("punch", "top", "low", "back"))
    marks = frame(top, low, back) + bed(low, DIES[str(m["die"])]) + ram(tip, top, tool_of(m))
    return Piece(marks=marks, places=_places(tip, top, back))


def tool_of(m: Measures) -> tuple[str, str]:
    """Return outline and cracks of the punch that the measures name."""
    tool = str(m["tool"])
    return CHIPPED[tool] if m["chipped"] else (PUNCHES[tool], "")


def _places(tip: float, top: float, back: float) -> dict[str, Point]:
    ram = min(top - 70, tip + 280)
    return {
        "ram": (40.0, ram),
        "ram-left": (-42.0, ram),
        "clamp": (38.0, tip + 176),
        "punch": (16.0, tip + 40),
        "punch-right": (20.0, tip + 86),
        "punch-left": (-20.0, tip + 86),
        "punch-tip": (0.0, tip),
        "chip": (8.0, tip + 22),
        "middle": (0.0, (DIE_TOP + tip) / 2),
        "die": (30.0, 958.0),
        "die-front": (-30.0, 958.0),
        "pinch": (-30.0, DIE_TOP),
        "bed": (58.0, 760.0),
        "bed-front": (-58.0, 760.0),
        "frame": (back - 60, 1250.0),
        "opening": (0.0, (DIE_TOP + tip) / 2),
    }


def frame(top: float, low: float, back: float) -> str:
    """Draw the far C-frame; it is broken off above, behind and, unless it stands on the floor, below."""
    end = max(low, 44.0)
    lower, upper = f"M-160 {n(end)}V796", f"1466H-190V{n(top)}"
    if back > THROAT:
        inner = f"{lower}H300C362 796 {n(THROAT)} 836 {n(THROAT)} 900V1360C{n(THROAT)} 1424 362 1466 300 {upper}"
        wash = path("wash", f"{inner}H{n(back)}V{n(end)}z")
    else:  # broken off within the throat: the two arms of the frame only
        inner = f"{lower}H{n(back)}M{n(back)} {upper}"
        wash = path("wash", f"{lower}H{n(back)}V{n(end)}zM{n(back)} {upper}H{n(back)}z")
    above = f"M-235 {n(top)}H-104l9 15 15-30 9 15H{n(back + 18)}"
    behind = f"M{n(back)} {n(top + 18)}V1216l15-9-30-15 15-9V{n(end - 18 if low else 0)}"
    below = f"M-205 {n(low)}H{n(min(190.0, back - 60))}l9 15 15-30 9 15H{n(back + 18)}" if low else ""
    foot = boxes("part", [(-190, 0, 220, 18), (-172, 18, 190, 26)]) if not low else ""
    return wash + path("edge", inner) + path("fine", above + below + behind) + foot


def bed(low: float, die: str) -> str:
    """Draw bed, die holder and die."""
    start = max(low, 44.0)
    plate = path("cut hatched-back", f"M-58 {n(start)}V842H58V{n(start)}" + ("z" if low == 0 else ""))
    holder = path("cut hatched", "M-46 842V912H-14V930H-30V930H30V930H14V912H46V842z")
    screw = boxes("part", [(-62, 866, 16, 24)]) + line("fine", (-46, 878), (-30, 878))
    return plate + holder + screw + group(path("cut hatched-back", die), transform="translate(0 1000)")


def ram(tip: float, top: float, punch: tuple[str, str], *, closed: bool = False) -> str:
    """Draw ram, clamp and punch; a ``closed`` ram ends at ``top``, else it is broken off there."""
    foot = tip + 230
    ram = path("cut hatched", f"M-42 {n(top)}V{n(foot)}H42V{n(top)}{'z' if closed else ''}")
    clamp = path("cut hatched-back", f"M-13 {n(foot)}V{n(foot - 112)}H36V{n(foot)}z")
    plate = path("part", f"M-13 {n(foot - 6)}V{n(foot - 112)}H-36V{n(foot - 18)}l8 12z")
    screw = boxes("part", [(-58, foot - 70, 22, 30), (-70, foot - 76, 12, 42)]) + line(
        "centre", (-82, foot - 55), (46, foot - 55)
    )
    outline, cracks = punch
    tool = group(
        path("cut hatched", outline) + (path("fine", cracks) if cracks else ""), transform=f"translate(0 {n(tip)})"
    )
    return ram + clamp + tool + plate + screw


@part("back-stop", "side", x=236, travels=False, high=0)
def back_stop(m: Measures) -> Piece:
    """Draw the back-stop on its rail, its finger at ``x``; ``travels`` adds an arrow of its powered movement."""
    x, up = float(m["x"]), float(m["high"])
    rail = boxes("part", [(128, 806, 330, 20), (150, 796, 30, 10), (406, 796, 30, 10)]) + line(
        "centre", (110, 816), (476, 816)
    )
    slide = box("part", x + 88, 826, 96, 34)
    column = box("part", x + 106, 860, 60, 106 + up) + line("fine", (x + 122, 860), (x + 122, 966 + up))
    head = box("part", x + 84, 966 + up, 100, 58) + dot("fine", x + 142, 995 + up, 13)
    finger = path(
        "part", f"M{n(x)} {n(988 + up)}H{n(x + 84)}V{n(1018 + up)}H{n(x + 28)}L{n(x + 16)} {n(1036 + up)}H{n(x)}z"
    )
    places = {
        "finger": (x + 6, 1028.0 + up),
        "finger-face": (x, 1010.0 + up),
        "head": (x + 134, 1024.0 + up),
        "top": (x + 134, 1024.0 + up),
        "column": (x + 166, 900.0),
        "rail": (300.0, 806.0),
        "travel": (x + 96, 1092.0 + up),
    }
    return Piece(
        marks=rail + slide + column + head + finger + (moves(x - 60, 1092 + up, 156, 0) if m["travels"] else ""),
        places=places,
    )
