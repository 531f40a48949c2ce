"""Whose row is it? By the number, then by the name; whatever these leave open is asked, one person at a time."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from trainer.records.names import folded
from trainer.records.people import PersonRow
from trainer.records.roster.alike import akin, same_name
from trainer.records.roster.fates import Act, Fate, Row
from trainer.records.roster.known import Known
from trainer.records.roster.questions import Asked, Choice, Question
from trainer.records.roster.refusals import Refusal
from trainer.records.roster.updating import refused, updated, with_fate
from trainer.records.roster.values import Stated
from trainer.wording import Sentence, say

NEW, BACK, RENAMED, RENUMBERED = "new", "back", "renamed", "renumbered"
FUTURE = "future"


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What deciding about one row needs to know about the others.

    ``seen`` are the keys of those whose number is in the file; ``future`` says that first days to come are right.
    """

    known: Known
    asked: Asked
    seen: frozenset[str]
    future: bool


def decide(stated: Stated, context: Context) -> Row:
    """Return what becomes of a row."""
    if stated.refusals:
        return refused(stated)
    if stated.open:
        return with_fate(stated, Fate.ASKED, *stated.open)
    current = context.known.by_number.get(stated.number)
    if current is not None:
        return _current(stated, current, context)
    holders = context.known.had(stated.number)
    return _former(stated, holders, context) if holders else _unknown(stated, context)


def _current(stated: Stated, person: PersonRow, context: Context) -> Row:
    if same_name(stated.name, person.name) or akin(stated.name, person.name):
        return updated(stated, person, context.known)
    told = say(
        "{number} is {old} on record and {new} in the file. Is that one person?",
        number=stated.number,
        old=person.name,
        new=stated.name,
    )
    same = Choice(RENAMED, say("Yes, {old} is called {new} now", old=person.name, new=stated.name))
    if _ask(stated, told, (same,), context) is None:
        return with_fate(
            stated, Fate.ASKED, told, say("If it is another person, {old} has to leave first.", old=person.name)
        )
    return updated(stated, person, context.known)


def _former(stated: Stated, holders: Sequence[PersonRow], context: Context) -> Row:
    """Decide about a number that nobody has now and somebody had."""
    here = [one for one in holders if one.status == "active" and same_name(one.name, stated.name)]
    if here:
        told = say(
            "{old} was the number of {name} and is {new} now.", old=stated.number, name=here[0].name, new=here[0].number
        )
        return refused(stated, Refusal(told, say("Write the present number.")))
    left = [one for one in holders if one.status != "active"]
    listed = [one for one in left if same_name(one.name, stated.name) and stated.ended is not None]
    if listed and stated.ended is not None and stated.ended < context.known.today:
        return _listed_still(stated, listed[0])
    names = ", ".join(dict.fromkeys(one.name for one in holders))
    told = say("{number} was the number of {names}. Whose is it now?", number=stated.number, names=names)
    return _who(stated, told, [one for one in left if akin(one.name, stated.name)], context, names=names)


def _listed_still(stated: Stated, person: PersonRow) -> Row:
    if stated.ended == person.ended:
        return with_fate(stated, Fate.UNCHANGED, act=Act(key=person.key))
    told = say("On record the last day is {day}, and it stays.", day=str(person.ended))
    return with_fate(stated, Fate.SKIPPED, told)


def _unknown(stated: Stated, context: Context) -> Row:
    """Decide about a number that nobody ever had."""
    if stated.ended is not None and stated.ended < context.known.today:
        return with_fate(
            stated, Fate.SKIPPED, say("Left on {day} and was never on record here.", day=str(stated.ended))
        )
    namesakes = context.known.by_name.get(folded(stated.name), ())
    left = [one for one in namesakes if one.status != "active"]
    gone = [one for one in namesakes if one.status == "active" and one.key not in context.seen]
    if not left and not gone:
        return _added(stated, context)
    named = ", ".join(f"{one.number} {one.name}" for one in (*left, *gone))
    told = say("{number} is new, and the name is that of {names}. Who is it?", number=stated.number, names=named)
    return _who(stated, told, left, context, gone=gone, names=named)


def _who(
    stated: Stated,
    told: Sentence,
    left: Sequence[PersonRow],
    context: Context,
    *,
    names: str,
    gone: Sequence[PersonRow] = (),
) -> Row:
    """Ask who somebody is, and act on the answer: another person, one who is back, one with another number."""
    people = {**_named(BACK, left), **_named(RENUMBERED, gone)}
    other = say(
        "{name} is another person and begins with an empty record; nothing of {names} moves",
        name=stated.name,
        names=names,
    )
    choices = [Choice(NEW, other), *(_choice(value, one) for value, one in people.items())]
    answer = _ask(stated, told, tuple(choices), context)
    if answer is None:
        return with_fate(stated, Fate.ASKED, told)
    if answer == NEW:
        return _added(stated, context, say("Another person than {names}.", names=names))
    person = people[answer]
    return _back(stated, person, context) if person.status != "active" else updated(stated, person, context.known)


def _named(value: str, those: Sequence[PersonRow]) -> dict[str, PersonRow]:
    return {value if len(those) == 1 else f"{value}-{place}": one for place, one in enumerate(those, start=1)}


def _choice(value: str, person: PersonRow) -> Choice:
    if person.status == "active":
        told = say("{name}, {number} until now, has another number", name=person.name, number=person.number)
    else:
        told = say(
            "{name}, {number}, who left on {day}, is back",
            name=person.name,
            number=person.number,
            day=str(person.ended),
        )
    return Choice(value, told)


def _ask(stated: Stated, told: Sentence, choices: tuple[Choice, ...], context: Context) -> str | None:
    return context.asked.ask(Question(id=f"person:{stated.number}", sentence=told, choices=choices, line=stated.line))


def _added(stated: Stated, context: Context, *reasons: Sentence) -> Row:
    started = stated.fields.get("started")
    if started is not None and started > context.known.today and not context.future:
        return with_fate(stated, Fate.ASKED, say("The first day, {day}, is still to come.", day=str(started)))
    act = Act(
        key=None,
        number=stated.number,
        name=stated.name,
        sort_name=stated.sort_name,
        fields=stated.fields,
        leave_on=stated.ended,
    )
    return with_fate(stated, Fate.NEW, *reasons, act=act)


def _back(stated: Stated, person: PersonRow, context: Context) -> Row:
    """Take somebody back. Where the file does not say since when, today is the day: the later, the more is due."""
    started, ended = stated.fields.get("started"), person.ended
    on: date = started if started is not None and ended is not None and started > ended else context.known.today
    if on > context.known.today:
        told = say("Is back on {day}; import the file again then.", day=str(on))
        return with_fate(stated, Fate.SKIPPED, told)
    told = say("Is back since {day}; what was shown before has to be renewed.", day=str(on))
    return updated(stated, person, context.known, told, back_on=on)
