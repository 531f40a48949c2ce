"""The ledger: entries, the head of each chain, and checkpoints over all of them. Triggers guard all three."""

from sqlalchemy import Index, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Day, Digest, Instant, Number, PersonKey, Short, plain


class Entry(Base):
    """One entry. ``body`` is canonical JSON text; ``digest`` covers every other column."""

    __tablename__ = "entry"
    __table_args__ = (
        UniqueConstraint("person", "seq"),
        UniqueConstraint("person", "previous"),
        Index("ix_entry_kind", "kind"),
        Index("ix_entry_happened_on", "happened_on"),
    )

    number: Mapped[Number]
    person: Mapped[PersonKey]
    seq: Mapped[int]
    kind: Mapped[str] = mapped_column(plain(20))
    happened_on: Mapped[Day]
    recorded_at: Mapped[Instant]
    zone: Mapped[Short]
    by: Mapped[Short]
    body: Mapped[str] = mapped_column(Text)
    previous: Mapped[Digest]
    digest: Mapped[Digest]


class Head(Base):
    """How far a chain goes: a person's, or that of the checkpoints. Moves on by one, never back."""

    __tablename__ = "head"

    chain: Mapped[str] = mapped_column(plain(32), primary_key=True)
    seq: Mapped[int]
    digest: Mapped[Digest]


class Checkpoint(Base):
    """What the whole ledger was at one moment: RFC 6962 tree heads over all entries and over all chains' heads.

    ``frontier`` holds the roots of the full subtrees of the tree over entries, so that the next checkpoint need not
    read the old entries again.
    """

    __tablename__ = "checkpoint"

    number: Mapped[Number]
    at: Mapped[Instant]
    entries: Mapped[int]
    chains: Mapped[int]
    entries_root: Mapped[Digest]
    heads_root: Mapped[Digest]
    frontier: Mapped[str] = mapped_column(Text)
    previous: Mapped[Digest]
    digest: Mapped[Digest]
