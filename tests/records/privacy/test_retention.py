"""Rules of retention: what has had its time goes, all or nothing; what is here, held or without a rule stays."""

from datetime import date, timedelta

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import access, hazards, ledger, people
from trainer.records.privacy import holds, requests, retention, rules

LEFT = date(2026, 3, 9)


def look(office, on=None):
    with office.site.record.reading() as r:
        return retention.preview(r, on=on)


def apply(office):
    with office.site.record.writing() as w:
        return retention.apply(w, by=office.site.officer)


def numbers(leavers):
    return [person.number for person, _ in leavers]


def test_without_rules_nothing_ever_goes(office):
    office.leaves()
    found = look(office, date(2099, 1, 1))

    assert (found.over, found.logs) == ((), {})
    assert [period.unset for _, period in found.unset] == [("event", "identity", "practical-signed", "sitting-marked")]
    assert apply(office).removed == {"identity": 0}


@pytest.mark.parametrize(
    ("given", "until", "kind"),
    [
        ({"identity": (1, "leaving"), "entries": (0, "leaving")}, date(2027, 3, 9), "identity"),
        ({"identity": (1, "leaving"), "entries": (3, "leaving")}, date(2029, 3, 9), "sitting-marked"),
        # the sitting is good for a year; its years begin when it expires
        ({"identity": (0, "leaving"), "entries": (0, "event"), "sitting-marked": (2, "expiry")}, date(2029, 3, 9), "sitting-marked"),
        ({"identity": (0, "leaving"), "entries": (0, "event"), "practical-signed": (5, "event")}, date(2031, 3, 9), "practical-signed"),
        ({"identity": (0, "leaving"), "entries": (0, "event")}, date(2026, 3, 9), "identity"),
    ],
)  # fmt: skip
def test_the_longest_period_decides_and_is_named(office, given, until, kind):
    for name, (years, counts_from) in given.items():
        office.rule(name, years, counts_from)
    office.leaves()

    before, after = look(office, until), look(office, until + timedelta(days=1))
    assert numbers(before.over) == []
    ((person, period),) = after.over
    assert (person.number, period.until, period.kind) == ("00241", until, kind)


def test_whoever_is_here_stays_whatever_the_rules(office):
    office.rule("identity", 0)
    office.rule("entries", 0)
    found = look(office, date(2099, 1, 1))

    assert (found.over, found.held, found.kept, found.unset) == ((), (), (), ())


def test_removing_takes_them_out_as_entries_and_the_record_verifies(office):
    site = office.site
    office.rule("identity", 1)
    office.rule("entries", 1)
    office.leaves()
    office.on(date(2027, 3, 10))
    assert numbers(look(office).over) == ["00241"]

    assert apply(office).removed == {"identity": 1}
    with site.record.reading() as r:
        last = list(ledger.entries(r, person=site.learner))[-1]
        assert (last.body["event"], last.body["note"], last.body["forced"]) == ("erased", retention.NOTE, False)
        assert last.by == site.officer
        assert people.must(r, site.learner).erased
        assert list(ledger.verify(r)) == []
        assert [run.removed for run in retention.runs(r)] == [{"identity": 1}]
    assert apply(office).removed == {"identity": 0}


def test_a_legal_hold_keeps_identity_and_logs_until_it_is_lifted(office):
    site = office.site
    for kind in ("identity", "entries"):
        office.rule(kind, 0)
    for kind in ("sign-ins", "hazard-names", "requests"):
        office.rule(kind, 0, "event")
    with site.record.writing() as w:
        holds.set_hold(w, site.learner, by=site.officer, reason="Case 12")
        hazards.answer(w, 1, by=site.trainer, words="A cover was fitted.", closes=True)
        requests.receive(w, person=site.learner, kind="copy", received_on=w.today())
        requests.answer(w, 1, by=site.officer, words="done")
    office.leaves()
    found = look(office)
    assert (numbers(found.over), numbers(found.held)) == ([], ["00241"])
    assert found.logs == {"sign-ins": 0, "hazard-names": 0, "requests": 0}
    assert set(apply(office).removed.values()) == {0}

    with site.record.writing() as w:
        holds.lift_hold(w, site.learner, by=site.officer, reason="closed")
    found = look(office)
    assert found.logs == {"sign-ins": 1, "hazard-names": 1, "requests": 1}
    assert apply(office).removed["identity"] == 1


