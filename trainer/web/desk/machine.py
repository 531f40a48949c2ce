"""One machine: is its safeguard far enough, what is on file, what was measured, and what is still to be found out."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from flask import url_for

from trainer.figures import stopping_history
from trainer.records.concerned import ABSENCE
from trainer.records.machines import MachineRow
from trainer.records.mounts import Judged, judge, readings_of
from trainer.records.people import PersonRow
from trainer.safeguarding.problems import problem
from trainer.safeguarding.register import EVERY, MOUNTED, RULE, RULES, label_of
from trainer.safeguarding.stopping import KEY, History, Unmeasured
from trainer.units import show
from trainer.web.desk.eventpages import Happened
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.machinepages import MachinePage, Measured, NotedFact
from trainer.web.desk.pages import Choices
from trainer.web.desk.telling import WHATS
from trainer.web.facts import told_facts
from trainer.web.filters import day
from trainer.web.language import localise, translate
from trainer.web.sheet import Link, moment
from trainer.web.standings import kind_name
from trainer.web.words import _
from trainer.wording import Sentence

FIELDS = ("time", "on", "note", "key", "value", "found")
READINGS = 40  # lines of the table; the figure shows them all


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What was typed into one of the sheet's forms, and why it was refused."""

    fields: Mapping[str, str] = field(default_factory=dict)
    refusal: Sentence | None = None


def machine_page(
    machine: MachineRow,
    people: Mapping[str, PersonRow],
    on: date,
    typed: Typed,
    happened: tuple[Happened, ...] = (),
) -> MachinePage:
    """Build the sheet, with what was typed already."""
    seen = judge(machine, on)
    return MachinePage(
        frame=desk_frame("desk.machines", machine.id),
        id=machine.id,
        name=machine.name,
        kind=kind_name(machine.kind),
        in_use=machine.in_use,
        verdict=verdict_of(seen),
        danger=seen.too_close,
        told=_told(seen),
        missing=tuple(str(translate(label_of(key))) for key in seen.on_file.missing),
        figure=_figure(seen, machine),
        facts=told_facts(machine.facts),
        readings=_measured(machine, people),
        changes=_changes(machine, people),
        keys=_keys(machine),
        events=tuple((what, str(words)) for what, words in WHATS if what != ABSENCE),
        happened=happened,
        fields={name: typed.fields.get(name, "") for name in FIELDS},
        refusal=typed.refusal,
        act=Link(label=_("Who may run it"), url=url_for("desk.people", machine=machine.id), about=machine.id),
    )


def verdict_of(seen: Judged) -> str:
    """Say in one line where the safeguard stands; what is not known is never good."""
    if seen.wrong is not None:
        return _("Cannot be judged.")
    if seen.found is None:
        return _("Cannot be judged: something is not on file.")
    if isinstance(seen.found, Unmeasured):
        return _("Cannot be judged: never measured.")
    if seen.found.too_close:
        return _("Mounted too close. Stop using the machine.")
    if not seen.found.report.good:
        return _("Far enough by the last reading, but not measured in time.")
    if seen.found.report.findings:
        return _("Far enough now, but the margin may end before the next measurement.")
    return _("Far enough.")


def _told(seen: Judged) -> tuple[Any, ...]:
    if seen.wrong is not None:
        return (seen.wrong,)
    if isinstance(seen.found, Unmeasured):
        limit = show(seen.found.limit, "ms") if seen.found.limit is not None else ""
        return (_("As it is mounted, the machine may take %(limit)s to stop.", limit=localise(limit)),) if limit else ()
    if seen.found is None:
        return ()
    found = seen.found
    told = [
        _(
            "It needs %(needed)s and stands at %(mounted)s, by a stopping time of %(time)s.",
            needed=localise(show(found.needed.rounded, "mm")),
            mounted=localise(show(found.mounted, "mm")),
            time=localise(show(found.use, "ms")),
        ),
        _("Measured on %(day)s. Measure again by %(due)s.", day=day(found.measured_on), due=day(found.due)),
    ]
    if not seen.measured_in_time:
        told.append(_("Until then no drill is drawn from this machine."))
    return tuple(told)


def _figure(seen: Judged, machine: MachineRow) -> Any | None:
    if not isinstance(seen.found, History):
        return None
    return stopping_history(readings_of(machine), seen.found, write_day=day, translate=translate)


def _measured(machine: MachineRow, people: Mapping[str, PersonRow]) -> tuple[Measured, ...]:
    newest = reversed(machine.readings[-READINGS:])
    return tuple(
        Measured(day=day(one.on), time=localise(one.time), note=one.note, by=_who(one.by, people), at=moment(one.at))
        for one in newest
    )


def _changes(machine: MachineRow, people: Mapping[str, PersonRow]) -> tuple[NotedFact, ...]:
    return tuple(
        NotedFact(
            day=day(one.on),
            label=told_facts({one.key: one.value or "?"})[0].label,
            value=told_facts({one.key: one.value})[0].value if one.value else _("not known any more"),
            by=_who(one.by, people),
        )
        for one in reversed(machine.changes[-READINGS:])
    )


def _who(key: str | None, people: Mapping[str, PersonRow]) -> str:
    if key is None:
        return _("the administrator")
    return people[key].name if key in people else key


def _keys(machine: MachineRow) -> Choices:
    """Return the facts that can be entered: those of the sheet's own, then what the rule on file asks for."""
    rule = machine.facts.get(RULE, "ansi-presence-sensing")
    asked = [f.key for f in problem(rule if rule in RULES else RULES[0]).fields if f.key not in {KEY, "unverified"}]
    keys = [RULE, MOUNTED, EVERY, *asked, "safeguard", "drive", "made"]
    return tuple((key, told_facts({key: "?"})[0].label) for key in dict.fromkeys(keys))
