"""Plots that leave the house: the same readings give the same file, and a wrong ending is refused."""

from datetime import date, timedelta

import pytest

from trainer.errors import UsageError
from trainer.figures.printed import print_history
from trainer.safeguarding.stopping import Mounted, history
from trainer.safeguarding.trend import StopReading
from trainer.units import Q

READINGS = [StopReading(on=date(2025, 1, 6) + timedelta(days=60 * n), time=Q(120 + 3 * n, "ms")) for n in range(6)]
MOUNTED = Mounted(
    name="us-presence-sensing", values={}, distance=Q(250, "mm"), interval=timedelta(days=182), machine="PB-1"
)


@pytest.fixture
def found():
    return history(READINGS, MOUNTED, on=date(2025, 12, 1))


@pytest.mark.parametrize(("ending", "opening"), [(".png", b"\x89PNG"), (".pdf", b"%PDF"), (".svg", b"<?xml")])
def test_the_same_readings_give_the_same_bytes(tmp_path, found, ending, opening):
    for name in ("one", "two"):
        print_history(READINGS, found, tmp_path / f"{name}{ending}", title="PB-1")

    one, two = ((tmp_path / f"{name}{ending}").read_bytes() for name in ("one", "two"))
    assert one == two
    assert one.startswith(opening)


def test_the_svg_names_what_is_drawn(tmp_path, found):
    print_history(READINGS, found, tmp_path / "plot.svg", title="PB-1, light curtain")
    text = (tmp_path / "plot.svg").read_text(encoding="utf-8")

    for part in ("PB-1, light curtain", "stopping time in ms", "longest that the mounting allows", "training aid"):
        assert part in text


def test_another_ending_is_refused(tmp_path, found):
    with pytest.raises(UsageError, match=r"\.png"):
        print_history(READINGS, found, tmp_path / "plot.exe", title="PB-1")
