"""What the recorded answers say about the items of the bank and about its papers."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache

from trainer.assessment.consistency import Consistency, consistency
from trainer.assessment.drift import Asked, Drift, drift
from trainer.assessment.hurry import Hurried, hurried
from trainer.assessment.itemstats import Doubt, ItemStatistics, item_statistics
from trainer.assessment.reliability import Reliability, lord_sem, reliability, spread
from trainer.assessment.wrongoptions import Options, option_statistics
from trainer.bank import Bank
from trainer.bank.checks.plainness import words
from trainer.bank.model import Question
from trainer.records import ledger
from trainer.records.chain import EntryKind
from trainer.records.effects import facts
from trainer.records.itemcounts import Counts, FormCount, ItemCount, Key, PaperCount, Words
from trainer.records.work import Reading

KINDS = (EntryKind.SITTING_MARKED, EntryKind.CORRECTED, EntryKind.MOVED)


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemReport:
    """One item in the newest version that was asked.

    ``in_bank`` is false for one that the bank has no longer, or has in another version; then nothing can be said of
    its ``options`` and of its reading time.

    ``skipped`` sheets were left without an answer. ``mistakes`` names what wrong answers showed, the commonest first.
    ``drift`` compares the newest edition of the bank in which it was answered with the one before, whatever changed.
    """

    item: str
    version: int
    competency: str
    in_bank: bool
    statistics: ItemStatistics
    options: Options | None
    hurried: Hurried
    drift: Drift | None
    skipped: int
    mistakes: tuple[tuple[str, int], ...]

    @property
    def doubts(self) -> tuple[Doubt, ...]:
        """Return every doubt about the item and its options, each once."""
        of_options = (doubt for one in (self.options.options if self.options else ()) for doubt in one.doubts)
        return tuple(dict.fromkeys((*self.statistics.doubts, *of_options)))


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperReport:
    """First papers of a programme: ``passed`` of ``people``.

    ``consistency`` is of the commonest length and pass mark, and of that mark alone: what is critical has to be right
    besides, so a whole decision is less steady. ``error_at_mark`` is Lord's standard error there, in items.
    ``reliability`` is of those who were asked the very same items, where there were several.
    """

    programme: str
    people: int
    passed: int
    consistency: Consistency | None
    error_at_mark: float | None
    reliability: Reliability | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """Items, those in doubt first; papers by programme."""

    items: tuple[ItemReport, ...]
    papers: tuple[PaperReport, ...]


def findings(
    r: Reading, bank: Bank, *, since: date = date.min, until: date = date.max, known_on: date | None = None
) -> Findings:
    """Read the papers that were marked from a day up to a day, one person at a time, and judge items and papers.

    Withdrawn papers do not count; corrected ones count as corrected.
    """
    counts = Counts(words=reading_words(bank))
    for _person, entries in ledger.chains(r, kinds=KINDS, known_on=known_on):
        counts.add_person(fact for fact in facts(entries) if since <= fact.on <= until)
    return judged(counts, bank)


def judged(counts: Counts, bank: Bank) -> Findings:
    """Return what counted answers say. Pure."""
    items = [_item(key, counts.items, bank) for key in _newest(counts.items)]
    items.sort(key=lambda one: (not one.doubts, one.item))
    papers = [_paper(name, count) for name, count in sorted(counts.papers.items())]
    return Findings(items=tuple(items), papers=tuple(papers))


def reading_words(bank: Bank) -> Words:
    """Return what counts the words of a question's sheet. Drills have numbers to work out: their time is not judged."""

    @cache
    def count(item: str, version: int, language: str) -> int:
        question = bank.questions.get(item)
        if question is None or question.version != version or language not in bank.languages:
            return 0
        texts = (question.told, question.asked, *(option.text for option in question.options))
        return sum(len(words(text.in_(language))) for text in texts)

    return count


def _newest(items: Mapping[Key, ItemCount]) -> Iterator[Key]:
    newest: dict[str, int] = {}
    for item, version in items:
        newest[item] = max(version, newest.get(item, version))
    yield from newest.items()


def _item(key: Key, items: Mapping[Key, ItemCount], bank: Bank) -> ItemReport:
    item, version = key
    count = items[key]
    question, drill = bank.questions.get(item), bank.drills.get(item)
    in_bank = any(one is not None and one.version == version for one in (question, drill))
    return ItemReport(
        item=item,
        version=version,
        competency=count.competency,
        in_bank=in_bank,
        statistics=item_statistics(count.seen),
        options=_options(question, count) if in_bank and question else None,
        hurried=hurried(count.timed, count.fast, count.fast_right),
        drift=_drift([one for (name, _), one in items.items() if name == item]),
        skipped=count.skipped,
        mistakes=tuple(count.mistakes.most_common()),
    )


def _options(question: Question, count: ItemCount) -> Options | None:
    """Return the statistics of what is chosen singly; what was chosen and is no option of the bank's is left out."""
    known = [option.id for option in question.options]
    right = frozenset(option.id for option in question.right)
    chosen = Counter({one: n for one, n in count.chosen.items() if one.option in known})
    return option_statistics(chosen, known, right) if chosen else None


def _drift(counts: Sequence[ItemCount]) -> Drift | None:
    editions: dict[int, tuple[int, int]] = {}
    for count in counts:
        for edition, (right, answers) in count.editions.items():
            before = editions.get(edition, (0, 0))
            editions[edition] = before[0] + right, before[1] + answers
    if len(editions) < 2:
        return None
    earlier, later = (
        Asked(edition=edition, right=editions[edition][0], answers=editions[edition][1])
        for edition in sorted(editions)[-2:]
    )
    return drift(earlier, later)


def _paper(programme: str, count: PaperCount) -> PaperReport:
    seen, mark = None, None
    if count.scores:
        (items, needed), scores = max(count.scores.items(), key=lambda entry: (entry[1].total(), entry[0]))
        seen = consistency(spread(scores, items), needed)
        mark = lord_sem(needed, items) if items > 1 else None
    return PaperReport(
        programme=programme,
        people=count.people,
        passed=count.passed,
        consistency=seen,
        error_at_mark=mark,
        reliability=_reliability(count.forms.values()),
    )


def _reliability(forms: Iterable[FormCount]) -> Reliability | None:
    largest = max(forms, key=lambda form: form.scores.total(), default=None)
    if largest is None or largest.scores.total() < 2:
        return None
    return reliability([largest.rights[item] for item in largest.items], largest.scores)
