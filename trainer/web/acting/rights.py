"""The rights to judge practice and to stand by: giving one until a day, and ending it."""

from dateutil.relativedelta import relativedelta

from trainer.records import Reading, Writing, acts, ledger, machines
from trainer.records.effects import facts
from trainer.records.entitlements import JUDGE as JUDGING
from trainer.records.entitlements import SUPERVISE as SUPERVISING
from trainer.records.entitlements import in_force
from trainer.records.ledger import Entry
from trainer.records.standing import roles_at
from trainer.web.acting.act import Act, Asked, when, why
from trainer.web.acting.blanks import Blank
from trainer.web.filters import day
from trainer.web.standings import kind_name, role_name
from trainer.web.words import _, _l
from trainer.wording import say

YEARS = 1  # that a right runs unless another day is written


def _kinds(r: Reading) -> list[str]:
    return list(dict.fromkeys(one.kind for one in machines.all_machines(r, in_use=True)))


def _roles(r: Reading, asked: Asked) -> list[str]:
    return list(dict.fromkeys(role for kind in _kinds(r) for role in roles_at(asked.bank, kind)))


def _give_blanks(r: Reading, asked: Asked) -> tuple[Blank, ...]:
    kinds = tuple((kind, kind_name(kind)) for kind in _kinds(r))
    roles = tuple((role, role_name(role)) for role in _roles(r, asked))
    last = day(asked.today + relativedelta(years=YEARS))
    return (
        Blank(name="kinds", label=_("at these machines"), kind="ticks", choices=kinds),
        Blank(name="roles", label=_("in these roles"), kind="ticks", choices=roles),
        Blank(name="from", label=_("from"), kind="day", hint=_("today")),
        Blank(name="to", label=_("to"), kind="day", value=last),
        Blank(name="basis", label=_("What it rests on: course, appointment, experience"), kind="long"),
    )


def _judge(w: Writing, asked: Asked) -> list[Entry]:
    return _give(w, asked, JUDGING)


def _stand_by(w: Writing, asked: Asked) -> list[Entry]:
    return _give(w, asked, SUPERVISING)


def _give(w: Writing, asked: Asked, right: str) -> list[Entry]:
    given = asked.given
    made = acts.entitle(
        w,
        person=asked.person.key,
        machine_kinds=given.some("kinds", _kinds(w), say("Tick at which machines.")),
        roles=given.some("roles", _roles(w, asked), say("Tick in which roles.")),
        basis=given.text("basis", say("Write what the right rests on; it is what an inspector asks for.")),
        valid_from=given.later("from", asked.today, say("Write from which day."))
        if given.raw("from").strip()
        else None,
        valid_to=given.later("to", asked.today, say("Write to which day the right runs.")),
        by=asked.by,
        happened_on=asked.today,
        right=right,
    )
    return [made]


def _held(r: Reading, asked: Asked) -> tuple[tuple[str, str], ...]:
    known = in_force(facts(ledger.entries(r, person=asked.person.key)), asked.today, None)
    return tuple((str(fact.number), f"L-{fact.number}, {day(fact.on)}: {fact.body['basis']}") for fact in known)


def _end_blanks(r: Reading, asked: Asked) -> tuple[Blank, ...]:
    return Blank(name="entry", label=_("Right held"), kind="choice", choices=_held(r, asked)), when(_("since")), why()


def _end(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    number = given.one_of("entry", (value for value, _label in _held(w, asked)), say("Choose which right ends."))
    on = given.day("on", asked.today)
    return [acts.revoke(w, entitlement=int(number), reason=given.reason(), by=asked.by, happened_on=on)]


JUDGE = Act(
    id="judge",
    title=_l("Give the right to judge"),
    note=_l("who holds it may sign practicals, never their own"),
    told=(_l("It opens no door: who signs at the desk needs a login of a trainer too."),),
    blanks=_give_blanks,
    do=_judge,
)
SUPERVISE = Act(
    id="supervise",
    title=_l("Give the right to stand by"),
    note=_l("for whoever works supervised only; it does not allow signing"),
    told=(_l("Lists and sheets name the holder from its first day to its last, nobody for themselves."),),
    blanks=_give_blanks,
    do=_stand_by,
    wide=True,
)
REVOKE = Act(
    id="revoke",
    title=_l("End a right"),
    note=_l("what was signed under it before stays good"),
    told=(_l("If it should never have been given, let its entry not count instead."),),
    blanks=_end_blanks,
    do=_end,
)
