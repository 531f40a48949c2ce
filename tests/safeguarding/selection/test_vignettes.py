"""The shared vignettes and single-rule probes come out as they are written, where they are to be had."""

import pytest
import yaml
from safeguarding.selection.bench import SETS, SHARED

from trainer.safeguarding.selection import FACTS, PRIMARIES, SAFEGUARDS, read_facts, select

ABSENT = not SHARED.is_file()
DATA = {"profiles": {}, "vignettes": [], "probes": []} if ABSENT else yaml.safe_load(SHARED.read_text(encoding="utf-8"))

pytestmark = pytest.mark.skipif(ABSENT, reason="the shared vignettes are not beside this checkout")


def known(base: str, *changes: dict):
    merged = {key: value for part in (DATA["profiles"][base], *changes) for key, value in part.items()}
    return read_facts({key: str(value) for key, value in merged.items()})


def sets(written: str) -> tuple[str, ...]:
    return SETS if written == "both" else (written,)


VIGNETTES = [(one, set_) for one in DATA["vignettes"] for set_ in sets(one["rule_set"])]
PROBES = [(one, set_) for one in DATA["probes"] for set_ in sets(one["rs"])]
EACH_VIGNETTE = pytest.mark.parametrize(
    ("vignette", "set_"), VIGNETTES, ids=[f"{one['id']}-{set_}" for one, set_ in VIGNETTES]
)


def test_they_are_there():
    assert (len(DATA["vignettes"]), len(DATA["probes"])) == (32, 34)


@EACH_VIGNETTE
def test_a_vignette_comes_out_as_written(vignette, set_):
    selection = select(known(vignette["base"], vignette["facts"]), set_)

    found = {code: selection.verdicts[code].verdict.value for code in vignette["expect"]}

    assert found == vignette["expect"]


@EACH_VIGNETTE
def test_the_author_and_the_rules_agree_on_the_best(vignette, set_):
    selection = select(known(vignette["base"], vignette["facts"]), set_)

    listed = [code for code in selection.best if code in vignette["expect"]]

    wanted = [] if vignette["best"] == "none" else [vignette["best"], *vignette.get("also_ok", [])]
    assert listed == wanted
    assert selection.nothing_valid is (vignette["best"] == "none")
    assert set(vignette.get("also_needed", ())) <= set(selection.also_needed)


@EACH_VIGNETTE
def test_a_vignette_with_conditions_gets_some(vignette, set_):
    selection = select(known(vignette["base"], vignette["facts"]), set_)

    assert bool(vignette.get("conditions")) is bool(selection.best and selection.verdicts[selection.best[0]].conditions)


@pytest.mark.parametrize(
    ("probe", "set_"), PROBES, ids=[f"{number}-{one['rule']}-{set_}" for number, (one, set_) in enumerate(PROBES)]
)
def test_a_probe_moves_the_verdict_by_its_rule(probe, set_):
    before = select(known("GOOD"), set_).verdicts[probe["sg"]]
    after = select(known("GOOD", probe["set"]), set_).verdicts[probe["sg"]]

    assert (before.verdict, after.verdict) == (probe["was"], probe["now"])
    assert probe["rule"] in after.rules
    assert probe["rule"] not in before.rules


@EACH_VIGNETTE
def test_no_fact_of_a_vignette_becomes_unknown_to_anybodys_advantage(vignette, set_):
    told = known(vignette["base"], vignette["facts"])
    usable = {code for code, verdict in select(told, set_).verdicts.items() if verdict.usable}

    for key in told:
        verdicts = select(told.without(key), set_).verdicts
        assert {code for code, verdict in verdicts.items() if verdict.usable} <= usable, key


def test_twins_differ_in_one_fact_and_in_their_outcome():
    by_id = {one["id"]: one for one in DATA["vignettes"]}

    for one in (one for one in by_id.values() if one.get("pair") and one["pair_fact"] != "rule_set"):
        mine, other = known(one["base"], one["facts"]), known(by_id[one["pair"]]["base"], by_id[one["pair"]]["facts"])
        assert [key for key in FACTS if mine.get(key) != other.get(key)] == [one["pair_fact"]], one["id"]


def test_only_codes_of_the_sheet_are_used():
    assert {code for one in DATA["vignettes"] for code in one["expect"]} <= set(SAFEGUARDS)
    assert {one["best"] for one in DATA["vignettes"]} - {"none"} <= set(PRIMARIES)
