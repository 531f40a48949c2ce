"""The office's views of retention: set a rule, see what has had its time, remove it."""

from datetime import date

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import RecordError, UsageError
from trainer.records import Writing, people
from trainer.records.privacy import retention as kept
from trainer.records.privacy import rules
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_day
from trainer.web.office.retentionpages import retention_page, seen_of
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.wording import Sentence, say

Shown = str | Response | tuple[str, int]


@bp.get("/retention")
@doors.needs(OFFICER)
def retention() -> Shown:
    """Show the rules and what has had its time on a day, which may lie ahead."""
    try:
        with rooms().record.reading() as reading:
            on = read_day(request.args.get("day", ""), today=reading.today())
    except UsageError as error:
        return _sheet(None, {}, error.sentence), error.status
    return _sheet(on, {}, None)


@bp.post("/retention/rules")
@doors.needs(OFFICER)
def set_rule() -> Shown:
    """Set a rule, or take one back; a refusal keeps what was typed."""
    form = request.form
    fields = {name: form.get(name, "")[:500] for name in ("kind", "years", "from", "reason")}
    try:
        with rooms().record.writing() as writing:
            rules.set_rule(
                writing,
                kind=fields["kind"],
                years=_years(fields["years"]),
                counts_from=fields["from"],
                by=g.person.key,
                reason=fields["reason"],
            )
    except (UsageError, RecordError) as error:
        return _sheet(None, fields, error.sentence), error.status
    return redirect(url_for("office.retention"), 303)


@bp.post("/retention")
@doors.needs(OFFICER)
def remove() -> Shown:
    """Remove what has had its time today, all or nothing, if it is what was looked at."""
    try:
        with rooms().record.writing() as writing:
            _must_be_seen(writing, request.form.get("seen", ""), sure=request.form.get("sure") == "yes")
            kept.apply(writing, by=g.person.key)
    except (UsageError, RecordError) as error:
        return _sheet(None, {}, error.sentence), error.status
    return redirect(url_for("office.retention"), 303)


def _must_be_seen(writing: Writing, seen: str, *, sure: bool) -> None:
    if not sure:
        raise UsageError(say("Tick that you have looked at each of them. It cannot be taken back."))
    if seen_of(kept.preview(writing)) != seen:
        raise UsageError(say("What it comes to is new. Look at it, then enter it."))


def _years(text: str) -> int | None:
    plain = text.strip()
    if not plain:
        return None
    if not (plain.isascii() and plain.isdigit() and len(plain) <= 3):
        raise UsageError(say("Write the years as a whole number, or nothing to take the rule back."))
    return int(plain)


def _sheet(on: date | None, fields: dict[str, str], refusal: Sentence | None) -> str:
    with rooms().record.reading() as reading:
        today = reading.today()
        found, runs = kept.preview(reading, on=on), kept.runs(reading)
        keys = {run.by for run in runs} | {rule.by for rule in found.rules.values()}
        named = {key: row for key in keys if (row := people.get(reading, key)) is not None}
    page = retention_page(found, runs, named, today=found.on == today, fields=fields, refusal=refusal)
    return render_template("office/retention.html", page=page)
