"""Questions and reports from the kiosk: what is open, what was answered of late, and one question to answer."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from flask import url_for

from trainer.records.asking import AskedRow
from trainer.records.hazards import SUGGESTION, HazardRow
from trainer.records.people import PersonRow
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Answered, AskedPage, Reported, ReportsPage
from trainer.web.desk.waiting import lasted
from trainer.web.listing import Listing, Order, Wish, listed
from trainer.web.sheet import Box, Link, moment
from trainer.web.wishes import told_question
from trainer.web.words import _
from trainer.wording import Sentence

LATELY = timedelta(days=30)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportsChoice:
    """What a reader asked of the three lists; each turns its own pages."""

    find: str = ""
    sort: str = ""
    page: str = "1"  # of the questions
    reports: str = "1"
    answered: str = "1"


def reports_page(
    asked: Sequence[AskedRow],
    hazards: Sequence[HazardRow],
    named: Mapping[str, PersonRow],
    now: datetime,
    choice: ReportsChoice,
) -> ReportsPage:
    """Build the sheet: open questions, open reports, then what was answered within the last days, newest first."""
    questions = [_question(row, named, now) for row in asked if row.is_open]
    reports = [_report(row, named, now) for row in hazards if row.is_open]
    closed = [(row.answers[-1].at, _question(row, named, now)) for row in asked if not row.is_open]
    closed += [(row.answers[-1].at, _report(row, named, now)) for row in hazards if not row.is_open]
    closed.sort(key=lambda one: one[0], reverse=True)
    return ReportsPage(
        frame=desk_frame(
            "desk.reports",
            _("Asked and reported"),
            Box(label=_("Open"), value=str(len(questions) + len(reports))),
        ),
        questions=_listed(questions, choice, "page"),
        reports=_listed(reports, choice, "reports"),
        answered=_listed([row for at, row in closed if now - at <= LATELY], choice, "answered"),
    )


def _listed(rows: Sequence[Reported], choice: ReportsChoice, called: str) -> Listing[Reported]:
    """Return one of the three lists, on a page of its own; words and order are common to them."""
    orders: dict[str, Order[Reported]] = {
        "when": Order(label=_("When")),
        "number": Order(label=_("Number"), key=lambda row: row.reference),
        "who": Order(label=_("Who"), key=lambda row: row.who),
        "about": Order(label=_("About"), key=lambda row: row.about),
    }
    wish = Wish(find=choice.find, sort=choice.sort, page=str(getattr(choice, called)))
    return listed(rows, wish, "desk.reports", orders, _text, called=called)


def _text(row: Reported) -> str:
    return f"{row.reference} {row.who} {row.about} {row.words}"


def _question(row: AskedRow, named: Mapping[str, PersonRow], now: datetime) -> Reported:
    return Reported(
        reference=row.reference,
        clock=_clock(row.at, row.answers[-1].at if row.answers else None, now),
        who=_who(row.person, named, _("name taken out")),
        about=row.about,
        words=told_question(row),
        act=Link(
            label=_("Answer") if row.is_open else _("Look at it"),
            url=url_for("desk.asked", number=row.id),
            about=row.reference,
        ),
    )


def _report(row: HazardRow, named: Mapping[str, PersonRow], now: datetime) -> Reported:
    return Reported(
        reference=row.reference,
        clock=_clock(row.at, None if row.is_open else row.answers[-1].at, now),
        who=_who(row.person, named, _("not named")),
        about=row.machine or _("No machine named"),
        words=_("Suggestion: %(words)s", words=row.words) if row.kind == SUGGESTION else row.words,
        act=Link(
            label=_("Answer") if row.is_open else _("Look at it"),
            url=url_for("desk.hazard", number=row.id),
            about=row.reference,
        ),
    )


def _clock(at: datetime, done: datetime | None, now: datetime) -> str:
    if done is None:
        return _("open %(time)s", time=lasted(now - at))
    return _("answered %(at)s", at=moment(done))


def _who(key: str | None, named: Mapping[str, PersonRow], nobody: str) -> str:
    person = named.get(key or "")
    return f"{person.name}, {person.number}" if person else nobody


def asked_page(
    row: AskedRow,
    named: Mapping[str, PersonRow],
    about: str,
    *,
    typed: str = "",
    refusal: Sentence | None = None,
) -> AskedPage:
    """Build the sheet of one question, with what was typed already. ``about`` is the name of the item it goes with."""
    to = named.get(row.to or "")
    return AskedPage(
        frame=desk_frame("desk.reports", _("Question %(number)s", number=row.reference)),
        reference=row.reference,
        who=_who(row.person, named, _("name taken out")),
        to=to.name if to else _("any trainer"),
        at=moment(row.at),
        kiosk=row.kiosk,
        item=row.about,
        about=about,
        words=told_question(row),
        answers=tuple(
            Answered(
                by=named[one.by].name if one.by in named else one.by,
                at=moment(one.at),
                words=one.words,
                closes=one.seen_at is not None,
            )
            for one in row.answers
        ),
        typed=typed,
        refusal=refusal,
    )
