"""Signing in: the right ones come in, the wrong ones wait, nobody is locked out for good."""

from datetime import timedelta

import pytest
from sqlalchemy import select

from trainer.records import people
from trainer.records.access import PATIENCE, SignInRefused, sign_in_password, sign_in_pin
from trainer.records.models import SignIn

MISMATCH = "That number and PIN do not go together. Try again."


@pytest.fixture(autouse=True)
def dana(record):
    with record.writing() as w:
        return people.add(w, number="00241", name="Dana Ruiz", badge="0013748911", pin="4072").key


def attempt(record, given="00241", pin="9999", place="K1") -> str:
    try:
        with record.writing() as w:
            return sign_in_pin(w, given, pin, place=place).name
    except SignInRefused as error:
        return str(error)


@pytest.mark.parametrize(
    "given", ["0013748911", "00241", " 00241\n", "*0013748911", ";0013748911?", "\n0013748911\r\n"]
)
def test_badge_or_number_with_the_pin_opens(record, given):
    assert attempt(record, given, "4072") == "Dana Ruiz"


@pytest.mark.parametrize("given", ["13748911", "241", "", "*", "0013748911 00241"])
def test_another_number_does_not(record, given):
    assert attempt(record, given, "4072") == MISMATCH


def test_login_and_password_open_the_other_doors(record):
    with record.writing() as w:
        people.add(w, number="00101", name="Rosalind", login="rosalind", password="lamp over the brake")
    with record.writing() as w:
        assert sign_in_password(w, "rosalind", "lamp over the brake", place="office").name == "Rosalind"
    for login, password in (("rosalind", "wrong"), ("nobody", "lamp over the brake"), ("00241", "4072")):
        with pytest.raises(SignInRefused, match="login and password do not go together"), record.writing() as w:
            sign_in_password(w, login, password, place="office")


def test_who_has_left_stays_outside(record, dana, clock):
    with record.writing() as w:
        people.leave(w, dana, on=w.today(), by="office")
    assert attempt(record, pin="4072") == "Dana Ruiz"
    clock.advance(timedelta(days=1))

    assert attempt(record, pin="4072") == MISMATCH


def test_unknown_people_and_wrong_pins_hear_the_same_and_wait_the_same(record):
    known = [attempt(record, "00241", place=f"A{n}") for n in range(6)]
    unknown = [attempt(record, "99999", place=f"B{n}") for n in range(6)]

    assert known == unknown == [MISMATCH] * 3 + ["Wait 5 seconds, then try again."] * 3


def test_waits_grow_and_end_and_the_right_pin_forgets_them(record, clock):
    waits = []
    for _ in range(14):
        with pytest.raises(SignInRefused) as caught, record.writing() as w:
            sign_in_pin(w, "00241", "9999", place=f"K{len(waits)}")
        waits.append(caught.value.wait)
        clock.advance(timedelta(seconds=caught.value.wait))

    assert waits == [0, 0, 5, 10, 20, 40, 80, 160, 320, 640, 900, 900, 900, 900]
    assert attempt(record, pin="4072", place="K20") == "Dana Ruiz"
    assert [attempt(record, place=f"L{n}") for n in range(3)] == [MISMATCH] * 3


def test_while_waiting_even_the_right_pin_waits_and_nothing_is_added(record, clock):
    for _ in range(3):
        attempt(record)
    assert attempt(record, pin="4072") == "Wait 5 seconds, then try again."
    clock.advance(timedelta(seconds=2))
    assert attempt(record, pin="4072") == "Wait 3 seconds, then try again."
    clock.advance(timedelta(seconds=3))
    assert attempt(record, pin="4072") == "Dana Ruiz"


def test_a_place_waits_too_whoever_is_tried_and_a_right_pin_in_between_does_not_help(record):
    told = [attempt(record, f"9{n}") for n in range(5)] + [attempt(record, pin="4072")]
    told += [attempt(record, f"8{n}") for n in range(5)] + [attempt(record, pin="4072")]

    assert told == [MISMATCH] * 5 + ["Dana Ruiz"] + [MISMATCH] * 5 + ["Wait 5 seconds, then try again."]
    assert attempt(record, pin="4072", place="K2") == "Dana Ruiz"


def test_failures_are_forgotten_after_a_while(record, clock):
    for _ in range(2):
        attempt(record)
    clock.advance(PATIENCE["person"].forgotten + timedelta(minutes=1))

    assert [attempt(record) for _ in range(3)] == [MISMATCH] * 3


def test_a_wait_never_becomes_a_lock():
    for patience in PATIENCE.values():
        assert patience.wait(10_000) == patience.longest <= timedelta(minutes=15)


def test_the_log_says_who_where_when_and_how_it_went_and_never_what_was_typed(record, dana, clock):
    attempt(record, pin="4072")
    attempt(record, pin="6666")
    attempt(record, "6666")
    with record.reading() as r:
        log = r.session.execute(select(SignIn.person, SignIn.place, SignIn.kind, SignIn.outcome, SignIn.at)).all()
        told = str(r.session.execute(select(SignIn.__table__)).all())

    assert [tuple(row[:4]) for row in log] == [
        (dana, "K1", "pin", "accepted"),
        (dana, "K1", "pin", "refused"),
        (None, "K1", "pin", "refused"),
    ]
    assert all(row.at == clock.now() for row in log)
    assert "6666" not in told
    assert "4072" not in told


def test_the_failed_try_counts_although_the_transaction_failed(record):
    with pytest.raises(SignInRefused), record.writing() as w:
        sign_in_pin(w, "00241", "9999", place="K1")
    with record.reading() as r:
        assert r.session.scalar(select(SignIn.outcome)) == "refused"
