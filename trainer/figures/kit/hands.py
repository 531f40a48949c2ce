"""Hands: one in profile that reaches, one that curls round an edge. Bare, calm, the sleeve cut off by a free line."""

from trainer.figures.ink import group, n, path
from trainer.figures.kit.registry import Measures, Piece, part

# Reaching to the right, palm down; the tip of the middle finger is at 0, 0 and the arm leaves to the left. Millimetres.
SILHOUETTE = (
    "M-260 30C-214 27-196 29-176 33-150 40-122 41-100 35-88 31-76 24-62 21-44 16-30 11-14 4L0-2-8-14-14-24-28-36-46-46"
    " -84-38-60-50-66-64-84-57-118-48-150-39-176-31-214-28-260-28z"
)
INDEX = (
    "M-260 30C-214 27-196 29-176 33-150 40-122 41-100 35-92 33-84 29-74 25-63 22-55 22-45 18-35 14-29 12-19 7"
    "-9 3-5-1-6-6-8-11-17-11-27-8-38-5-47-1-58 1-70 3-80 1-90-4"
)
MIDDLE = "M-13 4C-6 2 0 0 0-5-1-12-9-14-17-15-32-16-50-15-66-14-76-13-84-10-90-4"
RING = "M-17-15C-10-18-9-25-18-27-34-28-52-26-68-24-78-22-86-18-92-12"
LITTLE = "M-34-28C-29-32-32-38-40-38-52-38-66-35-78-31-86-28-92-24-96-18"
THUMB = "M-260-28C-214-28-194-27-176-31-156-37-140-43-118-48-102-52-90-57-76-63-66-67-58-61-62-53-69-43-82-36-96-29-110-22-122-12-140-8"
FINE = (
    "M-76-55C-70-60-66-58-66-55 M-17 4C-12 2-9-1-9-4 M-50 17q5-3 4-9 M-104 33q7-4 9-12 M-140-8q-12 4-18 14"
    " M-184-29q8 6 10 14 M-112-44q10 4 14 10"
)
SLEEVE = "M-620 56C-500 50-340 43-236 39-228 18-228-16-236-37-340-43-500-50-620-54"
LONG_SLEEVE = "M-2400 74C-1400 66-440 47-236 39-228 18-228-16-236-37-440-47-1400-62-2400-70"
CUFF = "M-256 40C-248 18-248-16-256-38"
FOLDS = "M-300 40q20-14 30-36 M-330-42q16 10 40 12"


@part("hand", "side", "front", x=0, y=0, turn=0, mirror=False, danger_from=None, size=1)
def hand(m: Measures) -> Piece:
    """Draw a reaching hand with its fingertip at ``x``, ``y``; ``danger_from`` hatches what lies beyond that x."""
    tip = (float(m["x"]), float(m["y"]))
    marks = reaching()
    if m["danger_from"] is not None:
        marks += hurt(float(m["danger_from"]) - tip[0])
    size = float(m["size"])
    place = f"translate({n(tip[0])} {n(tip[1])}) rotate({n(float(m['turn']))}) scale({n(-size if m['mirror'] else size)} {n(size)})"
    away = size if m["mirror"] else -size
    places = {"tip": tip, "back": (tip[0] + 110 * away, tip[1] + 30 * size), "sleeve": (tip[0] + 400 * away, tip[1])}
    return Piece(marks=group(marks, transform=place), places=places)


def reaching(*, long: bool = False) -> str:
    """Return the reaching hand, its tip at 0, 0; a ``long`` arm leaves any sheet at the left."""
    return (
        path("paper", SILHOUETTE)
        + "".join(path("edge", contour) for contour in (LITTLE, RING, MIDDLE, INDEX, THUMB))
        + path("fine", FINE)
        + path("part", LONG_SLEEVE if long else SLEEVE)
        + path("fine", CUFF + FOLDS)
    )


def hurt(beyond: float) -> str:
    """Hatch in red what of hand and sleeve lies beyond x = ``beyond`` (measured from the fingertip, so negative)."""
    kept = f"M{n(beyond)} 80H40V-80H{n(beyond)}z"
    clip = f'<clipPath id="@@past"><path d="{kept}"/></clipPath>'
    return clip + group(
        path("danger", SILHOUETTE) + path("danger", LONG_SLEEVE + "z") + path("danger-line", LONG_SLEEVE), clip="@@past"
    )


