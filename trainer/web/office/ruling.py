"""Rules of the site for its people: due dates and the smallest group, each on record with the day from which it holds."""

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import RecordError, UsageError
from trainer.records import Writing, siterules
from trainer.records.siterules import EVERY, DueRule
from trainer.web.access import OFFICER, doors
from trainer.web.days import read_day
from trainer.web.office.rulepages import FIELDS, rules_page
from trainer.web.office.views import bp
from trainer.web.rooms import rooms
from trainer.web.roster import known
from trainer.wording import Sentence, say

Shown = str | Response | tuple[str, int]


@bp.get("/rules")
@doors.needs(OFFICER)
def site_rules() -> str:
    """Show the rules in force, those to come and every rule that was set."""
    return _shown({}, None)


@bp.post("/rules")
@doors.needs(OFFICER)
def set_site_rule() -> Shown:
    """Set a rule from a day on; a refusal keeps what was typed."""
    given = {name: request.form.get(name, "")[:1000] for name in FIELDS}
    try:
        with rooms().record.writing() as writing:
            _set(writing, request.form.get("act", ""), given)
    except (UsageError, RecordError) as error:
        return _shown({**given, "act": request.form.get("act", "")}, error.sentence), error.status
    return redirect(url_for("office.site_rules"), 303)


def _set(w: Writing, act: str, given: dict[str, str]) -> None:
    since = read_day(given["since"], today=w.today()) if given["since"].strip() else w.today()
    who = {"since": since, "by": g.person.key, "reason": given["reason"]}
    if act == "group":
        least = _count(given["least"], say("Write the smallest group as a whole number."))
        siterules.set_smallest_group(w, least=least, **who)
    elif act in {"due", "content"}:
        programme = given["programme"] or EVERY
        rule = _due(given) if act == "due" else None
        siterules.set_due(w, rooms().bank, programme=programme, rule=rule, **who)
    else:
        raise UsageError(say("Choose what to do."))


def _due(given: dict[str, str]) -> DueRule:
    months = _months(given["period"])
    if not months:
        raise UsageError(say("Write for how many months a pass is good."))
    return DueRule(
        period=months,
        young_period=_months(given["young_period"]),
        early_window=_months(given["early_window"]),
        late_grace=_months(given["late_grace"]),
        count_from="month_end" if given["count_from"] == "month_end" else "day",
    )


def _months(text: str) -> str:
    """Return months as a period; nothing for nothing or for 0."""
    if not text.strip():
        return ""
    count = _count(text, say("Write months as a whole number, such as 12."))
    return f"P{count}M" if count else ""


def _count(text: str, missing: Sentence) -> int:
    plain = text.strip()
    if not (plain.isascii() and plain.isdigit() and len(plain) < 4):
        raise UsageError(missing)
    return int(plain)


def _shown(given: dict[str, str], refusal: Sentence | None) -> str:
    opened = rooms()
    with opened.record.reading() as reading:
        found, today = siterules.rules(reading), reading.today()
        least = siterules.smallest_group(reading, today)
        people = known(reading, [rule.entry for rule in found])
    page = rules_page(opened.bank, found, people, today=today, least=least, given=given, refusal=refusal)
    return render_template("office/rules.html", page=page)
