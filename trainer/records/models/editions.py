"""The editions of the bank that papers were drawn from."""

from sqlalchemy import LargeBinary
from sqlalchemy.orm import Mapped, mapped_column

from trainer.records.models.base import Base, Digest, Instant


class Edition(Base):
    """A bank as it was: its canonical JSON, compressed. A fingerprint stands for one content only."""

    __tablename__ = "edition"

    fingerprint: Mapped[Digest] = mapped_column(primary_key=True)
    edition: Mapped[int]
    content: Mapped[bytes] = mapped_column(LargeBinary)
    at: Mapped[Instant]
