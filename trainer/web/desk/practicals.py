"""Who waits for a practical, who may sign it, and what the one signed in may sign."""

from dataclasses import dataclass

from trainer.records.practicals import Entitlement
from trainer.records.standing import Standing, StandingWord
from trainer.web.desk.acts import sign_act
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.judges import Judges, until
from trainer.web.desk.pages import PracticalsPage, Right, Waiting
from trainer.web.language import translate
from trainer.web.roster import Roster, named
from trainer.web.sheet import turn
from trainer.web.standings import any_of, kind_name, role_name
from trainer.web.words import _, ngettext

OPEN = {StandingWord.PRACTICAL_PENDING, StandingWord.SUPERVISED}


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticalChoice:
    """What a reader picked from the list's blanks."""

    machine: str = ""
    page: str = "1"


def practicals_page(roster: Roster, judges: Judges, choice: PracticalChoice, *, me: str) -> PracticalsPage:
    """Build the list, of one machine where one is named."""
    waiting = [one for one in roster.standings if one.word in OPEN and _here(roster, one)]
    waiting = [one for one in waiting if choice.machine in {"", one.machine}]
    rows, pages = turn(waiting, choice.page, "desk.practicals", machine=choice.machine)
    return PracticalsPage(
        frame=desk_frame("desk.practicals", _("Practicals")),
        lede=ngettext(
            "%(num)s practical is open. Passing the theory alone authorises nobody.",
            "%(num)s practicals are open. Passing the theory alone authorises nobody.",
            len(waiting),
        ),
        machines=any_of((each, each) for each in roster.machines),
        machine=choice.machine,
        rows=tuple(_row(roster, judges, one, me) for one in rows),
        pages=pages,
        mine=tuple(_right(right) for right in judges.of(me)),
    )


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
