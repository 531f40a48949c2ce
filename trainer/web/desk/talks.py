"""A talk to a group: what is shown on the wall, and who was there."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from random import Random

from trainer.assessment import drills
from trainer.assessment.paper import Sheet, SheetKind, question_sheet
from trainer.bank import Bank
from trainer.bank.model import Lesson, ProgrammeKind
from trainer.errors import Missing
from trainer.records.ledger import Entry
from trainer.records.people import PersonRow
from trainer.records.talks import Talk
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.talkpages import Came, DoorPage, Held, TalksPage
from trainer.web.desk.wall import racing
from trainer.web.filters import clock_time, day
from trainer.web.language import current
from trainer.web.listing import Order, Wish, listed
from trainer.web.rooms import rooms
from trainer.web.roster import named
from trainer.web.standings import any_of
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say

# Kinds that cannot be talked about as a list of answers.
LISTED = frozenset({"match", "reasoned", "order", "number", "point", "spot"})
LATE = 1  # minutes after the beginning from which somebody came late
BACK = timedelta(days=365)


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A talk as it was prepared: what is talked about, the drill after it, and the seed of what is drawn."""

    talk: Talk
    drill: str
    seed: int

    def as_data(self) -> dict[str, str | int]:
        """Return what a signed cookie keeps of it."""
        begun = self.talk.begun_at.isoformat() if self.talk.begun_at else ""
        return {"id": self.talk.id, "item": self.talk.item, "drill": self.drill, "seed": self.seed, "begun": begun}


def prepare(bank: Bank, data: Mapping[str, str | int], *, presenter: str) -> Prepared:
    """Read a talk from what was chosen or kept; :class:`Missing` where the bank has no such topic or drill."""
    item, drill, begun = str(data.get("item", "")), str(data.get("drill", "")), str(data.get("begun", ""))
    if drill and drill not in {one for one, _name in racing(bank)}:
        raise Missing(say("There is no drill {drill} to show.", drill=drill))
    talk = Talk(
        id=str(data["id"]),
        topic=topic_of(bank, item),
        item=item,
        edition=bank.edition,
        language=current(),
        presenter=presenter,
        begun_at=datetime.fromisoformat(begun) if begun else None,
    )
    return Prepared(talk=talk, drill=drill, seed=int(data["seed"]))


def begun(prepared: Prepared, at: datetime) -> Prepared:
    """Return the talk with its beginning; beginning twice changes nothing."""
    return prepared if prepared.talk.begun_at else replace(prepared, talk=replace(prepared.talk, begun_at=at))


def topic_of(bank: Bank, item: str) -> str:
    """Return what is talked about, in the reader's language; :class:`Missing` where the bank does not have it."""
    if item in bank.programmes:
        return bank.programmes[item].name.in_(current())
    if item in bank.scenarios:
        return bank.scenarios[item].title.in_(current())
    raise Missing(say("Choose the topic from the list."))


def sheets_of(bank: Bank, prepared: Prepared) -> tuple[Sheet, ...]:
    """Return what is shown, in order: to read, to talk about, to work out."""
    item, rng = prepared.talk.item, Random(prepared.seed)  # noqa: S311  (keeps no secret)
    programme = bank.programmes.get(item)
    read = programme.scenarios if programme else (item,)
    asked = tuple(programme.blueprint.questions) if programme else (item,)
    lessons = [one for name in read for one in bank.scenarios[name].lessons]
    questions = [one for name in asked for one in bank.scenarios[name].questions if one.kind not in LISTED]
    rows: list[dict[str, object]] = [_lesson(one) for one in lessons]
    rows += [question_sheet(one, rng, critical=False) for one in questions]
    if prepared.drill:
        rows.append(_drill(bank, prepared.drill, rng))
    return tuple(Sheet(number=number, **row) for number, row in enumerate(rows, 1))  # type: ignore[arg-type]


