"""Seen from above: people, and the way they walk."""

from trainer.figures.ink import dot, group, n, path
from trainer.figures.kit.motion import walks
from trainer.figures.kit.registry import Measures, Piece, floats, part

FACES = {"rear": 90.0, "left": 180.0, "front": 270.0, "right": 0.0}

# Looking to the right, about the middle of the head.
TRUNK = "M-70-215C-10-262 70-246 84-190 104-120 108-60 108 0 108 60 104 120 84 190 70 246-10 262-70 215-128 170-138 90-138 0-138-90-128-170-70-215z"
TRUNK_LINES = "M-84-196C-46-150-36-120-34-86 M-84 196C-46 150-36 120-34 86"
CAP = "M-104 0C-104-64-60-104 0-104 44-104 80-84 96-56L96 56C80 84 44 104 0 104-60 104-104 64-104 0z"
PEAK = "M80-74C150-70 186-40 186 0 186 40 150 70 80 74C100 40 100-40 80-74z"
CAP_LINES = "M-104 0H80 M-70-76C-30-30-30 30-70 76"
ARM = "M30-236C-6-220-14-176 24-160 90-136 170-150 250-158 290-162 300-196 266-206 190-222 100-244 30-236z"
HAND = "M252-160C300-150 348-156 372-172 384-186 372-196 350-198 320-204 286-206 264-204z"


@part("person", "plan", x=1525, y=-860, facing="rear", reaches=False, choices={"facing": FACES})
def person_plan(m: Measures) -> Piece:
    """Draw somebody from above, the middle of the head at ``x``, ``y``; ``facing`` is the side of the cell that the person looks to.

    ``reaches`` holds both arms out in front.
    """
    x, y = floats(m, "x", "y")
    arms = path("part", HAND) + path("part", ARM)
    both = arms + group(arms, transform="scale(1 -1)") if m["reaches"] else ""
    body = path("part", TRUNK) + path("fine", TRUNK_LINES)
    head = path("part", PEAK) + path("part", CAP) + path("fine", CAP_LINES) + dot("solid", 0, 0, 9)
    turned = group(both + body + head, transform=f"translate({n(x)} {n(y)}) rotate({n(FACES[str(m['facing'])])})")
    return Piece(marks=turned, places={"middle": (x, y), "head": (x, y), "left": (x - 100, y), "right": (x + 100, y)})


@part("path", "plan", points=((0.0, -1500.0), (2000.0, -1500.0)))
def path_plan(m: Measures) -> Piece:
    """Draw the way somebody walks: a dashed line through ``points`` with an arrow at its end."""
    points = [(float(x), float(y)) for x, y in m["points"]]
    half = len(points) // 2
    (ax, ay), (bx, by) = points[half - 1], points[half]
    return Piece(
        marks=walks(points), places={"start": points[0], "end": points[-1], "middle": ((ax + bx) / 2, (ay + by) / 2)}
    )
