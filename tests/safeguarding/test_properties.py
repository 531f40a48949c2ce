"""What must hold for any inputs: nothing that makes a machine worse ever shortens a distance."""

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from safeguarding.strategies import inputs

from trainer.errors import UsageError
from trainer.safeguarding.problems import PROBLEMS
from trainer.safeguarding.result import Sense
from trainer.safeguarding.rounding import GRIDS
from trainer.units import BASE, Q, magnitude

DISTANCES = [name for name, asked in PROBLEMS.items() if asked.answer.dimension == "length"]
TIMED = [name for name in DISTANCES if any(field.key == "stopping-time" for field in PROBLEMS[name].fields)]
SIZED = ["ansi-presence-sensing", "iso-presence-sensing", "press-table-presence-sensing", "iso-parallel-field"]
BLANKED = ["ansi-presence-sensing", "iso-presence-sensing", "effective-object-sensitivity"]
quick = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def read(name: str, texts: dict[str, str]):
    try:
        return PROBLEMS[name].read(texts)
    except UsageError:
        assume(condition=False)


def figure(name: str, values):
    asked = PROBLEMS[name]
    return asked.figure(asked.numbers(values))


def drawn(data, name: str):
    return read(name, data.draw(inputs(PROBLEMS[name])))


@pytest.mark.parametrize("name", TIMED)
@given(data=st.data(), more=st.integers(1, 300))
@quick
def test_more_stopping_time_never_shortens_a_distance(name, data, more):
    values = drawn(data, name)
    slower = {**values, "stopping-time": values["stopping-time"] + Q(more, "ms")}
    before, after = figure(name, values), figure(name, slower)

    assert (before is None) == (after is None)
    assert before is None or after.value >= before.value
    assert before is None or after.rounded >= before.rounded


@pytest.mark.parametrize("name", SIZED)
@given(data=st.data(), coarser=st.integers(1, 60))
@quick
def test_a_coarser_field_never_shortens_a_distance(name, data, coarser):
    key = "object-sensitivity" if name.startswith("ansi") else "detection-capability"
    values = drawn(data, name)
    before = figure(name, values)
    after = figure(name, {**values, key: values[key] + Q(coarser, "mm")})

    assert after is None or (before is not None and after.value >= before.value)


@pytest.mark.parametrize("name", BLANKED)
@given(data=st.data())
@quick
def test_more_beams_blanked_never_shorten_a_distance(name, data):
    values = {"beam-pitch": Q(10, "mm"), "beams-blanked": 0, **drawn(data, name)}
    results = [figure(name, {**values, "beams-blanked": count}) for count in range(6)]
    given_ = [result.value for result in results if result is not None]

    assert given_ == sorted(given_)
    assert results[len(given_) :] == [None] * (len(results) - len(given_))


@pytest.mark.parametrize("name", list(PROBLEMS))
@given(data=st.data())
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
def test_inches_and_millimetres_milliseconds_and_seconds_agree(name, data):
    values = drawn(data, name)
    other = {"length": "inch", "time": "s", "speed": "inch/s", "angle": "degree"}
    fields = {field.key: field for field in PROBLEMS[name].fields}

    def restated(key, value):
        dimension = fields[key].dimension
        if dimension == "list":
            return tuple(Q(magnitude(part, "s"), "s") for part in value)
        return Q(magnitude(value, other[dimension]), other[dimension]) if dimension in other else value

    assert figure(name, values) == figure(name, {key: restated(key, value) for key, value in values.items()})


@pytest.mark.parametrize("name", list(PROBLEMS))
@given(data=st.data())
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
def test_the_written_and_the_bare_run_agree_and_rounding_stays_on_the_safe_side(name, data):
    asked = PROBLEMS[name]
    values = drawn(data, name)
    worked, bare = asked.solve(values), figure(name, values)

    assert (worked.value is None) == (bare is None)
    if bare is None:
        assert str(worked.refusal)
        return
    exact, rounded = worked.value.magnitude, worked.rounded.magnitude
    assert (exact, rounded) == (bare.value, bare.rounded)
    step = worked.grid[worked.unit]
    assert rounded % step == 0
    assert {
        Sense.AT_LEAST: exact <= rounded < exact + step,
        Sense.MORE_THAN: exact < rounded <= exact + step,
        Sense.AT_MOST: exact - step < rounded <= exact,
        Sense.LESS_THAN: exact - step <= rounded < exact,
        Sense.VALUE: exact <= rounded < exact + step,
    }[worked.sense]


