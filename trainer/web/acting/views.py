"""Showing and entering an act, for whichever door it is done at."""

from collections.abc import Callable, Mapping

from flask import g, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import Reading, people
from trainer.web.acting.act import Act, Asked
from trainer.web.acting.blanks import Given
from trainer.web.acting.page import act_page
from trainer.web.acting.tried import Tried, prove_second, try_act
from trainer.web.rooms import rooms
from trainer.web.sheet import Frame, place
from trainer.web.words import _
from trainer.wording import Sentence, say

Framed = Callable[[str], Frame]
Answer = str | Response | tuple[str, int]


def by_id(acts: Mapping[str, Act], name: str) -> Act:
    """Return an act that this door has; :class:`Missing` for any other."""
    if name not in acts:
        raise Missing(say("There is no such act at this door."))
    return acts[name]


def show(act: Act, key: str, framed: Framed) -> str:
    """Show the blanks of an act; what an address names is filled in."""
    return _sheet(act, key, framed, Given(texts=request.args))


def enter(act: Act, key: str, framed: Framed) -> Answer:
    """Show what an act would come to or, with the second key, enter it; a refusal keeps everything that was typed."""
    form = request.form
    given = Given(texts=form, lists={name: form.getlist(name) for name in form})
    record = rooms().record
    try:
        if form.get("act") != "enter":
            with record.trying() as writing:
                tried = try_act(writing, act, _asked(writing, key, given))
            return _sheet(act, key, framed, given, tried=tried)
        with record.writing() as writing:
            asked = _asked(writing, key, given)
            if act.second:
                prove_second(writing, asked, form.get("pin", ""), place())
            tried = try_act(writing, act, asked)
            _must_be_seen(tried, form.get("seen", ""))
    except (UsageError, RecordError, Missing) as error:
        return _again(act, key, framed, given, error.sentence), error.status
    return redirect(url_for(f"{request.blueprint}.person", key=key, signed=tried.entries[0].number), 303)


def _must_be_seen(tried: Tried, seen: str) -> None:
    if tried.seen != seen:
        raise UsageError(say("What it comes to is new. Look at it, then enter it."))


def _again(act: Act, key: str, framed: Framed, given: Given, refusal: Sentence) -> str:
    """Show the sheet with a refusal, and what it would come to if that can be told."""
    tried = None
    if request.form.get("act") == "enter":
        try:
            with rooms().record.trying() as writing:
                tried = try_act(writing, act, _asked(writing, key, given))
        except (UsageError, RecordError, Missing) as error:
            refusal = error.sentence
    return _sheet(act, key, framed, given, tried=tried, refusal=refusal)


def _sheet(
    act: Act,
    key: str,
    framed: Framed,
    given: Given,
    *,
    tried: Tried | None = None,
    refusal: Sentence | None = None,
) -> str:
    with rooms().record.reading() as reading:
        asked = _asked(reading, key, given)
        blanks = act.blanks(reading, asked)
    frame = framed(_("%(what)s: %(person)s", what=str(act.title), person=asked.person.name))
    return render_template("act.html", page=act_page(frame, act, asked, blanks, tried=tried, refusal=refusal))


def _asked(r: Reading, key: str, given: Given) -> Asked:
    return Asked(bank=rooms().bank, person=people.must(r, key), given=given, by=g.person.key, today=r.today())
