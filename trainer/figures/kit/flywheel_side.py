"""An old mechanical brake from the side, cut through: flywheel behind the cast frame, crank, screw to the ram, treadle."""

import math

from trainer.figures.ink import Point, box, boxes, disc, dot, line, n, path
from trainer.figures.kit.brake_side import DIE_TOP, DIES, PUNCHES, bed, ram, tool_of
from trainer.figures.kit.motion import turns
from trainer.figures.kit.registry import Measures, Piece, part

SHAFT = (0.0, 2080.0)
WHEEL, RIM, HUB = 470.0, 84.0, 90.0  # mm: radius of the flywheel, breadth of its rim, radius of its hub
AXLE = (150.0, 2080.0)
MOTOR = (640.0, 1500.0)
FRAME = (
    "M-200 44V760Q-200 796-164 796H300C362 796 400 836 400 900V1330C400 1400 362 1440 300 1440H-150"
    "Q-190 1440-190 1480V2200Q-190 2330-60 2330H380C560 2330 660 2200 690 1990L740 900V44z"
)


@part(
    "flywheel-brake",
    "side",
    punch=1110,
    tool="straight",
    die="v",
    chipped=False,
    turning=False,
    pressed=False,
    choices={"tool": PUNCHES, "die": DIES},
)
def flywheel_brake_side(m: Measures) -> Piece:
    """Draw the brake; ``turning`` adds an arrow to the flywheel, ``pressed`` draws the treadle down."""
    tip = float(m["punch"])
    down = 60.0 if m["pressed"] else 0.0
    marks = _wheel() + _motor() + path("wash-part", FRAME) + path("edge", FRAME) + _hidden() + _feet()
    marks += (
        _treadle(down) + bed(44.0, DIES[str(m["die"])]) + ram(tip, tip + 560, tool_of(m), closed=True) + _crank(tip)
    )
    if m["turning"]:
        marks += turns(AXLE, WHEEL + 70, 100, 70, 80)
    return Piece(marks=marks, places=_places(tip, down))


def _places(tip: float, down: float) -> dict[str, Point]:
    ring = (WHEEL - RIM / 2) * math.sqrt(0.5)
    return {
        "middle": (0.0, (DIE_TOP + tip) / 2),
        "ram": (42.0, tip + 400),
        "ram-left": (-42.0, tip + 400),
        "punch": (16.0, tip + 40),
        "punch-right": (20.0, tip + 86),
        "punch-tip": (0.0, tip),
        "die": (30.0, 958.0),
        "die-front": (-30.0, 958.0),
        "pinch": (-30.0, DIE_TOP),
        "opening": (0.0, (DIE_TOP + tip) / 2),
        "bed": (58.0, 500.0),
        "flywheel": (AXLE[0] + ring, AXLE[1] + ring),
        "flywheel-top": (AXLE[0], AXLE[1] + WHEEL - RIM / 2),
        "shaft": (SHAFT[0] + 70, SHAFT[1]),
        "crank": (-90.0, SHAFT[1]),
        "screw": (40.0, (tip + 560 + SHAFT[1] - 130) / 2),
        "treadle": (-420.0, 150.0 - down),
        "frame": (600.0, 1250.0),
        "motor": (MOTOR[0] + 260, MOTOR[1]),
    }


def _wheel() -> str:
    """Draw the flywheel on its shaft, with six spokes; the frame hides its lower half."""
    marks = dot("part", *AXLE, WHEEL) + dot("fine", *AXLE, WHEEL - RIM)
    for turn in range(0, 360, 60):
        c, s = math.cos(math.radians(turn + 30)), math.sin(math.radians(turn + 30))
        near, far = (HUB, 34.0), (WHEEL - RIM, 24.0)
        ends = [(AXLE[0] + c * r - s * w * k, AXLE[1] + s * r + c * w * k) for r, w in (near, far) for k in (1, -1)]
        marks += line("fine", ends[0], ends[2]) + line("fine", ends[1], ends[3])
    return marks + dot("part", *AXLE, HUB)


def _hidden() -> str:
    """Draw what the frame hides of the wheel and its hub."""
    return dot("hidden", *AXLE, WHEEL) + dot("hidden", *AXLE, HUB)


def _motor() -> str:
    """Draw the motor on its bracket at the back, and the belts up to the wheel."""
    x, y = MOTOR
    belts = line("edge", (AXLE[0] + WHEEL * 0.96, AXLE[1] - WHEEL * 0.28), (x + 340, y - 20))
    belts += line("edge", (AXLE[0] + WHEEL * 0.70, AXLE[1] + WHEEL * 0.71), (x + 330, y + 64))
    body = dot("part", x + 260, y, 130) + dot("part", x + 260, y, 56) + dot("fine", x + 260, y, 20)
    bracket = boxes("part", [(x + 60, y - 190, 330, 40), (x + 160, y - 150, 200, 34)])
    return bracket + belts + body


def _feet() -> str:
    return boxes("part", [(-230, 0, 300, 44), (520, 0, 260, 44)])


def _crank(tip: float) -> str:
    """Draw the shaft cut through, its eccentric, and the screw that carries the ram."""
    x, y = SHAFT
    strap = path("part", f"M-60 {n(y - 190)}H60L92 {n(y - 108)}A130 130 0 1 1-92 {n(y - 108)}z")
    turned = dot("part", x, y - 26, 96) + disc("cut hatched", x, y, 58)
    low, high = tip + 540, y - 190
    screw = box("part", -40, low, 80, high - low)
    threads = "".join(f"M-40 {n(low + 30 + 26 * i)}l80 12" for i in range(int((high - low - 50) / 26)))
    ball = path(
        "part",
        f"M-80 {n(low)}V{n(low + 50)}Q-80 {n(low + 86)}-40 {n(low + 86)}H40Q80 {n(low + 86)} 80 {n(low + 50)}V{n(low)}z",
    )
    return screw + path("fine", threads) + ball + strap + turned


def _treadle(down: float) -> str:
    """Draw the bar along the floor, cut through, its arm to a pivot in the frame, and the rod up to the clutch."""
    y = 150 - down
    rod = box("part", 236, 190 - down * 0.4, 22, 1560)
    arm = path("part", f"M-400 {n(y - 16)}L250 {n(180 - down * 0.4)}V{n(212 - down * 0.4)}L-400 {n(y + 18)}z")
    pivot = dot("part", 90, 184 - down * 0.7, 30) + dot("fine", 90, 184 - down * 0.7, 12)
    return rod + arm + pivot + box("part", -440, y - 26, 60, 52) + line("fine", (-440, y + 12), (-380, y + 12))
