"""Figures computed from a published formula or table; each group names where the formula is written."""

from fractions import Fraction

import pytest
from safeguarding.asking import as_printed, solve, value, wrong

from trainer.units import Q, magnitude

ANSI = "ansi-presence-sensing stopping-time={} control-response={} device-response={} monitor-allowance={} object-sensitivity={}"
CASE_B = ANSI.format("120ms", "25ms", "20ms", "29ms", "30mm")
TRIP = "us-two-hand-trip strokes-per-minute={} engaging-points={}"
PSDI = (
    "us-self-initiation stopping-times={} press-response={}s device-response={}s monitor-allowance={}s penetration={}in "
    "unverified=yes"
)
ISO = "iso-presence-sensing stopping-time={}s device-response=0ms detection-capability={}mm"


def check(line: str, unit: str, text: str) -> None:
    assert as_printed(value(solve(line, unit)), text) == text


# 29 CFR 1910.217 (c)(3)(iii)(e): 63 in/s x T
@pytest.mark.parametrize(
    ("time", "inches", "mm"),
    [("0.055", "3.465", "88.01"), ("0.095", "5.985", "152.0"), ("0.126", "7.938", "201.6"), ("0.158", "9.954", "252.8"),
     ("0.317", "19.97", "507.3"), ("0.420", "26.46", "672.1"), ("0.500", "31.50", "800.1"), ("0.190", "11.97", "304.0"),
     ("0.245", "15.44", "392.0")],
)  # fmt: skip
@pytest.mark.parametrize("name", ["us-presence-sensing", "us-two-hand-control"])
def test_press_rule(name, time, inches, mm):
    check(f"{name} stopping-time={time}s", "inch", inches)
    check(f"{name} stopping-time={time}s", "mm", mm)


# 29 CFR 1910.217 (c)(3)(viii)(c)
@pytest.mark.parametrize(
    ("rate", "points", "inches", "mm"),
    [(60, 1, "94.50", "2400"), (60, 2, "63.00", "1600"), (45, 1, "126.0", "3200"), (90, 4, "31.50", "800.1"),
     (120, 3, "26.25", "666.75"), (120, 14, "18.00", "457.2"), (150, 8, "15.75", "400.05")],
)  # fmt: skip
def test_two_hand_trip(rate, points, inches, mm):
    check(TRIP.format(rate, points), "inch", inches)
    check(TRIP.format(rate, points), "mm", mm)


def test_a_time_to_closed_dies_is_one_and_a_half_turns_for_one_engaging_point():
    assert solve(TRIP.format(60, 1)).terms["total-time"] == Q("1.5", "s")


# 29 CFR 1910.217 (h)(9)(v); the penetration is an input
@pytest.mark.parametrize(
    "row",
    [("142ms;150ms;147ms", ".015", ".030", ".015", "3.312", "17.49", "444.2", "16.54", "17.26", "14.17"),
     ("110ms;118ms;121ms", ".012", ".025", ".012", "3.074", "14.54", "369.3", "13.78", "14.25", "11.47"),
     ("200ms;205ms;198ms", ".020", ".040", ".020", "2.462", "21.68", "550.6", "20.42", "21.42", "19.21"),
     ("160ms;172ms;169ms", ".018", ".035", ".017", "1.612", "17.93", "455.4", "16.86", "17.61", "16.32")],
)  # fmt: skip
def test_self_initiation(row):
    averages, press, device, monitor, depth, inches, mm, once, mean, none = row
    line = PSDI.format(averages, press, device, monitor, depth)
    check(line, "inch", inches)
    check(line, "mm", mm)
    for code, text in (("monitor-once", once), ("mean-of-positions", mean), ("leaves-out-penetration", none)):
        exact = value(wrong(line, code, "inch"))  # 14.175 and 21.425 are printed 14.17 and 21.42
        assert text in {as_printed(exact, text), as_printed(exact, text, cut=True)}, code


# ANSI B11.19 (2003 form), second hand
@pytest.mark.parametrize(
    ("line", "inches", "mm"),
    [(ANSI.format("190ms", "0ms", "59ms", "35ms", "30mm"), "20.97", "532.6"),
     (CASE_B, "15.30", "388.6"),
     (ANSI.format("120ms", "20ms", "15ms", "28ms", "14mm"), "12.46", "316.6"),
     (ANSI.format("95ms", "25ms", "18ms", "24ms", "30mm"), "13.28", "337.4"),
     (ANSI.format("80ms", "15ms", "12ms", "19ms", "14mm"), "8.874", "225.4")],
    ids=["A", "B", "C", "D", "F"],
)  # fmt: skip
def test_consensus_form(line, inches, mm):
    check(line, "inch", inches)
    check(line, "mm", mm)


