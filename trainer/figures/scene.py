"""Composes a drawing from the parts of the kit, as a scenario's file describes it.

A description names the view, where its origin lies on the sheet and how many px a millimetre is, then its parts with
their measures, its labels, and what else the sheet needs: a dimension, the dimension that is asked for, a detail at a
larger scale. A measure that is written ``$beams-blanked`` is taken from the numbers of the drill.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from trainer.figures.ink import Point, dot, group, line, n, view, whole, width_of, words
from trainer.figures.kit import PARTS, Part, Piece, front, hands, people, side  # noqa: F401  (registers the parts)

SIZE = (660.0, 572.0)
KNOWN = frozenset({"view", "size", "place", "parts", "labels", "dimension", "asks", "detail", "note"})
REFERENCE = "$"


@dataclass(slots=True)
class Placed:
    """A view's parts, drawn, with every named place in millimetres."""

    x: float
    y: float
    scale: float
    marks: str = ""
    places: dict[str, Point] = field(default_factory=dict)

    def px(self, place: Any) -> Point:
        """Return a place (``part.name`` or millimetres) in px of the sheet."""
        x, y = self.places[place] if isinstance(place, str) else (float(place[0]), float(place[1]))
        return self.x + x * self.scale, self.y - y * self.scale


def scene(
    spec: Mapping[str, Any],
    *,
    words: Mapping[str, str],
    title: str,
    description: str,
    prefix: str = "view",
    numbers: Mapping[str, str] | None = None,
) -> str:
    """Return the drawing as inline SVG, in the language of ``words``; ``description`` says the same in words."""
    spec = _filled(spec, numbers or {})
    width, height = (float(value) for value in spec.get("size", SIZE))
    main = _drawn(spec, spec["place"])
    frame = f"{prefix}-frame"
    body, defs = view(main.marks, prefix=prefix, name="main", x=main.x, y=main.y, scale=main.scale, clip=frame)
    defs += f'<clipPath id="{frame}"><path d="M-2-2h{n(width + 4)}v{n(height + 4)}H-2z"/></clipPath>'
    if "dimension" in spec:
        body += _dimension(main, spec["dimension"], words)
    if "asks" in spec:
        body += _asked(main, spec["asks"])
    body += _labels(main, spec.get("labels", ()), words)
    if "detail" in spec:
        inset, more = _detail(main, spec, words, prefix)
        body, defs = body + inset, defs + more
    if "note" in spec:
        body += _words(spec["note"]["at"], words.get(spec["note"]["word"], spec["note"]["word"]), spec["note"])
    return whole(body, width=width, height=height, title=title, text=description, prefix=prefix, defs=defs)


def scene_problems(spec: Mapping[str, Any]) -> Iterable[str]:
    """Say, one plain sentence each, what of a description cannot be drawn."""
    seen = spec.get("view")
    if seen not in {"front", "side"}:
        yield f"The view is {seen!r}; it is front or side."
        return
    if set(spec) - KNOWN:
        yield f"Not understood: {', '.join(sorted(set(spec) - KNOWN))}. A drawing has {', '.join(sorted(KNOWN))}."
    if not {"x", "y", "scale"} <= set(spec.get("place", {})):
        yield "The place needs x, y and scale."
    for entry in (*spec.get("parts", ()), *spec.get("detail", {}).get("parts", ())):
        yield from _part_problems(seen, entry)
    places = _place_names(seen, spec.get("parts", ()))
    for label in spec.get("labels", ()):
        target = label.get("to")
        if isinstance(target, str) and target not in places:
            yield f"A label points at {target!r}; there are {', '.join(sorted(places))}."


def _part_problems(seen: str, entry: Mapping[str, Any]) -> Iterable[str]:
    name = entry.get("part")
    known = PARTS.get((seen, str(name)))
    if known is None:
        there = ", ".join(sorted(part for view_, part in PARTS if view_ == seen))
        yield f"There is no part {name!r} seen from the {seen}; there are {there}."
        return
    unknown = set(entry) - set(known.usual) - {"part", "as"}
    if unknown:
        yield f"The part {name} takes no {', '.join(sorted(unknown))}; it takes {', '.join(sorted(known.usual))}."


def _place_names(seen: str, parts: Sequence[Mapping[str, Any]]) -> set[str]:
    found: set[str] = set()
    for entry in parts:
        known = PARTS.get((seen, str(entry.get("part"))))
        if known and not set(entry) - set(known.usual) - {"part", "as"}:
            piece = _piece(known, {key: (0 if _is_reference(value) else value) for key, value in entry.items()})
            found |= {f"{entry.get('as', known.name)}.{place}" for place in piece.places}
    return found


def _is_reference(value: Any) -> bool:
    return isinstance(value, str) and value.startswith(REFERENCE)


def _filled(value: Any, numbers: Mapping[str, str]) -> Any:
    """Put the drill's numbers where the description refers to them; a number's unit is left out."""
    if isinstance(value, Mapping):
        return {key: _filled(one, numbers) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_filled(one, numbers) for one in value]
    if _is_reference(value):
        return numbers.get(value.removeprefix(REFERENCE), "0").split()[0]
    return value


