import re

import pytest
from figures import svg as read
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.errors import UsageError
from trainer.figures import answered, curtain_side
from trainer.figures.race import race, runs
from trainer.figures.rows import LARGEST, MOST
from trainer.safeguarding.problems import problem
from trainer.units import Q

GIVEN = {
    "stopping-time": "120 ms",
    "control-response": "25 ms",
    "device-response": "20 ms",
    "monitor-allowance": "29 ms",
    "object-sensitivity": "14 mm",
    "beams-blanked": "2",
    "beam-pitch": "10 mm",
}


def worked(name="ansi-presence-sensing", **changes):
    texts = GIVEN | {key.replace("_", "-"): value for key, value in changes.items()}
    asked = problem(name)
    return asked.solve(asked.read({field.key: texts[field.key] for field in asked.fields if field.key in texts}))


def drawn(millimetres, **options):
    return race(worked(), Q(millimetres, "mm"), **options)


def bars(svg):
    """Return the px boxes of each bar: unseen, on the way, and what is left before the die."""
    return {name: list(read.boxes_of(svg, name)) for name in ("wash-part", "fine-part", "gap-part")}


def past(svg):
    """Return left and right px of the red part of the bar."""
    found = re.search(r'<path class="danger" fill="url\(#[^)]*-px-danger\)" d="M(\S+) \S+H(\S+)v26', svg)
    return tuple(map(float, found.groups()))


def test_both_rows_are_to_one_scale():
    svg = drawn(335).svg
    found = bars(svg)
    (own_x, _, own_unseen, _), (least_x, _, least_unseen, _) = found["wash-part"]
    scale = own_unseen / 91.8  # mm that go unseen: 3.4 (34 - 7)
    assert scale == pytest.approx(LARGEST, rel=1e-3)
    assert own_unseen == pytest.approx(least_unseen)
    assert own_x - least_x == pytest.approx((403 - 335) * scale, abs=0.1)


def test_a_short_answer_shows_the_fingertips_past_the_die_to_scale():
    left, right = past(drawn(335).svg)
    assert right - left == pytest.approx(402.20344 - 335, abs=0.1)


def test_the_bar_ends_where_the_die_begins():
    svg = drawn(335).svg
    x, _, width, _ = bars(svg)["fine-part"][0]
    assert x + width == pytest.approx(past(svg)[0], abs=0.05)


def test_the_hand_stands_where_the_bar_ends():
    svg = drawn(335).svg
    tip = re.search(r'<g transform="translate\((\S+) 0\)"><path class="paper"', svg)
    assert float(tip[1]) == pytest.approx(402.20344 - 335, abs=0.01)


def test_the_right_distance_has_nothing_red():
    figure = drawn(403)
    assert "danger" not in re.sub("hatch-red|-danger", "", figure.svg.split("</defs>")[1])
    assert figure.svg.count("stops clear") == 2


def test_a_far_answer_shows_how_much_is_left_before_the_die():
    svg = drawn(520).svg
    _, _, width, _ = bars(svg)["gap-part"][0]
    assert width == pytest.approx(520 - 402.20344, abs=0.1)
    assert "117.8 mm" in drawn(520).text


def test_what_is_far_too_long_is_broken_off_and_keeps_its_scale():
    svg = drawn(3000).svg
    own, least = (box[2] for box in bars(svg)["wash-part"])
    assert own == pytest.approx(least)
    assert "3000 mm" in svg
    assert MOST * 402.2 < 3000


def test_own_number_comes_first():
    text = " ".join(words.text for words in read.words_of(drawn(335).svg))
    assert text.index("yours: 335 mm") < text.index("needed: 403 mm")


def test_the_text_alternative_carries_every_number():
    figure = drawn(335)
    for number in ("335 mm", "403 mm", "91.8 mm", "67.2 mm", "194 ms"):
        assert number in figure.text
    assert read.parsed(figure.svg).find(f"{read.NS}desc").text == figure.text


def test_the_moments_are_those_of_the_hand():
    words = [one.text for one in read.words_of(drawn(335).svg)]
    assert "152 ms:" in words  # 194 ms x (335 - 91.8) / 310.4
    assert words.count("194 ms:") == 2


def test_lengths_are_shown_in_inches_where_the_answer_was():
    figure = drawn("330.2", unit="inch")
    assert "13 in" in figure.svg
    assert "15.87 in" in figure.text
    assert "mm" not in figure.text


def test_what_is_needed_is_never_written_shorter_than_it_is():
    own, least = runs(worked(), Q(1, "mm"))
    assert least.distance == 403 > least.reach == own.reach


def test_a_hand_that_is_never_seen_is_said_to_be_unseen():
    figure = drawn(50)
    assert "not yet seen" in " ".join(words.text for words in read.words_of(figure.svg))


def test_a_two_hand_control_starts_at_its_button():
    figure = race(worked("ansi-two-hand-control", unverified="yes"), Q(200, "mm"))
    assert "button" in figure.text
    assert "unseen" not in figure.svg.split("</desc>")[1]


def test_a_refusal_cannot_be_drawn_and_says_why():
    refused = worked(object_sensitivity="60 mm")
    with pytest.raises(UsageError):
        race(refused, Q(300, "mm"))


def test_the_same_answer_gives_the_same_bytes():
    assert drawn(335).svg == drawn(335).svg


def test_ids_are_unique_and_all_references_are_there():
    svg = drawn(335, prefix="mine").svg
    assert len(read.ids(svg)) == len(set(read.ids(svg)))
    assert read.references(svg) <= set(read.ids(svg))


def spanish(sentence):
    """Stand in for a language whose words are longer by a third."""
    text = str(sentence)
    return text if any(letter.isdigit() for letter in text) and ":" not in text else f"{text} {text[: len(text) // 3]}"


@settings(max_examples=80, deadline=None)
@given(
    answer=st.integers(10, 3000),
    stop=st.integers(60, 400),
    blanked=st.integers(0, 3),
    unit=st.sampled_from(["mm", "inch"]),
)
def test_no_word_meets_another_or_leaves_the_sheet_whatever_was_answered(answer, stop, blanked, unit):
    figure = race(worked(stopping_time=f"{stop} ms", beams_blanked=str(blanked)), Q(answer, "mm"), unit=unit)
    assert read.off_the_sheet(figure.svg) == []
    assert read.overlapping(figure.svg) == []


@pytest.mark.parametrize("answer", [10, 95, 200, 335, 403, 520, 800, 3000])
def test_longer_words_still_fit(answer):
    figure = race(worked(), Q(answer, "mm"), translate=spanish)
    assert read.overlapping(figure.svg) == []
    assert read.off_the_sheet(figure.svg) == []


def with_commas(sentence):
    """Write as a reader of Spanish is shown it: the text as it is, the numbers with a decimal comma."""
    if isinstance(sentence, str):
        return sentence
    values = {key: re.sub(r"(?<=\d)\.(?=\d)", ",", str(value)) for key, value in sentence.values.items()}
    return sentence.text.format(**values)


@pytest.mark.parametrize(
    "draw",
    [
        lambda: drawn(335, translate=with_commas),
        lambda: answered(worked(), Q("335.5", "mm"), translate=with_commas),
        lambda: curtain_side(worked(), translate=with_commas),
    ],
)
def test_no_number_in_a_figure_keeps_its_decimal_point_where_a_comma_is_written(draw):
    written = [word.text for word in read.words_of(draw().svg)]
    assert not [text for text in written if re.search(r"\d\.\d", text)]
    assert [text for text in written if re.search(r"\d,\d", text)]
