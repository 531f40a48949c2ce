"""Stopping time over time: what a machine's dated readings say about the distance its safeguard is mounted at."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any, ClassVar

from trainer.errors import UsageError
from trainer.findings import Finding, Report, Severity
from trainer.safeguarding.problem import Problem
from trainer.safeguarding.problems import problem
from trainer.safeguarding.readings import HIGHEST
from trainer.safeguarding.result import Sense, Worked
from trainer.safeguarding.trend import StopReading, Trend, end_of, fit
from trainer.units import Q, has_dimension, magnitude, show
from trainer.wording import say

KEY = "stopping-time"
FINEST = Fraction(1, 10000)  # s; 0.1 ms
SLOWEST = Fraction(10)  # s; no press brake that may be run takes longer to stop


@dataclass(frozen=True, kw_only=True, slots=True)
class MountedTooClose(Finding):
    """The distance that the stopping time needs is more than the distance as mounted."""

    code: ClassVar[str] = "mounted-too-close"
    title: ClassVar[str] = "The safeguard is mounted closer than the machine's stopping time allows."
    fix: ClassVar[str] = "Stop using the machine; move the safeguard out or repair the brake, then measure again."


@dataclass(frozen=True, kw_only=True, slots=True)
class NotMeasuredInInterval(Finding):
    """The newest reading is older than the interval allows, or there is none."""

    code: ClassVar[str] = "not-measured-in-interval"
    title: ClassVar[str] = "The stopping time was not measured within its interval."
    fix: ClassVar[str] = "Have a competent person measure it on the machine."


@dataclass(frozen=True, kw_only=True, slots=True)
class MarginEndsSoon(Finding):
    """If the trend holds, the margin may end before the next measurement is due."""

    code: ClassVar[str] = "margin-ends-before-next-measurement"
    title: ClassVar[str] = "The margin may end before the next measurement is due."
    fix: ClassVar[str] = "Measure earlier and look for the cause."
    severity: ClassVar[Severity] = Severity.WARNING


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What the readings say on a day.

    ``use`` is the stopping time to use; ``needed`` the distance that it needs, worked out; ``mounted`` the distance
    there is; ``margin`` what is left (negative: too close); ``limit`` the longest stopping time for which the mounted
    distance is enough (None: none is). ``ends`` is the day on which the line passes the limit, also where that day has
    gone by; ``ends_from`` and ``ends_to`` bound it at 95 %. Each is None where it does not come within ten years.
    ``due`` is the day by which the next measurement is due.
    """

    on: date
    use: Any
    needed: Worked
    mounted: Any
    margin: Any
    limit: Any | None
    trend: Trend | None
    ends: date | None
    ends_from: date | None
    ends_to: date | None
    measured_on: date
    due: date
    report: Report = field(default_factory=Report)

    @property
    def too_close(self) -> bool:
        """Say whether the distance as mounted is not enough; where the rule says "more than", equal is not."""
        margin = magnitude(self.margin, "mm")
        return margin < 0 or (margin == 0 and self.needed.sense is Sense.MORE_THAN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmeasured:
    """What can be said of a safeguard whose machine was never measured: how long the brake may take, and a finding."""

    on: date
    mounted: Any
    limit: Any | None
    report: Report


def to_use(readings: Sequence[StopReading], rule: str = HIGHEST) -> Any:
    """Return the stopping time to use: by ``rule`` from the readings of the newest day, a quantity."""
    newest = max(reading.on for reading in readings)
    times = tuple(reading.time for reading in readings if reading.on == newest)
    return problem("stopping-time-from-readings").solve({"readings": times, "rule": rule}).value


def longest_for(asked: Problem, values: Mapping[str, Any], mounted: Any) -> Any | None:
    """Return the longest stopping time, to 0.1 ms, for which the problem's distance is not above ``mounted``.

    None where even the shortest is too long. Works for each distance problem, since more stopping time never needs
    less distance.
    """
    there, strict = magnitude(mounted, "mm"), asked.answer.sense is Sense.MORE_THAN
    enough, too_long = Fraction(0), SLOWEST
    while too_long - enough > FINEST:
        half = (enough + too_long) / 2 // FINEST * FINEST
        figure = asked.figure(asked.numbers({**values, KEY: Q(half, "s")}), unit="mm")
        if figure is not None and (figure.value < there or (figure.value == there and not strict)):
            enough = half
        else:
            too_long = half
    return Q(enough * 1000, "ms") if enough else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mounted:
    """A safeguard as it stands: the distance problem it is worked out by, its other inputs, the distance as mounted.

    ``interval`` is how often the stopping time has to be measured; ``machine`` is the key that findings carry.
    """

    name: str
    values: Mapping[str, Any]
    distance: Any
    interval: timedelta
    machine: str = ""


def history(
    readings: Sequence[StopReading], mounted: Mounted, *, on: date, rule: str = HIGHEST
) -> History | Unmeasured:
    """Say what dated readings mean for a safeguard. Readings after ``on`` are left out; without any it is unmeasured.

    Raises :class:`UsageError` where the inputs do not fit, or the rule gives no distance for them.
    """
    asked = _distance_problem(mounted)
    known = [reading for reading in readings if reading.on <= on]
    limit = longest_for(asked, mounted.values, mounted.distance)
    if not known:
        never = NotMeasuredInInterval(key=mounted.machine, note="There is no reading of the stopping time.")
        return Unmeasured(on=on, mounted=mounted.distance, limit=limit, report=Report([never]))
    use = to_use(known, rule)
    needed = asked.solve({**mounted.values, KEY: use})
    if needed.value is None:
        raise UsageError(needed.refusal or say("The rule gives no distance for these inputs."))
    trend = fit(known)
    newest, end = max(reading.on for reading in known), end_of(trend, limit, on)
    found = History(
        on=on,
        use=use,
        needed=needed,
        mounted=mounted.distance,
        margin=Q(magnitude(mounted.distance, "mm") - magnitude(needed.value, "mm"), "mm"),
        limit=limit,
        trend=trend,
        ends=end.day,
        ends_from=end.earliest,
        ends_to=end.latest,
        measured_on=newest,
        due=newest + mounted.interval,
    )
    return replace(found, report=Report(_findings(found, mounted.machine)))


def _distance_problem(mounted: Mounted) -> Problem:
    asked = problem(mounted.name)
    if not has_dimension(mounted.distance, "length"):
        raise UsageError(say("The distance as mounted must be a length, such as 400 mm."))
    if asked.answer.dimension != "length" or KEY not in {field.key for field in asked.fields}:
        raise UsageError(say("{name} does not give a distance from a stopping time.", name=mounted.name))
    return asked


def _findings(found: History, machine: str) -> Iterator[Finding]:
    if found.too_close:
        note = f"It needs {show(found.needed.rounded, 'mm')} and stands at {show(found.mounted, 'mm')}."
        yield MountedTooClose(key=machine, note=note)
    if found.on > found.due:
        yield NotMeasuredInInterval(key=machine, note=f"Last measured on {found.measured_on}, due by {found.due}.")
    soonest = found.ends_from or found.ends
    if soonest is not None and not found.too_close and soonest <= max(found.due, found.on):
        yield MarginEndsSoon(key=machine, note=f"If the trend holds, it may end on {soonest}.")
