"""A question that asks to pick a safeguard has a right answer and wrong ones, and none of them is a trick."""

import pytest
from safeguarding.selection.bench import facts

from trainer.safeguarding.selection import select
from trainer.safeguarding.selection.drill import faults


def said(offered: list[str], **changes: str) -> list[str]:
    return [str(fault) for fault in faults(select(facts(changes), "us"), offered)]


def test_a_fair_question_has_no_fault():
    assert said(["curtain", "hand_tools", "foot_switch"]) == []


def test_none_is_fair_where_nothing_at_all_is_usable():
    unknown = select({}, "us")

    assert faults(unknown, ["curtain", "hand_tools", "none"]) == ()


@pytest.mark.parametrize(
    ("offered", "changes", "fault"),
    [
        (["moat", "curtain", "aopd"], {}, "no safeguard moat"),
        (["curtain", "curtain", "foot_switch"], {}, "twice"),
        (["curtain", "foot_switch"], {}, "3 answers"),
        (["curtain", "aopd", "two_hand"], {}, "no answer is wrong"),
        (["hand_tools", "foot_switch", "signs_training"], {}, "“none” is not offered"),
        (["hand_tools", "curtain", "none"], {"curtain_state": "bypassed"}, "would do and is not offered"),
    ],
)
def test_an_unfair_question_is_told_why(offered, changes, fault):
    assert any(fault in sentence for sentence in said(offered, **changes))
