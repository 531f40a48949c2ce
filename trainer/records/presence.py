"""Whether somebody belonged to the site on a day: what is signed for another day is refused."""

from datetime import date

from trainer.errors import RecordError
from trainer.records.people import PersonRow, must
from trainer.records.work import Reading
from trainer.wording import say


def must_be_here(r: Reading, person: str, on: date) -> PersonRow:
    """Return a person who belonged to the site on a day that has come; :class:`RecordError` otherwise."""
    found = must(r, person)
    if on > r.today():
        raise RecordError(say("{day} has not come yet.", day=on.isoformat()))
    if found.started is not None and on < found.started:
        raise RecordError(
            say("{day} is before the first day here, {started}.", day=on.isoformat(), started=found.started.isoformat())
        )
    if found.ended is not None and on > found.ended:
        raise RecordError(
            say("{day} is after the last day here, {ended}.", day=on.isoformat(), ended=found.ended.isoformat())
        )
    return found
