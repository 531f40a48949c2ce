"""The bank: lookups, and a fingerprint that speaks for every word in it."""

from pathlib import Path

import pytest
from bank.scratch import ScratchBank

from trainer.bank import open_bank
from trainer.bank.model import ComputeDrill, SelectDrill
from trainer.errors import BankError, Missing

ES = "scenarios/open-gap/es.yaml"


def test_everything_is_found_by_its_id(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    assert (bank.edition, bank.languages) == (3, ("en", "es"))
    assert list(bank.questions) == ["PB-S90/q1", "PB-S90/q2", "PB-S90/q3"]
    assert bank.item("PB-S90/l1").heading.in_("es") == "El hueco"
    assert isinstance(bank.item("PB-D90"), ComputeDrill)
    assert isinstance(bank.item("PB-D91"), SelectDrill)
    assert bank.programme("gaps-induction").blueprint.must_pass == ("gaps",)


def test_what_does_not_exist_is_said_by_name(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    with pytest.raises(Missing, match="PB-S99/q1"):
        bank.item("PB-S99/q1")
    with pytest.raises(Missing, match="nothing"):
        bank.programme("nothing")


def test_a_question_knows_its_key_and_its_options(scratch_bank: ScratchBank):
    question = open_bank(scratch_bank.folder).questions["PB-S90/q2"]

    assert question.key.id == "b"
    assert question.option("a").misconception == "far-enough"
    assert question.option("z") is None


def test_a_sheet_gives_its_drawing_with_its_text(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    spec, text = bank.drawing("PB-S90/q1")

    assert spec["view"] == "front"
    assert text.in_("es").startswith("Una plegadora")
    assert bank.drawing("PB-S90/q2") is None


def test_citations_say_how_each_source_was_read(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    assert [str(c) for c in bank.citations("PB-S90/q3")] == ["Rule 7 (b) (2001)", "Rule 8 [from memory]"]
    assert [str(c) for c in bank.citations("PB-S90/l1")] == ["Rule 7 (b) (2001)"]
    assert not bank.second_hand("PB-S90/q3")
    assert bank.second_hand("PB-S90/q2")


def test_labels_are_filled_up_from_english(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    assert (bank.labels("es")["ram"], bank.labels("fr")["ram"]) == ("ariete", "ram")


def test_a_checklist_is_found_for_a_role_at_a_kind_of_machine(scratch_bank: ScratchBank):
    bank = open_bank(scratch_bank.folder)

    assert bank.checklist_for("operator", "press-brake-hydraulic").id == "gaps-practical"
    assert bank.checklist_for("helper", "press-brake-hydraulic") is None
    assert bank.checklist_for("operator", "folder") is None


def test_the_facts_of_a_setting_lie_over_the_drills_own(scratch_bank: ScratchBank):
    scratch_bank.replace("drills/choice/drill.yaml", "    facts: {}", "    facts: {drive: servo, people: '1'}")
    drill = scratch_bank.load().draft.bank.drills["PB-D91"]

    assert drill.facts_of("nothing-fitted") == {"drive": "servo", "people": "1"}
    with pytest.raises(KeyError):
        drill.setting("other")


def test_the_same_content_has_the_same_fingerprint(scratch_bank: ScratchBank):
    first = open_bank(scratch_bank.folder).fingerprint
    scratch_bank.replace("sources.yaml", "hearsay:", "# a remark changes nothing\nhearsay:")

    assert open_bank(scratch_bank.folder).fingerprint == first
    assert len(first) == 64


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        (ES, "Cerrar el hueco.", "Cerrar el hueco!"),
        ("scenarios/open-gap/drawings.yaml", "440", "441"),
        ("scenarios/open-gap/scenario.yaml", "version: 2", "version: 3"),
        ("drills/distance/drill.yaml", "to: 200 ms", "to: 210 ms"),
        ("drills/choice/drill.yaml", "hyd_down", "servo"),
        ("sources.yaml", "'2001'", "'2002'"),
        ("programmes.yaml", "pass_share: 4/5", "pass_share: 3/4"),
        ("checklists.yaml", "{id: leave}", "{id: leave, critical: true}"),
        ("words/es.yaml", "ariete", "pisón"),
        ("bank.yaml", "edition: 3", "edition: 4"),
    ],
)
def test_any_change_changes_the_fingerprint(scratch_bank: ScratchBank, name: str, old: str, new: str):
    before = open_bank(scratch_bank.folder).fingerprint
    scratch_bank.replace(name, old, new)

    assert open_bank(scratch_bank.folder).fingerprint != before


def test_a_bank_with_an_error_is_refused_whole_with_its_first_finding(scratch_bank: ScratchBank):
    scratch_bank.replace("scenarios/open-gap/scenario.yaml", "[common-practice]", "[nothing]")

    with pytest.raises(BankError, match=r"has 1 errors.*scenario.yaml:23 PB-S90/q2 sources.0: unknown-source"):
        open_bank(scratch_bank.folder)
    assert scratch_bank.load().bank is None


def test_a_warning_does_not_close_the_bank(scratch_bank: ScratchBank):
    scratch_bank.write("words/fr.yaml", "ram: coulisseau\n")

    loaded = scratch_bank.load()

    assert [finding.code for finding in loaded.report] == ["stray-file"]
    assert loaded.bank is not None


def test_a_folder_that_is_not_there_is_a_bank_error(tmp_path: Path):
    with pytest.raises(BankError, match=r"bank\.yaml"):
        open_bank(tmp_path / "nowhere")


def test_a_third_language_needs_only_files(scratch_bank: ScratchBank):
    for name in ("text", "words", "reading", "scenarios/open-gap", "drills/distance", "drills/choice"):
        scratch_bank.write(f"{name}/fr.yaml", (scratch_bank.folder / name / "es.yaml").read_bytes())
    scratch_bank.replace("reading/fr.yaml", "fernandez-huerta\nlimit: 65", "words")
    scratch_bank.replace("bank.yaml", "[en, es]", "[en, es, fr]")

    assert open_bank(scratch_bank.folder).lessons["PB-S90/l1"].heading.has("fr")
