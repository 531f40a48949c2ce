"""The figures in the languages of the doors: longer words, decimal commas."""

from pathlib import Path

import pytest
from babel.messages.pofile import read_po
from figures import svg as read
from figures.test_plots import READINGS, curtain, worked
from figures.test_plots import over_time as history_of
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.figures import curtain_side, guard_opening, race, reach_over
from trainer.units import Q
from trainer.wording import Sentence

FOLDER = Path(__file__).resolve().parents[2] / "trainer" / "web" / "catalogues"
FILES = sorted(FOLDER.rglob("*.po"))


def catalogue():
    found = {}
    for path in FILES:
        with path.open("rb") as file:
            found |= {str(one.id): str(one.string) for one in read_po(file) if isinstance(one.id, str) and one.string}
    return found


SPANISH = catalogue()
pytestmark = pytest.mark.skipif(not FILES, reason="no catalogue is there to take longer words from")


def spanish(sentence):
    if isinstance(sentence, str):
        return SPANISH.get(sentence, sentence)
    assert isinstance(sentence, Sentence)
    shown = {key: str(value).replace(".", ",") for key, value in sentence.values.items()}
    return SPANISH.get(sentence.text, sentence.text).format(**shown)


def sound(svg, size=22):
    assert read.overlapping(svg, size) == []
    assert read.off_the_sheet(svg, size) == []


@settings(max_examples=60, deadline=None)
@given(answer=st.integers(10, 3000), stop=st.integers(60, 400), blanked=st.integers(0, 3))
def test_the_race_stays_readable(answer, stop, blanked):
    sound(race(curtain(stop, blanked), Q(answer, "mm"), translate=spanish).svg)


@pytest.mark.parametrize("stop", [60, 120, 300, 700])
def test_the_side_view_stays_readable(stop):
    sound(curtain_side(curtain(stop), translate=spanish).svg)


@pytest.mark.parametrize("texts", [{"distance": "165 mm"}, {"opening": "12 mm"}])
def test_the_opening_stays_readable(texts):
    sound(guard_opening(worked("us-guard-opening", **texts), translate=spanish).svg)


@pytest.mark.parametrize("barrier", [1000, 1400, 1800])
def test_the_reach_over_stays_readable(barrier):
    found = worked("barrier-reach-over", hazard_height="1000 mm", barrier_height=f"{barrier} mm", risk="low")
    if found.rounded is not None and found.rounded.magnitude > 0:
        sound(reach_over(found, translate=spanish).svg)


@pytest.mark.parametrize("mounted", [350, 380, 600])
def test_the_history_stays_readable(mounted):
    sound(history_of(READINGS, mounted=mounted, translate=spanish).svg, 13)
