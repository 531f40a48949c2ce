"""A kit of parts from which drawings are composed; importing it registers every part.

Parts are drawn in millimetres: y up, floor at 0, bend line (side view) or left end of the bed (front view) at 0.
"""

from trainer.figures.kit import brake_front, brake_side, flywheel, guards, hands, people, place, work
from trainer.figures.kit.registry import PARTS, Measures, Part, Piece, composed, part

MODULES = (brake_front, brake_side, flywheel, guards, hands, people, place, work)

__all__ = ["MODULES", "PARTS", "Measures", "Part", "Piece", "composed", "part"]
