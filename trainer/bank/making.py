"""Make one model from what was read; whatever does not fit becomes a finding with its file, line and key."""

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from trainer.bank.draft import Origin
from trainer.bank.findings import BadValue, MissingKey, UnknownKey
from trainer.findings import Finding

M = TypeVar("M", bound=BaseModel)
LISTS = {
    "id",
    "options",
    "reasons",
    "lessons",
    "questions",
    "settings",
    "base",
    "situations",
    "steps",
}  # stand in the entry and are made beforehand
PLAINER = {
    "string_pattern_mismatch": "It has to look like {pattern}",
    "tuple_type": "Write a list here",
    "mapping_type": "Write a mapping here, a key and a value on each line",
    "dict_type": "Write a mapping here, a key and a value on each line",
    "model_type": "Write a mapping here, a key and a value on each line",
    "string_type": "Write plain text here",
    "too_short": "It needs {min_length} or more, and there are {actual_length}",
    "int_parsing": "Write a whole number",
    "float_parsing": "Write a number",
    "bool_parsing": "Write true or false",
    "literal_error": "Write {expected}",
    "enum": "Write {expected}",
}


def make(model: type[M], item: str, origin: Origin, findings: list[Finding], **given: Any) -> M | None:
    """Make a model from the entry at ``origin`` and what is ``given`` beside it; None where it does not fit.

    ``item`` names the entry in findings. An entry may not hold a key that is given: texts do not stand among the
    structure.
    """
    data = origin.file.get(*origin.path)
    if not isinstance(data, dict):
        note = "Write a mapping here: a key, a colon and a value on each line."
        findings.append(BadValue(file=origin.file.name, line=origin.line(), key=item, note=note))
        return None
    doubled = sorted(set(data) & set(given) - LISTS)
    for key in doubled:
        note = "This does not stand here: it comes from the text files or from the entry's own key."
        findings.append(UnknownKey(file=origin.file.name, line=origin.line(key), key=f"{item} {key}", note=note))
    try:
        return model.model_validate({**data, **given})
    except ValidationError as error:
        findings.extend(_finding(item, origin, problem) for problem in error.errors(include_url=False))
        return None


def _finding(item: str, origin: Origin, problem: Any) -> Finding:
    path = tuple(problem["loc"])
    key = " ".join(part for part in (item, ".".join(map(str, path))) if part)
    kind: type[Finding] = BadValue
    note = _note(problem)
    if problem["type"] == "extra_forbidden":
        kind, note = UnknownKey, f"“{path[-1]}” is not known here."
    if problem["type"] == "missing":
        kind, note = MissingKey, f"“{path[-1]}” is missing."
    return kind(file=origin.file.name, line=origin.line(*path), key=key, note=note)


def _note(problem: Any) -> str:
    seen = problem.get("input")
    said = PLAINER.get(problem["type"], str(problem["msg"])).rstrip(".").format(**problem.get("ctx", {}))
    shown = f"“{' '.join(seen.split())[:40]}”: " if isinstance(seen, str) else ""
    return f"{shown}{said}."
