"""The paper as it looked then, as PDF: each sheet with its drawing, what could be chosen, the key and the answer."""

from dataclasses import dataclass

from trainer.bank import Bank
from trainer.exports.about import About, Tally
from trainer.exports.asked import Asked, AskedPaper, answered, beside, summary
from trainer.exports.pdf.block import CAUTION, Block, Box, frame, sheet_box
from trainer.exports.pdf.drawing import draw, size_of
from trainer.exports.pdf.paper import FINE, SIZES, Paper, Pen, listed
from trainer.exports.pdf.rows import AIR, Column, Flow, Words, table
from trainer.exports.voice import PLAIN, Voice
from trainer.records.chain import Entry
from trainer.records.instants import read_instant
from trainer.records.people import PersonRow
from trainer.wording import mark, say

PAD = 4.0
NAME, LEDE, TITLE, ASKED, BODY = (
    Pen(size=16, bold=True),
    Pen(size=9),
    Pen(size=10, bold=True),
    Pen(size=9, bold=True),
    Pen(size=8.5),
)
SOFT, BOLD = Pen(size=7, soft=True), Pen(size=8, bold=True)
DRAWN, HIGHEST = 100.0, 62.0  # mm: how wide and how high a drawing is at most
NOT_KEPT = mark(
    "The content of this sitting was not kept, so its words cannot be printed. The answers stand in the entry."
)
KEPT = mark(
    "Put together from the entry and from the content of that edition, both proved by their codes; today’s bank has no part in it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sat:
    """Whose sitting it was: the person, and the name that they had then."""

    person: PersonRow
    name: str


def asked_pdf(
    found: AskedPaper, sat: Sat, bank: Bank, about: About, voice: Voice = PLAIN, *, size: str = "a4"
) -> bytes:
    """Return the paper of one sitting. ``bank`` names the programme where that sitting's own content was not kept."""
    tally = Tally({"entry": found.entry.reference})
    tally.note(found.entry.digest)
    title = f"{found.entry.reference}, {sat.name}"
    paper = Paper(SIZES[size], voice, title=title, site=about.site, made_at=about.made_at)
    flow = Flow(paper, lambda: _turn(paper, _block(found.entry, sat, about, tally, voice)))
    _head(flow, found, found.bank or bank)
    for sheet in found.sheets:
        _sheet(flow, sheet)
    if found.bank is None:
        flow.y = paper.lines(flow.left, flow.y + 4, flow.right - flow.left, voice.tell(NOT_KEPT), ASKED)
    return paper.data()


def _block(entry: Entry, sat: Sat, about: About, tally: Tally, voice: Voice) -> Block:
    body = entry.body
    ended = voice.moment(read_instant(body["ended_at"]), about.zone)
    rows = (
        (
            Box(label=mark("Person"), value=f"{sat.name}, {sat.person.number}", share=2.4),
            Box(label=mark("Plant"), value=about.site, share=1.6),
            Box(label=mark("Edition"), value=str(body["edition"]), share=0.7),
            Box(label=mark("Seed"), value=str(body["seed"]), share=1.1, mono=True),
            Box(label=mark("Fingerprint"), value=body["fingerprint"][:16], share=1.3, mono=True),
        ),
        (
            Box(label=mark("Entry"), value=entry.reference, share=0.8),
            Box(label=mark("Handed in"), value=ended, share=1.5),
            Box(label=mark("Made at"), value=voice.moment(about.made_at, about.zone), share=1.5),
            Box(label=mark("Check code"), value=tally.code, share=1.4, mono=True),
            Box(label=mark("Sheet"), value="", share=0.8),
        ),
    )
    return Block(rows=rows, note=voice.tell(CAUTION), strip=mark("The paper as it looked then"), site=about.site)


def _turn(paper: Paper, block: Block) -> tuple[float, float, float, float]:
    paper.add_page()
    first, second = block.rows
    made = Block(
        rows=(first, (*second[:-1], sheet_box(paper, second[-1].share))),
        note=block.note,
        strip=block.strip,
        site=block.site,
    )
    left, top, right, bottom = frame(paper, made)
    return left + PAD, top + PAD, right - PAD, bottom - 1.0


def _head(flow: Flow, found: AskedPaper, bank: Bank) -> None:
    paper, body, voice = flow.paper, found.entry.body, flow.paper.voice
    width = flow.right - flow.left
    programme = bank.programmes.get(body["programme"])
    flow.y = paper.lines(
        flow.left, flow.y, width, programme.name.in_(voice.language) if programme else body["programme"], NAME
    )
    for told in summary(found, voice):
        flow.y = paper.lines(flow.left, flow.y, width, voice.tell(told), LEDE)
    flow.y = paper.lines(flow.left, flow.y + 0.5, width, voice.tell(KEPT), SOFT)


def _sheet(flow: Flow, sheet: Asked) -> None:
    paper, voice = flow.paper, flow.paper.voice
    width = flow.right - flow.left
    wide, high = _fitted(sheet.drawing)
    flow.y += 2.5
    if not flow.need(24.0 + high):
        paper.rule(flow.left - PAD, flow.y, flow.right + PAD, flow.y, FINE)
    flow.y = paper.lines(flow.left, flow.y + 1.5, width, _title(sheet, voice), TITLE)
    for told in sheet.told:
        flow.y = paper.lines(flow.left, flow.y + 0.5, width, told, BODY)
    flow.y = paper.lines(flow.left, flow.y + 0.5, width, sheet.asked, ASKED)
    if sheet.drawing:
        flow.y += draw(paper, sheet.drawing, flow.left, flow.y + 1.0, wide) + 2.0
    if sheet.given:
        given = "; ".join(f"{label}: {amount}" for label, amount in sheet.given)
        flow.y = paper.lines(flow.left, flow.y + 0.5, width, given, BODY)
    if sheet.beside:
        flow.y = paper.lines(flow.left, flow.y + 0.5, width, beside(sheet, voice), BODY)
    _choices(flow, sheet)
    flow.y = paper.lines(flow.left, flow.y + 1.0, width, answered(sheet, voice), BOLD)


def _title(sheet: Asked, voice: Voice) -> str:
    version = voice.tell(say("{item} version {version}", item=sheet.item, version=sheet.version))
    critical = voice.tell(mark("critical")) if sheet.critical else ""
    return f"{sheet.number}.  " + listed([part for part in (version, sheet.competency, critical) if part])


def _choices(flow: Flow, sheet: Asked) -> None:
    if not sheet.rows:
        return
    flow.y += AIR
    free = flow.right - flow.left
    side = 46.0 if any(len(row.yours) > 12 for row in sheet.rows) else 24.0
    columns = (
        Column(head="", width=6.0),
        Column(head=mark("As shown"), width=free - 6.0 - 2 * side - 7.5),
        Column(head=mark("Answered"), width=side),
        Column(head=mark("Key"), width=side),
    )
    rows = (
        [
            [Words(text=row.letter, pen=BOLD)],
            [Words(text=row.words, pen=BODY)],
            [Words(text=row.yours, pen=BODY if row.good else BOLD)],
            [Words(text=row.needed, pen=BODY)],
        ]
        for row in sheet.rows
    )
    table(flow, columns, rows)


def _fitted(svg: str) -> tuple[float, float]:
    """Return how wide and how high a drawing is printed."""
    if not svg:
        return 0.0, 0.0
    wide, high = size_of(svg)
    width = min(DRAWN, HIGHEST * wide / high)
    return width, width * high / wide
