"""Questions in QTI 3.0: the whole bank goes out and comes back as it was, in the standard's own elements."""

import shutil
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from bank.scratch import ScratchBank
from defusedxml import ElementTree

from trainer.bank import Bank, load
from trainer.bank.archive import from_bytes, to_bytes
from trainer.bank.drafting import write_drafts
from trainer.bank.model import KINDS
from trainer.exports.qti.bodies import within
from trainer.exports.qti.intake import intake
from trainer.exports.qti.node import Node, parsed
from trainer.exports.qti.package import Made, package
from trainer.settings import shipped
from trainer.web.language import voice

PENS = ".drawing .part > path { fill: none; }"
INTERACTION = {
    "pick-one": ["qti-choice-interaction"],
    "next": ["qti-choice-interaction"],
    "pick-all": ["qti-choice-interaction"],
    "order": ["qti-order-interaction"],
    "point": ["qti-hotspot-interaction"],
    "spot": ["qti-hotspot-interaction"],
    "match": ["qti-match-interaction"],
    "reasoned": ["qti-choice-interaction", "qti-choice-interaction"],
    "number": ["qti-text-entry-interaction"],
}


@pytest.fixture(scope="module")
def bank() -> Bank:
    return load(shipped("content")).draft.bank


@pytest.fixture(scope="module")
def made(bank: Bank) -> Made:
    return package(bank, voices=voice, pens=PENS)


