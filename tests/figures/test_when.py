import pytest
from figures import svg as read

from trainer.figures import scene, scene_problems
from trainer.figures.when import kept, variants

SPEC = {
    "view": "front",
    "place": {"x": 60, "y": 488, "scale": 0.166},
    "parts": [
        {"part": "brake", "unless": {"setting": ["old"]}},
        {"part": "flywheel-brake", "when": {"setting": ["old"]}},
    ],
    "labels": [{"word": "wheel", "at": [300, 40], "to": "flywheel-brake.flywheel", "when": {"setting": ["old"]}}],
}


def drawn(setting):
    return scene(SPEC, words={}, title="t", description="d", numbers={"setting": setting})


def labels_of(svg):
    return [one.text for one in read.words_of(svg)]


def test_a_part_with_a_condition_is_there_only_for_its_draws():
    assert labels_of(drawn("old")) == ["wheel"]
    assert labels_of(drawn("new")) == []
    assert drawn("old") != drawn("new")


def test_conditions_are_taken_off_what_is_kept():
    assert kept(SPEC["parts"], {"setting": "old"}) == [{"part": "flywheel-brake"}]


def test_every_way_that_a_drawing_can_come_out_is_checked():
    assert variants(SPEC) == [{"setting": ""}, {"setting": "old"}]
    assert variants({"parts": [{"part": "brake"}]}) == [{}]
    assert scene_problems(SPEC) == []


def test_a_label_without_its_part_in_some_draw_is_told():
    spec = {**SPEC, "labels": [{"word": "wheel", "at": [300, 40], "to": "flywheel-brake.flywheel"}]}
    assert any("flywheel-brake.flywheel" in told for told in scene_problems(spec))


@pytest.mark.parametrize("condition", ["old", {"setting": "old"}])
def test_a_condition_that_is_no_list_is_told(condition):
    found = scene_problems({**SPEC, "parts": [{"part": "brake", "when": condition}], "labels": []})
    assert any(told.startswith("A condition of brake is not understood") for told in found)


def test_a_shipped_drawing_stays_readable_in_each_of_its_draws(drawing, words):
    for draw in variants(drawing):
        svg = scene(drawing, words=words, title="t", description="d", numbers=draw)
        assert read.overlapping(svg) == []
        assert read.off_the_sheet(svg) == []