@pytest.mark.parametrize(
    ("code", "inches", "mm"),
    [("leaves-out-penetration", "12.22", "310.4"), ("bare-press-rule", "7.560", "192.0"),
     ("leaves-out-monitor-and-penetration", "10.39", "264.0"), ("leaves-out-monitor", "13.47", "342.2"),
     ("leaves-out-device", "14.04", "356.6"), ("leaves-out-control", "13.72", "348.6"),
     ("control-twice", "16.87", "428.6"), ("fifth-of-everything", "15.55", "395.0"),
     ("subtracts-penetration", "9.145", "232.3"), ("loses-the-bracket", "15.96", "405.4"),
     ("sensitivity-as-penetration", "13.40", "340.4"), ("millimetres-in-inch-formula", "113.3", "2877"),
     ("penetration-inside-bracket", "206.1", "5235"), ("milliseconds-as-seconds", "12225", "310517"),
     ("milliseconds-as-hundredths", "125.3", "3183"), ("speed-100", "22.48", "570.9"),
     ("international-form-no-floor", "17.26", "438.4"), ("rounds-down", "15.25", "388"),
     ("rounds-down-far", "15.00", "380")],
)  # fmt: skip
def test_each_wrong_answer_of_case_b_is_a_slip(code, inches, mm):
    # The sheet cuts or rounds its last digit (10.395 and 16.874 are printed 10.39 and 16.87).
    for unit, text in (("inch", inches), ("mm", mm)):
        exact = value(wrong(CASE_B, code, unit))
        assert text in {as_printed(exact, text), as_printed(exact, text, cut=True)}, unit


def test_adding_penetration_in_inches_to_millimetres_is_a_slip():  # 313.5 mm; 7962 is 313.5 read as inches
    assert as_printed(value(wrong(CASE_B, "adds-inches-to-millimetres")), "313.5") == "313.5"


DEPTHS = [
    ("7mm", "0", "0"), ("10mm", "0.4002", "10.16"), ("14mm", "0.9356", "23.76"), ("18mm", "1.471", "37.36"),
    ("20mm", "1.739", "44.16"), ("25mm", "2.408", "61.16"), ("30mm", "3.077", "78.16"), ("34mm", "3.613", "91.76"),
    ("40mm", "4.416", "112.2"), ("50mm", "5.755", "146.2"), ("60mm", "7.093", "180.2"), ("63mm", "7.495", "190.4"),
    ("0.20in", "0", "0"), ("0.276in", "0", "0"), ("0.50in", "0.7616", "19.34"), ("0.55in", "0.9316", "23.66"),
    ("0.75in", "1.612", "40.93"), ("1.00in", "2.462", "62.52"), ("1.18in", "3.074", "78.07"),
    ("1.25in", "3.312", "84.11"), ("1.50in", "4.162", "105.7"), ("2.00in", "5.862", "148.9"),
    ("2.25in", "6.712", "170.5"), ("2.49in", "7.528", "191.2"),
]  # fmt: skip


@pytest.mark.parametrize(("size", "inches", "mm"), DEPTHS, ids=[row[0] for row in DEPTHS])
def test_penetration_factor(size, inches, mm):
    worked = solve(ANSI.format("100ms", "0ms", "0ms", "0ms", size))
    depth = worked.terms["allowance"]

    assert as_printed(magnitude(depth, "inch"), inches) == inches
    assert mm in {as_printed(magnitude(depth, "mm"), mm), as_printed(magnitude(depth, "mm"), mm, cut=True)}


@pytest.mark.parametrize("size", range(7, 64))
def test_inch_and_metric_forms_of_the_penetration_agree_to_a_tenth_of_a_millimetre(size):
    depth = solve(ANSI.format("100ms", "0ms", "0ms", "0ms", f"{size}mm")).terms["allowance"]

    assert abs(magnitude(depth, "mm") - max(Fraction(0), Fraction("3.4") * (size - 7))) < Fraction("0.1")


@pytest.mark.parametrize(("time", "inches"), [("150ms", "45.45"), ("194ms", "48.22"), ("250ms", "51.75")])
def test_reaching_through_a_coarse_field_is_from_memory_and_off_unless_asked_for(time, inches):
    line = ANSI.format(time, "0ms", "0ms", "0ms", "63.5mm")

    assert solve(line).value is None
    assert "memory" in str(solve(line).refusal)
    check(line + " unverified=yes", "inch", inches)
    assert any("memory" in str(warning) for warning in solve(line + " unverified=yes").warnings)


