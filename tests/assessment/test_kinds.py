"""The nine kinds of question: what is pressed, what it is worth, what it shows, how it is looked back on."""

import json
from itertools import permutations, product
from pathlib import Path
from random import Random

import pytest
from bank.scratch import ScratchBank

from trainer.assessment.answers import Answer, AskBack, read_answer
from trainer.assessment.feedback import feedback
from trainer.assessment.lists import parts
from trainer.assessment.marking import Mark, Verdict, mark
from trainer.assessment.model_answers import right_answer, showing, shown_by
from trainer.assessment.paper import Sheet, SheetKind, question_sheet
from trainer.assessment.pressing import HOLE, Pressed, known, press, whole
from trainer.bank import Bank, archive, open_bank
from trainer.bank.model import KINDS
from trainer.errors import UsageError


@pytest.fixture(scope="module")
def bank(tmp_path_factory: pytest.TempPathFactory) -> Bank:
    folder: Path = tmp_path_factory.mktemp("kinds") / "content"
    return open_bank(ScratchBank(folder).with_kinds().folder)


def sheet_of(bank: Bank, name: str, seed: int = 1) -> Sheet:
    question = bank.questions[f"PB-S91/{name}"]
    return Sheet(number=1, **question_sheet(question, Random(seed), critical=False))


def marked(bank: Bank, name: str, **pressed: object) -> Mark:
    sheet = sheet_of(bank, name)
    return mark(bank, sheet, Answer(item=sheet.item, **pressed))


def test_the_bank_holds_each_kind(bank: Bank):
    assert {question.kind for question in bank.questions.values()} == set(KINDS)


def test_all_that_apply_and_nothing_else(bank: Bank):
    assert marked(bank, "all", given=("a", "c")).right
    for given in (("a",), ("a", "b", "c"), ("b",), ()):
        assert not marked(bank, "all", given=given).right


def test_what_is_pressed_wrongly_tells_more_than_what_is_left_out(bank: Bank):
    found = marked(bank, "all", given=("b", "c"))

    assert (found.misconception, found.others) == ("far-enough", ("quick-enough",))
    assert marked(bank, "all", given=("c",)).misconception == "quick-enough"


def test_only_one_order_is_right_and_a_mistake_in_it_is_named(bank: Bank):
    right = [given for given in permutations("abcd") if marked(bank, "order", given=given).right]

    assert right == [tuple("abcd")]
    assert marked(bank, "order", given=tuple("acbd")).misconception == "quick-enough"
    assert marked(bank, "order", given=tuple("abdc")).misconception is None


def test_steps_are_never_shown_in_the_order_that_is_asked_for(bank: Bank):
    assert all(sheet_of(bank, "order", seed).order != tuple("abcd") for seed in range(200))


def test_the_place_that_is_asked_for(bank: Bank):
    assert marked(bank, "point", chosen="a").right
    assert marked(bank, "point", chosen="c").misconception == "quick-enough"


def test_every_fault_and_nothing_that_is_in_order(bank: Bank):
    assert marked(bank, "spot", given=("a", "c")).right
    assert not marked(bank, "spot", given=("a",)).right
    assert marked(bank, "spot", given=("a", "b", "c")).misconception == "far-enough"


def test_every_partner_in_its_place(bank: Bank):
    sheet = sheet_of(bank, "match")

    right = [
        given for given in permutations(sheet.second) if mark(bank, sheet, Answer(item=sheet.item, given=given)).right
    ]

    assert right == [sheet.order]
    wrong = tuple({"a": "b", "b": "a"}.get(one, one) for one in sheet.order)
    assert mark(bank, sheet, Answer(item=sheet.item, given=wrong)).misconception == "far-enough"


def test_a_choice_is_right_only_with_its_reason(bank: Bank):
    right = [pair for pair in product("abc", "abc") if marked(bank, "reasoned", chosen=pair[0], given=(pair[1],)).right]

    assert right == [("b", "a")]
    assert marked(bank, "reasoned", chosen="b", given=("c",)).misconception == "far-enough"
    assert marked(bank, "reasoned", chosen="a", given=("b",)).others == ("quick-enough",)


def test_what_happens_next(bank: Bank):
    assert marked(bank, "next", chosen="c").right
    assert marked(bank, "next", chosen="b").misconception == "quick-enough"


def test_a_number_is_worked_out_not_looked_up(bank: Bank):
    # 63 in/s x 0.25 s = 15.75 in = 400.05 mm (29 CFR 1910.217(c)(3)(iii)(e)): up to the next millimetre.
    sheet = sheet_of(bank, "number")
    read = read_answer(bank, sheet, {"number": "401", "unit": "mm"}, "en")

    assert not isinstance(read, AskBack)
    assert mark(bank, sheet, read).right
    short = mark(bank, sheet, Answer(item=sheet.item, value="400 mm"))
    assert (short.verdict, [slip.codes for slip in short.slips]) == (Verdict.SHORT, [("rounds-down",)])
    assert feedback(bank, sheet, Answer(item=sheet.item, value="400 mm"), short, "en").worked is not None


