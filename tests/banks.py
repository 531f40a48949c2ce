"""The shipped bank, read once by each process: reading it costs seconds, and nothing changes it."""

from functools import cache

from trainer.bank import Bank, open_bank
from trainer.settings import shipped


@cache
def shipped_bank() -> Bank:
    """Return the bank that the project ships."""
    return open_bank(shipped("content"))
