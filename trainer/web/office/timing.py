"""How much time went into training: minutes of each person over a span of days, by name and never by time."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from dateutil.relativedelta import relativedelta
from flask import Response, render_template, request

from trainer.errors import UsageError
from trainer.exports.csvfile import csv_pieces
from trainer.exports.minutes import minutes_table
from trainer.records import Reading, people
from trainer.records.minutes import Spent, minutes
from trainer.records.people import PersonRow
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_last_day
from trainer.web.filters import day
from trainer.web.office.files import handed
from trainer.web.office.frames import office_frame
from trainer.web.office.pages import Choices
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Named, Pages, address, turn
from trainer.web.standings import any_of
from trainer.web.words import _, ngettext
from trainer.wording import Sentence, say


@dataclass(frozen=True, slots=True, kw_only=True)
class SpentRow:
    """What one person spent, as shown."""

    person: Named
    minutes: str
    papers: str
    talks: str
    practicals: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MinutesPage:
    """Minutes of each person over a span of days."""

    frame: Frame
    answer: str
    refusal: Sentence | None
    first: str
    last: str
    shifts: Choices
    shift: str
    rows: tuple[SpentRow, ...]
    pages: Pages
    csv: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """What was asked: from a day up to a day, of one shift or of all."""

    first: date
    last: date
    shift: str


@bp.get("/minutes")
@doors.needs(OFFICER)
def time_spent() -> str | tuple[str, int]:
    """Show how many minutes of training each person had."""
    refusal = None
    with rooms().record.reading() as reading:
        try:
            span = _span(reading)
        except UsageError as error:
            span, refusal = _usual(reading.today()), error.sentence
        found, everybody = _found(reading, span)
    page = _page(found, everybody, span, wanted=request.args.get("page", "1"), refusal=refusal)
    return render_template("office/minutes.html", page=page), 422 if refusal else 200


@bp.get("/minutes.csv")
@doors.needs(OFFICER)
def time_spent_csv() -> Response:
    """Hand over how many minutes of training each person had."""
    record = rooms().record
    with record.reading() as reading:
        span = _span(reading)

    def pieces() -> Iterator[bytes]:
        with record.reading() as reading:
            found, everybody = _found(reading, span)
            made = minutes_table(found, everybody, since=span.first.isoformat(), until=span.last.isoformat())
            yield from csv_pieces(made)

    return handed(pieces(), f"minutes-{span.first}-{span.last}.csv")


def _usual(today: date) -> Span:
    return Span(first=today.replace(day=1) - relativedelta(months=1), last=today, shift="")


def _span(reading: Reading) -> Span:
    today, given = reading.today(), request.args
    first = read_last_day(given["first"], today=today) if given.get("first") else _usual(today).first
    last = read_last_day(given.get("last", ""), today=today)
    if last < first:
        raise UsageError(say("The first day lies before the last one."))
    return Span(first=first, last=last, shift=given.get("shift", "")[:80])


def _found(reading: Reading, span: Span) -> tuple[list[Spent], Mapping[str, PersonRow]]:
    """Return what was spent in the order of the names, and everybody by key."""
    everybody = {one.key: one for one in people.all_people(reading)}
    place = {key: number for number, key in enumerate(everybody)}
    found = [
        one
        for one in minutes(reading, since=span.first, until=span.last)
        if span.shift in {"", everybody[one.person].shift}
    ]
    return sorted(found, key=lambda one: place[one.person]), everybody


def _page(
    found: Sequence[Spent], everybody: Mapping[str, PersonRow], span: Span, *, wanted: str, refusal: Sentence | None
) -> MinutesPage:
    first, last = span.first.isoformat(), span.last.isoformat()
    rows, pages = turn(found, wanted, "office.time_spent", first=first, last=last, shift=span.shift)
    shifts = sorted({one.shift for one in everybody.values() if one.shift})
    whole = sum(one.minutes for one in found)
    answer = ngettext("%(num)s minute at papers", "%(num)s minutes at papers", whole)
    count = ngettext("%(num)s person", "%(num)s people", len(found))
    return MinutesPage(
        frame=office_frame("office.questions", _("Time spent"), Box(label=_("Minutes"), value=str(whole))),
        answer=_("%(minutes)s, of %(people)s.", minutes=answer, people=count),
        refusal=refusal,
        first=day(span.first),
        last=day(span.last),
        shifts=any_of((shift, shift) for shift in shifts),
        shift=span.shift,
        rows=tuple(_row(one, everybody[one.person]) for one in rows),
        pages=pages,
        csv=address("office.time_spent_csv", first=first, last=last, shift=span.shift),
    )


def _row(one: Spent, person: PersonRow) -> SpentRow:
    left_out = ngettext("%(num)s break left out", "%(num)s breaks left out", one.breaks) if one.breaks else ""
    return SpentRow(
        person=named(person, "office.person"),
        minutes=str(one.minutes),
        papers=str(one.papers),
        talks=str(one.talks),
        practicals=str(one.practicals),
        note=left_out,
    )
