"""Questions from a package that came from elsewhere: drafts, and a finding with file and line for all that is not one."""

import re
import zipfile
from pathlib import Path

import pytest
import yaml
from bank.scratch import ScratchBank

from trainer.bank.drafting import ScenarioDraft, write_drafts
from trainer.errors import UsageError
from trainer.exports.qti.intake import Intake, intake
from trainer.exports.qti.package import package
from trainer.web.language import voice

ITEM = """<?xml version="1.0" encoding="UTF-8"?>
<qti-assessment-item xmlns="http://www.imsglobal.org/xsd/imsqtiasi_v3p0" identifier="{name}" title="T" xml:lang="en-US">
  <qti-response-declaration identifier="R" cardinality="{cardinality}" base-type="identifier">
    <qti-correct-response>{right}</qti-correct-response>
  </qti-response-declaration>
  <qti-item-body>
    <p>The guard is <em>open</em>.</p>
    {interaction}
  </qti-item-body>
</qti-assessment-item>
"""
CHOICES = "".join(f'<qti-simple-choice identifier="{c}">Answer {c}</qti-simple-choice>' for c in "ABC")
PROMPT = "<qti-prompt>What now?</qti-prompt>"


def value(*names: str) -> str:
    return "".join(f"<qti-value>{name}</qti-value>" for name in names)


def asked(kind: str = "choice", choices: str = CHOICES) -> str:
    return f'<qti-{kind}-interaction response-identifier="R">{PROMPT}{choices}</qti-{kind}-interaction>'


def item(cardinality="single", right=None, interaction=None, name="guard-1") -> str:
    right = value("B") if right is None else right
    return ITEM.format(name=name, cardinality=cardinality, right=right, interaction=interaction or asked())


def packed(path: Path, *items: str | bytes | None, more: str = "") -> Path:
    named = {f"items/i{number}.xml": content for number, content in enumerate(items, 1)}
    resources = "".join(f'<resource type="imsqti_item_xmlv3p0" href="{name}"/>' for name in named)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("imsmanifest.xml", f"<manifest><resources>{resources}{more}</resources></manifest>")
        for name, content in named.items():
            if content is not None:
                archive.writestr(name, content)
    return path


def taken(tmp_path: Path, *items: str | bytes | None, more: str = "") -> Intake:
    return intake(packed(tmp_path / "p.zip", *items, more=more))


def only(found: Intake):
    (draft,) = found.drafts
    (question,) = draft.structure["questions"]
    return question, draft.words["en"]["questions"][question["id"]]


def test_a_choice_from_elsewhere_becomes_a_draft_that_says_what_it_lacks(tmp_path):
    found = taken(tmp_path, item())
    question, words = only(found)

    assert question == {
        "id": "guard-1",
        "version": 1,
        "kind": "pick-one",
        "options": [{"id": "A"}, {"id": "B", "right": True}, {"id": "C"}],
    }
    assert words == {
        "told": "The guard is open.",
        "asked": "What now?",
        "options": {"A": "Answer A", "B": "Answer B", "C": "Answer C"},
    }
    assert found.report.good
    assert found.report.rows("code", "file", "line", "key") == [("draft-unfinished", "items/i1.xml", 2, "guard-1")]


def test_all_that_apply_an_order_and_a_match_are_taken_too(tmp_path):
    sets = (
        '<qti-simple-match-set><qti-simple-associable-choice identifier="A">a</qti-simple-associable-choice>'
        '<qti-simple-associable-choice identifier="B">b</qti-simple-associable-choice></qti-simple-match-set>'
        '<qti-simple-match-set><qti-simple-associable-choice identifier="X">x</qti-simple-associable-choice>'
        '<qti-simple-associable-choice identifier="Y">y</qti-simple-associable-choice></qti-simple-match-set>'
    )
    found = taken(
        tmp_path,
        item("multiple", value("A", "C"), name="all"),
        item("ordered", value("C", "A", "B"), asked("order"), name="order"),
        item("multiple", value("A Y", "B X"), asked("match", sets), name="match"),
    )
    (draft,) = found.drafts
    kinds = {question["id"]: question for question in draft.structure["questions"]}

    assert [one["id"] for one in kinds["all"]["options"] if "right" in one] == ["A", "C"]
    assert [one["id"] for one in kinds["order"]["options"]] == ["C", "A", "B"]
    assert draft.words["en"]["questions"]["match"]["partners"] == {"A": "y", "B": "x"}


