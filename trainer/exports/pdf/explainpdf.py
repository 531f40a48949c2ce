"""One page: what a person should be able to explain, for whoever checks papers against an interview."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from trainer.exports.about import About, Tally
from trainer.exports.explain import Explained
from trainer.exports.pdf.block import CAUTION, Block, Box, frame
from trainer.exports.pdf.paper import SIZES, Paper, Pen
from trainer.exports.pdf.rows import AIR, GAP, Cell, Column, Flow, Words, table
from trainer.exports.voice import PLAIN, Voice
from trainer.records.chain import reference
from trainer.records.people import PersonRow
from trainer.wording import mark, say

PAD = 4.0
NAME, LEDE, BODY, BOLD, SMALL = (
    Pen(size=16, bold=True),
    Pen(size=9),
    Pen(size=8),
    Pen(size=8, bold=True),
    Pen(size=7, soft=True),
)
COLUMNS = (
    Column(head=mark("Competency"), width=40),
    Column(head=mark("Asked, and answered rightly"), width=62),
    Column(head=mark("What it comes down to"), width=0),
    Column(head=mark("Entry"), width=19),
)
NOTHING = mark("No paper that was passed is on record up to that day, or its content was not kept.")
HOW = mark(
    "From what this person answered rightly in papers that were passed. Ask about it at the machine, in their own language."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Explaining:
    """Whose page it is, as of which day, and everything that could stand on it."""

    person: PersonRow
    on: date
    found: Sequence[Explained]


def explain_pdf(told: Explaining, about: About, voice: Voice = PLAIN, *, size: str = "a4") -> bytes:
    """Return the page. What does not fit on it is left out at the end and counted."""
    shown = len(told.found)
    paper, fitting = _made(told, about, voice, size, shown)
    while paper.page_no() > 1 and shown:
        shown = min(shown, fitting) - 1  # a row less: the line that counts the rest needs its room
        paper, fitting = _made(told, about, voice, size, shown)
    return paper.data()


def _made(told: Explaining, about: About, voice: Voice, size: str, shown: int) -> tuple[Paper, int]:
    """Return the paper, and how many rows stand on its first page."""
    tally = Tally({"person": told.person.number, "on": told.on.isoformat()})
    for one in told.found:
        tally.note([one.item, one.version, one.entry])
    title = f"{told.person.name}, {told.person.number}"
    paper = Paper(SIZES[size], voice, title=title, site=about.site, made_at=about.made_at)
    flow = Flow(paper, lambda: _turn(paper, _block(told, about, tally, voice)))
    width = flow.right - flow.left
    flow.y = paper.fitted(flow.left, flow.y, (width, 20.0), told.person.name, NAME, least=8)
    flow.y = paper.lines(flow.left, flow.y, width, voice.tell(mark("What this person should be able to explain")), LEDE)
    flow.y = paper.lines(flow.left, flow.y + 0.5, width, voice.tell(HOW if told.found else NOTHING), SMALL) + AIR
    room = width - sum(column.width for column in COLUMNS) - GAP * (len(COLUMNS) - 1)
    columns = tuple(column if column.width else Column(head=column.head, width=room) for column in COLUMNS)
    begun: list[int] = []
    table(flow, columns, _rows(told.found[:shown], paper, begun))
    left = len(told.found) - shown
    if left:
        more = voice.tell(say("{count} more competencies were shown and have no room on this page.", count=left))
        flow.y = paper.lines(flow.left, flow.y + AIR, width, more, SMALL)
    if flow.y > flow.bottom:
        flow.next_page()
    return paper, begun.count(1)


def _rows(found: Sequence[Explained], paper: Paper, begun: list[int]) -> Iterator[list[Cell]]:
    """Give the rows, and note the page on which each is asked for; the one before it is written by then."""
    for one in found:
        begun.append(paper.page_no())
        yield _row(one, paper.voice)


def _row(one: Explained, voice: Voice) -> list[Cell]:
    critical = [Words(text=voice.tell(mark("critical")), pen=SMALL)] if one.critical else []
    return [
        [Words(text=one.competency, pen=BOLD), *critical],
        [Words(text=one.asked, pen=BODY)],
        [Words(text=one.why, pen=BODY)],
        [Words(text=reference(one.entry), pen=BODY), Words(text=voice.day(one.on), pen=SMALL)],
    ]


def _block(told: Explaining, about: About, tally: Tally, voice: Voice) -> Block:
    rows = (
        (
            Box(label=mark("Person"), value=f"{told.person.name}, {told.person.number}", share=2.4),
            Box(label=mark("Plant"), value=about.site, share=1.6),
            Box(label=mark("As of"), value=voice.day(told.on)),
            Box(label=mark("Made at"), value=voice.moment(about.made_at, about.zone), share=1.3),
            Box(label=mark("Check code"), value=tally.code, share=1.3, mono=True),
        ),
    )
    return Block(rows=rows, note=voice.tell(CAUTION), strip=mark("To be explained"), site=about.site)


def _turn(paper: Paper, block: Block) -> tuple[float, float, float, float]:
    paper.add_page()
    left, top, right, bottom = frame(paper, block)
    return left + PAD, top + PAD, right - PAD, bottom - 1.0
