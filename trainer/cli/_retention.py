"""``trainer records retention``: the rules, what falls due by them, and removing it."""

import json
from datetime import date
from typing import TYPE_CHECKING

import click

from trainer.cli._privacy import person_of
from trainer.cli.options import data_option, day_option, json_option, open_existing, settings_for
from trainer.errors import UsageError
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.records import Record
    from trainer.records.privacy.retention import Leaver, Preview

FORM = "Write a rule as identity=1, practical-signed=3:expiry or sign-ins=none, not {text!r}."


@click.command()
@data_option
@click.option("--preview", is_flag=True, help="Say what has had its time; nothing is removed. This is the default.")
@click.option("--apply", "doing", is_flag=True, help="Remove what has had its time today, all of it or nothing.")
@click.option("--set", "given", multiple=True, metavar="KIND=YEARS[:FROM]", help="Set a rule; may be given again.")
@click.option("--because", "reason", default="", help="Why these rules; kept on file.")
@click.option("--by", metavar="NUMBER", help="Number of the officer who sets rules or removes.")
@day_option("--on", text="Look at this day instead of today; for the preview only.")
@json_option
def retention(
    data: str | None,
    given: tuple[str, ...],
    reason: str,
    by: str | None,
    on: date | None,
    *,
    preview: bool,
    doing: bool,
    as_json: bool,
) -> None:
    """Keep records as long as the rules say: set rules, see what has had its time, remove it.

    Kinds: identity (counted from leaving), entries (every kind of entry without a rule of its own), each kind of entry
    such as practical-signed, sign-ins, hazard-names, requests. FROM is leaving, expiry or event. An identity goes when
    the last period of all is over; what has no rule, and whoever is here or under a legal hold, stays.

    \b
    Examples:
      trainer records retention --data instance --set identity=1 --set entries=3:expiry --because "Policy 7" --by 00112
      trainer records retention --data instance --preview --on 2027-01-01
      trainer records retention --data instance --apply --by 00112

    \b
    Exit codes: 0 good, 1 refused, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    if doing and (preview or given or on):
        raise UsageError("Give --apply by itself: look first, then remove.")
    record = open_existing(settings_for(data))
    try:
        if given:
            _set(record, given, by=by, reason=reason)
        if doing:
            _apply(record, by=by)
            return
        _show(record, on, as_json=as_json)
    finally:
        record.close()


def _set(record: "Record", given: tuple[str, ...], *, by: str | None, reason: str) -> None:
    from trainer.records.privacy import rules  # noqa: PLC0415  (heavy, and not needed for --help)

    wanted = [_rule(text) for text in given]
    with record.writing() as writing:
        officer = person_of(writing, _must(by)).key
        for kind, years, counts_from in wanted:
            usual = "event" if kind in rules.LOGS else "leaving"
            rules.set_rule(writing, kind=kind, years=years, counts_from=counts_from or usual, by=officer, reason=reason)


def _rule(text: str) -> tuple[str, int | None, str]:
    kind, equals, rest = text.partition("=")
    years, _colon, counts_from = rest.partition(":")
    good = years == "none" or (years.isascii() and years.isdigit() and len(years) <= 3)
    if not equals or not good:
        raise UsageError(say(FORM, text=text))
    return kind.strip(), None if years == "none" else int(years), counts_from


def _apply(record: "Record", *, by: str | None) -> None:
    from trainer.records.privacy.retention import apply  # noqa: PLC0415  (heavy, and not needed for --help)

    with record.writing() as writing:
        run = apply(writing, by=person_of(writing, _must(by)).key)
    for kind, count in run.removed.items():
        click.echo(f"removed: {kind} ({count})")


def _show(record: "Record", on: date | None, *, as_json: bool) -> None:
    from trainer.records.privacy.retention import preview, runs  # noqa: PLC0415  (heavy, and not needed for --help)

    with record.reading() as reading:
        found, done = preview(reading, on=on), runs(reading)
    if as_json:
        click.echo(json.dumps(_data(found), ensure_ascii=False, indent=2))
        return
    for kind, rule in found.rules.items():
        click.echo(f"rule: {kind}, {rule.years} years from {rule.counts_from.value}. {rule.reason}")
    if not found.rules:
        click.echo("No rule is set, so everything is kept.")
    for line in _lines(found):
        click.echo(line)
    for kind, count in found.logs.items():
        click.echo(f"has had its time: {kind} ({count})")
    if done:
        click.echo(f"last removal: {done[-1].at.isoformat()}")
    click.echo(f"{len(found.over)} identities have had their time on {found.on.isoformat()}.")


def _lines(found: "Preview") -> list[str]:
    told = {
        "has had its time": found.over,
        "kept by a legal hold": found.held,
        "kept": found.kept,
        "kept, a rule is missing": found.unset,
    }
    return [f"{how}: {_who(leaver)}" for how, leavers in told.items() for leaver in leavers]


def _who(leaver: "Leaver") -> str:
    person, period = leaver
    entry = f", L-{period.entry}" if period.entry else ""
    until = f" until {period.until.isoformat()} ({period.kind}{entry})" if period.until else ""
    missing = f" ({', '.join(period.unset)})" if period.unset else ""
    return f"{person.number} {person.name}{until}{missing}"


def _data(found: "Preview") -> dict[str, object]:
    groups = {"over": found.over, "held": found.held, "kept": found.kept, "unset": found.unset}
    return {
        "on": found.on.isoformat(),
        "rules": {kind: {"years": rule.years, "from": rule.counts_from.value} for kind, rule in found.rules.items()},
        **{name: [_person(leaver) for leaver in leavers] for name, leavers in groups.items()},
        "logs": dict(found.logs),
    }


def _person(leaver: "Leaver") -> dict[str, object]:
    person, period = leaver
    return {
        "number": person.number,
        "until": period.until.isoformat() if period.until else None,
        "kind": period.kind,
        "entry": f"L-{period.entry}" if period.entry else None,
        "unset": list(period.unset),
    }


def _must(by: str | None) -> str:
    if by is None:
        raise UsageError("Give --by, the officer's number.")
    return by
