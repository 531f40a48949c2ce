import json
from itertools import pairwise

import pytest

from trainer.assessment.paper import NOTHING_FITS, Paper, SheetKind, build_paper, changed_since
from trainer.bank.model import PickOne, SelectDrill
from trainer.errors import Missing, UsageError

INDUCTION = "press-brake-operator-induction"


@pytest.mark.parametrize("seed", range(10))
def test_the_same_seed_gives_the_identical_paper(bank, seed):
    for programme in bank.programmes:
        assert build_paper(bank, programme, seed) == build_paper(bank, programme, seed)


def test_another_seed_gives_another_paper(bank):
    asked = {build_paper(bank, INDUCTION, seed).asked for seed in range(50)}

    assert len(asked) == 50


def test_lessons_come_first_scenario_by_scenario(bank):
    paper = build_paper(bank, INDUCTION, 1)
    lessons = [sheet.item for sheet in paper.sheets if sheet.kind is SheetKind.LESSON]

    assert [sheet.kind for sheet in paper.sheets[: len(lessons)]] == [SheetKind.LESSON] * len(lessons)
    assert lessons == [
        lesson.id for name in bank.programmes[INDUCTION].scenarios for lesson in bank.scenarios[name].lessons
    ]


def test_sheets_are_numbered_from_one(bank):
    paper = build_paper(bank, INDUCTION, 1)

    assert [sheet.number for sheet in paper.sheets] == list(range(1, len(paper.sheets) + 1))
    assert paper.sheet(3) is paper.sheets[2]
    with pytest.raises(UsageError):
        paper.sheet(0)
    with pytest.raises(UsageError):
        paper.sheet(len(paper.sheets) + 1)


@pytest.mark.parametrize("seed", range(40))
def test_what_must_be_passed_is_always_in_and_critical(bank, seed):
    for programme in bank.programmes.values():
        paper = build_paper(bank, programme.id, seed)
        critical = {sheet.competency for sheet in paper.marked if sheet.critical}

        assert set(programme.blueprint.must_pass) <= critical


@pytest.mark.parametrize("seed", range(10))
def test_each_scenario_has_its_share_and_each_drill_is_in(bank, seed):
    for programme in bank.programmes.values():
        paper = build_paper(bank, programme.id, seed)
        questions = [sheet for sheet in paper.marked if sheet.kind is SheetKind.QUESTION]
        of_scenario = {
            name: sum(bank.questions[sheet.item].scenario == name for sheet in questions)
            for name in programme.blueprint.questions
        }

        assert of_scenario == dict(programme.blueprint.questions)
        assert len(paper.items) == len(paper.marked)
        assert set(programme.blueprint.drills) <= paper.items


def test_nobody_gets_the_same_paper_twice_in_a_row_over_200_seeds(bank):
    for programme in bank.programmes:
        history = []
        for seed in range(200 if programme == INDUCTION else 30):
            history.insert(0, build_paper(bank, programme, seed, recent=[paper.items for paper in history[:3]]))

        assert all(one.items != other.items for one, other in pairwise(history))


def test_even_the_same_seed_gives_another_paper_the_next_time(bank):
    first = build_paper(bank, INDUCTION, 7)
    second = build_paper(bank, INDUCTION, 7, recent=[first.asked])

    assert second.items != first.items
    assert second.asked != first.asked


def test_where_nothing_else_can_be_asked_the_numbers_differ(bank):
    only_drills = bank.programmes[INDUCTION].model_copy(
        update={
            "id": "drills",
            "blueprint": bank.programmes[INDUCTION].blueprint.model_copy(
                update={"questions": {}, "must_pass": (), "drills": ("PB-D01",)}
            ),
        }
    )
    narrow = bank.model_copy(update={"programmes": {**bank.programmes, "drills": only_drills}})
    first = build_paper(narrow, "drills", 3)
    second = build_paper(narrow, "drills", 3, recent=[first.asked])

    assert first.items == second.items == {"PB-D01"}
    assert first.asked != second.asked


def test_a_question_is_not_asked_again_while_there_is_another(bank):
    # Without the question that has to be in, each seat goes to what was not asked in the last three papers.
    history = []
    for seed in range(3):
        history.insert(0, build_paper(bank, "press-brake-operator-refresher", seed, recent=[p.items for p in history]))
    questions = [frozenset(item for item in paper.items if "/" in item) for paper in history]

    assert not questions[0] & questions[1]


def test_options_are_shuffled_and_none_of_these_stands_last(bank):
    orders, lasts = set(), set()
    for seed in range(200):
        for sheet in build_paper(bank, INDUCTION, seed).marked:
            item = bank.item(sheet.item)
            if isinstance(item, SelectDrill):
                assert sorted(sheet.order) == sorted(item.setting(sheet.drawn["setting"]).offered)
                lasts.add(sheet.order[-1] if NOTHING_FITS in sheet.order else NOTHING_FITS)
            elif sheet.kind is SheetKind.QUESTION:
                assert sorted(sheet.order) == sorted(option.id for option in item.options)
                orders.add(sheet.order)

    assert len(orders) > 12
    assert lasts == {NOTHING_FITS}


def test_the_key_stands_in_each_place_about_as_often(bank):
    places = [0, 0, 0, 0]
    for seed in range(100):
        for sheet in build_paper(bank, INDUCTION, seed).marked:
            question = bank.questions.get(sheet.item)
            if isinstance(question, PickOne) and len(sheet.order) == 4:
                places[sheet.order.index(question.key.id)] += 1

    assert min(places) > 0.2 * sum(places)


def test_a_paper_survives_storage_as_json(bank):
    paper = build_paper(bank, INDUCTION, 11)

    stored = json.loads(json.dumps(paper.as_data()))

    assert Paper.from_data(stored) == paper
    assert Paper.from_data(stored).as_data() == paper.as_data()


def test_a_paper_carries_the_edition_and_fingerprint_it_was_drawn_from(bank):
    paper = build_paper(bank, INDUCTION, 11)

    assert (paper.edition, paper.fingerprint, paper.seed) == (bank.edition, bank.fingerprint, 11)


@pytest.mark.parametrize("data", [{}, {"programme": "x"}, {"sheets": 3}])
def test_what_is_no_paper_is_refused(data):
    with pytest.raises(UsageError):
        Paper.from_data(data)


def test_items_that_have_changed_since_are_named(bank):
    paper = build_paper(bank, INDUCTION, 11)
    item = bank.drills["PB-D01"]
    newer = bank.model_copy(
        update={"drills": {**bank.drills, "PB-D01": item.model_copy(update={"version": item.version + 1})}}
    )
    without = bank.model_copy(update={"drills": {k: v for k, v in bank.drills.items() if k != "PB-D02"}})

    assert changed_since(bank, paper) == ()
    assert changed_since(newer, paper) == ("PB-D01",)
    assert changed_since(without, paper) == ("PB-D02",)


def test_an_unknown_programme_is_missing(bank):
    with pytest.raises(Missing):
        build_paper(bank, "no-such-programme", 1)
