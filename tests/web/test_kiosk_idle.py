"""Nobody there: the kiosk asks, ten times on end at most, then signs out; the sitting goes on where it was left."""

from web.glass import Glass, first
from web.plant import Plant

from trainer.assessment.paper import SheetKind
from trainer.web.kiosk.place import MOST_STAYS


def test_one_may_stay_ten_times_on_end_and_the_sitting_waits(plant: Plant):
    glass = Glass(plant, plant.client())
    glass.sign_in()
    row = glass.begin()
    for left in range(MOST_STAYS, 0, -1):
        assert glass.post("/aside", {"to": "away"}, of="/sheets").headers["Location"] == "/away"
        assert f"You can stay {left} more time" in glass.client.get("/away").text
        glass.post("/away", of="/sheets")
    assert glass.post("/aside", {"to": "away"}, of="/sheets").headers["Location"] == "/"
    assert glass.client.get("/sheets").headers["Location"] == "/"
    glass.sign_in()
    assert glass.begin().id == row.id


def test_going_on_makes_the_ten_times_fresh(plant: Plant):
    glass = Glass(plant, plant.client())
    glass.sign_in()
    row = glass.begin()
    glass.post("/away", of="/sheets")
    lesson = first(plant.site.bank, row, SheetKind.LESSON)
    glass.turn(row.id, lesson.number, "lesson")
    assert f"You can stay {MOST_STAYS} more times" in glass.client.get("/away").text
