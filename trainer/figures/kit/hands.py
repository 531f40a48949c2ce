"""Hands and arms: a hand in profile that reaches, one that curls round an edge, an arm that bends to where it reaches."""

import math

from trainer.figures.ink import Point, group, line, n, path
from trainer.figures.kit import Measures, Piece, part

# A right hand in profile, palm down; the fingertip is at 0, 0 and the arm leaves to the left. Millimetres.
INDEX_AND_BACK = (
    "M-210 32C-186 33-160 40-136 42-118 43-104 39-92 34-74 28-52 21-34 15-20 10-6 6 0 1 2-5-3-9-12-9"
    "L-44-7C-58-6-70-8-80-12-92-17-104-20-116-21L-164-27-210-30z"
)
MIDDLE = "M-86-4C-62-2-38-5-22-10-12-13-10-20-20-22L-58-20-92-16z"
RING = "M-100-10C-78-10-58-15-44-21-36-25-37-31-46-31L-80-27-108-20z"
THUMB = "M-164-4C-146-6-130-11-116-17-102-24-90-33-80-42-74-48-80-55-89-52-103-46-120-42-136-39-150-36-166-32-176-28"
CREASES = "M-30 9q7-3 9-8 M-128-8q-10 2-16 8 M-58 18q5-4 3-9"
SLEEVE = "M-560 53C-470 49-330 43-232 40q11-37 0-77C-330-41-470-46-560-50"
FOREARM = "M-240 33-206 33-206-30-240-30z"
CUFF = "M-250 41q11-39 0-79"


@part("hand", "side", "front", x=0, y=0, turn=0, mirror=False, danger_from=None, size=1)
def hand(m: Measures) -> Piece:
    """Draw a reaching hand with its fingertip at ``x``, ``y``; ``danger_from`` hatches what lies beyond that x."""
    tip = (float(m["x"]), float(m["y"]))
    marks = reaching()
    if m["danger_from"] is not None:
        marks += hurt(float(m["danger_from"]) - tip[0])
    size = float(m["size"])
    place = f"translate({n(tip[0])} {n(tip[1])}) rotate({n(float(m['turn']))}) scale({n(-size if m['mirror'] else size)} {n(size)})"
    return Piece(marks=group(marks, transform=place), places={"tip": tip, "wrist": (tip[0] - 210 * size, tip[1])})


def reaching() -> str:
    """Return the reaching hand, its tip at 0, 0."""
    return (
        path("part", FOREARM)
        + path("part", RING)
        + path("part", MIDDLE)
        + path("part", INDEX_AND_BACK)
        + path("part", THUMB)
        + path("fine", CREASES)
        + path("part", SLEEVE)
        + path("fine", CUFF)
    )


def hurt(beyond: float) -> str:
    """Hatch in red what of the hand lies beyond x = ``beyond`` (measured from the fingertip, so negative)."""
    kept = f"M{n(beyond)} 60H20V-60H{n(beyond)}z"
    clip = f'<clipPath id="@@past"><path d="{kept}"/></clipPath>'
    return clip + group(
        path("danger", RING) + path("danger", MIDDLE) + path("danger", INDEX_AND_BACK) + path("danger", THUMB),
        clip="@@past",
    )


CURLED_PALM = (
    "M-330 62C-270 62-210 72-160 82-120 90-84 94-56 88-30 82-6 70 12 54 26 41 35 25 40 11 42 3 36-1 30 2"
    " 22 7 16 18 8 27-2 36-16 41-30 40-50 38-66 30-72 18-76 8-66 2-52 1L-14 0 24 0C32-1 33-11 26-14"
    " 8-20-16-24-40-28-70-33-104-34-140-30-200-26-270-24-330-24z"
)
CURLED_FINGERS = (
    "M-10 74C12 70 34 56 46 40 57 25 63 12 64 4 64-3 57-4 52 1 46 9 38 22 28 32z",
    "M20 66C38 58 56 44 66 30 75 18 80 9 81 2 81-4 75-5 70-1 63 8 54 22 44 30z",
)
CURLED_LINES = "M28 42q8-8 11-18 M-2 62q6-6 2-14 M6 59q5-6 2-12 M-72 16q-16-6-30-22 M14-3q10 1 13 6"


@part("hand-curled", "front", "side", x=0, y=0, mirror=False)
def hand_curled(m: Measures) -> Piece:
    """Draw fingers curled round the edge of a sheet: over it, with the thumb below, tips at ``x``."""
    x, y = float(m["x"]), float(m["y"])
    marks = "".join(path("part", finger) for finger in reversed(CURLED_FINGERS))
    marks += path("part", CURLED_PALM) + path("fine", CURLED_LINES)
    turned = group(marks, transform=f"translate({n(x)} {n(y)}) scale({-1 if m['mirror'] else 1} 1)")
    return Piece(marks=turned, places={"tips": (x + 40, y), "wrist": (x - 300, y + 20)})


def arm(
    shoulder: Point, target: Point, *, upper: float = 300, fore: float = 285, bend: int = -1, thick: float = 1.0
) -> str:
    """Draw an arm in a sleeve that reaches from ``shoulder`` so that its hand ends at ``target``; ``bend`` is the side of the elbow."""
    wrist = _short_of(target, shoulder, 165)
    elbow = _elbow(shoulder, wrist, upper, fore, bend)
    direction = math.degrees(math.atan2(target[1] - wrist[1], target[0] - wrist[0]))
    palm = group(
        path(
            "part",
            "M-30 30C0 36 40 34 80 30 110 27 140 20 160 8 166 2 162-6 152-8L110-10C96-24 74-34 58-32 50-30 52-22 58-18L40-20-30-28z",
        )
        + path("fine", "M160 4L100 8"),
        transform=f"translate({n(wrist[0])} {n(wrist[1])}) rotate({n(direction)}) scale(1 {-1 if abs(direction) > 90 else 1})",
    )
    return palm + _sleeve(shoulder, elbow, wrist, (62 * thick, 50 * thick, 38 * thick))


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


def _sleeve(shoulder: Point, elbow: Point, wrist: Point, halves: tuple[float, float, float]) -> str:
    first, second = _normal(shoulder, elbow), _normal(elbow, wrist)
    middle = ((first[0] + second[0]) / 2, (first[1] + second[1]) / 2)
    rows = ((shoulder, first, halves[0]), (elbow, middle, halves[1]), (wrist, second, halves[2]))
    left = [(x + nx * half, y + ny * half) for (x, y), (nx, ny), half in rows]
    right = [(x - nx * half, y - ny * half) for (x, y), (nx, ny), half in rows]
    (a, b, c), (d, e, f) = left, right
    outline = (
        f"M{n(a[0])} {n(a[1])}Q{n(b[0])} {n(b[1])} {n(c[0])} {n(c[1])}L{n(f[0])} {n(f[1])}"
        f"Q{n(e[0])} {n(e[1])} {n(d[0])} {n(d[1])}"
    )
    cap = f"A{n(halves[0])} {n(halves[0])} 0 0 1 {n(a[0])} {n(a[1])}z"
    return path("part", outline + cap) + line("fine", c, f)


def _normal(start: Point, end: Point) -> Point:
    length = math.dist(start, end) or 1.0
    return -(end[1] - start[1]) / length, (end[0] - start[0]) / length
