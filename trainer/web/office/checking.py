"""What in the data asks for a second look: the sheet and its file."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from flask import Response, render_template, request

from trainer.exports.csvfile import csv_pieces
from trainer.exports.quality import TITLES, quality_table
from trainer.records import people
from trainer.records.items import reading_words
from trainer.records.people import PersonRow
from trainer.records.quality import Found, Kind, counted, quality
from trainer.web.access import OFFICER, doors
from trainer.web.language import translate
from trainer.web.office.files import handed
from trainer.web.office.frames import office_frame
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.roster import named
from trainer.web.sheet import Box, Frame, Named, Pages, address, turn
from trainer.web.words import _, _l, ngettext
from trainer.wording import Sentence

NOTES = {
    Kind.FUTURE: _l("such an entry authorises nobody until its day is confirmed"),
    Kind.BEFORE_HIRE: _l("either the day or the roster is wrong"),
    Kind.CLOCK: _l("such an entry authorises nobody until its day is confirmed"),
    Kind.BATCH: _l("four or more by one evaluator, each within ten minutes of the one before"),
    Kind.LATE: _l("both days are on record"),
    Kind.ONE_FOR_MANY: _l("more than eight in ten; somebody else should judge now and then"),
    Kind.LANGUAGE: _l("none of the languages shown is the person’s own"),
    Kind.TOO_FAST: _l("one answer in four or more; a sign about the paper, never against a person"),
    Kind.NO_FILE: _l("words alone cannot be looked up later"),
    Kind.NO_WAY_IN: _l("they need somebody else to come in"),
    Kind.NAMESAKES: _l("look at the number before an entry is made"),
}
SHOWN = 8  # entries linked in one line; the file has them all


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundRow:
    """One thing to look at, as shown; ``more`` counts the entries that are only in the file."""

    people: tuple[Named, ...]
    told: Sentence
    entries: tuple[int, ...]
    more: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundGroup:
    """What is of one kind."""

    kind: str
    title: str
    note: str
    rows: tuple[FoundRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A kind that can be looked at alone."""

    label: str
    url: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class QualityPage:
    """What asks for a second look."""

    frame: Frame
    answer: str
    ways: tuple[Way, ...]
    groups: tuple[FoundGroup, ...]
    pages: Pages
    csv: str


@bp.get("/quality")
@doors.needs(OFFICER)
def check_data() -> str:
    """Show what asks for a second look."""
    opened = rooms()
    with opened.record.reading() as reading:
        found = quality(reading, reading_words(opened.bank))
        everybody = {one.key: one for one in people.all_people(reading)}
    page = _page(found, everybody, kind=request.args.get("kind", ""), wanted=request.args.get("page", "1"))
    return render_template("office/quality.html", page=page)


@bp.get("/quality.csv")
@doors.needs(OFFICER)
def quality_csv() -> Response:
    """Hand over what asks for a second look."""
    opened = rooms()
    with opened.record.reading() as reading:
        today = reading.today()

    def pieces() -> Iterator[bytes]:
        with opened.record.reading() as reading:
            everybody = {one.key: one for one in people.all_people(reading)}
            yield from csv_pieces(quality_table(quality(reading, reading_words(opened.bank)), everybody, on=today))

    return handed(pieces(), f"quality-{today}.csv")


def _page(found: Sequence[Found], everybody: Mapping[str, PersonRow], *, kind: str, wanted: str) -> QualityPage:
    counts = counted(found)
    kind = kind if kind in counts else ""
    rows, pages = turn([one for one in found if kind in {"", one.kind}], wanted, "office.check_data", kind=kind)
    whole = ngettext("%(num)s thing asks for a second look.", "%(num)s things ask for a second look.", len(found))
    nothing, caution = _("Nothing asks for a second look."), _("None of it is proof of a fault.")
    ways = [Way(label=_("all: %(count)s", count=len(found)), url=address("office.check_data"), here=not kind)]
    ways += [
        Way(
            label=f"{translate(TITLES[one])}: {counts[one]}",
            url=address("office.check_data", kind=one.value),
            here=kind == one,
        )
        for one in Kind
        if one in counts
    ]
    return QualityPage(
        frame=office_frame("office.questions", _("Data quality"), Box(label=_("To look at"), value=str(len(found)))),
        answer=f"{whole} {caution}" if found else nothing,
        ways=tuple(ways),
        groups=tuple(_group(one, rows, everybody) for one in Kind if any(row.kind is one for row in rows)),
        pages=pages,
        csv=address("office.quality_csv"),
    )


def _group(kind: Kind, rows: Sequence[Found], everybody: Mapping[str, PersonRow]) -> FoundGroup:
    return FoundGroup(
        kind=kind.value,
        title=translate(TITLES[kind]),
        note=str(NOTES[kind]),
        rows=tuple(_row(one, everybody) for one in rows if one.kind is kind),
    )


def _row(one: Found, everybody: Mapping[str, PersonRow]) -> FoundRow:
    more = len(one.entries) - SHOWN
    return FoundRow(
        people=tuple(named(everybody[key], "office.person") for key in one.people if key in everybody),
        told=one.told,
        entries=one.entries[:SHOWN],
        more=ngettext("and %(num)s more in the file", "and %(num)s more in the file", more) if more > 0 else "",
    )
