import pytest
from assessment.made import bank_with, made_drill, words

from trainer.assessment import drills, findings, selfcheck
from trainer.bank.model import Setting
from trainer.findings import Report

STOP = {"stopping-time": {"from": "100 ms", "to": "200 ms", "step": "10 ms"}}


def codes(drill):
    return sorted({finding.code for finding in selfcheck.check_numbers(drill)})


def test_a_slip_on_the_safe_side_can_never_be_told_apart():
    # 2000 mm/s for 63 in/s is 40 to 80 mm more than needed, all of it still called right.
    assert codes(made_drill("us-presence-sensing", STOP, ("speed-2000",))) == ["no-draw", "slip-never-told-apart"]


def test_two_slips_that_always_come_to_the_same_are_both_named():
    inputs = {
        "stopping-time": {"from": "90 ms", "to": "190 ms", "step": "5 ms"},
        "control-response": "20 ms",
        "device-response": "20 ms",
        "monitor-allowance": "33 ms",
        "object-sensitivity": "30 mm",
    }
    drill = made_drill("ansi-presence-sensing", inputs, ("leaves-out-control", "leaves-out-device"))

    found = [finding for finding in selfcheck.check_numbers(drill) if finding.code == "slip-never-told-apart"]

    assert [finding.key.split()[-1] for finding in found] == ["leaves-out-control", "leaves-out-device"]
    assert "cannot be told from leaves-out-device" in found[0].note


def test_a_slip_that_changes_nothing_belongs_elsewhere():
    assert "slip-never-applies" in codes(
        made_drill(
            "ansi-presence-sensing",
            {
                "stopping-time": "120 ms",
                "control-response": "25 ms",
                "device-response": "20 ms",
                "monitor-allowance": "29 ms",
                "object-sensitivity": "14 mm",
            },
            ("nominal-sensitivity",),
        )
    )


def test_numbers_that_the_problem_does_not_take_are_named():
    drill = made_drill("us-presence-sensing", {"stopping-time": {"from": "0 ms", "to": "100 ms", "step": "50 ms"}})

    (bad,) = [finding for finding in selfcheck.check_numbers(drill) if finding.code == "refused-input"]

    assert "0 ms" in bad.note
    assert "never-drawn" in codes(drill)


def test_numbers_that_give_no_figure_are_named():
    inputs = {
        "stopping-time": "120 ms",
        "control-response": "25 ms",
        "device-response": "20 ms",
        "monitor-allowance": "29 ms",
        "object-sensitivity": {"one_of": ["14 mm", "70 mm"]},
    }

    assert codes(made_drill("ansi-presence-sensing", inputs)) == ["never-drawn", "refused-input"]


def test_a_drill_that_refuses_most_draws_is_a_warning():
    # With the device's 20 ms the control's is the same in two of three draws.
    inputs = {
        "stopping-time": "120 ms",
        "control-response": {"one_of": ["20 ms", "20.1 ms", "26 ms"]},
        "device-response": "20 ms",
        "monitor-allowance": "33 ms",
        "object-sensitivity": "30 mm",
    }
    drill = made_drill("ansi-presence-sensing", inputs, ("leaves-out-control", "leaves-out-device"))

    report = Report(selfcheck.check_numbers(drill))

    assert "many-draws-refused" in {finding.code for finding in report} - {finding.code for finding in report.errors}


def test_a_large_range_is_sampled_evenly_with_every_value_of_each_input(bank):
    for name in ("PB-D01", "PB-D02"):
        drill = bank.drills[name]
        seen = [tuple(drawn.items()) for drawn in selfcheck.sample(drill)]

        assert selfcheck.WHOLE / 2 < len(seen) < selfcheck.WHOLE * 1.5 < drills.size(drill)
        values = {pair for drawn in seen for pair in drawn}
        assert values == {(key, value) for key, entry in drill.inputs.items() for value in entry.values()}


@pytest.mark.parametrize(
    ("offered", "tempting", "facts", "code"),
    [
        (("hand_tools", "foot_switch"), {}, {}, "unfair-setting"),
        (
            ("hand_tools", "foot_switch", "none"),
            {},
            {"curtain_state": "on", "part_in_field": "clear"},
            "unfair-setting",
        ),
        (("curtain_muted", "curtain"), {}, {"curtain_state": "on", "part_in_field": "clear"}, "unfair-setting"),
        (
            ("curtain_muted", "hand_tools"),
            {"curtain_muted": "aid-counts"},
            {"curtain_state": "on"},
            "tempting-is-right",
        ),
    ],
)
def test_a_setting_needs_a_key_and_something_wrong(bank, offered, tempting, facts, code):
    drill = bank.drills["PB-D03"]
    setting = Setting(id="made", facts=facts, offered=offered, tempting=tempting, told=words())

    found = list(selfcheck.check_settings(drill.model_copy(update={"settings": (setting,)})))

    assert code in {finding.code for finding in found}
    assert all(finding.key.startswith("PB-D03 made") for finding in found)


def test_the_whole_bank_is_looked_at(bank):
    broken = made_drill("us-presence-sensing", STOP, ("speed-2000",))

    few = bank.model_copy(update={"drills": {name: bank.drills[name] for name in ("PB-D01", "PB-D03")}})
    found = list(selfcheck.self_check(bank_with(few, broken)))

    assert {finding.key.split()[0] for finding in found} == {"PB-D99"}


def test_every_finding_has_a_code_a_title_and_a_fix():
    assert len({kind.code for kind in findings.finds}) == len(findings.finds)
    assert all(kind.title and kind.fix for kind in findings.finds)
