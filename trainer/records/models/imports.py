"""What rosters were taken: by whom, when, from which file, what it came to, what was answered."""

from sqlalchemy import Text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Digest, Instant, Json, Serial, plain


class RosterImport(Base):
    """One roster that was taken.

    ``by`` is None for what an administrator took in at the command line without a name; as in the ledger it is the key
    of whoever answers for it, and stays when an identity is taken out. ``counts`` are rows by their fate, ``answers``
    pairs of a question and what was answered; no number of anybody.
    """

    __tablename__ = "roster_import"

    id: Mapped[Serial]
    at: Mapped[Instant]
    by: Mapped[str | None] = mapped_column(plain(32))
    file: Mapped[str] = mapped_column(Text)
    digest: Mapped[Digest]
    changed: Mapped[int]
    counts: Mapped[Json]
    answers: Mapped[Json]
