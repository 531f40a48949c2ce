"""Seen from above: the press brake, and the safeguards and controls that belong to it."""

from trainer.figures.ink import Point, box, boxes, dot, line, n, path
from trainer.figures.kit.registry import Measures, Piece, floats, part

TABLE, BEND = 190.0, 95.0  # mm: how deep bed and ram are, and how far the bend line lies behind the front edge
PLATE, INSET = 90.0, 170.0  # mm: how thick a frame is, and how far it stands in from the end


@part("brake", "plan", bed=3050, deep=1650, stop=420)
def brake_plan(m: Measures) -> Piece:
    """Draw the brake from above: ram over the bed in front, side frames, cylinders, tank and back-stop behind."""
    bed, deep, stop = floats(m, "bed", "deep", "stop")
    marks = _frames(bed, deep) + _stops(bed, stop) + _tank(bed, deep) + _beam(bed) + _cylinders(bed)
    places = {
        "middle": (bed / 2, BEND),
        "bend-line": (bed / 2, BEND),
        "left-end": (0.0, BEND),
        "right-end": (bed, BEND),
        "front": (bed / 2, 0.0),
        "ram": (bed * 0.3, 140.0),
        "back-stop": (bed * 0.5, BEND + stop + 60),
        "tank": (bed / 2, deep - 300),
        "rear": (bed / 2, deep),
        "frame-left": (INSET + PLATE / 2, deep - 260),
        "frame-right": (bed - INSET - PLATE / 2, deep - 260),
    }
    return Piece(marks=marks, places=places)


def _frames(bed: float, deep: float) -> str:
    plates = boxes("part", [(x, 0, PLATE, deep) for x in (INSET, bed - INSET - PLATE)])
    return plates + box("part", INSET + PLATE, deep - 60, bed - 2 * (INSET + PLATE), 60)


def _stops(bed: float, stop: float) -> str:
    """Draw the back-stop: two rails, the beam across, two fingers that point to the bend line."""
    y = BEND + stop
    rails = boxes("fine-part", [(bed * s - 22, TABLE, 44, 640) for s in (0.2, 0.8)])
    fingers = boxes("part", [(bed * s - 40, y, 80, 120) for s in (0.34, 0.66)])
    return rails + fingers + box("part", INSET + PLATE + 60, y + 90, bed - 2 * (INSET + PLATE + 60), 70)


def _tank(bed: float, deep: float) -> str:
    low = deep - 480
    tank = box("part", bed * 0.3, low, bed * 0.4, 340) + box("fine", bed * 0.3 + 30, low + 30, bed * 0.4 - 60, 280)
    motor = box("part", bed * 0.44, low + 90, 300, 160) + path(
        "fine", "".join(f"M{n(bed * 0.44 + 40 + 40 * i)} {n(low + 90)}v160" for i in range(6))
    )
    return tank + motor + box("part", bed * 0.44 + 300, low + 125, 110, 90)


def _beam(bed: float) -> str:
    """Draw bed and ram in front of the frames; the line in the middle is the bend line."""
    return (
        box("part", 0, 0, bed, TABLE)
        + box("part", 0, 40, bed, TABLE - 80)
        + line("centre", (-110, BEND), (bed + 110, BEND))
    )


def _cylinders(bed: float) -> str:
    marks = ""
    for x in (INSET + PLATE / 2, bed - INSET - PLATE / 2):
        marks += box("part", x - 130, BEND - 110, 260, 220) + dot("part", x, BEND, 92) + dot("fine", x, BEND, 54)
    return marks


@part("curtain", "plan", left=-122, right=3172, y=-420, field=True, bed=3050)
def curtain_plan(m: Measures) -> Piece:
    """Draw the two posts of a light curtain from above, on their arms, with the dashed line of its field between them."""
    left, right, y, bed = floats(m, "left", "right", "y", "bed")
    arms = boxes("part", [(at - 14, y + 40, 28, 60 - y) for at in (left, right) if at < 0 or at > bed])
    arms += boxes(
        "part", [(min(at, end), 70, abs(end - at), 30) for at, end in ((left, 0.0), (right, bed)) if at < 0 or at > bed]
    )
    field = line("hidden", (left + 46, y), (right - 46, y)) if m["field"] else ""
    posts = boxes("part", [(at - 46, y - 40, 92, 80) for at in (left, right)])
    lens = boxes("solid", [(left + 30, y - 16, 16, 32), (right - 46, y - 16, 16, 32)])
    places = {
        "middle": ((left + right) / 2, y),
        "field": ((left + right) / 2, y),
        "left": (left, y),
        "right": (right, y),
        "left-outside": (left - 46, y),
        "right-outside": (right + 46, y),
    }
    return Piece(marks=arms + field + posts + lens, places=places)


@part("pedal", "plan", x=1525, y=-580, lead=True)
def pedal_plan(m: Measures) -> Piece:
    """Draw a foot pedal under its cover from above; its cable runs to the bed."""
    x, y = floats(m, "x", "y")
    cable = (
        path("fine", f"M{n(x + 40)} {n(y + 130)}C{n(x + 60)} {n(y + 340)} {n(x + 220)} {n(y * 0.4)} {n(x + 180)} 0")
        if m["lead"]
        else ""
    )
    cover = path(
        "part",
        f"M{n(x - 130)} {n(y - 130)}V{n(y + 80)}Q{n(x - 130)} {n(y + 150)} {n(x - 60)} {n(y + 150)}H{n(x + 60)}Q{n(x + 130)} {n(y + 150)} {n(x + 130)} {n(y + 80)}V{n(y - 130)}z",
    )
    tread = box("part", x - 82, y - 150, 164, 190) + path(
        "fine", "".join(f"M{n(x - 82)} {n(y - 118 + 34 * i)}h164" for i in range(4))
    )
    return Piece(
        marks=cable + cover + tread,
        places={"middle": (x, y), "front": (x, y - 150), "left": (x - 130, y), "right": (x + 130, y)},
    )


@part("two-hand", "plan", x=600, y=-700)
def two_hand_plan(m: Measures) -> Piece:
    """Draw a two-hand station from above: two buttons under hoods, the stop between them."""
    x, y = floats(m, "x", "y")
    foot = dot("fine-part", x, y - 20, 180)
    desk = box("part", x - 330, y - 110, 660, 220) + line("fine", (x - 330, y + 70), (x + 330, y + 70))
    hands = "".join(dot("part", x + s, y - 16, 66) + dot("solid", x + s, y - 16, 34) for s in (-230, 230))
    stop = dot("part", x, y - 16, 52) + dot("fine", x, y - 16, 30)
    places: dict[str, Point] = {
        "middle": (x, y),
        "left": (x - 230, y - 16),
        "right": (x + 230, y - 16),
        "stop": (x, y - 16),
    }
    return Piece(marks=foot + desk + hands + stop, places=places)


@part("sheet", "plan", left=1100, right=1950, front=-700, rear=480)
def sheet_plan(m: Measures) -> Piece:
    """Draw a flat sheet from above, from its front edge to its rear edge at the stops."""
    left, right, front, rear = floats(m, "left", "right", "front", "rear")
    middle = (left + right) / 2
    return Piece(
        marks=box("part", left, front, right - left, rear - front),
        places={
            "middle": (middle, (front + rear) / 2),
            "front": (middle, front),
            "rear": (middle, rear),
            "left": (left, (front + rear) / 2),
            "right": (right, (front + rear) / 2),
        },
    )