# Pointing to the right, the other fingers folded; the fingertip is at 0, 0.
POINTING = (
    "M-2400 74C-1400 66-440 47-250 36-214 30-180 34-150 40-124 43-104 40-90 30-80 18-68 9-54 9-38 9-22 9-9 7"
    " 1 5 1-6-9-9-24-10-46-10-62-10-70-11-76-13-77-18-68-24-66-34-72-40-70-50-78-58-90-57-112-60-136-54-158-44"
    "-184-34-214-30-250-34-440-47-1400-62-2400-70"
)
POINTING_FINE = (
    "M-77-18C-90-16-98-22-104-30 M-72-40C-86-38-96-42-102-50 M-150-6C-132-4-118-14-104-30-96-36-98-44-108-44"
    "-128-44-146-40-162-32 M-54 9q3-5 1-9 M-90 30q8-4 10-12 M-14 6C-10 3-8 0-8-3"
)


def pointing() -> str:
    """Return a hand that points, its fingertip at 0, 0; its arm leaves any sheet at the left."""
    return path("part", POINTING) + path("fine", POINTING_FINE)


# Curled round the left edge of a sheet whose top is at y = 0 and whose edge is at x = 0: fingers above, thumb below.
GRIP_FILL = (
    "M-360 62C-280 58-230 60-176 70-140 78-104 84-72 80-40 88 0 86 24 70L70 10 58 2 26 36-34 36-46 16-30-4 50-4 58-14"
    " 50-27-60-46-150-42-230-34-360-38z"
)
FAR_FINGERS = (
    "M-40 80C-2 92 34 88 56 66 76 46 90 26 95 8 96 1 88-2 83 3 76 16 62 30 48 40L20 44z",
    "M-52 80C-16 90 20 88 42 68 62 50 78 28 84 9 85 1 77-2 72 3 64 16 52 30 38 38L10 44z",
)
NEAR_FINGER = (
    "M-72 80C-40 90 0 86 25 69 48 53 64 32 71 11 73 2 65-2 59 3 50 16 40 28 26 36 8 45-14 45-34 35-48 27-52 12-44 2"
)
BACK = "M-360 62C-280 58-230 60-176 70-140 78-104 84-72 80"
GRIP_THUMB = (
    "M-44 2C-36-4-26-4-14-4L40-4C52-4 60-8 59-16 58-24 50-27 40-29 4-36-30-43-66-46-110-49-156-43-230-34L-360-38"
)
GRIP_FINE = (
    "M70 12q-8-2-9-9 M25 69q-10-2-14-12 M34 62q-8-2-12-10 M-72 80q12-4 18-14 M59-16q-10 6-22 4 M-14-4q-6-10-2-18"
    " M-44 2q-16-8-34-8 M-60 40q-22 2-40 14 M52 40q-5-1-8-6"
)
GRIP_SLEEVE = "M-560 84C-460 78-360 74-290 72-280 46-280-8-290-46-370-54-470-60-560-62"
GRIP_CUFF = "M-312 73C-302 46-302-10-312-48"


@part("hand-curled", "front", "side", x=0, y=0, mirror=False)
def hand_curled(m: Measures) -> Piece:
    """Draw fingers curled round the left edge of a sheet: over it, with the thumb below; the edge is at ``x``, ``y``."""
    x, y = float(m["x"]), float(m["y"])
    marks = "".join(path("part", finger) for finger in FAR_FINGERS) + path("paper", GRIP_FILL)
    marks += "".join(path("edge", contour) for contour in (BACK, NEAR_FINGER, GRIP_THUMB)) + path("fine", GRIP_FINE)
    marks += path("part", GRIP_SLEEVE) + path("fine", GRIP_CUFF)
    turned = group(marks, transform=f"translate({n(x)} {n(y)}) scale({-1 if m['mirror'] else 1} 1)")
    return Piece(marks=turned, places={"tips": (x + 70, y), "wrist": (x - 240, y + 16), "back": (x - 110, y + 82)})
