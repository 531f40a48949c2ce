"""The ways to papers: which can be had of a person or a machine. Certificates and cards are of today alone."""

from collections.abc import Iterable, Mapping
from datetime import date

from trainer.records.standing import Standing
from trainer.web.office.pages import PaperLink
from trainer.web.sheet import address
from trainer.web.standings import role_name
from trainer.web.words import _


def person_papers(key: str, standings: Iterable[Standing], on: date, *, today: date) -> tuple[PaperLink, ...]:
    """Return the ways to one person's papers."""
    whole = PaperLink(label=_("The whole file as PDF"), url=address("office.print_person", key=key, day=on.isoformat()))
    page = PaperLink(
        label=_("What this person should be able to explain, PDF"),
        url=address("office.print_explain", key=key, day=on.isoformat()),
    )
    may = [one for one in standings if one.may_run and on == today]
    return (whole, page, *(link for one in may for link in _of(key, one)))


def _of(key: str, one: Standing) -> tuple[PaperLink, PaperLink]:
    given = {"key": key, "machine": one.machine, "role": one.role}
    place = {"machine": one.machine, "role": role_name(one.role)}
    return (
        PaperLink(
            label=_("Certificate, %(machine)s, %(role)s", **place), url=address("office.print_certificate", **given)
        ),
        PaperLink(label=_("Card, %(machine)s, %(role)s", **place), url=address("office.print_card", **given)),
    )


def machine_papers(given: Mapping[str, str], *, live: bool) -> tuple[PaperLink, ...]:
    """Return the ways to a machine's papers; ``live`` says that the list is today's."""
    label = _("List to post, PDF") if live else _("This list as PDF")
    made = [PaperLink(label=label, url=address("office.print_list", **given))]
    if live:
        cards = address("office.print_cards", machine=given["machine"])
        made.append(PaperLink(label=_("Cards for everybody on it, A4"), url=cards))
    return tuple(made)
