"""Read the scenarios: one folder each, with its lessons, questions and drawings."""

from collections.abc import Mapping
from typing import Any

from trainer.bank.draft import Origin
from trainer.bank.model import Frozen, Lesson, Option, Question, Scenario, Text
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
    made = reader.make(Lesson, ident, origin, id=ident, scenario=scenario, **words)
    return made if reader.add(ident, origin, texts, "lessons", key) else None


def _question(reader: Reader, scenario: str, key: str, origin: Origin, texts: Texts) -> Question | None:
    ident = f"{scenario}/{key}"
    options = [
        reader.make(Option, f"{ident} {letter}", place, text=texts.text("questions", key, "options", letter))
        for letter, place in reader.within(origin, ident, "options")
    ]
    words = {name: texts.text("questions", key, name) for name in ("told", "asked", "why")}
    given = {"id": ident, "scenario": scenario, "options": [option for option in options if option], **words}
    made = reader.make(Question, ident, origin, **given)
    return made if reader.add(ident, origin, texts, "questions", key) and all(options) else None
