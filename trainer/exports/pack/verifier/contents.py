"""The rest of a pack: who it is about, where they stand, the content that was used, and the tables."""

import csv
import hashlib
import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from trainer.exports.pack.verifier.canonical import parsed
from trainer.exports.pack.verifier.check import MALFORMED, Check
from trainer.exports.pack.verifier.entries import (
    check_chain,
    check_checkpoints,
    check_growth,
    check_others,
    read_proofs,
)
from trainer.exports.pack.verifier.files import UNREADABLE
from trainer.exports.pack.verifier.shape import (
    CHAIN_PROOFS,
    CHECKPOINTS,
    ENTRIES_TABLE,
    ENTRY_COLUMNS,
    FIXED,
    GROWTH,
    OTHERS,
    PACK,
    PEOPLE,
    PEOPLE_COLUMNS,
    PEOPLE_TABLE,
    SHORT,
    STANDING,
    STANDING_COLUMNS,
    STANDING_TABLE,
    content_file,
    entry_row,
    explain_file,
    ledger_file,
    people_row,
    standing_row,
)

LONGEST_CELL = 1 << 24  # signs

Row = Mapping[str, Any]


class Contents:
    """What a pack says it holds, compared with what it holds."""

    def __init__(self, check: Check) -> None:
        self.check = check
        data, good = parsed(check.files.text(PACK).encode())
        if data is None or not good:
            check.fault(PACK, "was changed: it is not written as the program writes it.")
        self.pack = data or {}
        self.names: dict[str, str] = {}
        self.rested: set[str] = set()  # entries that a standing rests on and that were not seen yet
        self.used: set[str] = set()  # fingerprints of the content that papers were drawn from

    def all(self) -> None:
        """Check everything that is not a matter of checksums."""
        self.check.try_(PEOPLE, self.people)
        self.check.try_(STANDING, self.standing)
        self.check.try_(CHECKPOINTS, self.ledger)
        self.check.try_(PACK, self.content)
        self.check.try_(PACK, self.explained)
        self.check.try_(PACK, self.layout)

    def people(self) -> None:
        """Check the list of people and its table."""
        self._table(PEOPLE_TABLE, PEOPLE_COLUMNS, people_row, self._people())
        for key in self._asked():
            if key not in self.names:
                self.check.fault(PEOPLE, f"the person with the key {key} was removed.")

    def standing(self) -> None:
        """Check that the standings are those of the people, and their table."""
        self._table(STANDING_TABLE, STANDING_COLUMNS, standing_row, self._standing())
        count = self.check.counts.get("standings", 0)
        if count != self.pack["standings"]:
            self.check.fault(STANDING, f"holds {count} standings; {self.pack['standings']} were packed.")

    def ledger(self) -> None:
        """Check every chain, every single entry and the table of entries against the last checkpoint."""
        points = check_checkpoints(self.check)
        last = points[-1]
        if (last["number"], last["digest"]) != (self.pack["checkpoint"], self.pack["checkpoint_digest"]):
            self.check.fault(CHECKPOINTS, f"does not end with checkpoint C-{self.pack['checkpoint']}.")
        self.check.try_(GROWTH, lambda: check_growth(self.check, points))
        known = read_proofs(self.check, CHAIN_PROOFS, "person")
        for key in known.keys() - set(self._asked()):
            self.check.fault(CHAIN_PROOFS, f"holds a proof for {key}, whom this pack is not about.")
        found = self._chains(known, last)
        self._table(ENTRIES_TABLE, ENTRY_COLUMNS, entry_row, found)
        self.check.try_(OTHERS, lambda: self._seen(check_others(self.check, last)))
        for entry in sorted(self.rested):
            self.check.fault(STANDING, f"rests on {entry}, which is not in the pack.")

    def content(self) -> None:
        """Check that every edition of the content is there, and is what its fingerprint says."""
        kept = set(self.pack["content"])
        for fingerprint in sorted(kept):
            name = content_file(fingerprint)
            self.check.try_(name, lambda name=name, wanted=fingerprint: self._edition(name, wanted))  # type: ignore[misc]
        for fingerprint in sorted(self.used - kept - set(self.pack["content_not_kept"])):
            self.check.fault(content_file(fingerprint), "is missing: a paper was drawn from it.")

    def explained(self) -> None:
        """Check that the page about each person is there, and is the one that the pack was made with."""
        for person in self.pack["people"]:
            if "explain" in person:  # a pack of before there was such a page has none
                name = explain_file(person["key"])
                self.check.try_(name, lambda name=name, wanted=person["explain"]: self._explain(name, wanted))  # type: ignore[misc]

    def _explain(self, name: str, wanted: str) -> None:
        if name not in self.check.files.names:
            self.check.fault(name, "is missing.")
            return
        with self.check.files.open(name) as stream:
            if hashlib.sha256(stream.read(LONGEST_CELL)).hexdigest() != wanted:
                self.check.fault(name, "is not the page that this pack was made with.")

    def layout(self) -> None:
        """Name every file that has no place in a pack."""
        known = FIXED | {ledger_file(key) for key in self._asked()}
        known |= {explain_file(person["key"]) for person in self.pack["people"] if "explain" in person}
        known |= {content_file(fingerprint) for fingerprint in self.pack["content"]}
        for name in self.check.files.names:
            listed = name.startswith(("manifest-sha", "tagmanifest-sha")) or name in SHORT
            if name not in known and not listed:
                self.check.fault(name, "was put in: a pack holds no such file.")

    def _asked(self) -> list[str]:
        return [person["key"] for person in self.pack["people"]]

    def _people(self) -> Iterator[Row]:
        for where, person in self.check.lines(PEOPLE):
            if person["key"] in self.names:
                self.check.fault(where, f"{person['number']} stands twice.")
            self.names[person["key"]] = f"{person['number']} {person['name']}"
            yield person

    def _standing(self) -> Iterator[Row]:
        asked = set(self._asked())
        for where, standing in self.check.lines(STANDING):
            if standing["person"] not in asked:
                self.check.fault(where, "is about somebody whom this pack is not about.")
            self.rested |= {entry for reason in standing["reasons"] for entry in reason["entries"]}
            self.check.counts["standings"] = self.check.counts.get("standings", 0) + 1
            yield standing

    def _chains(self, known: Mapping[Any, dict[str, Any]], last: dict[str, Any]) -> Iterator[Row]:
        for person in self.pack["people"]:
            key, before = person["key"], self.check.counts["entries"]
            who = self.names.get(key, key)
            if not person["entries"]:
                continue
            if ledger_file(key) not in self.check.files.names:
                self.check.fault(ledger_file(key), f"is missing: every entry about {who} was removed.")
                continue
            try:
                yield from self._seen_one(check_chain(self.check, key, who, known.get(key), last))
            except UNREADABLE as error:
                self.check.fault(ledger_file(key), f"cannot be read: {error}.")
            except MALFORMED:
                self.check.fault(ledger_file(key), "was changed: it does not hold what it should.")
            count = self.check.counts["entries"] - before
            if count != person["entries"]:
                text = f"holds {count} entries about {who}; {person['entries']} were packed."
                self.check.fault(ledger_file(key), text)

    def _seen_one(self, found: Iterable[Row]) -> Iterator[Row]:
        for entry in found:
            self.rested.discard(f"L-{entry['number']}")
            if "fingerprint" in entry["body"]:
                self.used.add(entry["body"]["fingerprint"])
            yield entry

    def _seen(self, found: Iterable[Row]) -> None:
        for _entry in self._seen_one(found):
            pass

    def _edition(self, name: str, wanted: str) -> None:
        worked_out = hashlib.sha256()
        with self.check.files.open(name) as stream:
            while piece := stream.read(1 << 16):
                worked_out.update(piece)
        if worked_out.hexdigest() != wanted:
            self.check.fault(name, "was changed: it is not the content with this fingerprint.")

    def _table(
        self, name: str, columns: Iterable[str], row_of: Callable[[Row], list[str]], found: Iterator[Row]
    ) -> None:
        """Compare a table with the lines of JSON that it was made from; name the first row that differs."""
        self.check.try_(name, lambda: self._compare(name, list(columns), row_of, found))
        for _data in found:  # what follows on the first difference
            pass

    def _compare(self, name: str, columns: list[str], row_of: Callable[[Row], list[str]], found: Iterator[Row]) -> None:
        csv.field_size_limit(LONGEST_CELL)
        with self.check.files.open(name) as stream:
            rows = csv.reader(io.TextIOWrapper(stream, "utf-8-sig", newline=""), strict=True)
            if next(rows, None) != columns:
                self.check.fault(name, "was changed: its head is not the one that the program writes.")
                return
            for place, data in enumerate(found, 2):
                if next(rows, None) != row_of(data):
                    self.check.fault(name, f"was changed: row {place} is not what the JSON beside it says.")
                    return
            if next(rows, None) is not None:
                self.check.fault(name, "was changed: rows were put in at its end.")
