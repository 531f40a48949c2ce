"""Long lists: what is looked for, put in order and turned stays in the address and is counted."""

from collections.abc import Iterator

import pytest
from web.plant import Plant

from trainer.records import hazards
from trainer.web.listing import Listing, Order, Wish, listed

ROWS = [f"{number:03} Özdemir" if number % 3 else f"{number:03} Lind" for number in range(1, 121)]


@pytest.fixture
def at_the_desk(plant: Plant) -> Iterator[None]:
    with plant.app.test_request_context("/desk/machines"):
        yield


def show(**wish: str) -> Listing[str]:
    orders: dict[str, Order[str]] = {
        "come": Order(label="As they come"),
        "name": Order(label="Name", key=lambda row: row[4:]),
    }
    return listed(ROWS, Wish(**wish), "desk.machines", orders, str, machine="PB-1")


@pytest.mark.usefixtures("at_the_desk")
def test_pages_say_which_rows_they_show_and_keep_what_was_chosen() -> None:
    seen = show(page="3", find="ozdemir", sort="-name")
    assert (seen.pages.first, seen.pages.last, seen.pages.total, seen.pages.whole) == (51, 80, 80, 120)
    second = show(page="2", sort="-name")
    assert (second.pages.first, second.pages.last, second.pages.total) == (51, 100, 120)
    assert second.pages.after == "/desk/machines?page=3&machine=PB-1&sort=-name"
    assert show(page="7").pages.number == 3
    assert show(page="x").rows == ROWS[:50]


@pytest.mark.usefixtures("at_the_desk")
def test_every_word_is_looked_for_without_case_and_accents() -> None:
    assert len(show(find="OZDEMIR").found) == 80
    assert show(find="lind 012").rows == ["012 Lind"]
    assert show(find="nobody").rows == []


@pytest.mark.usefixtures("at_the_desk")
def test_a_head_puts_in_order_and_a_second_press_turns_it_round() -> None:
    asked = show(sort="name", find="0")
    assert asked.rows[0].endswith("Lind")
    head = next(column for column in asked.columns if column.here)
    assert (head.label, head.down) == ("Name", False)
    assert head.url == "/desk/machines?machine=PB-1&find=0&sort=-name"
    assert show(sort="-name").rows[0].endswith("Özdemir")
    assert show(sort="-come").rows == ROWS[:-51:-1]
    assert show(sort="no-such").by == "come"


def test_many_reports_are_searched_and_turned_in_pages(plant: Plant) -> None:
    plant.at(1)
    with plant.site.record.writing() as w:
        for number in range(53):
            hazards.report(
                w,
                words="The left cover is loose." if number else "The pedal is loose.",
                kiosk="kiosk 2",
                machine="PB-1",
            )
    client = plant.client("rosalind")
    page = client.get("/desk/reports").text
    assert "1 to 50 of 53" in page
    assert page.count("is loose.") == 50
    assert client.get("/desk/reports?reports=2").text.count("is loose.") == 3
    found = client.get("/desk/reports?find=pedal").text
    assert "1 found among 53" in found
    assert "Nothing fits. Take away a word." in client.get("/desk/reports?find=zebra").text
