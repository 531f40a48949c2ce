"""What the sheets about users show: who has a login, which roles, since when and by whom."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.records.doorkeeping import GIVEN, Held, User
from trainer.records.people import PersonRow
from trainer.web.filters import day
from trainer.web.office.frames import office_frame
from trainer.web.roster import named
from trainer.web.sheet import DUTIES, Box, Frame, Named, Pages, moment, turn
from trainer.web.words import _, ngettext
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class RoleRow:
    """A role that somebody has, and what is known of how they got it; ``entry`` is None where no entry says so."""

    name: str
    since: str
    entry: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class UserRow:
    """One user in the list."""

    person: Named
    login: str
    roles: tuple[RoleRow, ...]
    secrets: tuple[str, ...]
    last: str
    open: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UsersPage:
    """Who may use desk and office."""

    frame: Frame
    answer: str
    who: str
    fit: str
    others: tuple[Named, ...]
    rows: tuple[UserRow, ...]
    pages: Pages


@dataclass(frozen=True, slots=True, kw_only=True)
class Secret:
    """What an act made and is shown once."""

    title: str
    value: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A role that can be given or withdrawn."""

    value: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UserPage:
    """One person's doors; ``may`` is false where nothing can be done here, and ``why`` says so."""

    frame: Frame
    key: str
    login: str
    row: UserRow
    refusal: Sentence | None
    secret: Secret | None
    may: bool
    why: str
    give: tuple[Choice, ...]
    withdraw: tuple[Choice, ...]
    given: Mapping[str, str]


def users_page(
    found: Sequence[User], names: Mapping[str, str], *, who: str, others: Sequence[PersonRow], wanted: str
) -> UsersPage:
    """Build the list."""
    rows, pages = turn(found, wanted, "office.users", who=who)
    fit = ngettext("%(num)s person fits “%(who)s”.", "%(num)s people fit “%(who)s”.", len(others), who=who)
    users = ngettext("%(num)s person has a login or a role.", "%(num)s people have a login or a role.", len(found))
    officers = sum("officer" in one.person.roles for one in found)
    kept = ngettext("%(num)s of them keeps the records.", "%(num)s of them keep the records.", officers)
    return UsersPage(
        frame=office_frame("office.users", _("Users and roles"), Box(label=_("Users"), value=str(len(found)))),
        answer=f"{users} {kept}",
        who=who,
        fit=fit if who else "",
        others=tuple(named(one, "office.user") for one in others[:50]),
        rows=tuple(_row(one, names) for one in rows),
        pages=pages,
    )


def user_page(
    found: User,
    names: Mapping[str, str],
    *,
    me: str,
    refusal: Sentence | None,
    secret: Secret | None,
    given: Mapping[str, str],
) -> UserPage:
    """Build the sheet of one person's doors."""
    person = found.person
    return UserPage(
        frame=office_frame("office.users", f"{person.name}, {person.number}"),
        key=person.key,
        login=person.login or "",
        row=_row(found, names),
        refusal=refusal,
        secret=secret,
        may=person.key != me and person.status == "active" and not person.erased,
        why=_why(person, me),
        give=tuple(_choice(role) for role in GIVEN if role not in person.roles),
        withdraw=tuple(_choice(role) for role in GIVEN if role in person.roles),
        given={name: given.get(name, "") for name in ("act", "reason", "role", "login")},
    )


def _why(person: PersonRow, me: str) -> str:
    if person.key == me:
        return _("This is you. Another records officer changes your roles, your password and your PIN.")
    return "" if person.status == "active" else _("This person has left; nothing opens for them any more.")


def _choice(role: str) -> Choice:
    return Choice(value=role, label=str(DUTIES[role]))


def _row(one: User, names: Mapping[str, str]) -> UserRow:
    return UserRow(
        person=named(one.person, "office.user"),
        login=one.person.login or _("no login"),
        roles=tuple(_role(held, names) for held in one.held),
        secrets=_secrets(one),
        last=moment(one.last) if one.last else _("never, as far as the log goes back"),
        open=ngettext("%(num)s session open", "%(num)s sessions open", one.open) if one.open else _("not signed in"),
    )


def _role(held: Held, names: Mapping[str, str]) -> RoleRow:
    if held.since is None:
        since = _("no entry says since when")
    else:
        since = _("since %(day)s, by %(name)s", day=day(held.since), name=names.get(held.by or "", held.by or ""))
    return RoleRow(name=str(DUTIES[held.role]), since=since, entry=held.entry)


def _secrets(one: User) -> tuple[str, ...]:
    if one.password_at is None:
        password = _("no password")
    elif one.lent_until is not None:
        password = _("password for one use, until %(moment)s", moment=moment(one.lent_until))
    else:
        password = _("password of %(day)s", day=day(one.password_at))
    return password, _("PIN of %(day)s", day=day(one.pin_at)) if one.pin_at else _("no PIN")
