"""The fixture of these tests."""

import pytest
from records.roster.rosterdesk import Desk

from trainer.records import Record


@pytest.fixture
def desk(record: Record) -> Desk:
    return Desk(record)
