"""Calendar feeds of due dates as in RFC 5545 (2009): one all-day event for each programme that a person has to take.

Every day stands there as itself; no rule repeats it, since rules drift at months' ends. An event keeps its UID when
its day moves and then carries a higher SEQUENCE (the number of entries about that person), so that a calendar moves it
too. A day is the last one on which the standing holds.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from uuid import NAMESPACE_URL, uuid5
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from trainer.bank import Bank
from trainer.exports.about import About
from trainer.exports.voice import PLAIN, Voice
from trainer.records.chain import reference
from trainer.records.dues import DueRow
from trainer.records.people import PersonRow
from trainer.wording import Sentence, mark, say

PRODUCT = "-//trainer//due dates//EN"
ONE_DAY = timedelta(days=1)  # DTEND of an all-day event is the day after (RFC 5545 3.6.1)
TITLES = {
    "overdue": mark("Lapsed: {programme}"),
    "due": mark("Refresher due: {programme}"),
    "assigned": mark("To be passed: {programme}"),
}
CAUTION = mark("The record decides who may run a machine, not this calendar.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """What a feed is made with.

    ``base`` is the address of the site's program; ``newest`` says for each person how many entries there are and when
    the newest was recorded; ``alone`` is true for one person's own feed, which names nobody.
    """

    about: About
    bank: Bank
    people: Mapping[str, PersonRow]
    newest: Mapping[str, tuple[int, datetime]]
    base: str
    alone: bool = False


def calendar_pieces(rows: Iterable[DueRow], feed: Feed, voice: Voice = PLAIN) -> Iterator[bytes]:
    """Give what is due as a calendar, in pieces."""
    head = Calendar()
    head.add("prodid", PRODUCT)
    head.add("version", "2.0")
    head.add("calscale", "GREGORIAN")
    head.add("name", voice.tell(feed.about.what))
    head.add("x-wr-calname", voice.tell(feed.about.what))
    head.add("refresh-interval", ONE_DAY, parameters={"VALUE": "DURATION"})
    begun, end = head.to_ical().split(b"END:VCALENDAR")
    yield begun
    for row in rows:
        yield _event(row, feed, voice).to_ical()
    yield b"END:VCALENDAR" + end


def _event(row: DueRow, feed: Feed, voice: Voice) -> Event:
    length, recorded_at = feed.newest.get(row.person, (0, feed.about.made_at))
    event = Event()
    event.add("uid", str(uuid5(NAMESPACE_URL, f"{feed.base}/due/{row.person}/{row.programme}")))
    revised = _revised(row, recorded_at, feed.about.zone)
    event.add("dtstamp", revised)
    event.add("last-modified", revised)
    event.add("sequence", length)
    event.add("dtstart", row.due_on)
    event.add("dtend", row.due_on + ONE_DAY)
    event.add("summary", _summary(row, feed, voice))
    event.add("description", _description(row, voice))
    event.add("transp", "TRANSPARENT")  # nobody is busy because of it
    event.add("class", "CONFIDENTIAL")
    event.add("status", "CONFIRMED")
    return event


def _revised(row: DueRow, recorded_at: datetime, zone: ZoneInfo) -> datetime:
    """Return when the event came to read as it does: with the newest entry, or at the midnight at which it lapsed."""
    lapsed = datetime.combine(row.due_on + ONE_DAY, time.min, zone) if row.state == "overdue" else recorded_at
    return max(recorded_at, lapsed).astimezone(UTC).replace(microsecond=0)


def _summary(row: DueRow, feed: Feed, voice: Voice) -> str:
    programme = feed.bank.programmes.get(row.programme)
    name = programme.name.in_(voice.language) if programme else row.programme
    title = voice.tell(Sentence(TITLES[row.state], {"programme": name}))
    machines = f" ({', '.join(row.machines)})" if row.machines else ""
    person = feed.people.get(row.person)
    who = "" if feed.alone or person is None else f": {person.name}, {person.number}"
    return f"{title}{machines}{who}"


def _description(row: DueRow, voice: Voice) -> str:
    told = (voice.tell(row.reason), voice.tell(say("Entry {entry}.", entry=reference(row.entry))), voice.tell(CAUTION))
    return " ".join(told)
