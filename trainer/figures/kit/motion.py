"""Block arrows: this moves, and this way."""

from trainer.figures.ink import group, n, path

HEAD, HALF, SHAFT = 46.0, 34.0, 16.0  # mm: the head's length and half its breadth, half the shaft's breadth


def moves(x: float, y: float, length: float, turn: float) -> str:
    """Draw an arrow whose tip is at ``x``, ``y``; it points to the left, turned by ``turn`` degrees."""
    shaft = length - HEAD
    outline = f"M0 0L{n(HEAD)} {n(HALF)}V{n(SHAFT)}h{n(shaft)}v{n(-2 * SHAFT)}h{n(-shaft)}V{n(-HALF)}z"
    return group(path("part", outline), transform=f"translate({n(x)} {n(y)}) rotate({n(turn)})")
