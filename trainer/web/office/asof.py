"""Who was allowed to run a machine on a day, as known on another day: the list, and how far to trust it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.records.ledger import Entry
from trainer.records.machines import MachineRow
from trainer.records.standing import Standing, StandingWord
from trainer.web.entries import days_late, late_words, recorded_on
from trainer.web.facts import told_facts
from trainer.web.filters import day, day_long
from trainer.web.office.clocks import Late, clocks
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import AsofGroup, AsofPage, AsofRow, Checked, LateBlock, LateNote, RowNote
from trainer.web.office.paperlinks import machine_papers
from trainer.web.roster import Roster, named
from trainer.web.sheet import Box, address
from trainer.web.standings import role_name
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

BEFORE = {StandingWord.LAPSED, StandingWord.SUSPENDED, StandingWord.PAUSED}
MOST_NOTES = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The question: which machine, which day, and what was known when."""

    machine: str
    on: date
    known_on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the record says to it. ``then`` is the number of those authorised as known at the end of that very day."""

    asked: Asked
    today: date
    roster: Roster
    machine: MachineRow
    standings: Sequence[Standing]
    entries: Mapping[int, Entry]  # those that the standings rest on
    then: int
    faults: int  # what does not fit anywhere in the ledger: a lost entry may have been a suspension


def asof_page(answer: Answer, refusal: Sentence | None = None) -> AsofPage:
    """Build the sheet."""
    asked = answer.asked
    late = _late(answer)
    groups = _groups(answer, {one.entry: one.number for one in late})
    rows = sum(len(group.rows) for group in groups)
    title = _("%(machine)s on %(day)s", machine=asked.machine, day=day(asked.on))
    return AsofPage(
        frame=office_frame("office.asof", title, Box(label=_("Lines"), value=str(rows))),
        title=title,
        heading=_("%(machine)s on %(day)s", machine=asked.machine, day=day_long(asked.on)),
        known_note=_("as known on %(day)s", day=day(asked.known_on)),
        answer=_sentences(answer),
        refusal=refusal,
        machines=tuple((machine, machine) for machine in answer.roster.machines),
        machine=asked.machine,
        day=day(asked.on),
        known=day(asked.known_on),
        groups=groups,
        csv=address("office.asof_csv", **_given(asked)),
        papers=machine_papers(_given(asked), live=asked.on == asked.known_on == answer.today),
        file_note=ngettext(
            "%(num)s line, both days, and the entries behind it.",
            "%(num)s lines, both days, and the entries behind each.",
            rows,
        ),
        checked=_checked(answer),
        late=_late_block(answer, late),
        machine_name=answer.machine.name,
        facts=told_facts(answer.machine.facts),
    )


def _given(asked: Asked) -> dict[str, str]:
    return {"machine": asked.machine, "day": asked.on.isoformat(), "known": asked.known_on.isoformat()}


def authorised(standings: Sequence[Standing]) -> list[Standing]:
    """Return those who may run, or help at, the machine alone."""
    return [one for one in standings if one.may_run]


def _sentences(answer: Answer) -> tuple[str, ...]:
    runs = sum(one.role != "helper" for one in authorised(answer.standings))
    helps = sum(one.role == "helper" for one in authorised(answer.standings))
    beside = sum(one.word is StandingWord.SUPERVISED for one in answer.standings)
    before = sum(one.word in BEFORE for one in answer.standings)
    told = (
        (True, ngettext("%(num)s person was authorised to run it.", "%(num)s people were authorised to run it.", runs)),
        (
            helps,
            ngettext(
                "%(num)s was authorised to help, not to run.", "%(num)s were authorised to help, not to run.", helps
            ),
        ),
        (
            beside,
            ngettext("%(num)s only beside a named supervisor.", "%(num)s only beside a named supervisor.", beside),
        ),
        (
            before,
            ngettext(
                "%(num)s had been before, but not on that day.", "%(num)s had been before, but not on that day.", before
            ),
        ),
    )
    return tuple(sentence for number, sentence in told if number)


def _groups(answer: Answer, notes: Mapping[int, int]) -> tuple[AsofGroup, ...]:
    may = authorised(answer.standings)
    rest = [one for one in answer.standings if not one.may_run]
    parts = (
        (
            "solid",
            _("Authorised to run"),
            _("programme passed, practical signed, nothing lapsed, nothing suspended"),
            [one for one in may if one.role != "helper"],
        ),
        ("solid", _("Authorised to help"), _("not to run"), [one for one in may if one.role == "helper"]),
        (
            "hatched",
            _("Supervised only"),
            _("beside the person named, never alone"),
            [one for one in rest if one.word is StandingWord.SUPERVISED],
        ),
        ("struck", _("Not on that day"), _("authorised before"), [one for one in rest if one.word in BEFORE]),
        (
            "struck",
            _("Not yet"),
            _("begun, but not complete"),
            [
                one
                for one in rest
                if one.word in {StandingWord.PRACTICAL_PENDING, StandingWord.THEORY_OPEN, StandingWord.ATTENDED}
            ],
        ),
    )
    groups = [
        AsofGroup(mark=mark, title=title, note=note, rows=_rows(answer, found, notes))
        for mark, title, note, found in parts
        if found
    ]
    return (*groups, _everybody_else(answer))


def _everybody_else(answer: Answer) -> AsofGroup:
    told = {one.person for one in answer.standings if one.word is not StandingWord.NO_EVIDENCE}
    others = sum(key not in told for key in answer.roster.people)
    note = ngettext(
        "%(num)s person at the plant that day: nothing on record for it, so not authorised",
        "%(num)s people at the plant that day: nothing on record for it, so not authorised",
        others,
    )
    return AsofGroup(mark="broken", title=_("Everybody else"), note=note, rows=())


def _rows(answer: Answer, found: Sequence[Standing], notes: Mapping[int, int]) -> tuple[AsofRow, ...]:
    people = answer.roster.people
    ordered = sorted(
        (one for one in found if one.person in people),
        key=lambda one: (people[one.person].shift, people[one.person].sort_name),
    )
    return tuple(
        AsofRow(
            person=named(people[one.person], "office.person"),
            role=role_name(one.role),
            reasons=one.reasons,
            notes=_row_notes(answer, one, notes),
            held_to=_held_to(one),
        )
        for one in ordered
    )


def _held_to(one: Standing) -> str:
    if one.may_run:
        return day(one.holds_until)
    return day(one.due_on) if one.word is StandingWord.LAPSED else ""


def _row_notes(answer: Answer, one: Standing, notes: Mapping[int, int]) -> tuple[RowNote, ...]:
    numbers = dict.fromkeys(entry for reason in one.reasons for entry in reason.entries if entry in notes)
    return tuple(RowNote(number=notes[entry], short=late_words(days_late(answer.entries[entry]))) for entry in numbers)


def _late(answer: Answer) -> list[Late]:
    """Return the entries that were written after the day asked about, numbered as their notes are."""
    found = [
        entry
        for entry in answer.entries.values()
        if recorded_on(entry) > answer.asked.on and entry.happened_on <= answer.asked.on and days_late(entry) > 0
    ]
    found.sort(key=lambda entry: entry.number)
    return [
        Late(number=number, entry=entry.number, happened=entry.happened_on, recorded=recorded_on(entry))
        for number, entry in enumerate(found[:MOST_NOTES], start=1)
    ]


def _late_block(answer: Answer, late: Sequence[Late]) -> LateBlock | None:
    asked = answer.asked
    if not late or asked.known_on <= asked.on:
        return None
    now = len(authorised(answer.standings))
    then = ngettext(
        "Asked at the end of that day, the list held %(num)s person; now it holds %(now)s.",
        "Asked at the end of that day, the list held %(num)s people; now it holds %(now)s.",
        answer.then,
        now=now,
    )
    return LateBlock(
        title=ngettext("%(num)s entry came after the day", "%(num)s entries came after the day", len(late)),
        strip=clocks(late, asked=asked.on, known=asked.known_on),
        notes=tuple(_note(one) for one in late),
        then=then,
        url=address("office.asof", **_given(replace(asked, known_on=asked.on))),
    )


def _note(one: Late) -> LateNote:
    words = _("Happened on %(first)s, written on %(second)s:", first=day(one.happened), second=day(one.recorded))
    return LateNote(number=one.number, words=words, entry=one.entry)


def _checked(answer: Answer) -> Checked:
    if answer.faults:
        words = ngettext(
            "%(num)s thing in the ledger does not fit. It may bear on this list.",
            "%(num)s things in the ledger do not fit. They may bear on this list.",
            answer.faults,
        )
        return Checked(title=_("Do not trust this list"), words=words)
    words = ngettext(
        "%(num)s entry is behind this list. The whole ledger was read again just now, and it holds.",
        "%(num)s entries are behind this list. The whole ledger was read again just now, and it holds.",
        len(answer.entries),
    )
    return Checked(title=_("The ledger holds"), words=words)
