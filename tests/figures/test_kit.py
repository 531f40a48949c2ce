import re

import pytest
from figures import svg as read

from trainer.figures import scene
from trainer.figures.kit import PARTS, composed

EVERY = sorted(PARTS)


def drawn(view, entry):
    spec = {"view": view, "place": {"x": 300, "y": 500, "scale": 0.15}, "parts": [entry]}
    return scene(spec, words={}, title="t", description="d")


@pytest.mark.parametrize(("view", "name"), EVERY)
def test_a_part_draws_with_its_usual_measures(view, name):
    svg = drawn(view, {"part": name})
    assert len(svg) > 900
    assert not re.search(r"\b(nan|inf|None|e-\d)\b", svg)
    read.parsed(svg)


@pytest.mark.parametrize(("view", "name"), EVERY)
def test_a_part_uses_only_classes_that_have_a_pen(view, name, stylesheet):
    used = read.classes(drawn(view, {"part": name})) - {"view", "hatched", "hatched-back"}
    assert {one for one in used if f".{one}" not in stylesheet} == set()


@pytest.mark.parametrize(("view", "name"), EVERY)
def test_a_part_says_how_it_is_drawn(view, name):
    assert PARTS[view, name].draw.__doc__.startswith("Draw ")


def test_a_part_keeps_the_name_that_it_is_given():
    parts = [{"part": "pedal"}, {"part": "pedal", "as": "second", "x": 900}]
    assert [name for name, _piece in composed("front", parts)] == ["pedal", "second"]


@pytest.mark.parametrize("target", [(300, 1000), (-300, 1000), (0, 700), (600, 1388), (2000, 1000), (-14, 1388)])
def test_an_arm_reaches_wherever_it_is_asked_to(target):
    svg = drawn("side", {"part": "person", "x": 0, "hand_x": target[0], "hand_y": target[1]})
    assert "nan" not in svg
    read.parsed(svg)


def test_the_places_of_a_mirrored_hand_lie_on_its_other_side():
    (_name, plain), (_other, mirrored) = composed("side", [{"part": "hand"}, {"part": "hand", "mirror": True}])
    assert plain.places["back"][0] == -mirrored.places["back"][0]
