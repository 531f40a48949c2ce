"""Certificates and cards: only for who is authorised, with what they do not show, as large as they must be."""

from datetime import timedelta

import pytest
from exports.pdf.reading import inked, pages, size, words
from records.site import tamper

from trainer.errors import RecordError
from trainer.exports.about import About
from trainer.exports.pdf.card import cards_pdf
from trainer.exports.pdf.certificate import certificate_pdf
from trainer.exports.pdf.paper import A4, LETTER
from trainer.exports.pdf.proven import proofs
from trainer.exports.voice import PLAIN
from trainer.records import acts, people
from trainer.web.language import voice
from trainer.wording import say

HOME = "https://training.example"
LONG = "María de los Ángeles Güiraldes-Østergård " + "y Fernández de la Encarnación " * 8 + "Ñandú"


def about(r, bank):
    return About(what=say("Who may do what"), site="Ostrand Mill", zone=r.zone, made_at=r.now(), edition=bank.edition)


def certificate(site, bank, *, speak=PLAIN, paper=A4, home=HOME):
    with site.record.reading() as r:
        (proof,) = proofs(r, bank, person=site.learner, machine="PB-1")
        return certificate_pdf(proof, bank, about(r, bank), speak, size=paper, home=home), proof


def cards(site, bank, paper="card", *, speak=PLAIN, count=1):
    with site.record.reading() as r:
        found = proofs(r, bank, machine="PB-1")
        return cards_pdf(list(found) * count, about(r, bank), speak, paper=paper, home=HOME), found


def test_a_certificate_says_what_it_shows_and_what_not(site, bank):
    data, proof = certificate(site, bank)
    told = words(data)

    assert len(pages(data)) == 1
    assert "Dana Ruiz" in told
    assert "is authorised as operator at PB-1: Press brake 110 t (press brake, hydraulic)." in told
    assert "Valid until 28 Jan 2027" in told
    assert "every critical answer among them (L-2)" in told
    assert "signed by Rosalind Achterberg, who had the right to judge it (L-3, L-1)" in told
    assert "What it does not show" in told
    assert "That the holder may run any other machine" in told
    assert f"{HOME}/verify/{proof.code}" in told


def test_without_an_address_it_bears_the_code_alone(site, bank):
    told = words(certificate(site, bank, home="")[0])

    assert "http" not in told
    assert "Ask the plant with the check code" in told


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_a_long_name_fits_and_nothing_is_cut(site, bank, paper, tmp_path):
    with site.record.writing() as w:
        people.rename(w, site.learner, name=LONG)
    data, _ = certificate(site, bank, speak=voice("es"), paper=paper)

    assert size(pages(data)[0]) == (paper[1], paper[0])
    assert LONG in words(data)
    assert "Qué no demuestra" in words(data)
    ((left, top, right, bottom),) = inked(data, tmp_path)
    assert min(left, top) > 0.02
    assert max(right, bottom) < 0.98


def test_a_card_is_as_large_as_a_bank_card_with_two_sides(site, bank, tmp_path):
    with site.record.writing() as w:
        people.rename(w, site.learner, name=LONG)
    data, (proof,) = cards(site, bank, speak=voice("es"))

    assert [size(page) for page in pages(data)] == [(85.6, 54.0)] * 2
    front, back = (" ".join(page.extract_text().split()) for page in pages(data))
    assert LONG in front
    assert "PB-1, operador" in front
    assert proof.code in front
    assert proof.code in back
    assert "No demuestra que una máquina" in back
    for left, top, right, bottom in inked(data, tmp_path, dpi=200):
        assert min(left, top) > 0.01
        assert max(right, bottom) < 0.99


@pytest.mark.parametrize(("paper", "whole", "a_sheet"), [("a4", A4, 10), ("letter", LETTER, 8)])
def test_cards_on_sheets_have_their_backs_behind_their_fronts(site, bank, paper, whole, a_sheet):
    data, _ = cards(site, bank, paper, count=a_sheet + 1)
    found = pages(data)

    assert [size(page) for page in found] == [whole] * 4
    fronts, backs = (found[number].extract_text().count("Dana Ruiz") for number in (0, 1))
    assert (fronts, backs) == (a_sheet, 0)
    assert found[1].extract_text().count("Check it at") == a_sheet
    assert found[2].extract_text().count("Dana Ruiz") == 1


def test_the_same_authorisation_on_the_same_day_gives_the_same_bytes(site, bank):
    assert certificate(site, bank)[0] == certificate(site, bank)[0]
    assert cards(site, bank, "a4")[0] == cards(site, bank, "a4")[0]


@pytest.mark.parametrize("blocked", ["suspended", "lapsed", "changed", "unsigned", "unknown", "left"])
def test_no_paper_for_whoever_is_not_authorised(site, bank, blocked):
    person = site.learner
    with site.record.writing() as w:
        day = w.today()
        if blocked == "suspended":
            acts.suspend(w, person=person, reason="Reached round.", by=site.trainer, happened_on=day)
        elif blocked == "changed":
            acts.machine_changed(w, machine="PB-1", note="New control.", by=site.trainer, happened_on=day)
        elif blocked == "left":
            people.leave(w, person, on=day - timedelta(days=1), by=site.officer)
        elif blocked in {"unsigned", "unknown"}:
            person = people.add(w, number="00300", name="Nobody Yet").key
    if blocked == "unsigned":
        site.sit(person)
    if blocked == "lapsed":
        site.clock.instant += timedelta(days=400)
    with site.record.reading() as r, pytest.raises(RecordError, match="no certificate and no card is made"):
        proofs(r, bank, person=person, machine="PB-1")


def test_no_paper_from_a_ledger_that_was_altered(site, bank):
    tamper(site.record, "UPDATE entry SET body = replace(body, '2027', '2029') WHERE number = 1")

    with site.record.reading() as r, pytest.raises(RecordError, match="not as it was written"):
        proofs(r, bank, person=site.learner)
