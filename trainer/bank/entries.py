"""Read the parts of the bank that are lists of small entries, and the words."""

from collections.abc import Iterator, Mapping
from typing import TypeVar

from trainer.bank.draft import Origin
from trainer.bank.model import (
    Checklist,
    ChecklistStep,
    Competency,
    Misconception,
    Programme,
    Reading,
    Source,
)
from trainer.bank.reader import Reader
from trainer.bank.texts import Texts

E = TypeVar("E", Competency, Misconception, Programme)


def sources(reader: Reader) -> Mapping[str, Source]:
    """Read ``sources.yaml``."""
    found = {}
    for key, origin in _read(reader, None, "sources"):
        made = reader.make(Source, key, origin, key=key)
        if made and reader.add(key, origin):
            found[key] = made
    return found


def entries(reader: Reader, texts: Texts, model: type[E], kind: str, fields: tuple[str, ...]) -> Mapping[str, E]:
    """Read ``<kind>.yaml``, whose entries have the given texts."""
    found = {}
    for key, origin in _read(reader, texts, kind):
        words = {name: texts.text(kind, key, name) for name in fields}
        made = reader.make(model, key, origin, id=key, **words)
        if reader.add(key, origin, texts, kind, key) and made:
            found[key] = made
    return found


def checklists(reader: Reader, texts: Texts) -> Mapping[str, Checklist]:
    """Read ``checklists.yaml``; each step has its texts below the checklist's."""
    found = {}
    for key, origin in _read(reader, texts, "checklists"):
        made_steps = [
            reader.make(
                ChecklistStep,
                f"{key} {step}",
                place,
                **{name: texts.text("checklists", key, "steps", step, name) for name in ("title", "detail")},
            )
            for step, place in reader.within(origin, key, "steps")
        ]
        name = texts.text("checklists", key, "name")
        made = reader.make(Checklist, key, origin, id=key, steps=[step for step in made_steps if step], name=name)
        if reader.add(key, origin, texts, "checklists", key) and made and all(made_steps):
            found[key] = made
    return found


def _read(reader: Reader, texts: Texts | None, kind: str) -> Iterator[tuple[str, Origin]]:
    """Give the entries that are to be read; the texts of the others are passed over with them."""
    for key, origin in reader.each(f"{kind}.yaml"):
        if not reader.skips(key, origin):
            yield key, origin
        elif texts:
            texts.used.add((kind, key))


def words(reader: Reader) -> Mapping[str, Mapping[str, str]]:
    """Read the labels of drawings; each language has the same keys."""
    texts = reader.texts("words")
    labels = {}
    for key, origin in sorted(_labels(reader, texts).items()):
        item = f"words/{key}"
        if not reader.skips(item, origin) and reader.add(item, origin, texts, key):
            labels[key] = texts.text(key)
    return {
        language: {key: text.words[language] for key, text in labels.items() if text.has(language)}
        for language in reader.languages
    }


def _labels(reader: Reader, texts: Texts) -> dict[str, Origin]:
    """Return the keys of the labels and where each stands first. In an added language a site has the base's words too."""
    found: dict[str, Origin] = {}
    for language, file in texts.files.items():
        for key in file.data if isinstance(file.data, dict) else ():
            lent = language in reader.added and (reader.base is None or f"words/{key}" in reader.held)
            if not lent:
                found.setdefault(key, Origin(file, (key,)))
    return found


def readings(reader: Reader) -> Mapping[str, Reading]:
    """Read how plain the text has to be in each language."""
    found = {}
    for language in reader.languages:
        origin = reader.teller(language).whole(f"reading/{language}.yaml")
        made = origin and reader.make(Reading, f"reading {language}", origin)
        if made:
            found[language] = made
    return found
