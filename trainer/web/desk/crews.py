"""What each crew knows least: how many of its people have shown a competency. Nobody is named, no small group is shown."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from flask import render_template, request

from trainer.assessment.mastery import Evidence, State, gaps
from trainer.bank import Bank
from trainer.bank.model import Competency
from trainer.records import evidence as evidence_records
from trainer.records import people as people_records
from trainer.records import siterules
from trainer.records.people import PersonRow
from trainer.records.standing import facts_by_person
from trainer.web.access import TRAINER, doors
from trainer.web.desk.blueprint import bp
from trainer.web.desk.frames import desk_frame
from trainer.web.language import current
from trainer.web.rooms import rooms
from trainer.web.sheet import Frame, Link, address
from trainer.web.words import _

KNOWN = (State.GAP, State.NOT_SETTLED, State.SHOWN)
Counts = Mapping[State, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One crew and one competency: a box for each person with evidence, or nothing where there are too few."""

    boxes: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewRow:
    """One competency over all crews."""

    name: str
    critical: bool
    cells: tuple[Cell, ...]
    act: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewsPage:
    """The competencies, the weakest first, by crew or shift."""

    frame: Frame
    find: str
    by: str
    crews: tuple[str, ...]
    rows: tuple[CrewRow, ...]
    hidden: int
    least: int


@bp.get("/crews")
@doors.needs(TRAINER)
def crews() -> str:
    """Show what each crew knows least."""
    opened, by = rooms(), "crew" if request.args.get("by") == "crew" else "shift"
    with opened.record.reading() as reading:
        today = reading.today()
        least = siterules.smallest_group(reading, today)
        people = [one for one in people_records.everybody(reading) if one.status == "active"]
        known = facts_by_person(reading)
    seen = {one.key: list(evidence_records.from_facts(known.get(one.key, ()), opened.bank, today)) for one in people}
    page = crews_page(opened.bank, people, seen, today, by=by, find=request.args.get("find", "")[:60], least=least)
    return render_template("desk/crews.html", page=page)


def crews_page(
    bank: Bank,
    people: Iterable[PersonRow],
    seen: Mapping[str, Sequence[Evidence]],
    today: date,
    *,
    by: str,
    find: str,
    least: int,
) -> CrewsPage:
    """Build the sheet. A competency on which no crew has ``least`` people with evidence is counted, not shown."""
    counts = _counts(bank, people, seen, today, by)
    names = sorted({crew for crew, _key in counts})
    wanted = [one for one in bank.competencies.values() if find.casefold() in one.name.in_(current()).casefold()]
    shown = [one for one in wanted if any(_enough(counts.get((crew, one.id), {}), least) for crew in names)]
    shown.sort(key=lambda one: _strength(counts, names, one, least))
    return CrewsPage(
        frame=desk_frame("desk.people", _("Weakest competencies by crew")),
        find=find,
        by=by,
        crews=tuple(names),
        rows=tuple(_row(bank, counts, names, one, least) for one in shown),
        hidden=len(wanted) - len(shown),
        least=least,
    )


def _counts(
    bank: Bank, people: Iterable[PersonRow], seen: Mapping[str, Sequence[Evidence]], today: date, by: str
) -> Mapping[tuple[str, str], Counter[State]]:
    found: dict[tuple[str, str], Counter[State]] = defaultdict(Counter)
    for person in people:
        crew, mine = (person.crew if by == "crew" else person.shift), seen.get(person.key, ())
        touched = {one.competency for one in mine}
        for gap in gaps([one for one in bank.competencies.values() if one.id in touched], mine, today):
            if crew and gap.state in KNOWN:
                found[crew, gap.competency][gap.state] += 1
    return found


def _enough(count: Counts, least: int) -> bool:
    return sum(count.values()) >= least


def _strength(
    counts: Mapping[tuple[str, str], Counter[State]], crews: Iterable[str], one: Competency, least: int
) -> tuple[float, float]:
    """Order by the crew that is weakest: the most people with a gap, then the fewest who have shown it."""
    shares = []
    for crew in crews:
        count = counts.get((crew, one.id), Counter())
        total = sum(count.values())
        if total >= least:
            shares.append((-count[State.GAP] / total, count[State.SHOWN] / total))
    return min(shares)


def _row(
    bank: Bank, counts: Mapping[tuple[str, str], Counter[State]], crews: Iterable[str], one: Competency, least: int
) -> CrewRow:
    return CrewRow(
        name=one.name.in_(current()),
        critical=one.critical,
        cells=tuple(_cell(counts.get((crew, one.id), Counter()), least) for crew in crews),
        act=_talk(bank, one),
    )


def _cell(count: Counter[State], least: int) -> Cell:
    total = sum(count.values())
    if total < least:
        return Cell(boxes=(), text=_("fewer than %(least)s people", least=least))
    marks = {State.SHOWN: "solid", State.NOT_SETTLED: "hatched", State.GAP: "struck"}
    boxes = tuple(marks[state] for state in KNOWN for _each in range(count[state]))
    text = _(
        "%(shown)s of %(total)s shown, %(open)s not settled, %(gap)s gap",
        shown=count[State.SHOWN],
        total=total,
        open=count[State.NOT_SETTLED],
        gap=count[State.GAP],
    )
    return Cell(boxes=boxes, text=text)


def _talk(bank: Bank, one: Competency) -> Link | None:
    """Lead to a talk about the first scenario that is about it."""
    scenario = next((each for each in bank.scenarios.values() if one.id in each.competencies), None)
    if scenario is None:
        return None
    return Link(label=_("Make it a talk"), url=address("desk.talks", item=scenario.id), about=one.name.in_(current()))
