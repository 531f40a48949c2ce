"""Every way to the tools that is not known to be closed is named."""

import pytest
from safeguarding.selection.bench import BENCH, facts

from trainer.safeguarding.selection import select


def ways(changes: dict[str, str]) -> list[tuple[str, bool]]:
    return [(way.fact, way.known) for way in select(facts(changes), "us").ways_in]


def test_on_the_bench_every_way_is_closed():
    assert select(BENCH, "us").ways_in == ()


@pytest.mark.parametrize("way", ["over", "under", "around", "through"])
def test_a_way_past_the_field_is_named(way):
    (found,) = select(facts({"reach_past": way}), "intl").ways_in

    assert way.title() in str(found.sentence)


@pytest.mark.parametrize(
    "changes",
    [
        {"stand_inside": "possible"},
        {"blank_gap": "open"},
        {"ends_closed": "no"},
        {"rear_closed": "no"},
        {"backstop": "powered_unguarded"},
    ],
    ids=lambda changes: next(iter(changes)),
)
def test_any_other_way_in_is_named(changes):
    assert ways(changes) == [(next(iter(changes)), True)]


def test_what_nobody_looked_at_counts_as_open():
    assert ways({"rear_closed": "unknown", "reach_past": "unknown"}) == [("reach_past", False), ("rear_closed", False)]


def test_without_a_curtain_nobody_asks_for_ways_past_it():
    assert ways({"curtain_state": "not_fitted", "reach_past": "over", "stand_inside": "unknown"}) == []


def test_without_blanking_nobody_asks_for_its_window():
    assert ways({"blanking_setting": "none", "blank_gap": "open"}) == []
