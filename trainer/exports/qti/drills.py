"""A computed drill as an item: its numbers are drawn by the player, and its answer is worked out from them there."""

import re
from collections.abc import Iterator

from trainer import units
from trainer.exports.qti.arithmetic import variable
from trainer.exports.qti.bodies import FIRST, Body, Response, typed
from trainer.exports.qti.drawings import Picture
from trainer.exports.qti.frame import modal, outcomes, processing
from trainer.exports.qti.names import DRILL, ITEM, PART, ROOT, WHY, item_name
from trainer.exports.qti.node import Node, node
from trainer.exports.qti.templates import NEEDED, Template
from trainer.exports.voice import Voice
from trainer.safeguarding.cautions import CAUTION

AMOUNT = re.compile(r"^-?\d+(?:\.\d+)?")


def drill_item(made: Template, voice: Voice, picture: Picture | None) -> Node:
    """Return a drill as an assessment item in the language of ``voice``."""
    drill, language = made.drill, voice.language
    response = Response(name=FIRST, cardinality="single", base_type="float", correct=(), test=made.test)
    body = Body(blocks=typed([drill.asked.in_(language)], drill.unit), responses=(response,))
    told = node("div", node("p", drill.told.in_(language)), **{DRILL: drill.id})
    shown = [node("div", picture.image(), **{PART: "drawing"})] if picture else []
    return node(
        ROOT,
        response.declared(),
        *outcomes(body),
        *_declared(made),
        _drawn(made),
        node("qti-item-body", told, node("ul", *_given(made, voice)), *shown, *body.blocks),
        processing(body),
        modal(WHY.upper(), WHY, voice.tell(CAUTION)),
        xmlns=ITEM,
        identifier=item_name(drill.id, language),
        title=drill.title.in_(language),
        adaptive="false",
        time_dependent="false",
        **{"xml:lang": language},
    )


def _declared(made: Template) -> Iterator[Node]:
    for name, kind in made.declared:
        yield node("qti-template-declaration", identifier=name, cardinality="single", base_type=kind)


def _drawn(made: Template) -> Node:
    values = (node("qti-set-template-value", how, identifier=name) for name, how in made.set)
    answer = node("qti-set-correct-response", variable(NEEDED), identifier=FIRST)
    return node("qti-template-processing", *values, answer)


def _given(made: Template, voice: Voice) -> Iterator[Node]:
    """Give what is given, a line each: its name, the source's symbol, and the number with its unit."""
    for step, key in made.given:
        name = f"{voice.tell(step.label)}, {step.symbol.replace('_', '')}: "
        if key:
            unit = AMOUNT.sub("", step.shown).replace(" ", "\u00a0")
            yield node("li", name, node("qti-printed-variable", identifier=key), unit)
        else:
            yield node("li", f"{name}{units.localised(step.shown, voice.language)}")
