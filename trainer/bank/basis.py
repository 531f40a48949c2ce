"""What every model of the bank is made of: frozen models, texts in each language, ids, roles, kinds of machine."""

from collections.abc import Mapping
from enum import StrEnum
from typing import Annotated

from pydantic import BaseModel, ConfigDict, StringConstraints

Id = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9]+(?:[-/][A-Za-z0-9]+)*$", max_length=80)]
Language = Annotated[str, StringConstraints(pattern=r"^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$")]
FALLBACK = "en"
PRACTICE = "common-practice"  # the source key of a fact of the trade that has no other source

TO_WRITE = "TODO:"  # how a text begins that an author still has to write


class Frozen(BaseModel):
    """What every model of the bank has in common: frozen, no unknown keys, finite numbers."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Role(StrEnum):
    """What a person does at a machine."""

    OPERATOR = "operator"
    HELPER = "helper"
    SETTER = "setter"
    LEAD = "lead"
    MAINTENANCE = "maintenance"


class MachineKind(StrEnum):
    """The kinds of machine that programmes and checklists are written for."""

    PRESS_BRAKE_HYDRAULIC = "press-brake-hydraulic"
    PRESS_BRAKE_MECHANICAL = "press-brake-mechanical"
    PRESS_BRAKE_SERVO = "press-brake-servo"
    PRESS_BRAKE_UPSTROKE = "press-brake-upstroke"
    FOLDER = "folder"
    PLATE_ROLLS = "plate-rolls"


class Text(Frozen):
    """Words in each language."""

    words: Mapping[Language, str]

    def in_(self, language: str) -> str:
        """Return the words in ``language``, else in English, else in the first language that there is."""
        return self.words.get(language) or self.words.get(FALLBACK) or next(iter(self.words.values()), "")

    @property
    def unwritten(self) -> bool:
        """Say whether it is still to be written in some language."""
        return any(words.startswith(TO_WRITE) for words in self.words.values())

    def has(self, language: str) -> bool:
        """Say whether there are words of its own for ``language``."""
        return bool(self.words.get(language))
