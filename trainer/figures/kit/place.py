"""What stands about the brake: floor, foot pedal, control, main switch with its lock, the line nobody crosses."""

from trainer.figures.ink import box, boxes, dot, line, n, path
from trainer.figures.kit.registry import Measures, Piece, part


@part("floor", "front", "side", left=-640, right=3700)
def floor(m: Measures) -> Piece:
    """Draw the floor line, hatched at both ends."""
    left, right = float(m["left"]), float(m["right"])
    step = 0.022 * (right - left)
    starts = [left + step * i for i in (1, 2, 3)] + [right - step * i for i in (2, 1, 0)]
    strokes = "".join(f"M{n(x)} 0l{n(-step * 0.7)} {n(-step * 0.7)}" for x in starts)
    return Piece(marks=path("fine", f"M{n(left)} 0H{n(right)}{strokes}"))


@part("pedal", "front", x=300)
def pedal_front(m: Measures) -> Piece:
    """Draw a foot pedal under its cover, on its cable."""
    x = float(m["x"])
    cover = path(
        "part",
        f"M{n(x - 160)} 0H{n(x + 160)}V58C{n(x + 152)} 122 {n(x + 112)} 156 {n(x + 62)} 160H{n(x - 62)}C{n(x - 112)} 156 {n(x - 152)} 122 {n(x - 160)} 58z",
    )
    mouth = path("fine", f"M{n(x - 116)} 12H{n(x + 116)}V62q0 38-42 46H{n(x - 74)}q-42-8-42-46z")
    tread = path("part", f"M{n(x - 88)} 14H{n(x + 88)}L{n(x + 78)} 48H{n(x - 78)}z") + line(
        "fine", (x - 84, 28), (x + 84, 28)
    )
    cable = path("fine", f"M{n(x + 160)} 34q70 0 96 30t70 40")
    return Piece(
        marks=cable + cover + mouth + tread,
        places={
            "top": (x, 160.0),
            "foot": (x, 8.0),
            "middle": (x, 64.0),
            "left": (x - 160, 50.0),
            "right": (x + 156, 70.0),
        },
    )


@part("pedal", "side", x=-420)
def pedal_side(m: Measures) -> Piece:
    """Draw a foot pedal under its cover, open to the left, where the foot comes from."""
    x = float(m["x"])
    cover = path(
        "part",
        f"M{n(x - 130)} 0H{n(x + 160)}V74C{n(x + 150)} 140 {n(x + 100)} 168 {n(x + 30)} 168H{n(x - 76)}L{n(x - 130)} 138V128H{n(x - 84)}V30H{n(x - 130)}z",
    )
    tread = path("part", f"M{n(x - 118)} 18H{n(x + 96)}v12L{n(x - 118)} 62z") + dot("fine", x + 84, 26, 8)
    cable = path("fine", f"M{n(x + 160)} 34q80 4 130 34")
    return Piece(marks=cable + cover + tread, places={"top": (x, 168.0), "middle": (x, 90.0), "front": (x - 100, 60.0)})


@part("control", "front", x=3400, plate=True)
def control(m: Measures) -> Piece:
    """Draw the control on its swing arm, hung from the top of the right frame."""
    x = float(m["x"])
    arm = path("part", f"M{n(x - 430)} 2200H{n(x + 26)}q24 0 24-24V1580h-46V2150H{n(x - 430)}z") + line(
        "fine", (x - 430, 2175), (x + 20, 2175)
    )
    body = box("part", x - 130, 1130, 320, 450) + box("fine", x - 100, 1310, 260, 230)
    trace = path("fine", f"M{n(x - 76)} 1350h90v60h60v70M{n(x - 76)} 1500h80")
    keys = boxes("fine", [(x - 100 + 66 * i, 1170 + 56 * j, 48, 38) for i in range(3) for j in range(2)])
    stop = dot("part", x + 132, 1216, 38) + dot("fine", x + 132, 1216, 22)
    return Piece(
        marks=arm + body + trace + keys + stop,
        places={"screen": (x + 190, 1420.0), "foot": (x + 30, 1130.0), "left": (x - 130, 1300.0)},
    )


@part("isolator", "side", x=470, y=1290)
def isolator(m: Measures) -> Piece:
    """Draw the main switch, turned off, with a padlock and its tag through the handle."""
    x, y = float(m["x"]), float(m["y"])
    switch = box("part", x - 70, y - 84, 140, 190) + dot("part", x, y + 24, 48) + dot("fine", x, y + 24, 40)
    handle = path("part", f"M{n(x - 44)} {n(y + 12)}h88v24h-88z")
    lock = path("edge", f"M{n(x - 18)} {n(y - 60)}v46q18 26 36 0v-46") + path(
        "solid", f"M{n(x - 32)} {n(y - 118)}h64v58h-64z"
    )
    return Piece(
        marks=switch + handle + lock,
        places={"switch": (x + 70, y + 30), "lock": (x + 32, y - 90), "lock-left": (x - 32, y - 90)},
    )


@part("line", "front", x=3900, length=900)
def safety_line(m: Measures) -> Piece:
    """Draw the line behind which nobody is within reach: a post on the floor with a chain towards the brake."""
    x, length = float(m["x"]), float(m["length"])
    post = boxes("part", [(x - 110, 0, 220, 24), (x - 18, 24, 36, 876), (x - 30, 900, 60, 44)])
    bands = boxes("solid", [(x - 18, y, 36, 70) for y in (300, 480, 660)])
    chain = path("fine", f"M{n(x - 18)} 862Q{n(x - length / 2)} 640 {n(x - length)} 862") if length else ""
    return Piece(marks=chain + post + bands, places={"top": (x, 944.0), "foot": (x, 12.0), "middle": (x - 18, 420.0)})
