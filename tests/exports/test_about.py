"""One answer has one check code, in every form; another answer has another."""

import hashlib
import re

import pytest
from exports.made import row

from trainer.exports.about import SIGNS, Tally, coded, tallied


def test_a_code_is_the_first_sixty_bits_of_the_digest_in_signs_that_nobody_misreads():
    digest = hashlib.sha256(b"x").digest()
    signs = coded(digest).replace("-", "")

    number = 0
    for sign in signs:
        number = number * 32 + SIGNS.index(sign)
    assert number == int(digest.hex()[:15], 16)
    assert re.fullmatch(r"([0-9A-Z]{4}-){2}[0-9A-Z]{4}", coded(digest))
    assert set("ILOU").isdisjoint(SIGNS)
    assert coded(bytes(32)) == "0000-0000-0000"


def code(rows, **asked):
    tally = Tally(asked)
    list(tallied(rows, tally))
    return tally.code


def test_the_same_answer_has_the_same_code_and_any_other_has_another():
    rows = [row(), row(number=13)]
    codes = [
        code(rows, person="00241"),
        code(rows, person="00242"),
        code(rows),
        code(rows[:1], person="00241"),
        code(rows[::-1], person="00241"),
        code([row(), row(number=13, zone="UTC")], person="00241"),
    ]

    assert code(rows, person="00241") == codes[0]
    assert len(set(codes)) == len(codes)


def test_the_order_in_which_a_filter_is_written_does_not_matter():
    assert Tally({"on": "1", "person": "2"}).code == Tally({"person": "2", "on": "1"}).code


@pytest.mark.parametrize(("first", "second"), [(["a", "b"], ["ab"]), (["1"], [1]), ([["a"], "b"], [["a", "b"]])])
def test_rows_that_only_look_alike_have_other_codes(first, second):
    tallies = [Tally({}), Tally({})]
    for tally, answers in zip(tallies, (first, second), strict=True):
        for answer in answers:
            tally.note(answer)

    assert tallies[0].code != tallies[1].code


def test_rows_are_counted_as_they_go_by():
    tally = Tally({})
    going = tallied([row(), row(number=13)], tally)

    assert tally.rows == 0
    next(going)
    assert tally.rows == 1
    list(going)
    assert tally.rows == 2
