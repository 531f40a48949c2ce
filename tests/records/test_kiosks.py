"""Enrolled kiosks: a code works once and soon, the record keeps digests, each step is an entry of its officer."""

from datetime import timedelta

import pytest
from sqlalchemy import select

from trainer.errors import NotEntitled, RecordError
from trainer.records import kiosks, ledger, people
from trainer.records.access import SignInRefused
from trainer.records.models import Kiosk


@pytest.fixture
def officer(record):
    with record.writing() as w:
        return people.add(w, number="00001", name="Suharto", roles=("officer",)).key


def test_a_code_makes_one_device_a_kiosk_until_it_is_withdrawn(record, officer):
    with record.writing() as w:
        code = kiosks.invite(w, "Hall 2", by=officer)
        assert (len(code), [row.state for row in kiosks.all_of(w)]) == (10, ["invited"])
        token = kiosks.redeem(w, f"{code[:5]} {code[5:]}", place="10.0.0.7")
        kiosk = kiosks.of_token(w, token)
        assert (kiosk.name, kiosk.state) == ("Hall 2", "enrolled")
        stored = w.session.scalars(select(Kiosk)).one()
        assert token not in vars(stored).values()
        assert code not in vars(stored).values()
        kiosks.rename(w, kiosk.id, "Hall 2, north", by=officer)
        kiosks.withdraw(w, kiosk.id, by=officer, reason="Glass broken")
        assert kiosks.of_token(w, token) is None
        told = [entry.body for entry in ledger.entries(w, person=officer)]
    assert [body["event"] for body in told] == ["kiosk-invited", "kiosk-enrolled", "kiosk-renamed", "kiosk-withdrawn"]
    assert told[-1]["note"] == "Hall 2, north: Glass broken"


def test_a_code_works_once_and_not_for_long(record, officer, clock):
    with record.writing() as w:
        code = kiosks.invite(w, "Hall 2", by=officer)
        kiosks.redeem(w, code, place="here")
        late = kiosks.invite(w, "Hall 3", by=officer)
        first = kiosks.invite(w, "Hall 4", by=officer)
        kiosks.invite(w, "hall 4", by=officer)  # a new code for the same name
    clock.advance(kiosks.CODE_FOR)
    for wrong in (code, first, "", "1234567890"):
        with pytest.raises(SignInRefused, match="its time is over"), record.writing() as w:
            kiosks.redeem(w, wrong, place="here")
    clock.advance(timedelta(seconds=1))
    with pytest.raises(SignInRefused), record.writing() as w:
        kiosks.redeem(w, late, place="here")
    with record.reading() as r:
        assert {row.name: row.state for row in kiosks.all_of(r)} == {
            "Hall 2": "enrolled",
            "Hall 3": "ran-out",
            "hall 4": "ran-out",
        }


def test_whoever_guesses_codes_has_to_wait(record, officer):
    told = []
    for number in range(25):
        with pytest.raises(SignInRefused) as refused, record.writing() as w:
            kiosks.redeem(w, f"{number:010d}", place="here")
        told.append(refused.value.wait)
    assert told[0] == 0
    assert told[-1] > 0


def test_only_an_officer_enrols_and_a_name_is_used_once(record, officer):
    with record.writing() as w:
        plain = people.add(w, number="00002", name="Dana").key
        with pytest.raises(NotEntitled):
            kiosks.invite(w, "Hall 2", by=plain)
        kiosks.redeem(w, kiosks.invite(w, "Hall 2", by=officer), place="here")
        with pytest.raises(RecordError, match="already"):
            kiosks.invite(w, "HALL 2", by=officer)
