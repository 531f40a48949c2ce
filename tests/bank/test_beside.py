"""A site's own content adds to the bank and replaces only what it names."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from bank.scratch import KINDS, SMALL, ScratchBank

from trainer.bank import Bank, Loaded, archive, load, open_bank
from trainer.errors import BankError
from trainer.figures import scene_problems

HEAD = "edition: 2\n"
GAP = "scenarios/open-gap"


class Own:
    """A folder beside a copy of the small bank."""

    def __init__(self, base: ScratchBank, folder: Path) -> None:
        self.base, self.folder = base, folder
        self.write("bank.yaml", HEAD)

    def write(self, name: str, text: str) -> "Own":
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return self

    def take(self, source: Path, name: str, change: Callable[[str], str] = str) -> "Own":
        """Copy a folder of content, its text changed."""
        for path in sorted((source / name).rglob("*.yaml")) if (source / name).is_dir() else [source / name]:
            self.write(path.relative_to(source).as_posix(), change(path.read_text(encoding="utf-8")))
        return self

    def load(self) -> Loaded:
        return load(self.base.folder, self.folder, check_drawing=scene_problems)

    def bank(self) -> Bank:
        return open_bank(self.base.folder, self.folder, check_drawing=scene_problems)


@pytest.fixture
def own(scratch_bank: ScratchBank, tmp_path: Path) -> Own:
    return Own(scratch_bank, tmp_path / "plant")


def with_kinds(own: Own) -> Own:
    """Add the scenario with a question of each kind, and the labels that its drawing needs."""
    return own.take(KINDS, "scenarios/nine-kinds")


def test_what_the_site_adds_is_in_the_bank_beside_the_rest(own: Own):
    bank = with_kinds(own).bank()

    assert list(bank.scenarios) == ["PB-S90", "PB-S91"]
    assert bank.scenarios["PB-S90"] == open_bank(own.base.folder).scenarios["PB-S90"]
    assert "PB-S91/point" in bank.questions


def test_lists_and_their_words_are_added(own: Own):
    own.write("competencies.yaml", "rolls: {kind: knowledge, critical: true, level: 0.9, roles: [operator]}\n")
    own.write("misconceptions.yaml", "slow-roll: {competency: rolls}\n")
    own.write("sources.yaml", "plant-rule: {document: Plant rule 4, read: original}\n")
    for code in ("en", "es"):
        own.write(f"words/{code}.yaml", "roll: roll\n")
        words = "competencies: {rolls: {name: R, can_do: Can.}}\nmisconceptions: {slow-roll: {name: S, tell: No.}}\n"
        own.write(f"text/{code}.yaml", words)

    bank = own.bank()

    assert bank.competencies["rolls"].name.in_("es") == "R"
    assert bank.labels("es")["roll"] == "roll"
    assert bank.labels("es")["ram"] == "ariete"
    assert bank.sources["plant-rule"].document == "Plant rule 4"


def test_both_editions_and_all_content_are_in_the_fingerprint(own: Own):
    alone = open_bank(own.base.folder)
    first = own.bank()
    with_kinds(own)
    second = own.bank()
    own.write("bank.yaml", "edition: 3\n")
    third = own.bank()
    own.base.replace("bank.yaml", "edition: 3", "edition: 4")
    fourth = own.bank()

    assert len({bank.fingerprint for bank in (alone, first, second, third, fourth)}) == 5
    assert [bank.edition_shown for bank in (alone, first, third, fourth)] == ["3", "3 + 2", "3 + 3", "4 + 3"]


def test_a_bank_with_own_content_outlives_both_folders(own: Own):
    bank = with_kinds(own).bank()

    again = archive.from_bytes(archive.to_bytes(bank))

    assert again == bank
    assert again.own_edition == 2


def test_an_id_that_the_bank_has_is_a_finding_that_names_both_files(own: Own):
    own.take(SMALL, "sources.yaml", lambda text: text.splitlines()[0])
    own.take(SMALL, "drills/distance", lambda text: text.replace("How far", "Other words"))

    report = own.load().report

    assert report.rows("code", "file", "line", "key") == [
        ("duplicate-id", "plant/drills/distance/drill.yaml", 1, "PB-D90"),
        ("duplicate-id", "plant/sources.yaml", 1, "rule"),
    ]
    notes = [note for (note,) in report.rows("note")]
    assert "“PB-D90” stands in drills/distance/drill.yaml, line 1, as well, and replaces does not name it." in notes
    with pytest.raises(BankError, match="duplicate-id"):
        own.bank()


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("competencies.yaml", None, "plant/competencies.yaml"),
        ("misconceptions.yaml", None, "plant/misconceptions.yaml"),
        ("programmes.yaml", None, "plant/programmes.yaml"),
        ("checklists.yaml", None, "plant/checklists.yaml"),
        ("words/en.yaml", "ram: slide\n", "plant/words/en.yaml"),
        (GAP, None, "plant/scenarios/open-gap/scenario.yaml"),
    ],
)
def test_nothing_of_the_bank_is_overridden_in_silence(own: Own, name: str, text: str | None, told: str):
    before = open_bank(own.base.folder)
    if text:
        own.write(name, text)
    else:
        own.take(SMALL, name)

    loaded = own.load()

    assert not loaded.report.good
    assert ("duplicate-id", told) in loaded.report.rows("code", "file")
    assert loaded.draft.bank.model_copy(update={"own_edition": 0, "fingerprint": ""}) == before.model_copy(
        update={"fingerprint": ""}
    )


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("text/en.yaml", "title: Our bank\n", "orphan-text"),
        ("text/en.yaml", "competencies: {gaps: {name: Holes}}\n", "orphan-text"),
        ("reading/en.yaml", "measure: words\n", "stray-file"),
        (f"{GAP}/en.yaml", "title: A shut gap\n", "missing-file"),
    ],
)
def test_words_of_the_bank_are_not_changed_in_silence_either(own: Own, name: str, text: str, code: str):
    own.write(name, text)

    loaded = own.load()

    assert code in {found for found, file in loaded.report.rows("code", "file") if file.startswith("plant/")}
    assert loaded.draft.bank.title.in_("en") == "Small bank"
    assert loaded.draft.bank.competencies["gaps"].name.in_("en") == "Gaps"
    assert loaded.draft.bank.scenarios["PB-S90"].title.in_("en") == "An open gap"


def test_a_folder_s_name_that_the_bank_has_is_a_finding(own: Own):
    own.take(SMALL, "drills/distance", lambda text: text.replace("PB-D90", "PB-D99"))

    (finding,) = own.load().report

    assert (finding.code, finding.key) == ("duplicate-id", "PB-D99")
    assert finding.note.startswith("The folder “drills/distance” stands in drills/distance/drill.yaml, line 1, as well")


def test_what_is_named_is_replaced_and_told(own: Own):
    own.write("bank.yaml", "edition: 2\nreplaces: [PB-S90, PB-D90, far-enough, rule, words/ram]\n")
    own.take(SMALL, GAP, lambda text: text.replace("An open gap", "Our gap"))
    own.take(SMALL, "drills/distance", lambda text: text.replace("step: 10 ms", "step: 20 ms"))
    own.write("misconceptions.yaml", "far-enough: {competency: gaps}\n")
    own.write("sources.yaml", "rule: {document: Plant rule 7, read: original}\n")
    for code in ("en", "es"):
        own.write(f"text/{code}.yaml", "misconceptions: {far-enough: {name: Far, tell: Too near.}}\n")
        own.write(f"words/{code}.yaml", "ram: slide\n")

    loaded = own.load()

    assert loaded.report.rows("code", "file", "note") == []
    bank = loaded.bank
    assert bank is not None
    assert bank.scenarios["PB-S90"].title.in_("en") == "Our gap"
    assert bank.sources["rule"].document == "Plant rule 7"
    assert bank.misconceptions["far-enough"].tell.in_("es") == "Too near."
    assert bank.labels("es")["ram"] == "slide"
    assert [(one.item, one.file, one.by) for one in loaded.draft.replaced] == [
        ("PB-D90", "drills/distance/drill.yaml", "plant/drills/distance/drill.yaml"),
        ("PB-S90", f"{GAP}/scenario.yaml", f"plant/{GAP}/scenario.yaml"),
        ("far-enough", "misconceptions.yaml", "plant/misconceptions.yaml"),
        ("rule", "sources.yaml", "plant/sources.yaml"),
        ("words/ram", "words/en.yaml", "plant/words/en.yaml"),
    ]


JUDGE = """id: {id}
version: 1
kind: mounted
base: PB-D90
competency: distance
sources: [rule]
slips: [adds-penetration, speed-60]
"""
SLIPS = ("slips: []", "slips: [adds-penetration, speed-60]")


def judge(folder: Path, ident: str) -> None:
    shutil.copytree(SMALL / "drills/distance", folder / "drills" / ident)
    (folder / "drills" / ident / "drill.yaml").write_text(JUDGE.format(id=ident), encoding="utf-8")


def test_a_drill_may_judge_one_of_the_other_folder(own: Own):
    own.base.replace("drills/distance/drill.yaml", *SLIPS)
    judge(own.folder, "PB-D95")

    assert own.bank().drills["PB-D95"].base == own.bank().drills["PB-D90"]


def test_what_is_replaced_is_replaced_for_the_drill_that_judges_it_too(own: Own):
    own.base.replace("drills/distance/drill.yaml", *SLIPS)
    judge(own.base.folder, "PB-D95")
    own.write("bank.yaml", "edition: 2\nreplaces: [PB-D90]\n")
    own.take(SMALL, "drills/distance", lambda text: text.replace(*SLIPS).replace("from: 100 ms", "from: 150 ms"))

    assert own.bank().drills["PB-D95"].base.inputs["stopping-time"].from_ == "150 ms"


def test_a_drill_of_the_bank_that_judges_is_not_overridden_in_silence(own: Own):
    own.base.replace("drills/distance/drill.yaml", *SLIPS)
    judge(own.base.folder, "PB-D95")
    own.take(SMALL, "drills/choice", lambda text: text.replace("PB-D91", "PB-D95"))
    shutil.move(own.folder / "drills/choice", own.folder / "drills/other")

    assert own.load().report.rows("code", "file") == [("duplicate-id", "plant/drills/other/drill.yaml")]


@pytest.mark.parametrize(
    ("ident", "note"),
    [
        ("PB-S99", "“PB-S99”: The bank has none of that id."),
        ("PB-S90", "“PB-S90”: The folder plant/ has none of that id."),
    ],
)
def test_replacing_nothing_is_a_finding(own: Own, ident: str, note: str):
    own.write("bank.yaml", f"edition: 2\nreplaces: [{ident}]\n")

    report = own.load().report

    assert ("replaces-nothing", "plant/bank.yaml", 2, note) in report.rows("code", "file", "line", "note")
    assert not report.good


def french(own: Own) -> Own:
    """Give every word of the bank in another language (the Spanish ones will do)."""
    own.write("bank.yaml", "edition: 2\nlanguages: [fr]\n")
    for path in SMALL.rglob("es.yaml"):
        own.write(path.relative_to(SMALL).with_name("fr.yaml").as_posix(), path.read_text(encoding="utf-8"))
    return own


def test_a_whole_language_is_added(own: Own):
    bank = french(own).bank()

    assert bank.languages == ("en", "es", "fr")
    assert bank.scenarios["PB-S90"].title.has("fr")
    assert bank.labels("fr")["ram"] == "ariete"
    assert bank.readings["fr"].measure == bank.readings["es"].measure


def test_own_items_and_an_own_language_go_together(own: Own):
    with_kinds(french(own))
    shutil.copy(KINDS / "scenarios/nine-kinds/es.yaml", own.folder / "scenarios/nine-kinds/fr.yaml")
    for code in ("en", "es"):
        own.write(f"words/{code}.yaml", "roll: roll\n")
    own.write("words/fr.yaml", (SMALL / "words/es.yaml").read_text(encoding="utf-8") + "roll: rouleau\n")

    bank = own.bank()

    assert bank.labels("fr")["roll"] == "rouleau"
    assert bank.questions["PB-S91/point"].asked.has("fr")


@pytest.mark.parametrize(
    "name", ["text/fr.yaml", "words/fr.yaml", "reading/fr.yaml", f"{GAP}/fr.yaml", "drills/choice/fr.yaml"]
)
def test_a_language_with_a_file_missing_is_refused(own: Own, name: str):
    french(own)
    (own.folder / name).unlink()

    assert ("missing-file", f"plant/{name}") in own.load().report.rows("code", "file")


@pytest.mark.parametrize(
    ("name", "old", "new", "code"),
    [
        (f"{GAP}/fr.yaml", "title: Un hueco abierto\n", "", "missing-text"),
        ("text/fr.yaml", "title: ", "colour: rouge\ntitle: ", "orphan-text"),
        ("words/fr.yaml", "ram: ariete\n", "rouleau: rouleau\n", "missing-text"),
    ],
)
def test_a_language_with_a_text_missing_or_too_many_is_refused(own: Own, name: str, old: str, new: str, code: str):
    path = french(own).folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    report = own.load().report

    assert (code, f"plant/{name}") in report.rows("code", "file")
    assert not report.good


def test_a_file_of_words_that_two_need_is_told_once(own: Own):
    french(own).write("words/fr.yaml", "a: [\n")

    assert own.load().report.rows("code", "file") == [("unreadable-file", "plant/words/fr.yaml")]


def test_an_own_list_needs_its_words_in_each_language(own: Own):
    own.write("competencies.yaml", "rolls: {kind: knowledge, critical: true, level: 0.9, roles: [operator]}\n")
    own.write("text/en.yaml", "competencies: {rolls: {name: R, can_do: Can.}}\n")

    assert own.load().report.rows("code", "file") == [("missing-file", "plant/text/es.yaml")]


@pytest.mark.parametrize("data", ["", "just words\n", "- a\n", "edition: 0\n", "edition: 1\nlangs: [fr]\n"])
def test_a_bad_head_is_told(own: Own, data: str):
    own.write("bank.yaml", data)

    report = own.load().report

    assert not report.good
    assert {file for (file,) in report.rows("file")} == {"plant/bank.yaml"}


def test_an_own_folder_without_a_head_is_told(own: Own):
    (own.folder / "bank.yaml").unlink()

    assert own.load().report.rows("code", "file") == [("missing-file", "plant/bank.yaml")]


def test_a_file_that_nothing_reads_is_told(own: Own):
    own.write("sauces.yaml", "a: b\n")

    assert own.load().report.rows("code", "file") == [("stray-file", "plant/sauces.yaml")]


def test_own_items_are_judged_like_the_rest(own: Own):
    with_kinds(own)
    path = own.folder / "scenarios/nine-kinds/scenario.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("theme: safeguard-state\n", ""), encoding="utf-8")

    assert own.load().report.rows("code", "file") == [("no-theme", "plant/scenarios/nine-kinds/scenario.yaml")]
