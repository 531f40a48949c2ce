"""What keeps hands away or stops the ram: light curtain, laser at the punch, covers, barrier, gate, two-hand station."""

from trainer.figures.ink import box, boxes, dot, line, n, path
from trainer.figures.kit.registry import Measures, Piece, part

POST = 58.0  # mm, width of a post seen from the front


@part("curtain", "front", left=-122, right=3172, low=720, high=1520, bed=3050, stand=False, field=True)
def curtain_front(m: Measures) -> Piece:
    """Draw the two posts of a light curtain on their brackets, and the dashed rim of its field.

    With ``stand`` the right post stands on the floor in front of the bed, so that the field ends there; without
    ``field`` the posts are there but switched off.
    """
    left, right, low, high, bed = (float(m[key]) for key in ("left", "right", "low", "high", "bed"))
    foot = (
        [(right - 22, 24, 44, low - 24), (right - 110, 0, 220, 24)]
        if m["stand"]
        else [(bed, 790, right - 29 - bed, 44)]
    )
    marks = boxes("part", [(left + 29, 790, -left - 29, 44), *foot])
    edges = (low + 46, high - 46) if m["field"] else ()
    rim = "".join(line("hidden", (left + 29, y), (right - 29, y)) for y in edges)
    posts = _post(left, low, high, 1) + _post(right, low, high, -1)
    places = {
        "left-top": (left, high),
        "right-top": (right, high),
        "left-outside": (left - 29, high - 220),
        "right-outside": (right + 29, high - 220),
        "left-foot": (left, low),
        "right-foot": (right, low),
        "field": ((left + right) / 2, high - 46),
    }
    return Piece(marks=marks + rim + posts, places=places)


def _post(x: float, low: float, high: float, inward: int) -> str:
    lens = path(
        "fine",
        f"M{n(x + inward * 13)} {n(low + 34)}V{n(high - 34)}M{n(x - 29)} {n(low + 34)}h58M{n(x - 29)} {n(high - 34)}h58",
    )
    cable = path("fine", f"M{n(x)} {n(low)}q{n(-inward * 6)}-50 {n(inward * 34)}-70")
    return cable + box("part", x - POST / 2, low, POST, high - low) + lens


@part("curtain", "side", x=-420, low=808, high=1510, pitch=10, blanked=0, blanked_at=1004, thick=44, arm=True)
def curtain_side(m: Measures) -> Piece:
    """Draw one post with a dot for each beam at true pitch; ``blanked`` beams about ``blanked_at`` are crossed circles."""
    x, low, high, pitch, thick = (float(m[key]) for key in ("x", "low", "high", "pitch", "thick"))
    left, top, about = x - thick / 2, high + 22, float(m["blanked_at"])
    marks = (_bracket(left) if m["arm"] else "") + box("part", left, 754, thick, top - 754)
    marks += path("fine", f"M{n(left)} {n(top - 14)}h{n(thick)}M{n(left)} 786h{n(thick)}")
    off = set(blanked_heights(int(m["blanked"]), about, pitch, low))
    heights = [low + pitch * i for i in range(int((high - low) / pitch) + 1)]
    marks += "".join(_crossed(x, y, pitch) if y in off else dot("solid", x, y, min(pitch * 0.26, 4)) for y in heights)
    places = {
        "top": (x + thick / 2, high - 60),
        "top-left": (left, high - 60),
        "crown": (x, top),
        "beams": (x, 1060.0),
        "blanked": (x, sum(off) / len(off) if off else about),
    }
    return Piece(marks=marks, places=places)


def _bracket(left: float) -> str:
    return box("part", left, 754, -156 - left, 36) + path(
        "fine", f"M{n(left + 66)} 779H-204q8-7 0-14H{n(left + 66)}q-8 7 0 14z"
    )


def _crossed(x: float, y: float, pitch: float) -> str:
    r = min(pitch * 0.42, 8)
    a = r * 0.7
    return dot("fine-part", x, y, r) + path(
        "fine", f"M{n(x - a)} {n(y - a)}l{n(2 * a)} {n(2 * a)}m0 {n(-2 * a)}l{n(-2 * a)} {n(2 * a)}"
    )


