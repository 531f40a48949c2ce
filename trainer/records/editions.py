"""The editions of the bank that papers were drawn from, kept so that an old paper can be shown as it was."""

import hashlib
import zlib

from trainer.bank import Bank, archive
from trainer.errors import Missing, RecordError
from trainer.records.models import Edition
from trainer.records.work import Reading, Writing
from trainer.wording import say


def keep(w: Writing, bank: Bank) -> None:
    """Keep a bank, once; the same content again stores nothing."""
    if w.session.get(Edition, bank.fingerprint) is None:
        content = zlib.compress(archive.to_bytes(bank), level=9)
        w.session.add(Edition(fingerprint=bank.fingerprint, edition=bank.edition, content=content, at=w.now()))
        w.session.flush()


def content(r: Reading, fingerprint: str) -> bytes:
    """Return the canonical JSON of an edition, proved against its fingerprint.

    Raises :class:`Missing` where it was never kept, :class:`RecordError` where it is not what it was.
    """
    found = r.session.get(Edition, fingerprint)
    if found is None:
        raise Missing(say("The content with the fingerprint {fingerprint} was not kept.", fingerprint=fingerprint[:12]))
    try:
        kept = zlib.decompress(found.content)
    except zlib.error:
        kept = b""
    if hashlib.sha256(kept).hexdigest() != fingerprint:
        raise RecordError(say("The content kept as {fingerprint} was altered.", fingerprint=fingerprint[:12]))
    return kept


def bank_of(r: Reading, fingerprint: str) -> Bank:
    """Return the bank as it was when it had this fingerprint; raises as :func:`content` does."""
    return archive.from_bytes(content(r, fingerprint))
