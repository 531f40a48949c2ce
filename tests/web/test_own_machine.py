"""A refresher asks about the machine that it is for: by its own facts, or not at all; one too close is reported."""

from datetime import timedelta

import pytest
from web.glass import Glass

from trainer.assessment import judging
from trainer.records import assignments, hazards, machines, sittings
from trainer.records.mounts import own_machine
from trainer.units import magnitude, parse

REFRESHER = "press-brake-operator-refresher"
FACTS = {
    "distance-rule": "ansi-presence-sensing",
    "measure-every": "182 days",
    "control-response": "20 ms",
    "device-response": "15 ms",
    "monitor-allowance": "25 ms",
    "object-sensitivity": "14 mm",
}


@pytest.fixture
def glass(plant):
    glass = Glass(plant, plant.client())
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
    glass.sign_in()
    return glass


def file(plant, mounted, *, days_ago=10, without=""):
    """Put the facts of PB-1 on file: its least distance is 325 mm."""
    site = plant.site
    with site.record.writing() as w:
        for key, value in {**FACTS, "mounted-distance": mounted}.items():
            if key != without:
                machines.note_fact(w, "PB-1", key, value, by=None)
        machines.note_reading(w, "PB-1", "128 ms", on=site.today() - timedelta(days=days_ago), by=None)


def own_sheet(glass):
    """Begin the refresher; return its sheet about a machine of the shop, or None."""
    glass.post("/sittings", {"programme": REFRESHER}, of="/sheets")
    with glass.plant.site.record.reading() as r:
        row = sittings.open_for(r, glass.plant.site.learner)[0]
    sheets = [sheet for sheet in row.paper["sheets"] if judging.MACHINE in sheet["drawn"]]
    return (row, sheets[0]) if sheets else (row, None)


def reports(glass):
    with glass.plant.site.record.reading() as r:
        return hazards.reports(r)


def test_the_drill_has_the_machine_s_own_numbers_and_name(glass):
    file(glass.plant, "380 mm")
    row, sheet = own_sheet(glass)

    assert sheet["drawn"] == {
        "stopping-time": "128 ms",
        "control-response": "20 ms",
        "device-response": "15 ms",
        "monitor-allowance": "25 ms",
        "object-sensitivity": "14 mm",
        "mounted": "380 mm",
        "machine": "PB-1 Press brake 110 t",
        "measured": sheet["drawn"]["measured"],
    }
    with glass.plant.site.record.writing() as w:
        sittings.move_to(w, row.id, sheet["number"])
    page = glass.client.get(f"/sittings/{row.id}/{sheet['number']}").text
    assert "This is PB-1 Press brake 110 t in this shop." in page
    assert "380 mm" in page
    assert "Yes. It stands 55 mm further out than it must." in page
    assert reports(glass) == []


@pytest.mark.parametrize("missing", sorted(FACTS))
def test_without_one_fact_it_is_not_offered_and_the_desk_names_the_fact(glass, missing):
    file(glass.plant, "380 mm", without=missing)
    _row, sheet = own_sheet(glass)

    assert sheet is None
    assert "no drill can be drawn from this machine" in glass.plant.client("rosalind").get("/desk/machines/PB-1").text


def test_a_reading_that_is_too_old_gives_no_drill_and_the_desk_says_so(glass):
    file(glass.plant, "380 mm", days_ago=200)
    _row, sheet = own_sheet(glass)

    assert sheet is None
    page = glass.plant.client("rosalind").get("/desk/machines/PB-1").text
    assert "Until then no drill is drawn from this machine." in page


def test_one_that_stands_too_close_is_reported_at_once_and_once(glass):
    file(glass.plant, "290 mm")
    _row, sheet = own_sheet(glass)

    assert sheet is not None
    (report,) = reports(glass)
    assert report.machine == "PB-1"
    assert "stands at 290 mm" in report.words
    assert report.words in glass.plant.client("rosalind").get("/desk/").text
    own_sheet(glass)
    assert len(reports(glass)) == 1


def test_what_stands_exactly_at_its_least_distance_has_no_gap_to_choose(glass):
    file(glass.plant, "325 mm")
    _row, sheet = own_sheet(glass)

    assert sheet is None


def test_what_is_drawn_is_what_the_sum_takes(glass):
    file(glass.plant, "290 mm")
    with glass.plant.site.record.reading() as r:
        own = own_machine(machines.get(r, "PB-1"), r.today())
    assert own.too_close
    assert magnitude(parse(own.mounted, "length"), "mm") == 290
