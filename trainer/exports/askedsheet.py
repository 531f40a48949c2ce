"""One sheet of a paper as it was asked: its words, its drawing, what could be chosen, the key and the answer."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Any

from trainer.assessment import drills, judging, lists
from trainer.assessment.paper import NOTHING_FITS, Sheet
from trainer.assessment.pressing import HOLE, Pressed
from trainer.assessment.selecting import key_of
from trainer.bank import Bank
from trainer.bank.bank import Item
from trainer.bank.model import (
    ComputeDrill,
    JudgeDrill,
    Match,
    Number,
    OnDrawing,
    Option,
    Order,
    Question,
    RuleDrill,
    SelectDrill,
)
from trainer.errors import Missing, UsageError
from trainer.exports.voice import Voice
from trainer.figures import scene
from trainer.safeguarding.problems import problem
from trainer.safeguarding.selection import SAFEGUARDS
from trainer.wording import mark, say

SECOND = "second:"  # before the id of a reason
LOW = {"view": "front", "size": (660, 330), "place": {"x": 145, "y": 324, "scale": 0.121}}  # of a safeguard to pick
NONE_FITS = mark("None of these: do not run this job here.")
VERDICTS = {
    "right": mark("right"),
    "wrong": mark("wrong"),
    "short": mark("short: the hand gets there first"),
    "far": mark("safe, but more than it needs"),
    "none": mark("not answered, which counts as wrong"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One thing that could be pressed, in the order in which it was shown.

    ``yours`` and ``needed`` say what was made of it and what would have been right: a word, a place or a partner, empty
    where nothing was. ``good`` says whether they agree.
    """

    letter: str
    words: str
    yours: str
    needed: str
    good: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One sheet as it was asked. Words of the content are in ``language``, the rest in the reader's.

    ``drawing`` is SVG, empty without one; ``given`` holds pairs of what was given and how much; ``answer`` and
    ``needed`` are for a number; ``shows`` are the slips or wrong ideas that the answer was told to show.
    """

    number: int
    item: str
    version: int
    competency: str
    critical: bool
    language: str
    told: tuple[str, ...]
    asked: str
    drawing: str
    described: str
    given: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]
    beside: str
    answer: str
    needed: str
    right: bool
    verdict: str
    shows: tuple[str, ...]
    seconds: int | None


def competency_name(bank: Bank | None, competency: str, voice: Voice) -> str:
    """Return what a competency was called in the reader's language; its id where the content was not kept."""
    known = None if bank is None else bank.competencies.get(competency)
    return known.name.in_(voice.language) if known else competency