@pytest.mark.parametrize(
    "row",
    [(14, "10", 1, "24", "2.274", "14.50", "368.2", "13.16"), (14, "10", 2, "34", "3.613", "15.83", "402.2", "13.16"),
     (14, "10", 3, "44", "4.951", "17.17", "436.2", "13.16"), (30, "20", 1, "50", "5.755", "17.98", "456.6", "15.30"),
     (20, "12.5", 1, "32.5", "3.412", "15.63", "397.1", "13.96"), (18, "9", 2, "36", "3.880", "16.10", "409.0", "13.69")],
)  # fmt: skip
def test_blanked_beams(row):
    size, pitch, beams, effective, depth, inches, mm, nominal = row
    line = ANSI.format("120ms", "25ms", "20ms", "29ms", f"{size}mm") + f" beams-blanked={beams} beam-pitch={pitch}mm"
    worked = solve(line, "inch")

    assert magnitude(worked.terms["effective-sensitivity"], "mm") == Fraction(effective)
    assert as_printed(magnitude(worked.terms["allowance"], "inch"), depth) == depth
    assert as_printed(value(worked), inches) == inches
    check(line, "mm", mm)
    assert as_printed(value(wrong(line, "nominal-sensitivity", "inch")), nominal) == nominal
    plain = value(solve(line.split(" beams")[0]))
    assert value(solve(line)) - plain == Fraction("3.4") * beams * Fraction(pitch)  # 3.4 pitches for each beam


def test_the_formula_beyond_its_limit_is_a_slip():
    line = CASE_B + " beams-blanked=2 beam-pitch=20mm unverified=yes"

    check(line, "inch", "48.22")
    short = value(solve(line, "inch")) - value(wrong(line, "formula-beyond-limit", "inch"))
    assert as_printed(36 - short, "8.432") == "8.432"
    assert as_printed(value(wrong(line, "nominal-sensitivity", "inch")), "15.30") == "15.30"
    check(line, "mm", "1225")


@pytest.mark.parametrize(
    ("line", "total", "left", "alone"),
    [("distance=12in object-sensitivity=14mm device-response=15ms", "175.6", "160.6", "133.9"),
     ("distance=15in object-sensitivity=30mm device-response=20ms", "189.2", "169.2", "141.0"),
     ("distance=18in object-sensitivity=30mm device-response=20ms", "236.9", "216.9", "180.7"),
     ("distance=8in object-sensitivity=14mm device-response=12ms", "112.1", "100.1", "83.44")],
)  # fmt: skip
def test_longest_stopping_time(line, total, left, alone):
    worked = solve(f"longest-stopping-time {line}")

    for term, text in (("total-time", total), ("without-monitor", alone)):
        assert as_printed(magnitude(worked.terms[term], "ms"), text) == text
    assert as_printed(value(worked), left) == left
    assert worked.rounded.magnitude <= worked.value.magnitude


def test_dividing_the_whole_distance_is_a_slip_of_the_inverse():
    line = "longest-stopping-time distance=15in object-sensitivity=30mm device-response=0ms"

    assert as_printed(value(wrong(line, "leaves-out-penetration")), "238.1") == "238.1"


@pytest.mark.parametrize(
    ("times", "inches", "mm"),
    [(("120ms", "25ms", "10ms", "29ms"), "11.59", "294.4"), (("190ms", "0ms", "20ms", "38ms"), "15.62", "396.8"),
     (("80ms", "15ms", "10ms", "19ms"), "7.812", "198.4")],
)  # fmt: skip
def test_consensus_two_hand_control(times, inches, mm):
    line = (
        ANSI.format(*times, "").replace("ansi-presence-sensing", "ansi-two-hand-control").rsplit(" ", 1)[0]
        + " unverified=yes"
    )
    check(line, "inch", inches)
    check(line, "mm", mm)


@pytest.mark.parametrize(
    ("distance", "opening"),
    [("1", "1/4"), ("2", "3/8"), ("3", "1/2"), ("3.5", "1/2"), ("5", "5/8"), ("6", "3/4"), ("7", "7/8"), ("10", "5/4"),
     ("14", "3/2"), ("16", "15/8"), ("25", "17/8")],
)  # fmt: skip
def test_us_openings_for_a_distance(distance, opening):  # 29 CFR 1910.217 Table O-10
    assert value(solve(f"us-guard-opening distance={distance}in", "inch")) == Fraction(opening)


@pytest.mark.parametrize(
    ("opening", "distance"),
    [("0.25", "0.5"), ("0.3", "1.5"), ("0.5", "2.5"), ("0.6", "3.5"), ("0.7", "5.5"), ("1.0", "7.5"), ("1.25", "7.5"),
     ("1.3", "12.5"), ("1.75", "15.5"), ("2.0", "17.5")],
)  # fmt: skip
def test_us_distances_for_an_opening(opening, distance):  # 29 CFR 1910.217 Table O-10
    assert value(solve(f"us-guard-opening opening={opening}in", "inch")) == Fraction(distance)


def test_the_larger_opening_at_a_shared_edge_is_a_slip():
    assert value(wrong("us-guard-opening distance=3.5in", "larger-at-the-edge", "inch")) == Fraction(5, 8)


