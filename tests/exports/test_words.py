"""Every code of the record has words."""

from exports.made import person

from trainer.bank.model import MachineKind, Role
from trainer.exports import words
from trainer.exports.voice import PLAIN
from trainer.records.chain import EntryKind
from trainer.records.standing import StandingWord


def test_every_code_has_words():
    assert set(words.STANDINGS) == set(words.MARKS) == set(StandingWord)
    assert set(words.ENTRIES) == set(EntryKind)
    assert set(words.ROLES) == {role.value for role in Role}
    assert set(words.MACHINES) == {kind.value for kind in MachineKind}


def test_ids_in_a_line_are_replaced_by_names(bank):
    named = words.named(bank, PLAIN, [person()])

    assert named["p"] == "Zoë O’Brien"
    assert named["press-brake-operator-induction"] == "Press brake operator, induction"
    assert named["operator-hydraulic-brake"] != "operator-hydraulic-brake"
    assert named["left"] == "left the plant"
