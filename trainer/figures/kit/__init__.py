"""A kit of parts from which drawings are composed; importing it registers every part.

Parts are drawn in millimetres: y up, floor at 0, bend line (side view) or left end of the bed (front view) at 0. Seen
from above (plan) x runs along the bed from its left end and y towards the rear from the bed's front edge.
"""

from trainer.figures.kit import (
    blocks,
    brake_front,
    brake_side,
    flywheel,
    flywheel_side,
    folder_front,
    folder_side,
    guards,
    handling,
    hands,
    people,
    pieces,
    place,
    plan_floor,
    plan_machine,
    plan_people,
    rolls,
    tools_out,
    up_acting,
    work,
)
from trainer.figures.kit.registry import PARTS, Measures, Part, Piece, composed, part

MODULES = (
    blocks,
    brake_front,
    brake_side,
    flywheel,
    flywheel_side,
    folder_front,
    folder_side,
    guards,
    handling,
    hands,
    people,
    pieces,
    place,
    plan_floor,
    plan_machine,
    plan_people,
    rolls,
    tools_out,
    up_acting,
    work,
)

__all__ = ["MODULES", "PARTS", "Measures", "Part", "Piece", "composed", "part"]
