"""The key that signs sessions: given as a setting, or made once and kept beside the record."""

import os
import secrets
from pathlib import Path

from trainer.settings import Settings

KEY_FILE = "session.key"


def session_key(settings: Settings) -> str:
    """Return the signing key, making it when there is none yet; the file is readable by its owner alone."""
    if settings.secret:
        return settings.secret
    path = settings.data / KEY_FILE
    settings.data.mkdir(parents=True, exist_ok=True)
    _make(path)
    return path.read_text(encoding="ascii").strip()


def _make(path: Path) -> None:
    try:  # exclusive, so that two processes that start together end up with one key
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(32))
