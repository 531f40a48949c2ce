"""One answer, several forms: each holds the same rows and carries the same code."""

import pytest
from exports.made import ABOUT, DAY, person, row, standing

from trainer.exports.about import Tally
from trainer.exports.files import TYPES, Form, ledger_file, table_file
from trainer.exports.tables import authorised_table

TABLES = (Form.CSV, Form.XLSX, Form.JSON)


def first(pieces):
    return b"".join(pieces)[:4]


@pytest.mark.parametrize("form", TABLES)
def test_each_form_begins_as_its_kind_does(form):
    begins = {Form.CSV: "\ufeffe".encode(), Form.XLSX: b"PK\x03\x04", Form.JSON: b'{"ab'}

    assert first(ledger_file(form, [row()], ABOUT, Tally({}))) == begins[form]


def test_every_form_of_an_answer_carries_the_same_code():
    ledgers, lists = set(), set()
    for form in TABLES:
        tallies = [Tally({"person": "00241"}), Tally({"on": "2026-03-09"})]
        list(ledger_file(form, [row(), row(number=13)], ABOUT, tallies[0]))
        list(table_file(form, authorised_table([standing()], {"p": person()}, on=DAY), ABOUT, tallies[1]))
        ledgers.add((tallies[0].rows, tallies[0].code))
        lists.add((tallies[1].rows, tallies[1].code))

    assert len(ledgers) == len(lists) == 1
    assert {count for count, _ in ledgers | lists} == {1, 2}


def test_every_form_has_a_type():
    assert set(TYPES) == set(Form)
