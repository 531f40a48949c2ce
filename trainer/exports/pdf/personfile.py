"""One person's file: where they stand and why, what they have shown, and every entry with both its days."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby

from trainer.assessment.mastery import Gap, State
from trainer.bank import Bank
from trainer.exports import words
from trainer.exports.about import About, Tally
from trainer.exports.pdf.block import CAUTION, Block, Box, frame, sheet_box
from trainer.exports.pdf.held import Held
from trainer.exports.pdf.histories import HISTORY, history_cells
from trainer.exports.pdf.marks import MARK, interval, standing_mark
from trainer.exports.pdf.paper import Paper, Pen, listed, paragraphs
from trainer.exports.pdf.rows import GAP, Cell, Column, Drawn, Flow, Words, table
from trainer.exports.voice import PLAIN, Voice
from trainer.records.chain import reference
from trainer.records.standing import Reason, Standing
from trainer.wording import mark, say

PAD = 4.0
NAME, LEDE, TITLE, BODY = Pen(size=20, bold=True), Pen(size=9), Pen(size=11, bold=True), Pen(size=8)
BOLD, SOFT, SMALL = Pen(size=8, bold=True), Pen(size=7, soft=True), Pen(size=7)
STANDING = (
    Column(head=mark("Machine, role"), width=27),
    Column(head=mark("Standing"), width=33),
    Column(head=mark("Because, with the entries"), width=73),
    Column(head=mark("Holds until, due on"), width=0),
)
SKILLS = (
    Column(head=mark("Competency"), width=58),
    Column(head=mark("Evidence"), width=33),
    Column(head=mark("0 to 100; the line is what is required, the dot the most likely"), width=50),
    Column(head=mark("Chance to be at that level"), width=0),
)
STATES = {
    State.GAP: mark("Open gap"),
    State.NOT_SETTLED: mark("Not settled"),
    State.SHOWN: mark("Shown"),
}
HOW = mark("How often this person would decide rightly, of 100. It lies between the ends of the line in 8 cases of 10.")
SPOILT = mark(
    "The ledger does not fit together in {count} places. Do not rely on this file until they are looked into."
)


@dataclass(slots=True, kw_only=True)
class Sheets:
    """A file that is being written."""

    paper: Paper
    bank: Bank
    held: Held
    block: Block
    letters: Iterator[str]


def person_pdf(
    held: Held, bank: Bank, about: About, tally: Tally, voice: Voice = PLAIN, *, size: tuple[float, float]
) -> bytes:
    """Return one person's file. ``tally`` gets to count the entries, so that every form of them has one check code."""
    for row in held.rows:
        tally.note(row.entry.digest)
    title = f"{held.person.name}, {held.person.number}"
    paper = Paper(size, voice, title=title, site=about.site, made_at=about.made_at)
    s = Sheets(paper=paper, bank=bank, held=held, block=_block(about, tally, held, voice), letters=iter("ABCDEF"))
    flow = Flow(paper, lambda: _turn(s, title))
    _head(s, flow)
    _standing(s, flow)
    _skills(s, flow)
    _rights(s, flow)
    _history(s, flow)
    return paper.data()


def _block(about: About, tally: Tally, held: Held, voice: Voice) -> Block:
    edition = "" if about.edition is None else str(about.edition)
    rows = (
        (
            Box(label=mark("Person"), value="", share=2.4),
            Box(label=mark("Plant"), value=about.site, share=1.6),
            Box(label=mark("Entries"), value=str(tally.rows), share=0.8),
            Box(label=mark("Bank edition"), value=edition, share=0.8),
        ),
        (
            Box(label=mark("As of"), value=voice.day(held.on)),
            Box(label=mark("As known on"), value=voice.day(held.known_on)),
            Box(label=mark("Made at"), value=voice.moment(about.made_at, about.zone), share=1.4),
            Box(label=mark("Check code"), value=tally.code, share=1.4, mono=True),
            Box(label=mark("Sheet"), value="", share=0.8),
        ),
    )
    return Block(rows=rows, note=voice.tell(CAUTION), strip=mark("One person’s file"), site=about.site)


def _turn(s: Sheets, title: str) -> tuple[float, float, float, float]:
    s.paper.add_page()
    first, second = s.block.rows
    rows = (
        (Box(label=first[0].label, value=title, share=first[0].share), *first[1:]),
        (*second[:-1], sheet_box(s.paper, second[-1].share)),
    )
    block = Block(rows=rows, note=s.block.note, strip=s.block.strip, site=s.block.site)
    left, top, right, bottom = frame(s.paper, block)
    return left + PAD, top + PAD, right - PAD, bottom - 1.0


