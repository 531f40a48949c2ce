import pytest
from assessment.made import words

from trainer.assessment.paper import NOTHING_FITS
from trainer.assessment.selecting import Worth, key_of
from trainer.bank.model import Setting
from trainer.safeguarding.selection import select


@pytest.fixture
def drill(bank):
    return bank.drills["PB-D03"]


def offered(drill, *codes, **facts):
    """Return the drill with one setting that offers these safeguards."""
    setting = Setting(id="made", facts=facts, offered=codes, told=words())
    return drill.model_copy(update={"settings": (setting,)})


def test_each_shipped_setting_has_one_right_answer_and_it_is_what_the_rules_say(drill):
    for setting in drill.settings:
        key = key_of(drill, setting.id)
        selection = select(drill.facts_of(setting.id), drill.rule_set)
        usable = [code for code in setting.offered if code != NOTHING_FITS and selection.verdicts[code].usable]

        assert len(key.right) == 1, setting.id
        assert key.right[0] in usable or (key.right == (NOTHING_FITS,) and not usable)


def test_a_usable_safeguard_is_less_good_where_a_better_one_is_offered(drill):
    # The laser is usable with conditions only; the curtain, on and far enough out, is valid.
    made = offered(drill, "curtain_muted", "safe_distance", "hand_tools", curtain_state="on")
    selection = select(made.facts_of("made"), "us")
    key = key_of(made, "made")

    less_good = [code for code, worth in key.worth.items() if worth is Worth.LESS_GOOD]
    assert key.right == ("curtain_muted",)
    assert less_good == [code for code in selection.less_good if code in made.settings[0].offered]


def test_an_aid_that_completes_a_safeguard_is_never_right_by_itself(drill):
    made = offered(drill, "side_rear_guards", "hand_tools", NOTHING_FITS)

    assert key_of(made, "made").right == (NOTHING_FITS,)


def test_none_is_wrong_while_something_offered_is_usable(drill):
    made = offered(drill, "curtain_muted", NOTHING_FITS, curtain_state="on")

    assert key_of(made, "made").worth[NOTHING_FITS] is Worth.WRONG


def test_what_is_not_known_is_never_right(drill):
    made = offered(drill, "curtain_muted", "aopd", NOTHING_FITS, curtain_state="unknown", aopd_mode="unknown")

    assert key_of(made, "made").right == (NOTHING_FITS,)
