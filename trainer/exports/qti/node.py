"""XML as small trees: written with the same bytes each time, read without entities, with the line of each element."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import escape
from typing import Any
from xml.sax import SAXParseException
from xml.sax.handler import ContentHandler

from defusedxml import sax
from defusedxml.common import DefusedXmlException

DEEPEST = 60  # levels; an item of the bank has nine
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
UNFIT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")  # what XML 1.0 (2.2) has no place for
SPACE = re.compile(r"[ \t\r\n]+")  # a no-break space is kept: it belongs to a figure


@dataclass(slots=True)
class Node:
    """One element. ``line`` is where it was read, counted from 1; 0 for one that was made."""

    name: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: "list[Node | str]" = field(default_factory=list)
    line: int = 0

    def get(self, name: str) -> str:
        """Return an attribute, or nothing."""
        return self.attributes.get(name, "")

    def walk(self) -> "Iterator[Node]":
        """Give this element and all below it, as they are written."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def all(self, *names: str) -> "list[Node]":
        """Return every element of these names below this one."""
        return [one for one in self.walk() if one.name in names and one is not self]

    def first(self, *names: str) -> "Node | None":
        """Return the first element of these names below this one, or None."""
        return next(iter(self.all(*names)), None)

    def text(self) -> str:
        """Return the words below this element; a ``br`` ends a line."""
        lines = "".join(self.pieces()).split("\x00")
        return "\n".join(SPACE.sub(" ", line).strip(" ") for line in lines).strip()

    def pieces(self) -> Iterator[str]:
        """Give the words as they are written, a NUL for each ``br``."""
        for child in self.children:
            if isinstance(child, str):
                yield child
            elif child.name == "br":
                yield "\x00"
            else:
                yield from child.pieces()


def node(name: str, *children: Node | str, **attributes: str) -> Node:
    """Make an element; ``response_identifier`` is written ``response-identifier``."""
    return Node(name, {key.replace("_", "-"): value for key, value in attributes.items()}, list(children))


def written(root: Node) -> bytes:
    """Return a document in UTF-8; elements that hold only elements are indented."""
    return (HEAD + "".join(_lines(root, 0))).encode("utf-8")


def _lines(one: Node, level: int) -> Iterator[str]:
    indent = "  " * level
    if one.children and all(isinstance(child, Node) for child in one.children):
        yield f"{indent}<{one.name}{_attributes(one.attributes)}>\n"
        for child in one.children:
            if isinstance(child, Node):
                yield from _lines(child, level + 1)
        yield f"{indent}</{one.name}>\n"
    else:
        yield f"{indent}{_inline(one)}\n"


def _inline(one: Node | str) -> str:
    if isinstance(one, str):
        lines = UNFIT.sub("", one).split("\n")
        return "<br/>".join(escape(line, quote=False) for line in lines)
    inner = "".join(_inline(child) for child in one.children)
    head = f"{one.name}{_attributes(one.attributes)}"
    return f"<{head}>{inner}</{one.name}>" if inner else f"<{head}/>"


def _attributes(attributes: Mapping[str, str]) -> str:
    return "".join(f' {name}="{_quoted(value)}"' for name, value in attributes.items())


def _quoted(value: str) -> str:
    return escape(UNFIT.sub("", value)).replace("\n", "&#10;")


class Unreadable(ValueError):
    """What was read is no XML, or XML that is not taken in. ``line`` says where."""

    def __init__(self, reason: str, line: int = 0) -> None:
        super().__init__(reason)
        self.line = line


class _Builder(ContentHandler):
    """Builds the tree while the parser reads; names come without their prefix."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[Node] = []
        self.root: Node | None = None
        self.locator: Any = None

    def setDocumentLocator(self, locator: Any) -> None:  # the parser's own name
        """Keep what tells the line."""
        self.locator = locator

    def startElement(self, name: str, attrs: Any) -> None:
        """Open an element."""
        line = int(self.locator.getLineNumber() or 0)
        if len(self.open) >= DEEPEST:
            raise Unreadable(f"It is nested more than {DEEPEST} levels deep", line)
        made = Node(name.rpartition(":")[2], dict(attrs.items()), [], line)
        if self.open:
            self.open[-1].children.append(made)
        else:
            self.root = made
        self.open.append(made)

    def endElement(self, name: str) -> None:  # noqa: ARG002  (the parser has seen to it that names agree)
        """Close an element."""
        self.open.pop()

    def characters(self, content: str) -> None:
        """Take words in."""
        if self.open:
            self.open[-1].children.append(content)


def parsed(data: bytes) -> Node:
    """Read a document; :class:`Unreadable` where it is no XML, has entities of its own, or is nested too deep."""
    builder = _Builder()
    try:
        sax.parseString(data, builder, forbid_dtd=True)
    except DefusedXmlException as error:
        raise Unreadable("It has a document type or entities of its own, which are never read") from error
    except SAXParseException as error:
        raise Unreadable(f"It is no XML here: {error.getMessage()}", error.getLineNumber() or 0) from error
    except LookupError as error:
        raise Unreadable("It is in an encoding that is not known") from error
    if builder.root is None:
        raise Unreadable("It is empty")
    return builder.root
