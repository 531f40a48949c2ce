"""One family of errors, each with a sentence, an exit code and a status."""

import pickle

import pytest

from trainer import errors
from trainer.errors import TrainerError
from trainer.wording import say


def family(root=TrainerError):
    return [root, *(leaf for child in root.__subclasses__() for leaf in family(child))]


@pytest.mark.parametrize("kind", family(), ids=lambda kind: kind.__name__)
def test_each_error_shows_its_sentence_pickles_and_is_drawn_in_the_docstring(kind):
    error = kind(say("No {thing} here.", thing="machine"))

    assert str(error) == "No machine here."
    assert str(pickle.loads(pickle.dumps(error))) == "No machine here."
    assert error.exit_code in {1, 2}
    assert 400 <= error.status < 500
    if kind.__module__ == "trainer.errors":
        assert kind.__name__ in errors.__doc__
