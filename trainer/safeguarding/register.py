"""What a shop has on file about a machine's safeguard, read into the sum that says how far out it has to stand.

The facts go by the keys of the sums' inputs (``device-response``, ``object-sensitivity`` …) and three of their own.
What is not on file is named, never guessed.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

from trainer import units
from trainer.errors import Missing, UsageError
from trainer.safeguarding.problem import Problem
from trainer.safeguarding.problems import PROBLEMS, problem
from trainer.safeguarding.stopping import KEY, Mounted
from trainer.wording import Sentence, mark, say

RULE, MOUNTED, EVERY = "distance-rule", "mounted-distance", "measure-every"
# Distance sums of safeguards that a press brake has; each asks for a stopping time.
RULES = ("us-presence-sensing", "us-two-hand-control", "ansi-presence-sensing", "iso-presence-sensing",
         "press-table-presence-sensing", "iso-multi-beam", "iso-two-hand-control")  # fmt: skip
NAMES: Mapping[str, str] = {
    RULE: mark("Rule that the distance is worked out by"),
    MOUNTED: mark("Distance as mounted"),
    EVERY: mark("How often the stopping time is measured"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class OnFile:
    """What is on file about a safeguard: ready for the sum, or what is ``missing`` (keys), or what is ``wrong`` with it."""

    mounted: Mounted | None = None
    missing: tuple[str, ...] = ()
    wrong: Sentence | None = None


def on_file(facts: Mapping[str, str], machine: str) -> OnFile:
    """Read a machine's facts; nothing is taken for granted that is not among them."""
    missing = tuple(key for key in (RULE, MOUNTED, EVERY) if key not in facts)
    if RULE not in facts:
        return OnFile(missing=missing)
    try:
        asked = _rule(facts[RULE])
        missing += tuple(f.key for f in asked.fields if not f.optional and f.key != KEY and f.key not in facts)
        return OnFile(missing=missing) if missing else OnFile(mounted=_mounted(asked, facts, machine))
    except UsageError as error:
        return OnFile(wrong=error.sentence)


def _rule(name: str) -> Problem:
    if name not in RULES:
        raise UsageError(
            say(
                "“{rule}” is not a rule for a mounted distance. Write one of {rules}.",
                rule=name,
                rules=", ".join(RULES),
            )
        )
    try:
        return problem(name)
    except Missing as error:
        raise UsageError(error.sentence) from error


def _mounted(asked: Problem, facts: Mapping[str, str], machine: str) -> Mounted:
    texts = {field.key: facts[field.key] for field in asked.fields if field.key in facts}
    values = asked.read({**texts, KEY: "1 ms"})  # stands in for the readings, which are dated
    del values[KEY]
    distance = units.parse(facts[MOUNTED], "length")
    return Mounted(
        name=asked.name, values=values, distance=distance, interval=timedelta(days=_days(facts[EVERY])), machine=machine
    )


def _days(text: str) -> int:
    number = text.removesuffix("days").removesuffix("day").strip()
    if not number.isdecimal() or not 1 <= int(number) <= 3660:
        raise UsageError(say("“{text}” is not a number of days. Write 182 days.", text=text[:40]))
    return int(number)


def label_of(key: str) -> str:
    """Return the trade's name of a fact, marked for translation; the key where no sum knows it."""
    if key in NAMES:
        return NAMES[key]
    labels = (field.label for asked in PROBLEMS.values() for field in asked.fields if field.key == key)
    return next(labels, key)
