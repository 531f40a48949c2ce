"""Roles and secrets: every act is an entry, nobody acts on themselves, the last officer stays."""

from datetime import timedelta

import pytest

from trainer.errors import NotEntitled, RecordError, UsageError
from trainer.records import access, doorkeeping, ledger, people, sessions
from trainer.records.doorkeeping import OFFICER, give_role, lend_password, user, withdraw_role
from trainer.records.hashing import is_lent, set_password


@pytest.fixture
def crew(record):
    with record.writing() as w:
        boss, other = (
            people.add(w, number=number, name=name, roles=("officer",), login=name.lower()).key
            for number, name in (("00001", "Suharto"), ("00002", "Ines"))
        )
        set_password(w, boss, "long enough for a door")
        plain = people.add(w, number="00003", name="Dana").key
    return boss, other, plain


def test_a_role_is_given_and_withdrawn_on_record(record, crew):
    boss, _other, plain = crew
    with record.writing() as w:
        made = give_role(w, plain, "trainer", by=boss, reason="Took the course")
        token = sessions.begin(w, person=plain, door="office", place="here")
        held = user(w, plain).held
        assert [(one.role, one.by, one.entry) for one in held] == [("trainer", boss, made.number)]
        withdraw_role(w, plain, "trainer", by=boss, reason="Moved to the office")
        assert user(w, plain).held == ()
        assert not sessions.is_open(w, token, plain)
        events = [(e.body["event"], e.body["role"], e.by) for e in ledger.entries(w, person=plain)]
    assert events == [("role-given", "trainer", boss), ("role-withdrawn", "trainer", boss)]


def test_the_last_officer_who_can_sign_in_stays_and_nobody_acts_on_themselves(record, crew):
    boss, other, plain = crew
    with record.writing() as w, pytest.raises(RecordError, match="last records officer"):
        withdraw_role(w, boss, OFFICER, by=other, reason="x")  # the other one has no password
    with record.writing() as w:
        set_password(w, other, "another that is long")
        withdraw_role(w, other, OFFICER, by=boss, reason="x")
    for act in (give_role, withdraw_role):
        with record.writing() as w, pytest.raises(NotEntitled):
            act(w, boss, "trainer", by=boss, reason="x")
    with record.writing() as w, pytest.raises(NotEntitled):
        give_role(w, plain, "trainer", by=other, reason="x")
    with record.writing() as w, pytest.raises(UsageError):
        give_role(w, plain, "trainer", by=boss, reason=" ")


def test_an_officer_whose_password_for_one_use_ran_out_is_nobody_who_can_sign_in(record, crew, clock):
    boss, other, _plain = crew
    with record.writing() as w:
        lend_password(w, other, login="other", by=boss, reason="New here")
    clock.advance(timedelta(hours=73))
    with record.writing() as w, pytest.raises(RecordError, match="last records officer"):
        withdraw_role(w, boss, OFFICER, by=other, reason="x")


def test_a_password_that_is_handed_out_ends_and_gives_way_to_a_persons_own(record, crew, clock):
    boss, _other, plain = crew
    with record.writing() as w, pytest.raises(RecordError, match="Give a role first"):
        lend_password(w, plain, login="dana", by=boss, reason="New")
    with record.writing() as w:
        give_role(w, plain, "trainer", by=boss, reason="New")
        lent = lend_password(w, plain, login="dana", by=boss, reason="New")
    with record.writing() as w:
        assert access.sign_in_password(w, "dana", lent, place="here").key == plain
        assert is_lent(w, plain)
        with pytest.raises(UsageError, match="handed out"):
            doorkeeping.change_password(w, plain, lent)
    clock.instant += doorkeeping.LENT_FOR + timedelta(seconds=1)
    with record.writing() as w, pytest.raises(access.SignInRefused):
        access.sign_in_password(w, "dana", lent, place="here")
    with record.writing() as w:
        doorkeeping.change_password(w, plain, "quiet harbour seven lamps")
        assert not is_lent(w, plain)


def test_a_new_pin_replaces_the_old_one(record, crew):
    boss, _other, plain = crew
    with record.writing() as w:
        people.set_pin(w, plain, "7304")
        pin = doorkeeping.reset_pin(w, plain, by=boss, reason="Forgot it")
        assert access.sign_in_pin(w, "00003", pin, place="here").key == plain
    with record.writing() as w, pytest.raises(access.SignInRefused):
        access.sign_in_pin(w, "00003", "7304", place="here")
