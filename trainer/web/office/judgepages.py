"""What the sheets about evaluators show: the right on which each sign-off rests, and which rights have run out."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.exports import words
from trainer.records.judges import Judge, Right, Signed, State
from trainer.records.people import PersonRow
from trainer.web.entries import HistoryRow, history_row
from trainer.web.filters import day, day_long
from trainer.web.language import translate
from trainer.web.office.frames import office_frame
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Named, Pages, address, turn
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

SOON = timedelta(days=60)  # own choice: time to arrange a course
MARKS = {State.IN_FORCE: "solid", State.TO_COME: "broken", State.EXPIRED: "struck", State.REVOKED: "struck"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RightRow:
    """One right to judge as shown: ``stands`` says whether it is in force, run out or withdrawn."""

    entry: int
    what: str
    basis: str
    span: str
    by: str
    mark: str
    stands: str
    revoked: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgeRow:
    """One evaluator in the list."""

    person: Named
    rights: tuple[RightRow, ...]
    signed: str
    last: str
    doubt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgesPage:
    """Every evaluator."""

    frame: Frame
    heading: str
    answer: str
    refusal: Sentence | None
    day: str
    rows: tuple[JudgeRow, ...]
    csv: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SignedRow:
    """One sign-off, whom it is about, and the right that it rests on."""

    row: HistoryRow
    person: Named | None
    right: int | None
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgePage:
    """One evaluator."""

    frame: Frame
    person: Named
    answer: str
    rights: tuple[RightRow, ...]
    rows: tuple[SignedRow, ...]
    pages: Pages


def judges_page(
    found: Sequence[Judge], people: Mapping[str, PersonRow], *, on: date, refusal: Sentence | None
) -> JudgesPage:
    """Build the list: who may judge first, then those whose right has ended, each by name."""
    rows = sorted(found, key=lambda one: (not one.in_force, people[one.person].sort_name, one.person))
    may = sum(one.in_force for one in found)
    answer = ngettext("%(num)s person may judge on that day.", "%(num)s people may judge on that day.", may)
    doubts = sum(len(one.without_right) for one in found)
    if doubts:
        answer += " " + ngettext(
            "%(num)s sign-off has no right on record for its day.",
            "%(num)s sign-offs have no right on record for their day.",
            doubts,
        )
    else:
        answer += " " + _("Each sign-off rests on a right that held on its day.")
    return JudgesPage(
        frame=office_frame("office.questions", _("Who judged, and by what right?")),
        heading=_("Who judged, and by what right, up to %(day)s?", day=day_long(on)),
        answer=answer,
        refusal=refusal,
        day=day(on),
        rows=tuple(_row(one, people, on) for one in rows),
        csv=address("office.judged_csv", day=on.isoformat()),
    )


def judge_page(found: Judge, person: PersonRow, people: Mapping[str, PersonRow], *, on: date, wanted: str) -> JudgePage:
    """Build the sheet of one evaluator."""
    rows, pages = turn(found.signed, wanted, "office.judge", key=person.key, day=on.isoformat())
    return JudgePage(
        frame=office_frame("office.questions", f"{person.name}, {person.number}", Box(label=_("As of"), value=day(on))),
        person=named(person, "office.person"),
        answer=_signed(found),
        rights=tuple(_right(one, people, on) for one in found.rights),
        rows=tuple(_signed_row(one, people) for one in rows),
        pages=pages,
    )


def _row(one: Judge, people: Mapping[str, PersonRow], on: date) -> JudgeRow:
    doubts = len(one.without_right)
    person = people[one.person]
    shown = named(person, "office.judge")
    return JudgeRow(
        person=Named(
            name=shown.name,
            number=shown.number,
            shift=shown.shift,
            url=address("office.judge", key=person.key, day=on.isoformat()),
        ),
        rights=tuple(_right(each, people, on) for each in one.rights),
        signed=_signed(one),
        last=_("the last on %(day)s", day=day(one.signed[0].entry.happened_on)) if one.signed else "",
        doubt=ngettext("%(num)s without a right on its day", "%(num)s without a right on their day", doubts)
        if doubts
        else "",
    )


def _signed(one: Judge) -> str:
    if not one.signed:
        return _("nothing signed")
    failed = sum(each.entry.body["result"] != "passed" for each in one.signed)
    signed = ngettext("%(num)s practical signed", "%(num)s practicals signed", len(one.signed))
    return signed + (
        ", " + ngettext("%(num)s of them not passed", "%(num)s of them not passed", failed) if failed else ""
    )


def _right(one: Right, people: Mapping[str, PersonRow], on: date) -> RightRow:
    roles = _told(words.ROLES, one.roles)
    kinds = _told(words.MACHINES, one.machine_kinds)
    return RightRow(
        entry=one.entry,
        what=_("%(roles)s on %(kinds)s", roles=roles, kinds=kinds),
        basis=one.basis,
        span=_("%(first)s to %(last)s", first=day(one.valid_from), last=day(one.valid_to)),
        by=people[one.by].name if one.by in people else one.by,
        mark=MARKS[one.state],
        stands=_stands(one, on),
        revoked=one.revoked,
    )


def _stands(one: Right, on: date) -> str:
    if one.state is State.REVOKED:
        return _("withdrawn; what was signed before stays good")
    if one.state is State.EXPIRED:
        return _("expired; what was signed before stays good")
    if one.state is State.TO_COME:
        return _("not yet in force")
    left = (one.valid_to - on).days
    return ngettext("ends in %(num)s day", "ends in %(num)s days", left) if one.valid_to - on <= SOON else _("in force")


def _signed_row(one: Signed, people: Mapping[str, PersonRow]) -> SignedRow:
    person = people.get(one.entry.person)
    notes = []
    if not one.counts:
        notes.append(_("Corrected, moved or taken back since."))
    if one.right is None:
        notes.append(_("No right to judge this is on record for that day."))
    return SignedRow(
        row=history_row(one.entry, people),
        person=named(person, "office.person") if person else None,
        right=one.right,
        note=" ".join(notes),
    )


def _told(known: Mapping[str, str], keys: Iterable[str]) -> str:
    return ", ".join(translate(known[key]) if key in known else key for key in keys)
