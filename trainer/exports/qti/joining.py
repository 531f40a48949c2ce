"""Items read back, joined to questions with words in each language, and those to drafts of scenarios."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel, ValidationError

from trainer import units
from trainer.assessment.drills import band_of
from trainer.bank.drafting import FOLDER, ScenarioDraft
from trainer.bank.model import Number, Scenario, Text
from trainer.bank.question_model import SHAPES
from trainer.errors import TrainerError
from trainer.exports.qti.bodies import PLACES
from trainer.exports.qti.findings import DraftUnfinished, LanguagesDiffer, OtherFigure, TakenTwice, UnfitFacts
from trainer.exports.qti.reading import Taken, Unfit
from trainer.findings import Finding

ORDER = (
    *("id", "version", "kind", "competency", "critical", "sources", "drawing", "figures"),
    *("problem", "inputs", "unit", "over", "slips", "options", "reasons", "mistakes"),
)
HEAD = ("id", "theme", "roles", "competencies", "sources")
SLUG = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")
ELSEWHERE, ELSEWHERE_SLUG = "IMPORTED", "imported"
WANTING = "It has no competency, sources and misconceptions: they are not part of the standard."


@dataclass(slots=True)
class _Question:
    first: Taken
    structure: dict[str, Any]
    words: dict[str, dict[str, Any]] = field(default_factory=dict)


@dataclass(slots=True)
class _Scenario:
    slug: str
    head: dict[str, Any]
    titles: dict[str, str] = field(default_factory=dict)
    questions: dict[str, _Question] = field(default_factory=dict)


@dataclass(slots=True)
class Joining:
    """Scenarios in the making; what does not fit goes to ``findings``."""

    findings: list[Finding]
    scenarios: dict[str, _Scenario] = field(default_factory=dict)

    def add(self, taken: Taken) -> None:
        """Put an item in its place."""
        try:
            scenario, key = self._place(taken)
            if taken.facts is not None:
                _judge(taken, scenario.head, key)
        except Unfit as unfit:
            self.findings.append(unfit.finding)
            return
        structure = _structure(taken, key)
        held = scenario.questions.setdefault(key, _Question(taken, structure))
        if taken.language in held.words:
            self._found(TakenTwice, taken, f"It is in {held.first.file} as well.")
        elif structure != held.structure:
            self._found(LanguagesDiffer, taken, f"It differs from {held.first.file}.")
        else:
            held.words[taken.language] = taken.words
            scenario.titles.setdefault(taken.language, taken.title or scenario.slug)
            if taken.facts is None:
                self._found(DraftUnfinished, taken, WANTING)

    def drafts(self) -> list[ScenarioDraft]:
        """Return every scenario in the order of the slugs, its questions as they came."""
        for scenario in self.scenarios.values():
            named = {str(one.structure["drawing"]) for one in scenario.questions.values() if "drawing" in one.structure}
            if named:
                note = f"Its drawings are pictures in the package; describe them anew: {', '.join(sorted(named))}."
                file = f"{FOLDER}/{scenario.slug}/drawings.yaml"
                self.findings.append(DraftUnfinished(file=file, key=str(scenario.head["id"]), note=note))
        return [_draft(scenario) for _slug, scenario in sorted(self.scenarios.items()) if scenario.questions]

    def count(self) -> int:
        """Return how many questions there are."""
        return sum(len(scenario.questions) for scenario in self.scenarios.values())

    def _found(self, kind: type[Finding], taken: Taken, note: str) -> None:
        self.findings.append(kind(file=taken.file, line=taken.line, key=taken.name[:80], note=note))

    def _place(self, taken: Taken) -> tuple[_Scenario, str]:
        """Return the scenario of an item, made where it is new, and the item's key in it."""
        if taken.facts is None or taken.scenario is None:
            scenario = self.scenarios.setdefault(
                ELSEWHERE_SLUG, _Scenario(ELSEWHERE_SLUG, {"id": ELSEWHERE, "lessons": []})
            )
            fits = SLUG.fullmatch(taken.name) and len(taken.name) <= 60
            return scenario, taken.name if fits else f"q{len(scenario.questions) + 1}"
        head = {key: taken.scenario[key] for key in HEAD if key in taken.scenario}
        slug = str(taken.scenario.get("slug"))
        _fit(taken, Scenario, {**taken.scenario, **_EMPTY})
        scenario = self.scenarios.setdefault(slug, _Scenario(slug, {**head, "lessons": []}))
        if scenario.head != {**head, "lessons": []}:
            raise _unfit(taken, f"The scenario {slug} is told differently in another item.")
        begin, _, key = str(taken.facts.get("id")).rpartition("/")
        if begin != head["id"] or not SLUG.fullmatch(key) or not SLUG.fullmatch(slug):
            raise _unfit(taken, f"The question {key[:40]} is not of the scenario {slug[:40]}.")
        return scenario, key


