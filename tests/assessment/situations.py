"""Situations to draw inputs from, for every problem: ranges as a drill would have them, and the edges that slips need.

Each problem has one or more situations, each key of them the texts to choose from. Where a problem has several, each is
drawn as often as the others.
"""

from fractions import Fraction
from random import Random

from trainer.units import digits

Situation = dict[str, list[str]]


def span(first: float, last: float, step: float, unit: str) -> list[str]:
    start, stride = Fraction(str(first)), Fraction(str(step))
    return [f"{digits(start + n * stride, 3)} {unit}" for n in range(round((last - first) / step) + 1)]


STOP = {"stopping-time": span(60, 400, 1, "ms")}
DEVICE = {"device-response": span(8, 45, 1, "ms")}
TIMES = {**STOP, **DEVICE}
CHAIN = {**TIMES, "control-response": span(8, 40, 1, "ms"), "monitor-allowance": span(8, 45, 1, "ms")}
SIZES = [f"{size} mm" for size in (14, 18, 20, 24, 25, 30, 34, 40)]
BLANKED = {
    "beams-blanked": ["1", "2", "3"],
    "beam-pitch": ["8 mm", "9 mm", "10 mm", "12.5 mm", "20 mm"],
}
OVER = {"hazard-height": span(400, 2200, 50, "mm"), "upper-edge-height": span(950, 2300, 25, "mm")}
YES = {"unverified": ["yes"]}
MEASURED = [f"{text} mm" for text in ("6", "9", "10", "14")]
READINGS = {"readings": [], "unverified": ["yes"]}
BEND = {
    "tensile-strength": ["210 MPa", "270 MPa", "400 MPa", "450 MPa", "520 MPa", "700 MPa"],
    "thickness": span(0.8, 10, 0.2, "mm"),
    "bend-length": span(150, 3000, 50, "mm"),
    "die-opening": [f"{die} mm" for die in (16, 20, 24, 32, 40, 50, 63, 80)],
}
TOOL = {**BEND, "tool-length": span(100, 2500, 50, "mm")}
PARTS = ("finger", "toes", "hand", "arm", "foot", "leg", "head", "body")

