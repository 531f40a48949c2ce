"""Retention: the rules, what has had its time by them, what is kept and why, and what was removed; data for the sheet."""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from trainer.exports.personfile import COUNTED, KINDS
from trainer.records.people import PersonRow
from trainer.records.privacy import rules
from trainer.records.privacy.retention import Leaver, Preview, Run
from trainer.records.privacy.rules import From
from trainer.web.filters import day
from trainer.web.language import translate
from trainer.web.office.frames import office_frame
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Named, moment
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence, say

FROMS = MappingProxyType(
    {
        From.LEAVING: _l("from leaving"),
        From.EXPIRY: _l("from the day on which it expires"),
        From.EVENT: _l("from its day"),
    }
)
MOST = 50  # people of each group on the sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRow:
    """A rule in force."""

    told: str
    reason: str
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaverRow:
    """Somebody who has left: until when the identity stays, and what decides that."""

    person: Named
    until: str
    why: str
    entry: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaverGroup:
    """Leavers with one fate; ``more`` are not on the sheet."""

    title: str
    note: str
    rows: tuple[LeaverRow, ...]
    more: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RunRow:
    """A removal that was done."""

    at: str
    who: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RetentionPage:
    """How long what is kept, and what has had its time. ``goes`` says whether anything would be removed today."""

    frame: Frame
    day: str
    today: bool
    answer: str
    refusal: Sentence | None
    rules: tuple[RuleRow, ...]
    kinds: tuple[tuple[str, str], ...]
    froms: tuple[tuple[str, str], ...]
    fields: Mapping[str, str]
    groups: tuple[LeaverGroup, ...]
    logs: tuple[str, ...]
    goes: bool
    seen: str
    runs: tuple[RunRow, ...]


def seen_of(found: Preview) -> str:
    """Return a code of what would go: what is removed has to be what was looked at."""
    told = [person.key for person, _period in found.over]
    told += [f"{kind} {count}" for kind, count in sorted(found.logs.items())]
    return hashlib.sha256("\n".join([found.on.isoformat(), *told]).encode()).hexdigest()[:16]


def retention_page(
    found: Preview,
    runs: Sequence[Run],
    people: Mapping[str, PersonRow],
    *,
    today: bool,
    fields: Mapping[str, str],
    refusal: Sentence | None = None,
) -> RetentionPage:
    """Build the sheet."""
    return RetentionPage(
        frame=office_frame(
            "office.requests", _("Retention"), Box(label=_("Rules in force"), value=str(len(found.rules)))
        ),
        day=day(found.on),
        today=today,
        answer=_answer(found),
        refusal=refusal,
        rules=tuple(_rule(rule, people) for rule in found.rules.values()),
        kinds=tuple((kind, translate(KINDS[kind])) for kind in rules.KINDS),
        froms=tuple((one.value, str(words)) for one, words in FROMS.items()),
        fields=fields,
        groups=tuple(_groups(found)),
        logs=tuple(f"{translate(KINDS[kind])}: {count}" for kind, count in found.logs.items() if count),
        goes=today and bool(found.over or any(found.logs.values())),
        seen=seen_of(found),
        runs=tuple(_run(run, people) for run in reversed(runs)),
    )


def _answer(found: Preview) -> str:
    if not found.rules:
        return _("No rule is set, so everything is kept.")
    count = ngettext(
        "%(num)s identity has had its time on %(day)s.",
        "%(num)s identities have had their time on %(day)s.",
        len(found.over),
        day=day(found.on),
    )
    held = len(found.held)
    return (
        count if not held else count + " " + ngettext("A legal hold keeps %(num)s.", "Legal holds keep %(num)s.", held)
    )


def _rule(rule: rules.Rule, people: Mapping[str, PersonRow]) -> RuleRow:
    told = say(COUNTED[rule.counts_from], kind=translate(KINDS[rule.kind]), years=rule.years)
    return RuleRow(told=translate(told), reason=rule.reason, who=_who(rule.by, people) + ", " + moment(rule.at))


def _who(key: str, people: Mapping[str, PersonRow]) -> str:
    return people[key].name if key in people else key


def _groups(found: Preview) -> Iterable[LeaverGroup]:
    parts = (
        (_("Have had their time"), _("these go when it is done"), found.over),
        (_("Kept by a legal hold"), _("although their time is over"), found.held),
        (_("Kept"), _("their time is not over"), found.kept),
        (_("Kept, because a rule is missing"), _("set it below, or leave them"), found.unset),
    )
    for title, note, leavers in parts:
        if leavers:
            rows = tuple(_leaver(one) for one in leavers[:MOST])
            yield LeaverGroup(title=f"{title}: {len(leavers)}", note=note, rows=rows, more=max(0, len(leavers) - MOST))


def _leaver(leaver: Leaver) -> LeaverRow:
    person, period = leaver
    missing = ", ".join(translate(KINDS[kind]) for kind in period.unset)
    why = _("no rule for: %(kinds)s", kinds=missing) if missing else translate(KINDS.get(period.kind, period.kind))
    hold = f" {period.hold.reason}" if period.hold else ""
    return LeaverRow(person=named(person, "office.person"), until=day(period.until), why=why + hold, entry=period.entry)


def _run(run: Run, people: Mapping[str, PersonRow]) -> RunRow:
    what = ", ".join(f"{translate(KINDS.get(kind, kind))}: {count}" for kind, count in run.removed.items())
    return RunRow(at=moment(run.at), who=_who(run.by, people), what=what)
