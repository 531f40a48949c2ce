from collections.abc import Iterator
from datetime import date

import pytest
from flask import Flask

from trainer.errors import UsageError
from trainer.web import language
from trainer.web.days import read_day, read_last_day, week_of

TODAY = date(2026, 3, 9)


@pytest.fixture(autouse=True)
def request_in_english() -> Iterator[None]:
    app = Flask(__name__)
    app.config["SECRET_KEY"] = "for this test"
    language.init_app(app)
    with app.test_request_context(headers={"Accept-Language": "en"}):
        app.preprocess_request()
        yield


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("17 Feb 2026", date(2026, 2, 17)),
        ("  17   february 2026 ", date(2026, 2, 17)),
        ("2 Sept 2025", date(2025, 9, 2)),
        ("2 Sep. 2025", date(2025, 9, 2)),
        ("2026-02-17", date(2026, 2, 17)),
        ("29 Feb 2024", date(2024, 2, 29)),
        ("today", TODAY),
        ("", TODAY),
    ],
)
def test_a_day_written_with_the_name_of_its_month_or_as_iso_is_read(typed: str, meant: date) -> None:
    assert read_day(typed, today=TODAY) == meant


def test_the_months_of_each_language_of_the_program_are_read() -> None:
    assert read_day("17 de febrero de 2026", today=TODAY) == date(2026, 2, 17)
    assert read_day("17 feb 2026", today=TODAY) == date(2026, 2, 17)
    assert read_day("3 ene 2026", today=TODAY) == date(2026, 1, 3)


@pytest.mark.parametrize(
    "typed", ["3/4/2026", "03.04.2026", "2026-02-30", "30 Feb 2026", "17 Fob 2026", "x" * 500, "-1"]
)
def test_what_could_be_another_day_or_none_is_refused_with_the_way_to_write_it(typed: str) -> None:
    with pytest.raises(UsageError, match="17 Feb 2026 or 2026-02-17") as refused:
        read_day(typed, today=TODAY)
    assert len(str(refused.value)) < 130


def test_a_day_that_lies_ahead_is_refused_where_only_the_past_is_known() -> None:
    with pytest.raises(UsageError, match="lies ahead"):
        read_last_day("10 Mar 2026", today=TODAY)
    assert read_last_day("9 Mar 2026", today=TODAY) == TODAY


def test_a_week_runs_from_monday_to_sunday() -> None:
    assert week_of(date(2026, 3, 15)) == (date(2026, 3, 9), date(2026, 3, 15))
    assert week_of(date(2026, 3, 9)) == (date(2026, 3, 9), date(2026, 3, 15))
