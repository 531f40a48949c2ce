"""JSON Schemas of all content files, as files for an editor."""

import json
from collections.abc import Mapping

from trainer.bank.schema import Kind, headed, kinds
from trainer.figures.described import drawing_schema

DRAWINGS = ("scenarios/*/drawings.yaml", "drills/*/drawings.yaml")


def content_kinds() -> Mapping[str, Kind]:
    """Return every kind of content file, by name."""
    return {**kinds(), "drawings": Kind(files=DRAWINGS, schema=headed("drawings", drawing_schema()))}


def schema_files() -> dict[str, bytes]:
    """Return a file for each kind, by its name: ``scenario.schema.json``."""
    return {f"{name}.schema.json": _json(kind.schema) for name, kind in content_kinds().items()}


def bundle() -> bytes:
    """Return everything as one JSON document: the schema for each pattern of files, and each schema by name."""
    found = content_kinds()
    files = {pattern: name for name, kind in found.items() for pattern in kind.files}
    return _json({"files": files, "schemas": {name: kind.schema for name, kind in found.items()}})


def _json(data: object) -> bytes:
    return (json.dumps(data, ensure_ascii=False, indent=2) + "\n").encode("utf-8")
