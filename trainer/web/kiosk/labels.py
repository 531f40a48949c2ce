"""Short names for what is given and for the steps of a working: a sheet has room for two or three words."""

import re
from types import MappingProxyType

from trainer.safeguarding.result import Step
from trainer.web.language import localise, translate
from trainer.web.words import _l

GIVEN = MappingProxyType(
    {
        "stopping-time": _l("Stopping time"),
        "control-response": _l("Control response"),
        "device-response": _l("Device response"),
        "monitor-allowance": _l("Brake monitor"),
        "object-sensitivity": _l("Object sensitivity"),
        "beams-blanked": _l("Beams blanked"),
        "beam-pitch": _l("Beam pitch"),
        "hand-speed": _l("Hand speed"),
        "strokes-per-minute": _l("Strokes a minute"),
        "engaging-points": _l("Engaging points"),
        "distance": _l("Distance"),
        "detection-capability": _l("The field sees"),
        "beams": _l("Beams"),
        "field-height": _l("Field height"),
        "angle": _l("Angle"),
        "opening-credit": _l("Time to open"),
        "intrusion": _l("Reach through"),
        "step-height": _l("Step height"),
        "made-before-marking": _l("Before marking"),
        "risk": _l("Risk"),
        "hazard-height": _l("Hazard height"),
        "barrier-height": _l("Barrier height"),
        "body-part": _l("Part of the body"),
        "gap": _l("Width of the gap"),
        "readings": _l("Readings"),
        "shape": _l("Shape"),
        "opening": _l("Opening"),
        "speed": _l("Ram speed"),
        "response": _l("Time to react"),
        "basis": _l("Rule"),
        "shrouded": _l("Shrouds"),
        "severity": _l("Severity"),
        "exposure": _l("Exposure"),
        "likelihood": _l("Likelihood"),
        "persons": _l("Persons"),
        "tensile-strength": _l("Strength"),
        "thickness": _l("Thickness"),
        "bend-length": _l("Bend length"),
        "die-opening": _l("Die opening"),
        "tool-length": _l("Tool length"),
    }
)
WORDS = MappingProxyType(
    {
        "yes": _l("yes"),
        "no": _l("no"),
        "slot": _l("slot"),
        "square": _l("square"),
        "round": _l("round"),
        "low": _l("low"),
        "high": _l("high"),
        "finger": _l("finger"),
        "hand": _l("hand"),
        "arm": _l("arm"),
        "foot": _l("foot"),
        "leg": _l("leg"),
        "head": _l("head"),
        "body": _l("body"),
        "toes": _l("toes"),
        "ansi": _l("ANSI"),
        "iso": _l("ISO"),
        "us": _l("US"),
    }
)
CONSTANTS = MappingProxyType(
    {"K_1": _l("Hand speed, near"), "K_2": _l("Hand speed, further out"), "K": _l("Speed"), "c": _l("Factor")}
)
STEPS = MappingProxyType(
    {
        "T": _l("Time to stop"),
        "t_rev": _l("One turn"),
        "T_m": _l("Longest time to closing"),
        "D_m": _l("Distance"),
        "T_max": _l("Longest time"),
        "T_lim": _l("Highest setting"),
        "T_bm": _l("The monitor lets through"),
        "O_eff": _l("The curtain sees"),
        "D_pf": _l("Seen late"),
        "C": _l("Seen late"),
        "D_t": _l("Hand travel"),
        "D_s": _l("Distance"),
        "S_1": _l("With hand speed"),
        "S_2": _l("Over 500 mm"),
        "S": _l("Distance"),
    }
)


def given_label(key: str, step: Step) -> str:
    """Name something that is given, by its key in the problem; a constant by its symbol."""
    return str(GIVEN.get(key) or CONSTANTS.get(step.symbol) or translate(step.label))


def given_symbol(step: Step) -> str:
    """Return the symbol to show; what has no symbol in its source, only a word, has none on the sheet."""
    return "" if step.symbol.isalpha() and step.symbol.islower() and len(step.symbol) > 2 else step.symbol


def given_amount(amount: str) -> str:
    """Write what was drawn: a word in the reader's language, a measure with the reader's decimal mark."""
    return str(WORDS.get(amount) or localise(amount.replace(" deg", "°")))


def step_label(step: Step) -> str:
    """Name a step of the working."""
    return str(STEPS.get(step.symbol) or translate(step.label))


def bare(numbers: str, amount: str) -> str:
    """Leave out the unit of each number where the result, which follows, has the same one."""
    unit = amount.rpartition(" ")[2]
    return re.sub(rf"(?<=\d) {re.escape(unit)}(?![\w/])", "", numbers)
