import pytest
from assessment.made import BLANKED, BLANKED_DRAW, NASTY, NASTY_DRAW, bank_with, made_drill, sheet_of
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment.answers import Answer, read_answer
from trainer.assessment.feedback import feedback
from trainer.assessment.marking import Mark, Verdict, mark
from trainer.assessment.paper import Sheet, SheetKind, build_paper
from trainer.errors import UsageError
from trainer.units import Q, magnitude, parse

INDUCTION = "press-brake-operator-induction"
US = made_drill("us-presence-sensing", {"stopping-time": "120 ms"})


def marked(bank, drill, drawn, value):
    return mark(bank_with(bank, drill), sheet_of(drill, drawn), Answer(item=drill.id, value=value))


@pytest.mark.parametrize(
    ("typed", "verdict", "gap"),
    [
        ('8 1/2"', "right", None),  # N28: all of these are 215.9 mm, and 215.9 mm is needed
        ("8-1/2 in", "right", None),
        ("8.5''", "right", None),
        ("8,5 in", "right", None),
        ("215.9", "right", None),
        ("215mm", "short", "0.9 mm"),  # N30: below the least, so wrong on the unsafe side
        ("215 MM", "short", "0.9 mm"),
        ("21,5 cm", "short", "0.9 mm"),
        ("0.215 m", "short", "0.9 mm"),
        ("216", "right", None),  # N31
        ("220 mm", "right", None),
        ("2000 mm", "far", "1784.1 mm"),
    ],
)
def test_the_nasty_answers_are_marked_as_they_should_be(bank, typed, verdict, gap):
    with_drill, sheet = bank_with(bank, NASTY), sheet_of(NASTY, NASTY_DRAW)
    answer = read_answer(with_drill, sheet, {"number": typed, "unit": "mm"}, "en")

    found = mark(with_drill, sheet, answer)

    assert (found.verdict.value, found.gap) == (verdict, gap)


@pytest.mark.parametrize(
    ("value", "verdict", "gap", "needed"),
    [
        ("335 mm", Verdict.SHORT, "67.2 mm", "403 mm"),
        ("402 mm", Verdict.SHORT, "0.2 mm", "403 mm"),
        ("402.2 mm", Verdict.SHORT, "0.1 mm", "403 mm"),
        ("402.3 mm", Verdict.RIGHT, None, "403 mm"),
        ("403 mm", Verdict.RIGHT, None, "403 mm"),
        ("503 mm", Verdict.RIGHT, None, "403 mm"),
        ("504 mm", Verdict.FAR, "101 mm", "403 mm"),
        ("15.83 in", Verdict.SHORT, "0.01 in", "15 7/8 in"),
        ("15.84 in", Verdict.RIGHT, None, "15 7/8 in"),
        ("15.9 in", Verdict.RIGHT, None, "15 7/8 in"),
        ("13.2 in", Verdict.SHORT, "2.63 in", "15 7/8 in"),
    ],
)
def test_a_distance_is_short_right_or_far(bank, value, verdict, gap, needed):
    found = marked(bank, BLANKED, BLANKED_DRAW, value)

    assert (found.verdict, found.right, found.gap, found.needed) == (verdict, verdict is Verdict.RIGHT, gap, needed)


def test_a_hair_too_short_is_short_in_either_unit_and_named_as_rounding_down(bank):
    # 431.81564 mm prints as 431.8 mm, which is 17 in to the hair.
    drawn = {
        "stopping-time": "180 ms",
        "control-response": "28 ms",
        "device-response": "18 ms",
        "monitor-allowance": "29 ms",
        "object-sensitivity": "14 mm",
    }

    for value in ("431.8 mm", "17 in"):
        found = marked(bank, bank.drills["PB-D01"], drawn, value)
        assert found.verdict is Verdict.SHORT
        assert found.slips[0].codes == ("rounds-down",)


def test_where_the_rule_says_more_than_the_figure_itself_is_short(bank):
    # 63 in/s × 120 ms = 7.56 in; the regulator's rule asks for more.
    drawn = {"stopping-time": "120 ms"}

    assert marked(bank, US, drawn, "7.56 in").verdict is Verdict.SHORT
    assert marked(bank, US, drawn, "7.57 in").verdict is Verdict.RIGHT
    assert marked(bank, US, drawn, "192 mm").verdict is Verdict.SHORT
    assert marked(bank, US, drawn, "193 mm").verdict is Verdict.RIGHT


