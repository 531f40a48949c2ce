"""Read a folder of content: load everything, then judge.

::

    bank.yaml  sources.yaml  competencies.yaml  misconceptions.yaml  programmes.yaml  checklists.yaml
    text/<language>.yaml  words/<language>.yaml  reading/<language>.yaml
    scenarios/<slug>/{scenario,drawings,<language>}.yaml
    drills/<slug>/{drill,drawings,<language>}.yaml
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field

from trainer.bank import drills, entries, scenarios
from trainer.bank.bank import Bank, fingerprint
from trainer.bank.beside import joined, lay_beside, replaced
from trainer.bank.draft import Draft, Origin
from trainer.bank.findings import StrayFile
from trainer.bank.model import FALLBACK, Competency, Frozen, Language, Misconception, Programme
from trainer.bank.reader import Reader
from trainer.bank.texts import Texts
from trainer.findings import Finding


class Head(Frozen):
    """What ``bank.yaml`` holds."""

    edition: Annotated[int, Field(ge=1, le=1_000_000)]
    languages: Annotated[tuple[Language, ...], Field(min_length=1)]


def read_folder(folder: Path, extra: Path | None = None) -> tuple[Draft, list[Finding]]:
    """Read a folder of content, and a site's own beside it; give what could be read and all that was wrong with the files."""
    base = Reader(folder)
    origin = base.whole("bank.yaml")
    head = (origin and base.make(Head, "", origin)) or Head(edition=1, languages=(FALLBACK,))
    base.languages = head.languages
    base.origins["bank"] = origin or Origin(base.file("bank.yaml", optional=True))
    own, edition = lay_beside(base, extra) if extra else (None, 0)
    parts = _parts(base, own)
    bank = Bank(edition=head.edition, own_edition=edition, languages=base.languages, **parts)
    for reader in (base, own) if own else (base,):
        _strays(reader)
    bank = bank.model_copy(update={"fingerprint": fingerprint(bank)})
    swapped = tuple(replaced(base, own)) if own else ()
    return Draft(bank, base.origins, base.told, base.drawn, base.broken, swapped), base.findings


def _parts(base: Reader, own: Reader | None) -> dict[str, Any]:
    """Read everything that a bank holds, first of the base, then of a site's own folder."""
    texts = base.texts("text")
    parts: dict[str, Any] = {"title": texts.text("title"), **_lists(base, texts), "readings": entries.readings(base)}
    if own is None:
        texts.orphans()
        return parts | {"drills": drills.read(base)}
    own.held = {**base.origins, **base.places}
    own_texts = own.texts("text")
    for name, more in _lists(own, own_texts).items():
        parts[name] = joined(name, parts[name], more)
    parts["drills"] = drills.read(base, own)
    texts.orphans(dict.fromkeys(base.added, own_texts.used))
    own_texts.orphans(without=base.added)  # those were looked at with the base's
    return parts


def _lists(reader: Reader, texts: Texts) -> dict[str, Mapping[str, Any]]:
    return {
        "sources": entries.sources(reader),
        "competencies": entries.entries(reader, texts, Competency, "competencies", ("name", "can_do")),
        "misconceptions": entries.entries(reader, texts, Misconception, "misconceptions", ("name", "tell")),
        "programmes": entries.entries(reader, texts, Programme, "programmes", ("name",)),
        "checklists": entries.checklists(reader, texts),
        "scenarios": scenarios.read(reader),
        "words": entries.words(reader),
    }


def _strays(reader: Reader) -> None:
    for path in sorted(reader.folder.rglob("*")) if reader.folder.is_dir() else ():
        name = path.relative_to(reader.folder).as_posix()
        hidden = any(part.startswith(".") for part in name.split("/"))
        if path.is_file() and not hidden and path.suffix != ".md" and name not in reader.read:
            reader.findings.append(StrayFile(file=reader.prefix + name))
