"""The up-acting press brake: the upper beam stands still, the bed is pushed up by cylinders from below. From front and side."""

from trainer.figures.ink import Point, box, boxes, dot, group, line, n, path, shape
from trainer.figures.kit.brake_front import back_stop, clamps
from trainer.figures.kit.brake_side import DIE_TOP, DIES, frame, ram, tool_of
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, floats, part

BEAM_BOTTOM, BEAM_TOP = 1300.0, 1800.0  # mm: the fixed upper beam
TABLE_TOP, TABLE = 892.0, 62.0  # mm: the upper edge of the bed, and how high its table is
PLATE, INSET = 170.0, 230.0  # mm: how wide a side frame is seen from the front, and how far it stands in from the end


@part("up-acting-brake", "front", bed=3050, lift=0, travels=False)
def up_acting_front(m: Measures) -> Piece:
    """Draw the brake; ``lift`` is how far the bed has risen, ``travels`` adds arrows of the way it moves."""
    bed, lift = floats(m, "bed", "lift")
    marks = _frames(bed) + back_stop(bed) + _base(bed) + _cylinders(bed, lift) + _rising(bed, lift) + _upper(bed)
    if m["travels"]:
        marks += "".join(moves(bed * share, 800 + lift, 190, -90) for share in (0.12, 0.5, 0.88))
    return Piece(marks=marks, places=_front_places(bed, lift))


def _front_places(bed: float, lift: float) -> dict[str, Point]:
    return {
        "middle": (bed / 2, 1560.0),
        "beam": (bed / 2, 1560.0),
        "ram": (bed / 2, 1560.0),
        "bed": (bed / 2, 720.0 + lift),
        "bed-left": (0.0, 780.0 + lift),
        "bed-right": (bed, 780.0 + lift),
        "cylinder": (bed / 2 + 150, 260.0),
        "left-end": (0.0, DIE_TOP + lift),
        "right-end": (bed, DIE_TOP + lift),
        "frame-left": (INSET + 40, 1000.0),
        "frame-right": (bed - INSET - 40, 1000.0),
        "tank": (bed - 640, 200.0),
    }


def _frames(bed: float) -> str:
    """Draw the two side frames from the floor to above the beam; beam and bed lie in front of them."""
    plates = boxes("behind", [(x, 60, PLATE, 1870) for x in (INSET, bed - INSET - PLATE)])
    return plates + boxes("part", [(x - 70, 0, PLATE + 140, 60) for x in (INSET, bed - INSET - PLATE)])


def _base(bed: float) -> str:
    """Draw the cross-member that carries the cylinders, and the tank with its pump beside them."""
    beam = box("part", INSET + PLATE, 70, bed - 2 * (INSET + PLATE), 110)
    ribs = line("fine", (INSET + PLATE, 96), (bed - INSET - PLATE, 96))
    tank = box("part", bed - 800, 180, 320, 210) + box("fine", bed - 780, 200, 130, 120)
    motor = boxes("part", [(bed - 770, 390, 150, 120), (bed - 620, 410, 80, 80)])
    fins = path("fine", "".join(f"M{n(bed - 740 + 30 * i)} 390v120" for i in range(4)))
    pipe = path("fine", f"M{n(bed - 540)} 440H{n(bed - 500)}V340M{n(bed - 800)} 250H{n(bed / 2 + 150)}")
    return beam + ribs + tank + motor + fins + pipe


def _cylinders(bed: float, lift: float) -> str:
    """Draw the cylinder under the middle of the bed and a guide at each side of it."""
    x = bed / 2
    rod = box("part", x - 84, 400, 168, 160 + lift)
    barrel = box("part", x - 150, 180, 300, 210) + boxes("part", [(x - 172, 384, 344, 40), (x - 184, 180, 368, 36)])
    seams = path("fine", f"M{n(x - 104)} 216v168M{n(x + 104)} 216v168")
    guides = "".join(
        box("part", c - 26, 300, 52, 330 + lift) + box("part", c - 58, 180, 116, 190) for c in (bed * 0.27, bed * 0.66)
    )
    return guides + rod + barrel + seams


def _rising(bed: float, lift: float) -> str:
    """Draw the bed that rises: deep in the middle, where the cylinder pushes, with its table on top."""
    top, deep, shallow = TABLE_TOP - TABLE + lift, 540.0 + lift, 700.0 + lift
    low = [(0, shallow), (bed * 0.22, deep), (bed * 0.78, deep), (bed, shallow)]
    plate = shape("part", [(0, top), *low, (bed, top)]) + box("part", 0, top, bed, TABLE)
    groove = line("fine", (0, top + 36), (bed, top + 36)) + line(
        "fine", (bed * 0.22, deep + 26), (bed * 0.78, deep + 26)
    )
    return plate + groove + "".join(dot("fine", x, top - 60, 16) for x in (70, bed - 70))


