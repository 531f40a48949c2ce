"""Each rule, alone: it decides what it applies to, and without it the answer is another."""

from pathlib import Path

import pytest
from safeguarding.selection.bench import BENCH, CASES, SETS, case_id, facts

import trainer
from trainer.safeguarding.result import Citation, Read
from trainer.safeguarding.selection import FACTS, RULES, SAFEGUARDS, Rule, Verdict, select
from trainer.safeguarding.selection.conditions import ALWAYS, has, more_than
from trainer.safeguarding.selection.rule import only

PROBES = CASES["probes"]
SOURCE = Citation(document="A book", read=Read.PRACTICE)


@pytest.mark.parametrize("probe", PROBES, ids=case_id)
def test_a_rule_decides_every_safeguard_it_applies_to(probe):
    verdicts = select(facts(probe["facts"]), probe["set"]).verdicts

    for code in probe["of"]:
        assert (code, verdicts[code].verdict) == (code, probe["verdict"])
        assert probe["rule"] in verdicts[code].rules


@pytest.mark.parametrize("probe", PROBES, ids=case_id)
def test_without_the_rule_the_answer_is_another(probe):
    others = [rule for rule in RULES if rule.id != probe["rule"]]

    verdict = select(facts(probe["facts"]), probe["set"], rules=others).verdicts[probe["of"][0]]

    assert verdict.verdict == probe["without"] != probe["verdict"]
    assert probe["rule"] not in verdict.rules


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_fires_in_each_of_its_sets_and_on_all_it_applies_to(rule):
    mine = [probe for probe in PROBES if probe["rule"] == rule.id]

    assert {probe["set"] for probe in mine} == rule.sets
    assert {code for probe in mine for code in probe["of"]} == rule.applies


@pytest.mark.parametrize("set_", SETS)
def test_on_the_bench_only_standing_rules_fire(set_):
    voted = {rule.id for rule in RULES if rule.when is not ALWAYS and _fires(rule, set_)}

    assert voted == {"us": {"LO-02"}, "intl": {"LO-02", "SS-05"}}[set_]


def _fires(rule: Rule, set_: str) -> bool:
    return any(rule.id in verdict.rules for verdict in select(BENCH, set_).verdicts.values())


def test_a_rule_is_written_in_exactly_one_place():
    texts = [path.read_text(encoding="utf-8") for path in Path(trainer.__file__).parent.rglob("*.py")]

    homes = {rule.id: sum(f'"{rule.id}"' in text for text in texts) for rule in RULES}

    assert set(homes.values()) == {1}


def test_names_are_unique_and_nothing_is_said_twice_of_one_safeguard():
    said = [(rule.reason, code, set_) for rule in RULES for code in rule.applies for set_ in rule.sets]

    assert len({rule.id for rule in RULES}) == len(RULES) == 105
    assert len(set(said)) == len(said)


def test_every_fact_but_the_number_of_pieces_bears_on_a_rule():
    read = {key for rule in RULES for key in rule.when.reads}

    assert set(FACTS) - read == {"batch_qty"}


def test_every_safeguard_has_a_rule():
    assert {code for rule in RULES for code in rule.applies} == set(SAFEGUARDS)


def test_what_is_only_believed_says_so():
    doubtful = {rule.id for rule in RULES if rule.from_memory}

    assert {"LA-03", "LA-04", "FC-02", "LA-14", "WD-01"} <= doubtful  # standards that were not read
    assert "LC-03" not in doubtful


@pytest.mark.parametrize("verdict", Verdict)
def test_only_a_verdict_with_conditions_has_some(verdict):
    has_some = verdict is Verdict.VALID_COND

    with pytest.raises(ValueError, match="conditions"):
        _rule(verdict=verdict, conditions=() if has_some else ("The gate is shut.",))


@pytest.mark.parametrize(
    "wrong",
    [{"applies": only("moat")}, {"sets": frozenset({"mars"})}, {"sources": ()}],
    ids=lambda wrong: next(iter(wrong)),
)
def test_a_rule_on_nothing_or_from_nowhere_is_refused(wrong):
    with pytest.raises(ValueError, match="no source"):
        _rule(**wrong)


@pytest.mark.parametrize(
    "make",
    [lambda: has("drive", "steam"), lambda: has("drive"), lambda: more_than("drive", 1)],
    ids=["a word that no fact has", "no word at all", "a word taken for a number"],
)
def test_a_question_that_no_fact_can_answer_is_refused(make):
    with pytest.raises(ValueError):
        make()


def _rule(**changes) -> Rule:
    usual = {
        "id": "XX-01",
        "applies": only("curtain"),
        "when": ALWAYS,
        "verdict": Verdict.NOT_VALID,
        "reason": "Because.",
        "sources": (SOURCE,),
    }
    return Rule(**{**usual, **changes})
