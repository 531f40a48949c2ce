"""The key that secrets are mixed with before they are hashed, kept in a file outside the database.

Whoever takes the database alone cannot try the few thousand possible PINs against it.
"""

import hashlib
import hmac
import os
import secrets
from pathlib import Path

from sqlalchemy import Connection, select

from trainer.errors import RecordError
from trainer.records.models import Secret
from trainer.wording import say

FILE = "pepper.key"


def read(folder: Path) -> bytes:
    """Return the key kept in ``folder``, making it when there is none; the file is its owner's alone."""
    path = folder / FILE
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    try:  # exclusive, so that two processes that start together end up with one key
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return bytes.fromhex(path.read_text(encoding="ascii").strip())
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(32))
    return bytes.fromhex(path.read_text(encoding="ascii").strip())


def name_of(key: bytes) -> str:
    """Return a short name of a key, which tells two keys apart and gives neither away."""
    return hashlib.sha256(b"name of the key:" + key).hexdigest()[:16]


def mixed(key: bytes, secret: str) -> str:
    """Return what is hashed in place of ``secret``."""
    return hmac.new(key, secret.encode(), hashlib.sha256).hexdigest()


def must_fit(connection: Connection, key: bytes) -> None:
    """Raise :class:`RecordError` when the kept secrets were made with another key."""
    used = set(connection.scalars(select(Secret.pepper).distinct()))
    if used - {name_of(key)}:
        raise RecordError(
            say("{file} is not the key that PINs and passwords were made with; restore it from a backup.", file=FILE)
        )