def _piece(known: Part, entry: Mapping[str, Any]) -> Piece:
    return known.draw({**known.usual, **{key: value for key, value in entry.items() if key not in {"part", "as"}}})


def _drawn(spec: Mapping[str, Any], place: Mapping[str, Any]) -> Placed:
    placed = Placed(x=float(place["x"]), y=float(place["y"]), scale=float(place["scale"]))
    for entry in spec["parts"]:
        known = PARTS[spec["view"], entry["part"]]
        piece = _piece(known, entry)
        placed.marks += piece.marks
        placed.places |= {f"{entry.get('as', known.name)}.{name}": point for name, point in piece.places.items()}
    return placed


def _labels(placed: Placed, labels: Sequence[Mapping[str, Any]], vocabulary: Mapping[str, str]) -> str:
    marks = ""
    for label in labels:
        text = vocabulary.get(label["word"], label["word"])
        if "number" in label:
            text = f"{label['number']} {text}"
        if "to" not in label:
            marks += _words(label["at"], text, label)
            continue
        x, y = float(label["at"][0]), float(label["at"][1])
        tip = placed.px(label["to"])
        marks += line("leader", *_leader(x, y, tip, text, label)) + _words(label["at"], text, label)
    return marks


def _leader(x: float, y: float, tip: Point, text: str, label: Mapping[str, Any]) -> list[Point]:
    """Start the leader beside the words, on the side where the tip is; above or below them when they lie over it."""
    wide = width_of(text)
    align = label.get("align", "start")
    left = {"start": x, "mid": x - wide / 2, "end": x - wide}[align]
    middle = y - 8
    if left - 4 <= tip[0] <= left + wide + 4:
        start = (min(max(tip[0], left + 8), left + wide - 8), y + 6 if tip[1] > y else y - 24)
    else:
        start = (left - 8 if tip[0] < left else left + wide + 4, middle)
    return [start, tip]


def _words(at: Sequence[Any], text: str, label: Mapping[str, Any]) -> str:
    return words(
        float(at[0]), float(at[1]), text, classes={"start": "", "mid": "mid", "end": "end"}[label.get("align", "start")]
    )


def _dimension(placed: Placed, dimension: Mapping[str, Any], vocabulary: Mapping[str, str]) -> str:
    start, end = placed.px(dimension["from"]), placed.px(dimension["to"])
    text = " ".join(
        part
        for part in (
            vocabulary.get(dimension.get("word", ""), dimension.get("word", "")),
            str(dimension.get("value", "")),
        )
        if part
    )
    middle, half = (start[0] + end[0]) / 2, width_of(text) / 2 + 10
    gap = line("gap", (middle - half, start[1]), (middle + half, start[1]))
    return line("dimension", start, end) + gap + words(middle, start[1] + 8, text, classes="mid")


def _asked(placed: Placed, asked: Mapping[str, Any]) -> str:
    start, end = placed.px(asked["from"]), placed.px(asked["to"])
    symbol, _, index = str(asked["symbol"]).partition("_")
    x, y = (start[0] + end[0]) / 2, start[1] + 34
    lowered = f'<tspan class="sub" dy="6">{index}</tspan><tspan dy="-6"> = ?</tspan>' if index else " = ?"
    text = symbol + lowered
    extensions = "".join(line("fine", (point[0], point[1] - 10), (point[0], point[1] + 10)) for point in (start, end))
    return (
        extensions
        + line("dimension act-line", start, end)
        + f'<text class="ask-for mid" x="{n(x)}" y="{n(y)}">{text}</text>'
    )


def _detail(main: Placed, spec: Mapping[str, Any], vocabulary: Mapping[str, str], prefix: str) -> tuple[str, str]:
    detail = spec["detail"]
    (cx, cy), radius = (float(v) for v in detail["at"]), float(detail["radius"])
    centre, scale = detail["around"], float(detail["scale"])
    ox, oy = main.places[centre] if isinstance(centre, str) else (float(centre[0]), float(centre[1]))
    close = _drawn(
        {"view": spec["view"], "parts": detail.get("parts") or spec["parts"]},
        {"x": cx - ox * scale, "y": cy + oy * scale, "scale": scale},
    )
    clip = f"{prefix}-ring"
    inset, defs = view(close.marks, prefix=prefix, name="detail", x=close.x, y=close.y, scale=scale, clip=clip)
    small = main.px(centre)
    ring = float(detail["ring"])
    letter_at = detail.get("letter_at", [small[0] + ring + 6, small[1] + 8])
    big_at = detail.get("title_at", [cx + radius * 0.72 + 14, cy + radius * 0.72 + 20])
    marks = (
        dot("edge", *small, ring)
        + words(float(letter_at[0]), float(letter_at[1]), detail["letter"])
        + group(inset)
        + dot("edge", cx, cy, radius)
        + words(
            float(big_at[0]),
            float(big_at[1]),
            f"{vocabulary.get('detail', 'Detail')} {detail['letter']}",
            classes="title",
        )
    )
    hole = f'<clipPath id="{clip}"><circle cx="{n(cx)}" cy="{n(cy)}" r="{n(radius)}"/></clipPath>'
    return marks + _labels(close, detail.get("labels", ()), vocabulary), defs + hole
