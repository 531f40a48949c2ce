"""How a file speaks: the language of its reader, and where the words of that language are found.

This layer translates nothing by itself. A door hands in a :class:`Voice`; without one a file speaks English.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from babel.dates import format_date

from trainer import units
from trainer.wording import Sentence

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True)
class Voice:
    """A language (its code) and what turns an English message, with its places unfilled, into that language."""

    language: str = "en"
    translate: Callable[[str], str] = str

    def tell(self, sentence: Sentence | str) -> str:
        """Return a sentence, or a marked text, in this language, its days and numbers as its readers write them."""
        if isinstance(sentence, str):
            return self.translate(sentence) if sentence else ""
        values = {key: self.shown(str(value)) for key, value in sentence.values.items()}
        return (self.translate(sentence.text) if sentence.text else "").format(**values)

    def shown(self, value: str) -> str:
        """Write a value: a day (the layers below write 2026-02-17) or a number."""
        try:
            found = date.fromisoformat(value) if _DAY.fullmatch(value) else None
        except ValueError:  # 2026-02-30
            found = None
        return units.localised(value, self.language) if found is None else self.day(found)

    def day(self, value: date | None) -> str:
        """Write a day: ``9 Mar 2026``; nothing for none."""
        return "" if value is None else str(format_date(value, "d MMM y", locale=self.language))

    def moment(self, instant: datetime, zone: ZoneInfo) -> str:
        """Write an instant as day and time at the site: ``9 Mar 2026, 07:12``."""
        local = instant.astimezone(zone)
        return f"{self.day(local.date())}, {local:%H:%M}"


PLAIN = Voice()
