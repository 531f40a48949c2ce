"""Many people do not make the sheets ask the database more often, nor keep whoever opens one waiting."""

from collections.abc import Iterator
from contextlib import contextmanager

from flask.testing import FlaskClient
from sqlalchemy import event
from web.plant import Plant

from trainer.records import Record, acts, assignments, hazards, people

# The most questions that each sheet may put to the database, however many people there are.
CAPS = {
    "/desk/": 36,
    "/desk/people": 20,
    "/desk/people?find=crew&sort=-ends&page=2": 20,
    "/desk/due": 25,
    "/desk/machines": 20,
    "/desk/practicals": 25,
    "/desk/plan": 25,
    "/desk/crews": 25,
    "/desk/questions": 15,
    "/desk/talks": 15,
    "/desk/reports": 15,
    "/desk/events": 20,
    "/desk/assign?programme=press-brake-operator-induction&shift=Early": 25,
    "/office/": 15,
    "/office/overdue": 20,
}


@contextmanager
def counting(record: Record) -> Iterator[list[str]]:
    """Give the statements that the record's database is asked meanwhile."""
    asked: list[str] = []

    def note(_c: object, _cursor: object, statement: str, *_rest: object) -> None:
        asked.append(statement)

    event.listen(record.engine, "before_cursor_execute", note)
    yield asked
    event.remove(record.engine, "before_cursor_execute", note)


def counts(client: FlaskClient, record: Record) -> dict[str, int]:
    found = {}
    for path in CAPS:
        with counting(record) as asked:
            assert client.get(path).status_code == 200
        found[path] = len(asked)
    return found


def add_crew(plant: Plant, first: int, last: int) -> None:
    """Add people of whom each has a programme, was at a talk and reported something."""
    site = plant.site
    with site.record.writing() as w:
        for number in range(first, last):
            key = people.add(w, number=f"7{number:03d}", name=f"Crew {number}", shift="Early").key
            given = {"person": key, "by": site.trainer, "happened_on": w.today()}
            assignments.assign(
                w, programme="press-brake-operator-induction", reason="new here", machine="PB-1", **given
            )
            acts.attend(w, topic="Loose pedals", presenter=site.trainer, **given)
            hazards.report(w, words="The left cover is loose.", kiosk="kiosk 2", machine="PB-1", person=key)


def test_a_sheet_asks_the_database_as_often_for_sixty_people_as_for_six(plant: Plant) -> None:
    client = plant.client("abdul")
    add_crew(plant, 0, 1)
    few = counts(client, plant.site.record)
    add_crew(plant, 1, 61)
    many = counts(client, plant.site.record)
    assert {path: number for path, number in many.items() if number > few[path]} == {}
    assert {path: number for path, number in many.items() if number > CAPS[path]} == {}
