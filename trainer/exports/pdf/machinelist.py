"""The list at the machine: who may run it, set it, help at it, who only beside somebody, and who may stand by.

Today's list is made to be posted and says until when it holds. A list of another day answers a question and says that
it is not to be posted.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby, zip_longest

from trainer.exports import words
from trainer.exports.about import About
from trainer.exports.pdf.block import CAUTION, Block, Box, frame, sheet_box
from trainer.exports.pdf.listed import Listed
from trainer.exports.pdf.marks import hatching
from trainer.exports.pdf.paper import FINE, MEDIUM, THICK, Paper, Pen
from trainer.exports.pdf.paper import listed as joined
from trainer.exports.pdf.rows import GAP, Cell, Column, Flow, Words, table
from trainer.exports.voice import PLAIN, Voice
from trainer.records.entitlements import JUDGE
from trainer.records.standing import Standing, StandingWord
from trainer.wording import mark, say

PAD = 5.0
HUGE, RULE, TITLE = Pen(size=40, bold=True), Pen(size=13, bold=True), Pen(size=13, bold=True)
NAME, SMALL, BODY = Pen(size=11, bold=True), Pen(size=8), Pen(size=9.5)
ACROSS = 3  # shifts beside each other
BAND = 3.0  # of hatching round those who work beside somebody
TITLES = {
    "operator": mark("May run it"),
    "setter": mark("May set it"),
    "helper": mark("May help, not run"),
    "lead": mark("May lead the work at it"),
    "maintenance": mark("May maintain it"),
}
NOBODY = mark("Nobody may work at this machine.")
POST, NOT_TO_POST = mark("Post at the machine"), mark("List of a day, not to be posted")
LIVE = mark("the list as it stands now, for the office")


class Board:
    """A list that is being written."""

    def __init__(self, found: Listed, about: About, voice: Voice, size: tuple[float, float], home: str) -> None:
        title = f"{found.machine.id}, {found.on.isoformat()}"
        self.found, self.about, self.home = found, about, home
        self.paper = Paper(size, voice, title=title, site=about.site, made_at=about.made_at)
        self.flow = Flow(self.paper, self.turn)

    def turn(self) -> tuple[float, float, float, float]:
        """Begin a sheet with its frame and block."""
        self.paper.add_page()
        left, top, right, bottom = frame(self.paper, _block(self))
        return left + PAD, top + PAD, right - PAD, bottom - 1.5

    @property
    def width(self) -> float:
        """Return how wide what is free is."""
        return self.flow.right - self.flow.left

    def tell(self, text: str) -> str:
        """Return a marked text in the language of the list."""
        return self.paper.voice.tell(text)


def list_pdf(found: Listed, about: About, voice: Voice = PLAIN, *, size: tuple[float, float], home: str = "") -> bytes:
    """Return the list of a machine; ``home`` is the address of the site's program."""
    board = Board(found, about, voice, size, home)
    _head(board)
    _rule(board)
    for role, some in _by_role(found.may):
        _role(board, role, some)
    if not found.may:
        _line(board, board.tell(NOBODY), RULE)
    _beside(board)
    _judges(board)
    _soon(board)
    return board.paper.data()


def _block(board: Board) -> Block:
    found, about, voice = board.found, board.about, board.paper.voice
    address = f"{board.home}/office/authorised?machine={found.machine.id}" if board.home and found.live else ""
    rows = (
        (
            Box(label=mark("Printed"), value=voice.moment(about.made_at, about.zone), share=1.3),
            *_holds(board),
        ),
        (
            Box(label=mark("Machine"), value=found.machine.id),
            Box(label=mark("As known on"), value=voice.day(found.known_on)),
            Box(label=mark("Bank edition"), value=str(about.edition or ""), share=0.7),
            Box(label=mark("Check code"), value=found.code, share=1.3, mono=True),
            sheet_box(board.paper, 0.6),
        ),
    )
    strip = POST if found.live else NOT_TO_POST
    return Block(
        rows=rows, note=voice.tell(CAUTION), address=address, code_note=voice.tell(LIVE), strip=strip, site=about.site
    )


