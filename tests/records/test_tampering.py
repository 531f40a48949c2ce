"""Any single change by chance in a copy of the database is found and named.

What is covered is the record: entries, heads, checkpoints, and that the people of whom they speak are there. Names and
what hangs on a person may be changed by design; a person without any entry leaves no trace in the ledger.
"""

import random
from collections import Counter
from datetime import timedelta

import pytest
from records.changes import ACTS, Held, held, verified
from records.site import TODAY

from trainer.records import Record, ledger, people
from trainer.records.chain import EntryKind
from trainer.records.rawrows import raw_checkpoints, raw_entries, raw_heads


@pytest.fixture
def before(record, clock) -> Held:
    """Three people with 33 entries over a week, and one without any."""
    with record.writing() as w:
        keys = [people.add(w, number=str(number), name="María O’Brien").key for number in range(2201, 2205)]
    for number in range(33):
        clock.advance(timedelta(hours=5))
        with record.writing() as w:
            body = {"topic": f"Talk {number}: “loose” pedals, 100 % 😂", "presenter": "x"}
            ledger.append(w, keys[number % 3], EntryKind.ATTENDED, body, happened_on=TODAY, by="office")
    return held(record, keys[3])


@pytest.mark.parametrize("tries", [60, pytest.param(1000, marks=pytest.mark.slow)])
def test_every_single_change_is_found_and_named(record, clock, before, tries):
    chance = random.Random(20260309 + tries)
    done, missed, refused = Counter(), [], 0
    while done.total() < tries:
        act = ACTS[done.total() % len(ACTS)]
        change = act(before, chance)
        report = verified(record, clock, before, change)
        if report is None:  # the database itself does not take it, so it is no change
            refused += 1
            continue
        done[act.__name__] += 1
        keys = {key for (key,) in report.rows("key")}
        missed += [] if all(names & keys for names in change.named) else [(change.said, report.rows("code", "key"))]
    told = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in done.items())
    print(f"\n{record.engine.dialect.name}: {tries} changes ({told}), {len(missed)} missed; {refused} not taken at all")

    assert missed == []
    assert everything(record) == before.everything


@pytest.mark.parametrize("tries", [30, pytest.param(1000, marks=pytest.mark.slow)])
def test_a_byte_flipped_in_the_file_is_found_or_changes_nothing_in_the_record(record, before, stored, tries):
    """A file also has room that is not used, and pages with names; a byte there changes nothing that is hashed."""
    if record.engine.dialect.name != "sqlite":
        pytest.skip("PostgreSQL's files are the server's")
    record.close()
    path = stored.data / "record.sqlite"
    whole, chance = path.read_bytes(), random.Random(tries)
    found, missed = 0, []
    for _ in range(tries):
        data, place = bytearray(whole), chance.randrange(len(whole))
        data[place] ^= 1 << chance.randrange(8)
        path.write_bytes(data)
        with record.reading() as r:
            good = len(ledger.verify(r)) == 0
        found += not good
        missed += [place] if good and everything(record) != before.everything else []
        record.close()
    print(
        f"\n{tries} bytes flipped in the file: {found} found, {tries - found} beside the record, {len(missed)} missed"
    )

    assert missed == []


def everything(record: Record) -> list:
    with record.reading() as r:
        return [*raw_entries(r), *raw_checkpoints(r), *raw_heads(r)]
