"""Every sentence that the program can show is in every catalogue, with the same places to fill."""

import re
from pathlib import Path

import pytest
from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir
from babel.messages.pofile import read_po

PACKAGE = Path(__file__).parents[2] / "trainer"
CATALOGUES = sorted(path for path in (PACKAGE / "web" / "catalogues").iterdir() if path.is_dir())
REFUSALS = dict.fromkeys(
    ("UsageError", "RecordError", "NotEntitled", "Missing", "BankError", "BadQuantity", "SignInRefused")
)
KEYWORDS = {**DEFAULT_KEYWORDS, **REFUSALS, "say": None, "mark": None, "_l": None, "ngettext": (1, 2)}
METHODS = [("**.py", "python"), ("**/templates/**.html", "jinja2")]
PLACE = re.compile(r"%\(\w+\)[sd]|\{\w+\}")


def messages():
    found = {}
    for file, _line, message, _comments, _context in extract_from_dir(PACKAGE, METHODS, keywords=KEYWORDS):
        if file.startswith("cli/"):
            continue  # commands speak English
        for text in message if isinstance(message, tuple) else (message,):
            found.setdefault(text, file)
    return found


def catalogue(folder):
    for path in sorted(folder.glob("*.po")):
        with path.open("rb") as file:
            yield from read_po(file, locale=folder.name)


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: path.name)
def test_no_sentence_is_left_in_english(path):
    known = set()
    for entry in catalogue(path):
        ids = entry.id if isinstance(entry.id, tuple) else (entry.id,)
        if all(entry.string if isinstance(entry.string, tuple) else (entry.string,)) and not entry.fuzzy:
            known.update(ids)

    missing = {text: file for text, file in messages().items() if text not in known}
    assert missing == {}


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: path.name)
def test_a_translation_fills_the_same_places(path):
    for entry in catalogue(path):
        if not entry.id:
            continue
        ids = entry.id if isinstance(entry.id, tuple) else (entry.id,)
        strings = entry.string if isinstance(entry.string, tuple) else (entry.string,)
        for string in strings:
            assert set(PLACE.findall(string)) <= set().union(*(PLACE.findall(text) for text in ids)), entry.id


def test_there_is_a_catalogue_for_every_language_of_the_bank():
    assert [path.name for path in CATALOGUES] == ["es"]
