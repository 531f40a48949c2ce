"""The plant that packs are made of."""

import pytest
from exports.pack.packs import build


@pytest.fixture
def plant(settings, clock, bank):
    site = build(settings, clock, bank)
    yield site
    site.record.close()
