"""The content package: one item for each question and language, their drawings, and the manifest, as one zip file.

The same bank gives the same bytes: the files stand in a fixed order, carry no time, and are stored as they are, since
what compresses them may differ from one machine to the next.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, Question, Text
from trainer.exports.qti import names, templates
from trainer.exports.qti.drawings import Picture, picture
from trainer.exports.qti.drills import drill_item
from trainer.exports.qti.item import item
from trainer.exports.qti.node import Node, node, written
from trainer.exports.qti.templates import template
from trainer.exports.voice import Voice

WHEN = (1980, 1, 1, 0, 0, 0)  # the earliest time that a zip file can hold
PLAIN_FILE = 0o644 << 16
RULES = "It chooses a safeguard by the selection rules, which the standard’s expressions cannot say."


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Something of the bank that a package does not hold, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A package: its bytes, how many items it holds, and what could not go."""

    content: bytes
    items: int
    left: tuple[Left, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Item:
    name: str
    file: str
    content: bytes
    picture: Picture | None


def package(bank: Bank, *, voices: Callable[[str], Voice], pens: str) -> Made:
    """Return the questions of a bank, and the drills that the standard can carry, as a package.

    ``voices`` says how a file in a language speaks, ``pens`` is the style sheet of the drawings.
    """
    found, left = _drills(bank, voices, pens)
    for question in bank.questions.values():
        for language in bank.languages:
            if _complete(question, language):
                shown = picture(bank, question, language, pens)
                found.append(_item(question.id, language, item(bank, question, voices(language), shown), shown))
            else:
                left.append(Left(what=f"{question.id} ({language})", why="Some of its words are not in this language."))
    return Made(content=_zipped(bank, found), items=len(found), left=(*left, *_others(bank)))


def _drills(bank: Bank, voices: Callable[[str], Voice], pens: str) -> tuple[list[_Item], list[Left]]:
    """Return the drills that the standard can carry as items, and the others with why it cannot."""
    found, left = [], []
    for drill in bank.drills.values():
        if not isinstance(drill, ComputeDrill):
            left.append(Left(what=drill.id, why=RULES))
            continue
        try:
            made = template(drill)
        except templates.Left as error:
            left.append(Left(what=drill.id, why=str(error)))
            continue
        for language in bank.languages:
            shown = picture(bank, drill, language, pens)
            found.append(_item(drill.id, language, drill_item(made, voices(language), shown), shown))
    return found, left


def _item(ident: str, language: str, root: Node, shown: Picture | None) -> _Item:
    return _Item(
        name=names.item_name(ident, language),
        file=f"items/{language}/{names.identifier(ident)}.xml",
        content=written(root),
        picture=shown,
    )


def _complete(question: Question, language: str) -> bool:
    listed = (*question.options, *question.reasons)
    partners = (option.partner for option in listed if option.partner is not None)
    texts: tuple[Text, ...] = (
        question.told,
        question.asked,
        question.why,
        *(one.text for one in listed),
        *partners,
    )
    return all(text.has(language) for text in texts)


def _others(bank: Bank) -> Iterator[Left]:
    """Say what of a bank is neither question nor drill and has no place in a package of items."""
    for count, what in (
        (len(bank.lessons), "lesson sheets"),
        (len(bank.programmes), "programmes"),
        (len(bank.checklists), "checklists"),
    ):
        if count:
            yield Left(what=f"{count} {what}", why="They are no questions; the standard has no item for them.")


def _zipped(bank: Bank, items: Sequence[_Item]) -> bytes:
    files = {names.MANIFEST_FILE: written(_manifest(bank, items))}
    files |= {one.file: one.content for one in items}
    files |= {one.picture.file: one.picture.svg for one in items if one.picture}
    made = BytesIO()
    with ZipFile(made, "w", ZIP_STORED) as archive:
        for name, content in files.items():
            entry = ZipInfo(name, WHEN)
            entry.create_system, entry.external_attr = 3, PLAIN_FILE
            archive.writestr(entry, content)
    return made.getvalue()


def _manifest(bank: Bank, items: Sequence[_Item]) -> Node:
    pictures = {one.picture.file: one.picture for one in items if one.picture}
    numbers = {file: f"drawing-{number}" for number, file in enumerate(pictures, 1)}
    about = node("metadata", node("schema", names.SCHEMA), node("schemaversion", names.VERSION))
    resources = [_resource(one, numbers) for one in items]
    resources += [
        node("resource", node("file", href=file), identifier=numbers[file], type=names.FILE_TYPE, href=file)
        for file in pictures
    ]
    return node(
        "manifest",
        about,
        node("organizations"),
        node("resources", *resources),
        xmlns=names.MANIFEST,
        identifier=f"bank-{bank.fingerprint[:16]}",
    )


def _resource(one: _Item, numbers: dict[str, str]) -> Node:
    made = node("resource", node("file", href=one.file), identifier=one.name, type=names.ITEM_TYPE, href=one.file)
    if one.picture:
        made.children.append(node("dependency", identifierref=numbers[one.picture.file]))
    return made
