"""An instant is written in one way only, and nothing else is read as one."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.records.instants import instant_text, read_instant


@given(st.datetimes(timezones=st.just(UTC)))
def test_what_is_written_is_read_back(instant):
    text = instant_text(instant)

    assert (len(text), text[-1], read_instant(text)) == (27, "Z", instant)


def test_every_zone_is_written_in_utc():
    there = datetime(2026, 3, 9, 7, 12, tzinfo=timezone(timedelta(hours=-6)))

    assert instant_text(there) == "2026-03-09T13:12:00.000000Z"


def test_an_instant_without_a_zone_is_refused():
    with pytest.raises(ValueError, match="time zone"):
        instant_text(datetime(2026, 3, 9))  # noqa: DTZ001


@pytest.mark.parametrize(
    "text",
    [
        "",
        "2026-03-09T13:12:00Z",
        "2026-03-09 13:12:00.000000Z",
        "2026-03-09T13:12:00.000000",
        "2026-03-09T13:12:00.000000+00:00",
        "2026-02-30T13:12:00.000000Z",
        "2026-03-09T24:12:00.000000Z",
        "2026-W11-1T13:12:00.000000Z",
        "２026-03-09T13:12:00.000000Z",
        "2026-03-09T13:12:00.000000Z\n",
    ],
)
def test_what_is_no_instant_is_refused(text):
    with pytest.raises(ValueError, match=r"instant|day|hour"):
        read_instant(text)
