"""Slips: each acts, none is the right answer, and two can be made at once."""

import random
import re
from functools import cache
from itertools import islice, product

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from safeguarding.strategies import inputs
from safeguarding.test_straight_line import GRIDS, fits, points, quantity

from trainer.errors import Missing, UsageError
from trainer.safeguarding.problems import PROBLEMS, problem
from trainer.safeguarding.slips import Slip, becomes, together
from trainer.units import Q

ALL = [(name, slip.code) for name, asked in PROBLEMS.items() for slip in asked.slips]
MORE = {  # inputs that the grids do not hold and some slips need
    "iso-interlocked-guard": [{"stopping-time": Q(300, "ms"), "device-response": Q(20, "ms"), "intrusion": Q(120, "mm"),
                               "opening-credit": Q(50, "ms")}],
    "us-presence-sensing": [{"stopping-time": Q(20, "s") / 63}],
    "us-two-hand-trip": [{"strokes-per-minute": Q("60.0075", "1/minute"), "engaging-points": 2}],
    "press-table-presence-sensing": [{"stopping-time": Q("100.3", "ms"), "device-response": Q(0, "ms"),
                                      "detection-capability": Q(30, "mm")}],
    "us-two-hand-control": [{"stopping-time": Q(20, "s") / 63}],
    "ansi-presence-sensing": [{"stopping-time": Q(120, "ms"), "control-response": Q(25, "ms"),
                               "device-response": Q(20, "ms"), "monitor-allowance": Q(29, "ms"),
                               "object-sensitivity": Q(30, "mm"), "beams-blanked": 2, "beam-pitch": Q(20, "mm"),
                               "unverified": "yes"}],
}  # fmt: skip


@cache
def samples(name: str) -> tuple:
    """A spread of inputs of a problem, as numbers: those above and some of each of its grids."""
    asked = PROBLEMS[name]
    fields = {field.key: field for field in asked.fields}
    drawn = list(MORE.get(name, []))
    for row, (_, _, grid) in GRIDS.items():
        if row.partition(",")[0] == name:
            rows = [point for point in points(grid) if fits(row, point)]
            rows = random.Random(row).sample(rows, min(len(rows), 150))
            drawn.extend({key: quantity(fields[key], value) for key, value in point.items()} for point in rows)
    return tuple(asked.numbers(values) for values in drawn)


@pytest.mark.parametrize(("name", "code"), ALL, ids=[f"{name} {code}" for name, code in ALL])
def test_each_slip_leads_to_a_wrong_figure_somewhere(name, code):
    asked = PROBLEMS[name]

    def differs(numbers) -> bool:
        right, slipped = asked.figure(numbers), asked.figure(numbers, (code,))
        if right is None or slipped is None:
            return False
        return slipped != right or _word(asked, numbers, (code,)) != _word(asked, numbers, ())

    assert any(differs(numbers) for numbers in samples(name))


def _word(asked, numbers, codes):
    from trainer.safeguarding.working import Working

    working = Working(together(tuple(asked.slip(code) for code in codes)))
    asked.sum(working, numbers)
    return working.word


def test_the_first_problems_have_at_least_ten_slips_and_every_problem_has_some():
    for name in ("us-presence-sensing", "ansi-presence-sensing", "iso-presence-sensing"):
        assert len(PROBLEMS[name].slips) >= 10, name
    assert all(asked.slips for asked in PROBLEMS.values())


@pytest.mark.parametrize("name", list(PROBLEMS))
def test_slips_are_told_plainly(name):
    for slip in PROBLEMS[name].slips:
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", slip.code)
        assert slip.title[0].isupper()
        assert not slip.title.endswith(".")
        assert slip.tell.endswith(".")
        assert max(len(sentence.split()) for sentence in re.split(r"(?<=[.:]) ", slip.tell)) <= 20, slip.tell
        assert not re.search(r"\b(great|well done|sorry|oops)\b", slip.tell, re.IGNORECASE)
    codes = [slip.code for slip in PROBLEMS[name].slips]
    assert len(codes) == len(set(codes))


DRILL = {
    "stopping-time": st.integers(18, 38).map(lambda n: Q(5 * n, "ms")),
    "control-response": st.integers(2, 6).map(lambda n: Q(5 * n, "ms")),
    "device-response": st.integers(2, 6).map(lambda n: Q(5 * n, "ms")),
    "monitor-allowance": st.integers(2, 8).map(lambda n: Q(5 * n, "ms")),
}


