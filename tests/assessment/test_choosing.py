from random import Random

import pytest

from trainer.assessment.choosing import choose
from trainer.errors import BankError

INDUCTION = "press-brake-operator-induction"


def planned(bank, **blueprint):
    programme = bank.programmes[INDUCTION]
    return programme.model_copy(update={"blueprint": programme.blueprint.model_copy(update=blueprint)})


@pytest.mark.parametrize("seed", range(20))
def test_a_seat_is_found_for_each_competency_however_they_are_listed(bank, seed):
    # PB-S14 asks about three competencies and PB-S15 about two of them: with one and two seats there is one way to sit.
    wanted = ("stop-and-report", "back-stop-motion", "open-die-ends")
    programme = planned(bank, questions={"PB-S14": 1, "PB-S15": 2}, drills=(), must_pass=wanted)

    picks = choose(bank, programme, Random(seed), [])

    assert {pick.question.competency for pick in picks if pick.critical} >= set(wanted)
    assert len(picks) == 3


def test_without_room_for_what_must_be_passed_there_is_no_paper(bank):
    programme = planned(bank, questions={"PB-S14": 1}, drills=(), must_pass=("open-die-ends", "holding-the-work"))

    with pytest.raises(BankError, match="holding-the-work"):
        choose(bank, programme, Random(1), [])


def test_more_questions_than_there_are_cannot_be_asked(bank):
    programme = planned(bank, questions={"PB-S14": 99}, drills=(), must_pass=())

    with pytest.raises(BankError, match="PB-S14"):
        choose(bank, programme, Random(1), [])


def test_a_drill_can_be_what_must_be_passed(bank):
    programme = planned(bank, questions={"PB-S14": 1}, drills=("PB-D01",), must_pass=("mounting-distance",))

    assert len(choose(bank, programme, Random(1), [])) == 1


def test_the_question_asked_longest_ago_comes_before_the_one_asked_last(bank):
    programme = planned(bank, questions={"PB-S10": 1}, drills=(), must_pass=())
    ids = [question.id for question in bank.scenarios["PB-S10"].questions]
    past = [frozenset(ids[:3]), frozenset(ids[3:])]

    chosen = {choose(bank, programme, Random(seed), past)[0].question.id for seed in range(60)}

    assert chosen == set(ids[3:])
