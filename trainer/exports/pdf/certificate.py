"""A certificate of a programme passed and signed off: one sheet, what it shows and what it does not show."""

from collections.abc import Sequence

from trainer.bank import Bank
from trainer.exports.about import About
from trainer.exports.pdf.block import CAUTION, Block, Box, frame, sheet_box
from trainer.exports.pdf.marks import MARK, standing_mark
from trainer.exports.pdf.paper import FINE, MEDIUM, Paper, Pen, paragraphs
from trainer.exports.pdf.proven import Proof
from trainer.exports.pdf.shown import (
    ASK,
    ASK_PLANT,
    NOT_SHOWN,
    entries_of,
    kind_of,
    programme_of,
    role_of,
    shown,
    where,
)
from trainer.exports.voice import PLAIN, Voice
from trainer.records.renewals import anchor
from trainer.wording import mark, say

PAD = 6.0
NAME, TEXT, BODY = Pen(size=30, bold=True), Pen(size=11), Pen(size=11)
LABEL, TITLE, BOLD, SMALL = Pen(size=7, soft=True), Pen(size=10, bold=True), Pen(size=11, bold=True), Pen(size=8)
SIGNING = 17.0  # height of the place for signatures


def certificate_pdf(
    proof: Proof, bank: Bank, about: About, voice: Voice = PLAIN, *, size: tuple[float, float], home: str = ""
) -> bytes:
    """Return a certificate; ``about.made_at`` is the day on which it holds, ``home`` the address of the site's program."""
    title = f"{proof.name}, {proof.standing.machine}, {proof.standing.role}"
    wide, high = max(size), min(size)
    paper = Paper((wide, high), voice, title=title, site=about.site, made_at=about.made_at)
    paper.add_page()
    left, top, right, bottom = frame(paper, _block(paper, proof, about, home))
    split = right - 62.0
    y = _holder(paper, proof, (left + PAD, top + PAD), split - left - 2 * PAD)
    _until(paper, proof, (split, top), right - split, y)
    _approvals(paper, proof, bank, (left, y), right)
    today = about.made_at.astimezone(about.zone).date().isoformat()
    _lists(paper, shown(voice, bank, proof, today), (left, y + 25.0), (right, bottom - SIGNING))
    _signatures(paper, (left, bottom - SIGNING), (right, bottom))
    return paper.data()


def _block(paper: Paper, proof: Proof, about: About, home: str) -> Block:
    voice, standing = paper.voice, proof.standing
    address = where(home, proof.code)
    rows = (
        (
            Box(label=mark("Holder"), value=f"{proof.name}, {proof.person.number}", share=2.2),
            Box(label=mark("Machine"), value=standing.machine),
            Box(label=mark("Role"), value=role_of(voice, proof)),
            Box(label=mark("Plant"), value=about.site, share=1.4),
        ),
        (
            Box(label=mark("As of"), value=voice.day(about.made_at.astimezone(about.zone).date())),
            Box(label=mark("Valid until"), value=voice.day(standing.holds_until)),
            Box(label=mark("Bank edition"), value=str(proof.theory.body.get("edition", "")), share=0.7),
            Box(label=mark("Check code"), value=proof.code, share=1.3, mono=True),
            sheet_box(paper, 0.6),
        ),
    )
    check = paragraphs(voice.tell(ASK if address else ASK_PLANT), address)
    note = f"{check}\n{voice.tell(CAUTION)}"
    return Block(rows=rows, note=note, address=address, strip=mark("Certificate of authorisation"), site=about.site)


def _holder(paper: Paper, proof: Proof, at: tuple[float, float], width: float) -> float:
    x, y = at
    voice = paper.voice
    y = paper.fitted(x, y, (width, 26.0), proof.name, NAME, least=8)
    y = paper.lines(x, y, width, proof.person.number, TEXT) + 1.0
    told = say(
        "is authorised as {role} at {machine}: {name} ({kind}).",
        role=role_of(voice, proof),
        machine=proof.standing.machine,
        name=proof.machine.name,
        kind=kind_of(voice, proof),
    )
    return max(paper.fitted(x, y, (width, 20.0), voice.tell(told), Pen(size=13)) + 4.0, 58.0)


