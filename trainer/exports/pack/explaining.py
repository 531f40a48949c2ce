"""For each person of a pack one page: what they should be able to explain, from what they answered rightly."""

from collections.abc import Iterator, Sequence
from datetime import date
from html import escape

from trainer.exports.explain import Explained
from trainer.exports.voice import PLAIN
from trainer.records.chain import reference

MOST = 18  # rows: as much as one printed page holds
STYLE = (
    "body{font:11pt/1.35 system-ui,sans-serif;margin:1.5cm;color:#111}table{border-collapse:collapse;width:100%}"
    "th,td{text-align:left;vertical-align:top;padding:.25em .6em .25em 0;border-bottom:1px solid #777;font-size:10pt}"
)
HOW = "From what this person answered rightly in papers that were passed. Ask about it at the machine, in their own language."
NOTHING = "No paper that was passed is on record up to that day, or its content was not kept."


def explain_page(name: str, number: str, found: Sequence[Explained], *, on: date) -> bytes:
    """Return the page; it says nothing of when it was made, so that the same answer gives the same octets."""
    return ("\n".join(_lines(name, number, found, on)) + "\n").encode()


def _lines(name: str, number: str, found: Sequence[Explained], on: date) -> Iterator[str]:
    who = escape(f"{name}, {number}")
    yield f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{who}</title><style>{STYLE}</style></head><body>'
    yield f"<h1>What {who}, should be able to explain</h1>\n<p>As of {escape(PLAIN.day(on))}. {HOW if found else NOTHING}</p>"
    if found:
        yield "<table><thead><tr><th>Competency</th><th>Asked, and answered rightly</th><th>What it comes down to</th><th>Entry</th></tr></thead><tbody>"
        yield from (_row(one) for one in found[:MOST])
        yield "</tbody></table>"
    if len(found) > MOST:
        yield f"<p>{len(found) - MOST} more competencies were shown and have no room on one page.</p>"
    yield "</body></html>"


def _row(one: Explained) -> str:
    critical = " (critical)" if one.critical else ""
    entry = f"{reference(one.entry)}, {PLAIN.day(one.on)}"
    cells = (f"{one.competency}{critical}", one.asked, one.why, entry)
    return "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"
