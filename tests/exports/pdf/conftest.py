"""A small record whose people can be put on paper."""

from datetime import UTC, datetime, timedelta

import pytest
from records.site import build_site

from trainer.clock import FixedClock
from trainer.records import open_record

NOW = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)


@pytest.fixture
def site(settings, bank):
    """Dana passed and was signed off 40 days ago."""
    clock = FixedClock(NOW - timedelta(days=40))
    record = open_record(settings, clock)
    made = build_site(record, clock, bank)
    made.sit(made.learner)
    made.show(made.learner)
    clock.instant = NOW
    yield made
    record.close()
