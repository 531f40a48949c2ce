"""JSON Schema (2020-12) of the content files, for editors; taken from the models, so that it cannot drift from them.

A file of structure is its model without what stands elsewhere: the words, which have files of their own, and what the
reader gives (:data:`GIVEN`). A file of words is what the models say is a text, under the ids of the structure.

The schemas say which keys and values there are. Whether an id is known, a sum has a figure or a text is plain, only
``trainer bank check`` can say.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import BaseModel, TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from trainer.bank.basis import Id, Text
from trainer.bank.beside import OwnHead
from trainer.bank.drill_model import AnyDrill, ComputeDrill, Drill, Setting, Situation
from trainer.bank.loader import Head
from trainer.bank.model import (
    Checklist,
    ChecklistStep,
    Competency,
    Lesson,
    Misconception,
    Option,
    Programme,
    Question,
    Reading,
    Scenario,
    Source,
)
from trainer.bank.texts import LONGEST

DIALECT = "https://json-schema.org/draft/2020-12/schema"
NAME = "urn:trainer:content:"
OWNED = {"scenario", "slug", "drawings", "drawing_texts"}  # comes from the folder or from a file beside it
GIVEN: Mapping[str, set[str]] = {  # what the reader gives beside the file, by the model that it is given to
    "Source": {"key"},
    **{model.__name__: {"id"} for model in (Competency, Misconception, Programme, Checklist)},
}
DRILL_REFS = [{"$ref": f"#/$defs/{ComputeDrill.__name__}"}]
TEXT_REF = {"$ref": "#/$defs/Text"}
CODES = ("??", "???", "??-*", "???-*")  # names of files that are a language
FILES: Mapping[str, tuple[str, ...]] = {
    "own-bank": (),  # a site's own bank.yaml, which only its folder tells from the bank's
    "reading": ("reading/*.yaml",),
    "text": ("text/*.yaml",),
    "words": ("words/*.yaml",),
    "scenario": ("scenarios/*/scenario.yaml",),
    "drill": ("drills/*/drill.yaml",),
    "scenario-words": tuple(f"scenarios/*/{code}.yaml" for code in CODES),
    "drill-words": tuple(f"drills/*/{code}.yaml" for code in CODES),
}
WORDS = {"type": "string", "minLength": 1, "maxLength": LONGEST}
Schema = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of content file: where such files stand (patterns) and what they hold."""

    files: tuple[str, ...]
    schema: Schema


class _Written(GenerateJsonSchema):
    """As the reader of the files takes them: every scalar is text at first, and nothing is null."""

    def str_schema(self, schema: Any) -> JsonSchemaValue:
        """Take a bare number or truth value for text as well, such as ``beams-blanked: 2``, where any text will do."""
        made = super().str_schema(schema)
        return made if "pattern" in made else {**made, "type": ["string", "number", "boolean"]}

    def nullable_schema(self, schema: Any) -> JsonSchemaValue:
        """Leave null out: a key without a value is empty text, which is no value."""
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: Any) -> JsonSchemaValue:
        """Leave out the default of a key that may be wanting altogether."""
        made = super().default_schema(schema)
        return {key: value for key, value in made.items() if key != "default" or value is not None}

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ARG002  (pydantic asks this way)
        """Set no title that only repeats the key."""
        return False


def kinds() -> Mapping[str, Kind]:
    """Return every kind of content file whose form the bank knows, by name; drawings are described where they are drawn."""
    found = {
        "bank": _whole(Head),
        "own-bank": _whole(OwnHead),
        **{name: _listed(model) for name, model in LISTS.items()},
        "reading": _whole(Reading),
        "scenario": _whole(Scenario),
        "drill": _whole(AnyDrill),
        "text": _text_words(),
        "words": _by_id(WORDS),
        "scenario-words": _scenario_words(),
        "drill-words": _drill_words(),
    }
    return {
        name: Kind(files=FILES.get(name, (f"{name}.yaml",)), schema=headed(name, one)) for name, one in found.items()
    }


