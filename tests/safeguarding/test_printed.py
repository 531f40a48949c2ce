"""Figures that a source prints itself. The source stands beside each; nothing is loosened beyond its own digits."""

from fractions import Fraction

import pytest
from safeguarding.asking import as_printed, solve, value, wrong

from trainer.units import Q, magnitude

# source | the problem | unit | as printed
RESULTS = """
WAC 296-806-45516 example | us-presence-sensing stopping-time=0.5s | inch | 31.5
WAC 296-806-45524 example | us-two-hand-control stopping-time=0.5s | inch | 31.5
WAC 296-806-45524 example (0.5 s by 90 strokes, 4 points) | us-two-hand-trip strokes-per-minute=90 engaging-points=4 | inch | 31.5
light-curtain manual, blanking 14 mm, pitch 10 | effective-object-sensitivity object-sensitivity=14mm beams-blanked=2 beam-pitch=10mm | mm | 34
light-curtain manual, blanking 20 mm, pitch 12.5 | effective-object-sensitivity object-sensitivity=20mm beams-blanked=2 beam-pitch=12.5mm | mm | 45
light-curtain manual, blanking 30 mm, pitch 25 | effective-object-sensitivity object-sensitivity=30mm beams-blanked=2 beam-pitch=25mm | mm | 80
light-curtain manual, one beam of 17 | effective-object-sensitivity object-sensitivity=30mm beams-blanked=1 beam-pitch=17mm | mm | 47
light-curtain manual, four beams of 17 | effective-object-sensitivity object-sensitivity=30mm beams-blanked=4 beam-pitch=17mm | mm | 98
two light-curtain manuals, 2000 and 2004 | iso-presence-sensing stopping-time=290ms device-response=30ms detection-capability=14mm | mm | 512
light-curtain manual p. 31 | iso-presence-sensing stopping-time=5.7ms device-response=20ms detection-capability=30mm | mm | 179.4
light-curtain manual p. 31, one beam blanked | iso-presence-sensing stopping-time=5.7ms device-response=20ms detection-capability=30mm beams-blanked=1 beam-pitch=17mm | mm | 891.12
component catalogue, mat | iso-pressure-mat stopping-time=485ms device-response=35ms | mm | 2032
two-hand relay handbook p. 27 | iso-two-hand-control stopping-time=60ms device-response=0ms | mm | 346
German adviser, 1400 to 1600 | barrier-reach-over hazard-height=1500mm barrier-height=2000mm | mm | 500
German adviser, 1600 to 2600 | barrier-reach-over hazard-height=2500mm barrier-height=2000mm | mm | 600
German adviser, 2600 to 2700 | barrier-reach-over hazard-height=2650mm barrier-height=2000mm | mm | 500
German adviser, to 1400 | barrier-reach-over hazard-height=1400mm barrier-height=2000mm | mm | 0
German adviser, above 2700 | barrier-reach-over hazard-height=2701mm barrier-height=2000mm | mm | 0
ISO 13857 Table 4, Suva and an Austrian engineer | iso-guard-opening shape=slot opening=6mm | mm | 10
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=8mm | mm | 20
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=8.5mm | mm | 80
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=12mm | mm | 100
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=14mm | mm | 120
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=25mm slot-length=60mm | mm | 200
ISO 13857 Table 4 | iso-guard-opening shape=slot opening=25mm slot-length=100mm | mm | 850
ISO 13857 Table 4 | iso-guard-opening shape=square opening=11mm | mm | 80
ISO 13857 Table 4 | iso-guard-opening shape=square opening=35mm | mm | 200
ISO 13857 Table 4 | iso-guard-opening shape=round opening=35mm | mm | 120
ISO 13857 Table 4 | iso-guard-opening shape=round opening=41mm | mm | 850
ISO 13854, AUVA | crush-gap body-part=body gap=500mm | mm | 500
ISO 13854, AUVA | crush-gap body-part=head gap=300mm | mm | 300
ISO 13854, AUVA | crush-gap body-part=leg gap=180mm | mm | 180
ISO 13854, AUVA | crush-gap body-part=foot gap=120mm | mm | 120
ISO 13854, AUVA | crush-gap body-part=toes gap=50mm | mm | 50
ISO 13854, AUVA | crush-gap body-part=arm gap=120mm | mm | 120
ISO 13854, AUVA | crush-gap body-part=hand gap=100mm | mm | 100
ISO 13854, AUVA | crush-gap body-part=finger gap=25mm | mm | 25
CPL 02-01-025, by a sheet-metal association | safe-distance-by-procedure hand-distance=4in | inch | 4
"""
ROWS = [[part.strip() for part in line.split("|")] for line in RESULTS.strip().splitlines()]


