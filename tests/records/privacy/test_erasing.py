"""An identity is taken out; what was done stays and still proves itself. Nothing goes while something stands against it."""

import pytest
import sqlalchemy as sa

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import access, hashing, hazards, ledger, people
from trainer.records.models import Base
from trainer.records.privacy import erasing, holds, requests
from trainer.records.privacy.places import PLACES
from trainer.records.standing import standings

WHY = "Asked for on 2 March"


def erase(office, *, force=True, reason=WHY, by=None):
    site = office.site
    with site.record.writing() as w:
        return erasing.erase(w, site.learner, by=by or site.officer, reason=reason, force=force)


def every_text(record):
    with record.engine.connect() as connection:
        for table in Base.metadata.sorted_tables:
            for row in connection.execute(sa.select(table)):
                yield from ((table.name, str(value)) for value in row)


def test_name_number_badge_and_secrets_are_nowhere_but_in_words_that_people_wrote(office):
    office.leaves()
    entry = erase(office)

    found = {
        (table, text)
        for table, text in every_text(office.site.record)
        if any(part in text for part in ("Ruiz", "ruiz", "00241", "0013748911"))
    }
    assert {table for table, _ in found} == {"entry"}
    assert all("was helped by" in text for _, text in found)
    assert entry.body == {"event": "erased", "note": WHY, "forced": True}


def test_every_chain_proof_and_checkpoint_still_verifies(office):
    office.leaves()
    with office.site.record.writing() as w:
        point = ledger.checkpoint(w)
        before = [entry.digest for entry in ledger.entries(w, person=office.site.learner)]
    erase(office)

    with office.site.record.writing() as w:
        ledger.checkpoint(w)
    with office.site.record.reading() as r:
        assert list(ledger.verify(r)) == []
        after = [entry.digest for entry in ledger.entries(r, person=office.site.learner)]
    assert after[: len(before)] == before
    assert len(after) == len(before) + 1
    assert point.entries >= len(before)


def test_the_past_can_still_be_asked_under_a_name_that_says_nothing(office):
    site = office.site
    day = site.today()
    with site.record.reading() as r:
        was = [(one.machine, one.word) for one in standings(r, site.bank, on=day, person=site.learner)]
    office.leaves()
    erase(office)

    with site.record.reading() as r:
        assert [(one.machine, one.word) for one in standings(r, site.bank, on=day, person=site.learner)] == was
        row = people.must(r, site.learner)
        assert (row.name, row.number, row.erased, row.status) == (row.number, row.name, True, "left")
        assert row.name == erasing.pseudonym(site.learner)
        assert people.name_on(r, site.learner, day) == row.name
        assert people.find(r, "ruiz") == []
        assert hazards.reports(r)[0].person is None


def test_nobody_signs_in_as_somebody_erased_and_nothing_is_added_to_them(office):
    site = office.site
    office.leaves()
    erase(office)

    with pytest.raises(access.SignInRefused), site.record.writing() as w:
        access.sign_in_pin(w, "00241", "7304", place="kiosk 2")
    for act in (
        lambda w: people.rename(w, site.learner, name="Dana Ruiz"),
        lambda w: people.come_back(w, site.learner, on=w.today(), by=site.officer),
        lambda w: people.change(w, site.learner, badge="1"),
        lambda w: hashing.set_pin(w, site.learner, "7304"),
        lambda w: holds.set_hold(w, site.learner, by=site.officer, reason="late"),
        lambda w: erasing.erase(w, site.learner, by=site.officer, reason=WHY, force=True),
    ):
        with pytest.raises(RecordError, match="taken out"), site.record.writing() as w:
            act(w)


def test_a_person_who_is_here_is_never_erased(office):
    with pytest.raises(RecordError, match="still belongs to the site"):
        erase(office)
    with office.site.record.reading() as r:
        assert erasing.plan(r, office.site.learner).firm


def test_a_legal_hold_stops_it_even_by_force_until_it_is_lifted(office):
    site = office.site
    with site.record.writing() as w:
        holds.set_hold(w, site.learner, by=site.officer, reason="Case 12")
    office.leaves()
    with pytest.raises(RecordError, match="legal hold since 2026-03-09"):
        erase(office)

    with site.record.writing() as w:
        holds.lift_hold(w, site.learner, by=site.officer, reason="Case 12 is closed")
    assert erase(office).kind.value == "event"


def test_without_rules_or_inside_the_period_it_takes_force_and_the_entry_says_so(office):
    office.leaves()
    with pytest.raises(RecordError, match="No rule says how long to keep"):
        erase(office, force=False)
    office.rule("identity", 1)
    office.rule("entries", 3)
    with pytest.raises(RecordError, match="kept until 2029-03-09"):
        erase(office, force=False)

    assert erase(office, force=True).body["forced"] is True


def test_when_its_time_is_over_no_force_is_needed(office):
    office.rule("identity", 1)
    office.rule("entries", 1)
    office.leaves()
    office.on(office.site.today().replace(year=2027, day=10))

    assert erase(office, force=False).body["forced"] is False


@pytest.mark.parametrize("reason", ["Dana asked", "wish of 00241", "RUIZ wants it"])
def test_the_reason_must_not_name_whom_it_hides(office, reason):
    office.leaves()
    with pytest.raises(UsageError, match="Leave name and number out"):
        erase(office, reason=reason)


def test_only_an_officer_erases_and_says_why(office):
    office.leaves()
    with pytest.raises(NotEntitled):
        erase(office, by=office.site.trainer)
    with pytest.raises(UsageError, match="Say why"):
        erase(office, reason="  ")


def test_the_plan_counts_what_goes_and_names_the_words_that_stay(office):
    office.leaves()
    with office.site.record.reading() as r:
        plan = erasing.plan(r, office.site.learner)
        naming = [entry.number for entry in ledger.entries(r) if "Dana Ruiz" in str(entry.body)]

    assert plan.removes == {
        "names": 1,
        "secrets": 1,
        "sign-ins": 1,
        "sessions": 1,
        "mail-address": 0,
        "hazard-names": 1,
        "question-names": 0,
    }
    assert plan.named_in == tuple(naming)
    assert len(naming) == 1


def test_a_request_for_erasure_is_answered_by_it_and_keeps_no_note(office):
    site = office.site
    office.leaves()
    with site.record.writing() as w:
        requests.receive(w, person=site.learner, kind="erasure", received_on=w.today(), note="Dana Ruiz rang")
    entry = erase(office)

    with site.record.reading() as r:
        (row,) = requests.listed(r, person=site.learner)
    assert (row.answered_on, row.answer, row.note) == (site.today(), entry.reference, "")


def test_every_column_that_leads_to_a_person_has_its_fate():
    found = {
        f"{table.name}.{column.name}"
        for table in Base.metadata.sorted_tables
        for column in table.columns
        if column.name in {"person", "by"} or any(key.target_fullname == "person.key" for key in column.foreign_keys)
    }
    assert found - set(PLACES) == set()
    tables = {f"{table.name}.{column.name}" for table in Base.metadata.sorted_tables for column in table.columns}
    assert set(PLACES) <= tables
