"""The bank that a paper was drawn from is kept with the record."""

import pytest
from records.site import tamper
from sqlalchemy import func, select

from trainer.errors import Missing, RecordError
from trainer.records import editions
from trainer.records.models import Edition


def test_starting_a_sitting_keeps_the_bank_once(site):
    site.sit(site.learner)
    site.sit(site.learner)

    with site.record.reading() as r:
        assert r.session.scalar(select(func.count()).select_from(Edition)) == 1
        assert editions.bank_of(r, site.bank.fingerprint) == site.bank


def test_content_that_was_never_kept_is_named(site):
    with site.record.reading() as r, pytest.raises(Missing, match="ffffffffffff was not kept"):
        editions.bank_of(r, "f" * 64)


def test_content_that_was_altered_is_not_shown(site):
    site.sit(site.learner)
    tamper(site.record, "UPDATE edition SET content = substr(content, 1, 40)")

    with site.record.reading() as r, pytest.raises(RecordError, match="was altered"):
        editions.content(r, site.bank.fingerprint)
