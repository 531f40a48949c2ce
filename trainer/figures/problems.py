"""What of a drawing's description cannot be drawn, in plain sentences."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from trainer.figures.kit import PARTS, composed
from trainer.figures.measures import wrong
from trainer.figures.when import KEYS as CONDITIONS
from trainer.figures.when import kept, sound, variants

VIEWS = {"front", "side", "plan"}
SEEN = {"front": "seen from the front", "side": "seen from the side", "plan": "seen from above"}
KNOWN = {"view", "size", "place", "parts", "labels", "dimension", "asks", "detail", "note", "balloons"}
NEEDED = {
    "place": {"x", "y", "scale"},
    "dimension": {"from", "to"},
    "asks": {"from", "to", "symbol"},
    "detail": {"letter", "around", "ring", "at", "radius", "scale", "parts"},
    "note": {"word", "at"},
}
OWN_KEYS = {"part", "as", *CONDITIONS}


def problems(spec: Mapping[str, Any]) -> Iterable[str]:
    """Say, one plain sentence each, what is unknown, missing or out of place."""
    seen = spec.get("view")
    if seen not in VIEWS:
        yield f"The view is {seen!r}; it is front, plan or side."
        return
    if set(spec) - KNOWN:
        yield f"Not understood: {_list(set(spec) - KNOWN)}. A drawing has {_list(KNOWN)}."
    for key, needed in NEEDED.items():
        missing = needed - set(spec.get(key, {} if key == "place" else needed))
        if missing:
            yield f"The {key} lacks {_list(missing)}."
    detail = spec.get("detail", {})
    yield from _parts(seen, spec.get("parts", ()))
    yield from _parts(seen, detail.get("parts", ()))
    if all(sound(entry) for entry in (*spec.get("parts", ()), *spec.get("labels", ()))):
        yield from _pointing(seen, spec)
    yield from _targets(seen, detail.get("parts", ()), detail.get("labels", ()))


def _pointing(seen: str, spec: Mapping[str, Any]) -> Iterable[str]:
    """Say what points at nothing, in any of the ways that the drawing can come out."""
    told: dict[str, None] = {}
    for draw in variants(spec):
        labels = [*kept(spec.get("labels", ()), draw), *_ends(spec)]
        told |= dict.fromkeys(_targets(seen, kept(spec.get("parts", ()), draw), labels))
    return told


def _ends(spec: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """Return what else points at a place, in the shape of labels."""
    ends = [
        {"to": spec[key][end]} for key in ("dimension", "asks") for end in ("from", "to") if end in spec.get(key, {})
    ]
    ends += [{"to": entry["at"]} for entry in spec.get("balloons", ())]
    around = spec.get("detail", {}).get("around")
    return [{**end, "word": "", "at": (0, 0)} for end in [*ends, *([{"to": around}] if around is not None else [])]]


def _parts(seen: str, parts: Sequence[Mapping[str, Any]]) -> Iterable[str]:
    for entry in parts:
        name = entry.get("part")
        known = PARTS.get((seen, str(name)))
        if known is None:
            yield f"There is no part {name!r} {SEEN[seen]}; there are {_list(part for view, part in PARTS if view == seen)}."
            continue
        unknown = set(entry) - set(known.usual) - OWN_KEYS
        if unknown:
            yield f"The part {name} takes no {_list(unknown)}; it takes {_list(known.usual)}."
        yield from _conditions(str(name), entry)
        for key in set(known.usual) & set(entry):
            yield from wrong(known, key, entry[key])


def _conditions(part: str, entry: Mapping[str, Any]) -> Iterable[str]:
    if not sound(entry):
        yield f"A condition of {part} is not understood; write when: {{setting: [one, other]}}."


def _targets(seen: str, parts: Sequence[Mapping[str, Any]], labels: Iterable[Mapping[str, Any]]) -> Iterable[str]:
    places: set[str] | None = None
    for label in labels:
        if not {"word", "at"} <= set(label):
            yield f"A label needs a word and at; one has {_list(label)}."
        target = label.get("to")
        if isinstance(target, str):
            places = _places(seen, parts) if places is None else places
            if target not in places:
                yield f"A label points at {target!r}; there are {_list(places)}."


def _places(seen: str, parts: Sequence[Mapping[str, Any]]) -> set[str]:
    """Return the places that the parts offer; a part that cannot be drawn offers none and has its own sentence."""
    sound = [entry for entry in parts if not list(_parts(seen, [entry]))]
    plain = [{key: (1 if str(value).startswith("$") else value) for key, value in entry.items()} for entry in sound]
    return {f"{name}.{place}" for name, piece in composed(seen, plain) for place in piece.places}


def _list(names: Iterable[str]) -> str:
    return ", ".join(sorted(map(str, names)))
