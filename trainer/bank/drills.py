"""Read the drills: one folder each, with its ranges, slips, texts and drawing."""

from collections.abc import Iterator, Mapping
from typing import Any

from trainer.bank.draft import Origin
from trainer.bank.drill_model import AnyDrill
from trainer.bank.findings import UnknownBase
from trainer.bank.model import ComputeDrill, JudgeDrill, RuleDrill, SelectDrill, Setting, Situation
from trainer.bank.reader import Reader
from trainer.bank.scenarios import drawings
from trainer.bank.texts import Texts

JUDGED = ("mounted", "find-error")


def read(*readers: Reader) -> Mapping[str, AnyDrill]:
    """Read every drill of a bank, and of a site's folder beside it, in the order of the ids.

    Those that judge the numbers of another one are read last, so that it may stand in either folder.
    """
    waiting = [entry for reader in readers for entry in _folders(reader)]
    found: dict[str, AnyDrill] = {}
    for reader, folder, origin in sorted(waiting, key=lambda entry: entry[2].file.get("kind") in JUDGED):
        made = _drill(reader, folder, origin, found)
        if made is not None:
            found[made.id] = made
    return dict(sorted(found.items()))


def _folders(reader: Reader) -> Iterator[tuple[Reader, str, Origin]]:
    """Give each folder that is to be read."""
    if reader.base:
        reader.held |= reader.base.places
    for folder in reader.folders("drills"):
        origin = reader.whole(f"{folder}/drill.yaml")
        if origin is not None and not reader.skips(_ident(folder, origin), origin, folder):
            yield reader, folder, origin


def _ident(folder: str, origin: Origin) -> str:
    return str(origin.file.get("id") or folder)


def _drill(reader: Reader, folder: str, origin: Origin, known: Mapping[str, AnyDrill]) -> AnyDrill | None:
    ident = _ident(folder, origin)
    texts = reader.texts(folder)
    specs, told = drawings(reader, folder, texts)
    given: dict[str, Any] = {name: texts.text(name) for name in ("title", "told", "asked")}
    given = {**given, "drawings": specs, "drawing_texts": told}
    made: AnyDrill | None
    kind = origin.file.get("kind")
    if kind == "select":
        made = _select(reader, ident, origin, texts, given)
    elif kind == "choose-rule":
        made = _rule(reader, ident, origin, texts, given)
    elif kind in JUDGED:
        made = _judge(reader, ident, origin, given, known)
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


def _rule(reader: Reader, ident: str, origin: Origin, texts: Texts, given: Mapping[str, Any]) -> AnyDrill | None:
    situations = [
        reader.make(
            Situation,
            f"{ident} {key}",
            place,
            told=texts.text("situations", key, "told"),
            why=texts.text("situations", key, "why"),
        )
        for key, place in reader.within(origin, ident, "situations")
    ]
    if situations and not all(situations):
        reader.broken.add(ident)
        return None
    named = dict.fromkeys(name for situation in situations if situation for name in situation.offered)
    rules = {name: texts.text("rules", name) for name in named}
    return reader.make(RuleDrill, ident, origin, situations=situations, rules=rules, **given)


def _judge(
    reader: Reader, ident: str, origin: Origin, given: Mapping[str, Any], known: Mapping[str, AnyDrill]
) -> AnyDrill | None:
    """Make a drill about another one's numbers, which its key ``base`` names."""
    name = origin.file.get("base")
    base = known.get(name) if isinstance(name, str) else None
    if not isinstance(base, ComputeDrill):
        reader.broken.add(ident)
        note = f"“{name}” is no drill that asks for a number."
        reader.findings.append(UnknownBase(file=origin.file.name, line=origin.line("base"), key=ident, note=note))
        return None
    return reader.make(JudgeDrill, ident, origin, base=base, **given)
