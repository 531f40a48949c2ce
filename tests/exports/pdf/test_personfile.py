"""One person's file: what it says, that nothing is cut, that it is the same twice."""

from datetime import date, timedelta

import pytest
from exports.pdf.reading import inked, pages, size, words
from records.site import tamper

from trainer.exports.about import About, Tally
from trainer.exports.pdf.held import Wanted, held
from trainer.exports.pdf.paper import A4, LETTER
from trainer.exports.pdf.personfile import person_pdf
from trainer.exports.voice import PLAIN
from trainer.records import acts, people
from trainer.web.language import voice
from trainer.wording import say


def made(site, bank, person=None, *, speak=PLAIN, paper=A4, **asked):
    with site.record.reading() as r:
        found = held(r, bank, Wanted(person=person or site.learner, **asked))
        about = About(
            what=say("Entries of the ledger"), site="Ostrand Mill", zone=r.zone, made_at=r.now(), edition=bank.edition
        )
        return person_pdf(found, bank, about, Tally({}), speak, size=paper)


def test_it_names_standing_reasons_entries_and_both_days(site, bank):
    told = words(made(site, bank))

    assert "Dana Ruiz, 00241" in told
    assert "Authorised for 1 of 1 at the end of 9 Mar 2026, as known on 9 Mar 2026." in told
    assert "Passed the induction on 28 Jan 2026" in told
    assert "L-2" in told
    assert "Shown at the machine on 28 Jan 2026 and signed off. L-3" in told
    assert "Rosalind Achterberg, 00101" in told
    assert "right to judge L-1 until 31 Dec 2027" in told
    assert "marked by the program at" in told
    assert "Check code" in told


def test_every_page_counts_itself_and_carries_the_block(site, bank):
    with site.record.writing() as w:
        for number in range(60):
            note = f"Talk number {number} about the pedal and what a foot does when it is startled."
            acts.attend(
                w, person=site.learner, topic=note, presenter=site.trainer, by=site.trainer, happened_on=w.today()
            )
    found = pages(made(site, bank))

    assert len(found) > 2
    for number, page in enumerate(found, 1):
        text = page.extract_text()
        assert f"{number} of {len(found)}" in text
        assert "Dana Ruiz, 00241" in text
        assert "As known on" in text
    assert words(made(site, bank)).count("Talk number") == 60


def test_the_same_question_gives_the_same_bytes(site, bank):
    assert made(site, bank) == made(site, bank)


def test_what_came_late_says_so_and_is_left_out_as_known_before(site, bank):
    with site.record.writing() as w:
        day = w.today() - timedelta(days=9)
        acts.suspend(w, person=site.learner, reason="Reached round the curtain.", by=site.trainer, happened_on=day)

    told = words(made(site, bank))
    assert "Authorised for 0 of 1" in told
    assert "entered late by 9 d" in told
    assert "Suspended on 28 Feb 2026: Reached round the curtain." in told
    before = words(made(site, bank, known_on=date(2026, 3, 1)))
    assert "Authorised for 1 of 1 at the end of 9 Mar 2026, as known on 1 Mar 2026." in before
    assert "Reached round" not in before


def test_in_spanish_the_accents_are_right(site, bank):
    told = words(made(site, bank, speak=voice("es")))

    assert "EXPEDIENTE DE UNA PERSONA" in told
    assert "Cuál es su situación, y por qué" in told
    assert "Código de control" in told
    assert "1 de 1" in told or "1 de 2" in told


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_nothing_is_cut_at_the_edge_of_the_sheet(site, bank, paper, tmp_path):
    data = made(site, bank, paper=paper)
    assert size(pages(data)[0]) == paper
    for left, top, right, bottom in inked(data, tmp_path):
        assert left > 0.03
        assert top > 0.02
        assert right < 0.98
        assert bottom < 0.98


def test_a_name_is_printed_as_it_is_stored_however_long_or_strange(site, bank):
    long = "Nguyễn Thị Ánh Ó Súilleabháin " + "von der Weiden und Quellenbach " * 7 + "Ende"
    with site.record.writing() as w:
        one = people.add(w, number="00900", name=long.strip()).key
        other = people.add(w, number="00901", name="陳大文").key

    assert long.strip() in words(made(site, bank, one))
    assert "[U+9673][U+5927][U+6587]" in words(made(site, bank, other))


def test_nobody_without_entries_is_called_authorised(site, bank):
    told = words(made(site, bank, site.officer))

    assert "Nothing on record is not authorised." in told
    assert "nothing is known" in told


def test_a_ledger_that_was_altered_is_said_on_the_paper(site, bank):
    tamper(site.record, "UPDATE entry SET body = replace(body, '2027', '2029') WHERE number = 1")

    assert "Do not rely on this file" in words(made(site, bank))
