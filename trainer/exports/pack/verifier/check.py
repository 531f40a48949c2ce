"""One check: what was found so far, and reading files of JSON lines for it."""

import csv
from collections.abc import Callable, Iterator
from typing import Any

from trainer.exports.pack.verifier.canonical import parsed
from trainer.exports.pack.verifier.files import UNREADABLE, Files

LONGEST_LINE = 1 << 24  # octets
MALFORMED = (KeyError, TypeError, ValueError, AttributeError, IndexError, RecursionError, csv.Error)


class Check:
    """One check of a pack: the files, what is wrong so far, and what was counted."""

    def __init__(self, files: Files) -> None:
        self.files = files
        self.faults: list[tuple[str, str]] = []
        self.counts: dict[str, int] = {"files": len(files.names), "entries": 0, "checkpoints": 0}
        for name, text in files.odd:
            self.fault(name, text)

    def fault(self, where: str, text: str) -> None:
        """Note what is wrong with what, in plain words; once."""
        if (where, text) not in self.faults:
            self.faults.append((where, text))

    def lines(self, name: str) -> Iterator[tuple[str, dict[str, Any]]]:
        """Give where each line of a file stands and the object it holds; name lines that are not canonical JSON."""
        with self.files.open(name) as stream:
            for number, line in enumerate(iter(lambda: stream.readline(LONGEST_LINE), b""), 1):
                where = f"{name}, line {number}"
                data, good = parsed(line)
                if not good:
                    self.fault(where, "was changed: it is not written as the program writes it.")
                if data is not None:
                    yield where, data

    def try_(self, name: str, act: Callable[[], None]) -> None:
        """Do a part of the check; a file that cannot be read so is a fault like any other."""
        try:
            act()
        except FileNotFoundError as error:
            self.fault(str(error.args[0]), "is missing.")
        except UNREADABLE as error:
            self.fault(name, f"cannot be read: {error}.")
        except MALFORMED:
            self.fault(name, "was changed: it does not hold what it should.")
