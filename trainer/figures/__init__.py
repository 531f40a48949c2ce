"""Machine drawings and plots, each with a text alternative. Results and plain rows come in, SVG text goes out."""

from trainer.figures.ink import Figure
from trainer.figures.race import race
from trainer.figures.scene import scene, scene_problems
from trainer.figures.strip import StripEnd, StripRow, due_strip

__all__ = ["Figure", "StripEnd", "StripRow", "due_strip", "race", "scene", "scene_problems"]