@pytest.mark.parametrize(
    ("hands", "far"), [("3.5in", False), ("4in", True), ("100mm", False), ("110mm", True), ("88.9mm", False)]
)  # CPL 02-01-025, second hand
def test_distance_by_procedure(hands, far):
    assert ("far enough" in solve(f"safe-distance-by-procedure hand-distance={hands}").word) == far


# ISO 13855:2010, 6.2
@pytest.mark.parametrize(
    ("time", "size", "mm"),
    [("0.300", 14, "500"), ("0.030", 14, "100"), ("0.090", 30, "308"), ("0.186", 30, "500"), ("0.250", 30, "528"),
     ("0.100", 40, "408"), ("0.0257", 47, "891.12"), ("0.200", 50, "1170"), ("0.120", 60, "1042"), ("0.350", 70, "1410"),
     ("0.100", 10, "200"), ("0.100", 50, "1010"), ("0.320", 14, "512"), ("0.150", 30, "428")],
)  # fmt: skip
def test_orthogonal_field(time, size, mm):
    assert value(solve(ISO.format(time, size))) == Fraction(mm)


@pytest.mark.parametrize(
    ("size", "add", "over", "to"),
    [(14, 0, "0.2500", "0.3125"), (20, 48, "0.2260", "0.2825"), (25, 88, "0.2060", "0.2575"),
     (30, 128, "0.1860", "0.2325"), (35, 168, "0.1660", "0.2075"), (40, 208, "0.1460", "0.1825")],
)  # fmt: skip
def test_the_distance_is_flat_at_500_between_the_two_speeds(size, add, over, to):
    tick = Fraction(1, 10**6)
    for time, mm in ((Fraction(over), 500), (Fraction(over) + tick, 500), (Fraction(to), 500)):
        assert value(solve(ISO.format(time, size))) == mm
    assert value(solve(ISO.format(Fraction(to) + tick, size))) > 500
    assert value(solve(ISO.format(Fraction(over) - tick, size))) < 500
    assert solve(ISO.format("0.1", size)).terms["allowance"] == Q(add, "mm")


def test_500_is_still_2000_millimetres_a_second():
    worked = solve(ISO.format("0.186", 30))

    assert worked.terms["hand-speed"] == Q(2000, "mm/s")
    assert worked.rounded == Q(500, "mm")
    assert "S_2" not in {step.symbol for step in worked.steps}


@pytest.mark.parametrize(
    ("beams", "at_100", "at_200", "effective"),
    [(0, 200, 400, 14), (1, 280, 480, 24), (2, 360, 500, 34), (3, 1010, 1170, 44)],
)
def test_the_cliff_above_40_mm_when_beams_are_blanked(beams, at_100, at_200, effective):
    for time, mm in (("0.1", at_100), ("0.2", at_200)):
        worked = solve(ISO.format(time, 14) + f" beams-blanked={beams} beam-pitch=10mm")
        assert value(worked) == mm
        assert worked.terms["effective-sensitivity"] == Q(effective, "mm")


# DGUV Information 209-030, Annex 7
@pytest.mark.parametrize(
    ("time", "size", "mm"),
    [("0.100", 14, 200), ("0.100", 20, 280), ("0.100", 30, 330), ("0.100", 40, 440), ("0.250", 30, 530),
     ("0.030", 14, 100), ("0.100", 50, 1010)],
)  # fmt: skip
def test_press_table(time, size, mm):
    line = f"press-table-presence-sensing stopping-time={time}s device-response=0ms detection-capability={size}mm"
    assert value(solve(line)) == mm


@pytest.mark.parametrize(
    ("time", "beams", "mm"), [("0.330", 3, 1378), ("0.250", 2, 1250), ("0.250", 1, 1600), ("0.100", 4, 1010)]
)  # a maker's guide to ISO 13855
def test_multi_beam(time, beams, mm):
    assert value(solve(f"iso-multi-beam stopping-time={time}s device-response=0ms beams={beams}")) == mm


@pytest.mark.parametrize(
    ("a", "b", "reach"), [(900, 1350, 750), (1700, 1000, 1150), (1000, 1599, 700), (1600, 1100, 1100)]
)  # ISO 13855:2010 Table 1
def test_reach_over_a_field_is_the_larger_of_the_rows_around(a, b, reach):
    worked = solve(ISO.format("0.1", 14) + f" hazard-height={a}mm upper-edge-height={b}mm")
    assert next(step.value for step in worked.steps if step.symbol == "C_RO") == Q(reach, "mm")


