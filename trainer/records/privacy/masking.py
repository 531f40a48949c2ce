"""Other people in what is handed to one person: labels in place of their keys and of their whole names.

A label stands for the same person throughout one copy, and says nothing beyond it.
"""

import re
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select

from trainer.records.models import PersonName
from trainer.records.work import Reading

SHORTEST = 5  # signs of a name that is looked for in words; a shorter one stands in too many others


class Mask:
    """Hides everybody but one person."""

    def __init__(self, r: Reading, person: str) -> None:
        rows = list(r.session.execute(select(PersonName.person, PersonName.name).order_by(PersonName.id)))
        own = {name for key, name in rows if key == person}
        self._own = person
        self._keys = {key for key, _ in rows} - {person}
        self._by_name = {name: key for key, name in rows if key != person and name not in own and len(name) >= SHORTEST}
        longest_first = sorted(self._by_name, key=lambda name: (-len(name), name))
        whole = "|".join(re.escape(name) for name in longest_first)
        self._names = re.compile(rf"(?<!\w)(?:{whole})(?!\w)" if whole else r"(?!)")
        self._labels: dict[str, str] = {}

    def of(self, data: Any) -> Any:
        """Return plain data with everybody else hidden; its keys stay."""
        if isinstance(data, str):
            return self.text(data)
        if isinstance(data, Mapping):
            return {key: self.of(value) for key, value in data.items()}
        if isinstance(data, list | tuple):
            return [self.of(value) for value in data]
        return data

    def text(self, text: str) -> str:
        """Return a text with everybody else hidden."""
        if text in self._keys:
            return self._label(text)
        return self._names.sub(lambda match: self._label(self._by_name[match[0]]), text)

    def _label(self, key: str) -> str:
        return self._labels.setdefault(key, f"another-person-{len(self._labels) + 1}")
