"""Reading a folder: everything is read, and each thing that is wrong is told where it stands."""

import pytest
from bank.scratch import ScratchBank

SCENARIO = "scenarios/open-gap/scenario.yaml"
EN = "scenarios/open-gap/en.yaml"


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("competencies.yaml", "level: 0.9", "level: .nan"), ("bad-value", "gaps level")),
        (("competencies.yaml", "level: 0.9", "level: inf"), ("bad-value", "gaps level")),
        (("competencies.yaml", "roles: [operator]}", "roles: operator}"), ("bad-value", "gaps roles")),
        (("competencies.yaml", "critical: true", "critical: perhaps"), ("bad-value", "gaps critical")),
        (("sources.yaml", "read: original", "read: glanced-at"), ("bad-value", "rule read")),
        (("sources.yaml", "rule: {document", "rule: {key: other, document"), ("unknown-key", "rule key")),
        (("bank.yaml", "edition: 3", "edition: 0"), ("bad-value", "edition")),
        (("bank.yaml", "[en, es]", "[English]"), ("bad-value", "languages.0")),
        ((SCENARIO, "id: PB-S90", "id: ../PB"), ("bad-value", "../PB id")),
        ((SCENARIO, "  - {id: l1, drawing: gap}", "  - {drawing: gap}"), ("missing-key", "PB-S90 lessons id")),
        (
            (
                SCENARIO,
                "    kind: pick-one\n    competency: gaps\n    critical",
                "    kind: riddle\n    competency: gaps\n    critical",
            ),
            ("bad-value", "PB-S90/q1 kind"),
        ),
        (
            (SCENARIO, "{id: c, misconception: quick-enough}\n  - id: q2", "{id: c, misconceptoin: x}\n  - id: q2"),
            ("unknown-key", "PB-S90/q1 c misconceptoin"),
        ),
        ((SCENARIO, "    version: 2\n", "    version: 2\n    why: Because.\n"), ("unknown-key", "PB-S90/q2 why")),
        (("programmes.yaml", "P12M", "yearly"), ("bad-value", "gaps-induction interval")),
        (("programmes.yaml", "4/5", "four fifths"), ("bad-value", "gaps-induction pass_share")),
        (("checklists.yaml", "{id: leave}", "{id: look}"), ("duplicate-id", "gaps-practical look")),
        (
            ("drills/distance/drill.yaml", "step: 10 ms", "stop: 10 ms"),
            ("unknown-key", "PB-D90 inputs.stopping-time.range.stop"),
        ),
        (("drills/distance/drill.yaml", "id: PB-D90", "id: PB-D91"), ("duplicate-id", "PB-D91")),
        (("drills/choice/drill.yaml", "rule_set: us", "rule_set: mars"), ("bad-value", "PB-D91 rule_set")),
        ((EN, "    heading: The gap", "    heading: [The gap]"), ("bad-value", "lessons.l1.heading")),
        ((EN, "title: An open gap", f"title: {'gap ' * 600}"), ("bad-value", "title")),
        ((EN, "title: An open gap", "title: ''"), ("missing-text", "title")),
        (("words/es.yaml", "ram: ariete", "ran: ariete"), ("missing-text", "ram")),
        (("reading/en.yaml", "measure: flesch-kincaid", "measure: gut-feeling"), ("bad-value", "reading en measure")),
    ],
)
def test_a_slip_of_the_pen_is_told_with_its_key(
    scratch_bank: ScratchBank, change: tuple[str, str, str], told: tuple[str, str]
):
    scratch_bank.replace(*change)

    report = scratch_bank.load().report

    assert told in report.rows("code", "key")
    assert not report.good


@pytest.mark.parametrize(
    "name",
    [
        "bank.yaml",
        "sources.yaml",
        "text/en.yaml",
        "words/en.yaml",
        "reading/en.yaml",
        SCENARIO,
        EN,
        "drills/choice/drill.yaml",
    ],
)
@pytest.mark.parametrize(
    "data", [b"", b"just words\n", b"- a\n- list\n", b"\xff\xfe\x00", b"a: [", b"a: {b: {c: d}}\n"]
)
def test_no_file_can_make_reading_fall_over(scratch_bank: ScratchBank, name: str, data: bytes):
    scratch_bank.write(name, data)

    loaded = scratch_bank.load()

    assert not loaded.report.good
    assert all(finding.file for finding in loaded.report)


@pytest.mark.parametrize(
    "name", ["bank.yaml", "sources.yaml", "competencies.yaml", "programmes.yaml", "words/en.yaml", EN, SCENARIO]
)
def test_a_file_that_is_not_there_is_told(scratch_bank: ScratchBank, name: str):
    scratch_bank.delete(name)

    assert ("missing-file", name) in scratch_bank.load().report.rows("code", "file")


def test_a_missing_language_file_is_one_finding_and_not_one_for_each_text(scratch_bank: ScratchBank):
    scratch_bank.delete("scenarios/open-gap/es.yaml")

    assert scratch_bank.load().report.rows("code", "file") == [("missing-file", "scenarios/open-gap/es.yaml")]


def test_hidden_files_and_notes_are_left_alone(scratch_bank: ScratchBank):
    scratch_bank.write(".keep", "").write("README.md", "# Notes\n").write("scenarios/open-gap/notes.md", "x")

    assert list(scratch_bank.load().report) == []


def test_findings_come_in_the_order_of_their_places(scratch_bank: ScratchBank):
    scratch_bank.replace(SCENARIO, "version: 2", "version: two").replace("bank.yaml", "edition: 3", "edition: x")

    files = [finding.file for finding in scratch_bank.load().report]

    assert files == sorted(files)
