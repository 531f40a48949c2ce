"""Counting answers by item and by paper, one person after another. Pure; what is held grows with the bank, not the record.

Each person counts once for each version of an item, with the first answer: whoever sees it again was told the key. In
the same way a person counts once for each programme, with the first paper.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.assessment.hurry import too_fast
from trainer.assessment.itemstats import Seen
from trainer.assessment.wrongoptions import Chosen
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact

# Papers that ask the same items are one form. People come in the order of random keys, so a common form comes early.
MOST_FORMS = 2000

Key = tuple[str, int]  # an item and its version
Words = Callable[[str, int, str], int]  # how many words the sheet of an item has in a language; 0 where not known


@dataclass(slots=True)
class ItemCount:
    """What was answered to one version of an item. ``editions`` holds (right, answers) by edition of the bank."""

    competency: str = ""
    seen: Counter[Seen] = field(default_factory=Counter)
    chosen: Counter[Chosen] = field(default_factory=Counter)
    editions: dict[int, tuple[int, int]] = field(default_factory=dict)
    mistakes: Counter[str] = field(default_factory=Counter)
    skipped: int = 0
    timed: int = 0
    fast: int = 0
    fast_right: int = 0


@dataclass(slots=True)
class FormCount:
    """Papers that ask the same: how many had each item right, how many had which score."""

    items: tuple[str, ...]
    rights: Counter[str] = field(default_factory=Counter)
    scores: Counter[int] = field(default_factory=Counter)


@dataclass(slots=True)
class PaperCount:
    """First papers of one programme. ``scores`` are counted by (items, needed)."""

    people: int = 0
    passed: int = 0
    scores: dict[tuple[int, int], Counter[int]] = field(default_factory=dict)
    forms: dict[tuple[str, ...], FormCount] = field(default_factory=dict)


@dataclass(slots=True)
class Counts:
    """Everything counted so far. ``words`` tells how long a sheet is."""

    words: Words
    items: dict[Key, ItemCount] = field(default_factory=dict)
    papers: dict[str, PaperCount] = field(default_factory=dict)

    def add_person(self, known: Iterable[Fact]) -> None:
        """Count one person's papers, in the order in which they were taken."""
        met: set[Key] = set()
        taken: set[str] = set()
        for fact in known:
            if fact.kind is not EntryKind.SITTING_MARKED or not fact.body["items"]:
                continue
            if fact.body["programme"] not in taken:
                taken.add(fact.body["programme"])
                self._add_paper(fact.body)
            self._add_items(fact.body, met)

    def _add_items(self, body: Mapping[str, Any], met: set[Key]) -> None:
        out_of, score = len(body["items"]), sum(bool(item["right"]) for item in body["items"])
        for item in body["items"]:
            key = (item["item"], item["version"])
            if key not in met:
                met.add(key)
                if key not in self.items:
                    self.items[key] = ItemCount(competency=item["competency"] or "")
                self._add_item(self.items[key], item, Seen(bool(item["right"]), score, out_of), body.get("edition", 0))

    def _add_item(self, count: ItemCount, item: Mapping[str, Any], seen: Seen, edition: int) -> None:
        if item["verdict"] == "none":
            count.skipped += 1
            return
        count.seen[seen] += 1
        right, answers = count.editions.get(edition, (0, 0))
        count.editions[edition] = (right + seen.right, answers + 1)
        if item.get("chosen"):
            count.chosen[Chosen(item["chosen"], seen.score, seen.out_of)] += 1
        if not seen.right:
            count.mistakes.update(_mistakes(item))
        words, took = self.words(*_sheet(item)), item.get("took_ms") or 0
        if words and took > 0:
            fast = too_fast(took, words)
            count.timed += 1
            count.fast += fast
            count.fast_right += fast and seen.right

    def _add_paper(self, body: Mapping[str, Any]) -> None:
        count = self.papers.setdefault(body["programme"], PaperCount())
        items, needed = body["items"], body.get("needed", 0)
        score = sum(bool(item["right"]) for item in items)
        count.people += 1
        count.passed += bool(body["passed"])
        if 0 <= needed <= len(items):
            count.scores.setdefault((len(items), needed), Counter())[score] += 1
        asked = tuple(sorted(f"{item['item']} {item['version']}" for item in items))
        if asked in count.forms or len(count.forms) < MOST_FORMS:
            form = count.forms.setdefault(asked, FormCount(items=asked))
            form.scores[score] += 1
            form.rights.update(f"{item['item']} {item['version']}" for item in items if item["right"])


def _sheet(item: Mapping[str, Any]) -> tuple[str, int, str]:
    return item["item"], item["version"], item.get("language") or ""


def _mistakes(item: Mapping[str, Any]) -> set[str]:
    """Return the misconceptions and the slips that a wrong answer shows; slips that tie are not counted."""
    named = {name for name in (item.get("misconception"), *(item.get("others") or ())) if name}
    untied = [slip for slip in item.get("slips") or () if not slip.get("tied")]
    return named | {code for slip in untied for code in slip["codes"]}