@given(
    values=st.fixed_dictionaries(
        {
            **DRILL,
            "object-sensitivity": st.sampled_from([Q(size, "mm") for size in (14, 20, 25, 30)]),
            "beams-blanked": st.integers(0, 1),
            "beam-pitch": st.just(Q(10, "mm")),
        }
    )
)
@settings(max_examples=150, deadline=None)
def test_a_slip_never_equals_the_right_answer_where_a_drill_may_draw_it(values):
    asked = problem("ansi-presence-sensing")
    numbers = asked.numbers(values)
    right = asked.figure(numbers)

    for slip in asked.slips:
        slipped = asked.figure(numbers, (slip.code,))
        assert slipped is None or slipped.value != right.value, slip.code


@pytest.mark.parametrize("name", ["ansi-presence-sensing", "iso-presence-sensing", "us-presence-sensing"])
def test_two_slips_at_once_are_both_made(name):
    asked = PROBLEMS[name]
    numbers = samples(name)[-1]
    alone = {slip.code: asked.figure(numbers, (slip.code,)) for slip in asked.slips}
    acting = [code for code, figure in alone.items() if figure is not None]

    for first, second in islice(product(acting, acting), 0, None, 3):
        both = asked.figure(numbers, (first, second))
        slips = [asked.slip(first), asked.slip(second)]
        if first != second and not set(slips[0].changes) & set(slips[1].changes):
            assert both == asked.figure(numbers, (second, first))


@pytest.mark.parametrize("name", list(PROBLEMS))
@given(data=st.data())
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
def test_no_slip_breaks_down_and_both_ways_to_make_it_agree(name, data):
    asked = PROBLEMS[name]
    try:
        values = asked.read(data.draw(inputs(asked)))
    except UsageError:
        assume(condition=False)
    numbers = asked.numbers(values)

    for slip in asked.slips:
        bare, written = asked.figure(numbers, (slip.code,)), asked.wrong(values, slip.code)
        assert (bare is None) == (written is None)
        assert bare is None or bare.value == written.value.magnitude


def test_two_terms_left_out_give_the_sum_without_both():
    asked = problem("ansi-presence-sensing")
    numbers = asked.numbers(
        {"stopping-time": Q(120, "ms"), "control-response": Q(25, "ms"), "device-response": Q(20, "ms"),
         "monitor-allowance": Q(29, "ms"), "object-sensitivity": Q(30, "mm")}
    )  # fmt: skip

    both = asked.figure(numbers, ("leaves-out-monitor", "leaves-out-penetration"))

    assert both == asked.figure(numbers, ("leaves-out-monitor-and-penetration",))


def test_where_two_changes_meet_the_later_acts_on_the_earlier():
    def slip(code, change):
        return Slip(code=code, title="", tell="", symbol="", changes={"T": change})

    merged = together((slip("a", becomes(3)), slip("b", lambda value, _seen: value + 1)))

    assert merged["T"](0, {}) == 4


def test_a_slip_that_changes_nothing_here_leads_nowhere():
    asked = problem("ansi-presence-sensing")
    values = {
        "stopping-time": Q(120, "ms"), "control-response": Q(0, "ms"), "device-response": Q(20, "ms"),
        "monitor-allowance": Q(29, "ms"), "object-sensitivity": Q(14, "mm"),
    }  # fmt: skip

    assert asked.wrong(values, "leaves-out-control") is None
    assert asked.wrong(values, "nominal-sensitivity") is None


def test_a_wrong_working_shows_where_it_goes_wrong():
    asked = problem("ansi-presence-sensing")
    values = {
        "stopping-time": Q(120, "ms"), "control-response": Q(25, "ms"), "device-response": Q(20, "ms"),
        "monitor-allowance": Q(29, "ms"), "object-sensitivity": Q(14, "mm"),
    }  # fmt: skip
    right, slipped = asked.solve(values), asked.wrong(values, "leaves-out-penetration")

    first = next(step for step, other in zip(slipped.steps, right.steps, strict=True) if step.value != other.value)
    assert first.symbol == asked.slip("leaves-out-penetration").symbol


def test_an_unknown_slip_is_told_with_those_that_there_are():
    with pytest.raises(Missing, match="nominal-sensitivity"):
        problem("effective-object-sensitivity").slip("nothing")
