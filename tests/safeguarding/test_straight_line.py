"""Two routes to the numbers: the program and a straight-line check agree on each rounded result of a large grid."""

from decimal import Decimal
from functools import cache
from itertools import product

import pytest
from safeguarding import straight_line as line

from trainer.safeguarding.problems import PROBLEMS
from trainer.units import Q

D = Decimal
AT_LEAST_POINTS = 20_000
UNITS = {"length": "mm", "time": "ms", "speed": "mm/s", "acceleration": "mm/s**2", "pressure": "N/mm**2",
         "angle": "degree", "rate": "1/minute"}  # fmt: skip


def steps(first: str, last: str, step: str) -> list[D]:
    return [D(first) + D(step) * n for n in range(int((D(last) - D(first)) / D(step)) + 1)]


def each(text: str) -> list[D]:
    return [D(part) for part in text.split()]


FINE = each("7 14 20 24.5 30 40 40.1 50 63.4 63.5 70 70.5")
HEIGHTS = each("0 150 300 500 875 900 1000 1000.5")
A, B = (
    each("0 100 400 900 1000 1500 1700 2000 2450 2600 2650 3000"),
    each("899 900 950 1000 1200 1350 1599 1600 2000 2300 2600 2800"),
)
READINGS = [tuple(D(base) + D(n * n % spread) for n in range(count))
            for base in (90, 142, 210) for spread in (2, 7, 23) for count in (2, 5, 10, 17)]  # fmt: skip

