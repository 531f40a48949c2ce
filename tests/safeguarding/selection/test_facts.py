"""Facts are read as typed; what is not known is never assumed; what cannot be is refused in one sentence."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.errors import UsageError
from trainer.safeguarding.selection import FACTS, UNKNOWN, read_facts
from trainer.safeguarding.selection.facts import Unknown


def test_there_are_fifty_seven():
    assert len(FACTS) == 57


@pytest.mark.parametrize("fact", FACTS.values(), ids=lambda fact: fact.key)
def test_every_fact_may_be_unknown_and_says_how_to_find_it_out(fact):
    assert fact.key not in read_facts({fact.key: UNKNOWN})
    assert fact.allowed[-1] == UNKNOWN
    assert fact.find_out.endswith(".")
    assert len(fact.find_out.split(". ")) >= 2  # what is not known, then what to do


@pytest.mark.parametrize("fact", FACTS.values(), ids=lambda fact: fact.key)
def test_every_value_can_be_told_in_words(fact):
    for word in fact.choices or ("7",):
        assert str(fact.told(read_facts({fact.key: word})[fact.key]))


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("350", 350),
        (" 350 ", 350),
        ("6.35", "6.35"),
        ("1/4 in", "6.35"),
        ("8 1/2 in", "215.9"),
        ("35 cm", 350),
        ("0", 0),
    ],
)
def test_a_length_is_a_number_of_millimetres_or_carries_its_unit(text, number):
    assert read_facts({"curtain_at_mm": text})["curtain_at_mm"] == Fraction(number)


@pytest.mark.parametrize(
    "text", ["", "far", "-5", "nan", "inf", "1e3", "1,234", "350 ms", "9" * 8, "1e999", "３５０x", "=1+1"]
)
def test_what_is_no_length_is_refused_with_an_example(text):
    with pytest.raises(UsageError, match=r"^curtain_at_mm cannot be .* number of millimetres such as 350"):
        read_facts({"curtain_at_mm": text})


@pytest.mark.parametrize("text", ["0", "-1", "1.5", "two", "", "1e1", "²"])
def test_what_is_no_count_of_people_is_refused(text):
    with pytest.raises(UsageError, match=r"^people cannot be .* whole number from 1"):
        read_facts({"people": text})


@pytest.mark.parametrize("fact", [fact for fact in FACTS.values() if fact.choices], ids=lambda fact: fact.key)
def test_a_word_that_is_not_allowed_is_refused_naming_those_that_are(fact):
    with pytest.raises(UsageError) as refused:
        read_facts({fact.key: "perhaps"})

    assert all(word in str(refused.value) for word in (fact.key, *fact.allowed))
    assert "\n" not in str(refused.value)


def test_a_key_that_does_not_exist_is_refused_naming_the_nearest_and_all():
    with pytest.raises(UsageError, match=r"“curtain_sate” \(nearest: curtain_state\)") as refused:
        read_facts({"curtain_sate": "on"})

    assert all(key in str(refused.value) for key in FACTS)


def test_asking_for_what_nobody_knows_names_the_fact():
    known = read_facts({"drive": "servo"})

    with pytest.raises(Unknown) as asked:
        _ = known["people"]

    assert asked.value.keys == ("people",)
    assert list(known) == ["drive"]
    assert len(known.without("drive")) == 0


@given(text=st.text(max_size=40), key=st.sampled_from(sorted(FACTS)))
def test_whatever_is_typed_is_read_or_refused_in_one_printable_sentence(text, key):
    refused = refusal({key: text})

    assert refused is None or (str(refused).isprintable() and key in str(refused))


def refusal(texts: dict[str, str]) -> UsageError | None:
    try:
        read_facts(texts)
    except UsageError as error:
        return error
    return None
