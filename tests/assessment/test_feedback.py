import pytest
from assessment.made import BLANKED, BLANKED_DRAW, NASTY, NASTY_DRAW, bank_with, made_drill, sheet_of

from trainer.assessment.answers import Answer
from trainer.assessment.feedback import TIED, feedback
from trainer.assessment.marking import Verdict, mark
from trainer.assessment.paper import Sheet, SheetKind
from trainer.errors import UsageError
from trainer.units import Q, magnitude


def told(bank, drill, drawn, value):
    with_drill, sheet, answer = bank_with(bank, drill), sheet_of(drill, drawn), Answer(item=drill.id, value=value)
    return feedback(with_drill, sheet, answer, mark(with_drill, sheet, answer), "en")


def test_a_short_answer_says_first_what_would_happen_then_what_is_needed_then_the_step(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "335 mm")

    assert str(said.headline) == "Short by 67.2 mm: the hand gets there first"
    assert str(said.told) == (
        "You set 335 mm. The hand is at the die after 152 ms. The ram stops after 194 ms. Set 403 mm or more."
    )
    assert str(said.slip_tell).startswith("You used the curtain's own object sensitivity.")
    assert (said.slip_symbol, said.slip_used) == ("O_eff", "14 mm")
    assert (said.your, said.needed) == (Q(335, "mm"), Q(403, "mm"))
    assert said.worked is not None
    assert said.worked.warnings


def test_sentences_are_messages_with_places_and_not_formatted_text(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "335 mm")

    assert said.headline.text == "Short by {gap}: the hand gets there first"
    assert dict(said.headline.values) == {"gap": "67.2 mm"}


def test_a_term_that_was_left_out_is_shown_at_the_step_that_uses_it(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "371 mm")

    assert (said.slip_symbol, said.slip_used) == ("T", "174 ms")


def test_the_symbol_is_always_a_step_of_the_working_shown(bank):
    for number in (335, 311, 356, 371, 363, 193, 342, 355, 3197, 402, 400, 265):
        said = told(bank, BLANKED, BLANKED_DRAW, f"{number} mm")
        assert said.worked is not None
        assert said.slip_symbol in {step.symbol for step in said.worked.steps}, number


def test_times_are_shown_finely_enough_to_tell_hand_from_ram(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "402 mm")

    assert "after 193.9 ms" in str(said.told)
    assert "after 194 ms" in str(said.told)


def test_a_curtain_nearer_than_its_own_depth_does_not_see_the_hand_in_time(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "80 mm")

    assert "before it is seen" in str(said.told)


def test_a_distance_that_only_a_floor_of_the_rule_forbids_is_not_said_to_hurt(bank):
    # 1600 mm/s × 300 ms = 480 mm, but never less than 500 mm: at 490 mm the ram has stopped first.
    drawn = {"stopping-time": "280 ms", "device-response": "20 ms", "detection-capability": "14 mm"}
    said = told(bank, made_drill("iso-presence-sensing", drawn), drawn, "490 mm")

    assert str(said.headline) == "Short by 10 mm: closer than the rule allows"
    assert "hand" not in str(said.told)


def test_far_says_by_how_much(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "600 mm")

    assert (said.verdict, str(said.headline)) == (Verdict.FAR, "Safe, but 197 mm beyond what is needed")


def test_right_shows_the_working_all_the_same(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "403 mm")

    assert str(said.headline) == "Far enough: the ram stops before the hand is there"
    assert (said.slip_tell, said.slip_symbol) == (None, None)
    assert said.worked is not None


def test_an_answer_in_inches_is_explained_in_inches(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "13.2 in")

    assert "Set 15 7/8 in or more" in str(said.told)
    assert said.worked is not None
    assert said.worked.unit == "inch"
    assert magnitude(said.needed, "inch") == Q("127/8", "inch").magnitude


def test_a_sum_without_a_race_tells_of_none(bank):
    said = told(bank, NASTY, NASTY_DRAW, "215 mm")

    assert str(said.headline) == "Short by 0.9 mm: not safe"
    assert str(said.told) == "You answered 215 mm. It is 215.9 mm at least, rounded up."


def test_a_tie_names_no_single_slip(bank):
    drawn = {**BLANKED_DRAW, "device-response": "25 ms"}
    said = told(bank, BLANKED, drawn, "371 mm")

    assert said.slip_tell == TIED
    assert len(said.slip_tells) == 2
    assert said.slip_symbol is None


def test_two_slips_at_once_are_both_told(bank):
    said = told(bank, BLANKED, BLANKED_DRAW, "265 mm")

    assert len(said.slip_tells) == 2


def question_sheet(bank, item):
    question = bank.questions[item]
    order = tuple(option.id for option in question.options)
    return question, Sheet(
        number=1, kind=SheetKind.QUESTION, item=item, version=1, competency=question.competency, order=order
    )


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_wrong_option_is_refuted_and_the_right_one_explained_in_the_language_asked_for(bank, language):
    question, sheet = question_sheet(bank, "PB-S14/q1")
    wrong = next(option for option in question.options if not option.right)
    answer = Answer(item=question.id, chosen=wrong.id)

    said = feedback(bank, sheet, answer, mark(bank, sheet, answer), language)

    assert said.why == question.why.in_(language)
    assert said.misconception == bank.misconceptions[wrong.misconception].tell.in_(language)
    assert said.key == question.key.text.in_(language)


def test_a_right_option_refutes_nothing(bank):
    question, sheet = question_sheet(bank, "PB-S14/q1")
    answer = Answer(item=question.id, chosen=question.key.id)

    said = feedback(bank, sheet, answer, mark(bank, sheet, answer), "en")

    assert (said.verdict, said.misconception, str(said.headline)) == (Verdict.RIGHT, "", "That is right.")


@pytest.mark.parametrize(
    ("setting", "chosen", "headline"),
    [
        ("wide-sheet", "curtain_muted", "That is right."),
        ("wide-sheet", "hand_tools", "Do not rely on it here"),
        ("key-off", "curtain_muted", "Do not rely on it here"),
        ("key-off", "none", "That is right."),
    ],
)
def test_a_safeguard_is_judged_with_the_reasons_of_the_rules(bank, setting, chosen, headline):
    drill = bank.drills["PB-D03"]
    sheet = Sheet(
        number=1,
        kind=SheetKind.DRILL,
        item=drill.id,
        version=1,
        competency=drill.competency,
        order=drill.setting(setting).offered,
        drawn={"setting": setting},
    )
    answer = Answer(item=drill.id, chosen=chosen)

    said = feedback(bank, sheet, answer, mark(bank, sheet, answer), "en")

    assert str(said.headline).startswith(headline)
    assert bool(said.reasons) is (chosen != "none")
    assert said.better


def test_a_lesson_has_no_feedback(bank):
    lesson = Sheet(number=1, kind=SheetKind.LESSON, item="PB-S14/l1", version=0, competency="open-die-ends")
    answer = Answer(item="PB-S14/l1")

    with pytest.raises(UsageError):
        feedback(bank, lesson, answer, mark(bank, *question_sheet(bank, "PB-S14/q1")[1:], answer), "en")
