"""A refresher with a stopping rule leads to handing in as soon as enough is known."""

import shutil

import pytest
from web.glass import Glass, right
from web.plant import open_plant

from trainer.assessment.ending import plan_for
from trainer.assessment.paper import Paper, SheetKind
from trainer.bank.model import StopRule
from trainer.records import assignments, ledger

REFRESHER = "press-brake-operator-refresher"
RULE = StopRule(low=0.5, high=0.9, false_pass=0.05, false_fail=0.1)


@pytest.fixture
def glass(settings, built_plant, bank):
    shutil.copytree(built_plant, settings.data)
    programme = bank.programmes[REFRESHER].model_copy(update={"stops": RULE})
    plant = open_plant(settings, bank.model_copy(update={"programmes": {**bank.programmes, REFRESHER: programme}}))
    site = plant.site
    with site.record.writing() as w:
        assignments.assign(
            w,
            person=site.learner,
            programme=REFRESHER,
            by=site.trainer,
            reason="yearly",
            happened_on=site.today(),
            machine="PB-1",
        )
    glass = Glass(plant, plant.client())
    glass.sign_in()
    return glass


def test_the_paper_is_handed_in_once_enough_is_known(glass):
    row = glass.begin(REFRESHER)
    bank = glass.plant.site.bank
    paper = Paper.from_data(row.paper)
    least = plan_for(bank.programmes[REFRESHER], paper).least
    marked = 0
    for sheet in paper.sheets:
        if sheet.kind is SheetKind.LESSON:
            glass.turn(row.id, sheet.number, "lesson")
            continue
        glass.answer(row.id, sheet.number, right(bank, sheet))
        glass.turn(row.id, sheet.number, "answer")
        marked += 1
        answer = glass.turn(row.id, sheet.number, "feedback")
        if answer.headers["Location"].endswith("/hand-in"):
            break

    assert marked == least < len(paper.marked)
    assert glass.hand_in(row).status_code == 303
    with glass.plant.site.record.reading() as r:
        (entry,) = [one for one in ledger.entries(r, person=glass.plant.site.learner) if one.kind == "sitting-marked"]
    assert entry.body["passed"] is True
    assert entry.body["score"] == {"right": least, "out_of": least}
    assert len(entry.body["items"]) == least
    assert entry.body["stops"] == {"low": 0.5, "high": 0.9, "false_pass": 0.05, "false_fail": 0.1}
