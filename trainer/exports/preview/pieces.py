"""What a preview is made of: tables with a column for each language, drawings beside each other, lists."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from html import escape
from string import ascii_uppercase
from typing import Any

from babel import Locale, UnknownLocaleError

from trainer.bank import Bank
from trainer.bank.bank import Item
from trainer.bank.model import Drill, OnDrawing, Text
from trainer.bank.render import html
from trainer.figures import scene, scene_problems

MISSING = '<em class="bad">missing</em>'


def language_name(code: str) -> str:
    """Return a language's name in its own words, with its code."""
    try:
        name = Locale.parse(code, sep="-").get_display_name(code) or code
    except (ValueError, UnknownLocaleError):
        name = code
    return f"{name} ({code})"


def table(caption: str, head: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """Give a table; the first cell of each row is its head. Cells are HTML, ``head`` and ``caption`` are text."""
    yield f'<div class="wide" tabindex="0" role="group" aria-label="{escape(caption)}"><table>'
    yield f"<caption>{escape(caption)}</caption><thead><tr>"
    yield "".join(f'<th scope="col">{escape(name)}</th>' for name in head) + "</tr></thead><tbody>"
    for first, *rest in rows:
        cells = "".join(cell if cell.startswith("<td") else f"<td>{cell}</td>" for cell in rest)
        yield f'<tr><th scope="row">{first}</th>{cells}</tr>'
    yield "</tbody></table></div>"


def told(bank: Bank, text: Text | None, *, markdown: bool = False) -> list[str]:
    """Return a cell for each language, marked as that language; what is not there says so."""
    cells = []
    for language in bank.languages:
        words = text.words.get(language, "") if text else ""
        shown = html(words) if markdown else escape(words)
        cells.append(f'<td lang="{escape(language)}">{shown}</td>' if words else f"<td>{MISSING}</td>")
    return cells


def texts(bank: Bank, caption: str, rows: Mapping[str, Text], *, markdown: bool = False) -> Iterator[str]:
    """Give a table of texts, a row for each and a column for each language."""
    head = ["Text", *(language_name(code) for code in bank.languages)]
    made = ([escape(name), *told(bank, text, markdown=markdown)] for name, text in rows.items())
    yield from table(caption, head, made)


def facts(pairs: Mapping[str, str]) -> Iterator[str]:
    """Give a list of what is the same in each language; values are text, empty ones are left out."""
    yield "<dl>"
    yield from (f"<dt>{escape(name)}</dt><dd>{escape(value)}</dd>" for name, value in pairs.items() if value)
    yield "</dl>"


def sources(bank: Bank, keys: Iterable[str]) -> str:
    """Return what is cited, each with its key; a key that the bank lacks says so."""
    found = ((key, bank.sources.get(key)) for key in keys)
    return "; ".join(f"{source.citation() if source else 'NOT IN THE BANK'} [{key}]" for key, source in found)


def idea(bank: Bank, key: str | None) -> str:
    """Return the wrong idea that an answer shows, as HTML: its key and its name."""
    if not key:
        return ""
    known = bank.misconceptions.get(key)
    name = escape(known.name.in_("en")) if known else MISSING
    return f"{name} <code>{escape(key)}</code>"


def drawings(bank: Bank, item: Item, drawn: Mapping[str, str] | None = None) -> Iterator[str]:
    """Give the drawing of an item in each language side by side, with what somebody is told who cannot see it."""
    if item.drawing is None:
        return
    owner = item if isinstance(item, Drill) else bank.scenarios[item.scenario]
    spec = owner.drawings.get(item.drawing)
    description = owner.drawing_texts.get(item.drawing, Text(words={}))
    yield '<div class="beside">'
    for language in bank.languages:
        yield f'<figure lang="{escape(language)}">'
        if fault := _fault(item, spec):
            yield f'<p class="bad">{escape(fault)}</p>'
        else:
            named = {
                "title": item.id,
                "description": description.in_(language),
                "prefix": _prefix(item, language, drawn),
            }
            yield scene(_lettered(item, spec or {}), words=bank.labels(language), numbers=drawn, **named)
        yield f"<figcaption>{escape(description.words.get(language, '')) or MISSING}</figcaption></figure>"
    yield "</div>"


def _fault(item: Item, spec: Any) -> str:
    if not isinstance(spec, Mapping):
        return f"There is no drawing “{item.drawing}”."
    wrong = scene_problems(_lettered(item, spec))
    return f"It cannot be drawn: {' '.join(wrong)}" if wrong else ""


def _lettered(item: Item, spec: Mapping[str, Any]) -> Mapping[str, Any]:
    """Put the letters of the places that are asked for into a drawing."""
    if not isinstance(item, OnDrawing):
        return spec
    placed = [
        {"letter": letter, "at": option.at, "value": option.id}
        for letter, option in zip(ascii_uppercase, item.options, strict=False)
        if option.at is not None
    ]
    return {**spec, "balloons": placed}


def _prefix(item: Item, language: str, drawn: Mapping[str, str] | None) -> str:
    """Return what keeps the ids of a drawing apart from those of the others on the page."""
    name = "-".join(("view", item.id, *(drawn or {}).values(), language))
    return re.sub(r"[^A-Za-z0-9]+", "-", name)
