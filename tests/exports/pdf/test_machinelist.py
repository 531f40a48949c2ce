"""The list at a machine: who may do what, until when it holds, who may supervise, and when it is not to be posted."""

from datetime import date, timedelta

import pytest
from exports.pdf.reading import inked, pages, size, words
from records.site import entitle, tamper

from trainer.errors import Missing, RecordError
from trainer.exports.about import About
from trainer.exports.pdf.listed import listed
from trainer.exports.pdf.machinelist import list_pdf
from trainer.exports.pdf.paper import A4, LETTER
from trainer.exports.voice import PLAIN
from trainer.records import acts, people
from trainer.web.language import voice
from trainer.wording import say


def made(site, bank, *, speak=PLAIN, paper=A4, machine="PB-1", **asked):
    with site.record.reading() as r:
        found = listed(r, bank, machine=machine, **asked)
        about = About(
            what=say("Who may do what"), site="Ostrand Mill", zone=r.zone, made_at=r.now(), edition=bank.edition
        )
        return list_pdf(found, about, speak, size=paper, home="https://training.example"), found


def add(site, number, name, *, shift="Early", sign=True):
    with site.record.writing() as w:
        key = people.add(w, number=number, name=name, shift=shift).key
    site.sit(key)
    if sign:
        site.show(key)
    return key


def test_it_names_who_may_run_it_until_when_and_who_may_supervise(site, bank):
    data, found = made(site, bank)
    told = words(data)

    assert "POST AT THE MACHINE" in told
    assert "Not on this list, or after 28 Jan 2027: do not use it." in told
    assert "Dana Ruiz 00241, to 28 Jan 2027" in told
    assert "May supervise" in told
    assert "Rosalind Achterberg, 00101, operator, to 31 Dec 2027" in told
    assert "Ends within 30 days" in told
    assert found.code in told
    assert found.live


def test_it_holds_to_the_first_end_and_says_whose_it_is(site, bank):
    with site.record.writing() as w:
        entitle(w, site, valid_to=date(2026, 3, 20))
    _, found = made(site, bank)

    assert found.until == date(2026, 3, 20)
    assert found.ends == ["Rosalind Achterberg"]


def test_who_lapses_within_thirty_days_is_named_first_to_end_first(site, bank):
    site.clock.instant += timedelta(days=310)
    add(site, "00250", "Ola Berg")
    told = words(made(site, bank)[0])

    assert "28 Jan 2027: Dana Ruiz, 00241" in told
    assert "Ola Berg" not in told.split("Ends within 30 days")[1]


def test_who_may_not_is_not_on_it_and_supervised_stand_apart(site, bank):
    add(site, "00251", "Tove Lund", sign=False)
    failing = add(site, "00252", "Ivo Kranz", sign=False)
    step = next(step for step in bank.checklists[_checklist(bank)].steps if step.critical)
    site.show(failing, failing=step.id)
    left = add(site, "00253", "Gone Away")
    with site.record.writing() as w:
        acts.suspend(w, person=site.learner, reason="Reached round.", by=site.trainer, happened_on=w.today())
        people.leave(w, left, on=w.today() - timedelta(days=1), by=site.officer)
    told = words(made(site, bank)[0])

    assert "Nobody may work at this machine." in told
    assert "Tove" not in told
    assert "Gone Away" not in told
    assert "Dana" not in told
    assert "Supervised only" in told
    assert "Ivo Kranz, 00252, operator" in told


def _checklist(bank):
    return next(
        each.id
        for each in bank.checklists.values()
        if each.role == "operator" and "press-brake-hydraulic" in {kind.value for kind in each.machine_kinds}
    )


def test_a_list_of_another_day_says_that_it_is_not_to_be_posted(site, bank):
    data, found = made(site, bank, on=date(2026, 1, 20))
    told = words(data)

    assert not found.live
    assert "LIST OF A DAY, NOT TO BE POSTED" in told
    assert "Nobody may work at this machine." in told
    assert "How it stood at the end of 20 Jan 2026, as known on 9 Mar 2026." in told
    assert not made(site, bank, known_on=date(2026, 3, 1))[1].live


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_a_long_list_goes_on_to_further_sheets_and_nothing_is_cut(site, bank, paper, tmp_path):
    for number in range(70):
        shift = ("Early", "Late", "Night", "Weekend")[number % 4]
        add(site, f"1{number:04}", f"Åse-Marie Þórðardóttir van der Weiden {number}", shift=shift)
    data, _ = made(site, bank, paper=paper, speak=voice("es"))

    assert len(pages(data)) > 1
    assert size(pages(data)[0]) == paper
    told = words(data)
    assert all(f"1{number:04}, hasta el" in told for number in range(70))
    assert "Si no está en esta lista" in told
    for left, top, right, bottom in inked(data, tmp_path):
        assert min(left, top) > 0.02
        assert max(right, bottom) < 0.98


def test_the_same_record_gives_the_same_bytes(site, bank):
    assert made(site, bank)[0] == made(site, bank)[0]


def test_an_altered_ledger_or_an_unknown_machine_gives_no_list(site, bank):
    with pytest.raises(Missing):
        made(site, bank, machine="PB-9")
    tamper(site.record, "UPDATE entry SET body = replace(body, '2027', '2029') WHERE number = 1")
    with pytest.raises(RecordError, match="not as it was written"):
        made(site, bank)
