"""A refresher with a stopping rule ends as soon as enough is known, and never before what is critical was asked."""

from random import Random

import pytest
from banks import shipped_bank
from pydantic import ValidationError

from trainer.assessment.ending import decided, must_be_asked, plan_for
from trainer.assessment.marking import Mark, Verdict
from trainer.assessment.paper import build_paper
from trainer.assessment.result import result
from trainer.assessment.sequential import Decision
from trainer.bank import Bank
from trainer.bank.model import Programme, StopRule

REFRESHER = "press-brake-operator-refresher"
RULE = StopRule(low=0.5, high=0.9, false_pass=0.05, false_fail=0.1)


@pytest.fixture(scope="module")
def bank() -> Bank:
    bank = shipped_bank()
    programme = bank.programmes[REFRESHER].model_copy(update={"stops": RULE})
    return bank.model_copy(update={"programmes": {**bank.programmes, REFRESHER: programme}})


def marks(paper, pattern):
    """Mark the first sheets of a paper right or wrong as a pattern of 1 and 0 says."""
    return [
        Mark(
            item=sheet.item,
            competency=sheet.competency,
            verdict=Verdict.RIGHT if one == "1" else Verdict.WRONG,
            right=one == "1",
        )
        for sheet, one in zip(paper.marked, pattern, strict=False)
    ]


def test_what_must_be_asked_comes_first_and_no_pass_comes_before_it(bank):
    for seed in range(20):
        paper = build_paper(bank, REFRESHER, seed)
        asked = [must_be_asked(sheet) for sheet in paper.marked]
        assert asked == sorted(asked, reverse=True)
        plan = plan_for(bank.programmes[REFRESHER], paper)
        assert plan.least == sum(asked) < plan.most
        for count in range(plan.least):
            assert decided(bank.programmes[REFRESHER], paper, marks(paper, "1" * count)) is Decision.GO_ON


def test_a_run_of_right_answers_passes_early_and_only_what_was_asked_counts(bank):
    paper = build_paper(bank, REFRESHER, 3)
    plan = plan_for(bank.programmes[REFRESHER], paper)
    given = marks(paper, "1" * plan.least)

    found = result(bank, paper, given)

    assert found.passed
    assert found.ended_early
    assert (found.right, found.out_of) == (plan.least, plan.least)
    assert sum(asked for _right, asked in found.by_competency.values()) == plan.least


def test_a_run_of_wrong_answers_fails_early(bank):
    paper = build_paper(bank, REFRESHER, 3)
    programme = bank.programmes[REFRESHER]
    count = plan_for(programme, paper).first_fail
    given = marks(paper, "0" * count)

    assert decided(programme, paper, given) is Decision.FAILED
    assert decided(programme, paper, given[:-1]) is Decision.GO_ON
    found = result(bank, paper, given)
    assert not found.passed
    assert (found.right, found.out_of, found.ended_early) == (0, count, True)


def test_a_critical_miss_never_passes_however_many_are_right(bank):
    paper = build_paper(bank, REFRESHER, 3)
    first = next(place for place, sheet in enumerate(paper.marked) if sheet.critical)
    pattern = ["1"] * len(paper.marked)
    pattern[first] = "0"

    assert not result(bank, paper, marks(paper, pattern)).passed


def test_an_answer_beyond_an_open_sheet_does_not_count_yet(bank):
    paper = build_paper(bank, REFRESHER, 3)
    given = marks(paper, "1" * len(paper.marked))[1:]

    assert decided(bank.programmes[REFRESHER], paper, given) is Decision.GO_ON


def test_without_a_rule_the_whole_paper_is_asked(bank):
    plain = bank.model_copy(
        update={
            "programmes": {**bank.programmes, REFRESHER: bank.programmes[REFRESHER].model_copy(update={"stops": None})}
        }
    )
    paper = build_paper(plain, REFRESHER, 3)

    assert decided(plain.programmes[REFRESHER], paper, marks(paper, "1" * 12)) is Decision.GO_ON


@pytest.mark.parametrize("chance", [RULE.low, RULE.high])
def test_the_true_error_rates_come_out_of_real_papers(bank, chance):
    paper = build_paper(bank, REFRESHER, 5)
    programme = bank.programmes[REFRESHER]
    rng, passed, tries = Random(17), 0, 4_000
    for _ in range(tries):
        pattern = ["1" if rng.random() < chance else "0" for _ in paper.marked]
        for count in range(1, len(pattern) + 1):
            decision = decided(programme, paper, marks(paper, pattern[:count]))
            if decision is not Decision.GO_ON:
                break
        passed += decision is Decision.PASSED
    exact = plan_for(programme, paper).course(chance).passed
    assert abs(passed / tries - exact) < 4 * (exact * (1 - exact) / tries) ** 0.5 + 1e-9


def test_only_a_refresher_may_stop_early_and_the_chances_lie_apart(bank):
    induction = bank.programmes["press-brake-operator-induction"].model_dump()
    with pytest.raises(ValidationError, match="only a refresher"):
        Programme.model_validate({**induction, "stops": RULE.model_dump()})
    with pytest.raises(ValidationError, match="low has to be below high"):
        StopRule(low=0.9, high=0.9, false_pass=0.05, false_fail=0.1)