def blanked_heights(count: int, about: float, pitch: float, low: float) -> list[float]:
    """Return the heights of ``count`` neighbouring beams nearest to ``about``."""
    first = round((about - low) / pitch - (count - 1) / 2)
    return [low + pitch * (first + i) for i in range(count)]


@part("laser", "side", punch=1110)
def laser(m: Measures) -> Piece:
    """Draw a close-proximity device: its carrier at the ram, and its beams just below the punch tip, seen end on."""
    tip = float(m["punch"])
    carrier = box("part", -150, tip - 30, 76, 70) + path(
        "part", f"M-132 {n(tip + 40)}V{n(tip + 260)}H-42v-30H-104V{n(tip + 40)}z"
    )
    beams = "".join(dot("solid", x, tip - 14, 3.4) for x in (-22, 0, 22)) + path(
        "hidden", f"M-40 {n(tip - 4)}V{n(tip - 24)}H40V{n(tip - 4)}z"
    )
    return Piece(marks=carrier + beams, places={"carrier": (-150.0, tip + 10), "beams": (40.0, tip - 14)})


@part("end-covers", "front", left=60, right=2990, wide=230)
def end_covers(m: Measures) -> Piece:
    """Draw a cover over each end of the tool, bolted to the table; ``left`` and ``right`` are the ends of the tool."""
    left, right, wide = (float(m[key]) for key in ("left", "right", "wide"))
    marks = _cover(left - wide + 30, wide) + _cover(right - 30, wide)
    middle = wide / 2 - 30
    places = {
        "left-foot": (left - middle, 850.0),
        "right-foot": (right + middle, 850.0),
        "left": (left - wide + 30, 1120.0),
        "right": (right + wide - 30, 1120.0),
        "left-top": (left - middle, 1330.0),
        "right-top": (right + middle, 1330.0),
    }
    return Piece(marks=marks, places=places)


def _cover(x: float, wide: float) -> str:
    low, high = 900.0, 1330.0
    mesh = "".join(f"M{n(x + 26)} {n(low + 40 * i)}H{n(x + wide - 26)}" for i in range(1, 11))
    mesh += "".join(f"M{n(x + 26 + (wide - 52) * i / 5)} {n(low + 20)}V{n(high - 20)}" for i in range(1, 5))
    frame = box("part", x, low, wide, high - low) + path(
        "fine", f"M{n(x + 26)} {n(low + 20)}h{n(wide - 52)}V{n(high - 20)}h{n(52 - wide)}z{mesh}"
    )
    flange = box("part", x - 10, 850, wide + 20, 50)
    return frame + flange + "".join(dot("solid", x + share * wide, 875, 9) for share in (0.14, 0.86))


@part("barrier", "front", left=-60, right=3110, low=960, high=1420, raised=False)
def barrier(m: Measures) -> Piece:
    """Draw an adjustable barrier in front of the tools, of see-through sheet in a frame; ``raised`` leaves the tools open."""
    left, right, low, high = (float(m[key]) for key in ("left", "right", "low", "high"))
    up = 560.0 if m["raised"] else 0.0
    low, high = low + up, high + up
    marks = boxes(
        "edge", [(left, low, right - left, high - low), (left + 34, low + 34, right - left - 68, high - low - 68)]
    )
    thirds = [left + (right - left) * i / 3 for i in (1, 2)]
    glint = "".join(f"M{n(x + 160)} {n(high - 110)}l-190-190m60 190l-130-130" for x in (left + 400, *thirds))
    marks += boxes("part", [(x - 22, low, 44, high - low) for x in thirds]) + path("fine", glint)
    return Piece(
        marks=marks,
        places={
            "top": ((left + right) / 2, high),
            "bottom": ((left + right) / 2, low),
            "right": (right, (low + high) / 2),
        },
    )