def _holds(board: Board) -> list[Box]:
    """Return until when a list holds and why; for one of another day, the day."""
    found, voice = board.found, board.paper.voice
    if not found.live:
        return [Box(label=mark("As of"), value=voice.day(found.on), share=2.6)]
    return [
        Box(label=mark("Valid until"), value=voice.day(found.until)),
        Box(label=mark("Because it ends then for"), value=joined(found.ends), share=1.6),
    ]


def _by_role(some: Sequence[Standing]) -> Iterator[tuple[str, list[Standing]]]:
    order = {role: place for place, role in enumerate(TITLES)}
    ranked = sorted(some, key=lambda one: order.get(one.role, len(order)))
    for role, group in groupby(ranked, key=lambda one: one.role):
        yield role, list(group)


def _head(board: Board) -> None:
    paper, flow, machine = board.paper, board.flow, board.found.machine
    flow.y = paper.fitted(flow.left, flow.y, (board.width, 18.0), machine.id, HUGE, least=12)
    kind = board.tell(words.MACHINES.get(machine.kind, machine.kind))
    flow.y = paper.lines(flow.left, flow.y, board.width, f"{machine.name} ({kind})", Pen(size=11)) + 3


def _rule(board: Board) -> None:
    """Write the rule of the list between two thick lines."""
    found, voice = board.found, board.paper.voice
    if found.live:
        told = say("Not on this list, or after {day}: do not use it.", day=found.until.isoformat())
    else:
        told = say(
            "How it stood at the end of {day}, as known on {known}. Not to be posted.",
            day=found.on.isoformat(),
            known=found.known_on.isoformat(),
        )
    flow = board.flow
    board.paper.rule(flow.left - PAD, flow.y, flow.right + PAD, flow.y, THICK)
    flow.y = board.paper.lines(flow.left, flow.y + 2.5, board.width, voice.tell(told), RULE) + 2.5
    board.paper.rule(flow.left - PAD, flow.y, flow.right + PAD, flow.y, THICK)
    flow.y += 3


def _title(board: Board, title: str, note: str = "", *, need: float = 22.0, line: bool = True) -> None:
    flow = board.flow
    if not flow.need(need) and line:
        board.paper.rule(flow.left - PAD, flow.y, flow.right + PAD, flow.y, FINE)
        flow.y += 2.5
    told = board.tell(title)
    board.paper.put(flow.left, flow.y, told, TITLE)
    if note:
        beside = flow.left + board.paper.wide(told, TITLE) + 3
        room = flow.right - beside
        board.paper.fitted(beside, flow.y + 1.6, (room, TITLE.line - 1.6), board.tell(note), SMALL)
    flow.y += TITLE.line + 1


def _role(board: Board, role: str, some: Sequence[Standing]) -> None:
    """List those of one role by shift, as many shifts beside each other as there is room for."""
    people = board.found.people

    def shift_of(one: Standing) -> str:
        return people[one.person].shift

    _title(board, TITLES.get(role, role), line=board.flow.y > board.flow.top + 45)
    shifts = {shift: list(group) for shift, group in groupby(sorted(some, key=shift_of), key=shift_of)}
    names = list(shifts)
    for start in range(0, len(names), ACROSS):
        part = names[start : start + ACROSS]
        width = (board.width - (ACROSS - 1) * GAP) / ACROSS
        columns = [Column(head=shift, width=width) for shift in part]
        columns += [Column(head="", width=width)] * (ACROSS - len(part))
        found = [shifts[shift] for shift in part] + [[]] * (ACROSS - len(part))
        table(board.flow, columns, ([_cell(board, one) for one in row] for row in zip_longest(*found)))
    board.flow.y += 3