IMAGE = CHOICES.replace("Answer B", '<img src="b.png" alt=""/>')
REFUSED = {
    "no XML": ("<qti-assessment-item>\n<p>", "unreadable-item", 2),
    "an entity": ('<!DOCTYPE a [<!ENTITY b "c">]>\n<a>&b;</a>', "unreadable-item", 0),
    "a document type": ("<!DOCTYPE a SYSTEM 'file:///etc/hostname'>\n<a/>", "unreadable-item", 0),
    "too deep": ("<a>" * 100 + "</a>" * 100, "unreadable-item", 1),
    "too large": ("<a>" + " " * 1_000_001 + "</a>", "unreadable-item", 0),
    "an unknown encoding": (b'<?xml version="1.0" encoding="nought"?><a/>', "unreadable-item", None),
    "not there": (None, "unreadable-item", 0),
    "another root": ("<svg/>", "not-a-question", 1),
    "free text": (item(interaction=asked("extended-text", "")), "not-a-question", 8),
    "places of a picture": (item(interaction=asked("hotspot")), "not-a-question", 8),
    "two choices": (item(interaction=asked() + asked()), "not-a-question", 6),
    "the same answer twice": (item(interaction=asked(choices=CHOICES * 2)), "not-a-question", 8),
    "no answers": (item(interaction=asked(choices="")), "not-a-question", 8),
    "no right answer": (item(right=""), "no-declared-answer", 3),
    "a right answer that is not offered": (item(right=value("D")), "no-declared-answer", 3),
    "steps left out": (item("ordered", value("A", "B"), asked("order")), "no-declared-answer", 8),
    "a picture for an answer": (item(interaction=asked(choices=IMAGE)), "no-words", 8),
    "an empty answer": (item(interaction=asked(choices=CHOICES.replace("Answer B", ""))), "no-words", 8),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_taken_is_a_finding_with_its_place_and_the_rest_is_drafted(tmp_path, name):
    content, code, line = REFUSED[name]
    found = taken(tmp_path, content, item(name="good"))
    (error,) = found.report.errors

    assert (error.code, error.file) == (code, "items/i1.xml")
    assert line is None or error.line == line
    assert error.note
    assert error.fix
    assert found.report.exit_code == 1
    assert only(found)[0]["id"] == "good"


def test_an_item_of_an_older_version_is_named(tmp_path):
    found = taken(tmp_path, item(), more='<resource identifier="old" type="imsqti_item_xmlv2p1" href="o.xml"/>')

    assert [(error.code, error.key) for error in found.report.errors] == [("unreadable-item", "old")]


def test_a_question_that_stands_there_twice_is_taken_once(tmp_path):
    found = taken(tmp_path, item(), item(right=value("B")))

    assert [(error.code, error.file) for error in found.report.errors] == [("taken-twice", "items/i2.xml")]
    assert found.questions == 1


@pytest.mark.parametrize("content", [b"no zip", b""])
def test_what_is_no_package_is_refused_in_a_sentence(tmp_path, content):
    (tmp_path / "p.zip").write_bytes(content)

    with pytest.raises(UsageError, match=r"p\.zip is no zip file"):
        intake(tmp_path / "p.zip")


def test_a_zip_file_without_a_manifest_is_refused_in_a_sentence(tmp_path):
    with zipfile.ZipFile(tmp_path / "p.zip", "w") as archive:
        archive.writestr("a.xml", "<a/>")

    with pytest.raises(UsageError, match=r"it has no imsmanifest\.xml"):
        intake(tmp_path / "p.zip")


@pytest.fixture(scope="module")
def own(tmp_path_factory) -> dict[str, str]:
    bank = ScratchBank(tmp_path_factory.mktemp("own") / "content").with_kinds().load().draft.bank
    path = tmp_path_factory.mktemp("own") / "own.zip"
    path.write_bytes(package(bank, voices=voice, pens="").content)
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name).decode() for name in archive.namelist() if name.startswith("items/")}


