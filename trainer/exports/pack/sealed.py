"""A pack from one consistent state: a checkpoint over everything first, then all of it read under that checkpoint."""

from collections.abc import Callable, Iterator

from trainer.bank import Bank
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.making import Made, pack_pieces
from trainer.records import Reading, Record, ledger

TRIES = 5  # how often an entry that came in between is waited out


def sealed_pack(
    record: Record, bank: Bank, ask: Callable[[Reading], Asked], *, site: str
) -> tuple[Made, Iterator[bytes]]:
    """Return what a pack is and its octets, in pieces. ``ask`` says, from the record as it is read, what it is about.

    Raises :class:`~trainer.errors.RecordError` where the record was altered or entries keep coming in between.
    """
    for tries_left in reversed(range(TRIES)):
        with record.writing() as writing:
            point = ledger.checkpoint(writing)
        with record.reading() as reading:
            if tries_left and ledger.size(reading) != point.entries:
                continue
            return pack_pieces(reading, bank, ask(reading), site=site)
    raise AssertionError("the last try goes on")  # pragma: no cover
