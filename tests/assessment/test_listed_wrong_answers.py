"""The wrong answers that the sheets of rules list with their cause: each comes out under the slip of that cause.

Each row names the part of the sheet that prints the number ("US" or "international"), and gives the number as printed
there. All slips of the problem compete. Where two causes come to the same number in the case as printed, both are named
as a tie; those rows stand apart.
"""

import pytest
from safeguarding.asking import split

from trainer.assessment.band import Verdict, band
from trainer.assessment.diagnosis import SlipFound, explain
from trainer.safeguarding.problems import problem
from trainer.units import magnitude, parse

PRESS = "us-presence-sensing stopping-time={}ms"
TRIP = "us-two-hand-trip strokes-per-minute=120/min engaging-points=14"
PSDI = ("us-self-initiation stopping-times={} press-response={}s device-response={}s monitor-allowance={}s "
        "penetration={}in unverified=yes")  # fmt: skip
CHAIN = "ansi-presence-sensing stopping-time=120ms control-response=25ms device-response=20ms monitor-allowance=29ms"
CASE_B = f"{CHAIN} object-sensitivity=30mm"
BLANKED = CHAIN + " object-sensitivity={}mm beam-pitch={}mm beams-blanked={} unverified=yes"
LONGEST = "longest-stopping-time distance={}in object-sensitivity={}mm device-response={}ms"
TWO_HANDS = ("ansi-two-hand-control stopping-time=120ms control-response=25ms device-response=10ms "
             "monitor-allowance=29ms unverified=yes")  # fmt: skip
HANDS_OFF = "safe-distance-by-procedure hand-distance=110mm"
ISO = "iso-presence-sensing stopping-time={}ms device-response={}ms detection-capability={}mm"
OVER = ISO.format(100, 0, 14) + " hazard-height={}mm upper-edge-height={}mm"
TABLE = "press-table-presence-sensing stopping-time={}ms device-response=0ms detection-capability={}mm"
LYING = "iso-parallel-field stopping-time={}ms device-response=0ms detection-capability=30mm field-height={}mm"
MAT = "iso-pressure-mat stopping-time=485ms device-response=35ms"
BUTTONS = "iso-two-hand-control stopping-time={}ms device-response=0ms"
USED = "stopping-time-from-readings readings={} rule=larger unverified=yes"
Z1 = "180ms;184ms;182ms;181ms;186ms;183ms;182ms;185ms;181ms;184ms"
Z2 = "95ms;98ms;96ms;97ms;99ms;95ms;96ms;97ms;98ms;112ms"
Z3 = "142ms;150ms;147ms;151ms;149ms;146ms;148ms;152ms;145ms;150ms"
SLOT = "iso-guard-opening shape=slot opening={}mm"