def _head(s: Sheets, flow: Flow) -> None:
    held, tell, paper = s.held, s.paper.voice.tell, s.paper
    width = flow.right - flow.left
    flow.y = paper.fitted(flow.left, flow.y, (width, 26.0), held.person.name, NAME, least=8)
    flow.y = paper.lines(flow.left, flow.y + 0.5, width, _who(s), LEDE)
    may = [each for each in held.standings if each.may_run]
    told = say(
        "Authorised for {count} of {all} at the end of {day}, as known on {known}.",
        count=len(may),
        all=len(held.standings),
        day=held.on.isoformat(),
        known=held.known_on.isoformat(),
    )
    flow.y = paper.lines(flow.left, flow.y, width, tell(told), LEDE)
    if held.faults:
        flow.y = paper.lines(
            flow.left, flow.y + 1, width, tell(say(SPOILT, count=held.faults)), Pen(size=10, bold=True)
        )


def _who(s: Sheets) -> str:
    person, voice = s.held.person, s.paper.voice
    told = [person.number, person.shift, person.crew, person.agency or ""]
    if person.started:
        told.append(voice.tell(say("here since {day}", day=person.started.isoformat())))
    if person.ended:
        told.append(voice.tell(say("last day {day}", day=person.ended.isoformat())))
    earlier = [f"{one.name}, {one.number}" for one in s.held.names if (one.name, one.number) != _now(s)]
    if earlier:
        told.append(voice.tell(say("earlier {names}", names="; ".join(dict.fromkeys(earlier)))))
    return listed([part for part in told if part])


def _now(s: Sheets) -> tuple[str, str]:
    return s.held.person.name, s.held.person.number


def _section(s: Sheets, flow: Flow, title: str, note: str = "", *, need: float = 30.0) -> None:
    """Begin a part: its letter outside the frame, its title, and what has to be known about it."""
    flow.y += 3.0
    if not flow.need(need):
        s.paper.rule(flow.left - PAD, flow.y, flow.right + PAD, flow.y)
        flow.y += 2.5
    s.paper.put(flow.left - PAD - 5.5, flow.y, next(s.letters), Pen(size=9, soft=True))
    told = s.paper.voice.tell(title)
    s.paper.put(flow.left, flow.y, told, TITLE)
    flow.y += TITLE.line + 0.5
    if note:
        flow.y = s.paper.lines(flow.left, flow.y, flow.right - flow.left, s.paper.voice.tell(note), SOFT) + 0.5


def _filled(flow: Flow, columns: Sequence[Column]) -> list[Column]:
    """Give the last column the room that is left."""
    used = sum(column.width + GAP for column in columns[:-1])
    return [*columns[:-1], Column(head=columns[-1].head, width=flow.right - flow.left - used)]


def _standing(s: Sheets, flow: Flow) -> None:
    _section(s, flow, mark("Where this person stands, and why"))
    if not s.held.standings:
        told = s.paper.voice.tell(mark("Nothing on record for any machine. Nothing on record is not authorised."))
        flow.y = s.paper.lines(flow.left, flow.y, flow.right - flow.left, told, BODY)
        return
    order = {word: place for place, word in enumerate(words.STANDINGS)}
    found = sorted(s.held.standings, key=lambda each: (each.machine, order[each.word], each.role))
    table(flow, _filled(flow, STANDING), (_standing_cells(s, each) for each in found))


def _standing_cells(s: Sheets, each: Standing) -> list[Cell]:
    voice, shape = s.paper.voice, words.MARKS[each.word]
    role = voice.tell(words.ROLES.get(each.role, each.role))
    because = [Words(text=told_reason(voice, reason), pen=BODY) for reason in each.reasons]
    lacks = [Words(text=voice.tell(lack), pen=BOLD) for lack in each.lacks]
    until = [Words(text=voice.day(each.holds_until), pen=BOLD)] if each.holds_until else []
    due = voice.tell(say("due {day}", day=each.due_on.isoformat())) if each.due_on else ""
    return [
        [Words(text=each.machine, pen=BOLD), Words(text=role, pen=BODY)],
        [
            Drawn(height=0.0, draw=lambda paper, x, y: standing_mark(paper, x, y + 0.5, shape)),
            Words(text=voice.tell(words.STANDINGS[each.word]), pen=BOLD, indent=MARK[0] + 1.5),
        ],
        [*because, *lacks] or [Words(text=voice.tell(mark("Nothing on record.")), pen=BODY)],
        [*until, *([Words(text=due, pen=SMALL)] if due and each.due_on != each.holds_until else [])],
    ]


