"""A hand folder from the side, cut through: bed, clamping beam, and the apron that swings up about the bend line.

The bend line is at 0, the surface of the bed at 1000; the operator stands at the left and lifts the apron.
"""

from cmath import rect
from math import radians

from trainer.figures.ink import box, boxes, disc, dot, group, line, n, path
from trainer.figures.kit.motion import turns
from trainer.figures.kit.registry import Measures, Piece, floats, part

BEND = 1000.0  # mm
FRAME = "M-30 60L-6 780Q0 830 40 860L60 900V1240Q60 1330 150 1330H330Q420 1330 420 1240V840L470 60z"
BED = "M4 1000H300V962H150V760H110V900L44 962 4 978z"
BEAM = "M4 0 34 96 120 190V330H164V168L220 60 300 40V0z"


@part("folder", "side", apron=0, open=0, travels=False)
def folder_side(m: Measures) -> Piece:
    """Draw the folder; ``apron`` is how far the apron has swung up in degrees, ``open`` how far the clamping beam is lifted.

    ``travels`` adds an arrow of the apron's way.
    """
    angle, lifted = floats(m, "apron", "open")
    marks = _stand() + _weight(angle) + path("cut hatched-back", BED) + _beam(lifted) + _lever(lifted) + _apron(angle)
    if m["travels"]:
        marks += turns((0.0, BEND), 430, 178 - angle, -70)
    return Piece(marks=marks, places=_places(angle, lifted))


def _places(angle: float, lifted: float) -> dict[str, tuple[float, float]]:
    return {
        "middle": (0.0, BEND),
        "nip": (2.0, BEND),
        "bend-line": (0.0, BEND),
        "apron": _turned(-150, -30, angle),
        "apron-edge": _turned(-196, -6, angle),
        "handle": _turned(-440, -206, angle),
        "weight": _turned(470, 96, angle),
        "beam": (140.0, 1240.0 + lifted),
        "beam-nose": (16.0, 1040.0 + lifted),
        "lever": (435.0, 1440.0) if lifted > 0 else (240.0, 1500.0),
        "bed": (130.0, 850.0),
        "stand": (420.0, 400.0),
    }


def _turned(x: float, y: float, angle: float) -> tuple[float, float]:
    """Return where a point of the apron lies once it has swung up; measured from the bend line."""
    point = complex(x, y) * rect(1.0, -radians(angle))
    return point.real, BEND + point.imag


def _stand() -> str:
    """Draw the far end frame on its feet, with the brace between the two frames cut through."""
    feet = boxes("part", [(-80, 0, 170, 24), (390, 0, 170, 24), (-60, 24, 130, 36), (410, 24, 130, 36)])
    ribs = path("fine", "M40 120L70 700M400 120L370 700M60 900Q60 860 110 850H360Q400 850 404 800")
    brace = path("cut hatched", "M150 300H270V330H180V420H150z") + box("fine", 104, 150, 260, 60)
    return path("wash-part", FRAME) + path("edge", FRAME) + ribs + brace + feet


def _beam(lifted: float) -> str:
    beam = path("cut hatched", BEAM) + path("fine", "M142 330V168M120 250H164")
    return group(beam, transform=f"translate(0 {n(BEND + 6 + lifted)})")


def _lever(lifted: float) -> str:
    """Draw the clamping lever with its eccentric; it leans back when the beam is lifted."""
    turn = -38 if lifted > 0 else 0
    arm = path("part", "M-20 0L-12 300Q-14 360 0 366 14 360 12 300L20 0z") + line("fine", (-12, 250), (12, 250))
    knob = dot("part", 0, 380, 30)
    hub = disc("part", 0, 0, 56) + dot("fine", 12, 8, 22)
    return group(arm + knob + hub, transform=f"translate(240 1190) rotate({turn})")


def _weight(angle: float) -> str:
    """Draw the counterweight behind, on its arm beyond the hinge: it sinks as the apron rises."""
    arm = path("part", "M-10 40L430 118V82L0-30z")
    ball = disc("part", 470, 96, 78) + dot("fine", 470, 96, 30)
    return _swung(arm + ball, angle)


def _apron(angle: float) -> str:
    """Draw the apron: its bar at the bend line, the leaf behind it, the handle that the operator lifts."""
    leaf = path("cut hatched", "M-4 0V-34L-24-60H-150V-150H-186V-6L-196 0z")
    rod = path("part", "M-170-110L-452-190Q-470-196-470-210T-448-222L-166-146z") + line(
        "fine", (-330, -156), (-342, -190)
    )
    hinge = disc("part", 0, 0, 26) + dot("fine", 0, 0, 9)
    return _swung(rod + leaf + hinge, angle)


def _swung(marks: str, angle: float) -> str:
    return group(marks, transform=f"translate(0 {n(BEND)}) rotate({n(-angle)})")
