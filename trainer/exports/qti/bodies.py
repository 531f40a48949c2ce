"""What a person sees and presses: the interaction of each kind of question, with its right answer."""

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

import rfc8785

from trainer import units
from trainer.assessment.band import CEILINGS, STRICT, Band
from trainer.assessment.drills import band_of
from trainer.bank.model import Match, Number, Option, Question
from trainer.exports.qti.drawings import Picture
from trainer.exports.qti.names import PART, PARTNER, PLACE, SHOWS, identifier
from trainer.exports.qti.node import Node, node
from trainer.exports.voice import Voice
from trainer.wording import mark

FIRST, SECOND = "RESPONSE", "REASON"
PLACES = 9  # decimals of a bound; what lies between is cut to the safe side
REASON = mark("Why?")
Words = Callable[[str], Sequence[Node | str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """A response variable: how it is declared, and the test that holds when it is right."""

    name: str
    cardinality: str
    base_type: str
    correct: tuple[str, ...]
    test: Node
    options: tuple[Option, ...] = ()

    def declared(self) -> Node:
        """Return its declaration, with the right answer where that is known beforehand."""
        values = [node("qti-value", value) for value in self.correct]
        return node(
            "qti-response-declaration",
            *([node("qti-correct-response", *values)] if values else []),
            identifier=self.name,
            cardinality=self.cardinality,
            base_type=self.base_type,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The interactions of an item, and the responses they are bound to."""

    blocks: tuple[Node, ...]
    responses: tuple[Response, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question in one language: its words with their figures marked, its drawing, and how its file speaks."""

    question: Question
    language: str
    words: Words
    voice: Voice
    picture: Picture | None = None
    asked: Sequence[Node | str] = field(default_factory=tuple)

    def text(self, option: Option) -> Sequence[Node | str]:
        """Return the words of an option."""
        return self.words(option.text.in_(self.language))


def body(asked: Asked) -> Body:
    """Return what is pressed for a question, by its kind."""
    return BODIES[asked.question.kind](asked)


def _matched(name: str) -> Node:
    return node("qti-match", node("qti-variable", identifier=name), node("qti-correct", identifier=name))


def _pressed(name: str, options: tuple[Option, ...], *, many: bool) -> Response:
    right = tuple(identifier(option.id) for option in options if option.right)
    return Response(
        name=name,
        cardinality="multiple" if many else "single",
        base_type="identifier",
        correct=right,
        test=_matched(name),
        options=options,
    )


def _choices(
    asked: Asked, name: str, prompt: Sequence[Node | str], options: tuple[Option, ...], *, many: bool = False
) -> Node:
    choices = (_choice(option, *asked.text(option)) for option in options)
    return node(
        "qti-choice-interaction",
        node("qti-prompt", *prompt),
        *choices,
        response_identifier=name,
        shuffle="true",
        max_choices="0" if many else "1",
    )


def _choice(option: Option, *words: Node | str) -> Node:
    made = node("qti-simple-choice", *words, identifier=identifier(option.id))
    made.attributes |= {SHOWS: option.misconception} if option.misconception else {}
    return made


def _one(asked: Asked) -> Body:
    options = asked.question.options
    return Body(
        blocks=(_choices(asked, FIRST, asked.asked, options),), responses=(_pressed(FIRST, options, many=False),)
    )


def _all(asked: Asked) -> Body:
    options = asked.question.options
    return Body(
        blocks=(_choices(asked, FIRST, asked.asked, options, many=True),),
        responses=(_pressed(FIRST, options, many=True),),
    )


def _reasoned(asked: Asked) -> Body:
    question = asked.question
    return Body(
        blocks=(
            _choices(asked, FIRST, asked.asked, question.options),
            _choices(asked, SECOND, [asked.voice.tell(REASON)], question.reasons),
        ),
        responses=(
            _pressed(FIRST, question.options, many=False),
            _pressed(SECOND, question.reasons, many=False),
        ),
    )


def jumbled(question: Question, options: Sequence[Option]) -> list[Option]:
    """Return options in an order that is always the same and never the right one: not every player shuffles."""
    found = sorted(options, key=lambda option: hashlib.sha256(f"{question.id} {option.id}".encode()).hexdigest())
    return found[1:] + found[:1] if found == list(options) else found


def _order(asked: Asked) -> Body:
    question = asked.question
    choices = (_choice(option, *asked.text(option)) for option in jumbled(question, question.options))
    made = node(
        "qti-order-interaction", node("qti-prompt", *asked.asked), *choices, response_identifier=FIRST, shuffle="true"
    )
    response = Response(
        name=FIRST,
        cardinality="ordered",
        base_type="identifier",
        correct=tuple(identifier(option.id) for option in question.options),
        test=_matched(FIRST),
    )
    return Body(blocks=(made,), responses=(response,))


def _match(asked: Asked) -> Body:
    question = asked.question
    assert isinstance(question, Match)  # noqa: S101  (chosen by its kind)
    firsts = (_associable(option.id, asked.text(option)) for option in question.options)
    seconds = (
        _associable(option.id, asked.words(option.partner.in_(asked.language)), PARTNER)
        for option in jumbled(question, question.options)
        if option.partner is not None
    )
    made = node(
        "qti-match-interaction",
        node("qti-prompt", *asked.asked),
        node("qti-simple-match-set", *firsts),
        node("qti-simple-match-set", *seconds),
        response_identifier=FIRST,
        shuffle="true",
        max_associations=str(len(question.options)),
    )
    response = Response(
        name=FIRST,
        cardinality="multiple",
        base_type="directedPair",
        correct=tuple(f"{identifier(o.id)} {PARTNER}{identifier(o.id)}" for o in question.options),
        test=_matched(FIRST),
    )
    return Body(blocks=(made,), responses=(response,))


def _associable(ident: str, words: Sequence[Node | str], before: str = "") -> Node:
    name = f"{before}{identifier(ident)}"
    return node("qti-simple-associable-choice", *words, identifier=name, match_max="1")


def _places(asked: Asked) -> Body:
    question, picture = asked.question, asked.picture
    assert picture is not None  # noqa: S101  (a bank without errors has a drawing here)
    many = question.kind == "spot"
    made = node(
        "qti-hotspot-interaction",
        node("qti-prompt", *asked.asked),
        picture.image(),
        *(_hotspot(option, asked, picture) for option in question.options),
        response_identifier=FIRST,
        max_choices="0" if many else "1",
    )
    return Body(blocks=(made,), responses=(_pressed(FIRST, question.options, many=many),))


def _hotspot(option: Option, asked: Asked, picture: Picture) -> Node:
    made = node(
        "qti-hotspot-choice",
        identifier=identifier(option.id),
        shape="circle",
        coords=picture.spots[option.id],
        hotspot_label=option.text.in_(asked.language),
    )
    made.attributes |= {SHOWS: option.misconception} if option.misconception else {}
    made.attributes[PLACE] = option.at if isinstance(option.at, str) else rfc8785.dumps(list(option.at or ())).decode()
    return made


def _number(asked: Asked) -> Body:
    question = asked.question
    assert isinstance(question, Number)  # noqa: S101  (chosen by its kind)
    accepted = band_of(question.drill, question.inputs)
    response = Response(
        name=FIRST,
        cardinality="single",
        base_type="float",
        correct=(units.digits(accepted.needed, PLACES),),
        test=within(accepted),
    )
    return Body(blocks=typed(asked.asked, question.unit), responses=(response,))


def typed(asked: Sequence[Node | str], unit: str) -> tuple[Node, Node]:
    """Return the question and the line on which its number is typed, its unit beside it."""
    entry = node("qti-text-entry-interaction", response_identifier=FIRST, expected_length="10")
    return node("p", *asked, **{PART: "asked"}), node("p", entry, f" {units.UNIT_SIGNS.get(unit, unit)}")


def within(accepted: Band) -> Node:
    """Return the test that a number is called right: never on the unsafe side of the exact value, nor too far from it.

    A bound that has more decimals than are written is cut towards what is accepted, so that nothing unsafe comes in.
    """
    far = accepted.needed - accepted.over if accepted.sense in CEILINGS else accepted.needed + accepted.over
    low, high = sorted((accepted.exact, far))
    low_text, high_text = _cut(low, up=True), _cut(high, up=False)
    strict = accepted.sense in STRICT
    below = "qti-gt" if strict and accepted.sense not in CEILINGS else "qti-gte"
    above = "qti-lt" if strict and accepted.sense in CEILINGS else "qti-lte"
    return node("qti-and", _compared(below, low_text), _compared(above, high_text))


def _compared(name: str, bound: str) -> Node:
    return node(name, node("qti-variable", identifier=FIRST), node("qti-base-value", bound, base_type="float"))


def _cut(bound: Fraction, *, up: bool) -> str:
    step = Fraction(1, 10**PLACES)
    return units.digits(units.round_up(bound, step) if up else units.round_down(bound, step), PLACES)


BODIES: Mapping[str, Callable[[Asked], Body]] = {
    "pick-one": _one,
    "next": _one,
    "pick-all": _all,
    "order": _order,
    "point": _places,
    "spot": _places,
    "match": _match,
    "reasoned": _reasoned,
    "number": _number,
}
