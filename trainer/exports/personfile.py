"""A person's own data as a zip file: everything as JSON, and a plain list that anybody can read."""

import io
import json
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.bank import Bank
from trainer.exports.voice import PLAIN, Voice
from trainer.exports.words import ENTRIES, named
from trainer.records.chain import Entry
from trainer.records.lines import line
from trainer.records.privacy.rules import From, Rule
from trainer.wording import Sentence, mark, say

BEGINNING = (1980, 1, 1, 0, 0, 0)  # every file has this time, so that equal copies have equal octets
SECTIONS: Mapping[str, str] = {
    "identity": mark("Who you are here"),
    "names": mark("Names and numbers that you had"),
    "secrets": mark("PIN and password: that there are any, and since when; they are kept as digests only"),
    "entries": mark("What is on record about you"),
    "entries-about-others": mark("What you recorded about others"),
    "sittings": mark("Papers that you took, with every answer"),
    "hazards": mark("Hazards that you reported under your name"),
    "hazard-answers": mark("What you answered to reports of hazards"),
    "questions": mark("Questions that you asked"),
    "question-answers": mark("What you answered to questions"),
    "machine-facts": mark("Facts about machines that you entered"),
    "machine-readings": mark("Stopping times that you entered"),
    "sign-ins": mark("When and where you signed in, or tried to"),
    "sessions": mark("Sessions at kiosk, desk and office"),
    "mail-address": mark("Your mail address"),
    "reminders": mark("Reminders about you that were sent by mail, to you or to a trainer"),
    "requests": mark("Your requests about your own data"),
    "rules-set": mark("Rules of retention that you set"),
    "kiosks": mark("Kiosks that you enrolled or withdrew"),
    "rosters-taken": mark("Rosters that you took in"),
    "removals-run": mark("Removals by rule that you started"),
}
PURPOSES = (
    mark(
        "The site keeps this to know, and to be able to prove, who may work at which machine, who has been taught what, "
        "and who has to be taught again."
    ),
    mark("Entries of the ledger are never changed: what was put right shows both the old and the new."),
    mark(
        "Entries, papers and sign-offs carry a key in place of your name. When your name is taken out, they stay, and "
        "nothing leads from them to you any more, save words in which somebody wrote your name."
    ),
    mark("Other people are called another-person-1 and so on in this copy; their data is theirs."),
    mark("If something is wrong, say so: a correction is added, with its reason. No special form is needed for that."),
)
KINDS: Mapping[str, str] = {
    "identity": mark("name, numbers and who you are"),
    "entries": mark("every other entry"),
    "sign-ins": mark("sign-ins"),
    "hazard-names": mark("who reported a hazard"),
    "question-names": mark("who asked a question"),
    "requests": mark("requests about own data"),
    **{kind.value: text for kind, text in ENTRIES.items()},
}
COUNTED: Mapping[From, str] = {
    From.LEAVING: mark("{kind}: {years} years from leaving"),
    From.EXPIRY: mark("{kind}: {years} years from the day on which it expires"),
    From.EVENT: mark("{kind}: {years} years from its day"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """What a copy is made of: ``held`` as the record gives it, the entries behind it, and the rules of retention."""

    held: Mapping[str, Any]
    entries: Iterable[Entry]
    rules: Mapping[str, Rule]
    bank: Bank
    site: str
    made_at: datetime
    zone: ZoneInfo


def person_zip(copy: Copy, voice: Voice = PLAIN) -> bytes:
    """Return the zip file: ``held.json``, exact, and ``held.txt``, to be read."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as packed:
        for name, text in (("held.json", _json(copy)), ("held.txt", "\n".join(_lines(copy, voice)) + "\n")):
            about = zipfile.ZipInfo(name, BEGINNING)
            about.compress_type, about.external_attr, about.create_system = zipfile.ZIP_DEFLATED, 0o100600 << 16, 3
            packed.writestr(about, text.encode())
    return made.getvalue()


def _json(copy: Copy) -> str:
    about = {"site": copy.site, "made_at": copy.made_at.isoformat(), "zone": str(copy.zone)}
    kept = {kind: {"years": rule.years, "counted_from": rule.counts_from.value} for kind, rule in copy.rules.items()}
    return json.dumps({"about": about, "kept": kept, **copy.held}, ensure_ascii=False, indent=2, sort_keys=True) + "\n"


def _lines(copy: Copy, voice: Voice) -> Iterator[str]:
    yield voice.tell(say("Everything that {site} holds about you", site=copy.site))
    yield voice.moment(copy.made_at, copy.zone)
    for section, title in SECTIONS.items():
        yield from ("", voice.tell(title), "-" * 40)
        yield from _section(copy, section, voice)
    yield from ("", voice.tell(say("Why it is kept, and how long")), "-" * 40)
    yield from (voice.tell(text) for text in PURPOSES)
    yield from _kept(copy, voice)


def _kept(copy: Copy, voice: Voice) -> Iterator[str]:
    if not copy.rules:
        yield voice.tell(say("The site has set no period yet; until it does, all of it is kept."))
    for kind, rule in copy.rules.items():
        yield "  " + voice.tell(say(COUNTED[rule.counts_from], kind=voice.tell(KINDS[kind]), years=rule.years))


def _section(copy: Copy, section: str, voice: Voice) -> Iterator[str]:
    rows = copy.held[section]
    if not rows:
        yield "  " + voice.tell(say("Nothing."))
    elif section == "entries":
        yield from _told(copy, rows, voice)
    else:
        for row in rows if isinstance(rows, list) else [rows]:
            yield "  " + "; ".join(
                f"{key}: {_shown(value)}" for key, value in row.items() if value not in (None, "", [])
            )


def _told(copy: Copy, rows: list[dict[str, Any]], voice: Voice) -> Iterator[str]:
    """Tell each entry in a sentence, its words as the copy has them, with others hidden."""
    known = named(copy.bank, voice)
    for entry, row in zip(copy.entries, rows, strict=True):
        shown = _masked(entry, row)
        yield f"  {row['number']}  {voice.day(entry.happened_on)}  {voice.tell(_sentence(shown, known))}"


def _masked(entry: Entry, row: Mapping[str, Any]) -> Entry:
    fields = {name: getattr(entry, name) for name in Entry.__dataclass_fields__}
    return Entry(**{**fields, "body": row["body"], "by": row["recorded_by"]})


def _sentence(entry: Entry, known: Mapping[str, str]) -> Sentence:
    return line(entry, named=known)


def _shown(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, sort_keys=True)
