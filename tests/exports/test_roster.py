"""The roster as a table: its heads are known to the import in every language in which it is written."""

import pytest

from trainer.exports.roster import ROSTER
from trainer.exports.voice import PLAIN
from trainer.records.roster.cells import Cell, Line
from trainer.records.roster.columns import FIELDS, map_columns
from trainer.web.language import voice


@pytest.mark.parametrize("spoken", [PLAIN, voice("es")], ids=["en", "es"])
def test_every_head_is_known_to_the_import(spoken):
    columns = map_columns(Line(1, tuple(Cell(spoken.tell(head)) for head in ROSTER)), {})

    assert set(columns.places) == FIELDS - {"given", "family"}
    assert columns.dropped == ()
