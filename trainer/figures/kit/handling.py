"""What keeps a hand away or leads it in: tongs, a foot in the pedal, a cloth; and an arrow for a motion."""

from trainer.figures.ink import dot, group, line, n, path
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, floats, part


@part("tongs", "side", "front", x=0, y=1010, length=520, mirror=False)
def tongs(m: Measures) -> Piece:
    """Draw tongs that grip at ``x``, ``y`` and reach ``length`` to the left (``mirror``: right), to the hand."""
    x, y, length = floats(m, "x", "y", "length")
    jaws = path("part", f"M0 0C-40 22-70 30-120 22L{n(-length)} 40v-16L-126 8C-80 14-40 8 0-6z")
    jaws += path("part", f"M0-6C-40-26-70-34-120-26L{n(-length)}-2v-16L-126-10C-80-16-40-10 0 0z")
    turned = group(
        jaws + dot("part", -122, -2, 13), transform=f"translate({n(x)} {n(y)}) scale({-1 if m['mirror'] else 1} 1)"
    )
    way = 1 if m["mirror"] else -1
    return Piece(
        marks=turned,
        places={"tip": (x, y), "middle": (x + way * length / 2, y + 14), "grip": (x + way * length, y + 10)},
    )


@part("foot", "side", x=-420, pressed=False, whole=False)
def foot(m: Measures) -> Piece:
    """Draw a foot in the pedal whose cover stands at ``x``; ``pressed`` lays the sole down on the tread.

    ``whole`` draws the leg up to a person's own, who stands at ``x`` - 178.
    """
    (x,) = floats(m, "x")
    low = 44 if m["pressed"] else 62
    shoe = path(
        "part",
        f"M{n(x + 40)} {low}Q{n(x + 52)} {low + 54} {n(x - 20)} {low + 62}L{n(x - 118)} {low + 96}L{n(x - 128)} {low + 150}H{n(x - 226)}L{n(x - 240)} {low - 18}Q{n(x - 240)} {low - 34} {n(x - 224)} {low - 34}H{n(x - 150)}L{n(x - 130)} {low - 8}z",
    )
    knee = 700.0 if m["whole"] else 560.0
    calf = ((x - 232, low + 150), (x - 262, knee)), ((x - 116, low + 150), (x - 92, knee))
    leg = path("paper", f"M{n(x - 232)} {low + 150}L{n(x - 262)} {n(knee)}H{n(x - 92)}L{n(x - 116)} {low + 150}z")
    leg += line("edge", *calf[0]) + line("edge", *calf[1]) + line("edge", (x - 234, low + 152), (x - 114, low + 152))
    sole = line("fine", (x - 238, low - 8), (x - 150, low - 10), (x - 128, low + 14), (x + 34, low + 10))
    return Piece(
        marks=leg + shoe + sole,
        places={
            "toe": (x + 30, low + 30),
            "heel": (x - 226, low),
            "middle": (x - 60, low + 60),
            "ankle": (x - 174, low + 150),
        },
    )


@part("arrow", "side", "front", "plan", x=0, y=1000, length=200, turn=0)
def arrow(m: Measures) -> Piece:
    """Draw an arrow of a motion: its tip at ``x``, ``y``; it points to the left, turned by ``turn`` degrees."""
    x, y, length, turn = floats(m, "x", "y", "length", "turn")
    return Piece(marks=moves(x, y, length, turn), places={"tip": (x, y), "middle": (x, y)})
