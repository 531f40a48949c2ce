"""What xAPI 1.0.3 asks of a statement's structure (its part two, Data), as a JSON Schema and a few rules beside it."""

import re

from jsonschema import Draft202012Validator

IRI = {"type": "string", "pattern": r"^[A-Za-z][A-Za-z0-9+.-]*:[^\s]+$"}
UUID = {"type": "string", "pattern": r"^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$"}
TAG = r"^(und|[a-z]{2,3}(-[A-Za-z0-9]{2,8})*)$"
LANGUAGES = {
    "type": "object",
    "minProperties": 1,
    "patternProperties": {TAG: {"type": "string", "minLength": 1}},
    "additionalProperties": False,
}
EXTENSIONS = {
    "type": "object",
    "propertyNames": IRI,
    "additionalProperties": {"not": {"type": "null"}},
}
TIMESTAMP = {
    "type": "string",
    "pattern": r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{3,})?(Z|[+-](?!00:00)\d{2}:\d{2})$",
}
DURATION = {"type": "string", "pattern": r"^P(?!$)(\d+W|(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?)$"}


def closed(required, **properties):
    return {"type": "object", "required": required, "properties": properties, "additionalProperties": False}


AGENT = closed(
    ["account"],
    objectType={"const": "Agent"},
    name={"type": "string"},
    account=closed(["homePage", "name"], homePage=IRI, name={"type": "string", "minLength": 1}),
)
VERB = closed(["id"], id=IRI, display=LANGUAGES)
ACTIVITY = closed(
    ["id"],
    objectType={"const": "Activity"},
    id=IRI,
    definition=closed(
        [],
        name=LANGUAGES,
        description=LANGUAGES,
        type=IRI,
        moreInfo=IRI,
        extensions=EXTENSIONS,
        correctResponsesPattern={"type": "array", "items": {"type": "string"}},
        interactionType={
            "enum": [
                "true-false",
                "choice",
                "fill-in",
                "long-fill-in",
                "matching",
                "performance",
                "sequencing",
                "likert",
                "numeric",
                "other",
            ]
        },
    ),
)
REFERENCE = closed(["objectType", "id"], objectType={"const": "StatementRef"}, id=UUID)
RESULT = closed(
    [],
    score=closed(
        [],
        scaled={"type": "number", "minimum": -1, "maximum": 1},
        raw={"type": "number"},
        min={"type": "number"},
        max={"type": "number"},
    ),
    success={"type": "boolean"},
    completion={"type": "boolean"},
    response={"type": "string"},
    duration=DURATION,
    extensions=EXTENSIONS,
)
LISTED = {"type": "array", "items": ACTIVITY, "minItems": 1}
CONTEXT = closed(
    [],
    registration=UUID,
    instructor=AGENT,
    team={"type": "object"},
    contextActivities=closed([], parent=LISTED, grouping=LISTED, category=LISTED, other=LISTED),
    revision={"type": "string"},
    platform={"type": "string"},
    language={"type": "string", "pattern": TAG},
    statement=REFERENCE,
    extensions=EXTENSIONS,
)
STATEMENT = closed(
    ["id", "actor", "verb", "object"],
    id=UUID,
    actor=AGENT,
    verb=VERB,
    object={"oneOf": [ACTIVITY, REFERENCE]},
    result=RESULT,
    context=CONTEXT,
    timestamp=TIMESTAMP,
)
VALIDATOR = Draft202012Validator(STATEMENT)
VOIDED = "http://adlnet.gov/expapi/verbs/voided"
ADL = re.compile(r"http://adlnet\.gov/expapi/verbs/(\w+)")
VOCABULARY = {
    "answered",
    "attempted",
    "attended",
    "experienced",
    "launched",
    "mastered",
    "progressed",
    "registered",
    "voided",
    "completed",
    "passed",
    "failed",
    "initialized",
    "terminated",
    "suspended",
    "resumed",
}


def faults(statement):
    """Return what is wrong with a statement by itself; empty when nothing is."""
    found = [error.message for error in VALIDATOR.iter_errors(statement)]
    if found:
        return found
    return [rule.__doc__ for rule in RULES if not rule(statement)]


def _score(statement):
    """The raw score lies between the least and the most."""
    score = statement.get("result", {}).get("score", {})
    raw, least, most = (score.get(name) for name in ("raw", "min", "max"))
    bounded = raw is None or ((least is None or raw >= least) and (most is None or raw <= most))
    return bounded and (least is None or most is None or least < most)


def _voiding(statement):
    """A statement that voids points at another one, and no other points at one in this ledger."""
    return (statement["verb"]["id"] == VOIDED) == (statement["object"]["objectType"] == "StatementRef")


def _on_activities_only(statement):
    """Revision and platform are said of activities only."""
    return statement["object"]["objectType"] == "Activity" or not {"revision", "platform"} & set(
        statement.get("context", {})
    )


def _interaction(statement):
    """An answer pattern belongs to an interaction."""
    definition = statement["object"].get("definition", {})
    return "correctResponsesPattern" not in definition or "interactionType" in definition


def _adl(statement):
    """A verb under the address of the ADL vocabulary stands in it."""
    found = ADL.fullmatch(statement["verb"]["id"])
    return found is None or found[1] in VOCABULARY


RULES = (_score, _voiding, _on_activities_only, _interaction, _adl)