US = [
    ("US 1.5, wrong-answer rules", "us-guard-opening distance=3.5in", "0.625 in", "larger-at-the-edge"),
    ("US F1, wrong-answer rules", PRESS.format(190), "11970 in", "milliseconds-as-seconds"),
    ("US F1, wrong-answer rules", PRESS.format(190), "11.40 in", "speed-60"),
    ("US F1, wrong-answer rules", PRESS.format(190), "304 in", "millimetres-as-inches"),
    ("US F1, wrong-answer rules", PRESS.format(190), "11.5 in", "rounds-down"),
    ("US F1, wrong-answer rules", PRESS.format(190), "11.97 in", "equal-is-enough"),
    ("US F1, wrong-answer rules", PRESS.format(190), "15.05 in", "adds-penetration"),  # 11.97 + 3.077
    ("US F1, 0.500 s", PRESS.format(500), "31.5 in", "equal-is-enough"),
    ("US F1, 0.500 s", PRESS.format(500), "800.1 mm", "equal-is-enough"),
    ("US F1, 0.500 s", "us-two-hand-control stopping-time=500ms", "31.5 in", "equal-is-enough"),
    ("US 8, question 3", PRESS.format(72), "4.5 in", "rounds-down"),
    ("US F2, wrong answers", TRIP, "1.125 in", "half-times-share"),
    ("US F2, wrong answers", TRIP, "2.25 in", "leaves-out-half-turn"),
    ("US F2, wrong answers", TRIP, "47.25 in", "one-engaging-point"),
    ("US F2, wrong answers", TRIP, "72.00 in", "rate-upside-down"),
    ("US F7, row 1", BLANKED.format(14, 10, 1), "13.16 in", "nominal-sensitivity"),
    ("US F7, row 2", BLANKED.format(14, 10, 2), "13.16 in", "nominal-sensitivity"),
    ("US F7, row 3", BLANKED.format(14, 10, 3), "13.16 in", "nominal-sensitivity"),
    ("US F7, row 4", BLANKED.format(30, 20, 1), "15.30 in", "nominal-sensitivity"),
    ("US F7, row 5", BLANKED.format(20, "12.5", 1), "13.96 in", "nominal-sensitivity"),
    ("US F7, row 6", BLANKED.format(18, 9, 2), "13.69 in", "nominal-sensitivity"),
    ("US F7, row 7", BLANKED.format(30, 20, 2), "15.30 in", "nominal-sensitivity"),
    ("US F7, quick rule", BLANKED.format(14, 10, 2), "354.2 mm", "pitch-added-to-distance"),  # 334.2 + 2 × 10
    ("US F7, quick rule", BLANKED.format(14, 10, 2), "341 mm", "beams-as-millimetres"),  # 3.4 × 2 more than 334.2
    ("US F7, quick rule", BLANKED.format(14, 10, 2), "381.8 mm", "beams-times-sensitivity"),  # 28 mm
    ("US F7, quick rule", BLANKED.format(30, 20, 2), "20.65 in", "formula-beyond-limit"),  # 12.22 + 8.432
    ("US F8, rounding up", LONGEST.format(12, 14, 15), "161 ms", "rounds-up"),
    ("US F8, rounding up", LONGEST.format(15, 30, 20), "170 ms", "rounds-up"),
    ("US F8, rounding up", LONGEST.format(15, 30, 20), "169.3 ms", "rounds-up"),
    ("US F8, D/K without the penetration", LONGEST.format(15, 30, 20), "218.1 ms", "leaves-out-penetration"),
    ("US F8, forgetting Tr", LONGEST.format(12, 14, 15), "175.6 ms", "leaves-out-device"),
    ("US F8, forgetting Tr", LONGEST.format(15, 30, 20), "189.2 ms", "leaves-out-device"),
    ("US F8, forgetting Tr", LONGEST.format(18, 30, 20), "236.9 ms", "leaves-out-device"),
    ("US F8, forgetting Tr", LONGEST.format(8, 14, 12), "112.1 ms", "leaves-out-device"),
    ("US F9, adds the penetration", TWO_HANDS, "14.67 in", "adds-penetration"),  # 11.59 + 3.077
    ("US F10, 100 mm", HANDS_OFF, "100 mm", "hundred-millimetres"),
    ("US F10, 3 1/2 in", HANDS_OFF, "3.5 in", "three-and-a-half-inches"),
    ("US F10, 3 1/2 in", HANDS_OFF, "88.90 mm", "three-and-a-half-inches"),
]  # fmt: skip
CASE_B_ROWS = [
    ("leaves-out-penetration", "12.22", "310.4"), ("bare-press-rule", "7.560", "192.0"),
    ("leaves-out-monitor-and-penetration", "10.39", "264.0"), ("leaves-out-monitor", "13.47", "342.2"),
    ("leaves-out-monitor", "13.472", "342.2"), ("leaves-out-monitor", "13.4723", "342.2"),
    ("leaves-out-device", "14.04", "356.6"), ("leaves-out-control", "13.72", "348.6"),
    ("control-twice", "16.87", "428.6"), ("fifth-of-everything", "15.55", "395.0"),
    ("subtracts-penetration", "9.145", "232.3"), ("loses-the-bracket", "15.96", "405.4"),
    ("sensitivity-as-penetration", "13.40", "340.4"), ("millimetres-in-inch-formula", "113.3", "2877"),
    ("penetration-inside-bracket", "206.1", "5235"), ("mixed-sum-as-inches", "313.5", "7962"),
    ("milliseconds-as-seconds", "12225", "310517"), ("milliseconds-as-hundredths", "125.3", "3183"),
    ("speed-100", "22.48", "570.9"), ("international-form-no-floor", "17.26", "438.4"),
    ("international-form-one-speed", "20.31", "516.0"), ("rounds-down", "15.25", "387.4"),
    ("rounds-down", "15.25", "387.35"), ("rounds-down-far", "15.00", "381.0"),
]  # fmt: skip
US += [("US F4, case B", CASE_B, f"{number} {unit}", code)
       for code, inches, mm in CASE_B_ROWS for number, unit in ((inches, "in"), (mm, "mm"))]  # fmt: skip
