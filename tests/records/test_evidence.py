"""Each marked answer and each practical is a piece of evidence; what does not count is none."""

from datetime import timedelta

from records.site import TODAY, mark, paper

from trainer.records import acts, evidence, sittings


def gathered(site, on=None):
    with site.record.reading() as r:
        return evidence.of(r, site.bank, site.learner, on or site.today())


def sit(site, competency, *, right=True, order=("a", "b", "c", "d")):
    given = paper()
    given["sheets"][1] |= {"competency": competency, "order": list(order)}
    with site.record.writing() as w:
        row = sittings.start(
            w, site.bank, person=site.learner, programme=given["programme"], paper=given, language="en", kiosk="K1"
        )
        sittings.save_answer(w, row.id, 2, {"chosen": "a"}, mark(right), key="k", took_ms=1)
        result = {"passed": True, "right": 1, "out_of": 2, "needed": 2, "critical_missed": []}
        return sittings.hand_in(w, row.id, result)


def test_an_answer_is_evidence_for_its_competency_with_the_chance_to_guess_it(site):
    competency = next(iter(site.bank.competencies))
    sit(site, competency, right=False)
    sit(site, competency, order=())
    first, second = gathered(site)

    assert (first.competency, first.right, first.guess, first.on, first.observed) == (
        competency,
        False,
        0.25,
        TODAY,
        False,
    )
    assert (second.right, second.guess) == (True, 0.0)


def test_a_sheet_without_an_answer_or_of_an_unknown_competency_is_none(site):
    sit(site, "gone-from-the-bank")

    assert gathered(site) == []


def test_a_practical_is_observed_evidence_for_the_practice_of_its_role(site):
    site.show(site.learner)
    found = gathered(site)
    wanted = {
        name
        for name, competency in site.bank.competencies.items()
        if competency.kind == "practice" and "operator" in competency.roles
    }

    assert {row.competency for row in found} == wanted
    assert all(row.observed and row.right and row.guess == 0 for row in found)


def test_what_was_withdrawn_or_is_still_to_come_is_left_out(site, clock):
    competency = next(iter(site.bank.competencies))
    entry = sit(site, competency)
    assert gathered(site, TODAY - timedelta(days=1)) == []
    with site.record.writing() as w:
        acts.withdraw(w, entry=entry.number, reason="Faulty question.", by=site.officer, happened_on=TODAY)

    assert gathered(site) == []