@pytest.mark.parametrize(("source", "line", "unit", "printed"), ROWS, ids=[f"{row[0]}: {row[1]}" for row in ROWS])
def test_a_result_is_what_the_source_prints(source, line, unit, printed):
    assert value(solve(line, unit)) == Fraction(printed)


def test_a_press_control_manual_prints_20_96_inches_and_cuts_off_what_follows():
    # Press-control manual citing ANSI B11.1-2009: (0.190 + 0.059 + 0.035) x 63 + 3.07 = 20.96 in, S = 1.18 in
    line = (
        "ansi-presence-sensing stopping-time=190ms control-response=0ms device-response=59ms monitor-allowance=35ms "
        "object-sensitivity={size}"
    )

    assert as_printed(value(solve(line.format(size="1.18in"), "inch")), "20.96", cut=True) == "20.96"
    assert as_printed(value(solve(line.format(size="30mm"), "inch")), "20.97") == "20.97"
    assert value(solve(line.format(size="30mm"), "inch")) < 21  # where the manual mounts it


@pytest.mark.parametrize(
    ("size", "printed", "unit"),
    [
        ("14mm", "23.7", "mm"),  # light-curtain manual; it prints 0.935 in beside it
        ("14mm", "0.935", "inch"),
        ("30mm", "78.1", "mm"),  # light-curtain manual
        ("30mm", "3.077", "inch"),
        ("30mm", "3.07", "inch"),  # another manual
        ("30mm", "78", "mm"),
    ],
)
def test_the_penetration_factor_is_what_manuals_print_cut_off(size, printed, unit):
    worked = solve(
        "ansi-presence-sensing stopping-time=100ms control-response=0ms device-response=0ms monitor-allowance=0ms "
        f"object-sensitivity={size}"
    )

    assert as_printed(magnitude(worked.terms["allowance"], unit), printed, cut=True) == printed


def test_a_forum_post_prints_61_2_mm_by_the_metric_form_which_agrees_within_a_tenth():
    worked = solve(
        "ansi-presence-sensing stopping-time=100ms control-response=0ms device-response=0ms monitor-allowance=0ms "
        "object-sensitivity=25mm"
    )

    assert abs(magnitude(worked.terms["allowance"], "mm") - Fraction("61.2")) < Fraction("0.1")


def test_a_manual_prints_35_ms_for_a_limit_of_210_and_a_measured_175():
    # 13.23 in is 63 in/s x 210 ms; a 7 mm field has no penetration
    worked = solve("monitor-limit distance=13.23in object-sensitivity=7mm device-response=0ms stopping-time=175ms")

    assert worked.value == Q(210, "ms")
    assert worked.terms["monitor-allowance"] == Q(35, "ms")


@pytest.mark.parametrize(
    ("a", "b", "printed"), [(1600, 1100, 1100), (1000, 1400, 700), (1000, 1600, 0)], ids=["R1", "R2", "R3"]
)
def test_cells_of_the_reaching_over_table_are_read_as_printed(a, b, printed):  # two manuals of one maker
    worked = solve(
        "iso-presence-sensing stopping-time=100ms device-response=0ms detection-capability=14mm "
        f"hazard-height={a}mm upper-edge-height={b}mm"
    )

    assert next(step.value for step in worked.steps if step.symbol == "C_RO") == Q(printed, "mm")


def test_the_catalogue_prints_480_because_it_forgot_the_floor_of_500():
    line = "iso-presence-sensing stopping-time=170ms device-response=130ms detection-capability=14mm"

    assert value(wrong(line, "no-500-floor")) == 480
    assert value(solve(line)) == 500


def test_the_old_british_form_as_printed_is_61_8_mm_short_today():
    line = "iso-presence-sensing stopping-time=200ms device-response=0ms detection-capability=30mm"

    assert value(wrong(line, "old-british-form")) == Fraction("438.2")
    assert value(solve(line)) == 500


def test_a_manuals_curtain_of_98_mm_is_refused_though_its_arithmetic_is_right():
    worked = solve(
        "iso-presence-sensing stopping-time=5.7ms device-response=20ms detection-capability=30mm "
        "beams-blanked=4 beam-pitch=17mm"
    )

    assert worked.value is None
    assert "above 70 mm" in str(worked.refusal)
    # What the manual prints for it is what the program's own field for bodies, at the floor, comes to.
    assert value(solve("iso-parallel-field stopping-time=5.7ms device-response=20ms detection-capability=50mm "
                       "field-height=0mm")) == Fraction("1241.12")  # fmt: skip
