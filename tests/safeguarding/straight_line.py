"""The same sums a second time: plain Decimal, straight from the reference sheets, nothing shared with the program.

Lengths are in mm, times in ms, speeds in mm/s, forces in kN. Each function returns the rounded result, or None where
the rule gives none. The tables are written out again on purpose.
"""

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal, getcontext

getcontext().prec = 60
D = Decimal
NOUGHT, ONE, TENTH = D(0), D(1), D("0.1")
HAND = D("1600.2")
IN = D("25.4")


def up(value: Decimal, step: Decimal = ONE) -> Decimal:
    return (value / step).to_integral_value(ROUND_CEILING) * step


def down(value: Decimal, step: Decimal = ONE) -> Decimal:
    return (value / step).to_integral_value(ROUND_FLOOR) * step


def above(value: Decimal, step: Decimal = ONE) -> Decimal:
    return down(value, step) + step


def below(value: Decimal, step: Decimal) -> Decimal:
    return up(value, step) - step


# --- United States ---------------------------------------------------------------------------------------------------


def press_rule(stopping_time):
    return D("1.6002") * stopping_time


def trip(strokes_per_minute, engaging_points):
    n = D(engaging_points)
    return D("1600.2") * 60 * (n + 2) / (2 * n * strokes_per_minute)


def self_initiation(stopping_times, press_response, device_response, monitor_allowance, penetration):
    total = max(stopping_times) + press_response + device_response + 2 * monitor_allowance
    return D("1.6002") * total + penetration


def depth(size):
    """D_pf in mm, or None from 2.5 in on."""
    if size >= D("63.5"):
        return None
    return max(D(0), D("3.4") * (size - D("0.276") * IN))


def consensus(
    *,
    stopping_time,
    control_response,
    device_response,
    monitor_allowance,
    object_sensitivity,
    beams_blanked=0,
    beam_pitch=NOUGHT,
    hand_speed=HAND,
):
    size = object_sensitivity + beams_blanked * beam_pitch
    if depth(size) is None:
        return None
    total = stopping_time + control_response + device_response + monitor_allowance
    return hand_speed * total / 1000 + depth(size)


def consensus_two_hand(stopping_time, control_response, device_response, monitor_allowance):
    return D("1.6002") * (stopping_time + control_response + device_response + monitor_allowance)


def effective(object_sensitivity, beams_blanked, beam_pitch):
    return object_sensitivity + beams_blanked * beam_pitch


def longest(distance, object_sensitivity, device_response, basis="ansi"):
    if basis == "us":
        left = distance / D("1.6002") - device_response
        return below(left, TENTH) if left > 0 else None
    if basis == "iso":
        left = iso_longest(distance, object_sensitivity)
    else:
        left = None if depth(object_sensitivity) is None else (distance - depth(object_sensitivity)) / D("1.6002")
    if left is None or left - device_response <= 0:
        return None
    return down(left - device_response, TENTH)


def monitor(distance, object_sensitivity, device_response, stopping_time):
    if depth(object_sensitivity) is None:
        return None
    limit = (distance - depth(object_sensitivity)) / D("1.6002") - device_response
    return down(limit, TENTH) if limit > 0 and stopping_time <= limit else None


O10 = [("0.5", "1.5", "0.25"), ("1.5", "2.5", "0.375"), ("2.5", "3.5", "0.5"), ("3.5", "5.5", "0.625"),
       ("5.5", "6.5", "0.75"), ("6.5", "7.5", "0.875"), ("7.5", "12.5", "1.25"), ("12.5", "15.5", "1.5"),
       ("15.5", "17.5", "1.875"), ("17.5", "31.5", "2.125")]  # fmt: skip


def us_opening(distance=None, opening=None):
    rows = [tuple(D(cell) * IN for cell in row) for row in O10]
    if distance is not None:
        fits = [size for first, last, size in rows if first <= distance <= last]
        return down(min(fits), TENTH) if fits else None
    first = [row for row in rows if opening <= row[2]]
    if not first:
        return None
    return up(first[0][0]) if first[0] is rows[0] else above(first[0][0])


# --- international ---------------------------------------------------------------------------------------------------


def c_of(d):
    if d > 70:
        return None
    return D(850) if d > 40 else max(D(0), 8 * (d - 14))


def two_speeds(t, c):
    s = 2 * t + c
    return max(D(100), s) if s <= 500 else max(D(500), D("1.6") * t + c)


