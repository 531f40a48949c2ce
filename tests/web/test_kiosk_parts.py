"""The small parts of the kiosk: badge codes, keypad, formulas, names, sources."""

import random

import pytest

from trainer.assessment import drills
from trainer.safeguarding.result import Citation, Read
from trainer.web.kiosk import place
from trainer.web.kiosk.citing import cited
from trainer.web.kiosk.forms import clean_code, looks_like_badge, pressed
from trainer.web.kiosk.formulas import formulas
from trainer.web.kiosk.frames import short_name, zones


@pytest.mark.parametrize(
    ("read", "code"),
    [
        ("*000122521", "000122521"),
        ("000122521\n", "000122521"),
        ("\n000122521", "000122521"),
        (";000122521?", "000122521"),
        ("  A-17 ", "A-17"),
        ("0", "0"),
        ("***", ""),
        (None, ""),
    ],
)
def test_a_code_keeps_its_zeros_and_loses_what_the_reader_adds(read, code):
    assert clean_code(read) == code


@pytest.mark.parametrize("text", ["0013748911", "*000122521", "000122521\r\n", "350013748911"])
def test_eight_digits_or_more_are_a_badge(text):
    assert looks_like_badge(text)


@pytest.mark.parametrize("text", ["335", "0.19", "1,234", "15 1/2 in", "1234567", "", None, "402.20344"])
def test_what_somebody_works_out_is_no_badge(text):
    assert not looks_like_badge(text)


@pytest.mark.parametrize(
    ("typed", "key", "after"),
    [
        ("33", "5", "335"),
        ("335", "erase", "33"),
        ("", "erase", ""),
        ("335", "clear", ""),
        ("3", "x", "3"),
        ("3", "12", "3"),
        ("3", ",", "3,"),
    ],
)
def test_a_key_of_the_keypad_changes_the_box(typed, key, after):
    assert pressed(typed, key) == after


def test_a_box_takes_no_more_than_it_can_hold():
    assert len(pressed("1" * 60, "2")) == 40


@pytest.mark.parametrize("path", ["/", "/sheets", "/sittings/0a1b/12", "/standing/PB-1/operator"])
def test_a_sheet_of_the_kiosk_can_be_gone_back_to(path):
    assert place.inside(path) == path


@pytest.mark.parametrize(
    "path", [None, "", "sheets", "//x", "/desk/", "/office/", "/static/css/kiosk.css", "/a?b", "/\\x"]
)
def test_nothing_else_can(path):
    assert place.inside(path) is None


def test_the_formula_leaves_out_the_step_that_the_drill_is_about(bank):
    drill = bank.drills["PB-D02"]
    worked = drills.worked(drill, drills.draw(drill, random.Random(3)))

    assert formulas(worked) == ("D_s = K × (T_s + T_c + T_r + T_bm) + D_pf", "D_pf = 3.4 × (O_eff − 0.276 in)")


@pytest.mark.parametrize("drill", ["PB-D01", "PB-D02", "PB-D04"])
def test_every_symbol_of_a_formula_is_given_or_explained(bank, drill):
    found = bank.drills[drill]
    worked = drills.worked(found, drills.draw(found, random.Random(3)))
    lines = formulas(worked)

    assert 1 <= len(lines) <= 4
    assert lines[0].startswith(worked.steps[-1].symbol)


def test_a_person_is_named_no_further_than_needed():
    class Person:
        number = "00241"

        def __init__(self, name):
            self.name = name

    names = [short_name(Person(name)) for name in ("Dana Ruiz", "Suharto", "Nguyễn Thị Ánh")]
    assert names == ["Dana R., 00241", "Suharto, 00241", "Nguyễn Á., 00241"]


def test_the_zones_count_what_is_done_and_where_one_is():
    assert [zone.state for zone in zones(4, 3)] == ["done", "done", "here", ""]
    assert {zone.state for zone in zones(4, 5)} == {"done"}


def test_a_source_says_how_it_was_read(plant):
    second = Citation(document="ANSI B11.19", year="2003", read=Read.SECOND_HAND)
    with plant.app.test_request_context():
        plant.app.preprocess_request()
        assert cited([second]) == "ANSI B11.19 (2003), second-hand"
        assert cited([second, second]).endswith("+1")
        assert cited([Citation(document="29 CFR 1910.212", clause="(a)(1)")]) == "29 CFR 1910.212 (a)(1)"
        assert cited([]) == "common practice"


def test_words_around_a_title_are_in_the_readers_language(plant):
    items = Citation(document="OSHA letter of 18 December 1980", clause="items 3 to 7")
    with plant.app.test_request_context(headers={"Accept-Language": "es"}):
        plant.app.preprocess_request()
        assert cited([Citation(document="ISO 13857", clause="Table 4")]) == "ISO 13857 tabla 4"
        assert cited([items]) == "OSHA letter of 18 December 1980 puntos 3–7"
