"""Giving a programme to people: first the list of those concerned, then the entries."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from trainer.bank import Bank
from trainer.bank.model import Programme
from trainer.errors import UsageError
from trainer.records import Writing, assignments
from trainer.records.ledger import Entry
from trainer.records.people import PersonRow
from trainer.records.standing import Reason, Standing, StandingWord
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Assigned, AssignedPage, AssignPage, Candidate
from trainer.web.language import current
from trainer.web.roster import Roster, matching, named
from trainer.web.standings import ORDER, SHAPES, any_of
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence, say

MOST = 200  # rows on one sheet; a longer list cannot be checked by eye before it is done
NEEDS: Mapping[str, set[StandingWord]] = {
    "refresher": {StandingWord.LAPSED, StandingWord.REFRESH_DUE},
    "induction": {StandingWord.NO_EVIDENCE, StandingWord.ATTENDED},
}
# What stands in the record as the reason, and what the list calls it.
REASONS = (
    ("it is due", _l("it is due")),
    ("new here", _l("they are new here")),
    ("changes machine or shift", _l("they change machine or shift")),
    ("the machine was changed", _l("the machine was changed")),
    ("an unsafe act was seen", _l("an unsafe act was seen")),
    ("an incident", _l("there was an incident")),
    ("back after an absence", _l("they are back after an absence")),
    ("a gap was seen", _l("a gap was seen")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AssignChoice:
    """What a reader picked: a programme, for which machine, for whom."""

    programme: str = ""
    machine: str = ""
    shift: str = ""
    find: str = ""
    person: str = ""
    kind: str = ""
    role: str = ""

    @property
    def asked(self) -> bool:
        """Say whether anything was asked yet."""
        return bool(self.programme and (self.machine or self.shift or self.find or self.person))


def settle(bank: Bank, roster: Roster, choice: AssignChoice) -> AssignChoice:
    """Fill in the programme that an act meant: the refresher or induction for a machine and role."""
    machine = roster.machines.get(choice.machine)
    if choice.programme or not choice.kind:
        return choice
    role = choice.role or "operator"
    fit = [
        one
        for one in bank.programmes.values()
        if one.role == role and (machine is None or machine.kind in one.machine_kinds)
    ]
    fit.sort(key=lambda one: one.kind != choice.kind)  # a role without a refresher repeats its induction
    return replace(choice, programme=fit[0].id if fit else "")


def assign_page(
    bank: Bank, roster: Roster, given: Mapping[str, Entry], choice: AssignChoice, refusal: Sentence | None = None
) -> AssignPage:
    """Build the sheet; the list of those concerned is on it once a programme and people are chosen."""
    language = current()
    rows = _candidates(bank, roster, given, choice) if choice.asked else ()
    return AssignPage(
        frame=desk_frame("desk.assign", _("Assign a programme")),
        programmes=any_of(((one.id, one.name.in_(language)) for one in bank.programmes.values()), _("choose")),
        programme=choice.programme,
        machines=any_of(((machine, machine) for machine in roster.machines), _("any machine")),
        machine=choice.machine,
        shifts=any_of((shift, shift) for shift in roster.shifts()),
        shift=choice.shift,
        find=choice.find,
        picked=choice.person,
        asked=choice.asked,
        answer=_answer(rows),
        rows=rows[:MOST],
        reasons=tuple((code, str(words)) for code, words in REASONS),
        reason="new here" if _kind(bank, choice) == "induction" else "it is due",
        refusal=refusal,
    )


def _kind(bank: Bank, choice: AssignChoice) -> str:
    return bank.programme(choice.programme).kind if choice.programme else ""


def _answer(rows: Sequence[Candidate]) -> str:
    people = ngettext("%(num)s person fits", "%(num)s people fit", len(rows))
    ticked = sum(row.ticked for row in rows)
    need = ngettext("%(num)s needs it", "%(num)s need it", ticked)
    told = _("%(people)s, %(need)s.", people=people, need=need)
    if len(rows) <= MOST:
        return told
    return told + " " + _("Only the first %(most)s are shown; narrow the choice.", most=MOST)


def _candidates(bank: Bank, roster: Roster, given: Mapping[str, Entry], choice: AssignChoice) -> tuple[Candidate, ...]:
    programme = bank.programme(choice.programme)
    standing_of = roster.of_person()
    rows = [
        _candidate(
            person, _nearest(standing_of.get(person.key, ()), programme, roster, choice), programme, given, choice
        )
        for person in _people(roster, choice)
    ]
    return tuple(sorted(rows, key=lambda row: not row.ticked))


def _people(roster: Roster, choice: AssignChoice) -> list[PersonRow]:
    if choice.person:
        return [roster.people[choice.person]] if choice.person in roster.people else []
    return [one for one in matching(roster.present(), choice.find) if choice.shift in {"", one.shift}]


def _nearest(
    standings: Sequence[Standing], programme: Programme, roster: Roster, choice: AssignChoice
) -> Standing | None:
    """Return the standing that this programme would change: for the machine named, else the most blocked one."""
    fit = [
        one
        for one in standings
        if one.role == programme.role
        and choice.machine in {"", one.machine}
        and one.machine in roster.machines
        and roster.machines[one.machine].kind in programme.machine_kinds
    ]
    return max(fit, key=lambda one: ORDER[one.word], default=None)


def _candidate(
    person: PersonRow,
    one: Standing | None,
    programme: Programme,
    given: Mapping[str, Entry],
    choice: AssignChoice,
) -> Candidate:
    word = one.word if one else StandingWord.NO_EVIDENCE
    reasons = one.reasons if one and one.reasons else (Reason(sentence=say("Nothing on record for it."), entries=()),)
    entry = given.get(person.key)
    has_it = entry is not None and _open(entry, reasons)
    if entry is not None and has_it:
        reasons = (Reason(sentence=say("Assigned already."), entries=(entry.number,)), *reasons)
    name = str(SHAPES[word].words)
    return Candidate(
        key=person.key,
        ticked=not has_it and (bool(choice.person) or (one is not None and word in NEEDS.get(programme.kind, ()))),
        person=named(person, "desk.person"),
        mark=SHAPES[word].mark,
        label=_("%(word)s, %(machine)s", word=name, machine=one.machine) if one else name,
        reasons=reasons,
    )


def _open(assigned: Entry, reasons: Sequence[Reason]) -> bool:
    """Say whether nothing that the standing rests on was written after the assignment: it is not fulfilled yet."""
    return all(number <= assigned.number for reason in reasons for number in reason.entries)


def assign(w: Writing, bank: Bank, choice: AssignChoice, *, people: Sequence[str], reason: str, by: str) -> list[Entry]:
    """Enter the assignments, all or none."""
    if not people:
        raise UsageError(say("Nobody is ticked. Tick at least one person."))
    if len(people) > MOST:
        raise UsageError(say("That is more than {most} people at once. Narrow the choice.", most=MOST))
    if reason not in dict(REASONS):
        raise UsageError(say("Choose the reason from the list."))
    programme = bank.programme(choice.programme)
    return [
        assignments.assign(
            w,
            person=person,
            programme=programme.id,
            by=by,
            reason=reason,
            happened_on=w.today(),
            machine=choice.machine or None,
        )
        for person in dict.fromkeys(people)
    ]


def assigned_page(bank: Bank, entries: Sequence[Entry], people: Mapping[str, PersonRow]) -> AssignedPage:
    """Show the assignments that were entered."""
    rows = tuple(
        Assigned(
            person=named(people[entry.person], "desk.person"),
            programme=bank.programme(str(entry.body["programme"])).name.in_(current()),
            entry=entry.number,
        )
        for entry in entries
        if entry.person in people
    )
    answer = ngettext("Assigned to %(num)s person", "Assigned to %(num)s people", len(rows))
    return AssignedPage(frame=desk_frame("desk.assign", _("Assigned")), answer=answer, rows=rows)
