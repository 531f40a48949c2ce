"""Machine drawings and plots, each with a text alternative. Results and plain rows come in, SVG text goes out."""

from trainer.figures.answered import answered
from trainer.figures.history import stopping_history
from trainer.figures.ink import Figure
from trainer.figures.opening import guard_opening
from trainer.figures.over import reach_over
from trainer.figures.race import YOURS, can_race, race
from trainer.figures.scene import pressable, scene, scene_problems
from trainer.figures.side import curtain_side
from trainer.figures.strip import StripEnd, StripRow, due_strip

__all__ = [
    "YOURS",
    "Figure",
    "StripEnd",
    "StripRow",
    "answered",
    "can_race",
    "curtain_side",
    "due_strip",
    "guard_opening",
    "pressable",
    "race",
    "reach_over",
    "scene",
    "scene_problems",
    "stopping_history",
]
