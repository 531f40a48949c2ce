"""The reader's words, typed: the message functions that code of the doors uses. Templates have the same by name."""

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from flask_babel import ngettext as _ngettext

__all__ = ["_", "_l", "ngettext"]


def _(text: str, **values: object) -> str:
    """Return a message in the reader's language, its ``%(named)s`` places filled."""
    return str(gettext(text, **values))


def ngettext(one: str, many: str, num: int, **values: object) -> str:
    """Return the message that fits a number; ``%(num)s`` is the number itself."""
    return str(_ngettext(one, many, num, **values))