@pytest.fixture(scope="module")
def files(made: Made) -> dict[str, bytes]:
    with ZipFile(BytesIO(made.content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def item(files: dict[str, bytes], ident: str, language: str = "en") -> Node:
    return parsed(files[f"items/{language}/{ident.replace('/', '.')}.xml"])


def of_kind(bank: Bank, kind: str) -> list[str]:
    return [question.id for question in bank.questions.values() if question.kind == kind]


def answer(root: Node, name: str = "RESPONSE") -> list[str]:
    declared = next(one for one in root.all("qti-response-declaration") if one.get("identifier") == name)
    return [value.text() for value in declared.all("qti-value")]


def test_every_question_comes_back_equal_in_each_language(bank: Bank, made: Made, tmp_path: Path):
    path = tmp_path / "questions.zip"
    path.write_bytes(made.content)
    content = tmp_path / "content"
    shutil.copytree(shipped("content"), content, ignore=shutil.ignore_patterns("scenarios"))

    found = intake(path)
    write_drafts(found.drafts, content)
    back = load(content).draft.bank

    assert found.report.errors == []
    assert found.questions == len(bank.questions)
    assert dict(back.questions) == dict(bank.questions)
    for slug, scenario in bank.scenarios.items():
        kept = {"id", "slug", "theme", "roles", "competencies", "sources", "title"}
        assert back.scenarios[slug].model_dump(include=kept) == scenario.model_dump(include=kept)


def test_a_figure_that_a_sum_gives_comes_back_as_its_name(tmp_path: Path):
    nine = ScratchBank(tmp_path / "content").with_kinds().load().draft.bank
    question = next(question for question in nine.questions.values() if question.figures)
    path = tmp_path / "questions.zip"
    path.write_bytes(package(nine, voices=voice, pens=PENS).content)
    shutil.rmtree(tmp_path / "content" / "scenarios")

    drafts = {draft.structure["id"]: draft for draft in intake(path).drafts}
    write_drafts(drafts.values(), tmp_path / "content")

    told = drafts[question.scenario].words["es"]["questions"][question.id.split("/")[1]]
    assert "{need}" in told["why"]
    assert "{need}" not in question.why.in_("es")
    assert dict(load(tmp_path / "content").draft.bank.questions) == dict(nine.questions)


def test_the_same_bank_gives_the_same_bytes(tmp_path: Path):
    first, second = (ScratchBank(tmp_path / name).with_kinds().load().draft.bank for name in "ab")

    assert package(first, voices=voice, pens=PENS).content == package(second, voices=voice, pens=PENS).content


def test_the_manifest_names_every_file_once_and_no_other(files: dict[str, bytes]):
    manifest = parsed(files["imsmanifest.xml"])
    named = [one.get("href") for one in manifest.all("file")]
    identifiers = [one.get("identifier") for one in manifest.all("resource")]

    assert sorted(named) == sorted(set(files) - {"imsmanifest.xml"})
    assert len(set(identifiers)) == len(identifiers)
    assert {one.get("identifierref") for one in manifest.all("dependency")} < set(identifiers)


def test_there_is_an_item_for_each_question_and_language(bank: Bank, files: dict[str, bytes], made: Made):
    items = [name for name in files if name.startswith("items/")]
    drills = len(bank.drills) - sum(one.what in bank.drills for one in made.left)

    assert len(items) == made.items == (len(bank.questions) + drills) * len(bank.languages)
    for language in bank.languages:
        for question in bank.questions.values():
            root = item(files, question.id, language)
            assert root.get("xml:lang") == language
            assert [one.name for one in root.walk() if one.name.endswith("-interaction")] == INTERACTION[question.kind]


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_right_is_offered(bank: Bank, files: dict[str, bytes], kind: str):
    for ident in of_kind(bank, kind):
        root = item(files, ident)
        offered = {one.get("identifier") for one in root.walk() if "choice" in one.name}
        for declared in root.all("qti-response-declaration"):
            right = answer(root, declared.get("identifier"))
            assert right
            if kind != "number":
                assert {part for value in right for part in value.split()} <= offered


def test_steps_and_partners_are_not_written_in_their_right_order(bank: Bank, files: dict[str, bytes]):
    for ident in of_kind(bank, "order"):
        root = item(files, ident)
        assert [one.get("identifier") for one in root.all("qti-simple-choice")] != answer(root), ident
    for ident in of_kind(bank, "match"):
        first, second = item(files, ident).all("qti-simple-match-set")
        lines = [one.get("identifier") for one in first.all("qti-simple-associable-choice")]
        partners = [one.get("identifier") for one in second.all("qti-simple-associable-choice")]
        assert partners != [f"with.{line}" for line in lines], ident


def test_places_lie_on_their_picture_apart_from_each_other_and_are_named(bank: Bank, files: dict[str, bytes]):
    for ident in (*of_kind(bank, "point"), *of_kind(bank, "spot")):
        for language in bank.languages:
            root = item(files, ident, language)
            image = root.first("img")
            assert image is not None
            assert image.get("alt")
            svg = ElementTree.fromstring(files[image.get("src").removeprefix("../../")])
            assert (svg.get("width"), svg.get("height")) == (image.get("width"), image.get("height"))
            spots = [tuple(map(int, one.get("coords").split(","))) for one in root.all("qti-hotspot-choice")]
            assert all(one.get("hotspot-label") for one in root.all("qti-hotspot-choice"))
            for number, (x, y, radius) in enumerate(spots):
                assert 0 < x < int(image.get("width")), ident
                assert 0 < y < int(image.get("height")), ident
                others = [spot for other, spot in enumerate(spots) if other != number]
                assert all((x - ox) ** 2 + (y - oy) ** 2 > radius**2 for ox, oy, _ in others), ident


def test_every_drawing_is_a_picture_with_its_pens_and_its_words(files: dict[str, bytes]):
    drawings = [content for name, content in files.items() if name.startswith("drawings/")]

    assert drawings
    for content in drawings:
        root = ElementTree.fromstring(content)
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        assert root.find(".//{*}style").text == PENS
        assert root.find("{*}desc").text


def accepted(root: Node, number: Fraction) -> bool:
    holds = {
        "qti-gt": lambda a, b: a > b,
        "qti-gte": lambda a, b: a >= b,
        "qti-lt": lambda a, b: a < b,
        "qti-lte": lambda a, b: a <= b,
    }
    return all(
        holds[one.name](number, Fraction(bound.text()))
        for one in root.all(*holds)
        if (bound := one.first("qti-base-value"))
    )


def test_a_number_is_never_right_on_the_unsafe_side_nor_far_beyond(bank: Bank, files: dict[str, bytes]):
    # US OSHA 1910.217(c)(3)(iii)(e): 63 in/s × 0.230 s = 14.49 in = 368.046 mm; the distance is greater than that.
    root = item(files, "PB-S11/q1")

    assert bank.questions["PB-S11/q1"].inputs == {"stopping-time": "230 ms"}
    assert answer(root) == ["369"]
    assert not accepted(root, Fraction("368.046"))
    assert accepted(root, Fraction("368.047"))
    assert accepted(root, Fraction(469))
    assert not accepted(root, Fraction("469.001"))


@pytest.mark.parametrize("sense", ["at-least", "more-than", "at-most", "less-than", "value"])
def test_a_bound_with_endless_decimals_is_cut_to_the_safe_side(sense: str):
    from trainer.assessment.band import Verdict, band
    from trainer.safeguarding.result import Sense

    found = band(Sense(sense), "mm", Fraction(1000, 3), Fraction(1), Fraction(20))
    test = within(found)

    for number in (Fraction(n, 10**9) for n in range(333333333000, 333333334000, 1)):
        if accepted(test, number):
            assert found.verdict(number) is Verdict.RIGHT
    assert accepted(test, found.needed)
    assert not accepted(test, Fraction(300))
    assert not accepted(test, Fraction(400))


def test_whoever_presses_a_wrong_answer_is_told_what_it_shows(bank: Bank, files: dict[str, bytes]):
    question = bank.questions[of_kind(bank, "pick-one")[0]]
    root = item(files, question.id, "es")
    told = {one.get("identifier"): one.text() for one in root.all("qti-modal-feedback")}

    assert told["why"] == question.why.in_("es")
    for option in question.options:
        if not option.right:
            assert told[option.id] == bank.misconceptions[option.misconception].tell.in_("es")


def test_a_number_carries_the_caution_in_its_language(bank: Bank, files: dict[str, bytes]):
    for ident in of_kind(bank, "number"):
        assert "ayuda para capacitar" in item(files, ident, "es").text()


def test_what_has_no_item_is_listed_with_its_reason(bank: Bank, made: Made):
    listed = {one.what: one.why for one in made.left}
    reads_a_table = {"PB-D11", "PB-D16", "PB-D18", "PB-D27"}

    assert all(listed.values())
    assert all("reads a table" in listed[name] for name in reads_a_table)
    assert "selection rules" in listed["PB-D03"]
    assert {f"{len(bank.lessons)} lesson sheets", f"{len(bank.programmes)} programmes"} < set(listed)


def test_a_question_without_its_words_in_a_language_is_left_out_there_and_listed(bank: Bank):
    scenario = next(iter(bank.scenarios.values()))
    first = scenario.questions[0]
    why = first.why.model_copy(update={"words": {"en": first.why.words["en"]}})
    questions = (first.model_copy(update={"why": why}), *scenario.questions[1:])
    changed = {"scenarios": {scenario.id: scenario.model_copy(update={"questions": questions})}, "drills": {}}

    found = package(from_bytes(to_bytes(bank.model_copy(update=changed))), voices=voice, pens=PENS)

    assert found.items == 2 * len(questions) - 1
    assert [one.what for one in found.left if "(" in one.what] == [f"{first.id} (es)"]