@part("rear-gate", "side", x=560, low=0, high=1500, open=False)
def rear_gate(m: Measures) -> Piece:
    """Draw the interlocked gate behind the brake with its switch; an open one stands as an outline where it closes."""
    x, low, high = (float(m[key]) for key in ("x", "low", "high"))
    post = box("part", x - 8, low, 46, 22) + box("part", x, low + 22, 30, high - low - 22)
    mesh = "".join(f"M{n(x + 5)} {n(y)}l20 20" for y in range(int(low) + 50, int(high) - 40, 30))
    marks = path("phantom", f"M{n(x)} {n(low)}h30V{n(high)}h-30z") if m["open"] else post + path("fine", mesh)
    key = [(x - 6, high + 44, 40, 26), (x - 34, high + 50, 34, 14)] if not m["open"] else []
    switch = boxes("part", [(x - 58, high - 46, 50, 96), *key]) + dot("fine", x - 33, high + 24, 11)
    places = {"top": (x + 15, high), "switch": (x - 58, high + 10), "edge": (x + 30, low + 480)}
    return Piece(marks=marks + switch, places=places)


@part("two-hand", "front", x=600, y=0)
def two_hand(m: Measures) -> Piece:
    """Draw a two-hand station on its stand: two hooded buttons, an emergency stop between them."""
    x = float(m["x"])
    stand = boxes("part", [(x - 160, 0, 320, 30), (x - 44, 30, 88, 800)])
    desk = path("part", f"M{n(x - 330)} 830H{n(x + 330)}V1010H{n(x - 330)}z") + line(
        "fine", (x - 330, 862), (x + 330, 862)
    )
    hoods = "".join(
        path("part", f"M{n(c - 76)} 1010V1060q0 44 76 44t76-44V1010z")
        + path("part", f"M{n(c - 46)} 1010V1046h92V1010z")
        for c in (x - 240, x + 240)
    )
    stop = path("part", f"M{n(x - 20)} 1010v22h-26q0 40 46 40t46-40h-26v-22z")
    return Piece(
        marks=stand + desk + hoods + stop,
        places={"left": (x - 240, 1104.0), "right": (x + 240, 1104.0), "foot": (x, 30.0)},
    )


@part("pull-backs", "front", x=1500, left_x=1250, right_x=1750, y=1000)
def pull_backs(m: Measures) -> Piece:
    """Draw pull-backs: from a bar hung at the ram a cable over a roller to a cuff at each wrist of the person at ``x``."""
    x, y = float(m["x"]), float(m["y"])
    left, right = float(m["left_x"]), float(m["right_x"])
    hangers = boxes("part", [(at - 16, 1560, 32, 330) for at in (left - 120, right + 120)])
    bar = box("part", left - 190, 1890, right - left + 380, 44)
    cables = ""
    for wrist in (left, right):
        cables += path("fine", f"M{n(wrist - 9)} {n(y + 96)}V1880M{n(wrist + 9)} {n(y + 96)}V1880") + dot(
            "part", wrist, 1882, 30
        )
        cables += box("part", wrist - 50, y + 46, 100, 50) + line("fine", (wrist - 50, y + 71), (wrist + 50, y + 71))
    places = {
        "bar": (right + 190, 1912.0),
        "cuff-left": (left - 50, y + 71),
        "cuff-right": (right + 50, y + 71),
        "middle": (x, 1912.0),
    }
    return Piece(marks=hangers + bar + cables, places=places)


@part("laser", "front", bed=3050, punch=1095)
def laser_front(m: Measures) -> Piece:
    """Draw a close-proximity device: a head on an arm at each end of the ram, its beam just below the punch tips."""
    bed, beam = float(m["bed"]), float(m["punch"]) - 14
    marks = line("centre", (-60, beam), (bed + 60, beam))
    for inner, way in ((0.0, -1), (bed, 1)):
        x = inner + way * 78
        arm = path("part", f"M{n(inner)} 1420H{n(x + way * 34)}V{n(beam + 56)}H{n(x - way * 30)}V1370H{n(inner)}z")
        marks += arm + box("part", x - 52, beam - 48, 104, 104) + dot("fine", x - way * 30, beam, 13)
    places = {
        "left-head": (-78.0, beam - 48),
        "right-head": (bed + 78, beam - 48),
        "beam": (bed / 2, beam),
        "left-arm": (-112.0, 1240.0),
        "right-arm": (bed + 112, 1240.0),
    }
    return Piece(marks=marks, places=places)