SITUATIONS: dict[str, list[Situation]] = {
    "us-presence-sensing": [STOP, {"stopping-time": ["500 ms", "1000 ms"]}],
    "us-two-hand-control": [STOP, {"stopping-time": ["500 ms", "1000 ms"]}],
    "us-two-hand-trip": [
        {"strokes-per-minute": span(30, 180, 1, "/min"), "engaging-points": [str(n) for n in range(2, 15)]}
    ],
    "us-self-initiation": [
        {
            "stopping-times": [],
            "press-response": span(8, 25, 1, "ms"),
            "device-response": span(18, 45, 1, "ms"),
            "monitor-allowance": span(8, 25, 1, "ms"),
            "penetration": ["1.612 in", "2.462 in", "3.074 in", "3.312 in", "40 mm", "62 mm"],
            **YES,
        }
    ],
    "ansi-presence-sensing": [
        {**CHAIN, "object-sensitivity": SIZES},
        {**CHAIN, "object-sensitivity": SIZES[:4], **BLANKED},
        {**CHAIN, "object-sensitivity": ["30 mm", "40 mm"], "beams-blanked": ["2"], "beam-pitch": ["20 mm"], **YES},
    ],
    "ansi-two-hand-control": [{**CHAIN, **YES}],
    "iso-presence-sensing": [
        {**TIMES, "detection-capability": [*SIZES, "50 mm", "60 mm"]},
        {**TIMES, "detection-capability": SIZES[:6], **BLANKED},
        {"stopping-time": span(120, 320, 1, "ms"), **DEVICE, "detection-capability": SIZES, **OVER},
        {"stopping-time": span(8, 40, 1, "ms"), **DEVICE, "detection-capability": [*MEASURED, "20 mm"]},
    ],
    "press-table-presence-sensing": [
        {**TIMES, "detection-capability": [*SIZES, "50 mm"]},
        {"stopping-time": span(8, 40, 0.5, "ms"), **DEVICE, "detection-capability": ["14 mm", "20 mm", "30 mm"]},
    ],
    "iso-multi-beam": [
        {**TIMES, "beams": ["1", "2", "3", "4"]},
        {**TIMES, "beams": ["2", "3", "4"], **OVER},
    ],
    "iso-parallel-field": [
        {**TIMES, "detection-capability": ["30 mm", "50 mm"], "field-height": span(50, 1000, 25, "mm")}
    ],
    "iso-angled-field": [
        {**TIMES, "detection-capability": ["30 mm", "40 mm"], "field-height": span(50, 1000, 25, "mm"),
         "angle": ["10 deg", "20 deg", "25 deg", "45 deg", "60 deg"]}
    ],
    "iso-pressure-mat": [{**TIMES, "step-height": span(50, 300, 10, "mm")}, TIMES],
    "iso-two-hand-control": [
        {"stopping-time": span(30, 300, 1, "ms"), **DEVICE},
        {"stopping-time": span(20, 300, 1, "ms"), **DEVICE, "shrouded": ["yes"]},
        {"stopping-time": span(10, 45, 1, "ms"), "device-response": span(5, 15, 1, "ms"), "shrouded": ["yes"]},
    ],
    "iso-interlocked-guard": [
        {**TIMES, "opening-credit": span(20, 60, 5, "ms"), "intrusion": ["80 mm", "100 mm", "120 mm", "200 mm"]}
    ],
    "distancing-field": [{"stopping-time": span(205, 400, 1, "ms")}],
    "approach-overrun": [
        {"speed": span(20, 200, 5, "mm/s"), "response": span(40, 160, 5, "ms"),
         "deceleration": span(400, 3000, 50, "mm/s2")}
    ],
    "closing-time": [{"gap": span(4, 150, 0.5, "mm"), "speed": span(2, 200, 1, "mm/s")}],
    "safe-distance-by-procedure": [{"hand-distance": span(80, 200, 5, "mm")}],
    "effective-object-sensitivity": [{"object-sensitivity": SIZES, **BLANKED}],
    "longest-stopping-time": [
        {"distance": span(200, 900, 1, "mm"), "object-sensitivity": SIZES, **DEVICE, "basis": ["ansi", "iso", "iso"]}
    ],
    "monitor-limit": [
        {"distance": span(450, 900, 1, "mm"), "object-sensitivity": SIZES, **DEVICE,
         "stopping-time": span(60, 140, 1, "ms")}
    ],
    "us-guard-opening": [
        {"distance": span(0.5, 31.5, 0.25, "in")},
        {"distance": ["1.5 in", "2.5 in", "3.5 in", "5.5 in", "6.5 in", "7.5 in", "12.5 in", "15.5 in", "17.5 in"]},
        {"distance": ["0.5 in", "0.75 in", "1 in", "1.25 in"]},
    ],
    "iso-guard-opening": [
        {"shape": ["slot", "square", "round"], "opening": span(3, 60, 0.5, "mm")},
        {"shape": ["slot"], "opening": span(4, 50, 0.5, "mm"), "slot-length": span(70, 300, 10, "mm")},
        {"shape": ["slot", "square", "round"], "opening": ["4 mm", "6 mm", "8 mm", "10 mm", "12 mm", "20 mm", "30 mm"]},
    ],
    "barrier-reach-over": [
        {"hazard-height": span(300, 2500, 50, "mm"), "barrier-height": span(1000, 2500, 50, "mm"), **YES}
    ],
    "crush-gap": [{"body-part": list(PARTS), "gap": span(10, 520, 10, "mm")}],
    "stopping-time-from-readings": [
        {**READINGS, "rule": ["highest"]}, {**READINGS, "rule": ["mean-plus-3s"]}, {**READINGS, "rule": ["larger"]}
    ],
    "air-bend-force": [BEND],
    "tool-load": [BEND, TOOL],
    "hazard-rating": [
        {"severity": ["0.5", "2", "4", "6", "10", "15"], "exposure": ["0.5", "1.5", "2.5", "4", "5"],
         "likelihood": ["1.5", "2", "5", "8", "10"], "persons": ["2", "5", "12", "30", "60"]}
    ],
}  # fmt: skip


def drawn(name: str, rng: Random) -> dict[str, str]:
    """Inputs of a problem, as text."""
    situation = rng.choice(SITUATIONS[name])
    texts = {key: rng.choice(values) for key, values in situation.items() if values}
    if "readings" in situation:
        texts["readings"] = _readings(rng, 10)
    if "stopping-times" in situation:
        texts["stopping-times"] = _readings(rng, 3)
    return texts


def _readings(rng: Random, count: int) -> str:
    base = rng.randrange(90, 240)
    return ", ".join(f"{base + rng.randrange(14)} ms" for _ in range(count))
