"""What can go wrong, as one family.

::

    TrainerError               root; exit code 1, status 400
    ├── UsageError             the request itself is malformed; exit code 2
    │   └── BadQuantity        a number or unit that cannot be read
    ├── BankError              the content bank cannot be used as it is
    ├── RecordError            the record refuses an act; status 409
    │   └── NotEntitled        the person has no right to this act on that day; status 403
    └── Missing                a thing that was named does not exist; status 404

Each error carries a :class:`~trainer.wording.Sentence`: one plain sentence that says what is wrong and what would
be right, which the doors can show in the reader's language.
"""

from typing import ClassVar

from trainer.wording import Sentence, say


class TrainerError(Exception):
    """Root of the family. ``sentence`` is what a person is told."""

    exit_code: ClassVar[int] = 1
    status: ClassVar[int] = 400

    def __init__(self, sentence: Sentence | str) -> None:
        self.sentence = say(sentence) if isinstance(sentence, str) else sentence
        super().__init__(self.sentence)

    def __str__(self) -> str:
        return str(self.sentence)


class UsageError(TrainerError, ValueError):
    """The request is malformed: an unknown name, a missing key, a value that cannot be read."""

    exit_code = 2


class BadQuantity(UsageError):
    """A number or unit that cannot be read, or has the wrong dimension."""


class BankError(TrainerError):
    """The content bank cannot be used as it is."""


class RecordError(TrainerError):
    """The record refuses an act."""

    status = 409


class NotEntitled(RecordError):
    """The person has no right to this act on that day."""

    status = 403


class Missing(TrainerError, LookupError):
    """A person, machine, programme or item that was named does not exist."""

    status = 404
