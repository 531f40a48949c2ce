"""What a name or a number may hold, and how names are compared. Names are stored as given, never mended."""

import unicodedata

from trainer.errors import UsageError
from trainer.wording import say

LONGEST_NAME, LONGEST_CODE = 300, 80
TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")  # marks that turn text round
APOSTROPHES = dict.fromkeys("\u2018\u2019\u02bc\u00b4\uff07`", "'")
UNPARTED = {
    "ø": "o",
    "ł": "l",
    "đ": "d",
    "ð": "d",
    "þ": "th",
    "æ": "ae",
    "œ": "oe",
    "ı": "i",
}  # Unicode parts none of these
ALIKE = str.maketrans({**APOSTROPHES, **UNPARTED, **{letter.upper(): plain for letter, plain in UNPARTED.items()}})


def checked(name: str) -> str:
    """Return a name as it will be stored; :class:`UsageError` for one with characters that cannot be shown."""
    plain = name.strip()
    if not plain:
        raise UsageError("A person needs a name.")
    if len(plain) > LONGEST_NAME:
        raise UsageError(say("A name has at most {most} characters.", most=LONGEST_NAME))
    _refuse_hidden(plain, "name")
    return plain


def code(text: str, field: str) -> str:
    """Return a number, badge or login as it will be stored: text, with every zero."""
    plain = text.strip()
    if not plain or len(plain) > LONGEST_CODE:
        raise UsageError(say("A {field} has 1 to {most} characters.", field=field, most=LONGEST_CODE))
    _refuse_hidden(plain, field)
    return plain


def short(text: str, field: str) -> str:
    """Return a short text, such as a shift, as it will be stored; it may be empty."""
    return code(text, field) if text.strip() else ""


def folded(text: str) -> str:
    """Return a name for comparing: without case, accents and kinds of apostrophe."""
    return folded_whole(text)[:LONGEST_NAME]


def folded_whole(text: str) -> str:
    """Return a text of any length for comparing."""
    bare = unicodedata.normalize("NFKD", text.translate(ALIKE))
    return " ".join("".join(c for c in bare if not unicodedata.combining(c)).casefold().split())


def order(sort_name: str) -> tuple[str, str]:
    """Return what to sort a name by; the same in every database."""
    return folded(sort_name), sort_name


def _refuse_hidden(text: str, field: str) -> None:
    for character in text:
        if unicodedata.category(character) in {"Cc", "Cs", "Cn"} or character in TURNING:
            raise UsageError(
                say(
                    "The {field} holds the character U+{code}, which cannot be shown; leave it out.",
                    field=field,
                    code=f"{ord(character):04X}",
                )
            )
