"""Whom an event concerns, worked out from plain rows: no database, no screen."""

from typing import Any

import pytest

from trainer.records import concerned as events
from trainer.records.concerned import Plant, brief_for, briefs, scope_of, whom
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord

HYDRAULIC, FLYWHEEL = "press-brake-hydraulic", "press-brake-mechanical"


def person(key: str, shift: str = "Early") -> PersonRow:
    return PersonRow(
        key=key,
        number=f"00{key}",
        badge=None,
        name=key,
        sort_name=key,
        shift=shift,
        crew="",
        language="en",
        kind="employee",
        agency=None,
        status="active",
        started=None,
        ended=None,
        born=None,
        roles=frozenset(),
        login=None,
    )


def stands(key: str, machine: str, word: StandingWord = StandingWord.AUTHORISED, role: str = "operator") -> Standing:
    return Standing(
        person=key,
        machine=machine,
        role=role,
        word=word,
        may_run=word is StandingWord.AUTHORISED,
        reasons=(),
        lacks=(),
        holds_until=None,
        due_on=None,
    )


MACHINES = {
    id_: MachineRow(id=id_, kind=kind, name=id_, facts={}, in_use=True)
    for id_, kind in {"PB-1": HYDRAULIC, "PB-2": HYDRAULIC, "PB-4": FLYWHEEL}.items()
}
PLANT = Plant(
    people=[person("ann"), person("bo", "Night"), person("cy"), person("di", "Night")],
    machines=MACHINES,
    standings=[
        stands("ann", "PB-1"),
        stands("bo", "PB-2"),
        stands("cy", "PB-4"),
        stands("ann", "PB-2", StandingWord.SUSPENDED),
        stands("gone", "PB-1"),
        stands("bo", "PB-9"),
    ],
)


def keys(*given: Any, **named: Any) -> list[str]:
    return [one.person.key for one in whom(PLANT, *given, **({"machine": MACHINES["PB-1"], "person": None} | named))]


def test_scopes_reach_as_far_as_they_say_and_never_to_who_is_not_here() -> None:
    assert keys(events.INCIDENT, events.HERE) == ["ann"]
    assert keys(events.INCIDENT, events.KIND) == ["ann", "bo"]
    assert keys(events.INCIDENT, events.SHIFT, person=PLANT.people[1]) == ["bo", "ann", "di"]
    assert keys(events.UNSAFE, events.ALONE, person=PLANT.people[2]) == ["cy"]
    assert keys(events.ABSENCE, events.KIND, person=PLANT.people[0]) == ["ann"]
    assert keys(events.INCIDENT, events.ALONE) == []


def test_a_changed_machine_concerns_exactly_those_who_were_signed_off_there() -> None:
    assert keys(events.CHANGED, events.KIND, shown={"cy", "gone"}) == ["cy"]


@pytest.mark.parametrize(("machine", "expected"), [("PB-1", "PB-1"), ("PB-2", "PB-2"), (None, "PB-1")])
def test_the_standing_that_lies_nearest_is_shown(machine: str | None, expected: str) -> None:
    (one,) = whom(PLANT, events.UNSAFE, events.ALONE, machine=MACHINES.get(machine or ""), person=PLANT.people[0])
    assert one.standing is not None
    assert one.standing.machine == expected


def test_who_has_no_standing_at_that_kind_of_machine_has_none_shown() -> None:
    (one,) = whom(PLANT, events.UNSAFE, events.ALONE, machine=MACHINES["PB-4"], person=PLANT.people[0])
    assert one.standing is None


def test_a_scope_without_a_machine_is_the_person_alone() -> None:
    assert scope_of(events.INCIDENT, "", MACHINES["PB-1"]) == events.KIND
    assert scope_of(events.INCIDENT, "no-such", None) == events.ALONE
    assert scope_of(events.UNSAFE, events.SHIFT, None) == events.SHIFT


def test_the_usual_brief_fits_the_event_the_machine_and_a_role_that_somebody_has(bank: Any) -> None:
    for what in events.WHATS:
        found = brief_for(
            bank, PLANT, what, MACHINES["PB-1"], whom(PLANT, what, events.KIND, machine=None, person=None)
        )
        assert found is not None
        assert HYDRAULIC in {kind.value for kind in found.machine_kinds}
        assert (found.kind.value == "return") == (what == events.ABSENCE)
    setters = Plant(people=PLANT.people, machines=MACHINES, standings=[stands("ann", "PB-1", role="setter")])
    held = whom(setters, events.INCIDENT, events.HERE, machine=MACHINES["PB-1"], person=None)
    brief = brief_for(bank, setters, events.INCIDENT, MACHINES["PB-1"], held)
    roles = {one.role.value for one in briefs(bank, events.INCIDENT) if "incident" in one.id}
    assert brief is not None
    assert brief.role.value == "setter" or "setter" not in roles
