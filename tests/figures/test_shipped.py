"""Every drawing that the bank ships, in every language."""

import re

from figures import svg as read

from trainer.figures import scene, scene_problems

NUMBERS = {"beams-blanked": "3", "beam-pitch": "10 mm", "object-sensitivity": "14 mm"}


def drawn(drawing, words, prefix="view", numbers=NUMBERS):
    return scene(drawing, words=words, title="A title", description="Told in words.", prefix=prefix, numbers=numbers)


def test_a_shipped_drawing_has_no_problem_and_no_label_that_clashes(drawing, words):
    assert scene_problems(drawing, words) == []


def test_no_word_runs_off_the_sheet_or_meets_another(drawing, words):
    svg = drawn(drawing, words)
    assert read.off_the_sheet(svg) == []
    assert read.overlapping(svg) == []


def test_ids_are_unique_and_every_reference_is_there(drawing, words):
    svg = drawn(drawing, words)
    assert len(read.ids(svg)) == len(set(read.ids(svg)))
    assert read.references(svg) <= set(read.ids(svg))


def test_two_drawings_on_a_page_share_no_id(drawing, words):
    one, other = drawn(drawing, words, "first"), drawn(drawing, words, "second")
    assert not set(read.ids(one)) & set(read.ids(other))


def test_the_same_description_gives_the_same_bytes(drawing, words):
    assert drawn(drawing, words) == drawn(drawing, words)


def test_the_drawing_is_named_and_told_for_those_who_do_not_see_it(drawing, words):
    root = read.parsed(drawn(drawing, words))
    assert root.attrib["role"] == "img"
    assert root.find(f"{read.NS}title").text == "A title"
    assert root.find(f"{read.NS}desc").text == "Told in words."


def test_nothing_in_it_breaks_a_strict_content_policy(drawing, words):
    svg = drawn(drawing, words)
    assert not re.search(r"\bstyle=|<script|<style|\bon[a-z]+=|href=", svg)


def test_every_class_has_its_pen_in_the_stylesheet(drawing, words, stylesheet):
    missing = {name for name in read.classes(drawn(drawing, words)) if f".{name}" not in stylesheet}
    assert missing <= {"view", "hatched", "hatched-back"}  # hatchings are patterns, named beside the class


def test_a_question_shows_no_danger_marked(drawing, words):
    assert "danger" not in read.classes(drawn(drawing, words)) - {"hatch-red"}


def test_a_drawing_stays_small_enough_for_a_kiosk(drawing, words):
    assert len(drawn(drawing, words).encode()) < 60_000
