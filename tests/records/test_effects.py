"""A correction is an entry of its own; what counts is read through all of them."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from trainer.records.chain import START, Entry, EntryKind
from trainer.records.effects import facts, in_force, withdrawn

DAY = date(2026, 3, 9)


def entry(number, kind=EntryKind.ATTENDED, on=DAY, **body):
    return Entry(
        number=number,
        person="p",
        seq=number,
        kind=kind,
        happened_on=on,
        recorded_at=datetime(2026, 3, 20, 12, tzinfo=UTC),
        zone="America/Chicago",
        by="office",
        body=body,
        previous=START,
        digest="",
    )


def correct(number, target, effect="withdrawn", **more):
    return entry(number, EntryKind.CORRECTED, corrects=target, effect=effect, reason="x", **more)


def test_entries_count_in_the_order_in_which_they_happened():
    rows = [entry(1, on=date(2026, 3, 5)), entry(2, on=date(2026, 3, 1)), entry(3, on=date(2026, 3, 5))]

    assert [fact.number for fact in facts(rows)] == [2, 1, 3]


def test_a_withdrawn_entry_does_not_count():
    rows = [entry(1), entry(2), correct(3, 1)]

    assert [fact.number for fact in facts(rows)] == [2]
    assert withdrawn(rows) == {1}


def test_a_withdrawal_that_was_withdrawn_has_no_effect():
    rows = [entry(1), correct(2, 1), correct(3, 2)]

    assert [fact.number for fact in facts(rows)] == [1]
    assert in_force(rows) == {3}
    assert withdrawn([*rows, correct(4, 3)]) == {1, 3}


def test_a_replaced_entry_counts_as_it_reads_now_and_names_both():
    rows = [entry(1, topic="old"), correct(2, 1, "replaced", instead={"topic": "new"}, happened_on="2026-03-02")]
    (fact,) = facts(rows)

    assert (fact.body, fact.on, fact.numbers, fact.trusted) == ({"topic": "new"}, date(2026, 3, 2), (1, 2), True)


def test_corrections_add_up_in_their_order():
    rows = [
        entry(1, topic="a"),
        correct(2, 1, "replaced", instead={"topic": "b"}),
        correct(3, 1, "replaced", instead={"topic": "c"}),
        correct(4, 3),
    ]
    (fact,) = facts(rows)

    assert (fact.body, fact.numbers) == ({"topic": "b"}, (1, 2))


def test_what_a_bad_clock_stamped_is_in_doubt_until_its_day_is_confirmed():
    doubtful = entry(1, time="unverified")
    (before,) = facts([doubtful])
    (after,) = facts([doubtful, correct(2, 1, "time-confirmed", happened_on="2026-03-08")])

    assert (before.trusted, after.trusted, after.on) == (False, True, date(2026, 3, 8))


def test_what_was_recorded_before_it_happened_is_in_doubt():
    early = entry(1, on=date(2026, 3, 21))
    same_day = entry(1, on=date(2026, 3, 20))

    assert [fact.trusted for fact in facts([early])] == [False]
    assert [fact.trusted for fact in facts([same_day])] == [True]


def test_the_day_of_the_site_decides_what_is_early():
    late_evening = replace(entry(1, on=date(2026, 3, 20)), recorded_at=datetime(2026, 3, 20, 4, tzinfo=UTC))

    assert [fact.trusted for fact in facts([late_evening])] == [False]  # still 19 March in Chicago


def test_a_day_cannot_be_confirmed_into_the_future():
    (fact,) = facts([entry(1, time="unverified"), correct(2, 1, "time-confirmed", happened_on="2026-04-08")])

    assert not fact.trusted


def test_a_moved_entry_counts_where_it_belongs_and_nowhere_else():
    was = {"kind": "attended", "happened_on": "2026-03-01", "by": "office", "body": {"topic": "x"}}
    here = entry(9, EntryKind.MOVED, direction="here", entry=4, was=was)
    away = entry(8, EntryKind.MOVED, direction="away", entry=4, to="q")
    (fact,) = facts([here])

    assert (fact.kind, fact.on, fact.numbers) == (EntryKind.ATTENDED, date(2026, 3, 1), (4, 9))
    assert facts([entry(4), away]) == []


def test_a_move_that_was_withdrawn_has_no_effect():
    away = entry(8, EntryKind.MOVED, direction="away", entry=4, to="q")

    assert [fact.number for fact in facts([entry(4), away, correct(10, 8)])] == [4]


def test_a_correction_of_nothing_changes_nothing():
    assert [fact.number for fact in facts([entry(1), correct(2, 77), correct(3, 77, "replaced", instead={})])] == [1]


@pytest.mark.parametrize("effect", ["withdrawn", "replaced", "time-confirmed"])
def test_corrections_themselves_are_no_facts(effect):
    more = {"happened_on": "2026-03-08"} if effect == "time-confirmed" else {}

    assert [fact.number for fact in facts([entry(1), correct(2, 1, effect, **more)])] in ([1], [])