@pytest.mark.parametrize(
    ("a", "b", "code", "reach"),
    [(900, 1350, "interpolates-heights", "600"), (1000, 1599, "interpolates-heights", "3.5"),
     (1700, 1000, "next-higher-hazard", "1100"), (1000, 1500, "edge-height-rounded-up", "0"),
     (1000, 1400, "swaps-heights", "1200"), (1700, 1000, "interpolates-heights", "1125")],
)  # fmt: skip
def test_wrong_readings_of_the_reaching_over_table_are_slips(a, b, code, reach):
    worked = wrong(ISO.format("0.1", 14) + f" hazard-height={a}mm upper-edge-height={b}mm", code)
    assert next(step.value for step in worked.steps if step.symbol == "C_RO") == Q(reach, "mm")


@pytest.mark.parametrize(
    ("line", "through", "over", "mm"),
    [("iso-multi-beam stopping-time=330ms device-response=0ms beams=3 hazard-height=1600mm upper-edge-height=1100mm",
      1378, 1628, 1628),
     (ISO.format("0.100", 30) + " hazard-height=1000mm upper-edge-height=1600mm", 328, 200, 328),
     (ISO.format("0.150", 14) + " hazard-height=1200mm upper-edge-height=1300mm", 300, 1090, 1090),
     (ISO.format("0.250", 40) + " hazard-height=1400mm upper-edge-height=1800mm", 608, 500, 608)],
    ids=["RC1", "RC3", "RC4", "RC6"],
)  # fmt: skip
def test_through_and_over_the_larger_counts(line, through, over, mm):
    worked = solve(line)
    steps = {step.symbol: step.value for step in worked.steps}

    assert (steps["S_RT"], steps["S_RO"]) == (Q(through, "mm"), Q(over, "mm"))
    assert value(worked) == mm


PARALLEL = "iso-parallel-field stopping-time={}s device-response=0ms detection-capability=30mm field-height={}mm"


@pytest.mark.parametrize(
    ("time", "height", "mm"),
    [("0.200", 0, 1520), ("0.200", 300, 1400), ("0.200", 750, 1220), ("0.200", 875, 1170), ("0.200", 1000, 1170)],
)  # ISO 13855:2010, 6.3
def test_parallel_field(time, height, mm):
    assert value(solve(PARALLEL.format(time, height))) == mm


def test_wrong_answers_of_a_parallel_field_are_slips():
    assert value(wrong(PARALLEL.format("0.2", 1000), "no-arm-floor")) == 1120
    assert value(wrong(PARALLEL.format("0.2", 300), "height-added")) == 1640


@pytest.mark.parametrize(
    ("size", "height"), [(30, 0), (50, 0), (55, 75), (60, 150), (70, 300), (90, 600), (100, 750), (116, 990)]
)
def test_a_coarse_field_must_lie_high_enough(size, height):
    line = PARALLEL.replace("30mm", f"{size}mm")
    assert solve(line.format("0.2", height)).value is not None
    if height:
        assert solve(line.format("0.2", height - 1)).value is None


@pytest.mark.parametrize(
    ("line", "mm"),
    [("stopping-time=150ms detection-capability=30mm angle=45deg", 428),
     ("stopping-time=150ms detection-capability=30mm angle=29deg field-height=300mm", 1320),
     ("stopping-time=250ms detection-capability=50mm angle=20deg field-height=0mm", 1600),
     ("stopping-time=150ms detection-capability=30mm angle=30deg field-height=300mm", 1320),
     ("stopping-time=150ms detection-capability=30mm field-height=300mm", 1320)],
    ids=["A1", "A2", "A4", "30 degrees takes the larger", "no angle takes the larger"],
)  # fmt: skip
def test_angled_field(line, mm):
    assert value(solve(f"iso-angled-field device-response=0ms {line}")) == mm


@pytest.mark.parametrize(
    ("time", "height", "mm"), [("0.520", 0, 2032), ("0.200", 0, 1520), ("0.350", 0, 1760), ("0.520", 200, 1952),
                               ("0.150", 100, 1400)],
)  # fmt: skip
def test_pressure_mat(time, height, mm):  # ISO 13855:2010, 7
    line = f"iso-pressure-mat stopping-time={time}s device-response=0ms step-height={height}mm"
    assert value(solve(line)) == mm


def test_inch_constants_on_a_mat_are_a_slip():
    line = "iso-pressure-mat stopping-time=485ms device-response=35ms"
    assert as_printed(value(wrong(line, "inch-constants")), "2051") == "2051"
    assert as_printed(value(wrong(line, "inch-constants", "inch")), "80.76") == "80.76"


@pytest.mark.parametrize(
    ("time", "open_", "shrouded"), [("0.060", 346, 100), ("0.100", 410, 160), ("0.150", 490, 240), ("0.200", 570, 320),
                                    ("0.050", 330, 100)],
)  # fmt: skip
def test_two_hand_control(time, open_, shrouded):  # ISO 13855:2010, 8
    line = f"iso-two-hand-control stopping-time={time}s device-response=0ms"
    assert value(solve(line)) == open_
    assert value(solve(line + " shrouded=yes")) == shrouded


