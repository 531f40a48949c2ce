"""What a person is told after an answer: what would happen at the machine, what was set and is needed, where it went wrong.

Everything comes as sentences with their values, so that a door can say it in the reader's language; only what the
bank itself says (why, misconception, key) is in the language asked for already.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from trainer import units
from trainer.assessment import drills, judging
from trainer.assessment.answers import Answer
from trainer.assessment.band import CEILINGS
from trainer.assessment.diagnosis import SlipFound, slip_of
from trainer.assessment.lists import Part, parts
from trainer.assessment.marking import Mark, Verdict, answered, needed, shown_unit
from trainer.assessment.paper import NOTHING_FITS, Sheet
from trainer.assessment.selecting import key_of
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, Number, PickOne, Question, RuleDrill, SelectDrill
from trainer.errors import UsageError
from trainer.safeguarding.problems import problem
from trainer.safeguarding.result import Worked
from trainer.safeguarding.selection import SAFEGUARDS
from trainer.safeguarding.show import amount
from trainer.wording import Sentence, say

TIED = say("More than one mistake gives this number. Go through the working step by step.")
NOTHING = say("None of these: do not run this job here.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Feedback:
    """What is said about one answer.

    ``headline`` is what would happen at the machine, ``told`` what was set and what is needed. ``slip_tell`` names the
    mistake, or says that several fit; ``slip_tells`` holds the sentence of each. ``slip_symbol`` is the step of the
    working where it went wrong, ``slip_used`` what the person must have had there. ``your`` and ``needed`` are
    quantities. ``misconception`` refutes the option chosen, ``key`` is the right one and ``why`` the reason, all in
    the language asked for; ``parts`` are the rows of a list beside what is right. For a safeguard, ``reasons`` are the rules' and ``better`` names what is right. ``stands`` says that ``your`` is
    a distance as it stands, ``others`` that the slip is in somebody else's working.
    """

    verdict: Verdict
    headline: Sentence
    told: Sentence | None = None
    slip_tell: Sentence | None = None
    slip_tells: tuple[Sentence, ...] = ()
    slip_symbol: str | None = None
    slip_used: str | None = None
    worked: Worked | None = None
    your: Any | None = None
    needed: Any | None = None
    why: str = ""
    misconception: str = ""
    key: str = ""
    reasons: tuple[Sentence, ...] = ()
    better: tuple[Sentence, ...] = ()
    parts: tuple[Part, ...] = ()
    stands: bool = False
    others: bool = False


def feedback(bank: Bank, sheet: Sheet, answer: Answer, mark: Mark, language: str) -> Feedback:
    """Say what an answer was worth and why."""
    item = bank.item(sheet.item)
    if isinstance(item, Number):
        return _of_number(item.drill, sheet, answer, mark)
    if isinstance(item, Question):
        return _of_question(bank, item, sheet, answer, mark, language=language)
    if isinstance(item, ComputeDrill):
        return _of_number(item, sheet, answer, mark)
    if isinstance(item, SelectDrill):
        return _of_safeguard(bank, item, sheet, answer, mark, language=language)
    if isinstance(item, JudgeDrill):
        return _of_judged(bank, item, sheet, mark, language=language)
    if isinstance(item, RuleDrill):
        why = item.situation(sheet.drawn["situation"]).why.in_(language)
        return Feedback(verdict=mark.verdict, headline=_judged(mark), why=why)
    raise UsageError(say("Sheet {number} asks nothing.", number=sheet.number))


def _of_question(
    bank: Bank, question: Question, sheet: Sheet, answer: Answer, mark: Mark, *, language: str
) -> Feedback:
    single = isinstance(question, PickOne)
    return Feedback(
        verdict=mark.verdict,
        headline=say("That is right.") if mark.right else say("That is not right."),
        why=question.why.in_(language),
        misconception=_refuted(bank, mark, language),
        key=question.key.text.in_(language) if single else "",
        parts=() if single else parts(question, sheet, answer.pressed),
    )


def _refuted(bank: Bank, mark: Mark, language: str) -> str:
    named = bank.misconceptions.get(mark.misconception or "")
    return named.tell.in_(language) if named else ""


def _of_safeguard(
    bank: Bank, drill: SelectDrill, sheet: Sheet, answer: Answer, mark: Mark, *, language: str
) -> Feedback:
    key, chosen = key_of(drill, sheet.drawn["setting"]), answer.chosen or ""
    verdict = key.verdicts.get(chosen)
    if mark.right:
        headline = say("Usable here, but another one is better.") if mark.better else say("That is right.")
    elif chosen == NOTHING_FITS:
        headline = say("Not so: one of these can be used here.")
    else:
        headline = say("Do not rely on it here: it does not count as the safeguard for this bend.")
    return Feedback(
        verdict=mark.verdict,
        headline=headline,
        misconception=_refuted(bank, mark, language),
        reasons=() if verdict is None else (*verdict.reasons, *verdict.conditions),
        better=tuple(_named(code) for code in key.right),
    )


def _named(code: str) -> Sentence:
    return NOTHING if code == NOTHING_FITS else say(SAFEGUARDS[code].name)


def _of_number(drill: ComputeDrill, sheet: Sheet, answer: Answer, mark: Mark) -> Feedback:
    your = answered(drill, answer)
    unit = shown_unit(drill, your)
    worked = drills.worked(drill, sheet.drawn, unit)
    least = needed(drill, drills.band_of(drill, sheet.drawn), unit)
    shown = {"yours": _amount(your, unit), "needed": _amount(least, unit)}
    race = _race(worked, your)
    named = _untied(mark.slips)
    return Feedback(
        verdict=mark.verdict,
        headline=_headline(worked, mark, race),
        told=_told(worked, mark, race, shown),
        slip_tell=_tell(drill, mark.slips),
        slip_tells=tuple(dict.fromkeys(_tells(drill, mark.slips))),
        slip_symbol=_step_of(drill, named, worked) if named else None,
        slip_used=_used(drill, sheet, named, worked) if named else None,
        worked=worked,
        your=your,
        needed=least,
    )


def _judged(mark: Mark) -> Sentence:
    return say("That is right.") if mark.right else say("That is not right.")


def _of_judged(bank: Bank, drill: JudgeDrill, sheet: Sheet, mark: Mark, *, language: str) -> Feedback:
    """Say what is so at the machine or in the working; the slip that is named is the person's own, or the one shown."""
    worked = judging.working(drill, sheet.drawn)
    shown = sheet.drawn.get(judging.SLIP, "")
    codes = [code for slip in mark.slips for code in slip.codes] or [code for code in (shown,) if code]
    named = SlipFound(codes=(codes[0],), value="") if codes else None
    slips = [slip_of(drill.base.problem, code) for code in codes]
    tells = tuple(say(slip.title if shown else slip.tell) for slip in slips)
    numbers = replace(sheet, drawn=judging.numbers(sheet.drawn))
    stands = sheet.drawn.get(judging.MOUNTED)
    return Feedback(
        verdict=mark.verdict,
        headline=_judged(mark),
        told=_stands(stands, worked) if stands else say("This is the right working."),
        slip_tell=tells[0] if tells else None,
        slip_tells=tells,
        slip_symbol=_step_of(drill.base, named, worked) if named else None,
        slip_used=_used(drill.base, numbers, named, worked) if named else None,
        worked=worked,
        your=units.parse(stands, "length") if stands else None,
        needed=worked.rounded,
        misconception=_refuted(bank, mark, language),
        stands=bool(stands),
        others=bool(shown),
    )


