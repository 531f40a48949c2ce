"""What each crew knows least: boxes for people, never a name, never a group of fewer than five."""

from collections.abc import Sequence
from datetime import date

from flask import g
from web.plant import Plant

from trainer.assessment.mastery import Evidence
from trainer.records import people
from trainer.web.desk.crews import CrewsPage, crews_page

ENDS, PEDAL = "open-die-ends", "mounting-distance"
TODAY = date(2026, 3, 9)


def answers(right: bool, competency: str = ENDS) -> list[Evidence]:
    return [Evidence(competency=competency, right=right, guess=0.0, on=TODAY)] * 60


def page(
    plant: Plant, crews: Sequence[tuple[str, int, list[Evidence]]], *, by: str = "shift", find: str = ""
) -> CrewsPage:
    seen, rows = {}, []
    for shift, count, evidence in crews:
        for number in range(count):
            key = plant.add(f"0{len(seen) + 3000}", f"Person {shift} {number}", shift)
            seen[key] = evidence
    with plant.site.record.reading() as r:
        rows = people.everybody(r)
        trainer = people.must(r, plant.site.trainer)
    with plant.app.test_request_context():
        g.person, g.roles = trainer, frozenset({"trainer"})
        return crews_page(plant.site.bank, rows, seen, TODAY, by=by, find=find, least=5)


def test_a_crew_of_five_is_shown_and_one_of_four_is_not(plant: Plant) -> None:
    made = page(plant, [("Late", 4, answers(right=False)), ("Night", 5, answers(right=True))])
    assert made.crews == ("Late", "Night")
    late, night = made.rows[0].cells
    assert (late.boxes, late.text) == ((), "fewer than 5 people")
    assert (night.boxes, night.text) == (("solid",) * 5, "5 of 5 shown, 0 not settled, 0 gap")


def test_the_weakest_comes_first(plant: Plant) -> None:
    both = [*answers(right=True, competency=PEDAL), *answers(right=False)]
    made = page(plant, [("Night", 6, both)])
    names = [plant.site.bank.competencies[key].name.in_("en") for key in (ENDS, PEDAL)]
    assert [row.name for row in made.rows] == names
    assert made.rows[0].cells[0].text == "0 of 6 shown, 0 not settled, 6 gap"


def test_what_no_crew_has_five_people_on_is_counted_and_not_shown(plant: Plant) -> None:
    made = page(plant, [("Late", 4, answers(right=False)), ("Night", 4, answers(right=False))])
    assert (made.rows, made.hidden) == ((), len(plant.site.bank.competencies))


def test_it_can_be_searched_and_grouped_by_crew(plant: Plant) -> None:
    crews = [("Night", 5, answers(right=True))]
    assert len(page(plant, crews, find="OPEN DIE").rows) == 1


def test_people_without_a_crew_are_in_no_group(plant: Plant) -> None:
    assert page(plant, [("Night", 5, answers(right=True))], by="crew").rows == ()


def test_the_sheet_names_nobody(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=60)
    answer = plant.client("rosalind").get("/desk/crews")
    assert answer.status_code == 200
    assert "Dahlgaard" not in answer.text
    assert "No crew has 5 people with evidence on it." in answer.text
