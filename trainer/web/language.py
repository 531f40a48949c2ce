"""The reader's language: catalogues, and sentences made in the layers below.

A catalogue is a folder of text files, ``catalogues/<code>/*.po``; a new language needs nothing else. It is compiled in
memory at start, so that no built file can be older than its source.
"""

from collections.abc import Callable, Mapping
from functools import cache
from io import BytesIO
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.support import NullTranslations, Translations
from flask import Flask, g, request, session
from flask_babel import Babel, Domain

from trainer import units
from trainer.exports.voice import Voice
from trainer.wording import Sentence

FOLDER = Path(__file__).parent / "catalogues"
SOURCE = "en"
NAMES = {"en": "English", "es": "Español"}  # each in its own words; other codes show as they are


class Catalogues(Domain):  # type: ignore[misc]  # flask-babel has no types
    """All catalogues, compiled once."""

    def __init__(self, folder: Path = FOLDER) -> None:
        super().__init__()
        self.compiled: dict[str, Translations] = {one.name: _compile(one) for one in _folders(folder)}

    def get_translations(self) -> NullTranslations:
        """Return the catalogue of the present reader; English is written in the code."""
        return self.compiled.get(current(), NullTranslations())


def _folders(folder: Path = FOLDER) -> list[Path]:
    return sorted(path for path in folder.iterdir() if path.is_dir() and any(path.glob("*.po")))


def _compile(folder: Path) -> Translations:
    merged = Translations()
    for path in sorted(folder.glob("*.po")):
        built = BytesIO()
        with path.open("rb") as file:
            write_mo(built, read_po(file, locale=folder.name))
        built.seek(0)
        merged.merge(Translations(built))
    return merged


@cache  # asked with every text of a sheet
def offered() -> Mapping[str, str]:
    """Return the languages a reader may choose: code and its own name."""
    return {code: NAMES.get(code, code) for code in (SOURCE, *(one.name for one in _folders()))}


def current() -> str:
    """Return the code of the reader's language: as chosen, else the person's own, else the browser's, else English."""
    choices = offered()
    chosen = session.get("language")
    if chosen in choices:
        return str(chosen)
    person = g.get("person")
    if person is not None and person.language in choices:
        return str(person.language)
    return request.accept_languages.best_match(list(choices)) or SOURCE


def choose(code: str) -> None:
    """Keep a reader's choice; an unknown code changes nothing."""
    if code in offered():
        session["language"] = code


def voice(code: str | None = None) -> Voice:
    """Return how a file in a language speaks; in that of the present reader when none is named.

    With a code it needs no request, so commands and letters can speak to somebody who is not there.
    """
    found = code or current()
    return Voice(found, _messages(found))


@cache
def _messages(code: str) -> Callable[[str], str]:
    catalogue = _compile(FOLDER / code) if (FOLDER / code).is_dir() else NullTranslations()
    return lambda text: str(catalogue.ugettext(text)) if text else ""


def translate(sentence: Sentence | str) -> str:
    """Return a sentence in the reader's language, its numbers with the decimal mark of that language."""
    return voice().tell(sentence)


def localise(text: str) -> str:
    """Write the decimal points of a text's numbers as the reader's language does."""
    return units.localised(text, current())


def init_app(app: Flask) -> None:
    """Give ``app`` its catalogues."""
    catalogues = Catalogues()
    Babel(app, locale_selector=current)

    @app.before_request
    def use_catalogues() -> None:
        g.catalogues = catalogues
        catalogues.as_default()
