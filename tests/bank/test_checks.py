"""Every finding has a bad sample that it is found in, at the right line, and nothing else is wrong there."""

import pytest
from bank.bad import BAD, KINDS, Sample
from bank.scratch import ScratchBank

from trainer.bank import checks, findings
from trainer.figures import scene_problems
from trainer.findings import Finding

DECLARED = {kind.code: kind for module in checks.modules() for kind in module.finds}
READING = {
    kind.code: kind
    for kind in vars(findings).values()
    if isinstance(kind, type) and issubclass(kind, Finding) and kind is not Finding
}
# The first needs the drawing room's own judgement, see below; the second a folder beside the bank, see test_beside.py.
HANDED_IN = {"bad-drawing", "replaces-nothing"}


def spoil(bank: ScratchBank, sample: Sample) -> None:
    if any("nine-kinds" in name for name, *_ in sample.changes):
        bank.with_kinds()
    for name, *rest in sample.changes:
        if len(rest) == 2:
            bank.replace(name, *rest)
        elif rest[0] is None:
            bank.delete(name)
        else:
            bank.write(name, rest[0])


def test_the_small_bank_is_clean(scratch_bank: ScratchBank):
    assert scratch_bank.load().report.rows("code", "file", "line") == []


def test_a_question_of_each_kind_is_clean(scratch_bank: ScratchBank):
    assert scratch_bank.with_kinds().load(scene_problems).report.rows("code", "file", "line") == []


def test_a_place_that_is_not_in_the_drawing_is_told_at_its_question(scratch_bank: ScratchBank):
    scratch_bank.with_kinds().replace(
        KINDS, "{id: a, at: brake.middle, right: true}", "{id: a, at: brake.nose, right: true}"
    )

    rows = scratch_bank.load(scene_problems).report.rows("code", "key")

    assert rows == [("bad-drawing", "PB-S91/point options"), ("bad-drawing", "PB-S91/spot options")]


def test_every_finding_has_a_bad_sample():
    assert sorted({*DECLARED, *READING} - HANDED_IN) == sorted(BAD)


@pytest.mark.parametrize("code", sorted(BAD))
def test_a_bad_sample_is_found_where_it_is(scratch_bank: ScratchBank, code: str):
    spoil(scratch_bank, BAD[code])

    report = scratch_bank.load().report

    places = tuple((file, line) for found, file, line in report.rows("code", "file", "line") if found == code)
    assert places == BAD[code].places


@pytest.mark.parametrize("code", sorted(BAD))
def test_a_bad_sample_says_what_was_seen_and_what_would_be_right(scratch_bank: ScratchBank, code: str):
    spoil(scratch_bank, BAD[code])

    finding = next(found for found in scratch_bank.load().report if found.code == code)

    assert (finding.note or finding.title).endswith((".", "!"))
    assert finding.fix.endswith(".")


def test_what_a_check_finds_is_what_it_declares():
    codes = [kind.code for module in checks.modules() for kind in module.finds]

    assert len(codes) == len(set(codes))
    assert not set(DECLARED) & set(READING)


def test_the_drawing_room_is_asked_about_each_drawing(scratch_bank: ScratchBank):
    seen = []

    def check_drawing(spec: object) -> list[str]:
        seen.append(spec)
        return ["There is no part named bed."]

    report = scratch_bank.load(check_drawing).report

    assert report.rows("code", "file", "line", "note") == [
        ("bad-drawing", "scenarios/open-gap/drawings.yaml", 1, "There is no part named bed.")
    ]
    assert seen[0]["place"] == {"x": 112, "y": 440, "scale": 0.145}


def test_a_part_that_could_not_be_read_is_not_called_unknown(scratch_bank: ScratchBank):
    scratch_bank.replace("sources.yaml", "read: original", "read: somewhere")

    assert scratch_bank.load().report.rows("code", "key") == [("bad-value", "rule read")]


def test_one_bad_question_does_not_hide_the_next(scratch_bank: ScratchBank):
    scratch_bank.replace("scenarios/open-gap/scenario.yaml", "version: 2", "version: two")
    scratch_bank.replace("scenarios/open-gap/scenario.yaml", "[rule, hearsay]", "[nothing]")

    assert ("unknown-source", "PB-S90/q3 sources.0") in scratch_bank.load().report.rows("code", "key")
