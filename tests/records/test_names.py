"""Names are compared without case, accents and kinds of apostrophe."""

import pytest

from trainer.records.names import folded, order


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Zoë", "zoe\u0308"),
        ("O’Brien", "o'brien"),
        ("Straße", "STRASSE"),
        ("Søren Łucki Ægir", "soren lucki AEGIR"),
        ("Ørsted", "orsted"),
        (" van  der Berg ", "VAN DER BERG"),
    ],
)
def test_the_same_name_folds_to_the_same(one, other):
    assert folded(one) == folded(other)


def test_different_names_stay_different():
    assert len({folded(name) for name in ("Maria Garcia", "Mario Garcia", "Marí Garcia")}) == 3


def test_names_that_fold_alike_have_a_stable_order():
    assert order("Zoe") < order("Zoë")


def test_a_name_is_found_by_the_letters_that_a_plain_keyboard_has():
    assert [folded(name) for name in ("Søren", "Łukasz", "Đorđe", "Weiß")] == ["soren", "lukasz", "dorde", "weiss"]