def _lesson(lesson: Lesson) -> dict[str, object]:
    return {"kind": SheetKind.LESSON, "item": lesson.id, "version": 0, "competency": ""}


def _drill(bank: Bank, drill: str, rng: Random) -> dict[str, object]:
    found = bank.drills[drill]
    drawn = drills.draw(found, rng)
    kind = SheetKind.DRILL
    return {"kind": kind, "item": drill, "version": found.version, "competency": found.competency, "drawn": drawn}


def talks_page(
    bank: Bank,
    entries: Sequence[Entry],
    people: Mapping[str, PersonRow],
    wish: Wish,
    *,
    topic: str,
    going_on: Prepared | None,
) -> TalksPage:
    """Build the sheet on which a talk is prepared."""
    language = current()
    talks = [(one.id, one.name.in_(language)) for one in bank.programmes.values() if one.kind is ProgrammeKind.TALK]
    talks += [(one.id, f"{one.title.in_(language)} ({one.id})") for one in bank.scenarios.values()]
    orders: dict[str, Order[Held]] = {
        "day": Order(label=_("Day")),
        "topic": Order(label=_("Topic"), key=lambda one: one.topic),
        "presenter": Order(label=_("Presenter"), key=lambda one: one.presenter),
    }
    held = _held(entries, people)
    listing = listed(held, wish, "desk.talks", orders, lambda one: f"{one.day} {one.topic} {one.presenter}")
    return TalksPage(
        frame=desk_frame("desk.talks", _("Talks")),
        topics=any_of(talks, _("choose")),
        topic=topic,
        drills=any_of(racing(bank), _("no drill")),
        going_on=going_on.talk.topic if going_on else "",
        listing=listing,
    )


def _held(entries: Iterable[Entry], people: Mapping[str, PersonRow]) -> list[Held]:
    """Gather talks from the entries of those who were there, newest first; a talk without a number by topic and day."""
    found: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        key = entry.body.get("session") or f"{entry.happened_on} {entry.body['topic']}"
        found[str(key)].append(entry)
    return [_talk(rows, people) for rows in reversed(found.values())]


def _talk(rows: Sequence[Entry], people: Mapping[str, PersonRow]) -> Held:
    first = rows[0]
    presenter = str(first.body.get("presenter", ""))
    late = sum(_late(entry) >= LATE for entry in rows)
    return Held(
        day=day(first.happened_on),
        topic=str(first.body["topic"]),
        presenter=people[presenter].name if presenter in people else presenter,
        people=ngettext("%(num)s person", "%(num)s people", len(rows)),
        late=ngettext("%(num)s came late", "%(num)s came late", late) if late else "",
    )


def _late(entry: Entry) -> int:
    return int(entry.body.get("late_minutes", 0))


def door_page(
    prepared: Prepared,
    entries: Sequence[Entry],
    people: Mapping[str, PersonRow],
    *,
    typed: str = "",
    refusal: Sentence | None = None,
) -> DoorPage:
    """Build the sheet for badging in, the newest first."""
    zone = rooms().settings.zone
    rows = tuple(_came(number, entry, people) for number, entry in enumerate(entries, 1))
    start = prepared.talk.begun_at
    return DoorPage(
        frame=desk_frame("desk.talks", _("Who is here?")),
        topic=prepared.talk.topic,
        begun=clock_time(start.astimezone(zone)) if start else "",
        last=rows[-1].person.name if rows else "",
        rows=rows[::-1],
        typed=typed,
        refusal=refusal,
    )


def _came(number: int, entry: Entry, people: Mapping[str, PersonRow]) -> Came:
    late = _late(entry)
    return Came(
        number=number,
        person=named(people[entry.person], "desk.person"),
        at=clock_time(entry.recorded_at.astimezone(rooms().settings.zone)),
        late=ngettext("%(num)s minute late", "%(num)s minutes late", late) if late >= LATE else "",
        entry=entry.number,
    )
