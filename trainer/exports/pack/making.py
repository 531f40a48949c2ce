"""Making a pack: each part written into the bag as it is read, the proofs last, so that little is ever held."""

import tempfile
from collections.abc import Iterator
from contextlib import closing
from dataclasses import asdict, dataclass, field
from datetime import datetime
from hashlib import sha256
from typing import Any, BinaryIO

from trainer.bank import Bank, archive
from trainer.errors import Missing, RecordError
from trainer.exports.about import coded
from trainer.exports.csvfile import table
from trainer.exports.explain import Banks, explained
from trainer.exports.jsonfile import lines
from trainer.exports.pack import ledgerfiles
from trainer.exports.pack.asked import Asked, chosen, standing_lines
from trainer.exports.pack.bagging import Bag
from trainer.exports.pack.cover import Cover, Unseen, page, text
from trainer.exports.pack.explaining import explain_page
from trainer.exports.pack.joining import joined
from trainer.exports.pack.verifier import shape
from trainer.exports.voice import PLAIN
from trainer.records import editions, ledger, proofs
from trainer.records.chain import EntryKind
from trainer.records.checkpoints import Checkpoint
from trainer.records.history import NameBook
from trainer.records.people import PersonRow
from trainer.records.rawrows import raw_checkpoints
from trainer.records.work import Reading
from trainer.wording import say

CHUNK = 1 << 16  # octets handed over at a time
Data = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a pack turned out to be. ``code`` stands for every octet of it, as people read it out."""

    people: int
    entries: int
    standings: int
    checkpoint: str
    checkpoint_digest: str
    code: str


@dataclass(slots=True, kw_only=True)
class Packing:
    """A pack that is being made: the transaction, what was asked, and what was found on the way."""

    r: Reading
    bank: Bank
    asked: Asked
    site: str
    bag: Bag
    point: Checkpoint
    people: list[PersonRow]
    standings: list[Data] = field(default_factory=list)
    named: ledgerfiles.Named = field(default_factory=ledgerfiles.Named)
    lengths: dict[str, int] = field(default_factory=dict)
    kept: list[str] = field(default_factory=list)
    not_kept: list[str] = field(default_factory=list)
    explained: dict[str, str] = field(default_factory=dict)


def write_pack(r: Reading, bank: Bank, asked: Asked, file: BinaryIO, *, site: str) -> Made:
    """Write a pack into ``file`` and say what it is.

    The newest checkpoint has to cover every entry (:func:`trainer.records.ledger.checkpoint` writes one).
    Raises :class:`RecordError` where the record was altered: of such a one nothing can be proved.
    """
    _must_be_as_written(r)
    point, people = proofs.sealed(r), chosen(r, bank, asked)
    with closing(Bag(file, f"audit-pack-{asked.on.isoformat()}")) as bag:
        p = Packing(r=r, bank=bank, asked=asked, site=site, bag=bag, point=point, people=people)
        for part in (_standing, _ledger, _proofs, _identity, _content, _explained):
            part(p)
        return _finished(p)


def pack_pieces(r: Reading, bank: Bank, asked: Asked, *, site: str) -> tuple[Made, Iterator[bytes]]:
    """Return what a pack is and its octets, in pieces; it lies in a temporary file until they were read."""
    file = tempfile.TemporaryFile()  # noqa: SIM115  (closed when the pieces were read)
    try:
        return write_pack(r, bank, asked, file, site=site), _read(file)
    except BaseException:
        file.close()
        raise


def _read(file: Any) -> Iterator[bytes]:
    with file:
        file.seek(0)
        while piece := file.read(CHUNK):
            yield piece


def _must_be_as_written(r: Reading) -> None:
    report = ledger.verify(r)
    if report.good:
        return
    first = str(report.errors[0])
    raise RecordError(
        say("The record was altered, so nothing can be proved of it: {first} Run trainer records verify.", first=first)
    )


def _standing(p: Packing) -> None:
    p.standings += standing_lines(p.r, p.bank, p.asked, p.people)
    p.bag.put(shape.STANDING, lines(p.standings))
    p.bag.put(shape.STANDING_TABLE, table(shape.STANDING_COLUMNS, map(shape.standing_row, p.standings)))
    references = {entry for row in p.standings for reason in row["reasons"] for entry in reason["entries"]}
    p.named.entries |= {int(entry.removeprefix("L-")) for entry in references}


def _ledger(p: Packing) -> None:
    p.lengths |= {key: length for key, (length, _at) in ledger.newest_by_person(p.r).items()}
    keys = [person.key for person in p.people if p.lengths.get(person.key)]
    for key in keys:
        p.bag.put(shape.ledger_file(key), ledgerfiles.chain_pieces(p.r, key, p.point.entries, p.named))
    p.bag.put(shape.ENTRIES_TABLE, ledgerfiles.table_pieces(p.r, keys, p.point.entries))


def _proofs(p: Packing) -> None:
    keys = frozenset(person.key for person in p.people)
    rows = ledgerfiles.others(p.r, p.named.entries, keys, p.named)
    points = list(raw_checkpoints(p.r))
    earlier = {point.number: point.entries for point in points if point.number < p.point.number}
    found = proofs.of_tree(p.r, p.point.entries, numbers=(row.number for row in rows), earlier=set(earlier.values()))
    p.bag.put(shape.OTHERS, ledgerfiles.row_pieces(rows))
    p.bag.put(
        shape.OTHER_PROOFS,
        lines(
            {"number": number, "index": number - 1, "size": p.point.entries, "path": list(path)}
            for number, path in found.entries.items()
        ),
    )
    p.bag.put(shape.CHECKPOINTS, lines(asdict(point) for point in points))
    grown = ({"checkpoint": number, "path": list(found.earlier[size])} for number, size in earlier.items())
    p.bag.put(shape.GROWTH, lines(grown))
    chains = proofs.of_chains(p.r, [key for key in keys if p.lengths.get(key)])
    p.bag.put(shape.CHAIN_PROOFS, lines({**asdict(chain), "path": list(chain.path)} for chain in chains))


def _identity(p: Packing) -> None:
    rows = _people(p)
    p.bag.put(shape.PEOPLE, lines(rows))
    p.bag.put(shape.PEOPLE_TABLE, table(shape.PEOPLE_COLUMNS, map(shape.people_row, rows)))


def _people(p: Packing) -> list[Data]:
    """Return what is needed of people: numbers and names with their days, and why they are named. Nothing else."""
    book = NameBook(p.r)
    why = dict.fromkeys(sorted(p.named.people), "named in an entry")
    why = {**{person.key: "asked about" for person in p.people}, **{k: v for k, v in why.items() if book.names(k)}}
    for person in p.people:
        why[person.key] = "asked about"
    return [
        {
            "key": key,
            "number": book.names(key)[-1].number,
            "name": book.names(key)[-1].name,
            "names": [
                {"since": each.since.isoformat(), "number": each.number, "name": each.name} for each in book.names(key)
            ],
            "why": reason,
        }
        for key, reason in why.items()
    ]


def _content(p: Packing) -> None:
    """Write the editions of the content that papers were drawn from, and the one that standing was worked out with."""
    own = p.bank.fingerprint
    for fingerprint in sorted(p.named.content | {own}):
        try:
            held = archive.to_bytes(p.bank) if fingerprint == own else editions.content(p.r, fingerprint)
        except Missing:
            p.not_kept.append(fingerprint)
            continue
        p.bag.put(shape.content_file(fingerprint), [held])
        p.kept.append(fingerprint)


def _explained(p: Packing) -> None:
    """Write for each person one page with what they should be able to explain; its digest stands in the pack's own lines."""
    banks: Banks = {}
    for person in p.people:
        found = explained(p.r, person.key, PLAIN, on=p.asked.on, known_on=p.asked.known_on, banks=banks)
        made = explain_page(person.name, person.number, found, on=p.asked.on)
        p.bag.put(shape.explain_file(person.key), [made])
        p.explained[person.key] = sha256(made).hexdigest()


