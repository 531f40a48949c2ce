from random import Random

import pytest
from assessment.made import BLANKED, BLANKED_DRAW, computed, made_drill, shipped
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.assessment import drills
from trainer.assessment.band import Verdict
from trainer.assessment.drills import RIGHT, Clash
from trainer.assessment.paper import draw
from trainer.errors import BankError, UsageError
from trainer.safeguarding.problems import problem
from trainer.units import Q, magnitude, round_up

STOP = {"stopping-time": {"from": "100 ms", "to": "200 ms", "step": "10 ms"}}


def test_the_worked_solution_is_the_printed_example():
    worked = drills.worked(BLANKED, BLANKED_DRAW)

    assert magnitude(worked.rounded, "mm") == 403
    assert round(float(magnitude(worked.value, "mm")), 1) == 402.2


def test_the_working_can_be_had_in_inches():
    worked = drills.worked(BLANKED, BLANKED_DRAW, "inch")

    assert magnitude(worked.rounded, "inch") == round_up(magnitude(worked.value, "inch"), Q("1/16", "inch").magnitude)


@pytest.mark.parametrize("seed", range(5))
def test_the_same_seed_draws_the_same_numbers(bank, seed):
    for drill in bank.drills.values():
        assert draw(drill, Random(seed)) == draw(drill, Random(seed))


def test_every_number_comes_from_its_range(bank):
    rng = Random(7)
    for drill in computed(bank):
        for _ in range(20):
            drawn = drills.draw(drill, rng)
            assert {key: value in drill.inputs[key].values() for key, value in drawn.items()} == dict.fromkeys(
                drill.inputs, True
            )


@settings(deadline=None)
@given(seed=st.integers(0, 2**32))
def test_a_slip_never_equals_the_right_answer_where_a_drill_may_draw_it(seed):
    for drill in computed(shipped()):
        drawn = drills.draw(drill, Random(seed))
        accepted, sum_ = drills.band_of(drill, drawn), problem(drill.problem)
        numbers = drills.given(drill, drawn).numbers
        for code in drill.slips:
            figure = sum_.figure(numbers, (code,), unit=drill.unit)
            if figure is not None and figure != sum_.figure(numbers, unit=drill.unit):
                assert accepted.verdict(figure.value) is not Verdict.RIGHT
                assert accepted.verdict(figure.rounded) is not Verdict.RIGHT


def test_a_slip_inside_what_is_accepted_refuses_the_draw():
    drill = BLANKED.model_copy(update={"slips": ("control-twice",)})  # 40 mm more than needed, which is still right

    assert list(drills.clashes(drill, BLANKED_DRAW)) == [Clash("control-twice", RIGHT)]


def test_two_slips_that_come_to_the_same_refuse_the_draw():
    equal = {**BLANKED_DRAW, "device-response": "25 ms"}  # as long as the control takes

    assert Clash("leaves-out-device", "leaves-out-control") in drills.clashes(BLANKED, equal)


def test_a_draw_that_the_problem_does_not_take_is_refused():
    assert drills.refused(BLANKED, {**BLANKED_DRAW, "stopping-time": "0 ms"})
    assert drills.refused(BLANKED, {**BLANKED_DRAW, "object-sensitivity": "90 mm"})  # no figure: it sees no hand


def test_a_drill_without_a_draw_that_can_be_asked_says_so():
    hopeless = made_drill("us-presence-sensing", STOP, ("speed-60",), over="10 mm").model_copy(
        update={"slips": ("speed-2000",), "over": "300 mm"}
    )

    with pytest.raises(BankError, match="PB-D99 gives no numbers"):
        drills.draw(hopeless, Random(1))


def test_what_asks_for_no_number_has_no_working(bank):
    with pytest.raises(UsageError):
        drills.worked(bank.drills["PB-D03"], {"setting": "wide-sheet"})


def test_what_is_plausible_spans_the_whole_range():
    low, high = drills.plausible(made_drill("us-presence-sensing", STOP))

    assert magnitude(low, "mm") == pytest.approx(160.02 / 5)
    assert magnitude(high, "mm") == pytest.approx(320.04 * 5)


def test_a_sweep_visits_every_draw_once():
    drill = made_drill("us-presence-sensing", STOP)

    assert drills.size(drill) == 11
    assert [drawn["stopping-time"] for drawn in drills.sweep(drill)] == [f"{n} ms" for n in range(100, 201, 10)]
