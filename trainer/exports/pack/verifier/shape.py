"""What a pack holds where, and how a cell of its tables follows from a line of JSON."""

from collections.abc import Mapping
from typing import Any

from trainer.exports.pack.verifier.canonical import canonical

RISKY = frozenset("=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20")  # what a spreadsheet may take for a formula
SHORT = frozenset({"bagit.txt", "bag-info.txt", "README.txt", "README.html", "verify.py"})
PACK = "data/pack.json"
PEOPLE, PEOPLE_TABLE = "data/identity/people.jsonl", "data/identity/people.csv"
ENTRIES_TABLE, OTHERS = "data/ledger/entries.csv", "data/ledger/others.jsonl"
STANDING, STANDING_TABLE = "data/standing/standing.jsonl", "data/standing/standing.csv"
CHECKPOINTS, GROWTH = "data/proofs/checkpoints.jsonl", "data/proofs/growth.jsonl"
CHAIN_PROOFS, OTHER_PROOFS = "data/proofs/people.jsonl", "data/proofs/others.jsonl"
FIXED = frozenset(
    {PACK, PEOPLE, PEOPLE_TABLE, ENTRIES_TABLE, OTHERS, STANDING, STANDING_TABLE}
    | {CHECKPOINTS, GROWTH, CHAIN_PROOFS, OTHER_PROOFS}
)
PEOPLE_COLUMNS = ("key", "number", "name", "names", "why")
STANDING_COLUMNS = (
    *("number", "name", "machine", "role", "standing", "may_run", "holds_until", "due_on"),
    *("reasons", "lacks", "on", "known_on", "person"),
)
ENTRY_COLUMNS = (
    *("entry", "person", "seq", "kind", "happened_on", "recorded_at", "zone", "by"),
    *("programme", "machine", "role", "roles", "machine_kinds", "checklist", "entitlement", "result", "passed"),
    *("right", "out_of", "needed", "critical_missed", "edition", "fingerprint", "seed", "language", "trained_on"),
    *("valid_from", "valid_to", "due_on", "until", "event", "last_day", "effect", "corrects", "suspension"),
    *("revokes", "topic", "evidence", "assessor", "presenter", "reason", "comment", "note", "basis", "time"),
    *("previous", "digest"),
)


def ledger_file(key: str) -> str:
    """Return where a person's entries stand."""
    return f"data/ledger/{key}.jsonl"


def explain_file(key: str) -> str:
    """Return where the page stands with what a person should be able to explain."""
    return f"data/explain/{key}.html"


def content_file(fingerprint: str) -> str:
    """Return where an edition of the content stands."""
    return f"data/content/{fingerprint}.json"


def entry_row(entry: Mapping[str, Any]) -> list[str]:
    """Return the row that an entry has in the table."""
    body = entry["body"]
    flat = {**(body.get("score") or {}), **body, **entry, "entry": f"L-{entry['number']}"}
    return [cell(flat.get(name)) for name in ENTRY_COLUMNS]


def standing_row(standing: Mapping[str, Any]) -> list[str]:
    """Return the row that a standing has in the table."""
    return [cell(standing.get(name)) for name in STANDING_COLUMNS]


def people_row(person: Mapping[str, Any]) -> list[str]:
    """Return the row that a person has in the table."""
    return [cell(person.get(name)) for name in PEOPLE_COLUMNS]


def cell(value: Any) -> str:
    """Return a value as the text of a cell, harmless for spreadsheets."""
    plain = plain_text(value)
    return f"'{plain}" if plain[:1] in RISKY and plain else plain


def plain_text(value: Any) -> str:
    """Return a value as text: words as they are, lists joined, a reason with its entries behind it."""
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(map(plain_text, value))
    if isinstance(value, dict) and set(value) == {"text", "entries"}:
        return f"{value['text']} ({', '.join(value['entries'])})" if value["entries"] else str(value["text"])
    if isinstance(value, dict) and set(value) == {"since", "number", "name"}:
        return f"{value['since']}: {value['number']} {value['name']}"
    return canonical(value)