@pytest.mark.parametrize(
    ("time", "code", "mm"),
    [("0.100", "hand-speed", 450), ("0.250", "hand-speed", 750), ("0.100", "leaves-out-250", 160),
     ("0.060", "milliseconds-as-seconds", 96250)],
)  # fmt: skip
def test_wrong_answers_of_a_two_hand_control_are_slips(time, code, mm):
    assert value(wrong(f"iso-two-hand-control stopping-time={time}s device-response=0ms", code)) == mm


@pytest.mark.parametrize(
    ("line", "mm"),
    [("stopping-time=200ms", 320), ("stopping-time=500ms", 800), ("stopping-time=500ms opening-credit=100ms", 640),
     ("stopping-time=300ms intrusion=120mm", 600)],
)  # fmt: skip
def test_interlocked_guard(line, mm):  # ISO 13855:2010, 9
    assert value(solve(f"iso-interlocked-guard {line}")) == mm


@pytest.mark.parametrize(("ms", "mm"), [(120, 1000), (200, 1000), (210, 1020), (250, 1100), (300, 1200)])
def test_distancing_field(ms, mm):  # DGUV Information 209-008, section 16
    assert value(solve(f"distancing-field stopping-time={ms}ms")) == mm
    assert value(solve(f"distancing-field stopping-time={ms}ms made-before-marking=yes")) == 1000


Z1 = "180ms;184ms;182ms;181ms;186ms;183ms;182ms;185ms;181ms;184ms"
Z2 = "95ms;98ms;96ms;97ms;99ms;95ms;96ms;97ms;98ms;112ms"
Z3 = "142ms;150ms;147ms;151ms;149ms;146ms;148ms;152ms;145ms;150ms"
Z4 = ";".join(["210ms"] * 9 + ["211ms"])


@pytest.mark.parametrize(
    "row",
    [(Z1, "182.8", "1.932", "188.60", "186", "188.6", "188.3"), (Z2, "98.3", "4.990", "113.27", "112", "113.3", "112.5"),
     (Z3, "148.0", "3.055", "157.17", "152", "157.2", "156.7"), (Z4, "210.1", "0.316", "211.05", "211", "211.1", None)],
)  # fmt: skip
def test_stopping_time_from_readings(row):
    readings, mean, spread, statistical, highest, use, population = row
    line = f"stopping-time-from-readings readings={readings} unverified=yes rule="
    larger = solve(line + "larger")
    steps = {step.symbol: magnitude(step.value, "ms") for step in larger.steps}

    assert as_printed(steps["t_mean"], mean) == mean
    assert as_printed(steps["s"], spread) == spread
    assert as_printed(value(solve(line + "mean-plus-3s")), statistical) == statistical
    assert value(solve(line + "highest")) == Fraction(highest)
    assert magnitude(larger.rounded, "ms") == Fraction(use)
    if population:
        assert as_printed(value(wrong(line + "larger", "population-deviation")), population) == population


def test_the_mean_is_18_mm_short_where_the_spread_counts():
    used = value(solve(f"stopping-time-from-readings readings={Z3} rule=mean-plus-3s unverified=yes"), "s") + Fraction(
        "0.015"
    )
    line = ISO.format("{}", 14)

    assert as_printed(value(solve(line.format(used))), "344.3") == "344.3"
    assert value(solve(line.format("0.163"))) == 326


@pytest.mark.parametrize(
    ("a", "b", "risk", "c", "memory"),
    [(1000, 1800, "high", 0, False), (1100, 1700, "high", 900, True), (1000, 1600, "low", 300, False),
     (1000, 1600, "high", 800, True)],
)  # fmt: skip
def test_reach_over_a_barrier(a, b, risk, c, memory):  # ISO 13857 Tables 1 and 2
    line = f"barrier-reach-over hazard-height={a}mm barrier-height={b}mm risk={risk}"
    worked = solve(line)

    assert (worked.value is None) == memory
    assert value(solve(line + " unverified=yes")) == c
    assert any("memory" in str(warning) for warning in solve(line + " unverified=yes").warnings) == memory


def test_the_low_risk_table_is_a_slip():
    line = "barrier-reach-over hazard-height=1000mm barrier-height=1600mm risk=high unverified=yes"
    assert value(wrong(line, "low-risk-table")) == 300


@pytest.mark.parametrize(
    ("part", "gap", "wide"),
    [("finger", 20, False), ("finger", 25, True), ("hand", 25, False), ("hand", 110, True), ("arm", 110, False),
     ("body", 110, False)],
)  # fmt: skip
def test_gaps_at_the_back_stop(part, gap, wide):  # ISO 13854
    assert ("Wide enough" in solve(f"crush-gap body-part={part} gap={gap}mm").word) == wide