def _upper(bed: float) -> str:
    """Draw the upper beam, bolted to the frames so that it cannot move; no cylinder stands on it."""
    corners = [(0, BEAM_BOTTOM), (bed, BEAM_BOTTOM), (bed, 1560), (bed - 250, BEAM_TOP), (250, BEAM_TOP), (0, 1560)]
    rims = path("fine", f"M0 1346H{n(bed)}M270 {n(BEAM_TOP - 36)}H{n(bed - 270)}")
    bolts = "".join(
        dot("part", x + dx, y, 24) + dot("fine", x + dx, y, 9)
        for x in (INSET, bed - INSET - PLATE)
        for dx in (45, PLATE - 45)
        for y in (1430, 1560, 1690)
    )
    pads = boxes("fine", [(x, 1385, PLATE, 350) for x in (INSET, bed - INSET - PLATE)])
    return shape("part", corners) + rims + pads + bolts + clamps(bed, BEAM_BOTTOM)


@part(
    "up-acting-brake",
    "side",
    punch=1110,
    top=1760,
    low=0,
    back=620,
    tool="straight",
    die="v",
    lift=0,
    chipped=False,
    travels=False,
    choices={"tool": ("straight", "gooseneck", "wide"), "die": DIES},
)
def up_acting_side(m: Measures) -> Piece:
    """Draw the brake cut through; ``lift`` is how far the bed with its die has risen, ``travels`` adds an arrow to it."""
    tip, top, low, back, lift = floats(m, "punch", "top", "low", "back", "lift")
    marks = frame(top, low, back) + _fixed(tip, top) + ram(tip, top, tool_of(m))
    marks += _ground(low) + _pushed(lift, DIES[str(m["die"])])
    if m["travels"]:
        marks += moves(-130, 860 + lift, 190, -90)
    return Piece(marks=marks, places=_side_places(tip, top, back, lift))


def _side_places(tip: float, top: float, back: float, lift: float) -> dict[str, Point]:
    high = min(top - 70, tip + 280)
    return {
        "middle": (0.0, (DIE_TOP + lift + tip) / 2),
        "beam": (42.0, high),
        "ram": (42.0, high),
        "punch": (16.0, tip + 40),
        "punch-right": (20.0, tip + 86),
        "punch-left": (-20.0, tip + 86),
        "punch-tip": (0.0, tip),
        "die": (30.0, 958.0 + lift),
        "die-front": (-30.0, 958.0 + lift),
        "pinch": (-30.0, DIE_TOP + lift),
        "bed": (58.0, 700.0 + lift),
        "bed-front": (-58.0, 700.0 + lift),
        "cylinder": (120.0, 240.0),
        "rod": (56.0, 430.0 + lift / 2),
        "frame": (back - 60, 1250.0),
        "opening": (0.0, (DIE_TOP + lift + tip) / 2),
    }


def _fixed(tip: float, top: float) -> str:
    """Draw the block that bolts the upper beam to the frame."""
    low = tip + 300
    high = max(low + 120, min(top - 40, low + 260))
    bolts = "".join(box("part", 150, y, 26, 34) for y in (low + 30, high - 64))
    return (
        box("part", 42, low, 108, high - low)
        + bolts
        + "".join(line("centre", (-60, y), (196, y)) for y in (low + 47, high - 47))
    )


def _pushed(lift: float, die: str) -> str:
    """Draw what rises: rod, bed, holder, die."""
    rod = path("cut hatched", f"M-56 330H56V{n(520 + lift)}H-56z")
    plate = path("cut hatched-back", f"M-58 {n(520 + lift)}V{n(842 + lift)}H58V{n(520 + lift)}z")
    holder = path("cut hatched", "M-46 842V912H-14V930H-30V930H30V930H14V912H46V842z")
    tool = group(holder, transform=f"translate(0 {n(lift)})")
    return rod + plate + tool + group(path("cut hatched-back", die), transform=f"translate(0 {n(DIE_TOP + lift)})")


def _ground(low: float) -> str:
    """Draw the cylinder in its cross-member, cut through, with the oil below the piston."""
    if low > 120:
        return ""
    barrel = path("cut hatched-back", "M-120 120H120V400H70V360H80V170H-80V360H-70V400H-120z")
    piston = path("cut hatched", "M-80 290H80V335H-80z")
    return box("fine-part", -80, 170, 160, 190) + barrel + piston + box("part", -170, 60, 340, 60)