US += [("US F4, case B", CASE_B, "313.5 mm", "adds-inches-to-millimetres")]
PSDI_ROWS = [  # the times of the row, and what it prints for Tm once, the mean of three, no Dp
    (("142ms;150ms;147ms", ".015", ".030", ".015", "3.312"), "16.54", "17.26", "14.17"),
    (("110ms;118ms;121ms", ".012", ".025", ".012", "3.074"), "13.78", "14.25", "11.47"),
    (("200ms;205ms;198ms", ".020", ".040", ".020", "2.462"), "20.42", "21.42", "19.21"),
    (("160ms;172ms;169ms", ".018", ".035", ".017", "1.612"), "16.86", "17.61", "16.32"),
]
US += [(f"US F3, row {number}", PSDI.format(*given), f"{inches} in", code)
       for number, (given, _once, mean, none) in enumerate(PSDI_ROWS, 1)
       for code, inches in (("mean-of-positions", mean), ("leaves-out-penetration", none))]  # fmt: skip
US += [("US F3, row 4", PSDI.format(*PSDI_ROWS[3][0]), "16.86 in", "monitor-once")]

INTERNATIONAL = [
    ("international 1.2, O3", ISO.format(170, 130, 14), "480 mm", "no-500-floor"),
    ("international 1.4, P2 by 1.2", TABLE.format(100, 20), "248 mm", "general-line"),
    ("international 1.4, P3 by 1.2", TABLE.format(100, 30), "328 mm", "general-line"),
    ("international 1.4, P4 by 1.2", TABLE.format(100, 40), "408 mm", "general-line"),
    ("international 1.4, P6 by 1.2", TABLE.format(250, 30), "528 mm", "general-line"),
    ("international 1.5, R4", OVER.format(900, 1350), "760 mm", "interpolates-heights"),  # C_RO 600
    ("international 1.5, R6", OVER.format(1700, 1000), "1260 mm", "next-higher-hazard"),  # C_RO 1100
    ("international 1.5, R6", OVER.format(1700, 1000), "1285 mm", "interpolates-heights"),  # C_RO 1125
    ("international 1.5, R9", OVER.format(1000, 1599), "203.5 mm", "interpolates-heights"),  # C_RO 3.5
    ("international 1.6, H5", LYING.format(200, 1000), "1120 mm", "no-arm-floor"),
    ("international 1.8, M1", MAT, "80.76 in", "inch-constants"),
    ("international 1.9, T5 with 2000", BUTTONS.format(250), "750 mm", "hand-speed"),
    ("international 1.9, T1 not raised", BUTTONS.format(60) + " shrouded=yes", "96 mm", "no-100-floor"),
    ("international 1.9, T6 not raised", BUTTONS.format(50) + " shrouded=yes", "80 mm", "no-100-floor"),
    ("international 1.13, Z1", USED.format(Z1), "182.8 ms", "mean-only"),
    ("international 1.13, Z1", USED.format(Z1), "188.3 ms", "population-deviation"),
    ("international 1.13, Z1", USED.format(Z1), "186 ms", "highest-only"),
    ("international 1.13, Z2", USED.format(Z2), "98.3 ms", "mean-only"),
    ("international 1.13, Z2", USED.format(Z2), "112.5 ms", "population-deviation"),
    ("international 1.13, Z3", USED.format(Z3), "148.0 ms", "mean-only"),
    ("international 1.13, Z3", USED.format(Z3), "156.7 ms", "population-deviation"),
    ("international 1.13, Z3", USED.format(Z3), "152 ms", "highest-only"),
    ("international 1.14, two hands", BUTTONS.format(60), "646 mm", "draft-550"),
    ("international 1.14, two hands", BUTTONS.format(100), "710 mm", "draft-550"),
    ("international 1.14, two hands", BUTTONS.format(200), "870 mm", "draft-550"),
    ("international 1.14, lying field", LYING.format(200, 300), "1520 mm", "height-left-out"),
    ("international 1.14, lying field", LYING.format(200, 1000), "1520 mm", "height-left-out"),
    ("international 1.14, lying field", LYING.format(350, 300), "1760 mm", "height-left-out"),
    ("international 1.15", ISO.format(200, 0, 30), "438.2 mm", "old-british-form"),
    ("international 2.3, older numbers", SLOT.format(25), "200 mm", "older-numbers"),
    ("international 2.3, older numbers", SLOT.format(9), "120 mm", "older-numbers"),
    ("international 3.3, V3", "approach-overrun speed=100mm/s response=90ms", "9000 mm", "milliseconds-as-seconds"),
    ("international 5, E-1", ISO.format(300, 0, 14), "480 mm", "no-500-floor"),
    ("international 5, E-2", ISO.format(320, 0, 14), "640 mm", "no-second-speed"),
    ("international 5, E-3", ISO.format(100, 0, 30), "288 mm", "slow-speed-first"),
    ("international 5, E-4", ISO.format(290, 30, 14), "500 mm", "leaves-out-device"),
    ("international 5, E-5", ISO.format(100, 0, 10), "168 mm", "negative-intrusion"),
    ("international 5, E-6", ISO.format(30, 0, 14), "60 mm", "no-100-floor"),
    ("international 5, E-7", ISO.format(100, 0, 50), "488 mm", "line-above-40"),
    ("international 5, E-8", TABLE.format(100, 40), "408 mm", "general-line"),
    ("international 5, E-11", OVER.format(900, 1350), "760 mm", "interpolates-heights"),
    ("international 5, E-14", OVER.format(1000, 1400), "1360 mm", "swaps-heights"),  # C_RO 1200
    ("international 5, E-15", LYING.format(200, 1000), "1120 mm", "no-arm-floor"),
    ("international 5, E-16", LYING.format(200, 300), "1640 mm", "height-added"),
    ("international 5, E-17", BUTTONS.format(100), "450 mm", "hand-speed"),
    ("international 5, E-18", BUTTONS.format(100), "160 mm", "leaves-out-250"),
    ("international 5, E-19", BUTTONS.format(60), "96250 mm", "milliseconds-as-seconds"),
    ("international 5, E-21", USED.format(Z3), "148 ms", "mean-only"),
    ("international 5, E-22", "barrier-reach-over hazard-height=1000mm barrier-height=1600mm unverified=yes",
     "300 mm", "low-risk-table"),
    ("international 5, E-24", SLOT.format(25) + " slot-length=100mm", "200 mm", "short-slot-relief"),
    ("international 5, E-27", ISO.format(200, 0, 30), "438.2 mm", "old-british-form"),
    ("international 5, E-28", MAT, "2051 mm", "inch-constants"),
]  # fmt: skip
# In these cases as printed another cause comes to the same number: both are named, as a tie.
TIES = [
    *[(f"US F3, row {number}", PSDI.format(*PSDI_ROWS[number - 1][0]), f"{PSDI_ROWS[number - 1][1]} in",
       {"monitor-once", "leaves-out-press-response"}) for number in (1, 2, 3)],  # there Tp is as long as Tm
    ("international 1.13, Z2", USED.format(Z2), "112 ms", {"highest-only", "two-deviations", "last-reading"}),
    ("international 5, E-12", OVER.format(1000, 1500), "200 mm", {"edge-height-rounded-up", "leaves-out-reaching-over"}),
    ("international 5, E-20", ISO.format(100, 0, 14) + " beams-blanked=2 beam-pitch=10mm", "200 mm",
     {"nominal-sensitivity", "leaves-out-intrusion"}),  # a 14 mm curtain has no C
    ("international 5, E-23", SLOT.format(25) + " slot-length=100mm", "120 mm", {"square-for-slot", "row-before"}),
]  # fmt: skip


