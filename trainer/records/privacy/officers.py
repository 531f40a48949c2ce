"""Acts on people's data: who may do them, and the reason that each has to give."""

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records.people import PersonRow, must
from trainer.records.work import Reading
from trainer.wording import say

LONGEST = 500  # characters of one reason


def must_be_officer(r: Reading, by: str) -> PersonRow:
    """Return the officer who acts; :class:`NotEntitled` for anybody else."""
    found = must(r, by)
    if found.status != "active" or "officer" not in found.roles:
        raise NotEntitled(say("{number} is no officer here; only an officer may do this.", number=found.number))
    return found


def checked_reason(text: str) -> str:
    """Return a reason as it will be kept; :class:`UsageError` for none, or one that is too long."""
    plain = " ".join(text.split())
    if not plain:
        raise UsageError("Say why; the reason stays on the record.")
    if len(plain) > LONGEST:
        raise UsageError(say("A reason has at most {most} characters.", most=LONGEST))
    return plain


def not_erased(person: PersonRow) -> PersonRow:
    """Return a person whose name is still known; :class:`RecordError` for one whose identity was taken out."""
    if person.erased:
        raise RecordError("The identity of this person was taken out of the record.")
    return person
