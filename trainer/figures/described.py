"""JSON Schema of ``drawings.yaml``, for editors; taken from the kit of parts, so that it cannot drift from it."""

from collections.abc import Mapping
from typing import Any

from trainer.figures.kit import PARTS, Part
from trainer.figures.problems import KNOWN, NEEDED, OWN_KEYS, VIEWS
from trainer.figures.when import KEYS as CONDITIONS

Schema = dict[str, Any]
NUMBER: Schema = {"type": "number"}
POINT: Schema = {"type": "array", "items": NUMBER, "minItems": 2, "maxItems": 2}
POINTS: Schema = {"type": "array", "items": POINT, "minItems": 2}
PLACE: Schema = {"anyOf": [{"type": "string"}, POINT]}  # a named place of a part, or millimetres
DRAWN: Schema = {"type": "string", "pattern": r"^\$"}  # a number of the drill
CONDITION: Schema = {"type": "object", "additionalProperties": {"type": "array"}}


def drawing_schema() -> Schema:
    """Return the schema of a file that maps names to drawings: each view with its own parts and their measures."""
    defined = {f"part-{view}": _parts(view) for view in sorted(VIEWS)}
    defined |= {"label": _label(), "drawing": _drawing()}
    return {"type": "object", "additionalProperties": {"$ref": "#/$defs/drawing"}, "$defs": defined}


def _drawing() -> Schema:
    held: dict[str, Schema] = {key: _entry(key) for key in sorted(KNOWN)}
    held["view"] = {"enum": sorted(VIEWS)}
    held["size"] = POINT
    held["parts"] = {"type": "array"}
    held["labels"] = {"type": "array", "items": {"$ref": "#/$defs/label"}}
    held["balloons"] = {"type": "array"}
    return {
        "type": "object",
        "properties": held,
        "required": ["view", "place", "parts"],
        "additionalProperties": False,
        "allOf": [_seen(view) for view in sorted(VIEWS)],
    }


def _seen(view: str) -> Schema:
    """Return what follows from the view: which parts there are."""
    parts = {"properties": {"parts": {"items": {"$ref": f"#/$defs/part-{view}"}}}}
    detail = {"properties": {"detail": parts}}
    return {"if": {"properties": {"view": {"const": view}}}, "then": {"allOf": [parts, detail]}}


def _entry(key: str) -> Schema:
    return {"type": "object", "required": sorted(NEEDED.get(key, ()))}


def _label() -> Schema:
    held: Mapping[str, Schema] = {"word": {"type": "string"}, "at": POINT, "to": PLACE}
    return {"type": "object", "properties": held, "required": ["word", "at"]}


def _parts(view: str) -> Schema:
    """Return the schema of one part seen so: which there are, then what each takes."""
    known = [part for (seen, _), part in sorted(PARTS.items()) if seen == view]
    return {
        "type": "object",
        "properties": {"part": {"enum": [part.name for part in known]}},
        "required": ["part"],
        "allOf": [{"if": {"properties": {"part": {"const": part.name}}}, "then": _part(part)} for part in known],
    }


def _part(part: Part) -> Schema:
    measures = {key: {"anyOf": [_measure(part, key), DRAWN]} for key in part.usual}
    own: dict[str, Schema] = dict.fromkeys(sorted(CONDITIONS), CONDITION)
    own |= {key: {"type": "string"} for key in sorted(OWN_KEYS - CONDITIONS)}
    return {"properties": {**own, **measures}, "additionalProperties": False}


def _measure(part: Part, key: str) -> Schema:
    usual = part.usual[key]
    if key in part.choices:
        return {"enum": sorted(part.choices[key])}
    if isinstance(usual, bool):
        return {"type": "boolean"}
    if isinstance(usual, int | float):
        return NUMBER
    if isinstance(usual, tuple):
        return POINTS if isinstance(usual[0], tuple) else POINT
    return {}
