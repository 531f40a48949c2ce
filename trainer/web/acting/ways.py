"""The ways to acts, from the sheet of a person and from that of an entry."""

from collections.abc import Iterable

from trainer.records.people import PersonRow
from trainer.web.acting.act import Act
from trainer.web.sheet import Link, address


def ways(door: str, person: PersonRow, acts: Iterable[Act], **given: str) -> tuple[Link, ...]:
    """Return the ways to acts on a person's record, with what is known already filled in."""
    return tuple(
        Link(label=str(act.title), url=address(f"{door}.act", key=person.key, name=act.id, **given), about=person.name)
        for act in acts
    )
