"""Each drawing that a sheet names is there, can be drawn, is described, and has its labels in the words."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, ClassVar

from trainer.bank.draft import Draft, Origin
from trainer.bank.model import Drill, Lesson, OnDrawing, Question, Scenario
from trainer.findings import Finding


class UnknownDrawing(Finding):
    """A drawing that the folder's ``drawings.yaml`` does not hold."""

    code: ClassVar[str] = "unknown-drawing"
    title: ClassVar[str] = "The drawing is not there."
    fix: ClassVar[str] = "Correct the name, or add the drawing to drawings.yaml."


class BadDrawing(Finding):
    """A drawing that cannot be drawn as it is written."""

    code: ClassVar[str] = "bad-drawing"
    title: ClassVar[str] = "The drawing cannot be drawn."
    fix: ClassVar[str] = "Mend what the note says in drawings.yaml."


class UnknownWord(Finding):
    """A label whose word is in no list of words."""

    code: ClassVar[str] = "unknown-word"
    title: ClassVar[str] = "The label's word is not listed."
    fix: ClassVar[str] = "Correct the word, or add it to words/<language>.yaml in each language."


finds = (UnknownDrawing, BadDrawing, UnknownWord)
CheckDrawing = Callable[[Mapping[str, Any]], Iterable[str]]


def check(draft: Draft, check_drawing: CheckDrawing | None = None) -> Iterator[Finding]:
    """Look at each drawing and at each sheet that names one."""
    for scenario in draft.bank.scenarios.values():
        sheets: tuple[Lesson | Question, ...] = (*scenario.lessons, *scenario.questions)
        for sheet in sheets:
            yield from _named(draft, sheet.id, sheet.drawing, scenario)
        yield from _places(draft, scenario, check_drawing)
    for drill in draft.bank.drills.values():
        yield from _named(draft, drill.id, drill.drawing, drill)
    for (folder, name), origin in draft.drawn.items():
        yield from _drawn(draft, origin, f"{folder.rpartition('/')[2]} {name}", check_drawing)


def _named(draft: Draft, sheet: str, name: str | None, owner: Scenario | Drill) -> Iterator[Finding]:
    if name and name not in owner.drawings:
        yield draft.at(UnknownDrawing, sheet, "drawing", note=f"“{name}” is not in drawings.yaml.")


def _places(draft: Draft, scenario: Scenario, check_drawing: CheckDrawing | None) -> Iterator[Finding]:
    """Look at where the options of questions about places lie."""
    for question in scenario.questions:
        spec = scenario.drawings.get(question.drawing or "")
        if not isinstance(question, OnDrawing) or not isinstance(spec, Mapping) or check_drawing is None:
            continue
        places = [{"letter": option.id, "at": option.at} for option in question.options if option.at is not None]
        sound = set(check_drawing(spec))
        for problem in check_drawing({**spec, "balloons": places}):
            if problem not in sound:
                yield draft.at(BadDrawing, question.id, "options", note=problem)


def _drawn(draft: Draft, origin: Origin, key: str, check_drawing: CheckDrawing | None) -> Iterator[Finding]:
    spec = origin.file.get(*origin.path)
    place = {"file": origin.file.name, "key": key}
    if not isinstance(spec, dict):
        yield BadDrawing(**place, line=origin.line(), note="Write a mapping here.")
        return
    for problem in check_drawing(spec) if check_drawing else ():
        yield BadDrawing(**place, line=origin.line(), note=problem)
    known = draft.bank.words.get(draft.bank.languages[0], {})
    for path, word in _words(spec, ()):
        if word not in known:
            yield UnknownWord(**place, line=origin.line(*path), note=f"“{word}” is not in the words.")


def _words(data: object, path: tuple[str | int, ...]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Give every value that stands under a key ``word``, with its path."""
    if isinstance(data, dict):
        for key, value in data.items():
            if key == "word" and isinstance(value, str):
                yield (*path, key), value
            else:
                yield from _words(value, (*path, key))
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _words(value, (*path, number))
