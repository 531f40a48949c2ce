"""Drills to judge: one choice is right, wrong ones name their slip, and the sums say what is right."""

from fractions import Fraction
from random import Random

import pytest
from banks import shipped_bank

from trainer.assessment import judging
from trainer.assessment.answers import Answer
from trainer.assessment.feedback import feedback
from trainer.assessment.marking import mark
from trainer.assessment.paper import Sheet, SheetKind
from trainer.bank import Bank
from trainer.bank.model import JudgeDrill, RuleDrill
from trainer.units import magnitude, parse

BANK = shipped_bank()
JUDGED = [drill for drill in BANK.drills.values() if isinstance(drill, JudgeDrill)]
RULES = [drill for drill in BANK.drills.values() if isinstance(drill, RuleDrill)]


@pytest.fixture(scope="module")
def bank() -> Bank:
    return BANK


def sheet_of(drill, drawn):
    order = tuple(choice.id for choice in judging.choices(drill, drawn))
    return Sheet(
        number=1,
        kind=SheetKind.DRILL,
        item=drill.id,
        version=drill.version,
        competency=drill.competency,
        order=order,
        drawn=drawn,
    )


def draws(drill, count=60):
    rng = Random(11)
    return [judging.draw(drill, rng) for _ in range(count)]


@pytest.mark.parametrize("drill", [*JUDGED, *RULES], ids=lambda drill: drill.id)
def test_one_choice_is_right_and_no_two_are_the_same(drill, bank):
    for drawn in draws(drill):
        found = judging.choices(drill, drawn)
        assert sum(choice.right for choice in found) == 1
        assert len({choice.id for choice in found}) == len(found) >= 3
        for choice in found:
            marked = mark(bank, sheet_of(drill, drawn), Answer(item=drill.id, chosen=choice.id))
            assert marked.right is choice.right
            assert [slip.codes for slip in marked.slips] == (
                [(choice.slip,)] if choice.slip and not choice.right else []
            )


@pytest.mark.parametrize("drill", [one for one in JUDGED if one.kind == "mounted"], ids=lambda drill: drill.id)
def test_what_stands_nearer_than_the_least_distance_is_never_called_far_enough(drill):
    verdicts = set()
    for drawn in draws(drill, 150):
        stands = magnitude(parse(drawn[judging.MOUNTED], "length"), "mm")
        least = magnitude(judging.working(drill, drawn).rounded, "mm")
        right = judging.right_choice(drill, drawn)
        assert right.id.startswith("spare-") is (stands >= least)
        assert Fraction(right.id.partition("-")[2]) == abs(stands - least)
        verdicts.add(right.id.partition("-")[0])
    assert verdicts == {"spare", "short"}


@pytest.mark.parametrize("drill", [one for one in JUDGED if one.kind == "find-error"], ids=lambda drill: drill.id)
def test_the_wrong_line_is_the_first_that_differs_and_sound_working_comes_up_too(drill, bank):
    seen = set()
    for drawn in draws(drill):
        lines, right = judging.shown_working(drill, drawn).steps, judging.working(drill, drawn).steps
        differs = [number for number, pair in enumerate(zip(lines, right, strict=False), 1) if pair[0] != pair[1]]
        key = judging.right_choice(drill, drawn).id
        assert key == (f"line-{differs[0]}" if drawn[judging.SLIP] else judging.NO_LINE)
        seen.add(drawn[judging.SLIP])
        if drawn[judging.SLIP]:
            sheet = sheet_of(drill, drawn)
            answer = Answer(item=drill.id, chosen=judging.NO_LINE)
            said = feedback(bank, sheet, answer, mark(bank, sheet, answer), "en")
            assert said.slip_tell is not None
            assert said.slip_symbol in {step.symbol for step in right}
    assert seen == {*drill.slips, ""}


def test_the_rule_that_fits_is_explained_in_each_language(bank):
    for drill in RULES:
        for situation in drill.situations:
            sheet = sheet_of(drill, {"situation": situation.id})
            for name in situation.offered:
                answer = Answer(item=drill.id, chosen=name)
                marked = mark(bank, sheet, answer)
                assert marked.right is (name == situation.right)
                for language in bank.languages:
                    assert feedback(bank, sheet, answer, marked, language).why == situation.why.in_(language)
