"""How verdicts are weighed: the worst wins, unknown is never good, order is nothing, a combination is its best part."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from safeguarding.selection.bench import BENCH, CASES, SETS, case_id, facts

from trainer.errors import UsageError
from trainer.safeguarding.selection import (
    FACTS,
    PRIMARIES,
    RULES,
    SAFEGUARDS,
    UNKNOWN,
    Facts,
    Verdict,
    read_facts,
    select,
)
from trainer.safeguarding.selection.verdicts import best, worst

LENGTHS = ("0", "4", "6", "6.35", "14", "63.5", "70", "101.6", "250", "400", "1080", "1150")


def job_facts(job: dict) -> dict[str, str]:
    return {} if job.get("all_unknown") else facts(job["facts"])


WORDS = {key: fact.allowed if fact.choices else (*LENGTHS, UNKNOWN) for key, fact in FACTS.items()}
COUNTS = {"people": ("1", "2", "3", UNKNOWN), "batch_qty": ("1", "90", UNKNOWN)}
SOME_JOB = st.fixed_dictionaries({key: st.sampled_from(COUNTS.get(key, words)) for key, words in WORDS.items()})
NEAR_THE_BENCH = st.dictionaries(st.sampled_from(sorted(FACTS)), st.none(), max_size=4).flatmap(
    lambda keys: st.fixed_dictionaries({key: st.sampled_from(COUNTS.get(key, WORDS[key])) for key in keys})
)


@pytest.mark.parametrize("edge", CASES["edges"], ids=case_id)
def test_at_the_edges(edge):
    assert select(facts(edge["facts"]), edge["set"]).verdicts[edge["of"]].verdict == edge["verdict"]


@pytest.mark.parametrize("job", CASES["jobs"], ids=case_id)
def test_a_whole_job(job):
    selection = select(job_facts(job), job["set"])

    assert list(selection.best) == job["best"]
    assert list(selection.also_ok) == job["best"][1:]
    assert list(selection.also_needed) == job.get("also_needed", [])
    assert selection.nothing_valid is (not job["best"])
    if "less_good" in job:
        assert list(selection.less_good) == job["less_good"]


@pytest.mark.parametrize("set_", SETS)
def test_with_nothing_known_nothing_is_usable(set_):
    selection = select({}, set_)

    assert [code for code, verdict in selection.verdicts.items() if verdict.usable] == []
    assert {"drive", "people", "ends_closed", "rear_closed", "curtain_state"} <= set(selection.find_out) <= set(FACTS)


@pytest.mark.parametrize("set_", SETS)
@pytest.mark.parametrize("job", CASES["jobs"], ids=case_id)
def test_no_fact_becomes_unknown_to_anybodys_advantage(job, set_):
    known = read_facts(job_facts(job))
    usable = _usable(known, set_)

    gained = {key: new for key in known if (new := _usable(known.without(key), set_) - usable)}

    assert gained == {}


@given(job=SOME_JOB, key=st.sampled_from(sorted(FACTS)), set_=st.sampled_from(SETS))
@settings(max_examples=150, deadline=None)
def test_an_unknown_fact_never_makes_a_safeguard_usable(job, key, set_):
    known = read_facts(job)

    assert _usable(known.without(key), set_) <= _usable(known, set_)


@given(changes=NEAR_THE_BENCH, key=st.sampled_from(sorted(FACTS)), set_=st.sampled_from(SETS))
@settings(max_examples=250, deadline=None)
def test_nor_does_it_on_a_brake_in_good_order(changes, key, set_):
    known = read_facts(facts(changes))

    assert _usable(known.without(key), set_) <= _usable(known, set_)


@given(job=SOME_JOB, seed=st.integers(), set_=st.sampled_from(SETS))
@settings(max_examples=40, deadline=None)
def test_the_order_of_the_rules_is_nothing(job, seed, set_):
    shuffled = random.Random(seed).sample(RULES, len(RULES))

    assert select(job, set_, rules=shuffled).verdicts == select(job, set_).verdicts


@pytest.mark.parametrize("set_", SETS)
@pytest.mark.parametrize("key", [key for key in FACTS if key != "batch_qty"])
def test_an_unknown_fact_that_a_rule_read_is_named_with_the_way_to_find_it_out(key, set_):
    verdicts = select(facts({key: UNKNOWN}), set_).verdicts

    waiting = [one for one in verdicts.values() if key in one.unknown]

    assert all(one.verdict is Verdict.CANNOT_RELY and "U-01" in one.rules for one in waiting)
    assert all(FACTS[key].find_out in map(str, one.reasons) for one in waiting)


def test_the_reasons_are_those_of_all_rules_that_decided():
    verdict = select(facts({"curtain_state": "bypassed", "reach_past": "over", "environment": "mist_or_flash"}), "us")

    assert verdict.verdicts["curtain"].rules == ("LC-02", "LC-05")
    assert len(verdict.verdicts["curtain"].reasons) == 2
    assert verdict.verdicts["curtain"].conditions == ()


def test_conditions_of_all_rules_that_decided_are_listed_once():
    changed = facts({"ends_closed": "no", "backstop": "powered_unguarded", "environment": "mist_or_flash"})

    verdict = select(changed, "us").verdicts["curtain"]

    assert verdict.rules == ("GEN-01", "GEN-02", "LC-12")
    assert len(verdict.conditions) == len(set(verdict.conditions)) == 3
    assert {source.document for source in verdict.sources} >= {"DGUV Information 209-030", "Common practice"}


def test_where_nothing_speaks_against_it_that_is_said():
    verdict = select(BENCH, "us").verdicts["curtain"]

    assert (verdict.verdict, verdict.rules, len(verdict.reasons)) == ("valid", (), 1)


def test_the_combination_says_which_part_carries_the_bend():
    hem = select(facts({"bend_form": "hem_flatten", "stop_monitor": "none"}), "us").verdicts["aopd_plus_curtain"]

    assert hem.rules[0] == "AC-02"
    assert "ST-02" in hem.rules
    assert hem.conditions != ()
    assert any("curtain" in str(reason) for reason in hem.reasons)


# AC-02 as the sheet words it: the best verdict among its parts, then AC-01. A part that is missing takes no vote away.
@pytest.mark.parametrize("set_", ["us", "intl"])
@pytest.mark.parametrize("missing", [{"aopd_mode": "not_fitted"}, {"curtain_state": "not_fitted"}])
def test_a_combination_with_one_part_missing_is_as_good_as_the_part_there_is(missing, set_):
    selection = select(facts(missing), set_)
    verdicts = selection.verdicts

    parts = [verdicts[code].verdict for code in ("aopd", "curtain", "curtain_muted")]
    assert Verdict.NOT_VALID in parts
    assert verdicts["aopd_plus_curtain"].verdict is best(parts)
    assert "aopd_plus_curtain" in selection.best


def test_a_combination_with_no_part_fitted_is_not_valid():
    nothing = select(facts({"aopd_mode": "not_fitted", "curtain_state": "not_fitted"}), "us")

    assert nothing.verdicts["aopd_plus_curtain"].verdict is Verdict.NOT_VALID
    assert "aopd_plus_curtain" not in (*nothing.best, *nothing.less_good)


# BL-04 as the sheet words it: always, whatever is set. So a curtain judged as a blanked one is never better than
# valid with conditions, and comes behind the plain one where no beam is off.
@pytest.mark.parametrize("set_", ["us", "intl"])
def test_a_blanked_curtain_has_its_conditions_even_where_no_beam_is_off(set_):
    selection = select(facts({"blanking_setting": "none"}), set_)

    for code in ("curtain_fixed_blank", "curtain_float_blank"):
        assert selection.verdicts[code].verdict is Verdict.VALID_COND
        assert "BL-04" in selection.verdicts[code].rules
        assert code in selection.less_good
    assert "curtain" in selection.best


@pytest.mark.parametrize("set_", ["us", "intl"])
def test_a_blanked_curtain_that_is_not_fitted_is_not_valid(set_):
    selection = select(facts({"curtain_state": "not_fitted"}), set_)

    for code in ("curtain_fixed_blank", "curtain_float_blank"):
        assert selection.verdicts[code].verdict is Verdict.NOT_VALID
        assert code not in (*selection.best, *selection.less_good)


def test_best_takes_the_better_word_and_names_the_rest_as_less_good():
    selection = select(BENCH, "us")

    assert {selection.verdicts[code].verdict for code in selection.best} == {"valid"}
    assert {selection.verdicts[code].verdict for code in selection.less_good} == {"valid_cond"}
    assert "safe_distance" in selection.less_good


def test_only_what_can_be_a_safeguard_is_ever_best():
    selection = select(BENCH, "us")

    assert set(selection.best) | set(selection.less_good) <= set(PRIMARIES)
    assert {"hand_tools", "awareness_barrier", "signs_training", "side_rear_guards", "foot_switch"}.isdisjoint(
        PRIMARIES
    )


def test_aids_stacked_up_do_not_make_a_safeguard():
    nothing = select({**dict.fromkeys(BENCH, UNKNOWN)}, "us")

    assert nothing.verdicts["hand_tools"].verdict == "supplementary"
    assert nothing.nothing_valid


@pytest.mark.parametrize("verdicts", [list(Verdict), list(reversed(Verdict))])
def test_the_worst_verdict_wins(verdicts):
    assert worst(verdicts) is Verdict.NOT_VALID
    assert best(verdicts) is Verdict.VALID


def test_no_votes_mean_valid_and_no_parts_mean_not_valid():
    assert worst([]) is Verdict.VALID
    assert best([]) is Verdict.NOT_VALID


def test_an_unknown_rule_set_is_refused():
    with pytest.raises(UsageError, match="us, intl"):
        select(BENCH, "mars")


def test_there_are_twenty_two_safeguards_and_each_is_judged():
    assert len(SAFEGUARDS) == 22
    assert list(select({}, "us").verdicts) == list(SAFEGUARDS)


def _usable(known: Facts, set_: str) -> set[str]:
    return {code for code, verdict in select(known, set_).verdicts.items() if verdict.usable}
