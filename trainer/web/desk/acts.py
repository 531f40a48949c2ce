"""The one act that a standing calls for."""

from collections.abc import Sequence

from flask import url_for

from trainer.records.people import PersonRow
from trainer.records.standing import Standing, StandingWord
from trainer.records.use import CHECKED
from trainer.web.sheet import Link, address
from trainer.web.standings import told_standings
from trainer.web.words import _

Word = StandingWord


def act_for(person: PersonRow, one: Standing) -> Link | None:
    """Return the act that takes this standing further, or None where there is nothing to do."""
    if one.word in {Word.PRACTICAL_PENDING, Word.SUPERVISED}:
        return sign_act(person, one)
    if one.word in {Word.LAPSED, Word.REFRESH_DUE}:
        return assign_act(person, _("Assign the refresher"), machine=one.machine, role=one.role, kind="refresher")
    if one.word in {Word.NO_EVIDENCE, Word.ATTENDED}:
        return assign_act(person, _("Assign the induction"), machine=one.machine, role=one.role, kind="induction")
    if one.word is Word.PAUSED:
        return Link(
            label=_("Note a pre-start check"),
            url=address("desk.act", key=person.key, name="use", machine=one.machine, what=CHECKED),
            about=_("%(person)s, %(machine)s", person=person.name, machine=one.machine),
        )
    if one.word is Word.SUSPENDED:
        return Link(
            label=_("End the suspension"),
            url=address("desk.act", key=person.key, name="reinstate"),
            about=_("of %(person)s", person=person.name),
        )
    return None


def next_act(person: PersonRow, standings: Sequence[Standing]) -> Link | None:
    """Return the first act that anything about a person calls for."""
    return next((act for one in told_standings(standings) if (act := act_for(person, one))), None)


def sign_act(person: PersonRow, one: Standing, me: str = "") -> Link:
    """Lead to the practical at the machine; nobody signs their own."""
    return Link(
        label=_("Ask another to sign") if person.key == me else _("Sign the practical"),
        url=url_for("desk.sign_off", key=person.key, machine=one.machine, role=one.role),
        about=_("%(person)s, %(machine)s", person=person.name, machine=one.machine),
    )


def assign_act(person: PersonRow, label: str, **given: str) -> Link:
    """Lead to the assignment of a programme, with the person filled in."""
    return Link(
        label=label,
        url=address("desk.assign", person=person.key, **given),
        about=_("to %(person)s", person=person.name),
    )
