"""The record: people, ledger, sittings, and what follows from them. The only room that speaks SQL.

Open it with :func:`open_record`; every function takes a transaction first, from ``record.reading()`` or
``record.writing()``.
"""

from trainer.records.database import Record, open_record
from trainer.records.work import Reading, Writing

__all__ = ["Reading", "Record", "Writing", "open_record"]
