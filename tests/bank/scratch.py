"""A small bank on disk that a test may spoil."""

import shutil
from collections.abc import Callable
from pathlib import Path

from trainer.bank import Loaded, load

SMALL = Path(__file__).parent / "small"
KINDS = Path(__file__).parent / "kinds"  # a scenario with a question of each kind, to lay over it


class ScratchBank:
    """A copy of the small bank; change a file, then read the folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shutil.copytree(SMALL, folder)

    def with_kinds(self) -> "ScratchBank":
        shutil.copytree(KINDS, self.folder, dirs_exist_ok=True)
        return self

    def replace(self, name: str, old: str, new: str) -> "ScratchBank":
        path = self.folder / name
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{name} does not hold {old!r}"
        path.write_text(text.replace(old, new), encoding="utf-8")
        return self

    def write(self, name: str, text: str | bytes) -> "ScratchBank":
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return self

    def delete(self, name: str) -> "ScratchBank":
        (self.folder / name).unlink()
        return self

    def load(self, check_drawing: Callable[[object], list[str]] | None = None) -> Loaded:
        return load(self.folder, check_drawing=check_drawing)
