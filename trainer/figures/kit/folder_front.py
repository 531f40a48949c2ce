"""A hand folder from the front, where its operator stands: end frames, clamping beam, apron with handles and weights."""

from trainer.figures.ink import box, boxes, dot, line, n, path, shape
from trainer.figures.kit.registry import Measures, Piece, floats, part

BEND = 1000.0  # mm: the surface of the bed
FRAME, CHEEK = 150.0, 210.0  # mm: how wide an end frame is, and its cheek that carries hinge and beam
LEAF = 170.0  # mm: the height of the apron's front when it hangs


@part("folder", "front", bed=2050, apron=0, open=0, hook=False)
def folder_front(m: Measures) -> Piece:
    """Draw the folder; ``apron`` is how far the apron has swung up in degrees, ``open`` how far the beam is lifted.

    ``hook`` adds a lug at the middle of the apron, where something is hung that does not belong there.
    """
    bed, angle, lifted = floats(m, "bed", "apron", "open")
    raised = angle >= 45
    marks = _stand(bed) + _beam(bed, lifted) + _levers(bed, lifted) + _cheeks(bed) + _apron(bed, raised=raised)
    level = BEND + 40 if raised else BEND - LEAF + 20
    lug = path("part", f"M{n(bed / 2 - 34)} {n(level)}v64q34 40 68 0v-64z") + dot("fine", bed / 2, level + 54, 15)
    return Piece(marks=marks + (lug if m["hook"] else ""), places=_places(bed, lifted, raised=raised))


def _places(bed: float, lifted: float, *, raised: bool) -> dict[str, tuple[float, float]]:
    apron = BEND + 80 if raised else BEND - LEAF / 2
    grip = BEND + 420 if raised else BEND - LEAF - 220
    return {
        "middle": (bed / 2, BEND),
        "bend-line": (bed / 2, BEND),
        "apron": (bed / 2, apron),
        "handle": (bed * 0.27, grip),
        "handle-left": (bed * 0.27, grip),
        "handle-right": (bed * 0.73, grip),
        "weight": (-160.0, BEND + 100),
        "weight-left": (-160.0, BEND + 100),
        "weight-right": (bed + 160, BEND + 100),
        "beam": (bed / 2, BEND + 130 + lifted),
        "lever": (-60.0, 1500.0),
        "lever-left": (-60.0, 1500.0),
        "lever-right": (bed + 60, 1500.0),
        "bed": (bed / 2, 700.0),
        "left-foot": (-20.0, 40.0),
        "right-foot": (bed + 20, 40.0),
    }


def _stand(bed: float) -> str:
    legs = ""
    for x, way in ((0.0, -1), (bed, 1)):
        legs += shape("part", [(x - 75, 860), (x + 75, 860), (x + 60, 60), (x - 60, 60)]) + box(
            "part", x - 120, 0, 240, 60
        )
        legs += line("fine", (x + way * -40, 90), (x + way * -52, 830)) + dot("fine", x + way * 86, 26, 12)
    brace = box("part", 62, 250, bed - 124, 90) + line("fine", (62, 274), (bed - 62, 274))
    apart = box("part", 66, 620, bed - 132, 160) + line("fine", (66, 650), (bed - 66, 650))
    return brace + apart + legs


def _beam(bed: float, lifted: float) -> str:
    """Draw the clamping beam with its truss rod, which keeps it straight."""
    low = BEND + 8 + lifted
    body = box("part", 0, low, bed, 190) + path("fine", f"M0 {n(low + 60)}H{n(bed)}M0 {n(low + 150)}H{n(bed)}")
    rod = path("edge", f"M70 {n(low + 190)}Q{n(bed / 2)} {n(low + 470)} {n(bed - 70)} {n(low + 190)}")
    rod += path("edge", f"M110 {n(low + 190)}Q{n(bed / 2)} {n(low + 434)} {n(bed - 110)} {n(low + 190)}")
    struts = boxes("part", [(bed * s - 24, low + 190, 48, high) for s, high in ((0.27, 98), (0.5, 124), (0.73, 98))])
    nut = box("part", bed / 2 - 40, low + 312, 80, 34)
    return rod + struts + nut + body


def _levers(bed: float, lifted: float) -> str:
    marks = ""
    for x, way in ((0.0, -1), (bed, 1)):
        out = x + way * (60 if not lifted else 40)
        top = 1660 if not lifted else 1500
        marks += box("part", out - 22, 1200, 44, top - 1200) + dot("part", out, top + 34, 36)
        marks += line("fine", (out - 22, top - 70), (out + 22, top - 70))
    return marks


def _cheeks(bed: float) -> str:
    """Draw the cheeks at both ends, with the bolts of the hinge and the counterweights outside of them."""
    marks = ""
    for x, way in ((0.0, -1), (bed, 1)):
        left = min(x + way * 20, x + way * 110)
        marks += (
            box("part", left, 850, 90, 420) + dot("part", x + way * 65, BEND, 34) + dot("fine", x + way * 65, BEND, 12)
        )
        marks += dot("fine", x + way * 65, 1210, 20)
        marks += box("part", min(x + way * 110, x + way * 210), BEND + 22, 100, 156) + line(
            "fine", (x + way * 132, BEND + 22), (x + way * 132, BEND + 178)
        )
        marks += box("part", min(x + way * 210, x + way * 228), BEND + 76, 18, 48)
    return marks


def _apron(bed: float, *, raised: bool) -> str:
    """Draw the apron below the bend line, or standing up in front of the beam, with its two handles."""
    low = BEND if raised else BEND - LEAF
    body = box("part", 12, low, bed - 24, LEAF)
    lines = (28, 118) if raised else (LEAF - 28, LEAF - 118)
    rims = path("fine", "".join(f"M12 {n(low + y)}H{n(bed - 12)}" for y in lines))
    bolts = "".join(dot("fine", bed * (0.08 + 0.12 * i), low + LEAF / 2, 11) for i in range(8))
    handles = ""
    for x in (bed * 0.27, bed * 0.73):
        far = low + LEAF + 300 if raised else low - 300
        near = low + LEAF - 60 if raised else low + 60
        handles += box("part", x - 22, min(near, far), 44, abs(far - near)) + boxes(
            "fine", [(x - 44, min(near, near + (30 if raised else -30)), 88, 30)]
        )
        handles += dot("part", x, far, 38)
    return body + rims + bolts + handles
