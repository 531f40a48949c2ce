"""The cover of a pack, in plain words, as text and as a page: what is in it, what it proves and what it does not."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from html import escape
from textwrap import fill
from typing import Any

from trainer.exports.voice import PLAIN
from trainer.exports.words import STANDINGS
from trainer.records.people import PersonRow
from trainer.records.standing import StandingWord

WIDTH = 100
CONTENTS = (
    ("data/standing/", "where each person stands, for which machine and role, why, and which entries say so"),
    ("data/ledger/", "each person's entries, all of them: a file of JSON lines a person, and one table (CSV)"),
    ("data/ledger/others.jsonl", "single entries about other people on which something here rests"),
    ("data/explain/", "for each person one page: what they should be able to explain, from what they answered rightly"),
    ("data/identity/", "whose keys these are: numbers and names. Names are nowhere in the ledger itself"),
    ("data/content/", "the content that papers were drawn from, word for word, with the right answers"),
    ("data/proofs/", "the checkpoints of the ledger and the proofs that lead to them"),
    ("verify.py", "what checks all of it; it can be read from top to bottom"),
)
CHECKING = (
    "Install Python 3.10 or newer, from python.org or your own store of programs. Nothing else is needed.",
    "Unpack the zip file, open a command line in the folder and type:  python -I -S verify.py",
    "It ends with All as written, or names what was changed: the file, the line, the entry.",
    (
        "Compare the pack code and the checkpoint that it prints with those that the site gave you by another way, such "
        "as by telephone or on paper. Only then do you know that this is the pack that the site made."
    ),
)
PROVED = (
    "No octet of any file differs from the pack that has the pack code you were told.",
    (
        "Every entry is as it was when the checkpoint was written: none about these people was changed, removed, put in "
        "or moved since. A checkpoint commits to every entry of the ledger and to the end of every person's chain."
    ),
    (
        "Each earlier checkpoint is a start of the last one: the ledger only grew. Whoever kept an earlier checkpoint "
        "(its number and its digest) can find it in data/proofs/checkpoints.jsonl."
    ),
    "The content is word for word what its fingerprint, which stands in the entries, was taken of.",
)
NOT_PROVED = (
    "That what an entry says is true. It proves what was recorded and that it was not altered, not what happened.",
    "When an entry was recorded, beyond the site's own clock and the order of the entries.",
    (
        "Where people stand, whose name a key is, and this page: these are worked out by the program or kept beside the "
        "ledger. The pack code covers them, the checkpoint does not. The entries that each standing names let you judge it "
        "by yourself."
    ),
    "That this is everybody. A pack holds the people it was asked for; that somebody has no entries is the site's word.",
    (
        "Against a site that wrote its whole record anew before any checkpoint left the house. A checkpoint that was kept "
        "elsewhere settles that."
    ),
    (
        "That anybody is safe at a machine. The machine's manual, the text of the standard, local codes and a competent "
        "person's risk assessment decide."
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unseen:
    """An entry whose evidence is named and not held: training elsewhere that was accepted here."""

    entry: str
    number: str
    name: str
    trained_on: str
    evidence: str

    def told(self) -> str:
        """Return what is missing, in a sentence."""
        return (
            f"{self.entry}, {self.number} {self.name}: trained elsewhere on {self.trained_on}. Named as evidence: "
            f"{self.evidence}. No file of it is held."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """What a cover tells of. ``about`` is what the pack says about itself, ``made_at`` is at the site.

    ``unseen`` names each entry that rests on a paper of which the record holds the words and no file.
    """

    about: Mapping[str, Any]
    people: Sequence[PersonRow]
    standings: Sequence[Mapping[str, Any]]
    unseen: Sequence[Unseen]
    made_at: datetime
    edition: int


def text(cover: Cover) -> str:
    """Return the cover as plain text."""
    return "\n".join(_text_lines(cover)) + "\n"


def page(cover: Cover) -> str:
    """Return the cover as one page of HTML that loads nothing."""
    return "\n".join(_page_lines(cover)) + "\n"


def _facts(cover: Cover) -> Iterator[tuple[str, str]]:
    about = cover.about
    yield "Plant", about["site"]
    yield "As of", f"the end of {about['on']}, days at the site ({about['zone']})"
    if about["known_on"]:
        yield "As known", f"now, and by the end of {about['known_on']}"
    else:
        yield "As known", "now"
    machine = about["machine"]
    yield "About", f"{len(cover.people)} people" + (f" who have to do with {machine}" if machine else ", by name")
    yield "Entries", f"{sum(each['entries'] for each in about['people'])} of {about['ledger']['entries']} in the ledger"
    yield "Checkpoint", f"C-{about['checkpoint']}, digest {about['checkpoint_digest']}"
    yield (
        "Content",
        f"edition {cover.edition} decides what is asked of people; editions enclosed: {len(about['content'])}",
    )
    if about["content_not_kept"]:
        yield (
            "Missing",
            f"editions that papers were drawn from and that were never kept: {len(about['content_not_kept'])}",
        )
    yield "Made on", cover.made_at.date().isoformat()


def _rows(cover: Cover) -> Iterator[tuple[str, ...]]:
    """Give a row for every standing, and one for whoever has none."""
    told = {row["person"] for row in cover.standings}
    for row in cover.standings:
        word = STANDINGS[StandingWord(row["standing"])]
        view = f"by {row['known_on']}" if row["known_on"] else "now"
        until = row["holds_until"] or ""
        yield row["number"], row["name"], row["machine"], row["role"], word, until, view
    for person in cover.people:
        if person.key not in told:
            yield person.number, person.name, "", "", PLAIN.tell("Nothing on record"), "", "now"


MISSING = "Evidence missing: ask for these papers themselves"
HEAD = ("Number", "Name", "Machine", "Role", "Standing", "Until", "As known")
PARTS = (
    ("How to check it", CHECKING),
    ("What is proved when nothing was changed", PROVED),
    ("What is not proved", NOT_PROVED),
)


def _text_lines(cover: Cover) -> Iterator[str]:
    yield from ("AUDIT PACK", "")
    yield from (f"{label + ':':12} {value}" for label, value in _facts(cover))
    yield from ("", "WHERE PEOPLE STAND", "")
    rows = [HEAD, *_rows(cover)]
    widths = [max(len(row[place]) for row in rows) for place in range(len(HEAD))]
    yield from ("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows)
    if cover.unseen:
        yield from (
            "",
            MISSING.upper(),
            "",
            *(fill(f"- {one.told()}", WIDTH, subsequent_indent="  ") for one in cover.unseen),
        )
    yield from ("", "WHAT IS IN IT", "")
    yield from (f"{name:26} {what}" for name, what in CONTENTS)
    for title, said in PARTS:
        yield from ("", title.upper(), "")
        for number, sentence in enumerate(said, 1):
            yield fill(f"{number}. {sentence}", WIDTH, subsequent_indent="   ", break_long_words=False)


def _page_lines(cover: Cover) -> Iterator[str]:
    yield '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Audit pack</title>'
    yield f"<style>{STYLE}</style></head><body><main>\n<h1>Audit pack</h1>\n<dl>"
    yield from (f"<dt>{escape(label)}</dt><dd>{escape(value)}</dd>" for label, value in _facts(cover))
    yield "</dl>\n<h2>Where people stand</h2>\n<table><thead><tr>"
    yield "".join(f'<th scope="col">{name}</th>' for name in HEAD) + "</tr></thead><tbody>"
    for row in _rows(cover):
        yield "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>"
    yield "</tbody></table>"
    if cover.unseen:
        yield f"<h2>{MISSING}</h2>\n<ul>"
        yield from (f"<li>{escape(one.told())}</li>" for one in cover.unseen)
        yield "</ul>"
    yield "<h2>What is in it</h2>\n<dl>"
    yield from (f"<dt>{escape(name)}</dt><dd>{escape(what)}</dd>" for name, what in CONTENTS)
    yield "</dl>"
    for title, said in PARTS:
        yield f"<h2>{title}</h2>\n<ol>"
        yield from (f"<li>{escape(sentence)}</li>" for sentence in said)
        yield "</ol>"
    yield "</main></body></html>"


STYLE = (
    "body{font:16px/1.5 system-ui,sans-serif;color:#111;background:#fff;margin:2rem}"
    "main{max-width:64rem;margin:auto;border:2px solid #111;padding:1.5rem 2rem}"
    "table{border-collapse:collapse;width:100%}th,td{border:1px solid #555;padding:.3rem .5rem;text-align:left}"
    "dl{display:grid;grid-template-columns:max-content 1fr;gap:.2rem 1rem}dt{font-weight:600}dd{margin:0;"
    "overflow-wrap:anywhere}h2{margin-top:1.6rem;border-top:1px solid #111;padding-top:.6rem}"
)