# problem: (the check, how it is rounded, the grid; what is not given in a row is left out)
GRIDS = {
    "us-presence-sensing": (line.press_rule, line.above, {"stopping-time": steps("1", "700", "0.5")}),
    "us-two-hand-control": (line.press_rule, line.above, {"stopping-time": steps("0.1", "600", "0.7")}),
    "us-two-hand-trip": (
        line.trip,
        line.above,
        {"strokes-per-minute": steps("20", "200", "5"), "engaging-points": range(1, 29)},
    ),
    "us-self-initiation": (
        line.self_initiation,
        line.up,
        {
            "stopping-times": [row[:3] for row in READINGS if len(row) > 2],
            "press-response": each("0 12 20"),
            "device-response": each("20 25.5 40"),
            "monitor-allowance": each("0 10 17"),
            "penetration": each("0 40 84.1248"),
            "unverified": ["yes"],
        },
    ),
    "ansi-presence-sensing": (
        line.consensus,
        line.up,
        {
            "stopping-time": each("80 95.5 120 190 240"),
            "control-response": each("25"),
            "device-response": each("10 17.5 20"),
            "monitor-allowance": each("0 29"),
            "object-sensitivity": each("7 14 20 30 40"),
            "beams-blanked": range(5),
            "beam-pitch": each("9 10 12.5 20"),
        },
    ),
    "ansi-presence-sensing, faster hands": (
        line.consensus,
        line.up,
        {
            "stopping-time": each("95.5 240"),
            "control-response": each("25"),
            "device-response": each("17.5"),
            "monitor-allowance": each("29"),
            "object-sensitivity": FINE,
            "hand-speed": each("1600.2 2000 2540"),
        },
    ),
    "ansi-two-hand-control": (
        line.consensus_two_hand,
        line.up,
        {
            "stopping-time": steps("50", "300", "12.5"),
            "control-response": each("0 15 25"),
            "device-response": each("0 10 20"),
            "monitor-allowance": each("0 19 38"),
            "unverified": ["yes"],
        },
    ),
    "iso-presence-sensing": (
        line.light_curtain,
        line.up,
        {
            "stopping-time": each("30 120 186 312.5"),
            "device-response": each("0 20"),
            "detection-capability": each("14 30 40.1 70.5"),
            "beams-blanked": each("0"),
            "beam-pitch": each("10"),
            "hazard-height": A,
            "upper-edge-height": B,
        },
    ),
    "iso-presence-sensing, beams blanked": (
        line.light_curtain,
        line.up,
        {
            "stopping-time": steps("10", "400", "13"),
            "device-response": each("0 17.3"),
            "detection-capability": FINE,
            "beams-blanked": range(4),
            "beam-pitch": each("10 12.5"),
        },
    ),
    "press-table-presence-sensing": (
        line.press_table,
        line.up,
        {"stopping-time": steps("10", "400", "7.5"), "device-response": each("0 20"), "detection-capability": FINE},
    ),
    "iso-multi-beam": (
        line.multi_beam,
        line.up,
        {
            "stopping-time": each("100 330"),
            "device-response": each("0 20.7"),
            "beams": range(1, 5),
            "hazard-height": A,
            "upper-edge-height": B,
        },
    ),
    "iso-multi-beam, nothing to reach over": (
        line.multi_beam,
        line.up,
        {"stopping-time": steps("50", "700", "12.3"), "device-response": each("0 20.7"), "beams": range(1, 5)},
    ),
    "iso-parallel-field": (
        line.lying,
        line.up,
        {
            "stopping-time": steps("50", "500", "37.3"),
            "device-response": each("0 20"),
            "detection-capability": each("14 30 50 60 100 116"),
            "field-height": HEIGHTS,
        },
    ),
    "iso-angled-field": (
        line.angled,
        line.up,
        {
            "stopping-time": each("100 150 250 310.7"),
            "device-response": each("0 20"),
            "detection-capability": each("14 30 50 70"),
            "field-height": HEIGHTS,
            "angle": each("0 29 29.9 30 30.1 45 90"),
        },
    ),
    "iso-pressure-mat": (
        line.mat,
        line.up,
        {
            "stopping-time": steps("50", "600", "23.7"),
            "device-response": each("0 35"),
            "step-height": steps("0", "400", "50"),
        },
    ),
    "iso-two-hand-control": (
        line.two_hand,
        line.up,
        {"stopping-time": steps("20", "400", "2.7"), "device-response": each("0 12"), "shrouded": ["yes", "no"]},
    ),
    "iso-interlocked-guard": (
        line.guard,
        line.up,
        {
            "stopping-time": steps("100", "800", "70.3"),
            "device-response": each("0 15"),
            "opening-credit": each("0 100 250.5"),
            "intrusion": each("0 120 850"),
        },
    ),
    "distancing-field": (
        line.distancing,
        line.up,
        {"stopping-time": steps("100", "400", "1.7"), "made-before-marking": ["yes", "no"]},
    ),
    "effective-object-sensitivity": (
        line.effective,
        lambda value: line.up(value, line.TENTH),
        {
            "object-sensitivity": each("14 18.25 20 30 40"),
            "beams-blanked": range(11),
            "beam-pitch": each("9 10 12.5 20"),
        },
    ),
    "longest-stopping-time": (
        line.longest,
        None,
        {
            "distance": steps("60", "1400", "41.3") + each("100 500 304.8 457.2"),
            "object-sensitivity": each("7 14 30 40 40.1 63.5 70"),
            "device-response": each("0 15 20.5"),
            "basis": ["ansi", "iso", "us"],
        },
    ),
    "monitor-limit": (
        line.monitor,
        None,
        {
            "distance": steps("100", "900", "33.3"),
            "object-sensitivity": each("14 30 63.5"),
            "device-response": each("15 20.5"),
            "stopping-time": each("100 160.6 240"),
        },
    ),
    "us-guard-opening": (line.us_opening, None, {"distance": steps("6.35", "812.8", "3.175")}),
    "us-guard-opening, reverse": (
        line.us_opening,
        None,
        {"opening": steps("0.5", "60", "0.3") + each("6.35 9.525 12.7")},
    ),
    "iso-guard-opening": (
        line.iso_opening,
        line.up,
        {"shape": ["slot", "square", "round"], "opening": steps("0.5", "125", "0.5")},
    ),
    "iso-guard-opening, slots": (
        line.iso_opening,
        line.up,
        {"shape": ["slot"], "opening": steps("2", "60", "1"), "slot-length": each("60 65 65.1 400")},
    ),
    "barrier-reach-over": (
        line.barrier,
        line.up,
        {
            "hazard-height": steps("0", "2800", "70"),
            "barrier-height": steps("940", "2800", "60") + each("1000 1400 1600 1800 2000 2700"),
            "risk": ["low", "high"],
            "unverified": ["yes"],
        },
    ),
    "crush-gap": (line.gap, line.up, {"body-part": list(line.GAPS), "gap": steps("0", "600", "25")}),
    "stopping-time-from-readings": (
        line.readings_to_use,
        lambda value: line.up(value, line.TENTH),
        {"readings": READINGS, "rule": ["highest", "mean-plus-3s", "larger"], "unverified": ["yes"]},
    ),
    "approach-overrun": (
        line.overrun,
        lambda value: line.up(value, line.TENTH),
        {"speed": each("10 33.3 100 160 200"), "response": steps("10", "200", "7.3"), "deceleration": each("500 3000")},
    ),
    "approach-overrun, no braking": (
        line.overrun,
        lambda value: line.up(value, line.TENTH),
        {"speed": each("10 33.3 100 160 200"), "response": steps("10", "200", "1.9")},
    ),
    "closing-time": (
        line.closing,
        lambda value: line.down(value, line.TENTH),
        {"gap": steps("1", "40", "0.65"), "speed": each("7 10 25 90")},
    ),
    "safe-distance-by-procedure": (line.procedure, line.up, {"hand-distance": steps("0", "200", "10")}),
    "air-bend-force": (
        line.air_bend,
        lambda value: line.up(value, line.TENTH),
        {
            "tensile-strength": each("200 450 700"),
            "thickness": each("0.8 1.5 3 6"),
            "bend-length": each("300 1000 2550"),
            "die-opening": each("8 16 24 50"),
        },
    ),
    "tool-load": (
        line.tool_load,
        lambda value: line.up(value, line.TENTH),
        {
            "tensile-strength": each("200 450 700"),
            "thickness": each("0.8 1.5 3 6"),
            "bend-length": each("300 1000 2550"),
            "die-opening": each("8 16 24 50"),
            "tool-length": each("200 835 3000"),
        },
    ),
    "hazard-rating": (
        line.rating,
        lambda value: line.up(value, D("0.001")),
        {
            "severity": ["0.1", "0.5", "2", "4", "6", "10", "15"],
            "exposure": ["0.5", "1", "1.5", "2.5", "4", "5"],
            "likelihood": ["0.033", "1", "1.5", "2", "5", "8", "10", "15"],
            "persons": [1, 3, 8, 16, 51],
        },
    ),
}


