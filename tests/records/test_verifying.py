"""Any change to the record is found and named."""

import random
from dataclasses import fields, replace
from datetime import timedelta

import pytest
from records.changes import insertion
from records.site import TODAY, tamper

from trainer.records import heads, ledger, people, tree
from trainer.records.chain import START, EntryKind, Row, digest_of
from trainer.records.checkpoints import Checkpoint, checkpoint
from trainer.records.checkpoints import digest_of as checkpoint_digest
from trainer.records.rawrows import raw_entries

COLUMNS = [field.name for field in fields(Row)]


@pytest.fixture
def filled(record, clock):
    """Two people with six entries each, in turn, recorded over three days."""
    with record.writing() as w:
        keys = [people.add(w, number=number, name="Maria Garcia").key for number in ("2201", "2210")]
    for number in range(12):
        clock.advance(timedelta(hours=5))
        with record.writing() as w:
            body = {"topic": f"Talk {number}", "presenter": "x"}
            ledger.append(w, keys[number % 2], EntryKind.ATTENDED, body, happened_on=TODAY, by="office")
    return record


def found(record) -> list[tuple]:
    with record.reading() as r:
        return ledger.verify(r).rows("code", "key")


def test_a_record_that_nobody_touched_has_no_fault(filled):
    assert found(filled) == []


def test_an_empty_record_has_no_fault(record):
    assert found(record) == []


@pytest.mark.parametrize("column", [name for name in COLUMNS if name not in {"number", "seq", "person"}])
def test_one_changed_character_in_any_column_names_the_entry(filled, column):
    quoted = '"by"' if column == "by" else column
    tamper(filled, f"UPDATE entry SET {quoted} = substr({quoted}, 1, length({quoted}) - 1) || '#' WHERE number = 5")

    assert ("altered-entry", "L-5") in found(filled)


@pytest.mark.parametrize(
    "change",
    [
        "seq = 77",
        "person = (SELECT min(key) FROM person WHERE key <> entry.person), seq = 99",
        "number = 40",
        "happened_on = '2026-03-08'",
        "recorded_at = '2026-03-09T13:12:00.000001Z'",
        "kind = 'event'",
        'body = \'{"presenter": "x","topic":"Talk 4"}\'',
        "zone = 'UTC'",
    ],
)
def test_a_change_that_still_reads_well_names_the_entry(filled, change):
    tamper(filled, f"UPDATE entry SET {change} WHERE number = 5")

    assert {("altered-entry", "L-5"), ("missing-entry", "L-5")} & set(found(filled))


def test_a_removed_entry_is_named(filled):
    tamper(filled, "DELETE FROM entry WHERE number = 5")

    assert ("missing-entry", "L-5") in found(filled)


def test_a_removed_end_is_named(filled):
    tamper(filled, "DELETE FROM entry WHERE number >= 11")

    assert {("missing-entry", "L-11"), ("missing-entry", "L-12")} <= set(found(filled))


def test_a_record_that_was_emptied_is_noticed(filled):
    tamper(filled, "DELETE FROM entry")

    assert {("missing-entry", f"L-{number}") for number in range(1, 13)} <= set(found(filled))


def test_a_long_gap_is_named_once(filled, clock):
    with filled.writing() as w:
        key = people.everybody(w)[0].key
        for _ in range(60):
            ledger.append(w, key, EntryKind.ATTENDED, {"topic": "x"}, happened_on=TODAY, by="x")
    tamper(filled, "DELETE FROM entry WHERE number BETWEEN 5 AND 65")
    with filled.reading() as r:
        notes = [finding.note for finding in ledger.verify(r) if finding.code == "missing-entry"]

    assert notes == ["L-5 to L-65 were removed."]


@pytest.mark.parametrize(("one", "other"), [(5, 7), (5, 6), (1, 12)])
def test_two_rows_that_changed_places_are_both_named(filled, one, other):
    tamper(
        filled,
        f"UPDATE entry SET number = -1, seq = -1, previous = '' WHERE number = {one}",
        f"UPDATE entry SET number = {one} WHERE number = {other}",
        f"UPDATE entry SET number = {other} WHERE number = -1",
    )

    assert {("altered-entry", f"L-{one}"), ("altered-entry", f"L-{other}")} <= set(found(filled))


