"""What a sheet rests on, for its title block: document and clause, and how they were read, in the reader's language."""

import re
from collections.abc import Sequence

from trainer.safeguarding.result import Citation, Read
from trainer.web.words import _, _l

ROOM = 36  # letters of a source beyond which the title block does not count the others
MOST = 46  # letters of a source that the title block holds; one that is longer leaves its clause to the working
READ = {
    Read.STATE: _l("state copy"),
    Read.SECOND_HAND: _l("second-hand"),
    Read.PRACTICE: _l("common practice"),
    Read.MEMORY: _l("from memory"),
}
# A title stays in the language of its document. These words lead to the place in it, or name what has no title.
AROUND = {
    "Annex": _l("Annex"),
    "distance is speed times time": _l("distance is speed times time"),
    "effective resolution": _l("effective resolution"),
    "items": _l("items"),
    "Kinematics": _l("Kinematics"),
    "Light-curtain manuals": _l("Light-curtain manuals"),
    "minimum gaps": _l("minimum gaps"),
    "multi-beam safeguards": _l("multi-beam safeguards"),
    "scale": _l("scale"),
    "section": _l("section"),
    "Table": _l("Table"),
    "Tables": _l("Tables"),
}
RANGE = re.compile(r"(?<=\d) to (?=\d)")
WORD = re.compile(r"\b(" + "|".join(sorted(map(re.escape, AROUND), key=len, reverse=True)) + r")\b")


def cited(citations: Sequence[Citation]) -> str:
    """Name the first source, how it was read, and how many more there are."""
    if not citations:
        return _("common practice")
    first, *more = citations
    note = f", {READ[first.read]}" if first.read in READ else ""
    text = _named(first, first.clause)
    if len(text) + len(note) > MOST:
        text = _named(first, "")
    if first.read is Read.PRACTICE:  # not a document: it has a name in each language
        text = str(READ[first.read])
    else:
        text += note
    return f"{text} +{len(more)}" if more and len(text) <= ROOM else text


def _named(citation: Citation, clause: str) -> str:
    year = f"({citation.year})" if citation.year else ""
    text = " ".join(part for part in (citation.document, clause, year) if part)
    return WORD.sub(lambda found: str(AROUND[found[0]]), RANGE.sub("–", text))
