"""Making and checking a pack holds little, however long the ledger is."""

import tracemalloc

import pytest

from trainer.bank import archive
from trainer.exports.pack.asked import Asked
from trainer.exports.pack.making import write_pack
from trainer.exports.pack.verifier.main import check_pack
from trainer.records import ledger, people
from trainer.records.chain import EntryKind


def peak_of(act):
    tracemalloc.start()
    try:
        result = act()
        return result, tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


LONG = "x" * 1000
MANY = 20  # people


def lengthen(plant, keys, each):
    """Give people so many more entries each."""
    with plant.record.writing() as w:
        for place in range(len(keys) * each):
            body = {"topic": f"Talk {place} {LONG}"}
            ledger.append(w, keys[place % len(keys)], EntryKind.ATTENDED, body, happened_on=w.today(), by=plant.trainer)


@pytest.fixture
def small_bank(bank):
    """The bank without the content that no standing needs, so that it does not hide what entries take."""
    return archive.from_bytes(archive.to_bytes(bank.model_copy(update={"scenarios": {}, "drills": {}})))


@pytest.mark.slow
def test_memory_does_not_grow_with_the_entries_in_a_pack(plant, small_bank, tmp_path):
    with plant.record.writing() as w:
        keys = [people.add(w, number=f"9{place}", name=f"Person {place}").key for place in range(MANY)]

    def peaks(each):
        lengthen(plant, keys, each)
        with plant.record.writing() as w:
            ledger.checkpoint(w)
        with plant.record.reading() as r, (tmp_path / "pack.zip").open("wb") as file:
            asked = Asked(on=plant.today(), people=tuple(keys))
            _made, making = peak_of(lambda: write_pack(r, small_bank, asked, file, site="Ostrand Mill"))
        check, checking = peak_of(lambda: check_pack(tmp_path / "pack.zip")[0])
        assert check.faults == []
        return making, checking

    before = peaks(40)  # more rows than are read at a time
    after = peaks(80)

    grown = [late - early for early, late in zip(before, after, strict=True)]
    assert all(more < MANY * 80 * len(LONG) / 4 for more in grown), (
        grown
    )  # standing holds one person's entries at a time
