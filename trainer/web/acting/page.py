"""The sheet of an act: its blanks, then what entering it would do."""

from dataclasses import dataclass

from trainer.records.standing import Reason
from trainer.web.acting.act import Act, Asked
from trainer.web.acting.blanks import Blank
from trainer.web.acting.tried import Change, Tried
from trainer.web.entries import HistoryRow, history
from trainer.web.roster import named
from trainer.web.sheet import Frame, Link, Named
from trainer.web.standings import SHAPES, role_name
from trainer.web.words import _, ngettext
from trainer.wording import Sentence

MOST = 100  # changes on the sheet; the sentence above them counts all


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A standing's mark and words."""

    mark: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRow:
    """One standing before and after."""

    person: Named
    machine: str
    role: str
    before: Word
    after: Word
    reasons: tuple[Reason, ...]
    lacks: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ActPage:
    """An act on one person's record, before it is entered."""

    frame: Frame
    title: str
    note: str
    person: Named
    act: str
    blanks: tuple[Blank, ...]
    nothing: bool
    refusal: Sentence | None
    looked: bool
    told: tuple[str, ...]
    lines: tuple[HistoryRow, ...]
    answer: str
    changes: tuple[ChangeRow, ...]
    more: int
    seen: str
    second: bool
    back: Link


def act_page(
    frame: Frame,
    act: Act,
    asked: Asked,
    blanks: tuple[Blank, ...],
    *,
    tried: Tried | None,
    refusal: Sentence | None,
) -> ActPage:
    """Build the sheet; with ``tried`` it also says what entering it would do."""
    person = named(asked.person, f"{frame.door}.person")
    return ActPage(
        frame=frame,
        title=str(act.title),
        note=str(act.note),
        person=person,
        act=act.id,
        blanks=tuple(blank.filled(asked.given) for blank in blanks),
        nothing=any(blank.kind == "choice" and not blank.choices for blank in blanks),
        refusal=refusal,
        looked=tried is not None,
        told=tuple(str(one) for one in act.told),
        lines=history(tried.entries, tried.people) if tried else (),
        answer=_answer(tried) if tried else "",
        changes=tuple(_row(one, tried, frame) for one in tried.changes[:MOST]) if tried else (),
        more=max(0, len(tried.changes) - MOST) if tried else 0,
        seen=tried.seen if tried else "",
        second=act.second,
        back=Link(label=_("Leave it"), url=person.url, about=person.name),
    )


def _answer(tried: Tried) -> str:
    if not tried.changes:
        return _("Nobody's standing changes today.")
    return ngettext("%(num)s standing changes", "%(num)s standings change", len(tried.changes))


def _row(one: Change, tried: Tried, frame: Frame) -> ChangeRow:
    return ChangeRow(
        person=named(tried.people[one.after.person], f"{frame.door}.person"),
        machine=one.after.machine,
        role=role_name(one.after.role),
        before=Word(mark=SHAPES[one.before.word].mark, label=str(SHAPES[one.before.word].words)),
        after=Word(mark=SHAPES[one.after.word].mark, label=str(SHAPES[one.after.word].words)),
        reasons=one.after.reasons,
        lacks=one.after.lacks,
    )
