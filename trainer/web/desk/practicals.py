"""Who waits for a practical, who may sign it, and what the one signed in may sign."""

from dataclasses import dataclass

from trainer.records.names import order as name_order
from trainer.records.practicals import Entitlement
from trainer.records.standing import Standing, StandingWord
from trainer.web.desk.acts import sign_act
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.judges import Judges, until
from trainer.web.desk.pages import PracticalsPage, Right, Waiting
from trainer.web.language import translate
from trainer.web.listing import Order, Wish, listed
from trainer.web.roster import Roster, named
from trainer.web.standings import any_of, kind_name, role_name
from trainer.web.words import _, ngettext

OPEN = {StandingWord.PRACTICAL_PENDING, StandingWord.SUPERVISED}


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticalChoice:
    """What a reader picked from the list's blanks."""

    machine: str = ""
    find: str = ""
    sort: str = ""
    page: str = "1"


def practicals_page(roster: Roster, judges: Judges, choice: PracticalChoice, *, me: str) -> PracticalsPage:
    """Build the list, of one machine where one is named."""
    waiting = [one for one in roster.standings if one.word in OPEN and _here(roster, one)]
    waiting = [one for one in waiting if choice.machine in {"", one.machine}]
    wish = Wish(find=choice.find, sort=choice.sort, page=choice.page)
    listing = listed(
        waiting, wish, "desk.practicals", _orders(roster), lambda one: _text(roster, one), machine=choice.machine
    )
    return PracticalsPage(
        frame=desk_frame("desk.practicals", _("Practicals")),
        lede=ngettext(
            "%(num)s practical is open. Passing the theory alone authorises nobody.",
            "%(num)s practicals are open. Passing the theory alone authorises nobody.",
            listing.pages.total,
        ),
        machines=any_of((each, each) for each in roster.machines),
        machine=choice.machine,
        rows=tuple(_row(roster, judges, one, me) for one in listing.rows),
        listing=listing,
        mine=tuple(_right(right) for right in judges.of(me)),
    )


def _orders(roster: Roster) -> dict[str, Order[Standing]]:
    return {
        "person": Order(label=_("Person"), key=lambda one: name_order(roster.people[one.person].sort_name)),
        "machine": Order(label=_("Machine, role"), key=lambda one: (one.machine, one.role)),
    }


def _text(roster: Roster, one: Standing) -> str:
    person = roster.people[one.person]
    return f"{person.name} {person.number} {person.shift} {one.machine} {role_name(one.role)}"


def _here(roster: Roster, one: Standing) -> bool:
    return one.person in roster.people and roster.people[one.person].status == "active"


def _row(roster: Roster, judges: Judges, one: Standing, me: str) -> Waiting:
    person = roster.people[one.person]
    return Waiting(
        person=named(person, "desk.person"),
        machine=one.machine,
        role=role_name(one.role),
        reasons=one.reasons,
        judges=translate(judges.sentence(one, roster, person, me)),
        act=sign_act(person, one, me),
    )


def _right(right: Entitlement) -> Right:
    kinds = "; ".join(kind_name(kind) for kind in right.machine_kinds)
    roles = ", ".join(role_name(role) for role in right.roles)
    words = _("%(roles)s, at %(kinds)s. To %(day)s.", roles=roles, kinds=kinds, day=until(right))
    return Right(words=words, entry=right.entry)