def _stands(stands: str, worked: Worked) -> Sentence:
    return say(
        "It stands at {stands}. The least is {needed}.", stands=stands, needed=_amount(worked.rounded, worked.unit)
    )


def _amount(quantity: Any, unit: str) -> str:
    return amount(units.magnitude(quantity, unit), unit, 4)


@dataclass(frozen=True, slots=True)
class _Race:
    """When the hand is at the die (None: before it is seen at all) and when the ram stops, in ms."""

    hand: Fraction | None
    stop: Fraction

    @property
    def lost(self) -> bool:
        """Say whether the hand is there before the ram has stopped."""
        return self.hand is None or self.hand < self.stop

    def times(self) -> dict[str, str]:
        """Return both as text, with as many places as it takes to tell them apart."""
        hand = self.hand or Fraction(0)
        for places in (0, 1, 2):
            shown = {"hand": f"{units.digits(hand, places)} ms", "stop": f"{units.digits(self.stop, places)} ms"}
            if shown["hand"] != shown["stop"]:
                break
        return shown


def _race(worked: Worked, your: Any) -> _Race | None:
    """Return the race between hand and ram; None for a sum that has none."""
    terms = worked.terms
    if not units.has_dimension(your, "length") or not {"hand-speed", "allowance", "total-time"} <= terms.keys():
        return None
    way = units.magnitude(your, "mm") - units.magnitude(terms["allowance"], "mm")
    hand = way / units.magnitude(terms["hand-speed"], "mm/s") * 1000
    return _Race(hand if way > 0 else None, units.magnitude(terms["total-time"], "ms"))


