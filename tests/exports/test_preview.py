"""A preview shows an author everything of an item, on one page that needs nothing else."""

import re
import shutil
from html.parser import HTMLParser
from pathlib import Path

import pytest
from banks import shipped_bank

from trainer.assessment import drills, judging
from trainer.assessment.selecting import key_of
from trainer.bank import Bank, load, open_bank
from trainer.bank.model import ComputeDrill, JudgeDrill, RuleDrill, SelectDrill
from trainer.errors import Missing
from trainer.exports.preview import preview
from trainer.figures import scene_problems
from trainer.safeguarding.cautions import CAUTION
from trainer.safeguarding.problems import problem
from trainer.safeguarding.show import amount

SMALL = Path(__file__).parents[1] / "bank" / "small"
VOID = {"meta", "br"}


class Page(HTMLParser):
    """Checks that elements nest, and gathers what a test asks about."""

    def __init__(self, content: bytes) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.names: set[str] = set()
        self.links: list[str] = []
        self.rows: list[list[str]] = []
        self.words = ""
        self.feed(content.decode("utf-8"))
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        if tag not in VOID:
            self.open.append(tag)
        held = dict(attrs)
        self.names.add(tag)
        self.ids += [held["id"]] if "id" in held else []
        self.links += [value for key, value in attrs if key in {"src", "href", "xlink:href"}]
        if tag == "tr":
            self.rows.append([])
        elif tag in {"th", "td"}:
            self.rows[-1].append("")

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if "style" not in self.open:
            self.words += data
        if {"th", "td"} & set(self.open):
            self.rows[-1][-1] += data


@pytest.fixture(scope="module")
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture(scope="module")
def small() -> Bank:
    return open_bank(SMALL)


def page(bank: Bank, item: str) -> Page:
    return Page(preview(bank, item, pens=".drawing{fill:none}"))


@pytest.mark.parametrize(
    "item", ["PB-S14", "PB-S14/l1", "PB-S14/q1", "PB-D01", "PB-D03", "PB-D29", "PB-D32", "PB-D34", "PB-S12"]
)
def test_a_page_is_whole_and_needs_nothing_else(bank: Bank, item: str):
    made = page(bank, item)

    assert made.links == []
    assert not made.names & {"script", "link", "img", "iframe", "object"}
    assert len(set(made.ids)) == len(made.ids)
    assert str(CAUTION) in made.words


def test_a_scenario_shows_each_text_in_each_language(bank: Bank):
    made = page(bank, "PB-S14")
    scenario = bank.scenarios["PB-S14"]
    for question in scenario.questions:
        for text in (question.told, question.asked, question.why, *(option.text for option in question.options)):
            for language in bank.languages:
                assert text.words[language] in made.words
    for key in scenario.sources:
        assert f"[{key}]" in made.words
    assert made.words.count("balloon") == 0


def test_the_key_and_what_each_wrong_answer_shows_stand_beside_it(bank: Bank):
    question = bank.questions["PB-S14/q1"]
    rows = {row[0]: row[1:3] for row in page(bank, "PB-S14/q1").rows}

    for option in question.options:
        key, shows = rows[option.id]
        assert key == ("right" if option.right else "wrong")
        assert (option.misconception or "") in shows


@pytest.mark.parametrize("kind", ["point", "spot", "order", "match", "reasoned", "number", "pick-all", "next"])
def test_every_kind_of_question_has_a_page(bank: Bank, kind: str):
    question = next(question for question in bank.questions.values() if question.kind == kind)
    made = page(bank, question.id)

    assert question.asked.words["es"] in made.words
    for one in (*question.options, *question.reasons):
        assert one.text.words["es"] in made.words
        assert one.partner is None or one.partner.words["es"] in made.words
    if kind in {"point", "spot"}:
        assert made.words.count("(balloon A)") == 1
    if kind == "number":
        assert "Worked solution" in made.words


def checked(drill: ComputeDrill, row: list[str]) -> None:
    """Compare a row of a drill's table with the sums themselves."""
    keys, sum_ = list(drill.inputs), problem(drill.problem)
    drawn = dict(zip(keys, row, strict=False))
    rest = row[len(keys) :]
    worked = drills.worked(drill, drawn)
    assert rest[0] == amount(drills.units.magnitude(worked.rounded, drill.unit), drill.unit, 3)
    for code, shown in zip(drill.slips, rest[1:-1], strict=True):
        wrong = sum_.wrong(sum_.read(drawn), code, unit=drill.unit)
        same = wrong is None or (wrong.value, wrong.rounded) == (worked.value, worked.rounded)
        assert shown == ("–" if same else amount(drills.units.magnitude(wrong.rounded, drill.unit), drill.unit, 3))
    assert rest[-1].startswith("no: ") is drills.refused(drill, drawn)


