"""What every item has around its question: the score, how it is marked, and what is told afterwards."""

from collections.abc import Iterator

from trainer.exports.qti.bodies import Body, Response
from trainer.exports.qti.names import WHY
from trainer.exports.qti.node import Node, node


def outcomes(made: Body) -> Iterator[Node]:
    """Give the variables that an item ends with: the score, why, and what was pressed."""
    score = node("qti-default-value", node("qti-value", "0"))
    yield node("qti-outcome-declaration", score, identifier="SCORE", cardinality="single", base_type="float")
    yield node("qti-outcome-declaration", identifier=WHY.upper(), cardinality="single", base_type="identifier")
    for response in telling(made):
        yield node(
            "qti-outcome-declaration",
            identifier=outcome(response),
            cardinality=response.cardinality,
            base_type="identifier",
        )


def telling(made: Body) -> list[Response]:
    """Return the responses whose options show what a person believes."""
    return [response for response in made.responses if response.options]


def outcome(response: Response) -> str:
    """Return the name of the variable that holds what was pressed."""
    return f"{response.name}_PRESSED"


def processing(made: Body) -> Node:
    """Return how an answer is marked: right as a whole or not."""
    tests = [response.test for response in made.responses]
    right = tests[0] if len(tests) == 1 else node("qti-and", *tests)
    condition = node(
        "qti-response-condition",
        node("qti-response-if", right, _set("SCORE", node("qti-base-value", "1", base_type="float"))),
        node("qti-response-else", _set("SCORE", node("qti-base-value", "0", base_type="float"))),
    )
    why = _set(WHY.upper(), node("qti-base-value", WHY, base_type="identifier"))
    told = (_set(outcome(response), node("qti-variable", identifier=response.name)) for response in telling(made))
    return node("qti-response-processing", condition, why, *told)


def _set(name: str, value: Node) -> Node:
    return node("qti-set-outcome-value", value, identifier=name)


def modal(outcome: str, name: str, *words: Node | str) -> Node:
    """Return what is told once an answer was given."""
    content = node("qti-content-body", node("p", *words))
    return node("qti-modal-feedback", content, outcome_identifier=outcome, identifier=name, show_hide="show")
