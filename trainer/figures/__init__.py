"""Machine drawings and plots, each with a text alternative. Results and plain rows come in, SVG text goes out."""

from trainer.figures.ink import Figure
from trainer.figures.race import race
from trainer.figures.scene import scene, scene_problems

__all__ = ["Figure", "race", "scene", "scene_problems"]
