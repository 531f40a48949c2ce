"""Stopping somebody, letting them go on, and putting off a programme."""

from trainer.records import Reading, Writing, acts, dues, ledger, machines
from trainer.records.effects import facts
from trainer.records.ledger import Entry
from trainer.records.standing import asked_at
from trainer.web.acting.act import Act, Asked, when, why
from trainer.web.acting.blanks import Blank
from trainer.web.filters import day
from trainer.web.language import current
from trainer.web.standings import any_of
from trainer.web.words import _, _l
from trainer.wording import say

YEAR = 365  # days ahead in which a programme can be put off


def _suspend_blanks(r: Reading, _asked: Asked) -> tuple[Blank, ...]:
    found = machines.all_machines(r, in_use=True)
    every = any_of(((one.id, f"{one.id}, {one.name}") for one in found), _("every machine"))
    return Blank(name="machine", label=_("from which machine"), kind="choice", choices=every), when(_("since")), why()


def _suspend(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    made = acts.suspend(
        w,
        person=asked.person.key,
        reason=given.reason(),
        by=asked.by,
        happened_on=given.day("on", asked.today),
        machine=given.raw("machine") or None,
    )
    return [made]


def _held(r: Reading, asked: Asked) -> tuple[tuple[str, str], ...]:
    return tuple(
        (
            str(fact.number),
            _(
                "L-%(number)s of %(day)s, %(machine)s: %(reason)s",
                number=fact.number,
                day=day(fact.on),
                machine=fact.body.get("machine") or _("every machine"),
                reason=fact.body["reason"],
            ),
        )
        for fact in acts.open_suspensions(r, asked.person.key)
    )


def _reinstate_blanks(r: Reading, asked: Asked) -> tuple[Blank, ...]:
    found = _held(r, asked)
    return Blank(name="entry", label=_("Suspension"), kind="choice", choices=found), when(_("since")), why()


def _reinstate(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    number = given.one_of("entry", (value for value, _label in _held(w, asked)), say("Choose which suspension ends."))
    on = given.day("on", asked.today)
    return [acts.reinstate(w, suspension=int(number), reason=given.reason(), by=asked.by, happened_on=on)]


def _open(r: Reading, asked: Asked) -> tuple[tuple[str, str], ...]:
    known = facts(ledger.entries(r, person=asked.person.key))
    rows = dues.due_of(asked.person.key, known, asked_at(r, asked.bank), on=asked.today, days=YEAR)
    found = {
        row.programme: f"{asked.bank.programme(row.programme).name.in_(current())}, {day(row.due_on)}" for row in rows
    }
    return tuple(found.items())


def _excuse_blanks(r: Reading, asked: Asked) -> tuple[Blank, ...]:
    programme = Blank(name="programme", label=_("Programme"), kind="choice", choices=_open(r, asked))
    return programme, Blank(name="until", label=_("until"), kind="day"), why()


def _excuse(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    programmes = (value for value, _label in _open(w, asked))
    made = acts.excuse(
        w,
        person=asked.person.key,
        programme=given.one_of("programme", programmes, say("Choose a programme that is due.")),
        until=given.later("until", asked.today, say("Write until which day it is put off.")),
        reason=given.reason(),
        by=asked.by,
        happened_on=asked.today,
    )
    return [made]


SUSPEND = Act(
    id="suspend",
    title=_l("Suspend"),
    note=_l("from one machine or from all, until somebody else ends it"),
    told=(
        _l("It holds from its day on, at kiosk, desk, office and on every list, until it is ended here."),
        _l("Lists that are posted at machines still show the person: print them again."),
    ),
    blanks=_suspend_blanks,
    do=_suspend,
)
REINSTATE = Act(
    id="reinstate",
    title=_l("End a suspension"),
    note=_l("nobody ends their own"),
    told=(_l("It gives back only what was held before and has not lapsed since."),),
    blanks=_reinstate_blanks,
    do=_reinstate,
)
EXCUSE = Act(
    id="excuse",
    title=_l("Put off a programme"),
    note=_l("it stops the reminding, it authorises nobody"),
    told=(_l("A standing still ends on its day. Only the reminding stops until then."),),
    blanks=_excuse_blanks,
    do=_excuse,
)