def _headline(worked: Worked, mark: Mark, race: _Race | None) -> Sentence:
    gap = mark.gap or ""
    if mark.verdict is Verdict.SHORT:
        return _short(worked, gap, race)
    if mark.verdict is Verdict.FAR:
        return say("Safe, but {gap} beyond what is needed", gap=gap)
    return say("Far enough: the ram stops before the hand is there") if race else say("That is right.")


def _short(worked: Worked, gap: str, race: _Race | None) -> Sentence:
    if worked.sense in CEILINGS:
        return say("Too much by {gap}: not safe", gap=gap)
    if race is None:
        return say("Short by {gap}: not safe", gap=gap)
    if race.lost:
        return say("Short by {gap}: the hand gets there first", gap=gap)
    return say("Short by {gap}: closer than the rule allows", gap=gap)


def _told(worked: Worked, mark: Mark, race: _Race | None, shown: dict[str, str]) -> Sentence:
    if race is None:
        return _told_plainly(worked, mark, shown)
    if mark.verdict is Verdict.FAR:
        return say("You set {yours}. {needed} is enough.", **shown)
    if mark.verdict is Verdict.RIGHT:
        return say("You set {yours}. The least is {needed}, rounded up.", **shown)
    if not race.lost:
        return say("You set {yours}. Set {needed} or more.", **shown)
    if race.hand is None:
        return say(
            "You set {yours}. The hand is at the die before it is seen. The ram stops after {stop}. "
            "Set {needed} or more.",
            stop=race.times()["stop"],
            **shown,
        )
    return say(
        "You set {yours}. The hand is at the die after {hand}. The ram stops after {stop}. Set {needed} or more.",
        **race.times(),
        **shown,
    )


def _told_plainly(worked: Worked, mark: Mark, shown: dict[str, str]) -> Sentence:
    if mark.verdict is Verdict.FAR:
        return say("You answered {yours}. {needed} is enough.", **shown)
    if worked.sense in CEILINGS:
        return say("You answered {yours}. It is {needed} at most, rounded down.", **shown)
    return say("You answered {yours}. It is {needed} at least, rounded up.", **shown)


def _untied(slips: Sequence[SlipFound]) -> SlipFound | None:
    return slips[0] if slips and not slips[0].tied else None


def _tell(drill: ComputeDrill, slips: Sequence[SlipFound]) -> Sentence | None:
    named = _untied(slips)
    if named:
        return say(slip_of(drill.problem, named.codes[0]).tell)
    return TIED if slips else None


def _tells(drill: ComputeDrill, slips: Sequence[SlipFound]) -> list[Sentence]:
    """Return what to say of the slip or pair that explains the number, or of each that ties."""
    named = _untied(slips)
    found = [named] if named else [slip for slip in slips if slip.tied]
    return [say(slip_of(drill.problem, code).tell) for slip in found for code in slip.codes]


def _step_of(drill: ComputeDrill, named: SlipFound, worked: Worked) -> str | None:
    """Return the step of the working where a slip shows: its own, the first that uses what it changes, or the last."""
    symbol = slip_of(drill.problem, named.codes[0]).symbol
    steps = [step for step in worked.steps if step.symbol == symbol]
    steps += [step for step in worked.steps if symbol in step.uses]
    steps += worked.steps[-1:]
    return steps[0].symbol if steps else None


def _used(drill: ComputeDrill, sheet: Sheet, named: SlipFound, worked: Worked) -> str | None:
    """Return what stood at the step that went wrong, where it differs from what should."""
    known = {slip.code for slip in problem(drill.problem).slips}
    if not set(named.codes) <= known:
        return None
    values = drills.given(drill, sheet.drawn).values
    wrong = problem(drill.problem).wrong_many(values, named.codes, unit=worked.unit)
    symbol = _step_of(drill, named, worked)
    had, has = (_shown_at(one, symbol) for one in (wrong, worked))
    return had if had != has else None


def _shown_at(worked: Worked | None, symbol: str | None) -> str | None:
    steps = worked.steps if worked else ()
    return next((step.shown for step in steps if step.symbol == symbol), None)
