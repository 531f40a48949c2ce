"""A copy holds everything about one person, no secret, and nobody else."""

import io
import json
import zipfile

import pytest
import sqlalchemy as sa

from trainer.exports.personfile import KINDS as NAMES
from trainer.exports.personfile import SECTIONS as TITLES
from trainer.exports.personfile import Copy, person_zip
from trainer.records import acts, ledger, people
from trainer.records.models import Base
from trainer.records.privacy.held import SECTIONS, held
from trainer.records.privacy.rules import KINDS, rules
from trainer.web.language import voice


def copied(office, language="en"):
    site = office.site
    with site.record.reading() as r:
        copy = Copy(
            held=held(r, site.learner),
            entries=list(ledger.entries(r, person=site.learner)),
            rules=rules(r),
            bank=site.bank,
            site="Ostrand Mill",
            made_at=r.now(),
            zone=r.zone,
        )
    packed = zipfile.ZipFile(io.BytesIO(person_zip(copy, voice(language))))
    return json.loads(packed.read("held.json")), packed.read("held.txt").decode()


def test_everything_is_in_it(office):
    data, text = copied(office)

    assert data["identity"]["name"] == "Dana Ruiz"
    assert data["identity"]["badge"] == "0013748911"
    assert [row["name"] for row in data["names"]] == ["Dana Ruiz"]
    assert [row["kind"] for row in data["entries"]] == ["sitting-marked", "practical-signed", "event"]
    assert [answer["answer"] for answer in data["sittings"][0]["answers"]] == [{"chosen": "a"}]
    assert [row["place"] for row in data["sign-ins"]] == ["kiosk 2"]
    assert data["hazards"][0]["words"] == "The foot switch has no cover."
    for title in TITLES.values():
        assert title in text
    assert "Passed: " in text


def test_no_secret_and_no_token_is_in_it(office):
    data, text = copied(office)
    with office.site.record.engine.connect() as connection:
        hidden = [
            *connection.execute(sa.text("SELECT hash FROM secret")).scalars(),
            *connection.execute(sa.text("SELECT token FROM web_session")).scalars(),
        ]

    assert len(hidden) == 2
    assert not any(value in json.dumps(data) or value in text for value in hidden)
    assert data["secrets"][0]["kind"] == "pin"


def test_others_are_hidden_by_key_and_by_name(office):
    site = office.site
    data, text = copied(office)
    whole = json.dumps(data) + text

    assert site.trainer not in whole
    assert "Achterberg" not in whole
    assert data["entries"][2]["body"]["note"] == f"Dana Ruiz was helped by {data['entries'][2]['recorded_by']}."
    assert data["entries"][2]["recorded_by"].startswith("another-person-")


def test_what_was_recorded_about_others_names_no_other(office):
    site = office.site
    with site.record.writing() as w:
        acts.event(w, person=site.trainer, event="incident", note="x", by=site.learner, happened_on=w.today())
        people.add(w, number="9", name="Li")
    data, _ = copied(office)

    assert [row["kind"] for row in data["entries-about-others"]] == ["event"]
    assert set(data["entries-about-others"][0]) == {"number", "kind", "happened_on"}


def test_it_says_why_and_how_long_in_the_readers_language(office):
    assert "until it does, all of it is kept" in copied(office)[1]
    office.rule("practical-signed", 3, "expiry")
    data, text = copied(office)
    assert "practical signed: 3 years from the day on which it expires" in text
    assert data["kept"] == {"practical-signed": {"counted_from": "expiry", "years": 3}}

    spanish = copied(office, "es")[1]
    assert "Todo lo que Ostrand Mill guarda sobre usted" in spanish
    assert "Who you are here" not in spanish


def test_each_kind_of_record_has_a_name_and_each_section_a_title():
    assert set(NAMES) == set(KINDS)
    assert set(SECTIONS) == set(TITLES)


@pytest.mark.parametrize("table", [table.name for table in Base.metadata.sorted_tables])
def test_each_table_that_leads_to_a_person_has_a_section_or_a_reason(table):
    covered = {
        "asked", "asked_answer", "entry", "hazard", "hazard_answer", "kiosk", "machine_fact", "machine_reading", "mail_address",
        "person", "person_name", "person_role", "privacy_request", "reminder", "retention_rule", "retention_run",
        "roster_import",
        "secret", "sign_in", "sitting", "web_session",
    }  # fmt: skip
    linked = {"answer", "sitting_lock"}  # by their sitting
    nobody = {"head", "checkpoint", "machine", "edition", "throttle", "alembic_version"}  # digests, counts, content

    assert table in covered | linked | nobody