CRO_B = [900, 1000, 1100, 1200, 1300, 1400, 1600, 1800, 2000, 2200, 2400, 2600]
CRO = {
    2600: [0] * 12,
    2500: [400, 400, 350, 300, 300, 300, 300, 300, 250, 150, 100, 0],
    2400: [550, 550, 550, 500, 450, 450, 400, 400, 300, 250, 100, 0],
    2200: [800, 750, 750, 700, 650, 650, 600, 550, 400, 250, 0, 0],
    2000: [950, 950, 850, 850, 800, 750, 700, 550, 400, 0, 0, 0],
    1800: [1100, 1100, 950, 950, 850, 800, 750, 550, 0, 0, 0, 0],
    1600: [1150, 1150, 1100, 1000, 900, 850, 750, 450, 0, 0, 0, 0],
    1400: [1200, 1200, 1100, 1000, 900, 850, 650, 0, 0, 0, 0, 0],
    1200: [1200, 1200, 1100, 1000, 850, 800, 0, 0, 0, 0, 0, 0],
    1000: [1200, 1150, 1050, 950, 750, 700, 0, 0, 0, 0, 0, 0],
    800: [1150, 1050, 950, 800, 500, 450, 0, 0, 0, 0, 0, 0],
    600: [1050, 950, 750, 550, 0, 0, 0, 0, 0, 0, 0, 0],
    400: [900, 700, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    200: [600, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    0: [0] * 12,
}
LOW_B = [1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500]
LOW = {
    2500: [0] * 9,
    2400: [100] * 8 + [0],
    2200: [600, 600, 500, 500, 400, 350, 250, 0, 0],
    2000: [1100, 900, 700, 600, 500, 350, 0, 0, 0],
    1800: [1100, 1000, 900, 900, 600, 0, 0, 0, 0],
    1600: [1300, 1000, 900, 900, 500, 0, 0, 0, 0],
    1400: [1300, 1000, 900, 800, 100, 0, 0, 0, 0],
    1200: [1400, 1000, 900, 500, 0, 0, 0, 0, 0],
    1000: [1400, 1000, 900, 300, 0, 0, 0, 0, 0],
    800: [1300, 900, 600, 0, 0, 0, 0, 0, 0],
    600: [1200, 500, 0, 0, 0, 0, 0, 0, 0],
    400: [1200, 300, 0, 0, 0, 0, 0, 0, 0],
    200: [1100, 200, 0, 0, 0, 0, 0, 0, 0],
    0: [1100, 200, 0, 0, 0, 0, 0, 0, 0],
}
HIGH_B = [1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500, 2700]
HIGH = {
    2700: [0] * 10,
    2600: [900, 800, 700, 600, 600, 500, 400, 300, 100, 0],
    2400: [1100, 1000, 900, 800, 700, 600, 400, 300, 100, 0],
    2200: [1300, 1200, 1000, 900, 800, 600, 400, 300, 0, 0],
    2000: [1400, 1300, 1100, 900, 800, 600, 400, 0, 0, 0],
    1800: [1500, 1400, 1100, 900, 800, 600, 0, 0, 0, 0],
    1600: [1500, 1400, 1100, 900, 800, 500, 0, 0, 0, 0],
    1400: [1500, 1400, 1100, 900, 800, 0, 0, 0, 0, 0],
    1200: [1500, 1400, 1100, 900, 700, 0, 0, 0, 0, 0],
    1000: [1500, 1400, 1000, 800, 0, 0, 0, 0, 0, 0],
    800: [1500, 1300, 900, 600, 0, 0, 0, 0, 0, 0],
    600: [1400, 1300, 800, 0, 0, 0, 0, 0, 0, 0],
    400: [1400, 1200, 400, 0, 0, 0, 0, 0, 0, 0],
    200: [1200, 900, 0, 0, 0, 0, 0, 0, 0, 0],
    0: [1100, 500, 0, 0, 0, 0, 0, 0, 0, 0],
}


def look_over(cells, columns, a, b):
    """Column: largest b not above the real one; row: the larger of the two around a."""
    fitting = [number for number, edge in enumerate(columns) if edge <= b]
    if not fitting:
        return None
    column = fitting[-1]
    lower = max(height for height in cells if height <= a)
    higher = min((height for height in cells if height >= a), default=lower)
    return D(max(cells[lower][column], cells[higher][column]))


def with_over(through, t, a, b):
    if through is None or a is None:
        return through
    c = look_over(CRO, CRO_B, a, b)
    return None if c is None else max(through, two_speeds(t, c))


def light_curtain(
    *,
    stopping_time,
    device_response,
    detection_capability,
    beams_blanked=0,
    beam_pitch=NOUGHT,
    hazard_height=None,
    upper_edge_height=None,
):
    t = stopping_time + device_response
    c = c_of(detection_capability + beams_blanked * beam_pitch)
    return None if c is None else with_over(two_speeds(t, c), t, hazard_height, upper_edge_height)


def press_table(stopping_time, device_response, detection_capability):
    for last, c in ((14, 0), (20, 80), (30, 130), (40, 240), (70, 850)):
        if detection_capability <= last:
            return two_speeds(stopping_time + device_response, D(c))
    return None


def multi_beam(stopping_time, device_response, beams, hazard_height=None, upper_edge_height=None):
    t = stopping_time + device_response
    return with_over(D("1.6") * t + (1200 if beams == 1 else 850), t, hazard_height, upper_edge_height)


def lying(stopping_time, device_response, detection_capability, field_height):
    if field_height > 1000 or detection_capability > field_height / 15 + 50:
        return None
    t = stopping_time + device_response
    return D("1.6") * t + max(D(850), 1200 - D("0.4") * field_height)


def angled(stopping_time, device_response, detection_capability, field_height, angle):
    flat = lying(stopping_time, device_response, detection_capability, field_height)
    c = c_of(detection_capability)
    standing = None if c is None else two_speeds(stopping_time + device_response, c)
    if angle < 30:
        return flat
    if angle > 30:
        return standing
    return None if flat is None or standing is None else max(flat, standing)


def mat(stopping_time, device_response, step_height=NOUGHT):
    return D("1.6") * (stopping_time + device_response) + 1200 - D("0.4") * step_height


def two_hand(stopping_time, device_response, shrouded="no"):
    way = D("1.6") * (stopping_time + device_response)
    return max(D(100), way) if shrouded == "yes" else way + 250


def guard(stopping_time, device_response=NOUGHT, opening_credit=NOUGHT, intrusion=NOUGHT):
    return D("1.6") * max(D(0), stopping_time + device_response - opening_credit) + intrusion


def iso_longest(distance, size):
    c = c_of(size)
    if c is None or distance < 100:
        return None
    return (distance - c) / 2 if distance < 500 else (distance - c) / D("1.6")


def distancing(stopping_time, made_before_marking="no"):
    return D(1000) if made_before_marking == "yes" else 1000 + 20 * up(max(D(0), stopping_time - 200) / 10)


OPENINGS = [(4, 2, 2, 2), (6, 10, 5, 5), (8, 20, 15, 5), (10, 80, 25, 20), (12, 100, 80, 80), (20, 120, 120, 120),
            (30, 850, 120, 120), (40, 850, 200, 120), (120, 850, 850, 850)]  # fmt: skip


def iso_opening(shape, opening, slot_length=None):
    for last, slot, square, circle in OPENINGS:
        if opening <= last:
            if shape == "slot" and last == 30 and slot_length is not None and slot_length <= 65:
                return D(200)
            return D({"slot": slot, "square": square, "round": circle}[shape])
    return None


def barrier(hazard_height, barrier_height, risk):
    return look_over(*((LOW, LOW_B) if risk == "low" else (HIGH, HIGH_B)), hazard_height, barrier_height)


GAPS = {"body": 500, "head": 300, "leg": 180, "foot": 120, "toes": 50, "arm": 120, "hand": 100, "finger": 25}


def gap(body_part, gap):
    return D(GAPS[body_part])


def readings_to_use(readings, rule):
    highest = max(readings)
    if rule == "highest":
        return highest
    n = len(readings)
    mean = sum(readings) / n
    s = (sum((reading - mean) ** 2 for reading in readings) / (n - 1)).sqrt()
    return mean + 3 * s if rule == "mean-plus-3s" else max(highest, mean + 3 * s)


def overrun(speed, response, deceleration=None):
    way = speed * response / 1000
    return way if deceleration is None else way + speed * speed / (2 * deceleration)


def closing(gap, speed):
    return gap * 1000 / speed


def procedure(hand_distance):
    return D("101.6")


def air_bend(tensile_strength, thickness, bend_length, die_opening):
    return D("1.42") * tensile_strength * thickness**2 * bend_length / die_opening / 1000


def tool_load(tensile_strength, thickness, bend_length, die_opening, tool_length=None):
    shorter = bend_length if tool_length is None else min(tool_length, bend_length)
    return D("1.42") * tensile_strength * thickness**2 * bend_length / die_opening / shorter


def rating(severity, exposure, likelihood, persons):
    n = next(factor for last, factor in ((2, 1), (7, 2), (15, 4), (50, 8), (10**9, 12)) if persons <= last)
    return D(severity) * D(exposure) * D(likelihood) * n
