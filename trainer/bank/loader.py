"""Read a folder of content: load everything, then judge.

::

    bank.yaml  sources.yaml  competencies.yaml  misconceptions.yaml  programmes.yaml  checklists.yaml
    text/<language>.yaml  words/<language>.yaml  reading/<language>.yaml
    scenarios/<slug>/{scenario,drawings,<language>}.yaml
    drills/<slug>/{drill,drawings,<language>}.yaml
"""

from pathlib import Path
from typing import Annotated

from pydantic import Field

from trainer.bank import drills, entries, scenarios
from trainer.bank.bank import Bank, fingerprint
from trainer.bank.draft import Draft, Origin
from trainer.bank.findings import StrayFile
from trainer.bank.model import FALLBACK, Competency, Frozen, Language, Misconception, Programme
from trainer.bank.reader import Reader
from trainer.findings import Finding


class Head(Frozen):
    """What ``bank.yaml`` holds."""

    edition: Annotated[int, Field(ge=1, le=1_000_000)]
    languages: Annotated[tuple[Language, ...], Field(min_length=1)]


def read_folder(folder: Path) -> tuple[Draft, list[Finding]]:
    """Read a folder of content; give what could be read and everything that was wrong with the files."""
    reader = Reader(folder)
    origin = reader.whole("bank.yaml")
    head = (origin and reader.make(Head, "", origin)) or Head(edition=1, languages=(FALLBACK,))
    reader.languages = head.languages
    reader.origins["bank"] = origin or Origin(reader.file("bank.yaml", optional=True))
    texts = reader.texts("text")
    bank = Bank(
        edition=head.edition,
        languages=head.languages,
        title=texts.text("title"),
        sources=entries.sources(reader),
        competencies=entries.entries(reader, texts, Competency, "competencies", ("name", "can_do")),
        misconceptions=entries.entries(reader, texts, Misconception, "misconceptions", ("name", "tell")),
        programmes=entries.entries(reader, texts, Programme, "programmes", ("name",)),
        checklists=entries.checklists(reader, texts),
        scenarios=scenarios.read(reader),
        drills=drills.read(reader),
        words=entries.words(reader),
        readings=entries.readings(reader),
    )
    texts.orphans()
    _strays(reader)
    bank = bank.model_copy(update={"fingerprint": fingerprint(bank)})
    return Draft(bank, reader.origins, reader.told, reader.drawn, reader.broken), reader.findings


def _strays(reader: Reader) -> None:
    for path in sorted(reader.folder.rglob("*")) if reader.folder.is_dir() else ():
        name = path.relative_to(reader.folder).as_posix()
        hidden = any(part.startswith(".") for part in name.split("/"))
        if path.is_file() and not hidden and path.suffix != ".md" and name not in reader.read:
            reader.findings.append(StrayFile(file=name))