_NONE = Text(words={})
_EMPTY: Mapping[str, Any] = {"title": _NONE, "lessons": (), "questions": (), "drawings": {}, "drawing_texts": {}}


def _unfit(taken: Taken, note: str) -> Unfit:
    return Unfit(UnfitFacts(file=taken.file, line=taken.line, key=taken.name[:80], note=note))


def _fit(taken: Taken, model: type[BaseModel], data: Mapping[str, Any]) -> BaseModel:
    try:
        return model.model_validate(data)
    except ValidationError as error:
        problem = error.errors(include_url=False)[0]
        place = ".".join(map(str, problem["loc"]))
        raise _unfit(taken, f"{place}: {problem['msg']}.") from error


def _judge(taken: Taken, head: Mapping[str, Any], key: str) -> None:
    """See that the bank's own data make a question, and that its number is what its sum gives."""
    structure = _structure(taken, key)
    for name in ("options", "reasons"):
        if name in structure:
            partner = {"partner": _NONE} if taken.structure["kind"] == "match" else {}
            structure[name] = [{**one, "text": _NONE, **partner} for one in structure[name]]
    given = {"id": f"{head['id']}/{key}", "scenario": head["id"], "told": _NONE, "asked": _NONE, "why": _NONE}
    made = _fit(taken, SHAPES[taken.structure["kind"]], {**structure, **given})
    if isinstance(made, Number):
        _judge_number(taken, made)


def _judge_number(taken: Taken, made: Number) -> None:
    try:
        needed = units.digits(band_of(made.drill, made.inputs).needed, PLACES)
    except TrainerError as error:
        raise _unfit(taken, str(error)) from error
    if taken.correct != (needed,):
        note = f"The item says {', '.join(taken.correct)[:40]}, the sum says {needed} {made.unit}."
        raise Unfit(OtherFigure(file=taken.file, line=taken.line, key=taken.name[:80], note=note))


def _structure(taken: Taken, key: str) -> dict[str, Any]:
    """Return a question as in ``scenario.yaml``, its keys in the order that the bank writes them."""
    held = {"version": 1, **(taken.facts or {}), **taken.structure, "id": key}
    return {name: held[name] for name in ORDER if name in held} | {n: v for n, v in held.items() if n not in ORDER}


def _draft(scenario: _Scenario) -> ScenarioDraft:
    questions = [question.structure for question in scenario.questions.values()]
    languages = sorted({code for question in scenario.questions.values() for code in question.words})
    words = {code: dict(_told(scenario, code)) for code in languages}
    return ScenarioDraft(slug=scenario.slug, structure={**scenario.head, "questions": questions}, words=words)


def _told(scenario: _Scenario, code: str) -> Iterator[tuple[str, Any]]:
    yield "title", scenario.titles[code]
    spoken = scenario.questions.items()
    yield "questions", {key: question.words[code] for key, question in spoken if code in question.words}


def joined(taken: Iterable[Taken], findings: list[Finding]) -> Joining:
    """Join items to scenarios."""
    joining = Joining(findings)
    for one in taken:
        joining.add(one)
    return joining
