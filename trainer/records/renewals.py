"""What passed papers come to: until when the theory of a role is good, and which entry says so. Pure.

Results are read in the order in which they happened, each under the policy that was kept with it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from trainer.bank.model import ProgrammeKind
from trainer.records.chain import EntryKind
from trainer.records.duedates import Good, Policy, begun
from trainer.records.effects import Fact

Place = tuple[date, int]  # a day, and the number of an entry on it
BEGINNING: Place = (date.min, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What is asked of a role at a machine: the programmes for it, by id, and which of them is the first one."""

    machine: str
    machine_kind: str
    role: str
    programmes: Mapping[str, ProgrammeKind]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A passed programme on which theory rests, and until when it is good."""

    fact: Fact
    good: Good


def place(fact: Fact) -> Place:
    """Return where a fact stands in the order in which things happened."""
    return fact.on, fact.number


def best_pass(counted: Iterable[Fact], rules: Rules, since: Place = BEGINNING) -> Held | None:
    """Return what theory rests on, of what was passed after a place in the order of things.

    None while the programme that comes first was never passed; a refresher before it does not count.
    """
    passes = [fact for fact in counted if passed_theory(fact, rules)]
    first = next((fact for fact in passes if first_time(fact, rules)), None)
    if first is None:
        return None
    late = max(since, (first.on, first.number - 1))
    return _followed(fact for fact in passes if place(fact) > late)


def _followed(passes: Iterable[Fact]) -> Held | None:
    """Follow results one after the other. Training from elsewhere begins anew; it keeps no anchor of this site."""
    held: Held | None = None
    for fact in passes:
        day, policy = anchor(fact), Policy.from_data(fact.body["policy"])
        good = begun(day, policy)
        if held is not None and fact.kind is not EntryKind.PRIOR_ACCEPTED:
            good = held.good.after(day, policy)
        if held is None or (good is not held.good and good.due >= held.good.due):
            held = Held(fact=fact, good=good)
    return held


def due_after(known: Iterable[Fact], role: str, machine_kinds: Iterable[str], policy: Policy, on: date) -> date:
    """Return the due day of a result of a day, whatever was passed for the role before; the earliest of its kinds."""
    passes = [fact for fact in known if fact.trusted and fact.body.get("role") == role and _passed(fact)]
    found = []
    for kind in machine_kinds:
        held = _followed(fact for fact in passes if kind in fact.body["machine_kinds"])
        found.append(policy.due(on) if held is None else held.good.after(on, policy).due)
    return min(found, default=policy.due(on))


def passed_theory(fact: Fact, rules: Rules) -> bool:
    """Say whether a fact is a passed programme, or accepted prior training, for a role at a kind of machine."""
    return (
        _passed(fact)
        and fact.body["programme"] in rules.programmes
        and rules.machine_kind in fact.body["machine_kinds"]
    )


def _passed(fact: Fact) -> bool:
    if fact.kind is EntryKind.SITTING_MARKED:
        return fact.body["passed"] is True
    return fact.kind is EntryKind.PRIOR_ACCEPTED


def first_time(fact: Fact, rules: Rules) -> bool:
    """Say whether a passed programme is the one that comes first, not a refresher."""
    return rules.programmes[fact.body["programme"]] is ProgrammeKind.INDUCTION


def anchor(fact: Fact) -> date:
    """Return the day from which a result's time is counted: for prior training the day of that training."""
    return date.fromisoformat(fact.body["trained_on"]) if fact.kind is EntryKind.PRIOR_ACCEPTED else fact.on
