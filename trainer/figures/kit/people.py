"""People beside the machine: in profile, or seen from behind as they stand in front of it. Calm, and about 1.75 m tall."""

from trainer.figures.ink import group, path
from trainer.figures.kit import Measures, Piece, part
from trainer.figures.kit.hands import arm

# In profile, looking to the right, the hip above x = 0.
LEGS = (
    "M-128 930C-138 780-120 640-112 500-118 360-126 220-128 92L-132 44-128 0H118C122 26 96 44 30 66L18 92"
    "C28 220 40 360 52 500 66 640 112 780 116 930z"
)
SHOE_LINES = "M-130 60H26 M-128 16H116 M-20 500q34 8 70 0"
TRUNK = (
    "M-44 1500C-104 1480-142 1420-144 1330-146 1230-132 1150-128 1060L-136 915H122L112 1060"
    "C124 1150 128 1250 108 1340 94 1408 66 1462 40 1496z"
)
BELT = "M-130 985q120 22 248 0"
HEAD = (
    "M-40 1480-44 1540C-84 1562-98 1626-84 1680-66 1738 8 1756 60 1722 84 1706 92 1682 90 1650L108 1612 90 1602"
    " 92 1576C92 1552 66 1546 40 1550L38 1480z"
)
CAP = "M-90 1662C-92 1738-30 1782 30 1770 74 1760 98 1722 96 1676L168 1664 160 1644 92 1650z"
EAR = "M-6 1600c-20-8-26 44-2 48 14 2 18-34 2-48z"


@part("person", "side", "front", x=0, hand_x=None, hand_y=None, mirror=False, line="part", arm="down", kneels=0)
def person(m: Measures) -> Piece:
    """Draw somebody in profile at ``x``; with ``hand_x``, ``hand_y`` the near arm reaches there. ``mirror`` looks left."""
    x = float(m["x"])
    flip = -1 if m["mirror"] else 1
    body = path(m["line"], LEGS) + path(m["line"], TRUNK) + path("fine", BELT) + path("fine", SHOE_LINES)
    head = path(m["line"], HEAD) + path(m["line"], CAP) + path("fine", EAR)
    if m["hand_x"] is None:
        near = arm((-16, 1410), (4, 800), upper=300, fore=260, bend=-1)
    else:
        near = arm((-16, 1410), ((float(m["hand_x"]) - x) * flip, float(m["hand_y"])), bend=-1)
    marks = group(head + body + near, transform=f"translate({x:.0f} 0) scale({flip} 1)")
    return Piece(marks=marks, places={"head": (x, 1770.0), "chest": (x, 1250.0), "feet": (x, 60.0)})


# From behind, centred on x = 0.
BACK_LEGS = (
    "M-176 940C-184 760-170 600-160 480-158 330-150 180-146 70L-166 28-164 0H-26L-22 40-14 480-4 760H4L14 480 22 40 26 0"
    "H164L166 28 146 70C150 180 158 330 160 480 170 600 184 760 176 940z"
)
BACK_TRUNK = "M-70 1500C-150 1488-210 1460-224 1400L-186 1180-172 1050-182 925H182L172 1050 186 1180 224 1400C210 1460 150 1488 70 1500z"
BACK_LINES = "M-176 990q176 26 352 0 M0 925v-60 M-150 1440q-14-120 6-240 M150 1440q14-120-6-240 M-60 1470q60-26 120 0"
BACK_HEAD = "M-44 1480V1530C-84 1556-94 1610-90 1660-84 1730-44 1760 0 1760 44 1760 84 1730 90 1660 94 1610 84 1556 44 1530V1480z"
BACK_CAP = "M-92 1652C-96 1740-52 1780 0 1780 52 1780 96 1740 92 1652 40 1672-40 1672-92 1652z"


@part("person-behind", "front", x=600, left_x=None, left_y=1010, right_x=None, right_y=1010, line="part")
def person_behind(m: Measures) -> Piece:
    """Draw somebody from behind at ``x``; each arm reaches to ``left_x``, ``left_y`` and ``right_x``, ``right_y``, or hangs."""
    x = float(m["x"])
    arms = ""
    for side, key in ((-1, "left"), (1, "right")):
        target = (side * 268.0, 800.0) if m[f"{key}_x"] is None else (float(m[f"{key}_x"]) - x, float(m[f"{key}_y"]))
        arms += arm((side * 190, 1408), target, upper=280, fore=250, bend=side, thick=0.9)
    body = path(m["line"], BACK_LEGS) + path(m["line"], BACK_TRUNK) + path("fine", BACK_LINES)
    head = path(m["line"], BACK_HEAD) + path(m["line"], BACK_CAP)
    return Piece(
        marks=group(arms + body + head, transform=f"translate({x:.0f} 0)"),
        places={"head": (x, 1790.0), "chest": (x, 1250.0), "feet": (x, 60.0)},
    )
