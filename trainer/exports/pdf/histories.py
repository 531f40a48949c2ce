"""Entries as rows of a person's file: when it happened, when it was recorded, what, by whom and by what right."""

from collections.abc import Mapping
from zoneinfo import ZoneInfo

from trainer.exports.pdf.held import Held
from trainer.exports.pdf.paper import Pen, paragraphs
from trainer.exports.pdf.rows import Cell, Column, Words
from trainer.exports.voice import Voice
from trainer.records.chain import EntryKind, reference
from trainer.records.history import HistoryRow
from trainer.records.lines import line
from trainer.wording import mark, say

BODY, BOLD, SMALL, TYPED = Pen(size=7.5), Pen(size=7.5, bold=True), Pen(size=7), Pen(size=7, mono=True)
HISTORY = (
    Column(head=mark("Happened on"), width=21),
    Column(head=mark("Recorded at"), width=23),
    Column(head=mark("Entry"), width=15),
    Column(head=mark("What"), width=66),
    Column(head=mark("By whom, by what right"), width=0),
)


def history_cells(voice: Voice, row: HistoryRow, held: Held, named: Mapping[str, str]) -> list[Cell]:
    """Return one entry as cells. ``named`` puts words in place of the ids in it."""
    entry = row.entry
    late = (
        [Words(text=voice.tell(say("entered late by {days} d", days=row.late_days)), pen=BOLD)] if row.late_days else []
    )
    doubt = [Words(text=voice.tell(mark("its day is in doubt")), pen=BOLD)] if entry.unverified else []
    by = [Words(text=f"{row.by.name}, {row.by.number}", pen=BODY)] if row.by else []
    right = _right(voice, row, held)
    return [
        [Words(text=voice.day(entry.happened_on), pen=BODY), *late, *doubt],
        [Words(text=voice.moment(entry.recorded_at, ZoneInfo(entry.zone)), pen=BODY)],
        [Words(text=entry.reference, pen=TYPED)],
        [Words(text=voice.tell(line(entry, named=named)), pen=BODY), *_details(voice, row)],
        [*([] if entry.kind is EntryKind.SITTING_MARKED else by), *([Words(text=right, pen=SMALL)] if right else [])],
    ]


def _right(voice: Voice, row: HistoryRow, held: Held) -> str:
    """Say by what right an entry came to be: a right to judge, a second person's yes, or the program's own marking."""
    body, number = row.entry.body, row.entry.number
    if row.entry.kind is EntryKind.PRACTICAL_SIGNED:
        right, until = body["entitlement"], held.entitling.get(body["entitlement"])
        told = say("right to judge {entry}", entry=reference(right))
        ends = say("until {day}", day=until.isoformat()) if until else ""
        return paragraphs(voice.tell(told), voice.tell(ends))
    if row.entry.kind is EntryKind.SITTING_MARKED:
        return voice.tell(say("marked by the program at {kiosk}", kiosk=body.get("kiosk") or "?"))
    if number in held.approved:
        return voice.tell(say("approved by {name}", name=held.approved[number]))
    return ""


def _details(voice: Voice, row: HistoryRow) -> list[Words]:
    """Tell what a line leaves out: the edition, the languages, what was needed, what was seen."""
    body, told = row.entry.body, []
    if row.entry.kind is EntryKind.SITTING_MARKED:
        languages = " ".join(body.get("languages") or [body.get("language", "")])
        values = {"needed": body["needed"], "edition": body["edition"], "languages": languages}
        told.append(voice.tell(say("{needed} needed; edition {edition}; in {languages}", **values)))
    if row.entry.kind is EntryKind.PRACTICAL_SIGNED:
        told.append(voice.tell(say("edition {edition}", edition=body["edition"])))
        told.append(body.get("comment", ""))
    return [Words(text=text, pen=SMALL) for text in told if text]
