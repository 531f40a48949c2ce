"""The arithmetic of the chain: what exactly is hashed. Pure; no database.

An entry's digest is SHA-256 over the canonical JSON (RFC 8785) of all its other columns. Keys are in code-point order
and the body's own canonical text stands in it as stored, so a reader hashes the very bytes of the row and any change
to any column shows.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any
from zoneinfo import ZoneInfo

import rfc8785

from trainer.errors import UsageError
from trainer.wording import say

_text = json.JSONEncoder(ensure_ascii=False).encode  # of text this is what RFC 8785 asks for
START = "0" * 64  # what the first entry of a chain has in place of a previous digest


class EntryKind(StrEnum):
    """What an entry says happened."""

    ASSIGNED = "assigned"
    ATTENDED = "attended"
    SITTING_MARKED = "sitting-marked"
    PRACTICAL_SIGNED = "practical-signed"
    PRIOR_ACCEPTED = "prior-accepted"
    EXCUSED = "excused"
    SUSPENDED = "suspended"
    REINSTATED = "reinstated"
    CORRECTED = "corrected"
    MOVED = "moved"
    EVENT = "event"
    ENTITLED = "entitled"
    RULED = "rule-set"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of the ledger.

    ``happened_on`` is the civil date at the site, ``recorded_at`` the instant of writing (aware, UTC), ``zone`` the
    site's time zone then, ``by`` the key of the person who recorded it (or the name of a service), ``body`` what the
    kind holds.
    """

    number: int
    person: str
    seq: int
    kind: EntryKind
    happened_on: date
    recorded_at: datetime
    zone: str
    by: str
    body: Mapping[str, Any]
    previous: str
    digest: str

    @property
    def reference(self) -> str:
        """Return how people call it: ``L-12``."""
        return reference(self.number)

    @property
    def recorded_on(self) -> date:
        """Return the civil date at the site, in the zone of then, on which it was recorded."""
        return self.recorded_at.astimezone(ZoneInfo(self.zone)).date()

    @property
    def late_days(self) -> int:
        """Return how many days after the event it was recorded; 0 for the same day."""
        return max(0, (self.recorded_on - self.happened_on).days)

    @property
    def unverified(self) -> bool:
        """Say whether the clock could not be trusted when it was written."""
        return self.body.get("time") == "unverified"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One entry as the database holds it: text, not yet understood."""

    number: int
    person: str
    seq: int
    kind: str
    happened_on: str
    recorded_at: str
    zone: str
    by: str
    body: str
    previous: str
    digest: str


def reference(number: int) -> str:
    """Return how people call an entry: ``L-12``."""
    return f"L-{number}"


def canonical(data: Mapping[str, Any]) -> str:
    """Return data as canonical JSON; :class:`UsageError` for what has none (NaN, a number beyond 2^53, an object)."""
    try:
        return rfc8785.dumps(dict(data)).decode()
    except (rfc8785.CanonicalizationError, UnicodeEncodeError) as error:
        raise UsageError(say("This cannot be kept in the ledger: {reason}.", reason=str(error))) from error


def digest_of(row: Row) -> str:
    """Return the digest that a row must carry."""
    return hashlib.sha256(preimage(row).encode("utf-8", "surrogatepass")).hexdigest()


def preimage(row: Row) -> str:
    """Return the canonical JSON that is hashed: every column but the digest."""
    return (
        f'{{"body":{row.body},"by":{_text(row.by)},"happened_on":{_text(row.happened_on)},'
        f'"kind":{_text(row.kind)},"number":{row.number},"person":{_text(row.person)},'
        f'"previous":{_text(row.previous)},"recorded_at":{_text(row.recorded_at)},"seq":{row.seq},'
        f'"zone":{_text(row.zone)}}}'
    )


def whole(row: Row) -> str:
    """Return the canonical JSON of every column; without ``digest`` it is what is hashed."""
    kept = preimage(row)
    place = len(f'{{"body":{row.body},"by":{_text(row.by)},')
    return f'{kept[:place]}"digest":{_text(row.digest)},{kept[place:]}'


def head_text(chain: str, seq: int, digest: str) -> str:
    """Return the canonical JSON of the head of a chain, as it stands in the tree over heads."""
    return f'{{"chain":{_text(chain)},"digest":{_text(digest)},"seq":{seq}}}'
