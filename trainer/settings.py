"""Settings: one table, read once into a frozen object that is handed on.

Each is set by an environment variable, ``TRAINER_`` and the upper-case name; the README lists them and a test
compares.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from trainer.errors import UsageError
from trainer.wording import say


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that an administrator can choose."""

    name: str
    default: str
    read: Callable[[str], Any]
    help: str

    @property
    def variable(self) -> str:
        """Return the name of its environment variable."""
        return "TRAINER_" + self.name.upper()


def _zone(text: str) -> ZoneInfo:
    try:
        return ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        message = f"{text!r} is not a time zone; write one such as America/Chicago."
        raise ValueError(message) from error


def _flag(text: str) -> bool:
    if text.lower() in {"yes", "true", "1"}:
        return True
    if text.lower() in {"no", "false", "0"}:
        return False
    message = f"{text!r} is neither yes nor no."
    raise ValueError(message)


def _address(text: str) -> str:
    if text and not re.fullmatch(r"https?://[^\s/?#@]+(/[^\s?#]*)?", text):
        message = f"{text!r} is not an address; write one such as https://training.example."
        raise ValueError(message)
    return text.rstrip("/")


SETTINGS = (
    Setting("data", "instance", Path, "Folder for the record (an SQLite file), keys and backups."),
    Setting("database", "", str, "Database address, for PostgreSQL; empty means the SQLite file in the data folder."),
    Setting("content", "", str, "Folder of the content bank; empty means the bank that came with the program."),
    Setting("content_extra", "", str, "Folder of the site's own content, laid beside the bank; empty means none."),
    Setting("zone", "UTC", _zone, "Time zone of the site; due dates are civil dates there."),
    Setting("site", "This plant", str, "Name of the site, on sheets and exports."),
    Setting("address", "", _address, "Address at which people reach this program; on cards, in calendars and in xAPI."),
    Setting("secret", "", str, "Key that signs sessions; empty means one made and kept in the data folder."),
    Setting("secure_cookies", "no", _flag, "Send cookies over HTTPS only; set to yes behind HTTPS."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The settings in force."""

    data: Path
    database: str
    content: str
    content_extra: str
    zone: ZoneInfo
    site: str
    address: str
    secret: str
    secure_cookies: bool

    @property
    def database_url(self) -> str:
        """Return the address of the database in use."""
        return self.database or f"sqlite:///{(self.data / 'record.sqlite').absolute()}"

    @property
    def content_folder(self) -> Path:
        """Return the folder of the content bank in use."""
        return Path(self.content) if self.content else shipped("content")

    @property
    def extra_folder(self) -> Path | None:
        """Return the folder of the site's own content, or None."""
        return Path(self.content_extra) if self.content_extra else None


def read_settings(environment: Mapping[str, str], **given: str | None) -> Settings:
    """Read every setting: what a command was given, then the environment, then the default.

    Raises :class:`UsageError` that names the variable and says what would be right.
    """
    values: dict[str, Any] = {}
    for setting in SETTINGS:
        text = given.get(setting.name)
        if text is None:
            text = environment.get(setting.variable, setting.default)
        try:
            values[setting.name] = setting.read(text)
        except ValueError as error:
            raise UsageError(say("{variable}: {reason}", variable=setting.variable, reason=str(error))) from error
    return Settings(**values)


def shipped(folder: str) -> Path:
    """Return a folder that came with the program: beside the package in a checkout, inside it in a wheel."""
    package = Path(__file__).parent
    inside = package / "_shipped" / folder
    return inside if inside.is_dir() else package.parent / folder
