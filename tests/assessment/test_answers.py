import pytest
from assessment.made import BLANKED, BLANKED_DRAW, bank_with, sheet_of

from trainer.assessment.answers import Answer, AskBack, read_answer
from trainer.assessment.paper import Sheet, SheetKind
from trainer.errors import BadQuantity, UsageError

SHEET = sheet_of(BLANKED, BLANKED_DRAW)
PICK = Sheet(
    number=1, kind=SheetKind.QUESTION, item="PB-S14/q1", version=1, competency="open-die-ends", order=("b", "a")
)


def read(bank, form):
    return read_answer(bank_with(bank, BLANKED), SHEET, form, "en")


def test_a_number_with_the_switch_beside_it(bank):
    assert read(bank, {"number": "335", "unit": "mm"}) == Answer(item="PB-D99", value="335 mm")
    assert read(bank, {"number": "15 7/8", "unit": "in"}) == Answer(item="PB-D99", value="15.875 in")


def test_a_unit_that_is_written_overrides_the_switch(bank):
    assert read(bank, {"number": "335 mm", "unit": "in"}) == Answer(item="PB-D99", value="335 mm")
    assert read(bank, {"number": '15 7/8"', "unit": "mm"}) == Answer(item="PB-D99", value="15.875 in")


def test_without_a_switch_the_drill_has_its_unit(bank):
    assert read(bank, {"number": "403"}).value == "403 mm"


def test_the_number_of_the_other_unit_is_asked_back(bank):
    asked = read(bank, {"number": "15.9", "unit": "mm"})

    assert isinstance(asked, AskBack)
    assert "15.9 in" in asked.choices
    assert read(bank, {"number": "15.9 mm", "unit": "mm"}).value == "15.9 mm"


def test_asking_back_gives_nothing_of_the_draw_away(bank):
    # The same field, whatever was drawn: what is plausible comes from the drill's range.
    drill = BLANKED.model_copy(update={"inputs": {**BLANKED.inputs, "stopping-time": BLANKED.inputs["stopping-time"]}})
    other = sheet_of(drill, {**BLANKED_DRAW, "stopping-time": "60 ms"})
    with_drill = bank_with(bank, drill)

    for number in ("50", "60", "70", "2000"):
        one = read_answer(with_drill, SHEET, {"number": number}, "en")
        two = read_answer(with_drill, other, {"number": number}, "en")
        assert one == two


@pytest.mark.parametrize("form", [{}, {"number": ""}, {"number": "  ", "unit": "mm"}])
def test_nothing_typed_is_not_answered(bank, form):
    with pytest.raises(BadQuantity):
        read(bank, form)


@pytest.mark.parametrize("unit", ["kg", "ms", "<b>", "x" * 500])
def test_a_switch_that_is_no_length_is_refused(bank, unit):
    with pytest.raises(UsageError):
        read(bank, {"number": "400", "unit": unit})


def test_an_option_that_is_on_the_sheet(bank):
    assert read_answer(bank, PICK, {"choice": "b"}, "en") == Answer(item="PB-S14/q1", chosen="b")


@pytest.mark.parametrize("form", [{}, {"choice": ""}, {"choice": "c"}, {"choice": "zz"}])
def test_an_option_that_is_not_on_the_sheet_is_refused(bank, form):
    with pytest.raises(UsageError):
        read_answer(bank, PICK, form, "en")


def test_a_lesson_takes_no_answer(bank):
    lesson = Sheet(number=1, kind=SheetKind.LESSON, item="PB-S14/l1", version=0, competency="open-die-ends")

    with pytest.raises(UsageError):
        read_answer(bank, lesson, {"choice": "a"}, "en")


@pytest.mark.parametrize("answer", [Answer(item="PB-D99", value="25/3 in"), Answer(item="PB-S14/q1", chosen="b")])
def test_an_answer_survives_storage(answer):
    assert Answer.from_data(answer.as_data()) == answer
