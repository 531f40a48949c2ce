"""PINs and passwords: what is refused, and how they are kept."""

import argon2
import pytest
from sqlalchemy import select

from trainer.errors import Missing, UsageError
from trainer.records import hashing, people
from trainer.records.hashing import easily_guessed
from trainer.records.models import Secret


@pytest.fixture
def dana(record):
    with record.writing() as w:
        return people.add(w, number="7734071", name="Dana Ruiz", badge="52611", login="dana").key


@pytest.mark.parametrize(
    "pin",
    ["1234", "4321", "0000", "777777", "1212", "123123", "2580", "0852", "1987", "2026", "890123", "987654", "1004"],
)
def test_a_pin_that_many_people_take_is_refused(record, dana, pin):
    assert easily_guessed(pin)
    with pytest.raises(UsageError, match="too easy"), record.writing() as w:
        people.set_pin(w, dana, pin)


@pytest.mark.parametrize("pin", ["4071", "52611"])
def test_a_pin_that_stands_on_the_badge_is_refused(record, dana, pin):
    with pytest.raises(UsageError, match="too easy"), record.writing() as w:
        people.set_pin(w, dana, pin)


@pytest.mark.parametrize("pin", ["", "407", "407152638", "40a1", "４０７１", "40 71", "-407"])
def test_a_pin_has_four_to_eight_digits(record, dana, pin):
    with pytest.raises(UsageError, match="4 to 8 digits"), record.writing() as w:
        people.set_pin(w, dana, pin)


@pytest.mark.parametrize("pin", ["4072", "5260", "907315"])
def test_another_pin_is_taken(record, dana, pin):
    with record.writing() as w:
        people.set_pin(w, dana, pin)
        assert hashing.matches(w, dana, "pin", pin)
        assert not hashing.matches(w, dana, "pin", pin[::-1])
        assert not hashing.matches(w, dana, "password", pin)


@pytest.mark.parametrize(
    ("password", "told"),
    [
        ("short-enough", "15 to 256"),
        ("x" * 257, "15 to 256"),
        ("aaaaaaaaaaaaaaaaaa", "easy"),
        ("danadanadana7734071", "easy"),
    ],
)
def test_a_weak_password_is_refused(record, dana, password, told):
    with pytest.raises(UsageError, match=told), record.writing() as w:
        people.set_password(w, dana, password)


def test_a_password_may_be_long_hold_spaces_and_be_typed_in_either_composition(record, dana):
    with record.writing() as w:
        people.set_password(w, dana, "Überall liegt Schmieröl 😬")
        assert hashing.matches(w, dana, "password", "U\u0308berall liegt Schmiero\u0308l 😬")
        assert not hashing.matches(w, dana, "password", "uberall liegt schmierol 😬")


def test_secrets_are_kept_hashed_with_the_published_settings(record, dana):
    with record.writing() as w:
        people.set_pin(w, dana, "4072")
        people.set_password(w, dana, "lamp over the brake")
        kept = dict(map(tuple, w.session.execute(select(Secret.kind, Secret.hash))))

    # OWASP Password Storage Cheat Sheet (2025): Argon2id, 19456 KiB, t=2, p=1 at least
    assert kept["pin"].startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    # RFC 9106 (2021) section 4, second recommended option: t=3, 64 MiB, p=4
    assert kept["password"].startswith("$argon2id$v=19$m=65536,t=3,p=4$")
    assert not any("4072" in hashed or "lamp" in hashed for hashed in kept.values())


def test_the_hash_alone_cannot_be_tried_against_without_the_key_file(record, dana):
    with record.writing() as w:
        people.set_pin(w, dana, "4072")
        hashed = w.session.scalar(select(Secret.hash))
    with pytest.raises(argon2.exceptions.VerifyMismatchError):
        argon2.PasswordHasher().verify(hashed, "4072")


def test_the_library_gives_the_digest_worked_out_apart():
    # Argon2id, t=2, m=19456, p=1 of "4821" with a fixed salt; worked out with another program (RFC 9106, 2021)
    raw = argon2.low_level.hash_secret_raw(
        b"4821",
        b"0123456789abcdef",
        time_cost=2,
        memory_cost=19456,
        parallelism=1,
        hash_len=32,
        type=argon2.low_level.Type.ID,
    )

    assert raw.hex() == "92ad730b6bca111417f776e9f1c78107bee2ba9db63d79c1d8fd00183084be16"


def test_a_new_secret_replaces_the_old(record, dana):
    with record.writing() as w:
        people.set_pin(w, dana, "4072")
        people.set_pin(w, dana, "9153")
        assert [hashing.matches(w, dana, "pin", pin) for pin in ("4072", "9153")] == [False, True]


def test_an_unknown_person_has_no_secret_and_takes_the_same_work(record):
    with record.writing() as w:
        assert not hashing.matches(w, None, "pin", "4072")
        assert not hashing.matches(w, "nobody", "password", "nobody")
        with pytest.raises(Missing):
            people.set_pin(w, "nobody", "4072")