def test_an_entry_that_was_put_in_with_a_good_digest_is_named(filled):
    with filled.reading() as r:
        last = next(row for row in raw_entries(r) if row.number == 11)
    forged = replace(last, number=13, seq=7, previous=last.digest, body='{"topic":"Practical"}')
    insert(filled, replace(forged, digest=digest_of(forged)))

    assert ("extra-entry", "L-13") in found(filled)


def test_a_chain_that_was_hashed_anew_is_found_by_its_head_and_its_checkpoint(filled):
    with filled.reading() as r:
        chain = [row for row in raw_entries(r) if row.number % 2]
    previous, statements = None, []
    for row in chain:
        body = row.body.replace("Talk 4", "Talk 5")
        new = replace(row, body=body, previous=previous or row.previous)
        previous = digest_of(new)
        statements.append(
            f"UPDATE entry SET body = '{new.body}', previous = '{new.previous}', digest = '{previous}' "
            f"WHERE number = {row.number}"
        )
    tamper(filled, *statements)

    assert {code for code, _key in found(filled)} == {"head-mismatch", "checkpoint-mismatch"}
    assert ("head-mismatch", "L-11") in found(filled)


def test_even_with_the_head_made_to_fit_the_checkpoint_tells(filled):
    with filled.writing() as w:
        checkpoint(w)
    with filled.reading() as r:
        last = next(row for row in raw_entries(r) if row.number == 12)
    forged = replace(last, body='{"topic":"Another"}')
    digest = digest_of(forged)
    tamper(
        filled,
        f"UPDATE entry SET body = '{forged.body}', digest = '{digest}' WHERE number = 12",
        f"UPDATE head SET digest = '{digest}' WHERE digest = '{last.digest}'",
    )
    point = f"C-{newest_number(filled)}"

    assert found(filled) == [("checkpoint-mismatch", point)]


def newest_number(record) -> int:
    with record.reading() as r:
        return heads.head(r, heads.CHECKPOINTS)[0]


def test_a_removed_person_is_noticed(filled):
    with filled.reading() as r:
        key = people.everybody(r)[0].key
    tables = ("entry", "person_name", "person_role", "head")
    tamper(
        filled,
        *(f"DELETE FROM {t} WHERE {'chain' if t == 'head' else 'person'} = '{key}'" for t in tables),
        f"DELETE FROM person WHERE key = '{key}'",
    )

    codes = {code for code, _key in found(filled)}
    assert {"missing-entry", "checkpoint-mismatch"} <= codes


def test_a_person_whose_entries_alone_are_left_is_named(filled):
    with filled.reading() as r:
        key = people.everybody(r)[0].key
    tamper(filled, f"DELETE FROM person WHERE key = '{key}'")

    assert [code for code, _key in found(filled)] == ["missing-person"]


def test_a_person_all_of_whose_entries_went_is_named(filled):
    with filled.reading() as r:
        key = people.everybody(r)[0].key
    tamper(filled, f"DELETE FROM entry WHERE person = '{key}'")

    assert ("missing-person", key) in found(filled)


@pytest.mark.parametrize("column", [field.name for field in fields(Checkpoint) if field.name != "number"])
def test_a_changed_checkpoint_is_named(filled, column):
    number = column in {"entries", "chains"}
    change = f"{column} + 1" if number else f"substr({column}, 2) || '0'"
    tamper(filled, f"UPDATE checkpoint SET {column} = {change} WHERE number = 2")

    assert ("altered-checkpoint", "C-2") in found(filled)


def test_a_removed_checkpoint_is_named(filled):
    last = newest_number(filled)
    tamper(filled, "DELETE FROM checkpoint WHERE number = 2", f"DELETE FROM checkpoint WHERE number = {last}")

    assert {("missing-checkpoint", "C-2"), ("missing-checkpoint", f"C-{last}")} <= set(found(filled))


