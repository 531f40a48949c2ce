"""What the sheet of the site's rules shows: what holds today for each programme, what is to come, who set what."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.bank import Bank
from trainer.records import terms
from trainer.records.duedates import Policy, months
from trainer.records.people import PersonRow
from trainer.records.siterules import EVERY, LEAST_GROUP, DueRule, Rule, due_rule
from trainer.web.entries import HistoryRow, history
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import Choices
from trainer.web.sheet import Frame
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

FIELDS = (
    "programme",
    "period",
    "young_period",
    "early_window",
    "late_grace",
    "count_from",
    "least",
    "since",
    "reason",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRow:
    """Programmes of one rule: what the content says, what holds today and by which entry, what is to come."""

    programmes: tuple[str, ...]
    heading: str
    content: str
    now: str
    entry: int | None
    longer: str
    coming: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesPage:
    """The rules that the site sets for its people."""

    frame: Frame
    refusal: Sentence | None
    rows: tuple[DueRow, ...]
    programmes: Choices
    counted: Choices
    least: str
    lowest: str
    history: tuple[HistoryRow, ...]
    given: Mapping[str, str]


def rules_page(
    bank: Bank,
    found: Sequence[Rule],
    people: Mapping[str, PersonRow],
    *,
    today: date,
    least: int,
    given: Mapping[str, str],
    refusal: Sentence | None,
) -> RulesPage:
    """Build the sheet."""
    named = [(key, one.name.in_(current())) for key, one in bank.programmes.items() if one.kind.renews]
    newest = sorted((rule.entry for rule in found), key=lambda entry: -entry.number)
    return RulesPage(
        frame=office_frame("office.users", _("Rules of the site")),
        refusal=refusal,
        rows=_rows(bank, named, found, today),
        programmes=((EVERY, _("every programme without a rule of its own")), *named),
        counted=(("day", _("the day itself")), ("month_end", _("the end of its month"))),
        least=str(least),
        lowest=str(LEAST_GROUP),
        history=history(newest, people),
        given={"act": given.get("act", ""), **{name: given.get(name, "") for name in FIELDS}},
    )


def _rows(bank: Bank, named: Sequence[tuple[str, str]], found: Sequence[Rule], today: date) -> tuple[DueRow, ...]:
    """Return a row for each rule, with the programmes that go by it; those with a rule of the site's come first."""
    alike: dict[tuple[object, ...], list[DueRow]] = defaultdict(list)
    for key, name in named:
        row = _row(bank, key, name, found, today)
        alike[row.content, row.now, row.entry, row.coming].append(row)
    rows = [
        replace(
            group[0],
            programmes=tuple(name for row in group for name in row.programmes),
            heading=ngettext("%(num)s programme", "%(num)s programmes", len(group)),
        )
        for group in alike.values()
    ]
    return tuple(sorted(rows, key=lambda row: (row.entry is None and not row.coming, len(row.programmes))))


def _row(bank: Bank, key: str, name: str, found: Sequence[Rule], today: date) -> DueRow:
    own = terms.policy(bank.programme(key))
    rule = due_rule(list(found), key, today)
    ruled = rule is not None and rule.value is not None
    now = DueRule(**rule.value).on(own) if rule is not None and ruled else own
    coming = [
        one for one in found if one.since > today and one.programme in {key, EVERY} and one.subject == "due-dates"
    ]
    longer = months(now.period) > months(own.period)
    return DueRow(
        programmes=(name,),
        heading="",
        content=_told(own),
        now=_told(now) if ruled else _("as the content says"),
        entry=rule.entry.number if rule is not None and ruled else None,
        longer=_("Longer than the content says.") if longer else "",
        coming=tuple((_coming(one, own), one.entry.number) for one in coming),
    )


def _coming(rule: Rule, own: Policy) -> str:
    told = _told(DueRule(**rule.value).on(own)) if rule.value is not None else _("as the content says")
    return _("from %(day)s: %(what)s", day=day(rule.since), what=told)


def _told(policy: Policy) -> str:
    """Say a policy in one line."""
    told = [_many(policy.period)]
    if policy.count_from == "month_end":
        told.append(_("to the end of the month"))
    if policy.young_period:
        told.append(_("under 18: %(months)s", months=_many(policy.young_period)))
    if policy.early_window:
        told.append(_("early window: %(months)s", months=_many(policy.early_window)))
    if policy.late_grace:
        told.append(_("grace: %(months)s", months=_many(policy.late_grace)))
    return ", ".join(told)


def _many(period: str) -> str:
    return ngettext("%(num)s month", "%(num)s months", months(period))