@dataclass(frozen=True, slots=True)
class Looked:
    """One sheet that is being looked at. ``kept`` is what the entry holds about it."""

    bank: Bank
    sheet: Sheet
    kept: Mapping[str, Any]
    language: str
    voice: Voice

    @property
    def item(self) -> Any:
        """Return what the sheet is of, as the content had it then."""
        return self.bank.item(self.sheet.item)

    @property
    def held(self) -> Pressed:
        """Return what was pressed."""
        return Pressed(self.kept.get("chosen"), tuple(self.kept.get("given") or ()))

    def asked(self) -> Asked:
        """Return the sheet as it was asked."""
        item, kept, tell = self.item, self.kept, self.voice.tell
        svg, described = self._drawing(item)
        took = kept.get("took_ms")
        return Asked(
            number=self.sheet.number,
            item=self.sheet.item,
            version=self.sheet.version,
            competency=competency_name(self.bank, self.sheet.competency, self.voice),
            critical=self.sheet.critical,
            language=self.language,
            told=tuple(self._told(item)),
            asked=item.asked.in_(self.language),
            drawing=svg,
            described=described,
            given=tuple(self._given(item)),
            rows=tuple(self._rows(item)),
            beside=self._beside(item),
            answer=self.voice.shown(kept.get("value") or ""),
            needed=self.voice.shown(kept.get("needed") or ""),
            right=bool(kept.get("right")),
            verdict=tell(VERDICTS.get(kept["verdict"], kept["verdict"])),
            shows=tuple(self._shows(item)),
            seconds=None if took is None else -(-took // 1000),
        )

    def _told(self, item: Item) -> Iterator[str]:
        drawn = self.sheet.drawn
        if judging.MACHINE in drawn:
            told = say(
                "This is {machine} in this shop. Measured on {day}.",
                machine=drawn[judging.MACHINE],
                day=drawn[judging.MEASURED],
            )
            yield self.voice.tell(told)
        elif words := item.told.in_(self.language):  # type: ignore[union-attr]  # what is marked tells something
            yield words
        if isinstance(item, SelectDrill):
            yield item.setting(drawn["setting"]).told.in_(self.language)
        if isinstance(item, RuleDrill):
            yield item.situation(drawn["situation"]).told.in_(self.language)

    def _drawing(self, item: Item) -> tuple[str, str]:
        found = self.bank.drawing(self.sheet.item)
        if found is None:
            return "", ""
        spec, described = found[0], found[1].in_(self.language)
        if isinstance(item, SelectDrill):
            spec = {**LOW, "parts": spec["parts"]}
        if isinstance(item, OnDrawing):
            spec = {**spec, "balloons": tuple(self._balloons(item))}
        numbers = {key: self.voice.shown(value) for key, value in self.sheet.drawn.items()}
        words, prefix = self.bank.labels(self.language), f"sheet-{self.sheet.number}"
        made = scene(spec, words=words, title=self.sheet.item, description=described, numbers=numbers, prefix=prefix)
        return made, described

    def _balloons(self, item: OnDrawing) -> Iterator[dict[str, object]]:
        pressed = {*self.held.given, self.held.chosen}
        for letter, ident in zip(ascii_uppercase, self.sheet.order, strict=False):
            option = item.option(ident)
            if option is not None:
                state = "right" if option.right else "wrong" if ident in pressed else ""
                yield {"letter": letter, "at": option.at, "value": ident, "state": state}

    def _given(self, item: Item) -> Iterator[tuple[str, str]]:
        drill = item.drill if isinstance(item, Number) else item
        drawn = judging.numbers(self.sheet.drawn)
        if isinstance(drill, JudgeDrill):
            stands = self.sheet.drawn.get(judging.MOUNTED)
            drill = drill.base
        else:
            stands = None
        if isinstance(drill, ComputeDrill):
            keys = {field.symbol: field.key for field in problem(drill.problem).fields}
            for step in drills.worked(drill, drawn).given:
                amount = drawn.get(keys.get(step.symbol, ""), step.shown)
                yield self.voice.tell(step.label), self.voice.shown(amount)
        if stands:
            yield self.voice.tell(mark("It stands at")), self.voice.shown(stands)

    def _rows(self, item: Item) -> Iterator[Row]:
        if isinstance(item, Number | ComputeDrill):
            return
        if isinstance(item, Question):
            yield from self._listed(item)
        elif isinstance(item, SelectDrill):
            key = key_of(item, self.sheet.drawn["setting"])
            for code in self.sheet.order:
                name = NONE_FITS if code == NOTHING_FITS else SAFEGUARDS[code].name
                yield self._choice(code, self.voice.tell(name), right=code in key.right)
        elif isinstance(item, JudgeDrill | RuleDrill):
            known = {one.id: one for one in judging.choices(item, self.sheet.drawn)}
            for code in self.sheet.order:
                yield self._choice(code, self._words(item, known[code]), right=known[code].right)

    def _choice(self, code: str, words: str, *, right: bool) -> Row:
        yours = self.kept.get("chosen") == code
        letter = ascii_uppercase[self.sheet.order.index(code)]
        tell = self.voice.tell
        return Row(
            letter=letter,
            words=words,
            yours=tell(mark("chosen")) if yours else "",
            needed=tell(mark("right")) if right else "",
            good=yours == right,
        )

    def _words(self, item: JudgeDrill | RuleDrill, choice: judging.Choice) -> str:
        if choice.step is not None:
            step = choice.step
            line = f"{step.substituted} = {step.shown}" if step.substituted else step.shown
            return f"{self.voice.tell(step.label)}: {self.voice.shown(line)}"
        if isinstance(item, RuleDrill):
            return item.rules[choice.rule].in_(self.language)
        return self.voice.tell(choice.words) if choice.words else ""

    def _listed(self, item: Question) -> Iterator[Row]:
        parts = {part.ident: part for part in lists.parts(item, self.sheet, self.held)}
        second = () if isinstance(item, Match) else tuple(f"{SECOND}{one}" for one in self.sheet.second)
        for letter, ident in zip(ascii_uppercase, (*self.sheet.order, *second), strict=False):
            part = parts.get(ident)
            option = _option(item.reasons if ident.startswith(SECOND) else item.options, ident.removeprefix(SECOND))
            if part is None or option is None:
                continue
            yield Row(
                letter="" if isinstance(item, Order | Match) else letter,
                words=option.text.in_(self.language),
                yours=self._made(item, part.yours, mark("chosen")),
                needed=self._made(item, part.needed, mark("right")),
                good=part.good,
            )

    def _made(self, item: Question, made: str, word: str) -> str:
        """Say what a row was, or should have been: a place, a partner, or that it was pressed."""
        if isinstance(item, Match):
            option = _option(item.options, made)
            return option.partner.in_(self.language) if option and option.partner else HOLE
        if isinstance(item, Order):
            return self.voice.tell(say("place {number}", number=made)) if made else HOLE
        return self.voice.tell(word) if made else ""

    def _beside(self, item: Item) -> str:
        """Return the partners of a question to match, in the order in which they were shown."""
        if not isinstance(item, Match):
            return ""
        found = (_option(item.options, ident) for ident in self.sheet.second)
        return "; ".join(one.partner.in_(self.language) for one in found if one is not None and one.partner)

    def _shows(self, item: Item) -> Iterator[str]:
        ideas = dict.fromkeys((self.kept.get("misconception"), *(self.kept.get("others") or ())))
        for key in filter(None, ideas):
            known = self.bank.misconceptions.get(key)
            yield known.name.in_(self.voice.language) if known else key
        drill = item.drill if isinstance(item, Number) else getattr(item, "base", item)
        for slip in self.kept.get("slips") or ():
            yield " + ".join(self._slip(drill, code) for code in slip["codes"])

    def _slip(self, drill: object, code: str) -> str:
        if not isinstance(drill, ComputeDrill):
            return code
        try:
            return self.voice.tell(problem(drill.problem).slip(code).title)
        except (Missing, UsageError, KeyError):  # a slip that this program does not know any more
            return code


def _option(options: tuple[Option, ...], ident: str) -> Option | None:
    return next((option for option in options if option.id == ident), None)
