"""Every drawing that the bank ships, in every language."""

import re

from figures import svg as read
from figures.conftest import shipped

from trainer.figures import scene, scene_problems

NUMBERS = {"beams-blanked": "3", "beam-pitch": "10 mm", "object-sensitivity": "14 mm"}


def drawn(drawing, words, prefix="view", numbers=NUMBERS):
    return scene(drawing, words=words, title="A title", description="Told in words.", prefix=prefix, numbers=numbers)


def test_a_shipped_drawing_has_no_problem_and_no_label_that_clashes(drawing, words):
    assert scene_problems(drawing, words) == []


def test_a_shipped_drawing_is_sound(drawing, words, stylesheet):
    """One drawing is made twice and read in every way, since making it costs more than all the reading."""
    svg, other = drawn(drawing, words), drawn(drawing, words, "other")

    assert read.off_the_sheet(svg) == []
    assert read.overlapping(svg) == []
    assert len(read.ids(svg)) == len(set(read.ids(svg)))
    assert read.references(svg) <= set(read.ids(svg))
    assert not set(read.ids(svg)) & set(read.ids(other)), "two drawings on a page share an id"
    assert_it_is_told(svg)
    assert not re.search(r"\bstyle=|<script|<style|\bon[a-z]+=|href=", svg), "a strict policy refuses it"
    missing = {name for name in read.classes(svg) if f".{name}" not in stylesheet}
    assert missing <= {"view", "hatched", "hatched-back"}  # hatchings are patterns, named beside the class
    assert "danger" not in read.classes(svg) - {"hatch-red"}, "a question would show the danger marked"
    assert len(svg.encode()) < 60_000, "too large for a kiosk"


def assert_it_is_told(svg):
    """The drawing is named and told for those who do not see it."""
    root = read.parsed(svg)
    assert root.attrib["role"] == "img"
    assert root.find(f"{read.NS}title").text == "A title"
    assert root.find(f"{read.NS}desc").text == "Told in words."


def test_the_same_description_gives_the_same_bytes(words):
    for _name, drawing in list(shipped())[::20]:
        assert drawn(drawing, words) == drawn(drawing, words)