LONGEST = made_drill(
    "longest-stopping-time",
    {
        "distance": "503.82464 mm",
        "object-sensitivity": "14 mm",
        "device-response": "0 ms",
        "basis": {"one_of": ["ansi", "us"]},
    },
    unit="s",
    over="100 ms",
)


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [("0,3", "right"), ("300 ms", "right"), ("0.3 ms", "far"), ("0.31", "short"), ("0.19", "far")],
)
def test_n34_a_stopping_time_is_at_most_so_long(bank, typed, verdict):
    with_drill, sheet = bank_with(bank, LONGEST), sheet_of(LONGEST, {**LONGEST_DRAW, "basis": "ansi"})
    answer = read_answer(with_drill, sheet, {"number": typed, "unit": "s"}, "en")

    found = mark(with_drill, sheet, answer)

    assert found.verdict.value == verdict
    assert feedback(with_drill, sheet, answer, found, "en").told is not None


LONGEST_DRAW = {"distance": "503.82464 mm", "object-sensitivity": "14 mm", "device-response": "0 ms"}


def test_the_rule_that_is_drawn_decides_whether_the_figure_itself_is_allowed(bank):
    # 480.06 mm ÷ 1600.2 mm/s = 300 ms: the press rule asks for less, the consensus form for no more.
    drawn = {"distance": "480.06 mm", "object-sensitivity": "7 mm", "device-response": "0 ms"}

    assert marked(bank, LONGEST, {**drawn, "basis": "ansi"}, "300 ms").verdict is Verdict.RIGHT
    assert marked(bank, LONGEST, {**drawn, "basis": "us"}, "300 ms").verdict is Verdict.SHORT


def test_a_wrong_number_names_its_slip_and_a_right_one_has_none(bank):
    assert [slip.codes for slip in marked(bank, BLANKED, BLANKED_DRAW, "335 mm").slips] == [("nominal-sensitivity",)]
    assert marked(bank, BLANKED, BLANKED_DRAW, "404 mm").slips == ()


@settings(deadline=None)
@given(tenths=st.integers(1, 9000))
def test_nothing_below_the_exact_value_is_ever_right(tenths):
    from assessment.made import shipped

    with_drill, sheet = bank_with(shipped(), BLANKED), sheet_of(BLANKED, BLANKED_DRAW)
    value = f"{tenths / 10} mm"

    found = mark(with_drill, sheet, Answer(item="PB-D99", value=value))

    assert (found.verdict is Verdict.SHORT) == (
        magnitude(parse(value, "length"), "mm") < Q("402.20344", "mm").magnitude
    )


def test_the_right_option_is_right_and_a_wrong_one_shows_its_misconception(bank):
    question = bank.questions["PB-S14/q1"]
    sheet = Sheet(
        number=1,
        kind=SheetKind.QUESTION,
        item=question.id,
        version=question.version,
        competency=question.competency,
        order=tuple(option.id for option in question.options),
    )

    for option in question.options:
        found = mark(bank, sheet, Answer(item=question.id, chosen=option.id))
        assert found.right is option.right
        assert found.verdict is (Verdict.RIGHT if option.right else Verdict.WRONG)
        assert found.misconception == (None if option.right else option.misconception)


def test_a_safeguard_is_marked_by_the_rules(bank):
    sheet = Sheet(
        number=1,
        kind=SheetKind.DRILL,
        item="PB-D03",
        version=1,
        competency="choosing-a-safeguard",
        order=bank.drills["PB-D03"].setting("wide-sheet").offered,
        drawn={"setting": "wide-sheet"},
    )

    right = mark(bank, sheet, Answer(item="PB-D03", chosen="curtain_muted"))
    wrong = mark(bank, sheet, Answer(item="PB-D03", chosen="hand_tools"))

    assert (right.right, right.better) == (True, ())
    assert (wrong.right, wrong.misconception, wrong.better) == (False, "aid-counts", ("curtain_muted",))


@pytest.mark.parametrize("seed", range(8))
def test_a_perfect_trainee_is_right_on_every_sheet(bank, seed):
    from assessment.trainees import perfect

    for programme in bank.programmes:
        for sheet in build_paper(bank, programme, seed).marked:
            assert mark(bank, sheet, perfect(bank, sheet)).right


def test_an_answer_without_a_number_cannot_be_marked(bank):
    with pytest.raises(UsageError):
        marked(bank, BLANKED, BLANKED_DRAW, None)


def test_a_lesson_cannot_be_marked(bank):
    lesson = Sheet(number=1, kind=SheetKind.LESSON, item="PB-S14/l1", version=0, competency="open-die-ends")

    with pytest.raises(UsageError):
        mark(bank, lesson, Answer(item="PB-S14/l1"))


@pytest.mark.parametrize("value", ["335 mm", "403 mm", "2000 mm", "264.03 mm"])
def test_a_mark_survives_storage(bank, value):
    found = marked(bank, BLANKED, BLANKED_DRAW, value)

    assert Mark.from_data(found.as_data()) == found