@pytest.mark.parametrize(
    ("number", "fault"), [(0, "altered-checkpoint"), (-4, "altered-checkpoint"), (10**9, "missing-checkpoint")]
)
def test_a_checkpoint_of_nothing_that_was_put_in_is_named_and_so_is_what_it_pretends(filled, number, fault):
    empty = tree.EMPTY.hex()
    forged = Checkpoint(
        number=number,
        at="2026-03-09T13:12:00.000000Z",
        entries=0,
        chains=0,
        entries_root=empty,
        heads_root=empty,
        frontier="[]",
        previous=START,
        digest="",
    )
    insert(filled, replace(forged, digest=checkpoint_digest(forged)))
    seen = found(filled)

    assert (fault, f"C-{number if number < 1 else newest_number(filled) + 1}") in seen
    assert len(seen) < 5


@pytest.mark.parametrize("change", ["seq = seq + 1", "digest = substr(digest, 2) || '0'", "seq = seq - 1"])
@pytest.mark.parametrize("chain", ["person", heads.CHECKPOINTS, heads.ENTRIES])
def test_a_changed_head_is_noticed(filled, chain, change):
    with filled.reading() as r:
        name = people.everybody(r)[0].key if chain == "person" else chain
    tamper(filled, f"UPDATE head SET {change} WHERE chain = '{name}'")

    assert found(filled) != []


@pytest.mark.parametrize("chain", ["person", heads.CHECKPOINTS, heads.ENTRIES])
def test_a_removed_head_is_noticed(filled, chain):
    with filled.reading() as r:
        name = people.everybody(r)[0].key if chain == "person" else chain
    tamper(filled, f"DELETE FROM head WHERE chain = '{name}'")

    assert found(filled) != []


def test_a_guard_that_was_taken_away_is_named(filled):
    table = " ON entry" if filled.engine.dialect.name == "postgresql" else ""
    with filled.engine.begin() as connection:
        connection.exec_driver_sql(f"DROP TRIGGER entry_no_update{table}")

    assert found(filled) == [("missing-guard", "entry_no_update")]


def test_a_clock_that_was_set_back_is_told_as_a_warning(filled, clock):
    clock.advance(timedelta(days=-9))
    with filled.writing() as w:
        ledger.append(w, people.everybody(w)[0].key, EntryKind.ATTENDED, {"topic": "x"}, happened_on=TODAY, by="x")
    with filled.reading() as r:
        report = ledger.verify(r)

    assert (report.rows("code", "key"), report.good) == ([("clock-back", "L-13")], True)


def test_text_that_is_no_text_and_numbers_that_are_none_are_named(filled):
    if filled.engine.dialect.name != "sqlite":
        pytest.skip("only SQLite keeps whatever it is given")
    tamper(
        filled,
        "UPDATE entry SET body = CAST(x'7bff7d' AS TEXT) WHERE number = 3",
        "UPDATE entry SET seq = 'two' WHERE number = 4",
        "UPDATE entry SET zone = x'00' WHERE number = 5",
        "UPDATE entry SET seq = 3.0001 WHERE number = 6",
    )

    assert {("altered-entry", f"L-{number}") for number in (3, 4, 5, 6)} <= set(found(filled))


@pytest.mark.parametrize("column", ["person", "digest", "previous", "recorded_at"])
def test_what_cannot_even_be_hashed_is_named_and_hides_nothing_else(filled, column):
    if filled.engine.dialect.name != "sqlite":
        pytest.skip("only SQLite keeps whatever it is given")
    tamper(
        filled,
        f"UPDATE entry SET {column} = CAST(x'61ff62' AS TEXT) WHERE number = 3",
        "UPDATE entry SET zone = 'UTC' WHERE number = 9",
        "UPDATE checkpoint SET entries = 9007199254740993 WHERE number = 1",
    )

    assert {("altered-entry", "L-3"), ("altered-entry", "L-9"), ("altered-checkpoint", "C-1")} <= set(found(filled))


def test_a_damaged_file_is_told_and_not_a_traceback(filled, stored):
    if filled.engine.dialect.name != "sqlite":
        pytest.skip("PostgreSQL's files are the server's")
    filled.close()
    path = stored.data / "record.sqlite"
    whole = bytearray(path.read_bytes())
    whole[4096 : 4096 * 6] = random.Random(3).randbytes(4096 * 5)
    path.write_bytes(whole)

    assert "unreadable-record" in {code for code, _key in found(filled)}


def insert(record, row: Row | Checkpoint) -> None:
    tamper(record, insertion(row))