def _cell(board: Board, one: Standing | None) -> Cell:
    """Return the name, the number and the day to which it holds; nothing for nobody."""
    if one is None:
        return []
    found, voice = board.found, board.paper.voice
    until = voice.tell(say("to {day}", day=(one.holds_until or found.on).isoformat()))
    told = joined([found.people[one.person].number, until])
    return [Words(text=found.names[one.person], pen=NAME), Words(text=told, pen=SMALL)]


def _line(board: Board, text: str, pen: Pen = BODY) -> None:
    flow = board.flow
    flow.need(len(board.paper.broken(text, board.width, pen)) * pen.line)
    flow.y = board.paper.lines(flow.left, flow.y, board.width, text, pen) + 0.8


def _beside(board: Board) -> None:
    """List those who work beside somebody only, in a hatched border."""
    found, paper, flow = board.found, board.paper, board.flow
    if not found.beside:
        return
    pen = Pen(size=11)
    texts = [_who(board, one) for one in found.beside]
    inner = board.width - 2 * PAD
    lines = [line for text in texts for line in paper.broken(text, inner, pen)]
    note = board.tell(mark("never alone, only while somebody who may supervise stands by"))
    height = TITLE.line + SMALL.line + len(lines) * pen.line + 2 * BAND + 5
    flow.need(height)
    left, top = flow.left - PAD + 1.5, flow.y
    width = board.width + 2 * PAD - 3
    for x, y, wide, high in (
        (left, top, width, BAND),
        (left, top + height - BAND, width, BAND),
        (left, top + BAND, BAND, height - 2 * BAND),
        (left + width - BAND, top + BAND, BAND, height - 2 * BAND),
    ):
        hatching(paper, x, y, wide, high)
    paper.box(left, top, width, height, MEDIUM)
    paper.box(left + BAND, top + BAND, width - 2 * BAND, height - 2 * BAND, FINE)
    y = top + BAND + 2
    paper.put(flow.left + PAD, y, board.tell(mark("Supervised only")), TITLE)
    y = paper.lines(flow.left + PAD, y + TITLE.line, inner, note, SMALL) + 0.5
    for line in lines:
        paper.put(flow.left + PAD, y, line, pen)
        y += pen.line
    flow.y = top + height + 3


def _who(board: Board, one: Standing) -> str:
    person = board.found.people[one.person]
    role = board.tell(words.ROLES.get(one.role, one.role))
    told = joined([part for part in (board.found.names[one.person], person.number, role, person.shift) if part])
    if one.word is not StandingWord.SUPERVISED:
        return told
    beside = ", ".join(board.found.names[key] for key in one.supervisors if key in board.found.names)
    nobody = board.tell(mark("nobody may stand by: no work there"))
    return f"{told}: " + (board.paper.voice.tell(say("beside {people}", people=beside)) if beside else nobody)


def _judges(board: Board) -> None:
    note = mark("may stand by; the right to do so does not by itself allow running it")
    _title(board, mark("May supervise"), note)
    found, voice = board.found, board.paper.voice
    if not found.judges:
        _line(board, board.tell(mark("Nobody has the right to on that day.")))
    for right in found.judges:
        roles = joined([board.tell(words.ROLES.get(role, role)) for role in right.roles])
        until = voice.tell(say("to {day}", day=right.valid_to.isoformat()))
        person = found.people[right.person]
        judging = board.tell(mark("may also judge and sign")) if right.right == JUDGE else ""
        parts = (found.names[right.person], person.number, person.shift, roles, until, judging)
        _line(board, joined([part for part in parts if part]))
    board.flow.y += 2


def _soon(board: Board) -> None:
    found, voice = board.found, board.paper.voice
    _title(board, mark("Ends within 30 days"), mark("unless the refresher is passed before"))
    if not found.soon:
        _line(board, board.tell(mark("Nobody.")))
    for one in found.soon:
        _line(board, f"{voice.day(one.holds_until)}: {_who(board, one)}")
