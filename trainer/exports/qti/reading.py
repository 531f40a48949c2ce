"""One item read back: what it asks and which answer is right come from the standard's own elements.

What the bank wrote beside them (misconceptions, sources, the sum behind a number) is used where it is there and fits;
an item from elsewhere has none, and becomes a draft that an author has to finish.
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.exports.qti.findings import NoRightAnswer, NotAQuestion, NoWords, UnfitFacts
from trainer.exports.qti.names import FACTS, FIGURE, PART, SCENARIO, WHY
from trainer.exports.qti.node import Node
from trainer.findings import Finding

FOREIGN: Mapping[tuple[str, str], str] = {
    ("qti-choice-interaction", "single"): "pick-one",
    ("qti-choice-interaction", "multiple"): "pick-all",
    ("qti-order-interaction", "ordered"): "order",
    ("qti-match-interaction", "multiple"): "match",
}
PRESSED: Mapping[str, tuple[str, ...]] = {
    "pick-one": ("qti-choice-interaction",),
    "next": ("qti-choice-interaction",),
    "pick-all": ("qti-choice-interaction",),
    "order": ("qti-order-interaction",),
    "point": ("qti-hotspot-interaction",),
    "spot": ("qti-hotspot-interaction",),
    "match": ("qti-match-interaction",),
    "reasoned": ("qti-choice-interaction", "qti-choice-interaction"),
    "number": ("qti-text-entry-interaction",),
}
BLOCKS = {"p", "div", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "blockquote", "pre", "table"}
NOT_WORDS = ("img", "object", "picture", "audio", "video", "math", "qti-printed-variable")
LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*")


class Unfit(Exception):
    """An item that cannot be taken, with the finding that says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.code)
        self.finding = finding


@dataclass(slots=True, kw_only=True)
class Taken:
    """A question in one language: its structure and words as in the bank's files, and the head of its scenario."""

    file: str
    line: int
    name: str
    language: str
    title: str
    facts: Mapping[str, Any] | None
    scenario: Mapping[str, Any] | None
    structure: dict[str, Any] = field(default_factory=dict)
    words: dict[str, Any] = field(default_factory=dict)
    correct: tuple[str, ...] = ()


class ItemReader:
    """One item being read: its body, its interactions in their order, and what the bank wrote beside them."""

    def __init__(self, file: str, root: Node) -> None:
        self.file, self.root = file, root
        self.name = root.get("identifier")
        found = root.first("qti-item-body")
        if root.name != "qti-assessment-item" or found is None:
            raise self.unfit(NotAQuestion, root, "The file is no qti-assessment-item with a qti-item-body.")
        self.body = found
        self.facts = self._json(FACTS)
        self.scenario = self._json(SCENARIO)
        self.interactions = [one for one in found.walk() if one.name.endswith("-interaction")]

    def unfit(self, kind: type[Finding], at: Node, note: str) -> Unfit:
        """Make what is raised for an element."""
        return Unfit(kind(file=self.file, line=at.line, key=self.name[:80], note=note))

    def words(self, one: Node) -> str:
        """Return the words of an element; a figure that a sum gave comes back as its name in braces."""
        wrong = one.first(*NOT_WORDS)
        if wrong is not None:
            raise self.unfit(NoWords, wrong, f"<{wrong.name}> is no text.")
        text = _named(one, set((self.facts or {}).get("figures", {}))).text()
        if not text:
            raise self.unfit(NoWords, one, f"<{one.name}> is empty.")
        return text

    def correct(self, interaction: Node) -> list[str]:
        """Return the values of the right answer of an interaction."""
        declared = self.declared(interaction)
        answer = declared.first("qti-correct-response") if declared else None
        values = [value.text() for value in answer.all("qti-value")] if answer else []
        if not values:
            raise self.unfit(NoRightAnswer, declared or interaction, "It has no qti-correct-response.")
        return values

    def known(self, interaction: Node, values: list[str], offered: list[str]) -> list[str]:
        """Return the values where each is offered, and none is named twice."""
        for value in values:
            if value not in offered or values.count(value) > 1:
                raise self.unfit(
                    NoRightAnswer, self.declared(interaction) or interaction, f"“{value[:60]}” is not offered once."
                )
        return values

    def declared(self, interaction: Node) -> Node | None:
        """Return the response declaration of an interaction, or None."""
        name = interaction.get("response-identifier")
        declared = self.root.all("qti-response-declaration")
        return next((one for one in declared if one.get("identifier") == name), None)

    def kind(self) -> str:
        """Return the kind of question that the item is."""
        shape = tuple(one.name for one in self.interactions)
        if self.facts is not None:
            kind = str(self.facts.get("kind"))
            if PRESSED.get(kind) != shape:
                raise self.unfit(UnfitFacts, self.body, f"The kind “{kind[:40]}” does not go with {_list(shape)}.")
            return kind
        if len(shape) != 1:
            raise self.unfit(NotAQuestion, self.body, f"It has {len(shape)} interactions; one is taken in.")
        declared = self.declared(self.interactions[0])
        cardinality = declared.get("cardinality") if declared else ""
        found = FOREIGN.get((shape[0], cardinality))
        if found is None:
            note = f"{shape[0]} with {cardinality or 'no'} cardinality is not taken in from elsewhere."
            raise self.unfit(NotAQuestion, self.interactions[0], note)
        return found

    def language(self) -> str:
        """Return the code of the item's language; English where it names none."""
        code = self.root.get("xml:lang").split("-")[0].lower() or "en"
        if not LANGUAGE.fullmatch(code):
            raise self.unfit(NotAQuestion, self.root, f"xml:lang is “{code[:20]}”, which is no language.")
        return code

    def _json(self, name: str) -> Mapping[str, Any] | None:
        holder = next((one for one in self.body.walk() if name in one.attributes), None)
        if holder is None:
            return None
        try:
            found = json.loads(holder.get(name))
        except (ValueError, RecursionError):
            found = None
        if not isinstance(found, dict):
            raise self.unfit(UnfitFacts, holder, f"{name} is no JSON object.")
        return found

    def blocks(self) -> Iterator[Node]:
        """Give the blocks of words before and around what is pressed; a block that holds blocks is looked into."""
        yield from _blocks(self.body)

    def why(self) -> str:
        """Return why the right answer is right, or nothing."""
        for feedback in self.root.all("qti-modal-feedback"):
            if feedback.get("identifier") == WHY or self.facts is None:
                return self.words(feedback)
        return ""


def _blocks(one: Node) -> Iterator[Node]:
    for child in one.children:
        if not isinstance(child, Node) or child.name.endswith("-interaction") or child.get(PART) == "drawing":
            continue
        below = [inner.name for inner in child.walk()][1:]
        asks = any(name.endswith("-interaction") for name in below)
        spoken = any(isinstance(inner, str) and inner.strip() for inner in child.children)
        if asks or (not spoken and BLOCKS & set(below)):
            yield from _blocks(child)
        elif child.text() or child.first(*NOT_WORDS):
            yield child


def _named(one: Node, figures: set[str]) -> Node:
    """Return an element in which each figure is its name in braces."""
    name = one.get(FIGURE)
    if name and name in figures:
        return Node(one.name, {}, [f"{{{name}}}"])
    return Node(one.name, {}, [_named(child, figures) if isinstance(child, Node) else child for child in one.children])


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(names) or "no interaction"
