"""A site's own content, laid beside the bank: it adds, and replaces only what it says that it replaces.

The folder has the form of a bank, with only the files that it needs. Its ``bank.yaml`` holds::

    edition: 1
    replaces: [PB-S15, words/ram]   # ids of scenarios, drills, programmes …, and words of drawings
    languages: [fr]                 # languages that it adds: with every word of the bank, or not at all

An id that the bank has already is a finding that names both files. An added language needs each of the bank's files of
words under the same name (``scenarios/back-stop/fr.yaml``), ``reading/fr.yaml`` too; a missing text is a finding.
"""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field

from trainer.bank.basis import Frozen, Id, Language
from trainer.bank.draft import Replaced
from trainer.bank.findings import ReplacesNothing
from trainer.bank.reader import Reader


class OwnHead(Frozen):
    """What the ``bank.yaml`` of a site's own content holds."""

    edition: Annotated[int, Field(ge=1, le=1_000_000)]
    languages: tuple[Language, ...] = ()
    replaces: tuple[Id, ...] = ()


def lay_beside(base: Reader, folder: Path) -> tuple[Reader, int]:
    """Return the reader of a site's own folder and the folder's edition, and tell the base what it gives up and gains."""
    own = Reader(
        folder,
        findings=base.findings,
        origins=base.origins,
        told=base.told,
        drawn=base.drawn,
        broken=base.broken,
        prefix=f"{folder.resolve().name}/",
        base=base,
    )
    origin = own.whole("bank.yaml")
    head = (origin and own.make(OwnHead, "", origin)) or OwnHead(edition=1)
    base.lender = own
    base.added = own.added = frozenset(head.languages) - frozenset(base.languages)
    base.replaces = own.replaces = frozenset(head.replaces)
    more = tuple(dict.fromkeys(code for code in head.languages if code in base.added))
    base.languages = own.languages = (*base.languages, *more)
    if origin:
        own.places["bank"] = origin
    return own, head.edition


def joined(name: str, base: Mapping[str, Any], own: Mapping[str, Any]) -> Mapping[str, Any]:
    """Join what the two folders hold under one name; no id is in both, since reading has seen to it."""
    if name == "words":
        return {language: {**words, **own.get(language, {})} for language, words in base.items()}
    both = {**base, **own}
    return dict(sorted(both.items())) if name == "scenarios" else both


def replaced(base: Reader, own: Reader) -> Iterator[Replaced]:
    """Give what was replaced; what only seems to be is a finding."""
    for item in sorted(own.replaces):
        was, now = base.given_up.get(item), own.origins.get(item)
        if was and (now or item in own.broken):
            yield Replaced(item, was.file.name, now.file.name if now else own.prefix)
            continue
        missing = f"The folder {own.prefix} has none" if was else "The bank has none"
        origin = own.places["bank"]
        note = f"“{item}”: {missing} of that id."
        own.findings.append(
            ReplacesNothing(file=origin.file.name, line=origin.line("replaces"), key="replaces", note=note)
        )