def told_reason(voice: Voice, reason: Reason) -> str:
    """Return a reason with the entries that say so."""
    return paragraphs(voice.tell(reason.sentence), listed([reference(number) for number in reason.entries]))


def _skills(s: Sheets, flow: Flow) -> None:
    _section(s, flow, mark("Competencies"), HOW if s.held.gaps else "")
    if not s.held.gaps:
        told = s.paper.voice.tell(mark("Nothing was asked and nothing was seen: nothing is known."))
        flow.y = s.paper.lines(flow.left, flow.y, flow.right - flow.left, told, BODY)
        return
    known = [gap for gap in s.held.gaps if gap.state is not State.NO_EVIDENCE]
    grouped = groupby(known, key=lambda gap: gap.state)
    table(flow, _filled(flow, SKILLS), (cells for state, found in grouped for cells in _group(s, state, found)))
    unknown = [s.bank.competencies[gap.competency] for gap in s.held.gaps if gap.state is State.NO_EVIDENCE]
    if unknown:
        names = "; ".join(one.name.in_(s.paper.voice.language) for one in unknown)
        told = s.paper.voice.tell(say("No evidence, so unknown: {names}.", names=names))
        flow.y += 1.5
        flow.need(len(s.paper.broken(told, flow.right - flow.left, BODY)) * BODY.line)
        flow.y = s.paper.lines(flow.left, flow.y, flow.right - flow.left, told, BODY)


def _group(s: Sheets, state: State, found: Iterator[Gap]) -> Iterator[list[Cell]]:
    voice = s.paper.voice
    for number, gap in enumerate(found):
        name = s.bank.competencies[gap.competency].name.in_(voice.language)
        title = [Words(text=voice.tell(STATES[state]), pen=BOLD)] if number == 0 else []
        yield [
            [*title, Words(text=name, pen=BODY)],
            [Words(text=_evidence(voice, gap), pen=SMALL)],
            [Drawn(height=3.6, draw=partial(_bar, gap))],
            [Words(text=_chance(voice, gap), pen=BODY)],
        ]


def _bar(gap: Gap, paper: Paper, x: float, y: float) -> None:
    interval(paper, x, y, SKILLS[2].width, gap)


def _evidence(voice: Voice, gap: Gap) -> str:
    newest = gap.newest.isoformat() if gap.newest else ""
    told = say("{asked} answered, {seen} seen, newest {day}", asked=gap.answers - gap.seen, seen=gap.seen, day=newest)
    return voice.tell(told)


def _chance(voice: Voice, gap: Gap) -> str:
    share = int(gap.chance * 100)  # rounded down: nobody is called surer than they are
    return voice.tell(say("{share} in 100", share=share) if share else mark("under 1 in 100"))


def _rights(s: Sheets, flow: Flow) -> None:
    if not s.held.rights:
        return
    _section(s, flow, mark("What this person may judge"), need=20.0)
    voice = s.paper.voice
    for fact in s.held.rights:
        told = say(
            "{roles} on {kinds} until {until}: {basis}",
            roles=listed([voice.tell(words.ROLES.get(role, role)) for role in fact.body["roles"]]),
            kinds=listed([voice.tell(words.MACHINES.get(kind, kind)) for kind in fact.body["machine_kinds"]]),
            until=fact.body["valid_to"],
            basis=fact.body["basis"],
        )
        text = paragraphs(voice.tell(told), listed([reference(number) for number in fact.numbers]))
        flow.need(len(s.paper.broken(text, flow.right - flow.left, BODY)) * BODY.line)
        flow.y = s.paper.lines(flow.left, flow.y, flow.right - flow.left, text, BODY)


def _history(s: Sheets, flow: Flow) -> None:
    note = mark("Oldest first. None is ever changed; a correction is an entry of its own.")
    _section(s, flow, mark("Every entry"), note)
    if not s.held.rows:
        flow.y = s.paper.lines(flow.left, flow.y, 100.0, s.paper.voice.tell(mark("No entries.")), BODY)
        return
    people = words.named(s.bank, s.paper.voice)
    table(flow, _filled(flow, HISTORY), (history_cells(s.paper.voice, row, s.held, people) for row in s.held.rows))
