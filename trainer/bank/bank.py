"""The bank itself: everything by id, in a stable order, with its edition and fingerprint."""

import hashlib
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any

import rfc8785

from trainer.bank.drill_model import AnyDrill, ComputeDrill
from trainer.bank.model import (
    Checklist,
    Competency,
    Drill,
    Frozen,
    Lesson,
    Misconception,
    Number,
    Programme,
    Question,
    Reading,
    Scenario,
    Source,
    Text,
)
from trainer.errors import Missing
from trainer.safeguarding.result import Citation, Read
from trainer.wording import say

Item = Question | Drill | Lesson
Worded = Mapping[str, Mapping[str, str]]


class Bank(Frozen):
    """A content bank. ``words`` maps a language to the labels of drawings, ``readings`` to how plain its text has to be.

    ``fingerprint`` is the SHA-256 of the canonical JSON (RFC 8785) of all content, in hex: two banks with the same
    fingerprint ask the same things in the same words. Both editions count, so does what a site laid beside the bank.
    """

    edition: int
    own_edition: int = 0  # of the site's own content; 0 where there is none
    fingerprint: str = ""
    languages: tuple[str, ...]
    title: Text
    sources: Mapping[str, Source]
    competencies: Mapping[str, Competency]
    misconceptions: Mapping[str, Misconception]
    scenarios: Mapping[str, Scenario]
    drills: Mapping[str, AnyDrill]
    programmes: Mapping[str, Programme]
    checklists: Mapping[str, Checklist]
    words: Worded
    readings: Mapping[str, Reading]

    @property
    def edition_shown(self) -> str:
        """Return the edition as sheets show it: ``4``, or ``4 + 2`` with the second edition of a site's own content."""
        return f"{self.edition} + {self.own_edition}" if self.own_edition else str(self.edition)

    @cached_property
    def questions(self) -> Mapping[str, Question]:
        """Return every question by id, in the order of the scenarios."""
        return {question.id: question for scenario in self.scenarios.values() for question in scenario.questions}

    @cached_property
    def lessons(self) -> Mapping[str, Lesson]:
        """Return every lesson sheet by id, in the order of the scenarios."""
        return {lesson.id: lesson for scenario in self.scenarios.values() for lesson in scenario.lessons}

    @cached_property
    def computed(self) -> Mapping[str, ComputeDrill]:
        """Return by id whatever asks for a number that a sum gives: the computed drills, then the questions like them."""
        drills = {drill.id: drill for drill in self.drills.values() if isinstance(drill, ComputeDrill)}
        return drills | {q.id: q.drill for q in self.questions.values() if isinstance(q, Number)}

    def item(self, item_id: str) -> Item:
        """Return a question, a drill or a lesson sheet; :class:`Missing` where there is none of that id."""
        found = self.questions.get(item_id) or self.drills.get(item_id) or self.lessons.get(item_id)
        if found is None:
            raise Missing(say("The bank has no question, drill or lesson {item}.", item=item_id))
        return found

    def programme(self, programme_id: str) -> Programme:
        """Return a programme; :class:`Missing` where there is none of that id."""
        found = self.programmes.get(programme_id)
        if found is None:
            raise Missing(say("The bank has no programme {programme}.", programme=programme_id))
        return found

    def checklist_for(self, role: str, machine_kind: str) -> Checklist | None:
        """Return what is watched of a role at a kind of machine; None where the bank has no checklist for it."""
        fits = (c for c in self.checklists.values() if c.role == role and machine_kind in c.machine_kinds)
        return next(fits, None)

    def scenario_of(self, item_id: str) -> Scenario | None:
        """Return the scenario that a question or lesson belongs to; None for a drill."""
        item = self.item(item_id)
        return None if isinstance(item, Drill) else self.scenarios[item.scenario]

    def citations(self, item_id: str) -> tuple[Citation, ...]:
        """Return what a question, drill or lesson rests on; a lesson rests on its scenario's sources."""
        item = self.item(item_id)
        keys = self.scenarios[item.scenario].sources if isinstance(item, Lesson) else item.sources
        return tuple(self.sources[key].citation() for key in keys)

    def second_hand(self, item_id: str) -> bool:
        """Say whether nothing that the item rests on was read in the original or in a State's copy of it."""
        return all(citation.read not in {Read.ORIGINAL, Read.STATE} for citation in self.citations(item_id))

    def drawing(self, item_id: str) -> tuple[Mapping[str, Any], Text] | None:
        """Return the drawing of a sheet and what a person who cannot see it is told; None where it has none."""
        item = self.item(item_id)
        owner = item if isinstance(item, Drill) else self.scenarios[item.scenario]
        if item.drawing is None or item.drawing not in owner.drawings:
            return None
        return owner.drawings[item.drawing], owner.drawing_texts[item.drawing]

    def labels(self, language: str) -> Mapping[str, str]:
        """Return the words for drawings in a language, filled up from English where one is wanting."""
        return {**self.words.get("en", {}), **self.words.get(language, {})}

    def walk_items(self) -> Iterator[Item]:
        """Give every lesson sheet, question and drill."""
        yield from self.lessons.values()
        yield from self.questions.values()
        yield from self.drills.values()


def fingerprint(bank: Bank) -> str:
    """Return the SHA-256 of the canonical JSON of a bank's content, in hex."""
    return hashlib.sha256(content(bank)).hexdigest()


def content(bank: Bank) -> bytes:
    """Return all content as canonical JSON (RFC 8785): exactly the bytes that the fingerprint is the digest of."""
    # A bank without a site's own content keeps the fingerprint that it had before there was such a thing.
    left = {"fingerprint"} if bank.own_edition else {"fingerprint", "own_edition"}
    made: bytes = rfc8785.dumps(bank.model_dump(mode="json", by_alias=True, serialize_as_any=True, exclude=left))
    return made