SPOILT = {
    "the number": ("number", "<qti-value>401</qti-value>", "<qti-value>390</qti-value>", "other-figure"),
    "its sum": ("number", "us-presence-sensing", "no-such-sum", "unfit-facts"),
    "the kind": ("order", "&quot;kind&quot;:&quot;order&quot;", "&quot;kind&quot;:&quot;point&quot;", "unfit-facts"),
    "the scenario’s folder": ("order", "&quot;nine-kinds&quot;", "&quot;../../out&quot;", "unfit-facts"),
    "the question’s id": ("order", "PB-S91/order", "PB-S92/order", "unfit-facts"),
    "a key": ("order", "&quot;kind&quot;", "&quot;pay&quot;:1,&quot;kind&quot;", "unfit-facts"),
    "the JSON": ("order", 'question="{', 'question="[{', "unfit-facts"),
    "a misconception": ("all", 'misconception="quick-enough"', 'misconception="no id!"', "unfit-facts"),
}


@pytest.mark.parametrize("what", SPOILT)
def test_the_banks_own_data_are_not_trusted(tmp_path, own, what):
    key, old, new, code = SPOILT[what]
    content = own[f"items/en/PB-S91.{key}.xml"]
    assert old in content

    found = taken(tmp_path, content.replace(old, new))

    assert [error.code for error in found.report.errors] == [code]
    assert found.drafts == ()


def test_an_answer_that_was_changed_elsewhere_comes_back_changed(tmp_path, own):
    content = own["items/en/PB-S91.all.xml"]
    found = taken(tmp_path, content.replace("<qti-value>a</qti-value>", "<qti-value>b</qti-value>"))

    assert [one["id"] for one in only(found)[0]["options"] if one.get("right")] == ["b", "c"]


def test_a_question_that_differs_between_its_languages_is_told(tmp_path, own):
    spanish = own["items/es/PB-S91.all.xml"].replace("<qti-value>a</qti-value>", "<qti-value>b</qti-value>")
    found = taken(tmp_path, own["items/en/PB-S91.all.xml"], spanish)

    assert [(error.code, error.file) for error in found.report.errors] == [("languages-differ", "items/i2.xml")]
    assert set(found.drafts[0].words) == {"en"}


def test_a_drill_is_named_and_not_taken(tmp_path):
    found = taken(tmp_path, item().replace("<p>The", '<p data-bank-drill="PB-D01">The'), item(name="good"))

    assert [(one.code, one.file) for one in found.report][:1] == [("drill-left", "items/i1.xml")]
    assert found.report.good
    assert only(found)[0]["id"] == "good"


def test_drawings_that_have_to_be_described_anew_are_named(tmp_path, own):
    found = taken(tmp_path, own["items/en/PB-S91.point.xml"])

    assert found.report.good
    assert [(one.code, one.file) for one in found.report] == [
        ("draft-unfinished", "scenarios/nine-kinds/drawings.yaml")
    ]


DRAFT = ScenarioDraft(slug="one", structure={"id": "S1", "questions": []}, words={"en": {"title": "Uno: é"}})


def test_drafts_are_files_as_the_bank_has_them(tmp_path):
    written = write_drafts([DRAFT], tmp_path / "new")

    assert written == ["scenarios/one/en.yaml", "scenarios/one/scenario.yaml"]
    assert yaml.safe_load((tmp_path / "new" / written[0]).read_text("utf-8")) == {"title": "Uno: é"}
    assert [path.name for path in (tmp_path / "new" / "scenarios").iterdir()] == ["one"]


def test_nothing_is_overwritten_and_nothing_else_is_written_then(tmp_path):
    there = tmp_path / "scenarios" / "two"
    there.mkdir(parents=True)

    with pytest.raises(UsageError, match=re.escape(f"{there} is there already")):
        write_drafts([DRAFT, ScenarioDraft(slug="two", structure={})], tmp_path)

    assert [path.name for path in (tmp_path / "scenarios").iterdir()] == ["two"]
    assert list(there.iterdir()) == []


def test_a_place_that_cannot_be_written_is_told_in_a_sentence(tmp_path):
    (tmp_path / "file").write_text("")

    with pytest.raises(UsageError, match="cannot be written"):
        write_drafts([DRAFT], tmp_path / "file")
