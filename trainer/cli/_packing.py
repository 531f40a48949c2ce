"""What ``trainer records audit-pack`` does: finds the people by number, makes the pack and writes it."""

from collections.abc import Callable
from datetime import date

from trainer.bank import Bank
from trainer.cli.options import write_pieces
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.making import Made
from trainer.exports.pack.sealed import sealed_pack
from trainer.records import Reading, Record
from trainer.settings import Settings


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

    def ask(reading: Reading) -> Asked:
        keys = [key_of(reading, number.strip()) for number in (people or "").split(",") if number.strip()]
        return Asked(on=on or reading.today(), people=tuple(keys), machine=machine, known_on=known_on)

    made, pieces = sealed_pack(record, bank, ask, site=settings.site)
    write_pieces(pieces, out)
    return made