@pytest.mark.parametrize(
    ("v", "time", "mm"),
    [(10, "100ms", "1"), (40, "90ms", "3.6"), (100, "90ms", "9"), (160, "60ms", "9.6"), (200, "50ms", "10"),
     (200, "90ms", "18")],
)  # fmt: skip
def test_overrun(v, time, mm):  # plain kinematics
    assert value(solve(f"approach-overrun speed={v}mm/s response={time}")) == Fraction(mm)


def test_milliseconds_as_seconds_in_the_overrun_is_a_slip():
    assert value(wrong("approach-overrun speed=100mm/s response=90ms", "milliseconds-as-seconds")) == 9000


@pytest.mark.parametrize(
    ("gap", "ms"), [("6mm", 600), ("10mm", 1000), ("14mm", 1400), ("20mm", 2000), ("6.35mm", 635), ("0.25in", 635)]
)
def test_time_to_close(gap, ms):
    assert value(solve(f"closing-time gap={gap} speed=10mm/s")) == ms


@pytest.mark.parametrize(
    "row",
    [("one-limb-or-eye", "permanent", 1, "5", "150", "High"), ("6", "5", 1, "8", "240", "High"),
     ("6", "5", 1, "0.033", "0.99", "Negligible"), ("minor-fracture", "daily", 1, "2", "10", "Low"),
     ("cut", "hourly", 1, "10", "20", "Low"), ("death", "permanent", 3, "15", "2250", "Unacceptable"),
     ("death", "1", 51, "0.033", "5.94", "Low")],
    ids=["N1", "N2", "N3", "N4", "N5", "N6", "between two bands the worse"],
)  # fmt: skip
def test_hazard_rating(row):  # the CE manual's scale
    severity, exposure, persons, likelihood, rating, band = row
    worked = solve(f"hazard-rating severity={severity} exposure={exposure} likelihood={likelihood} persons={persons}")
    assert value(worked) == Fraction(rating)
    assert worked.word.startswith(band)


# Typical mistakes of the international rule, with the wrong value that each gives
@pytest.mark.parametrize(
    ("line", "code", "mm"),
    [(ISO.format("0.300", 14), "no-500-floor", "480"),
     (ISO.format("0.320", 14), "no-second-speed", "640"),
     (ISO.format("0.100", 30), "slow-speed-first", "288"),
     ("iso-presence-sensing stopping-time=290ms device-response=30ms detection-capability=14mm", "leaves-out-device",
      "500"),
     (ISO.format("0.100", 10), "negative-intrusion", "168"),
     (ISO.format("0.030", 14), "no-100-floor", "60"),
     (ISO.format("0.100", 50), "line-above-40", "488"),
     (ISO.format("0.100", 14) + " beams-blanked=2 beam-pitch=10mm", "nominal-sensitivity", "200"),
     (ISO.format("0.200", 30), "old-british-form", "438.2"),
     ("press-table-presence-sensing stopping-time=100ms device-response=0ms detection-capability=40mm", "general-line",
      "408"),
     ("iso-guard-opening shape=slot opening=25mm slot-length=100mm", "square-for-slot", "120"),
     ("iso-guard-opening shape=slot opening=25mm slot-length=100mm", "short-slot-relief", "200"),
     ("iso-guard-opening shape=slot opening=25mm", "older-numbers", "200"),
     ("iso-guard-opening shape=slot opening=9mm", "older-numbers", "120")],
)  # fmt: skip
def test_typical_mistakes_are_slips(line, code, mm):
    assert value(wrong(line, code)) == Fraction(mm)


# Two-hand trip, 120 strokes, 14 points: the wrong answers
@pytest.mark.parametrize(
    ("code", "inches"),
    [("half-times-share", "1.125"), ("leaves-out-half-turn", "2.25"), ("one-engaging-point", "47.25"),
     ("rate-upside-down", "72.00")],
)  # fmt: skip
def test_wrong_answers_of_the_trip_are_slips(code, inches):
    assert value(wrong(TRIP.format(120, 14), code, "inch")) == Fraction(inches)


# 63 in/s x 0.190 s: the wrong answers
@pytest.mark.parametrize(
    ("code", "inches"),
    [("milliseconds-as-seconds", "11970"), ("speed-60", "11.40"), ("millimetres-as-inches", "304.038"),
     ("rounds-down", "11.5"), ("rounds-down-far", "11")],
)  # fmt: skip
def test_wrong_answers_of_the_press_rule_are_slips(code, inches):
    assert value(wrong("us-presence-sensing stopping-time=190ms", code, "inch")) == Fraction(inches)


