"""The Spanish of the shipped bank: words that are easily taken for each other, held against the English beside them."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
import yaml
from babel.messages.pofile import read_po

from trainer.settings import shipped

CONTENT = Path(shipped("content"))
CATALOGUES = sorted((Path(__file__).parents[2] / "trainer" / "web" / "catalogues" / "es").glob("*.po"))
OTHER_WORDS = re.compile(r"\b(carros?|muting|punto de atrape|pestañas?|cargar la energía)\b", re.IGNORECASE)
# The Spanish word stands only where the English says the thing.
ONLY_FOR = {
    r"\binhib": r"\bmut(e|ed|ing)\b|look(s|ing)? away",
    r"\banul|\banúl": r"\bblank|\bbeams? (are set|off)",
    r"\bpuente": r"\bby-?pass|\bbridg|\bmade useless",
    r"\bcarrito": r"\bcarts?\b|\btrolleys?\b",
    r"\btablero": r"\bapron\b",
    r"\bhaz\b|\bhaces\b": r"\bbeams?\b|\bblank",
}
# The English says the thing: the Spanish says it with this word.
ALWAYS = {
    r"\bmuting\b|\bmuted?\b": r"\binhib",
    r"\bblanking\b|\bblanked\b": r"\banul|\bhaces\b",
    r"\b(tool )?cart\b|\btrolley\b": r"\bcarrito",
    r"\b(a|the|each|missing|bypassed|adjusted) guard\b": r"\bguardas?\b",
}


def texts(node: object, at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield from texts(value, (*at, str(key)))
    elif isinstance(node, str):
        yield at, node


@cache
def pairs() -> list[tuple[str, str, str]]:
    found = []
    for path in sorted(CONTENT.rglob("es.yaml")):
        english = dict(texts(yaml.safe_load((path.parent / "en.yaml").read_text("utf-8"))))
        for at, spanish in texts(yaml.safe_load(path.read_text("utf-8"))):
            found.append((f"{path.parent.name} {' '.join(at)}", english.get(at, ""), spanish))
    return found


@pytest.mark.parametrize("word", ONLY_FOR)
def test_a_word_stands_only_for_its_own_thing(word: str):
    found = [
        (at, spanish)
        for at, english, spanish in pairs()
        if re.search(word, spanish, re.IGNORECASE) and not re.search(ONLY_FOR[word], english, re.IGNORECASE)
    ]

    assert found == []


@pytest.mark.parametrize("thing", ALWAYS)
def test_a_thing_is_always_called_by_its_own_word(thing: str):
    found = [
        (at, spanish)
        for at, english, spanish in pairs()
        if re.search(thing, english, re.IGNORECASE) and not re.search(ALWAYS[thing], spanish, re.IGNORECASE)
    ]

    assert found == []


def test_a_beam_of_steel_is_not_labelled_as_a_beam_of_light():
    seen = 0
    for path in sorted(CONTENT.rglob("drawings.yaml")):
        for name, drawing in yaml.safe_load(path.read_text("utf-8")).items():
            if {part["part"] for part in drawing["parts"]} & {"up-acting-brake", "folder"}:
                seen += 1
                assert "beam" not in {label.get("word") for label in drawing["labels"]}, (path.parent.name, name)
    assert seen


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: path.stem)
def test_no_sentence_of_the_program_uses_a_word_that_the_bank_does_not(path: Path):
    with path.open("rb") as file:
        for entry in read_po(file, locale="es"):
            for sentence in entry.string if isinstance(entry.string, tuple) else (entry.string,):
                assert not OTHER_WORDS.search(sentence), sentence


def test_no_text_of_the_bank_uses_a_word_with_two_meanings():
    assert [(at, spanish) for at, _english, spanish in pairs() if OTHER_WORDS.search(spanish)] == []