def found(line: str, typed: str) -> tuple[SlipFound, ...]:
    name, texts = split(line)
    asked = problem(name)
    numbers = asked.numbers(asked.read(texts))
    return explain(asked, numbers, parse(typed, asked.answer.dimension), [slip.code for slip in asked.slips])


def name_of(row: tuple) -> str:
    return f"{row[0]}, {row[2]}"


@pytest.mark.parametrize("row", [*US, *INTERNATIONAL], ids=name_of)
def test_a_listed_wrong_answer_comes_out_under_the_slip_of_its_cause(row):
    _source, line, typed, code = row

    first, *_others = found(line, typed)

    assert (first.codes, first.tied) == ((code,), False)


@pytest.mark.parametrize("row", TIES, ids=name_of)
def test_two_causes_of_one_listed_number_are_told_as_a_tie(row):
    _source, line, typed, codes = row

    assert {slip.codes for slip in found(line, typed) if slip.tied} == {(code,) for code in codes}


def test_a_whole_distance_divided_and_no_response_taken_off_are_two_slips_at_once():  # US F8, 15 in: 238.1 ms
    first, *_others = found(LONGEST.format(15, 30, 20), "238.1 ms")

    assert first.codes == ("leaves-out-penetration", "leaves-out-device")


@pytest.mark.parametrize("row", [*US, *INTERNATIONAL, *TIES], ids=name_of)
def test_no_listed_wrong_answer_on_the_unsafe_side_is_ever_right(row):
    name, texts = split(row[1])
    asked = problem(name)
    right = asked.figure(asked.numbers(asked.read(texts)))
    if right is None:  # the rule gives no figure there at all
        return
    unit = asked.answer.unit
    accepted = band(right.sense, unit, right.value, asked.answer.grid[unit], asked.answer.grid[unit] * 0)

    assert accepted.verdict(magnitude(parse(row[2], asked.answer.dimension), unit)) is not Verdict.RIGHT