@given(
    mm=st.integers(60, 1400), size=st.integers(7, 63), device=st.integers(0, 40), basis=st.sampled_from(["ansi", "iso"])
)
@quick
def test_the_longest_stopping_time_goes_back_to_the_distance_it_came_from(mm, size, device, basis):
    asked = PROBLEMS["longest-stopping-time"]
    values = {"distance": Q(mm, "mm"), "object-sensitivity": Q(size, "mm"), "device-response": Q(device, "ms")}
    left = asked.figure(asked.numbers({**values, "basis": basis}))
    assume(left is not None and left.rounded > 0)

    def distance(time: Fraction):
        common = {"stopping-time": Q(time, "ms"), "device-response": Q(device, "ms")}
        if basis == "iso":
            return figure("iso-presence-sensing", {**common, "detection-capability": Q(size, "mm")})
        nothing = Q(0, "ms")
        return figure(
            "ansi-presence-sensing",
            {**common, "object-sensitivity": Q(size, "mm"), "control-response": nothing, "monitor-allowance": nothing},
        )

    assert distance(left.rounded).value <= mm
    assert distance(left.value + Fraction(1, 1000)).value > mm or mm < 100


@given(first=st.integers(1, 3150), second=st.integers(1, 3150))
@quick
def test_a_nearer_opening_is_never_allowed_to_be_larger(first, second):
    near, far = (
        figure("us-guard-opening", {"distance": Q(Fraction(hundredths, 100), "inch")})
        for hundredths in sorted((first, second))
    )

    assert near is None or far is None or near.value <= far.value


@given(hundredths=st.integers(1, 212))
@quick
def test_an_opening_fits_at_the_distance_that_it_is_given(hundredths):
    opening = Q(Fraction(hundredths, 100), "inch")
    distance = figure("us-guard-opening", {"opening": opening}).rounded
    allowed = figure("us-guard-opening", {"distance": Q(distance, "mm")}).value

    assert allowed >= magnitude(opening, "mm")


@pytest.mark.parametrize("shape", ["slot", "square", "round"])
@given(first=st.integers(1, 240), second=st.integers(1, 240))
@quick
def test_a_larger_opening_never_needs_less_distance(shape, first, second):
    small, large = (
        figure("iso-guard-opening", {"shape": shape, "opening": Q(Fraction(half, 2), "mm")})
        for half in sorted((first, second))
    )

    assert small.value <= large.value


@pytest.mark.parametrize("name", ["barrier-reach-over", "iso-presence-sensing"])
@given(a=st.integers(0, 2800), b=st.integers(1000, 2800), more=st.integers(0, 400))
@quick
def test_a_higher_edge_never_needs_more_distance(name, a, b, more):
    def reach(edge: int):
        if name == "barrier-reach-over":
            heights = {"hazard-height": Q(a, "mm"), "barrier-height": Q(edge, "mm"), "unverified": "yes"}
        else:
            heights = {"hazard-height": Q(a, "mm"), "upper-edge-height": Q(edge, "mm"),
                       "stopping-time": Q(100, "ms"), "device-response": Q(0, "ms"),
                       "detection-capability": Q(14, "mm")}  # fmt: skip
        return figure(name, heights).value

    assert reach(b + more) <= reach(b)


def test_every_grid_is_of_one_dimension():
    for dimension, steps in GRIDS.values():
        for unit in steps:
            assert magnitude(Q(1, unit), BASE[dimension]) > 0


def test_no_float_artefact_comes_out():
    assert Q("8.5", "inch") == Q("215.9", "mm")
    worked = PROBLEMS["iso-presence-sensing"].solve(
        {"stopping-time": Q(186, "ms"), "device-response": Q(0, "ms"), "detection-capability": Q(30, "mm")}
    )
    assert worked.value.magnitude == worked.rounded.magnitude == 500
