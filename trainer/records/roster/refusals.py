"""Why something in a row cannot be taken, and what would be right."""

from dataclasses import dataclass

from trainer.wording import Sentence


@dataclass(frozen=True, slots=True)
class Refusal:
    """What is wrong with a row, and what would be right instead; ``head`` is the column, empty for the whole row."""

    told: Sentence
    right: Sentence
    head: str = ""
    wide: bool = False  # it is about the whole column, which a finding of its own tells
