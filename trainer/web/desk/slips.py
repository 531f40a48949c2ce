"""The mistakes that a person made, named, the dangerous ones first, each with what was answered last."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from trainer.assessment.diagnosis import slip_of
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, Match
from trainer.errors import TrainerError
from trainer.records.ledger import Entry, EntryKind
from trainer.web.desk.pages import SlipLine
from trainer.web.filters import day
from trainer.web.language import current, localise, translate
from trainer.web.words import _, ngettext

BACK = timedelta(days=365)
MOST = 8  # lines; the history holds them all
LAST_ENTRIES = 3  # references on one line


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One time that a mistake was made."""

    title: str
    entry: int
    on: date
    grave: bool
    answered: str


def slip_lines(bank: Bank, entries: Iterable[Entry], today: date) -> tuple[SlipLine, ...]:
    """Gather the mistakes in a person's marked papers of the last 12 months. ``entries`` are newest first."""
    by_title: dict[str, list[Made]] = defaultdict(list)
    for entry in entries:
        if entry.kind is EntryKind.SITTING_MARKED and entry.happened_on > today - BACK:
            for made in _made(bank, entry):
                by_title[made.title].append(made)
    ordered = sorted(by_title.values(), key=lambda times: (not times[0].grave, -len(times), times[0].title))
    return tuple(_line(times) for times in ordered[:MOST])


def _made(bank: Bank, entry: Entry) -> Iterable[Made]:
    for item in entry.body["items"]:
        if item["right"] or item["verdict"] in {"none", "far"}:
            continue
        for title in _titles(bank, item):
            yield Made(
                title=title,
                entry=entry.number,
                on=entry.happened_on,
                grave=bool(item["critical"]) or item["verdict"] == "short",
                answered=_answered(bank, item),
            )


def _titles(bank: Bank, item: Mapping[str, Any]) -> Sequence[str]:
    named = [item.get("misconception"), *(item.get("others") or ())]
    misconceptions = [bank.misconceptions[name] for name in named if name in bank.misconceptions]
    if misconceptions:
        return [misconception.name.in_(current()) for misconception in misconceptions]
    drill = bank.drills.get(item["item"])
    found = [code for slip in item.get("slips") or () for code in slip["codes"]]
    if isinstance(drill, JudgeDrill):
        drill = drill.base
    if isinstance(drill, ComputeDrill) and found:
        return [title for code in dict.fromkeys(found) if (title := slip_title(drill.problem, code))]
    return [_("Short, by a mistake of an unknown kind")] if item["verdict"] == "short" else []


def slip_title(name: str, code: str) -> str:
    """Name a slip of a sum; empty where this edition of the sums has no such slip."""
    try:
        return translate(slip_of(name, code).title)
    except TrainerError:
        return ""


def _answered(bank: Bank, item: Mapping[str, Any]) -> str:
    if item.get("value"):
        given = localise(str(item["value"]))
        needed = item.get("needed")
        return _("%(given)s; %(needed)s needed", given=given, needed=localise(str(needed))) if needed else given
    question = bank.questions.get(item["item"])
    pressed = [item.get("chosen"), *(item.get("given") or ())]
    if question is None or isinstance(question, Match):
        return ""
    found = [option for ident in pressed if (option := question.option(ident or "") or question.reason(ident or ""))]
    return _("“%(words)s”", words=" · ".join(option.text.in_(current()) for option in found)) if found else ""


def _line(times: Sequence[Made]) -> SlipLine:
    count = ngettext("%(num)s time", "%(num)s times", len(times))
    return SlipLine(
        title=times[0].title,
        when=_("%(count)s, last on %(day)s", count=count, day=day(times[0].on)),
        entries=tuple(dict.fromkeys(one.entry for one in times))[:LAST_ENTRIES],
        answered=times[0].answered,
    )
