"""Read the drills: one folder each, with its ranges, slips, texts and drawing."""

from collections.abc import Mapping
from typing import Any

from trainer.bank.draft import Origin
from trainer.bank.drill_model import AnyDrill
from trainer.bank.model import ComputeDrill, SelectDrill, Setting
from trainer.bank.reader import Reader
from trainer.bank.scenarios import drawings
from trainer.bank.texts import Texts


def read(reader: Reader) -> Mapping[str, AnyDrill]:
    """Read every drill, in the order of the ids."""
    found = [made for folder in reader.folders("drills") if (made := _drill(reader, folder))]
    return {drill.id: drill for drill in sorted(found, key=lambda drill: drill.id)}


def _drill(reader: Reader, folder: str) -> AnyDrill | None:
    origin = reader.whole(f"{folder}/drill.yaml")
    if origin is None:
        return None
    ident = str(origin.file.get("id") or folder)
    texts = reader.texts(folder)
    specs, told = drawings(reader, folder, texts)
    given: dict[str, Any] = {name: texts.text(name) for name in ("title", "told", "asked")}
    given = {**given, "drawings": specs, "drawing_texts": told}
    made: AnyDrill | None
    if origin.file.get("kind") == "select":
        made = _select(reader, ident, origin, texts, given)
    else:
        made = reader.make(ComputeDrill, ident, origin, **given)
    texts.orphans()
    return made if reader.add(ident, origin, texts) else None


def _select(reader: Reader, ident: str, origin: Origin, texts: Texts, given: Mapping[str, Any]) -> AnyDrill | None:
    settings = [
        reader.make(Setting, f"{ident} {key}", place, told=texts.text("settings", key))
        for key, place in reader.within(origin, ident, "settings")
    ]
    if settings and not all(settings):  # each is a finding of its own
        reader.broken.add(ident)
        return None
    return reader.make(SelectDrill, ident, origin, settings=settings, **given)