def draws(made: Page, drill: ComputeDrill) -> list[list[str]]:
    width = len(drill.inputs) + len(drill.slips) + 2
    return [row for row in made.rows if len(row) == width and row[0] in next(iter(drill.inputs.values())).values()]


def test_a_small_drill_shows_every_draw_with_what_is_right_and_what_each_slip_makes_of_it(bank: Bank):
    drill = next(one for one in bank.drills.values() if isinstance(one, ComputeDrill) and 10 < drills.size(one) < 200)
    made = page(bank, drill.id)
    rows = draws(made, drill)

    assert f"{drills.size(drill)} of {drills.size(drill)} draws" in made.words
    assert len({tuple(row[: len(drill.inputs)]) for row in rows}) == len(rows) == drills.size(drill)
    for row in rows:
        checked(drill, row)


def test_a_large_drill_shows_a_share_of_its_draws_and_says_so(bank: Bank):
    drill = bank.drills["PB-D01"]
    made = page(bank, drill.id)
    rows = draws(made, drill)

    found = re.search(r"(\d+) of (\d+) draws", made.words)
    assert found
    assert (int(found[1]), int(found[2])) == (len(rows), drills.size(drill))
    assert 100 < len(rows) < 260
    for row in rows[::25]:
        checked(drill, row)


def test_a_choice_of_safeguards_shows_what_each_is_worth(bank: Bank):
    drill = next(one for one in bank.drills.values() if isinstance(one, SelectDrill))
    rows = [tuple(row[:2]) for row in page(bank, drill.id).rows]

    for setting in drill.settings:
        for code, worth in key_of(drill, setting.id).worth.items():
            assert (code, worth.value) in rows


def test_a_choice_of_rules_shows_its_situations_and_the_right_rule(bank: Bank):
    drill = next(one for one in bank.drills.values() if isinstance(one, RuleDrill))
    made = page(bank, drill.id)

    for situation in drill.situations:
        assert situation.told.words["es"] in made.words
        assert [situation.right, "right"] in [row[:2] for row in made.rows]
    assert sum(row[1:2] == ["right"] for row in made.rows) == len(drill.situations)


@pytest.mark.parametrize("kind", ["mounted", "find-error"])
def test_a_drill_that_judges_shows_draws_with_one_right_choice_each(bank: Bank, kind: str):
    drill = next(one for one in bank.drills.values() if isinstance(one, JudgeDrill) and one.kind == kind)
    made = page(bank, drill.id)

    shown = sum(row[1:2] == ["right"] for row in made.rows)
    assert f"{shown} draws of the {drills.size(drill.base)} of {drill.base.id}" in made.words
    assert shown == made.words.count("Choices")
    assert judging.MOUNTED in made.words if kind == "mounted" else judging.SLIP in made.words


def test_words_are_shown_and_never_run(tmp_path: Path):
    bad = "<script>alert(1)</script>"
    folder = Path(shutil.copytree(SMALL, tmp_path / "content"))
    path = folder / "scenarios/open-gap/en.yaml"
    path.write_text(path.read_text().replace("The gap at the end is open.", bad).replace("A hand goes", f"{bad} goes"))

    made = page(open_bank(folder), "PB-S90")

    assert made.words.count(bad) == 2
    assert "script" not in made.names


def test_a_bank_with_errors_is_shown_with_what_was_found(tmp_path: Path):
    folder = Path(shutil.copytree(SMALL, tmp_path / "content"))
    path = folder / "scenarios/open-gap/scenario.yaml"
    path.write_text(
        path.read_text().replace("sources: [rule]\n    drawing: gap", "sources: [nowhere]\n    drawing: gone")
    )
    words = folder / "scenarios/open-gap/es.yaml"
    words.write_text(words.read_text().replace("    asked: ¿Qué va primero?\n", ""))
    loaded = load(folder, check_drawing=scene_problems)

    found = loaded.draft.about("PB-S90/q1", loaded.report)
    made = Page(preview(loaded.draft.bank, "PB-S90/q1", pens="", findings=found))

    assert {finding.code for finding in found} == {"unknown-source", "unknown-drawing", "missing-text"}
    assert "finds here: 3" in made.words
    assert "NOT IN THE BANK [nowhere]" in made.words
    assert "There is no drawing “gone”." in made.words
    assert "missing" in made.words
    assert loaded.draft.about("PB-S90/q2", loaded.report) == []
    assert len(loaded.draft.about("PB-S90", loaded.report)) == 3


def test_an_item_that_is_not_there_is_told(small: Bank):
    with pytest.raises(Missing, match="PB-S01"):
        preview(small, "PB-S01", pens="")