def test_figures_in_texts_are_computed_and_written_as_the_language_does(bank: Bank):
    lesson, following = bank.lessons["PB-S91/l1"], bank.questions["PB-S91/next"]

    assert "401\u00a0mm away" in lesson.text.in_("en")
    assert following.why.in_("es") == "Haría falta 401\u00a0mm."


def test_pressing_again_takes_back(bank: Bank):
    sheet = sheet_of(bank, "all")
    question = bank.questions[sheet.item]

    once = press(question, sheet, Pressed(), "c")
    assert press(question, sheet, press(question, sheet, once, "a"), "c").given == ("a",)
    assert not whole(question, sheet, Pressed())
    assert whole(question, sheet, once)


def test_steps_are_kept_in_the_order_in_which_they_are_pressed(bank: Bank):
    sheet = sheet_of(bank, "order")
    question, held = bank.questions[sheet.item], Pressed()

    for row in ("d", "a", "b"):
        held = press(question, sheet, held, row)

    assert held.given == ("d", "a", "b")
    assert not whole(question, sheet, held)
    assert whole(question, sheet, press(question, sheet, held, "c"))


def test_partners_fill_the_first_hole(bank: Bank):
    sheet = sheet_of(bank, "match")
    question, held = bank.questions[sheet.item], Pressed()
    for ident in ("a", "b"):
        held = press(question, sheet, held, f"second:{ident}")
    assert held.given == ("a", "b", HOLE)

    held = press(question, sheet, held, "second:a")
    assert held.given == (HOLE, "b", HOLE)
    held = press(question, sheet, press(question, sheet, held, "second:c"), "second:a")
    assert held.given == ("c", "b", "a")
    assert whole(question, sheet, held)
    assert press(question, sheet, held, "second:b").given == ("c", HOLE, "a")


def test_a_choice_and_a_reason_are_pressed_apart(bank: Bank):
    sheet = sheet_of(bank, "reasoned")
    question = bank.questions[sheet.item]

    half = press(question, sheet, Pressed(), "b")
    assert half == Pressed("b", ())
    assert not whole(question, sheet, half)
    assert press(question, sheet, half, "second:a") == Pressed("b", ("a",))


@pytest.mark.parametrize("given", ["z", "a a", "a b c d e", "<b>"])
def test_what_is_not_on_the_sheet_is_refused_with_a_sentence(bank: Bank, given: str):
    with pytest.raises(UsageError, match="not one of the answers"):
        read_answer(bank, sheet_of(bank, "all"), {"given": given}, "en")


@pytest.mark.parametrize("name", ["all", "order", "point", "spot", "match", "reasoned"])
def test_a_perfect_answer_has_only_good_rows(bank: Bank, name: str):
    sheet = sheet_of(bank, name)
    question = bank.questions[sheet.item]
    answer = right_answer(question, sheet)

    assert mark(bank, sheet, answer).right
    assert known(sheet, question, answer.pressed)
    assert all(part.good for part in parts(question, sheet, answer.pressed))
    assert not all(part.good for part in parts(question, sheet, Pressed()))


@pytest.mark.parametrize("name", ["all", "order", "point", "spot", "match", "reasoned", "next"])
def test_somebody_with_one_wrong_idea_shows_just_that(bank: Bank, name: str):
    sheet = sheet_of(bank, name)
    question = bank.questions[sheet.item]

    for wrong_idea in shown_by(question):
        answer = showing(question, sheet, wrong_idea)
        assert answer is not None, wrong_idea
        assert mark(bank, sheet, answer).misconception == wrong_idea


def test_answers_marks_and_sheets_survive_being_stored(bank: Bank):
    sheet = sheet_of(bank, "reasoned")
    answer = Answer(item=sheet.item, chosen="a", given=("b",))
    found = mark(bank, sheet, answer)

    for one in (sheet, answer, found):
        assert type(one).from_data(json.loads(json.dumps(one.as_data()))) == one
    assert sheet.kind is SheetKind.QUESTION


def test_a_stored_bank_keeps_its_kinds_and_its_fingerprint(bank: Bank):
    again = archive.from_bytes(archive.to_bytes(bank))

    assert again.fingerprint == bank.fingerprint
    assert {name: type(question) for name, question in again.questions.items()} == {
        name: type(question) for name, question in bank.questions.items()
    }
