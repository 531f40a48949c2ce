"""Composes a drawing from the parts of the kit, as a scenario's file describes it.

A description names the view, where its origin lies on the sheet and how many px a millimetre is, then its parts with
their measures, its labels, and what else the sheet needs: a dimension, the dimension that is asked for, a detail at a
larger scale. A measure that is written ``$beams-blanked`` is taken from the numbers of the drill; a part or label with
``when`` or ``unless`` is there only for some of its draws. A question about places adds ``balloons``: letters, each at
its place.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.figures.balloons import Balloon, balloons
from trainer.figures.ink import Point, dot, group, line, n, view, whole
from trainer.figures.kit import composed
from trainer.figures.layout import Label, clashes, label_of, placed, span
from trainer.figures.problems import problems
from trainer.figures.when import kept, variants

SIZE = (660.0, 572.0)  # px: what a lesson or a question has for its drawing
REFERENCE = "$"


@dataclass(slots=True, kw_only=True)
class View:
    """One view on the sheet: its parts, drawn, with every named place in millimetres, and its words."""

    x: float
    y: float
    scale: float
    marks: str = ""
    places: dict[str, Point] = field(default_factory=dict)
    labels: list[Label] = field(default_factory=list)

    def px(self, place: Any) -> Point:
        """Return a place (``part.name`` or millimetres) in px of the sheet."""
        x, y = self.mm(place)
        return self.x + x * self.scale, self.y - y * self.scale

    def mm(self, place: Any) -> Point:
        """Return a place (``part.name`` or millimetres) in millimetres."""
        return self.places[place] if isinstance(place, str) else (float(place[0]), float(place[1]))


@dataclass(slots=True, kw_only=True)
class Sheet:
    """A drawing being composed: marks in px, definitions, and every label on it."""

    width: float
    height: float
    prefix: str
    vocabulary: Mapping[str, str]
    marks: str = ""
    defs: str = ""
    labels: list[Label] = field(default_factory=list)
    balloons: tuple[Balloon, ...] = ()

    def word(self, key: str) -> str:
        """Return the word for a key; the key itself where the vocabulary lacks it."""
        return self.vocabulary.get(key, key)

    def put(self, label: Label) -> None:
        """Write a label."""
        self.labels.append(label)
        self.marks += label.drawn()


def scene(
    spec: Mapping[str, Any],
    *,
    words: Mapping[str, str],
    title: str,
    description: str,
    prefix: str = "view",
    numbers: Mapping[str, str] | None = None,
) -> str:
    """Return the drawing as inline SVG, in the language of ``words``; ``description`` says the same in words.

    ``numbers`` are the drawn values of a drill as text (``{"beams-blanked": "2"}``); ``prefix`` keeps ids apart where a
    page holds several drawings.
    """
    sheet = _composed(spec, words, prefix, numbers or {})
    return whole(
        sheet.marks,
        width=sheet.width,
        height=sheet.height,
        title=title,
        text=description,
        prefix=prefix,
        defs=sheet.defs,
    )


def pressable(spec: Mapping[str, Any], *, words: Mapping[str, str]) -> tuple[Balloon, ...]:
    """Return where the balloons of a drawing lie on its sheet, in px, as :func:`scene` draws them."""
    return _composed(spec, words, "view", {}).balloons


def scene_problems(spec: Mapping[str, Any], words: Mapping[str, str] | None = None) -> list[str]:
    """Say, one plain sentence each, what of a description cannot be drawn; with ``words`` also which labels clash."""
    found = list(problems(spec))
    if found or words is None:
        return found
    found = [f"There is no word for {key!r}." for key in sorted(_keys(spec) - set(words))]
    for draw in variants(spec):
        sheet = _composed(spec, words, "check", draw)
        found += [told for told in clashes(sheet.labels, sheet.width, sheet.height) if told not in found]
    return found


def _keys(spec: Mapping[str, Any]) -> set[str]:
    labels = (*spec.get("labels", ()), *spec.get("detail", {}).get("labels", ()))
    entries = (*labels, spec.get("dimension", {}), spec.get("note", {}))
    return {str(entry["word"]) for entry in entries if "word" in entry}


def _composed(spec: Mapping[str, Any], vocabulary: Mapping[str, str], prefix: str, numbers: Mapping[str, str]) -> Sheet:
    width, height = (float(value) for value in spec.get("size", SIZE))
    sheet = Sheet(width=width, height=height, prefix=prefix, vocabulary=vocabulary)
    main = _view(spec["view"], _filled(kept(spec["parts"], numbers), numbers), spec["place"])
    clip = f"{prefix}-frame"
    sheet.marks, sheet.defs = view(
        main.marks, prefix=prefix, name="main", x=main.x, y=main.y, scale=main.scale, clip=clip
    )
    sheet.defs += f'<clipPath id="{clip}"><path d="M-2-2h{n(width + 4)}v{n(height + 4)}H-2z"/></clipPath>'
    for key, draw in (("dimension", _dimension), ("asks", _asked), ("detail", _detail)):
        if key in spec:
            draw(sheet, main, {**spec[key], "view": spec["view"]}, numbers)
    _labels(sheet, main, kept(spec.get("labels", ()), numbers), numbers)
    if "balloons" in spec:
        tips = [main.px(entry["at"]) for entry in spec["balloons"]]
        sheet.balloons = balloons(spec["balloons"], tips, sheet.labels, (width, height))
        sheet.marks += "".join(balloon.drawn() for balloon in sheet.balloons)
    if "note" in spec:
        note = spec["note"]
        sheet.put(placed(sheet.word(note["word"]), note["at"], width=width, align=note.get("align", "start")))
    return sheet


def _view(seen: str, parts: Any, place: Mapping[str, Any]) -> View:
    found = View(x=float(place["x"]), y=float(place["y"]), scale=float(place["scale"]))
    for name, piece in composed(seen, parts):
        found.marks += piece.marks
        found.places |= {f"{name}.{key}": point for key, point in piece.places.items()}
    return found


def _filled(value: Any, numbers: Mapping[str, str]) -> Any:
    """Put the drill's numbers where measures refer to them; a number's unit is left out."""
    if isinstance(value, Mapping):
        return {key: _filled(one, numbers) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_filled(one, numbers) for one in value]
    if isinstance(value, str) and value.startswith(REFERENCE):
        return numbers.get(value.removeprefix(REFERENCE), "1").split()[0].replace(",", ".")
    return value


def _labels(sheet: Sheet, on: View, entries: Iterable[Mapping[str, Any]], numbers: Mapping[str, str]) -> None:
    for entry in entries:
        tip = on.px(entry["to"]) if "to" in entry else None
        number = str(entry.get("number", ""))
        filled = {**entry, "number": numbers.get(number.removeprefix(REFERENCE), number)} if number else entry
        sheet.put(label_of(filled, sheet.vocabulary, tip, sheet.width))


def _dimension(sheet: Sheet, on: View, entry: Mapping[str, Any], numbers: Mapping[str, str]) -> None:
    start, end = on.px(entry["from"]), on.px(entry["to"])
    value = str(entry.get("value", ""))
    if value.startswith(REFERENCE):
        value = numbers.get(value.removeprefix(REFERENCE), "")
    text = " ".join(part for part in (sheet.word(str(entry.get("word", ""))), value) if part)
    marks, label = span(start, (end[0], start[1]), text)
    sheet.marks += marks
    sheet.labels.append(label)


def _asked(sheet: Sheet, on: View, entry: Mapping[str, Any], _numbers: Mapping[str, str]) -> None:
    """Draw the dimension that is asked for: in the colour that says "here you act", its symbol and a question mark."""
    start, end = on.px(entry["from"]), on.px(entry["to"])
    symbol, _, index = str(entry["symbol"]).partition("_")
    x, y = (start[0] + end[0]) / 2, start[1] + 35
    lowered = f'<tspan class="sub" dy="6">{index}</tspan><tspan dy="-6"> = ?</tspan>' if index else " = ?"
    ends = "".join(
        line("fine", (px, start[1] - rise), (px, start[1] + 8))
        for px, rise in zip((start[0], end[0]), entry.get("rise", (8, 8)), strict=True)
    )
    sheet.marks += f'{ends}{line("act-line", start, end)}<text class="ask-for mid" x="{n(x)}" y="{n(y)}"><tspan class="symbol">{symbol}</tspan>{lowered}</text>'
    sheet.labels.append(Label(lines=(f"{symbol}{index} = ??",), at=(x, y - 9), align="mid", bold=True))


def _detail(sheet: Sheet, on: View, entry: Mapping[str, Any], numbers: Mapping[str, str]) -> None:
    """Draw a place again at a larger scale: a ring and a letter there, the same letter at the large ring."""
    (cx, cy), radius, scale = (float(v) for v in entry["at"]), float(entry["radius"]), float(entry["scale"])
    ox, oy = on.mm(entry["around"])
    close = _view(
        entry["view"], _filled(entry["parts"], numbers), {"x": cx - ox * scale, "y": cy + oy * scale, "scale": scale}
    )
    clip = f"{sheet.prefix}-ring"
    inset, defs = view(close.marks, prefix=sheet.prefix, name="detail", x=close.x, y=close.y, scale=scale, clip=clip)
    sheet.defs += f'{defs}<clipPath id="{clip}"><circle cx="{n(cx)}" cy="{n(cy)}" r="{n(radius)}"/></clipPath>'
    small, ring = on.px(entry["around"]), float(entry["ring"])
    sheet.marks += dot("edge", *small, ring) + dot("paper", cx, cy, radius) + group(inset) + dot("edge", cx, cy, radius)
    letter = str(entry["letter"])
    title = letter if entry.get("short") else f"{sheet.word('detail')} {letter}"
    letter_at = entry.get("letter_at", [small[0] + ring + 5, small[1] - ring])
    title_at = entry.get("title_at", [cx + radius * 0.72 + 14, cy + radius * 0.72 + 20])
    sheet.put(Label(lines=(letter,), at=(float(letter_at[0]), float(letter_at[1])), bold=True))
    sheet.put(
        Label(
            lines=(title,),
            at=(float(title_at[0]), float(title_at[1])),
            bold=True,
            align=str(entry.get("title_align", "start")),
        )
    )
    _labels(sheet, close, entry.get("labels", ()), numbers)