def _until(paper: Paper, proof: Proof, at: tuple[float, float], width: float, end: float) -> None:
    x, y = at
    paper.rule(x, y, x, end, MEDIUM)
    paper.put(x + PAD, y + PAD, paper.voice.tell(mark("Valid until")), LABEL)
    day = paper.voice.day(proof.standing.holds_until)
    y = paper.fitted(x + PAD, y + PAD + 4, (width - 2 * PAD, 10.0), day, Pen(size=20, bold=True))
    standing_mark(paper, x + PAD, y + 2.2, "solid")
    paper.put(x + PAD + MARK[0] + 2, y + 1.2, paper.voice.tell(mark("Authorised")), BOLD)
    note = mark("as long as nothing is suspended and the machine is not changed")
    paper.fitted(x + PAD, y + 7.5, (width - 2 * PAD, max(end - y - 8.0, 6.0)), paper.voice.tell(note), SMALL)


def _approvals(paper: Paper, proof: Proof, bank: Bank, at: tuple[float, float], right: float) -> None:
    """Draw the approvals box: theory, practice, with the day, the edition, who signed and the entries."""
    (left, y), voice = at, paper.voice
    half = (left + right) / 2
    paper.rule(left, y, right, y, MEDIUM)
    paper.rule(left, y + 22, right, y + 22, MEDIUM)
    paper.rule(half, y, half, y + 22, FINE)
    theory = say(
        "passed on {day}, edition {edition}, {entries}",
        day=anchor(proof.theory).isoformat(),
        edition=proof.theory.body.get("edition", "?"),
        entries=entries_of(proof.theory.numbers),
    )
    practice = say(
        "on {day} at {machine}, {entries}",
        day=proof.practical.on.isoformat(),
        machine=proof.machine.id,
        entries=entries_of(proof.practical.numbers),
    )
    signed = f"{proof.judge.name}, {proof.judge.number}".rstrip(", ")
    boxes = (
        (left, mark("Programme passed"), programme_of(voice, bank, proof), voice.tell(theory)),
        (half, mark("Practical signed by"), signed, voice.tell(practice)),
    )
    for x, label, value, note in boxes:
        room = half - left - 2 * PAD
        paper.put(x + PAD, y + 2, voice.tell(label), LABEL)
        end = paper.fitted(x + PAD, y + 5.5, (room, 10.0), value, BOLD)
        paper.fitted(x + PAD, end + 0.8, (room, 4.5), note, SMALL)


def _lists(paper: Paper, says: Sequence[str], start: tuple[float, float], end: tuple[float, float]) -> None:
    (left, top), (right, bottom), voice = start, end, paper.voice
    half = (left + right) / 2
    says_not = [voice.tell(text) for text in NOT_SHOWN]
    width = half - left - 2 * PAD
    pen = _common(paper, (says, says_not), width - 4, bottom - top - TITLE.line - 2)
    for x, title, told in ((left, mark("What it shows"), says), (half, mark("What it does not show"), says_not)):
        paper.put(x + PAD, top, voice.tell(title), TITLE)
        y = top + TITLE.line + 1
        for sentence in told:
            paper.put(x + PAD, y, "–", pen)
            y = paper.lines(x + PAD + 4, y, width - 4, sentence, pen) + 0.8


def _common(paper: Paper, columns: Sequence[Sequence[str]], width: float, height: float) -> Pen:
    """Return the largest pen with which both lists fit."""
    size = BODY.size
    while size > 4:
        pen = BODY.at(size)
        if all(
            sum(len(paper.broken(one, width, pen)) * pen.line + 0.8 for one in column) <= height for column in columns
        ):
            return pen
        size -= 0.25
    return BODY.at(4)


def _signatures(paper: Paper, start: tuple[float, float], end: tuple[float, float]) -> None:
    (left, top), (right, _bottom) = start, end
    half = (left + right) / 2
    for x, label in ((left, mark("Holder, signature and day")), (half, mark("For the plant, signature and day"))):
        line = top + SIGNING - 5.5
        paper.rule(x + PAD, line, x + (right - left) / 2 - PAD, line, MEDIUM)
        paper.put(x + PAD, line + 0.8, paper.voice.tell(label), LABEL)
