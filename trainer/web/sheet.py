"""The frame that every sheet of desk and office has: zones along the top, title block at the foot."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import datetime
from typing import Any, TypeVar

from flask import g, request, url_for

from trainer.web.access import OFFICER, TRAINER
from trainer.web.filters import clock_time, day
from trainer.web.rooms import rooms
from trainer.web.words import _, _l

DOORS = {"desk": _l("Desk"), "office": _l("Office")}
WAYS = {"desk": _l("to the desk"), "office": _l("to the office")}
FIRST = {"desk": ("desk.week", TRAINER), "office": ("office.questions", OFFICER)}
LONGEST = 100  # characters of one choice
PAGE = 50  # rows; a longer list turns pages
DUTIES = {TRAINER: _l("trainer"), OFFICER: _l("records officer")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """One way along the top edge; ``here`` marks the sheet (or its family) that is open."""

    label: str
    url: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One field of the title block."""

    label: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What surrounds a sheet."""

    door: str
    door_name: str
    me: str
    duty: str
    zones: tuple[Zone, ...]
    other_door: Zone | None
    boxes: tuple[Box, ...]


def frame(door: str, zones: Sequence[tuple[str, object]], here: str, name: str, *boxes: Box) -> Frame:
    """Make the frame of one sheet.

    ``zones`` holds (endpoint, label) pairs, ``here`` the endpoint that is marked, ``name`` what the title block calls
    the sheet, ``boxes`` what else it says.
    """
    person = g.person
    return Frame(
        door=door,
        door_name=str(DOORS[door]),
        me=person.name,
        duty=", ".join(str(DUTIES[role]) for role in (TRAINER, OFFICER) if role in g.roles),
        zones=tuple(Zone(label=str(label), url=url_for(end), here=end == here) for end, label in zones),
        other_door=_other_door(door),
        boxes=(*_fixed_boxes(name), *boxes),
    )


def _other_door(door: str) -> Zone | None:
    other = "office" if door == "desk" else "desk"
    endpoint, role = FIRST[other]
    return Zone(label=str(WAYS[other]), url=url_for(endpoint), here=False) if role in g.roles else None


def _fixed_boxes(name: str) -> tuple[Box, ...]:
    opened = rooms()
    return (
        Box(label=_("Sheet"), value=name),
        Box(label=_("Plant"), value=opened.settings.site),
        Box(label=_("Bank edition"), value=opened.bank.edition_shown),
        Box(label=_("Computed from the record at"), value=moment(opened.clock.now())),
    )


def moment(instant: datetime) -> str:
    """Show an instant as day and time at the site."""
    local = instant.astimezone(rooms().settings.zone)
    return f"{day(local)}, {clock_time(local)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One act: what it is called, where it leads, how it is drawn (``now`` filled, ``today`` boxed, else underlined).

    ``about`` is read aloud after the label, so that twenty equal labels differ to those who hear them.
    """

    label: str
    url: str
    weight: str = ""
    about: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A person as lists show one: never a name without its number."""

    name: str
    number: str
    shift: str = ""
    url: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """The head of a column by which a list can be put in order; ``down`` says that it is turned round."""

    label: str
    url: str
    here: bool
    down: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pages:
    """Where a long list is open: page ``number`` of ``count``, and the addresses of its neighbours.

    It shows rows ``first`` to ``last`` of the ``total`` that were found among ``whole``.
    """

    number: int
    count: int
    before: str
    after: str
    first: int = 0
    last: int = 0
    total: int = 0
    whole: int = 0


Row = TypeVar("Row")


def turn(
    rows: Sequence[Row], wanted: str, endpoint: str, *, whole: int | None = None, called: str = "page", **choices: str
) -> tuple[Sequence[Row], Pages]:
    """Return one page of ``rows`` and where it lies; a page that is not there is answered with the nearest.

    ``whole`` is how many there are without a search; ``called`` names the page in an address, where a sheet has more
    lists than one.
    """
    count = max(1, -(-len(rows) // PAGE))
    number = min(max(int(wanted), 1), count) if wanted.isdecimal() and len(wanted) < 7 else 1

    def neighbour(page: int) -> str:
        return address(endpoint, **{called: str(page)}, **choices) if 1 <= page <= count else ""

    shown = rows[(number - 1) * PAGE : number * PAGE]
    pages = Pages(
        number=number,
        count=count,
        before=neighbour(number - 1),
        after=neighbour(number + 1),
        first=(number - 1) * PAGE + 1,
        last=(number - 1) * PAGE + len(shown),
        total=len(rows),
        whole=len(rows) if whole is None else whole,
    )
    return shown, pages


def address(endpoint: str, **given: str) -> str:
    """Return the address of a sheet with what was chosen; empty choices are left out."""
    kept: dict[str, Any] = {key: value for key, value in given.items() if value}
    return url_for(endpoint, **kept)


def chosen(shape: type, given: Mapping[str, str]) -> dict[str, str]:
    """Return the fields of a choice that were given, none longer than a person would type."""
    return {field.name: given[field.name][:LONGEST] for field in fields(shape) if field.name in given}


def place() -> str:
    """Return where a request comes from, for the waits after wrong secrets."""
    return f"address:{request.remote_addr or 'unknown'}"