def points(grid: dict) -> list[dict]:
    return [dict(zip(grid, row, strict=True)) for row in product(*grid.values())]


def fits(name: str, point: dict) -> bool:
    """Say whether a point passes the door: a die wider than the sheet, a slot not shorter than wide."""
    if "die-opening" in point:
        return point["die-opening"] > point["thickness"]
    return "slot-length" not in point or point["slot-length"] >= point["opening"]


@cache
def quantity(field, value):
    if field.dimension in {"choice", "count"}:
        return int(value) if field.dimension == "count" else value
    if field.dimension == "list":
        return tuple(Q(part, "ms") for part in value)
    return Q(value, UNITS[field.dimension])


def program(name: str, point: dict, unit: str | None = None) -> D | None:
    asked = PROBLEMS[name]
    fields = {field.key: field for field in asked.fields}
    figure = asked.figure(asked.numbers({key: quantity(fields[key], value) for key, value in point.items()}), unit=unit)
    return None if figure is None else D(figure.rounded.numerator) / D(figure.rounded.denominator)


def check(row: str, point: dict) -> D | None:
    straight, rounding, _ = GRIDS[row]
    value = straight(**{key.replace("-", "_"): value for key, value in point.items() if key != "unverified"})
    return value if value is None or rounding is None else rounding(value)


@pytest.mark.parametrize("row", GRIDS)
def test_both_routes_give_the_same_rounded_result(row):
    name = row.partition(",")[0]

    differing = [
        (point, program(name, point), check(row, point))
        for point in points(GRIDS[row][2])
        if fits(name, point) and program(name, point) != check(row, point)
    ]

    assert differing[:5] == []


IN_INCHES = [  # rows of a length of at least so much, in millimetres, told in sixteenths of an inch; more than in halves
    row for row, (_, rounding, _) in GRIDS.items()
    if rounding in (line.up, line.above) and "inch" in PROBLEMS[row.partition(",")[0]].answer.grid
]  # fmt: skip


@pytest.mark.parametrize("row", IN_INCHES)
def test_both_routes_give_the_same_result_rounded_in_inches(row):
    name, (straight, rounding, grid) = row.partition(",")[0], GRIDS[row]
    step = D("0.5") if rounding is line.above else D("0.0625")
    wanted = [point for point in points(grid) if fits(row, point)][::7]

    for point in wanted:
        exact = straight(**{key.replace("-", "_"): value for key, value in point.items() if key != "unverified"})
        told = None if exact is None else rounding(exact / line.IN, step)
        assert program(name, point, "inch") == told, point


def test_the_grid_is_large_and_covers_every_problem():
    count = sum(1 for row, (_, _, grid) in GRIDS.items() for point in points(grid) if fits(row, point))

    assert count >= AT_LEAST_POINTS
    assert {row.partition(",")[0] for row in GRIDS} == set(PROBLEMS)
