"""What holds the ram up, and what shows that it does not stay there: safety block and drift."""

from trainer.figures.ink import Point, box, boxes, line, n, path
from trainer.figures.kit.motion import moves
from trainer.figures.kit.registry import Measures, Piece, floats, part


@part("block", "front", x=900, low=892, high=1300, wide=150, plug=True)
def block_front(m: Measures) -> Piece:
    """Draw a safety block between bed and ram, its middle at ``x``; ``plug`` hangs its plug and chain beside it."""
    x, low, high, wide = floats(m, "x", "low", "high", "wide")
    chain = _chain(x + wide / 2, low, high) if m["plug"] else ""
    return Piece(marks=chain + _block(x, low, high, wide), places=_places(x, low, high, wide, plug=bool(m["plug"])))


@part("block", "side", x=0, low=842, punch=1110, wide=150)
def block_side(m: Measures) -> Piece:
    """Draw a safety block between bed and ram, nearer than the tools; ``punch`` is the height of the punch tip above it."""
    x, low, wide = floats(m, "x", "low", "wide")
    high = float(m["punch"]) + 230
    return Piece(marks=_block(x, low, high, wide), places=_places(x, low, high, wide, plug=False))


def _places(x: float, low: float, high: float, wide: float, *, plug: bool) -> dict[str, Point]:
    places = {
        "middle": (x, (low + high) / 2),
        "left": (x - wide / 2, (low + high) / 2),
        "right": (x + wide / 2, (low + high) / 2),
        "top": (x, high),
        "foot": (x, low),
    }
    return places | ({"plug": (x + wide / 2 + 132, low + (high - low) * 0.5)} if plug else {})


def _block(x: float, low: float, high: float, wide: float) -> str:
    """Draw a stout post with a plate at each end, slanting bands on it and a handle."""
    left, cap = x - wide / 2, min(34.0, (high - low) / 6)
    post = box("part", left + 16, low + cap, wide - 32, high - low - 2 * cap)
    inner, pitch = wide - 32, 64.0
    count = int((high - low - 2 * cap - inner * 0.6) / pitch)
    bands = "".join(
        path(
            "solid",
            f"M{n(left + 16)} {n(low + cap + pitch * i + 10)}l{n(inner)} {n(inner * 0.5)}v26l{n(-inner)} {n(-inner * 0.5)}z",
        )
        for i in range(max(count, 0))
    )
    plates = boxes("part", [(left, low, wide, cap), (left, high - cap, wide, cap)])
    return post + bands + plates


def _chain(x: float, low: float, high: float) -> str:
    """Draw the plug that has to be pulled out of its socket before the block comes out of its holder."""
    level = low + (high - low) * 0.5
    sag = path("fine", f"M{n(x - 20)} {n(level + 70)}Q{n(x + 70)} {n(level + 30)} {n(x + 100)} {n(level)}")
    return (
        sag
        + box("part", x + 100, level - 22, 64, 44)
        + boxes("part", [(x + 164, level - 14, 22, 8), (x + 164, level + 6, 22, 8)])
    )


@part("drift", "side", x=-130, y=1420, length=170)
def drift(m: Measures) -> Piece:
    """Draw that the ram sinks by itself: an arrow down beside it, from the height where it was left."""
    x, y, length = floats(m, "x", "y", "length")
    mark = line("hidden", (x - 70, y), (x + 86, y)) + line("fine", (x - 54, y - length), (x + 54, y - length))
    return Piece(
        marks=mark + moves(x, y - length, length - 8, 90),
        places={
            "middle": (x, y - length / 2),
            "start": (x - 60, y),
            "tip": (x, y - length),
            "left": (x - 34, y - length + 40),
        },
    )
