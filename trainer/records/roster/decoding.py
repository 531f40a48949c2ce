"""From bytes to text. What is not plainly UTF-8 or UTF-16 is asked about, with the names as each reading shows them.

No byte is ever replaced: a name is read whole or not at all.
"""

import codecs
import re
import unicodedata

from charset_normalizer import from_bytes

from trainer.records.roster.findings import CutRoster, UnreadableRoster, found
from trainer.records.roster.questions import Asked, Choice, Question, Stop
from trainer.wording import mark, say

LIKELY = ("cp1252", "cp1250", "mac_roman", "cp850")  # where plants in Europe and the Americas keep old exports
MOST_CHOICES, MOST_SAMPLES, SAMPLE_BYTES = 4, 3, 64 * 1024
MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
BEYOND_ASCII = re.compile(r"[^,;\t\r\n\"]*[^\x00-\x7f][^,;\t\r\n\"]*")
CUT = mark("The file ends in the middle of a character.")


def decode(data: bytes, asked: Asked) -> tuple[str, str]:
    """Return the text and the name of its encoding; :class:`Stop` when a person has to choose first."""
    for sign, encoding in MARKS:
        if data.startswith(sign):
            return _strict(data, encoding), encoding
    if b"\0" in data:
        encoding = _wide(data)
        return _strict(data, encoding), encoding
    try:
        return data.decode("utf-8"), "utf-8"
    except UnicodeDecodeError as error:
        if _cut_short(data, error):
            raise Stop(found(CutRoster, say(CUT))) from error
    return _chosen(data, asked)


def samples(text: str) -> tuple[str, ...]:
    """Return the first few pieces of a text that hold letters beyond ASCII; they show whether it was read right."""
    pieces = (match[0].strip() for match in BEYOND_ASCII.finditer(text))
    return tuple(dict.fromkeys(piece[:60] for piece in pieces))[:MOST_SAMPLES]


def damaged(text: str) -> str | None:
    """Return what a text was before its UTF-8 was read in the wrong encoding, None when it shows no such damage."""
    for encoding in ("cp1252", "latin-1"):
        try:
            back = text.encode(encoding).decode("utf-8")
        except UnicodeError:
            continue
        if back != text:
            return back
    return None


def _strict(data: bytes, encoding: str) -> str:
    try:
        return data.decode(encoding).removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        told = (
            say(CUT) if error.end >= len(data) else say("The file says it is {encoding} and is not.", encoding=encoding)
        )
        raise Stop(found(CutRoster if error.end >= len(data) else UnreadableRoster, told)) from error


def _wide(data: bytes) -> str:
    """Tell UTF-16 without a mark by where its zero bytes stand; anything else with zero bytes is no text."""
    even, odd = data[0::2].count(0), data[1::2].count(0)
    half = len(data) / 2
    if odd > half * 0.6 and even < half * 0.1:
        return "utf-16-le"
    if even > half * 0.6 and odd < half * 0.1:
        return "utf-16-be"
    raise Stop(found(UnreadableRoster, say("The file holds zero bytes; it is no text.")))


def _cut_short(data: bytes, error: UnicodeDecodeError) -> bool:
    """Say whether a text is UTF-8 up to a character that the end of the file cuts."""
    return error.reason == "unexpected end of data" and not data[: error.start].isascii()


def _chosen(data: bytes, asked: Asked) -> tuple[str, str]:
    readings = _readings(data)
    choices = tuple(
        Choice(encoding, say("{encoding}: {samples}", encoding=encoding, samples=" · ".join(samples(text))))
        for encoding, text in readings.items()
    )
    told = say("The file is not UTF-8. In which encoding do these names read right?")
    answer = asked.ask(Question(id="encoding", sentence=told, choices=choices))
    if answer is None:
        raise Stop
    return readings[answer], answer


def _readings(data: bytes) -> dict[str, str]:
    """Return the encodings that read the whole file without a control character, each with what it reads."""
    lines = b"\n".join(line for line in data.splitlines() if not line.isascii())[:SAMPLE_BYTES]
    suggested = [match.encoding for match in from_bytes(lines)]
    readings: dict[str, str] = {}
    for encoding in (LIKELY[0], *suggested, *LIKELY[1:]):
        text = _plain(data, encoding)
        if text is not None and text not in readings.values() and len(readings) < MOST_CHOICES:
            readings[encoding] = text
    if not readings:
        raise Stop(found(UnreadableRoster, say("No encoding reads the whole file.")))
    return readings


def _plain(data: bytes, encoding: str) -> str | None:
    try:
        text = data.decode(encoding)
    except UnicodeError:
        return None
    return None if any(unicodedata.category(sign) == "Cc" and sign > "\x7f" for sign in set(text)) else text
