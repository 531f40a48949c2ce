"""The code on a paper: it leads to one claim, tells today's state, and nothing to whoever guesses."""

from datetime import UTC, datetime, timedelta

import pytest
from records.site import build_site, tamper

from trainer.clock import FixedClock
from trainer.exports.claims import Claim, Shown, State, code_of, look_up, plain
from trainer.records import acts, open_record, people

NOW = datetime(2026, 3, 9, 13, 12, tzinfo=UTC)


@pytest.fixture
def site(settings, bank):
    clock = FixedClock(NOW - timedelta(days=40))
    record = open_record(settings, clock)
    made = build_site(record, clock, bank)
    made.sit(made.learner)
    made.show(made.learner)
    clock.instant = NOW
    yield made
    record.close()


def dana(site, **changed):
    given = {"person": site.learner, "name": "Dana Ruiz", "machine": "PB-1", "role": "operator"}
    return Claim(**(given | changed))


def seen(site, bank, code):
    with site.record.reading() as r:
        return look_up(r, bank, code)


def code(site, **changed):
    with site.record.reading() as r:
        return code_of(r, dana(site, **changed))


def test_a_code_shows_name_kind_role_and_todays_state_and_nothing_else(site, bank):
    shown = seen(site, bank, code(site))

    assert shown == Shown(name="Dana Ruiz", kind="press-brake-hydraulic", role="operator", state=State.AUTHORISED)
    assert Shown.__slots__ == ("name", "kind", "role", "state")


def test_each_claim_has_a_code_of_its_own(site):
    codes = {code(site, **changed) for changed in ({}, {"machine": "PB-4"}, {"role": "helper"}, {"name": "D. Ruiz"})}

    assert len(codes) == 4


def test_it_is_read_as_people_type_it(site, bank):
    printed = code(site)
    typed = printed.lower().replace("-", " ").replace("0", "o").replace("1", "l")

    assert plain(typed) == printed.replace("-", "")
    assert seen(site, bank, typed) == seen(site, bank, printed)


@pytest.mark.parametrize("wrong", ["", "x", "0000-0000-0000", "7QK4-M2XD-0F9B", "U" * 12, "é" * 12, "9" * 400])
def test_a_code_that_is_none_shows_nothing(site, bank, wrong):
    assert seen(site, bank, wrong) is None


def test_one_sign_changed_leads_nowhere(site, bank):
    printed = code(site)
    for place, sign in enumerate(printed):
        other = printed[:place] + ("0" if sign != "0" else "1") + printed[place + 1 :]
        assert sign == "-" or seen(site, bank, other) is None


def test_whoever_was_suspended_is_not_authorised_and_whoever_is_not_known_is_unknown(site, bank):
    with site.record.writing() as w:
        acts.suspend(w, person=site.learner, reason="Reached round.", by=site.trainer, happened_on=w.today())

    assert seen(site, bank, code(site)).state is State.NOT
    assert seen(site, bank, code(site, machine="PB-4")).state is State.NOT
    nobody = code(site, person=site.officer, name="Harriet Lindqvist-Moss")
    assert seen(site, bank, nobody).state is State.UNKNOWN


def test_whoever_left_is_not_authorised(site, bank):
    with site.record.writing() as w:
        people.leave(w, site.learner, on=w.today() - timedelta(days=1), by=site.officer)

    assert seen(site, bank, code(site)).state is State.NOT


def test_a_chain_that_was_altered_is_unknown(site, bank):
    tamper(site.record, "UPDATE entry SET body = replace(body, 'passed', 'Passed') WHERE number = 3")

    assert seen(site, bank, code(site)).state is State.UNKNOWN


def test_the_name_is_the_printed_one_also_after_a_change(site, bank):
    printed = code(site)
    with site.record.writing() as w:
        people.rename(w, site.learner, name="Dana Ruiz-Holm")

    assert seen(site, bank, printed).name == "Dana Ruiz"
    assert seen(site, bank, code(site, name="Dana Ruiz-Holm")).name == "Dana Ruiz-Holm"


def test_another_sites_key_makes_other_codes(site, bank, settings, tmp_path):
    with site.record.reading() as r:
        other = code_of(type(r)(r.session, r.clock, r.zone, b"another key"), dana(site))

    assert other != code(site)
    assert seen(site, bank, other) is None