def _about(p: Packing) -> Data:
    """Return what a pack says about itself; nothing in it depends on when the pack was made."""
    return {
        "format": 1,
        "site": p.site,
        "zone": str(p.r.zone),
        "on": p.asked.on.isoformat(),
        "known_on": p.asked.known_on.isoformat() if p.asked.known_on else None,
        "machine": p.asked.machine,
        "people": [
            {"key": person.key, "entries": p.lengths.get(person.key, 0), "explain": p.explained[person.key]}
            for person in p.people
        ],
        "standings": len(p.standings),
        "rules": p.bank.fingerprint,
        "content": p.kept,
        "content_not_kept": p.not_kept,
        "checkpoint": p.point.number,
        "checkpoint_digest": p.point.digest,
        "ledger": {"entries": p.point.entries, "chains": p.point.chains},
    }


def _unseen(p: Packing) -> Iterator[Unseen]:
    for person in p.people:
        for entry in ledger.entries(p.r, person=person.key, kind=EntryKind.PRIOR_ACCEPTED, upto=p.point.entries):
            yield Unseen(
                entry=entry.reference,
                number=person.number,
                name=person.name,
                trained_on=str(entry.body["trained_on"]),
                evidence=str(entry.body["evidence"]),
            )


def _finished(p: Packing) -> Made:
    about = _about(p)
    p.bag.put(shape.PACK, lines([about]))
    made_at: datetime = p.r.now().astimezone(p.r.zone)
    cover = Cover(
        about=about,
        people=p.people,
        standings=p.standings,
        unseen=tuple(_unseen(p)),
        made_at=made_at,
        edition=p.bank.edition,
    )
    p.bag.tag("README.txt", text(cover).encode())
    p.bag.tag("README.html", page(cover).encode())
    p.bag.tag("verify.py", joined().encode())
    info = {
        "Source-Organization": p.site,
        "Bagging-Date": made_at.date().isoformat(),
        "External-Description": f"Training and competency records of {len(p.people)} people as of {about['on']}",
    }
    seal = p.bag.finish(info)
    return Made(
        people=len(p.people),
        entries=sum(person["entries"] for person in about["people"]),
        standings=len(p.standings),
        checkpoint=p.point.reference,
        checkpoint_digest=p.point.digest,
        code=coded(bytes.fromhex(seal)),
    )
