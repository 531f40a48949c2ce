"""A roster on its way through two forms: chosen, looked at, taken. Between them the file waits in the page itself.

Nothing is kept on the server before it is taken, so a file that nobody takes leaves nothing behind.
"""

import base64
import binascii
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from trainer.errors import UsageError
from trainer.web.days import read_day
from trainer.wording import say

LARGEST = 1024 * 1024  # bytes of a file
LARGEST_KEPT = 450_000  # characters that a field of a form may hold, below the framework's own limit of 500 000
ANSWER, DAY = "answer ", "day "  # begin the names of the fields in which questions are answered


@dataclass(frozen=True, slots=True, kw_only=True)
class Upload:
    """A file with the answers given so far; ``code`` is that of the plan which was shown."""

    file: str = ""
    data: bytes = b""
    answers: Mapping[str, str] = field(default_factory=dict)
    code: str = ""

    @property
    def kept(self) -> str:
        """Return the file as a field of a form holds it."""
        return base64.b64encode(zlib.compress(self.data, 9)).decode()


def read_upload(form: Mapping[str, str], files: Mapping[str, Any]) -> Upload:
    """Read a file, freshly chosen or kept in the page, and the answers that were ticked.

    Raises :class:`UsageError` when there is none, or when it is too large for a form.
    """
    chosen = files.get("roster")
    if chosen is not None and chosen.filename:
        file, data = str(chosen.filename), chosen.stream.read(LARGEST + 1)
        chosen.close()  # a large one lies in a temporary file
    else:
        file, data = form.get("file", ""), _unkept(form.get("kept", ""))
    answers = {name.removeprefix(ANSWER): value for name, value in form.items() if name.startswith(ANSWER) and value}
    found = Upload(file=file[:100], data=data, answers=answers, code=form.get("code", ""))
    if len(data) > LARGEST or len(found.kept) > LARGEST_KEPT:
        raise UsageError("The file is too large for this sheet; take it with the command trainer roster import.")
    return found


def with_days(upload: Upload, form: Mapping[str, str], *, today: date) -> Upload:
    """Return an upload with the days that were typed as answers; :class:`UsageError` for one that cannot be read."""
    typed = {name.removeprefix(DAY): text for name, text in form.items() if name.startswith(DAY) and text.strip()}
    days = {key: read_day(text, today=today).isoformat() for key, text in typed.items()}
    return replace(upload, answers={**upload.answers, **days})


def _unkept(text: str) -> bytes:
    if not text:
        raise UsageError(say("Choose a file first."))
    try:
        return zlib.decompressobj().decompress(base64.b64decode(text, validate=True), LARGEST + 1)
    except (binascii.Error, ValueError, zlib.error) as error:
        raise UsageError(say("Choose the file again.")) from error
