from dataclasses import replace
from datetime import date, timedelta

import pytest

from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord
from trainer.web.desk.shifts import manning

TODAY = date(2026, 3, 9)


def person(key: str, shift: str) -> PersonRow:
    return PersonRow(
        key=key, number=key, badge=None, name=key.title(), sort_name=key, shift=shift, crew="", language="en",
        kind="employee", agency=None, status="active", started=None, ended=None, born=None,
        roles=frozenset({"learner"}), login=None,
    )  # fmt: skip


def holds(key: str, days: int | None, *, role: str = "operator", machine: str = "PB-1") -> Standing:
    until = None if days is None else TODAY + timedelta(days=days)
    return Standing(
        person=key, machine=machine, role=role, word=StandingWord.AUTHORISED, may_run=True, reasons=(), lacks=(),
        holds_until=until, due_on=until,
    )  # fmt: skip


PEOPLE = {
    key: person(key, shift) for key, shift in (("ana", "Early"), ("bo", "Early"), ("cy", "Early"), ("di", "Late"))
}


@pytest.mark.parametrize(
    ("days", "short"),
    [
        ([10, 20, 30], 21),  # the second of three to end leaves one; its last day is still good
        ([10, 20], 11),
        ([10], 0),
        ([None, 5], 6),
        ([None, None], None),
    ],
)
def test_a_shift_is_short_from_the_day_after_the_last_but_one_ends(days: list[int | None], short: int | None) -> None:
    standings = [holds(key, end) for key, end in zip(PEOPLE, days, strict=False)]
    (line,) = manning(standings, PEOPLE)
    expected = None if short is None else TODAY + timedelta(days=short)
    assert line.short_from(TODAY) == expected


def test_those_who_end_before_a_day_and_those_who_stay_are_told_apart() -> None:
    (line,) = manning([holds("ana", 10), holds("bo", 20), holds("cy", None)], PEOPLE)
    day = TODAY + timedelta(days=11)
    assert [one.person.key for one in line.ending(day)] == ["ana"]
    assert [one.person.key for one in line.staying(day)] == ["bo", "cy"]


def test_helpers_and_those_who_may_not_run_it_do_not_count() -> None:
    lapsed = replace(holds("bo", 5), may_run=False, word=StandingWord.LAPSED)
    lines = manning([holds("ana", 10, role="helper"), lapsed, holds("di", 3)], PEOPLE)
    assert [(line.shift, line.machine, len(line.holders)) for line in lines] == [("Late", "PB-1", 1)]
