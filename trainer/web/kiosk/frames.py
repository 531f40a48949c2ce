"""The frame of a sheet: zones along the top, keys in the head, title block at the foot."""

from collections.abc import Sequence

from flask import current_app, g, request, session

from trainer.bank.model import Lesson, Question
from trainer.records.people import PersonRow
from trainer.web import language
from trainer.web.kiosk import place
from trainer.web.kiosk.citing import cited
from trainer.web.kiosk.pages import Box, Frame, Help, Tongue, Zone
from trainer.web.rooms import rooms
from trainer.web.words import _

IDLE_SECONDS = 240  # of nobody touching anything, before the kiosk asks; then 20 s more
GRACE_SECONDS = 20
LETTERS = "ABCDEFGH"


def frame(title: str, *, boxes: Sequence[Box], name: str, zones: Sequence[Zone] = (), **keys: object) -> Frame:
    """Make the frame of a sheet. ``name`` is what the title block calls it, ``keys`` are fields of :class:`Help`."""
    plain = tuple(Zone(label=letter) for letter in LETTERS)
    asks = g.person is not None and keys.get("hazard") is not False
    return Frame(
        title=title,
        tab=f"{name}: {title}" if zones else title,
        zones=tuple(zones) or plain,
        counts=bool(zones),
        boxes=(*boxes, Box(label=_("Sheet"), value=name)),
        help=Help(**{"back": request.path, "tongues": tongues(), "ask": asks, **keys}),  # type: ignore[arg-type]
        signed_in=g.person is not None,
        swapped=bool(session.get("swapped")),
        contrast=bool(session.get("contrast")),
        idle_seconds=int(current_app.config.get("KIOSK_IDLE_SECONDS", IDLE_SECONDS)),
        notice=place.notice(),
    )


def tongues() -> tuple[Tongue, ...]:
    """Return the languages on offer."""
    here = language.current()
    return tuple(Tongue(code=code, name=name, here=code == here) for code, name in language.offered().items())


def plant_boxes() -> tuple[Box, ...]:
    """Return what the title block of a sheet without a sitting says about the plant."""
    opened = rooms()
    return (
        Box(label=_("Plant"), value=opened.settings.site, yields=True),
        Box(label=_("Records"), value=_("kept at this plant")),
        Box(label=_("Edition"), value=opened.bank.edition_shown),
    )


def my_boxes() -> tuple[Box, ...]:
    """Return the same, led by who is signed in."""
    return (Box(label=_("You"), value=short_name(g.person)), *plant_boxes())


def short_name(person: PersonRow) -> str:
    """Name the person who is signed in so that a namesake is told apart, and no more: ``Dana R., 00241``."""
    first, *rest = person.name.split()
    return f"{first} {rest[-1][0]}., {person.number}" if rest else f"{first}, {person.number}"


def zones(count: int, here: int) -> tuple[Zone, ...]:
    """Count the sheets of a sitting; ``here`` past the last one means that all are done."""
    states = ("done" if number < here else "here" if number == here else "" for number in range(1, count + 1))
    return tuple(Zone(label=str(number), state=state) for number, state in enumerate(states, 1))


def item_boxes(item_id: str, competency: str, edition: int) -> tuple[Box, ...]:
    """Return what the title block says about a sheet of a paper: what it is, what it shows, what it rests on."""
    bank = rooms().bank
    item = bank.item(item_id)
    known = bank.competencies.get(competency)
    return (
        Box(label=_("Scenario"), value=item.scenario if isinstance(item, Lesson | Question) else item_id),
        Box(label=_("Competency"), value=known.name.in_(language.current()) if known else competency),
        Box(label=_("Source"), value=cited(bank.citations(item_id)), yields=True),
        Box(label=_("Edition"), value=str(edition)),
    )
