"""Named places of machines, tools, work and of a cell from above: labels and questions point at them."""

import pytest
from figures.extent import extent

from trainer.figures import scene_problems
from trainer.figures.kit import PARTS, composed

SLACK = 6.0  # mm
MEASURES = [
    ("front", {"part": "brake", "lift": -60}),
    ("front", {"part": "flywheel-brake", "bed": 2500}),
    ("front", {"part": "up-acting-brake", "lift": 60, "bed": 2500}),
    ("side", {"part": "brake", "tool": "wide", "die": "wide", "chipped": True}),
    ("side", {"part": "up-acting-brake", "lift": 80, "travels": True}),
    ("side", {"part": "flywheel-brake", "pressed": True, "turning": True, "tool": "gooseneck"}),
    ("front", {"part": "folder", "apron": 90, "open": 40, "hook": True}),
    ("side", {"part": "folder", "apron": 90, "travels": True}),
    ("side", {"part": "folder", "apron": 0, "open": 60}),
    ("side", {"part": "plate-rolls", "plate": True, "cord": False}),
    ("front", {"part": "plate-rolls", "plate": True, "bed": 1500}),
    ("front", {"part": "tool-section", "x": 100, "y": 700, "wide": 200}),
    ("front", {"part": "tool-cart", "loaded": False}),
    ("front", {"part": "tooling", "segments": 3}),
    ("front", {"part": "tooling", "chipped": True, "rise": 60}),
    ("front", {"part": "box", "bottom": 40}),
    ("side", {"part": "box", "closed": True}),
    ("front", {"part": "small-part"}),
    ("side", {"part": "small-part"}),
    ("side", {"part": "flange", "angle": 90}),
    ("side", {"part": "flange", "angle": 30, "clamped": True, "travels": False}),
    ("front", {"part": "block", "plug": False}),
    ("side", {"part": "block", "punch": 1240}),
    ("side", {"part": "drift", "length": 90}),
    ("plan", {"part": "curtain", "right": 2000, "y": -600}),
    ("plan", {"part": "fence", "from": [2300, 0], "to": [2300, 1600], "gap": 400}),
    ("plan", {"part": "gate", "open": True, "turn": 90}),
    ("plan", {"part": "person", "facing": "left", "reaches": True}),
    ("plan", {"part": "path", "points": [[0, 0], [900, 0], [900, 900]]}),
    ("side", {"part": "tongs", "length": 300}),
    ("front", {"part": "tongs", "mirror": True}),
    ("side", {"part": "foot", "pressed": True}),
    ("side", {"part": "arrow", "turn": 90}),
    *(("plan", {"part": name}) for view, name in sorted(PARTS) if view == "plan"),
]
IDS = [" ".join(f"{key}={value}" for key, value in entry.items()) for _view, entry in MEASURES]


def drawn(view, entry):
    ((_name, piece),) = composed(view, [entry])
    return piece


@pytest.mark.parametrize(("view", "entry"), MEASURES, ids=IDS)
def test_the_places_of_a_part_lie_on_it(view, entry):
    piece = drawn(view, entry)
    left, low, right, high = extent(piece.marks)
    off = {
        name: (x, y)
        for name, (x, y) in piece.places.items()
        if not (left - SLACK <= x <= right + SLACK and low - SLACK <= y <= high + SLACK)
    }
    assert off == {}
    assert "middle" in piece.places


@pytest.mark.parametrize(("view", "entry"), MEASURES, ids=IDS)
def test_a_part_with_other_measures_is_a_sound_description(view, entry):
    assert scene_problems({"view": view, "place": {"x": 100, "y": 500, "scale": 0.1}, "parts": [entry]}) == []


def test_the_apron_swings_up_in_front_of_the_beam_and_its_weight_sinks():
    flat, up = (drawn("side", {"part": "folder", "apron": angle}).places for angle in (0, 90))
    assert flat["apron-edge"][1] < 1000 < up["apron-edge"][1]
    assert up["apron-edge"][0] < 10
    assert up["weight"][1] < flat["weight"][1]


def test_the_bed_of_an_up_acting_brake_rises_and_its_beam_stays():
    low, high = (drawn("side", {"part": "up-acting-brake", "lift": lift}).places for lift in (0, 50))
    assert high["pinch"][1] - low["pinch"][1] == 50
    assert high["beam"] == low["beam"]
    assert high["punch-tip"] == low["punch-tip"]


def test_a_parted_punch_leaves_gaps_between_its_segments():
    places = drawn("front", {"part": "tooling", "left": 0, "right": 1000, "segments": 3}).places
    assert places["segment-1"][0] < places["gap"][0] < places["segment-2"][0] < places["segment-3"][0]


def test_a_fence_with_a_gap_is_open_there():
    whole, open_ = (extent(drawn("plan", {"part": "fence", "gap": gap}).marks) for gap in (0, 900))
    assert whole == open_
    assert "gap" in drawn("plan", {"part": "fence", "gap": 900}).places
    assert "gap" not in drawn("plan", {"part": "fence"}).places


def test_an_open_gate_no_longer_lies_where_it_closes():
    places = drawn("plan", {"part": "gate", "open": True}).places
    assert places["middle"] != places["opening"]


def test_a_person_seen_from_above_looks_to_the_side_that_is_named():
    rear, left = (
        extent(drawn("plan", {"part": "person", "x": 0, "y": 0, "facing": way}).marks) for way in ("rear", "left")
    )
    assert rear[3] > -rear[1]
    assert -left[0] > left[2]
