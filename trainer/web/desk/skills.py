"""What a person's answers show, competency by competency, the weakest first."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from trainer.assessment.mastery import ORDER, Evidence, Gap, State, gaps
from trainer.assessment.settling import settling
from trainer.bank import Bank
from trainer.bank.model import Competency, CompetencyKind
from trainer.web.desk.pages import Group, Skill
from trainer.web.desk.ticks import aged, counted, first_day, tick_strip
from trainer.web.language import current, translate
from trainer.web.words import _

GUESS = 0.25  # of a question with four options, where none was answered yet
BAR = 300  # units of the bar's own drawing, for 0 to 100
EDGE = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """An interval as a dimension line: ends, the most likely value, the level required, and what is missing to it."""

    width: int
    low: int
    median: int
    high: int
    level: int
    missing: bool
    known: bool
    text: str


def skill_groups(bank: Bank, evidence: Sequence[Evidence], today: date) -> tuple[Group, ...]:
    """Group a person's competencies by what is known of them. Nothing at all is known where there is no evidence."""
    if not evidence:
        return ()
    of_competency: dict[str, list[Evidence]] = defaultdict(list)
    for one in evidence:
        of_competency[one.competency].append(one)
    first = first_day(evidence, today)
    found: dict[State, list[Skill]] = defaultdict(list)
    for gap in sorted(_gaps(bank, evidence, today), key=lambda gap: (ORDER.index(gap.state), gap.median)):
        found[gap.state].append(_skill(bank, gap, of_competency[gap.competency], first, today))
    names = {
        State.GAP: _("Gap"),
        State.NO_EVIDENCE: _("No evidence"),
        State.NOT_SETTLED: _("Not settled"),
        State.SHOWN: _("Shown"),
    }
    return tuple(Group(title=names[state], note="", rows=tuple(found[state])) for state in ORDER if found[state])


def _gaps(bank: Bank, evidence: Sequence[Evidence], today: date) -> Sequence[Gap]:
    roles = {
        role
        for one in evidence
        for role in bank.competencies[one.competency].roles
        if one.competency in bank.competencies
    }
    needed = [one for one in bank.competencies.values() if roles & set(one.roles)]
    return gaps(needed, evidence, today)


def _skill(bank: Bank, gap: Gap, evidence: Sequence[Evidence], first: date, today: date) -> Skill:
    competency = bank.competencies[gap.competency]
    return Skill(
        name=competency.name.in_(current()),
        count=counted(evidence) if evidence else _("none"),
        newest=aged(max(one.on for one in evidence), today) if evidence else "",
        ticks=tick_strip(evidence, first=first, today=today),
        bar=_bar(gap),
        chance=" ".join((_chance(gap), *_more(competency, gap, evidence, today))),
    )


def _more(competency: Competency, gap: Gap, evidence: Sequence[Evidence], today: date) -> tuple[str, ...]:
    """Say how many right answers would settle it; practice is settled at the machine alone."""
    if gap.state is State.SHOWN or competency.kind is CompetencyKind.PRACTICE:
        return ()
    usual = 0.0 if competency.kind is CompetencyKind.CALCULATION else GUESS
    guess = max((one.guess for one in evidence if not one.observed), default=usual)
    return (translate(settling(competency.id, evidence, today, level=competency.level, guess=guess).note),)


def _bar(gap: Gap) -> Bar:
    def place(share: float) -> int:
        return EDGE + round((BAR - 2 * EDGE) * share)

    known = gap.state is not State.NO_EVIDENCE
    return Bar(
        width=BAR,
        low=place(gap.low),
        median=place(gap.median),
        high=place(gap.high),
        level=place(gap.level),
        missing=gap.state is State.GAP,
        known=known,
        text=_(
            "%(low)s to %(high)s of 100, most likely %(median)s; %(level)s required",
            low=round(gap.low * 100),
            high=round(gap.high * 100),
            median=round(gap.median * 100),
            level=round(gap.level * 100),
        )
        if known
        else _("no evidence; %(level)s required", level=round(gap.level * 100)),
    )


def _chance(gap: Gap) -> str:
    if gap.state is State.NO_EVIDENCE:
        return _("Not weak: unknown.")
    share = round(gap.chance * 100)
    if share < 1:
        return _("Under 1 in 100.")
    return _("Over 99 in 100.") if share > 99 else _("%(share)s in 100.", share=share)
