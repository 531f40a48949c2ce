"""What somebody asked at a kiosk, in words: the key that was pressed and what was written."""

from types import MappingProxyType

from trainer.records.asking import AskedRow, Wish
from trainer.web.words import _l

WISHES = MappingProxyType(
    {
        Wish.EXPLAIN: _l("Explain it to me"),
        Wish.SHOW: _l("Show me at the machine"),
        Wish.OWN: _l("My own question"),
    }
)


def told_question(row: AskedRow) -> str:
    """Say what was asked: one's own words, led by what was pressed where that says something."""
    if row.wish is Wish.OWN:
        return row.words
    led = f"{WISHES[row.wish]}."
    return f"{led} {row.words}" if row.words else led
