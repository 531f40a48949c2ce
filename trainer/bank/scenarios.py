"""Read the scenarios: one folder each, with its lessons, questions and drawings."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from trainer.bank.computed import amounts, fill, unfilled
from trainer.bank.draft import Origin
from trainer.bank.findings import BadFigure
from trainer.bank.model import Frozen, Lesson, Option, PickOne, Question, Scenario, Shown, Text
from trainer.bank.question_model import SHAPES
from trainer.bank.reader import Reader
from trainer.bank.texts import Texts


def read(reader: Reader) -> Mapping[str, Scenario]:
    """Read every scenario, in the order of the ids."""
    found = [_scenario(reader, folder) for folder in reader.folders("scenarios")]
    return {scenario.id: scenario for scenario in sorted(filter(None, found), key=lambda scenario: scenario.id)}


def drawings(reader: Reader, folder: str, texts: Texts) -> tuple[Mapping[str, Any], Mapping[str, Text]]:
    """Read a folder's drawings and what a person who cannot see each of them is told."""
    file = reader.file(f"{folder}/drawings.yaml", numbers=True, optional=True)
    if file.there and not isinstance(file.data, dict):
        reader.make(Frozen, folder, Origin(file))
    specs = file.data if isinstance(file.data, dict) else {}
    for name in specs:
        reader.drawn[folder, name] = Origin(file, (name,))
    told = {
        key for page in texts.files.values() if isinstance(page.get("drawings"), dict) for key in page.get("drawings")
    }
    names = list(specs) + sorted(told - set(specs))
    return specs, {name: texts.text("drawings", name) for name in names}


def _scenario(reader: Reader, folder: str) -> Scenario | None:
    origin = reader.whole(f"{folder}/scenario.yaml")
    if origin is None:
        return None
    ident = str(origin.file.get("id") or folder)
    if reader.skips(ident, origin, folder):
        return None
    texts = reader.texts(folder)
    specs, told = drawings(reader, folder, texts)
    lessons = [_lesson(reader, ident, key, place, texts) for key, place in reader.within(origin, ident, "lessons")]
    questions = [
        _question(reader, ident, key, place, texts) for key, place in reader.within(origin, ident, "questions")
    ]
    made = reader.make(
        Scenario,
        ident,
        origin,
        slug=folder.rpartition("/")[2],
        title=texts.text("title"),
        lessons=[lesson for lesson in lessons if lesson],
        questions=[question for question in questions if question],
        drawings=specs,
        drawing_texts=told,
    )
    texts.orphans()
    return made if reader.add(ident, origin, texts) else None


def _lesson(reader: Reader, scenario: str, key: str, origin: Origin, texts: Texts) -> Lesson | None:
    ident = f"{scenario}/{key}"
    words = {name: texts.text("lessons", key, name) for name in ("heading", "text")}
    words = _filled(reader, ident, origin, words)
    made = reader.make(Lesson, ident, origin, id=ident, scenario=scenario, **words)
    return made if reader.add(ident, origin, texts, "lessons", key) else None


def _question(reader: Reader, scenario: str, key: str, origin: Origin, texts: Texts) -> Question | None:
    ident = f"{scenario}/{key}"
    matched = _kind(origin) == "match"
    words = {name: texts.text("questions", key, name) for name in ("told", "asked", "why")}
    options = {
        letter: (place, _option_words(texts, key, letter, matched=matched))
        for letter, place in reader.within(origin, ident, "options")
    }
    reasons = {
        letter: (place, {"text": texts.text("questions", key, "reasons", letter)})
        for letter, place in reader.within(origin, ident, "reasons")
    }
    known = _amounts(reader, ident, origin)
    made_options = [_option(reader, f"{ident} {letter}", *found, known) for letter, found in options.items()]
    made_reasons = [_option(reader, f"{ident} {letter}", *found, known) for letter, found in reasons.items()]
    given: dict[str, Any] = {"id": ident, "scenario": scenario, **_put(reader, ident, origin, words, known)}
    if made_options or "options" in (origin.file.get(*origin.path) or {}):
        given["options"] = [option for option in made_options if option]
    if made_reasons:
        given["reasons"] = [reason for reason in made_reasons if reason]
    made = reader.make(SHAPES.get(_kind(origin), PickOne), ident, origin, **given)
    whole = all(made_options) and all(made_reasons)
    return made if reader.add(ident, origin, texts, "questions", key) and whole else None


def _kind(origin: Origin) -> str:
    return str(origin.file.get(*origin.path, "kind"))


def _option_words(texts: Texts, key: str, letter: str, *, matched: bool) -> dict[str, Text]:
    words = {"text": texts.text("questions", key, "options", letter)}
    return words | ({"partner": texts.text("questions", key, "partners", letter)} if matched else {})


def _option(
    reader: Reader, ident: str, place: Origin, words: Mapping[str, Text], known: Mapping[str, str]
) -> Option | None:
    return reader.make(Option, ident, place, **_put(reader, ident, place, words, known))


def _filled(reader: Reader, ident: str, origin: Origin, words: Mapping[str, Text]) -> dict[str, Text]:
    return _put(reader, ident, origin, words, _amounts(reader, ident, origin))


def _amounts(reader: Reader, ident: str, origin: Origin) -> dict[str, str]:
    """Return the figures of an entry's texts; an entry that does not fit its model is told when it is made."""
    listed = origin.file.get(*origin.path, "figures")
    figures: dict[str, Shown] = {}
    for name, entry in listed.items() if isinstance(listed, dict) else ():
        try:
            figures[str(name)] = Shown.model_validate(entry)
        except ValidationError:
            continue
    return amounts(figures, ident, origin, reader.findings)


def _put(
    reader: Reader, ident: str, origin: Origin, words: Mapping[str, Text], known: Mapping[str, str]
) -> dict[str, Text]:
    """Put the figures into texts; a name in braces that is no figure is a finding."""
    filled = {name: fill(text, known) for name, text in words.items()}
    for wanting in sorted({found for text in filled.values() for found in unfilled(text)}):
        note = f"There is no figure “{wanting}”."
        reader.findings.append(BadFigure(file=origin.file.name, line=origin.line(), key=ident, note=note))
    return filled