def test_logs_go_by_their_own_day_and_no_earlier(office):
    site = office.site
    office.rule("sign-ins", 1, "event")
    office.rule("hazard-names", 1, "event")
    with pytest.raises(access.SignInRefused), site.record.writing() as w:
        access.sign_in_pin(w, "99999", "7304", place="kiosk 2")  # of nobody
    assert look(office, date(2027, 3, 9)).logs == {"sign-ins": 0, "hazard-names": 0}  # kept through the day
    assert look(office, date(2027, 3, 10)).logs == {"sign-ins": 2, "hazard-names": 0}  # an open report keeps its name
    office.on(date(2027, 3, 10))
    assert apply(office).removed == {"identity": 0, "sign-ins": 2, "hazard-names": 0}
    assert look(office).logs == {"sign-ins": 0, "hazard-names": 0}


def test_the_newest_rule_counts_can_be_taken_back_and_none_is_ever_changed(office):
    record = office.site.record
    office.rule("identity", 1)
    office.rule("identity", 7)
    assert look(office).rules["identity"].years == 7
    office.rule("identity", None)
    assert dict(look(office).rules) == {}
    for act in ("UPDATE retention_rule SET years = 0", "DELETE FROM retention_rule", "DELETE FROM retention_run"):
        apply(office)
        with pytest.raises(DatabaseError, match="append-only"), record.engine.begin() as connection:
            connection.execute(text(act))


@pytest.mark.parametrize(
    ("anchor", "years", "last"),
    [(date(2024, 2, 29), 1, date(2025, 3, 1)), (date(2024, 2, 29), 4, date(2028, 2, 29)), (LEFT, 0, LEFT)],
)
def test_a_leap_day_is_kept_a_day_longer_never_shorter(anchor, years, last):
    rule = rules.Rule(kind="identity", years=years, counts_from=rules.From.EVENT, reason="", by="", at=None)

    assert rule.last_day(anchor) == last
    assert anchor < rule.over_before(last + timedelta(days=1))
    assert not anchor < rule.over_before(last)


def test_each_day_of_four_years_agrees_both_ways():
    for years in (1, 3, 4):
        rule = rules.Rule(kind="requests", years=years, counts_from=rules.From.EVENT, reason="", by="", at=None)
        days = [date(2024, 1, 1) + timedelta(days=n) for n in range(1462)]
        for anchor in days:
            end = rule.last_day(anchor)
            assert not anchor < rule.over_before(end)  # never too early
            assert anchor < rule.over_before(end + timedelta(days=2))  # at most a day late


@pytest.mark.parametrize(
    ("kind", "years", "counts_from", "says"),
    [
        ("photos", 1, "leaving", "no kind of record"),
        ("identity", 1, "expiry", "counted from leaving"),
        ("sign-ins", 1, "leaving", "counted from event"),
        ("entries", 1, "birth", "counted from"),
        ("entries", 101, "event", "from 0 to 100"),
        ("entries", -1, "event", "from 0 to 100"),
    ],
)
def test_what_is_no_rule_is_refused(office, kind, years, counts_from, says):
    with pytest.raises(UsageError, match=says):
        office.rule(kind, years, counts_from)


def test_only_an_officer_sets_rules_and_removes(office):
    with pytest.raises(NotEntitled), office.site.record.writing() as w:
        rules.set_rule(w, kind="identity", years=0, counts_from="leaving", by=office.site.trainer, reason="x")
    with pytest.raises(RecordError), office.site.record.writing() as w:
        retention.apply(w, by=office.site.trainer)
