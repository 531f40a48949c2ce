"""When two names are one name, and when one may have become the other."""

import re
import unicodedata

from trainer.records.names import APOSTROPHES, folded

SAME_SIGN = {ord(sign): plain for sign, plain in APOSTROPHES.items()}
SHORTEST = 2  # letters of a word that says anything about who somebody is


def same_name(one: str, other: str) -> bool:
    """Say whether two names differ only in how their signs are composed, the kind of apostrophe, or spaces."""
    return _plain(one) == _plain(other)


def akin(one: str, other: str) -> bool:
    """Say whether two names share a word, as the names before and after a marriage do; case and accents aside."""
    return bool(_words(one) & _words(other))


def _plain(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).translate(SAME_SIGN).split())


def _words(name: str) -> set[str]:
    return {word for word in re.split(r"[^\w']+", folded(name)) if len(word) >= SHORTEST}
