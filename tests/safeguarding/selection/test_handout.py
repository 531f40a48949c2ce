"""The sheet that is handed out: best first, with conditions, then what must be added, what is not valid and why."""

import json

import pytest
from safeguarding.selection.bench import BENCH, CASES, SETS, case_id, facts

from trainer.safeguarding.selection import SAFEGUARDS, select
from trainer.safeguarding.selection.handout import WIDTH, as_data, as_text, facts_as_text

OPEN_END = facts({"ends_closed": "no"})


def test_the_sections_come_in_the_order_a_person_needs_them():
    text = as_text(select(OPEN_END, "us"))

    wanted = ("Right for this job", "Must be added", "Not valid here", "Worth having", "The job as told", "Where it is")
    places = [text.index(section) for section in (*wanted, "Beware")]

    assert places == sorted(places)


def test_each_condition_is_a_box_to_tick():
    selection = select(OPEN_END, "us")

    text = as_text(selection)

    assert "    [ ] The covers at both die ends and the rear guard are on." in text
    assert "At a die end: it is not covered." in text


def test_where_nothing_is_valid_that_is_said_first_with_ways_out():
    lines = as_text(select({}, "us")).splitlines()

    assert lines[2] == "DO NOT RUN THIS JOB ON THIS MACHINE AS IT STANDS."
    assert "Right for this job" not in "\n".join(lines)
    assert any(line.startswith("Ways out") for line in lines)
    assert any(line.startswith("Find out first") for line in lines)


@pytest.mark.parametrize("set_", SETS)
def test_the_rule_set_and_the_caution_are_always_there(set_):
    text = as_text(select(BENCH, set_))

    assert f"({set_})" in text.splitlines()[0]
    assert "This is a training aid." in text
    assert "must be measured on the actual machine" in text


def test_a_rule_that_rests_on_memory_is_named_in_the_caution():
    text = as_text(select(facts({"aopd_overrun": "fail"}), "us"))

    assert "LA-03" in text.split("Beware")[1]
    assert "[from memory]" in text


@pytest.mark.parametrize("job", CASES["jobs"], ids=case_id)
def test_every_safeguard_stands_on_the_sheet_and_no_line_is_too_long(job):
    text = as_text(select(facts(job["facts"]) if "facts" in job else {}, job["set"]))

    assert all(f"({code})" in text for code in SAFEGUARDS)
    assert max(map(len, text.splitlines())) <= WIDTH


def test_every_rule_named_on_the_sheet_has_its_source_there():
    selection = select(OPEN_END, "us")

    named = {rule for verdict in selection.verdicts.values() for rule in verdict.rules}
    written = as_text(selection).split("Where it is written")[1]

    assert all(f"  - {rule}: " in written for rule in named)


def test_as_data_holds_what_was_decided():
    data = json.loads(json.dumps(as_data(select(OPEN_END, "us"))))

    assert set(data["verdicts"]) == set(SAFEGUARDS)
    assert {"verdict", "rules", "reasons", "conditions", "sources"} == set(data["verdicts"]["curtain"])
    assert data["verdicts"]["curtain"]["verdict"] == "valid_cond"
    assert data["also_needed"] == ["side_rear_guards"]
    assert data["best"][0] == "fixed_guard"
    assert not data["do_not_run"]


def test_the_list_names_every_fact_and_safeguard():
    text = facts_as_text()

    assert "drive=mech_full_rev|mech_part_rev|hyd_down|hyd_up|servo|unknown" in text
    assert "people=<count>|unknown" in text
    assert all(code in text for code in SAFEGUARDS)
