"""An arm in its sleeve that bends so that its hand ends where it is wanted."""

import math

from trainer.figures.ink import Point, group, n, path

SHOULDER, ELBOW, WRIST = 58.0, 45.0, 34.0  # half the thickness of the sleeve, in mm
HAND = 150.0  # mm from the cuff to where the hand holds

# Hands at 1 : 8 and smaller: the cuff is at 0, 0 and the fingers point to the right.
POINTS = (
    "M-26 26C10 28 40 32 66 28 96 24 126 14 150 4 158-2 152-10 142-9L104-8C92-20 78-34 62-46 52-50 46-44 50-36L56-24 20-28-26-26z",
    "M150 4C132-2 116-6 100-8 M56-24q12 6 22 8",
)
HOLDS = (
    "M-26 26C10 30 44 34 76 30 104 26 134 18 160 10 168 4 164-4 154-3L112 0 128-6C142-12 150-18 146-26 140-32 128-28 116-24C86-18 48-28 20-28L-26-26z",
    "M112 0C100 4 92 4 82 0 M160 10l-30 2",
)
HANGS = (
    "M-26 26C6 28 30 34 54 32 86 30 118 20 140 12 150 6 148-4 138-6 118-10 110-14 112-20 102-34 78-36 56-34 30-32 0-28-26-26z",
    "M140 12C120 8 104 4 92 2 M112-20C100-16 90-14 80-16 M62 30q10-6 14-14",
)
POSES = {"points": POINTS, "holds": HOLDS, "hangs": HANGS}


def arm(
    shoulder: Point,
    target: Point,
    *,
    upper: float = 305,
    fore: float = 270,
    bend: int = -1,
    pose: str = "points",
    level: float | None = None,
) -> str:
    """Draw an arm from ``shoulder`` whose hand ends at ``target``.

    ``bend`` is the side of the elbow (-1 below, 1 above, seen from the shoulder), ``pose`` how the hand is held, ``level``
    the direction of the hand in degrees (usual: a little down or up, as the arm goes).
    """
    if level is None:
        level = 0.3 * math.degrees(math.atan2(target[1] - shoulder[1], abs(target[0] - shoulder[0])))
    turned = math.radians(level)
    wrist = (target[0] - HAND * math.cos(turned), target[1] - HAND * math.sin(turned))
    elbow = _elbow(shoulder, wrist, upper, fore, bend)
    return _hand(wrist, level, pose) + _sleeve(shoulder, elbow, wrist, bend)


def _hand(wrist: Point, towards: float, pose: str) -> str:
    outline, inner = POSES[pose]
    upside = -1 if abs(towards) > 90 else 1
    place = f"translate({n(wrist[0])} {n(wrist[1])}) rotate({n(towards)}) scale(1 {upside})"
    return group(path("part", outline) + path("fine", inner), transform=place)


def _short_of(target: Point, start: Point, gap: float) -> Point:
    length = math.dist(start, target) or 1.0
    share = max(0.0, (length - gap) / length)
    return start[0] + (target[0] - start[0]) * share, start[1] + (target[1] - start[1]) * share


def _elbow(shoulder: Point, wrist: Point, upper: float, fore: float, bend: int) -> Point:
    reach = min(math.dist(shoulder, wrist), upper + fore - 1)
    along = (upper**2 - fore**2 + reach**2) / (2 * reach)
    aside = math.sqrt(max(upper**2 - along**2, 0.0)) * bend
    ux, uy = (wrist[0] - shoulder[0]) / reach, (wrist[1] - shoulder[1]) / reach
    return shoulder[0] + ux * along - uy * aside, shoulder[1] + uy * along + ux * aside


def _sleeve(shoulder: Point, elbow: Point, wrist: Point, bend: int) -> str:
    """Draw the sleeve: round at the outside of the elbow, creased inside it, open at the shoulder."""
    outer, inner = (_edge(shoulder, elbow, wrist, side) for side in (bend, -bend))
    edge = (
        f"M{_at(outer[0])}C{_at(outer[1])} {_at(outer[2])} {_at(outer[3])}S{_at(outer[4])} {_at(outer[5])}"
        f"L{_at(inner[5])}Q{_at(inner[4])} {_at(inner[3])}Q{_at(inner[1])} {_at(inner[0])}"
    )
    cap = f"A{n(SHOULDER)} {n(SHOULDER)} 0 0 {1 if bend < 0 else 0} {_at(outer[0])}z"
    crease = f"M{_at(inner[3])}Q{_at(_mid(inner[3], elbow))} {_at(_mid(elbow, _mid(elbow, shoulder)))}"
    return path("paper", edge + cap) + path("edge", edge) + path("fine", crease + _cuff(elbow, wrist))


def _cuff(elbow: Point, wrist: Point) -> str:
    back = _short_of(wrist, elbow, 22)
    nx, ny = _normal(elbow, wrist)
    half = WRIST + 1
    return f"M{_at((back[0] + nx * half, back[1] + ny * half))}L{_at((back[0] - nx * half, back[1] - ny * half))}"


def _edge(shoulder: Point, elbow: Point, wrist: Point, side: int) -> list[Point]:
    """Return six points of one edge: shoulder, two on the upper arm, elbow, one on the forearm, wrist."""
    first, second = _normal(shoulder, elbow), _normal(elbow, wrist)
    middle = _unit((first[0] + second[0], first[1] + second[1]))
    upper = _mid(shoulder, elbow)
    near = (upper[0] * 0.3 + elbow[0] * 0.7, upper[1] * 0.3 + elbow[1] * 0.7)
    fore = _mid(elbow, wrist)
    rows = (
        (shoulder, first, SHOULDER),
        (upper, first, SHOULDER * 0.98),
        (near, first, ELBOW * 1.16),
        (elbow, middle, ELBOW * 1.06),
        (fore, second, ELBOW * 0.98),
        (wrist, second, WRIST),
    )
    return [(x + nx * half * side, y + ny * half * side) for (x, y), (nx, ny), half in rows]


def _at(point: Point) -> str:
    return f"{n(point[0])} {n(point[1])}"


def _mid(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _unit(v: Point) -> Point:
    length = math.hypot(*v) or 1.0
    return v[0] / length, v[1] / length


def _normal(start: Point, end: Point) -> Point:
    length = math.dist(start, end) or 1.0
    return -(end[1] - start[1]) / length, (end[0] - start[0]) / length