# Shop formula, common practice: F = 1.42 x R_m x t^2 x L / V
def test_air_bending_force_and_load_by_hand():
    line = "tensile-strength=450MPa thickness=3mm bend-length=2m die-opening=24mm"
    force = solve(f"air-bend-force {line}")

    assert value(force) == Fraction("1.42") * 450 * 9 * 2000 / 24 / 1000
    load = solve(f"tool-load {line} tool-length=1m rating-per-length=400kN/m")
    assert value(load) == value(force)  # the whole force on one metre
    assert load.word.startswith("Over")
    assert solve(f"tool-load {line} rating-per-length=400kN/m").word.startswith("Within")


# --- at the edges of the scales and tables ---


@pytest.mark.parametrize(
    ("line", "word"),
    [("severity=0.5 exposure=1 likelihood=10 persons=2", "Negligible"),  # 5, the last of its band
     ("severity=4 exposure=daily likelihood=5 persons=2", "Low"),  # 50, the last of its band
     ("severity=2 exposure=2.5 likelihood=10 persons=3", "High"),  # 100
     ("severity=10 exposure=5 likelihood=5 persons=7", "High"),  # 500, the last of its band
     ("severity=15 exposure=5 likelihood=8 persons=2", "Unacceptable")],  # 600
)  # fmt: skip
def test_a_rating_on_the_edge_of_a_band_is_still_in_it(line, word):  # scale 1: 0-5, 5-50, 50-500, over 500
    assert str(solve(f"hazard-rating {line}").word).startswith(word)


@pytest.mark.parametrize(
    ("persons", "number"),
    [(1, 1), (2, 1), (3, 2), (7, 2), (8, 4), (15, 4), (16, 8), (50, 8), (51, 12)],
)
def test_the_persons_of_the_scale_change_where_it_says(persons, number):
    rating = value(solve(f"hazard-rating severity=2 exposure=1 likelihood=1 persons={persons}"))

    assert rating == 2 * number


BEND = "tool-load tensile-strength=450MPa thickness=3mm bend-length=1000mm die-opening=24mm"  # 239.625 kN/m


@pytest.mark.parametrize(("marking", "fits"), [("239.625", True), ("239.624", False), ("239.7", True)])
def test_a_load_that_equals_the_marking_is_within_it(marking, fits):
    assert str(solve(f"{BEND} rating-per-length={marking}kN/m").word).startswith("Within" if fits else "Over")


def test_without_a_marking_a_tool_is_not_called_fit():
    worked = solve(BEND)

    assert worked.word is None
    assert any("No marking was given" in str(warning) for warning in worked.warnings)


@pytest.mark.parametrize(("speed", "said"), [("10mm/s", "Slow closing alone"), ("10.1mm/s", "Faster than 10 mm/s")])
def test_ten_millimetres_a_second_still_counts_as_slow(speed, said):  # DGUV Information 209-008 section 21.2
    assert any(said in str(warning) for warning in solve(f"closing-time gap=6mm speed={speed}").warnings)


def test_rounding_the_press_rule_down_to_half_an_inch_is_a_slip():  # 190 ms: 11.97 in, cut to 11.5
    cut = wrong("us-presence-sensing stopping-time=190ms", "rounds-down", "inch")

    assert magnitude(cut.rounded, "inch") == Fraction("11.5")


def test_the_first_set_of_readings_does_not_tell_the_mean_from_the_rule():  # with 20 ms and 30 mm both come to 500
    used = solve(f"stopping-time-from-readings readings={Z1} rule=larger unverified=yes")
    mean = wrong(f"stopping-time-from-readings readings={Z1} rule=larger unverified=yes", "mean-only")

    assert as_printed(value(used, "s"), "0.1886") == "0.1886"
    for time in (value(used, "ms"), value(mean, "ms")):
        line = f"iso-presence-sensing stopping-time={float(time):.4f}ms device-response=20ms detection-capability=30mm"
        assert value(solve(line)) == 500


@pytest.mark.parametrize(
    ("stop", "least"), [(200, 1000), (201, 1020), (205, 1020), (210, 1020), (211, 1040), (330, 1260)]
)
def test_a_begun_ten_milliseconds_counts_whole(stop, least):  # DGUV Information 209-008 section 16, Table 9
    assert value(solve(f"distancing-field stopping-time={stop}ms")) == least


def test_the_limit_of_the_monitor_may_be_reached_and_not_passed():
    line = "monitor-limit distance=15in object-sensitivity=30mm device-response=20ms stopping-time={}ms"
    limit = value(solve(line.format(100)), "ms")

    for time, said in ((float(limit) - 0.01, False), (float(limit) + 0.01, True)):
        worked = solve(line.format(f"{time:.3f}"))
        assert (worked.word is not None and "long" in str(worked.word).lower()) is said or worked.refusal, worked.word
