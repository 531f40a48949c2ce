"""Where a person's name stands in words that somebody wrote, as in a reason: such words cannot be taken out.

What is hashed stays as it was written. So an officer is told beforehand which entries may still name the person.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from sqlalchemy import select

from trainer.errors import UsageError
from trainer.records import ledger, names
from trainer.records.models import PersonName
from trainer.records.people import PersonRow
from trainer.records.work import Reading

SHORTEST = 3  # letters of a part of a name that is looked for by itself


class Wanted:
    """What a person is known by: whole names and numbers for everybody's words, parts of names for those about them."""

    def __init__(self, r: Reading, person: PersonRow) -> None:
        query = select(PersonName.name, PersonName.number).where(PersonName.person == person.key)
        known = [(person.name, person.number), *r.session.execute(query)]
        whole = {names.folded(name) for name, _ in known} | {names.folded(number) for _, number in known}
        parts = {part for name, _ in known for part in names.folded(name).split() if len(part) >= SHORTEST}
        self.key = person.key
        self._whole, self._any = _pattern(whole), _pattern(whole | parts)

    def named_in(self, text: str, *, about: bool) -> bool:
        """Say whether a text may name the person; ``about`` for words that are about them anyway."""
        return bool((self._any if about else self._whole).search(names.folded_whole(text)))


def entries_naming(r: Reading, wanted: Wanted) -> Iterator[int]:
    """Give the numbers of the entries whose words may name a person, of their own chain or of anybody's."""
    for entry in ledger.entries(r):
        own = entry.person == wanted.key
        if any(wanted.named_in(text, about=own) for text in words_of(entry.body)):
            yield entry.number


def must_not_name(wanted: Wanted, reason: str) -> None:
    """Refuse a reason that names the person whose name is to go: the reason stays."""
    if wanted.named_in(reason, about=True):
        raise UsageError("Leave name and number out of the reason: it stays on the record.")


def words_of(data: Any) -> Iterator[str]:
    """Give every text in plain data, keys aside."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, Mapping):
        for value in data.values():
            yield from words_of(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from words_of(value)


def _pattern(found: Iterable[str]) -> re.Pattern[str]:
    whole = "|".join(re.escape(text) for text in sorted(found, key=lambda text: (-len(text), text)) if text)
    return re.compile(rf"(?<!\w)(?:{whole})(?!\w)" if whole else r"(?!)")
