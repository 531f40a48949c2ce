"""People in working clothes: in profile and from behind, 1.75 m tall."""

import re

from trainer.figures.ink import group, path
from trainer.figures.kit import bodies
from trainer.figures.kit.limbs import arm
from trainer.figures.kit.registry import Measures, Piece, part


@part(
    "person",
    "side",
    "front",
    x=0,
    hand_x=None,
    hand_y=None,
    mirror=False,
    line="part",
    holds=False,
    far_x=None,
    far_y=None,
    bend=-1,
)
def person(m: Measures) -> Piece:
    """Draw somebody in profile at ``x``; with ``hand_x``, ``hand_y`` the near arm reaches there. ``mirror`` looks left.

    ``line`` phantom draws the person as not there yet.
    """
    x = float(m["x"])
    flip = -1 if m["mirror"] else 1

    def own(key: str) -> tuple[float, float]:
        return (float(m[f"{key}_x"]) - x) * flip, float(m[f"{key}_y"])

    far = arm((30, 1392), own("far"), pose="points") if m["far_x"] is not None else ""
    if m["hand_x"] is None:
        near = arm((-14, 1388), (40, 742), pose="hangs", bend=-1, level=-82)
    else:
        near = arm((-14, 1388), own("hand"), pose="holds" if m["holds"] else "points", bend=int(m["bend"]))
    body = far + _profile() + near
    body = _phantom(body) if m["line"] == "phantom" else body
    marks = group(body, transform=f"translate({x:.0f} 0) scale({flip} 1)")
    return Piece(marks=marks, places={"head": (x, 1796.0), "chest": (x, 1250.0), "feet": (x, 60.0)})


def _phantom(marks: str) -> str:
    """Turn outlines into broken ones and leave out what is fine."""
    outlines = re.sub(r'<path class="fine"[^>]*/>', "", marks)
    return outlines.replace('class="part"', 'class="phantom-part"').replace('class="edge"', 'class="phantom"')


def _profile() -> str:
    legs = path("part", bodies.FAR_SHOE) + path("part", bodies.FAR_LEG)
    legs += path("part", bodies.NEAR_SHOE) + path("part", bodies.NEAR_LEG)
    head = path("paper", bodies.NECK) + path("edge", bodies.NECK_EDGE) + path("part", bodies.HEAD)
    head += (
        path("fine", bodies.HAIR) + path("edge", bodies.EAR) + path("fine", bodies.GLASSES) + path("part", bodies.CAP)
    )
    trunk = path("part", bodies.TRUNK) + path("part", bodies.COLLAR)
    fine = bodies.LEG_LINES + bodies.SHOE_LINES + bodies.TRUNK_LINES + bodies.CAP_LINES
    return legs + head + trunk + path("fine", fine)


@part("person-behind", "front", x=600, left_x=None, left_y=1010, right_x=None, right_y=1010)
def person_behind(m: Measures) -> Piece:
    """Draw somebody from behind at ``x``; each hand holds at ``left_x``, ``left_y`` and ``right_x``, ``right_y``, or hangs."""
    x = float(m["x"])
    hands, sleeves = "", ""
    for side, key in ((-1, "left"), (1, "right")):
        target = None if m[f"{key}_x"] is None else (float(m[f"{key}_x"]) - x, float(m[f"{key}_y"]))
        hand, sleeve = _arm_behind(side, target)
        hands, sleeves = hands + hand, sleeves + sleeve
    return Piece(
        marks=group(hands + _back() + sleeves, transform=f"translate({x:.0f} 0)"),
        places={"head": (x, 1796.0), "chest": (x, 1250.0), "feet": (x, 60.0)},
    )


def _back() -> str:
    body = "".join(_both(data) for data in (bodies.BACK_SHOE, bodies.BACK_LEG, bodies.BACK_TRUNK, bodies.BACK_EAR))
    neck = _mirrored(
        path("paper", bodies.BACK_NECK.replace("M0", "M-4") + "H-4z") + path("edge", bodies.BACK_NECK_EDGE)
    )
    head = _mirrored(path("paper", bodies.BACK_HEAD.replace("M0", "M-4") + "H-4z")) + _mirrored(
        path("edge", bodies.BACK_HEAD.replace("M0 1540L50 1534", "M50 1534"))
    )
    body += neck + head
    fine = path("fine", bodies.BACK_HAIR + bodies.BACK_LINES)
    return (
        body
        + _both(bodies.BACK_COLLAR)
        + _both(bodies.BACK_CAP)
        + _mirrored(fine + path("fine", bodies.BACK_CAP_LINES))
    )


def _both(half: str) -> str:
    """Draw both halves of what is the same at the left and at the right, without a line down the middle."""
    full = half.replace("M0 ", "M-4 ", 1) + "H-4z" if half.startswith("M0 ") else half
    return _mirrored(path("paper", full)) + _mirrored(path("edge", half))


def _mirrored(marks: str) -> str:
    return marks + group(marks, transform="scale(-1 1)")


def _arm_behind(side: int, target: tuple[float, float] | None) -> tuple[str, str]:
    """Return the forearm with its hand, which the trunk may hide, and the upper arm, which lies over it."""
    if target is None:
        hand, wrist, elbow = bodies.HAND_HANGING, (268.0, 838.0), (258.0, 1110.0)
        lines = bodies.HAND_HANGING_LINES
    else:
        reach = target[0] * side
        hand, wrist, elbow = bodies.HAND_BEHIND, (reach, target[1]), (max(246.0, 250 + (reach - 240) * 0.35), 1126.0)
        lines = bodies.HAND_BEHIND_LINES
    palm = group(path("part", hand) + path("fine", lines), transform=f"translate({wrist[0]:.0f} {wrist[1]:.0f})")
    (ex, ey), (wx, wy) = elbow, (wrist[0], wrist[1] + 40)
    fore = f"M{ex - 46:.0f} {ey:.0f}L{wx - 38:.0f} {wy:.0f}Q{wx:.0f} {wy - 14:.0f} {wx + 38:.0f} {wy:.0f}L{ex + 48:.0f} {ey:.0f}"
    cuff = f"M{wx - 39:.0f} {wy + 20:.0f}Q{wx:.0f} {wy + 6:.0f} {wx + 39:.0f} {wy + 20:.0f}"
    upper = (
        f"M190 1437C216 1422 230 1392 238 1350 250 1290 {ex + 48:.0f} 1230 {ex + 50:.0f} {ey + 20:.0f}"
        f"Q{ex + 44:.0f} {ey - 44:.0f} {ex:.0f} {ey - 44:.0f}Q{ex - 46:.0f} {ey - 40:.0f} {ex - 48:.0f} {ey + 20:.0f}"
        f"C{ex - 52:.0f} 1210 170 1270 158 1330"
    )
    folds = f"M{ex - 40:.0f} {ey + 24:.0f}q30-16 56-6 M{ex + 44:.0f} {ey + 52:.0f}q-18-2-30-14"
    flip = f"scale({side} 1)"
    return (
        group(palm + path("part", fore) + path("fine", cuff), transform=flip),
        group(path("paper", upper) + path("edge", upper) + path("fine", folds), transform=flip),
    )
