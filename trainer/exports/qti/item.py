"""One assessment item: a question in one language, marked by its own response processing."""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import rfc8785

from trainer import units
from trainer.bank import Bank
from trainer.bank.computed import NO_BREAK, amounts
from trainer.bank.draft import Origin
from trainer.bank.model import Number, Question
from trainer.bank.yamlfile import File
from trainer.exports.qti.bodies import Asked, Body, body
from trainer.exports.qti.drawings import Picture
from trainer.exports.qti.frame import modal, outcome, outcomes, processing, telling
from trainer.exports.qti.names import FACTS, FIGURE, ITEM, PART, ROOT, SCENARIO, WHY, identifier, item_name
from trainer.exports.qti.node import Node, node
from trainer.exports.voice import Voice
from trainer.safeguarding.cautions import CAUTION

OWN = {
    "id",
    "version",
    "kind",
    "competency",
    "critical",
    "sources",
    "drawing",
    "figures",
    "mistakes",
    "problem",
    "inputs",
    "unit",
    "over",
    "slips",
}


def item(bank: Bank, question: Question, voice: Voice, picture: Picture | None) -> Node:
    """Return a question as an assessment item in the language of ``voice``."""
    language = voice.language
    marked = _Figures(question, language)
    asked = Asked(
        question=question,
        language=language,
        words=marked.words,
        voice=voice,
        picture=picture,
        asked=marked.words(question.asked.in_(language)),
    )
    made = body(asked)
    told = node("div", node("p", *marked.words(question.told.in_(language))))
    told.attributes |= {FACTS: _json(facts(question)), SCENARIO: _json(scenario_facts(bank, question))}
    shown = [picture.image()] if picture and not picture.spots else []
    return node(
        ROOT,
        *(response.declared() for response in made.responses),
        *outcomes(made),
        node("qti-item-body", told, *(node("div", image, **{PART: "drawing"}) for image in shown), *made.blocks),
        processing(made),
        *_feedback(bank, made, marked.words(question.why.in_(language)), voice, isinstance(question, Number)),
        xmlns=ITEM,
        identifier=item_name(question.id, language),
        title=bank.scenarios[question.scenario].title.in_(language),
        adaptive="false",
        time_dependent="false",
        **{"xml:lang": language},
    )


def facts(question: Question) -> dict[str, Any]:
    """Return what of a question's structure the standard has no place for, as in the bank's files."""
    held = question.model_dump(mode="json", exclude_defaults=True)
    return {key: value for key, value in held.items() if key in OWN and value not in ({}, [])}


def scenario_facts(bank: Bank, question: Question) -> dict[str, Any]:
    """Return the head of a question's scenario, as in the bank's files."""
    scenario = bank.scenarios[question.scenario]
    kept = {"id", "slug", "theme", "roles", "competencies", "sources"}
    return scenario.model_dump(mode="json", include=kept, exclude_none=True)


def _json(data: Mapping[str, Any]) -> str:
    return rfc8785.dumps(dict(data)).decode("utf-8")


class _Figures:
    """Marks in texts which figure a sum gave, so that a reader of the package can tell it from one that was typed."""

    def __init__(self, question: Question, language: str) -> None:
        found = amounts(question.figures, question.id, Origin(File("")), [])
        shown = {units.localised(text, language).replace(" ", NO_BREAK): name for name, text in found.items()}
        self.names = shown
        self.pattern = re.compile("|".join(rf"(?<!\d){re.escape(text)}(?!\w)" for text in shown) or r"(?!)")

    def words(self, text: str) -> Sequence[Node | str]:
        """Return a text in pieces, its figures marked."""
        return list(self._pieces(text))

    def _pieces(self, text: str) -> Iterator[Node | str]:
        end = 0
        for found in self.pattern.finditer(text):
            yield text[end : found.start()]
            yield node("span", found[0], **{FIGURE: self.names[found[0]]})
            end = found.end()
        yield text[end:]


def _feedback(bank: Bank, made: Body, why: Sequence[Node | str], voice: Voice, cautioned: bool) -> Iterator[Node]:  # noqa: FBT001
    """Give why the right answer is right, then what each wrong one that was pressed shows."""
    yield modal(WHY.upper(), WHY, *why)
    if cautioned:
        yield modal(WHY.upper(), WHY, voice.tell(CAUTION))
    for response in telling(made):
        for option in response.options:
            known = bank.misconceptions.get(option.misconception or "")
            if known is not None and not option.right:
                yield modal(outcome(response), identifier(option.id), known.tell.in_(voice.language))