LISTS: Mapping[str, type[BaseModel]] = {
    "sources": Source,
    "competencies": Competency,
    "misconceptions": Misconception,
    "programmes": Programme,
    "checklists": Checklist,
}


def headed(name: str, schema: Schema) -> Schema:
    """Return a schema with its dialect and its name."""
    return {"$schema": DIALECT, "$id": NAME + name, **schema}


def texts_of(model: type[BaseModel]) -> list[str]:
    """Return the fields of a model that are words, in their order."""
    return [name for name, field in model.model_fields.items() if field.annotation in {Text, Text | None}]


def _listed(model: type[BaseModel]) -> Schema:
    """Return the schema of a file that maps ids to entries."""
    made = _whole(model)
    defined = made.pop("$defs", {}) | {model.__name__: made}
    return {**_by_id({"$ref": f"#/$defs/{model.__name__}"}), "$defs": defined}


def _whole(model: Any) -> Schema:
    """Return the schema of a file that is one entry."""
    made = TypeAdapter(model).json_schema(schema_generator=_Written)
    defined = {name: _bare(one) for name, one in made.pop("$defs", {}).items() if name != "Text"}
    return _bare(made) | ({"$defs": defined} if defined else {})


def _bare(schema: Schema) -> Schema:
    """Leave out what does not stand in the file, and say plainly what does."""
    away = GIVEN.get(schema.get("title", ""), set()) | OWNED
    held = {
        name: _closed(_named(one))
        for name, one in schema.get("properties", {}).items()
        if name not in away and not _words_alone(one)
    }
    made = {key: value for key, value in schema.items() if key != "discriminator"}  # no word of JSON Schema
    if "properties" in made:
        made["properties"] = held
        made["required"] = [name for name in made.get("required", ()) if name in held]
    if "description" in made:
        made["description"] = _plain(made["description"])
    return made


def _words_alone(schema: Schema) -> bool:
    """Say whether there is nothing but words under a key."""
    return TEXT_REF in (schema, *schema.get("patternProperties", {}).values())


def _named(schema: Schema) -> Schema:
    """Take an id where the model has a whole drill: the file names it, the reader puts it there."""
    return dict(_id()) if schema in DRILL_REFS else schema


def _closed(schema: Schema) -> Schema:
    """Refuse keys that are no ids, as the model does."""
    return {**schema, "additionalProperties": False} if "patternProperties" in schema else schema


def _plain(text: str) -> str:
    return re.sub(r":class:`\.?(\w+)`", r"\1", text).replace("``", "`")


@cache
def _id() -> Schema:
    return TypeAdapter(Id).json_schema()


def _by_id(entry: Schema) -> Schema:
    return {"type": "object", "propertyNames": _id(), "additionalProperties": entry}


def _told(names: list[str], **more: Schema) -> Schema:
    """Return the schema of a mapping that has to hold texts, and may hold more."""
    told = {**dict.fromkeys(names, WORDS), **more}
    return {"type": "object", "properties": told, "required": names, "additionalProperties": False}


def _scenario_words() -> Schema:
    text, partner = (_by_id(WORDS) for _ in texts_of(Option))
    question = _told(texts_of(Question), options=text, partners=partner, reasons=text)
    return _told(
        texts_of(Scenario),
        lessons=_by_id(_told(texts_of(Lesson))),
        questions=_by_id(question),
        drawings=_by_id(WORDS),
    )


def _drill_words() -> Schema:
    (_told_alone,) = texts_of(Setting)
    by_id = _by_id(WORDS)
    situations = _by_id(_told(texts_of(Situation)))
    return _told(texts_of(Drill), settings=by_id, situations=situations, rules=by_id, drawings=by_id)


def _text_words() -> Schema:
    listed = {
        name: _by_id(_told(texts_of(model)))
        for name, model in LISTS.items()
        if texts_of(model) and name != "checklists"
    }
    checklist = _told(texts_of(Checklist), steps=_by_id(_told(texts_of(ChecklistStep))))
    return _told([], title=WORDS, **listed, checklists=_by_id(checklist))
