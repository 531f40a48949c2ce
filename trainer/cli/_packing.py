"""What ``trainer records audit-pack`` does: a checkpoint first, then the pack from one consistent state."""

from collections.abc import Callable
from datetime import date

from trainer.bank import Bank
from trainer.cli.options import write_pieces
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.making import Made, pack_pieces
from trainer.records import Reading, Record, ledger
from trainer.settings import Settings

TRIES = 5  # how often an entry that came in between is waited out


def pack(
    record: Record,
    bank: Bank,
    settings: Settings,
    out: str,
    key_of: Callable[[Reading, str], str],
    *,
    people: str | None,
    machine: str | None,
    on: date | None,
    known_on: date | None,
) -> Made:
    """Make a pack and write it; ``key_of`` finds a person by number."""
    for tries_left in reversed(range(TRIES)):
        with record.writing() as writing:
            point = ledger.checkpoint(writing)
        with record.reading() as reading:
            if tries_left and ledger.size(reading) != point.entries:
                continue
            keys = [key_of(reading, number.strip()) for number in (people or "").split(",") if number.strip()]
            asked = Asked(on=on or reading.today(), people=tuple(keys), machine=machine, known_on=known_on)
            made, pieces = pack_pieces(reading, bank, asked, site=settings.site)
            write_pieces(pieces, out)
            break
    return made
