import re

import pytest
from figures import svg as read

from trainer.figures import scene, scene_problems

PLAIN = {
    "view": "side",
    "place": {"x": 424, "y": 788, "scale": 0.5},
    "parts": [{"part": "brake"}, {"part": "curtain", "x": -450, "blanked": "$beams-blanked"}],
    "labels": [{"word": "ram", "at": [476, 90], "to": "brake.ram"}],
}


def changed(**changes):
    return {**PLAIN, **changes}


def drawn(spec, words=None, **more):
    return scene(spec, words=words or {"ram": "ram"}, title="t", description="d", **more)


def crossed(svg):
    """Count the crossed circles: beams that are blanked."""
    return len(re.findall(r'<circle class="fine-part"', svg))


@pytest.mark.parametrize("count", ["1", "2", "3"])
def test_as_many_beams_are_crossed_as_the_drill_drew(count):
    assert crossed(drawn(PLAIN, numbers={"beams-blanked": count})) == int(count)


def test_every_other_beam_is_a_dot_at_its_pitch():
    svg = drawn(changed(parts=[{"part": "curtain", "low": 800, "high": 1000, "pitch": 20}], labels=[]))
    heights = [float(y) for y in re.findall(r'<circle class="solid" cx="-420" cy="([\d.]+)"', svg)]
    assert heights == [800 + 20 * i for i in range(11)]


def test_the_dimension_that_is_asked_for_runs_from_the_beams_to_the_die():
    svg = drawn(changed(asks={"from": [-450, 950], "to": [-30, 950], "symbol": "D_s"}))
    line = re.search(r'<path class="act-line"[^>]* d="M(\S+) (\S+)L(\S+) (\S+)"', svg)
    start, y, end, same = map(float, line.groups())
    assert (start, end) == (424 - 450 * 0.5, 424 - 30 * 0.5)
    assert y == same == 788 - 950 * 0.5
    assert "D" in svg
    assert "= ?" in svg


def test_a_word_of_another_language_takes_the_place_of_the_label():
    assert "ariete" in drawn(PLAIN, {"ram": "ariete"})


def test_a_word_that_is_not_there_shows_its_key_and_is_a_problem():
    assert ">ram<" in drawn(PLAIN, {"die": "die"})
    assert scene_problems(PLAIN, {"die": "die"}) == ["There is no word for 'ram'."]


def test_a_hostile_word_stays_words():
    svg = drawn(PLAIN, {"ram": '<script>alert("x")</script>'})
    assert "<script" not in svg
    assert "&lt;script" in svg


def test_words_that_are_too_wide_break_into_lines_on_the_sheet():
    spec = changed(labels=[{"word": "ram", "at": [560, 90], "to": "brake.ram"}])
    svg = drawn(spec, {"ram": "punto de atrapamiento"})
    assert [words.text for words in read.words_of(svg)][-2:] == ["punto de", "atrapamiento"] or scene_problems(
        spec, {"ram": "punto de atrapamiento"}
    )


@pytest.mark.parametrize(
    ("spec", "told"),
    [
        (changed(view="top"), "The view is 'top'; it is front, plan or side."),
        (changed(place={"x": 1}), "The place lacks scale, y."),
        (changed(colour="red"), "Not understood: colour."),
        (changed(parts=[{"part": "forklift"}]), "There is no part 'forklift' seen from the side; there are"),
        (
            changed(parts=[{"part": "brake", "colour": 1}]),
            "The part brake takes no colour; it takes back, chipped, die",
        ),
        (changed(parts=[{"part": "brake", "top": "high"}]), "The measure top of brake is 'high'; it is a number"),
        (changed(parts=[{"part": "brake", "top": True}]), "The measure top of brake is True; it is a number"),
        (
            changed(parts=[{"part": "brake", "tool": "blunt"}]),
            "The measure tool of brake is 'blunt'; it is gooseneck, straight or wide.",
        ),
        (
            changed(parts=[{"part": "brake", "chipped": "a bit"}]),
            "The measure chipped of brake is 'a bit'; it is true or false.",
        ),
        (
            changed(view="plan", parts=[{"part": "fence", "from": [1]}], labels=[]),
            "The measure from of fence is [1]; it is a point, [x, y]",
        ),
        (
            changed(view="plan", parts=[{"part": "path", "points": [[1, 2]]}], labels=[]),
            "The measure points of path is [[1, 2]]; it is two or more points",
        ),
        (
            changed(view="plan", parts=[{"part": "person", "facing": "up"}], labels=[]),
            "The measure facing of person is 'up'; it is front, left, rear or right.",
        ),
        (
            changed(labels=[{"word": "ram", "at": [1, 1], "to": "brake.tail"}]),
            "A label points at 'brake.tail'; there are",
        ),
        (changed(labels=[{"to": "brake.ram"}]), "A label needs a word and at; one has to."),
        (changed(detail={"letter": "A"}), "The detail lacks around, at, parts, radius, ring, scale."),
        (changed(asks={"from": "brake.nose", "to": [0, 0], "symbol": "S"}), "A label points at 'brake.nose'"),
    ],
)
def test_what_cannot_be_drawn_is_told_in_one_sentence(spec, told):
    found = scene_problems(spec)
    assert any(sentence.startswith(told) for sentence in found), found


def test_a_sound_description_has_no_problem():
    assert scene_problems(PLAIN, {"ram": "ram"}) == []


def test_labels_that_meet_are_told():
    spec = changed(labels=[{"word": "ram", "at": [300, 90]}, {"word": "ram", "at": [310, 96]}])
    assert scene_problems(spec, {"ram": "ram"}) == ["The labels “ram” and “ram” overlap."]


def test_a_label_off_the_sheet_is_told():
    spec = changed(labels=[{"word": "ram", "at": [655, 90], "wide": 1}])
    assert scene_problems(spec, {"ram": "ram"}) == ["The label “ram” runs off the sheet."]


def test_a_leader_through_another_label_is_told():
    spec = changed(
        labels=[{"word": "ram", "at": [600, 90], "to": [40, 1396]}, {"word": "die", "at": [500, 90]}],
    )
    found = scene_problems(spec, {"ram": "ram", "die": "die"})
    assert found == ["The leader of “ram” crosses “die”."]
