"""JSON lines hold everything: whoever has only the file can hash every entry again."""

import hashlib
import json

import rfc8785
from exports.made import ABOUT, DAY, person, row, standing

from trainer.exports.about import Tally, tallied
from trainer.exports.jsonfile import ledger_json, table_json
from trainer.exports.tables import authorised_table


def written(rows):
    tally = Tally({})
    return b"".join(ledger_json(tallied(rows, tally), ABOUT, tally)), tally


def test_each_line_is_canonical_and_the_first_and_last_say_what_the_file_is():
    raw, tally = written([row(), row(number=13)])
    found = [json.loads(line) for line in raw.splitlines()]

    assert raw == b"".join(rfc8785.dumps(one) + b"\n" for one in found)
    assert found[0]["about"]["made_at"] == "2026-03-09T13:12:00.000000Z"
    assert found[-1] == {"end": {"rows": 2, "check_code": tally.code}}
    assert [one["entry"]["number"] for one in found[1:-1]] == [12, 13]


def test_an_entry_can_be_hashed_again_from_its_line_alone():
    raw, _ = written([row(body={"topic": "=1+1 “Ü”", "note": "\u2028\t", "n": 2**53 - 1})])
    line = json.loads(raw.splitlines()[1])["entry"]
    digest = line.pop("digest")

    assert hashlib.sha256(rfc8785.dumps(line)).hexdigest() == digest
    assert line["body"]["topic"] == "=1+1 “Ü”"


def test_names_are_those_of_the_day_and_nobody_is_null():
    raw, _ = written([row()])
    line = json.loads(raw.splitlines()[1])

    assert line["person_then"] == line["by_then"] == {"number": "00241", "name": "Zoë O’Brien"}


def test_many_entries_come_in_pieces():
    tally = Tally({})
    pieces = list(ledger_json(tallied((row(number=n) for n in range(1, 600)), tally), ABOUT, tally))

    assert len(pieces) > 4
    assert b"".join(pieces).count(b"\n") == 601


def test_a_table_is_one_object_a_row():
    tally = Tally({})
    made = authorised_table([standing()], {"p": person()}, on=DAY).tallied(tally)
    found = [json.loads(line) for line in b"".join(table_json(made, ABOUT, tally)).splitlines()]

    assert found[1]["person number"] == "00241"
    assert found[1]["reasons"] == "Passed on 2026-03-09."
    assert found[1]["known on"] is None
    assert found[2]["end"]["rows"] == 1
