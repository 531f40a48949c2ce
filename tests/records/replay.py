"""A second reckoning of standing, written from the rules alone: it shares no code with the record's own.

It reads lines of the ledger from the first to the last, keeps what it needs in plain lists, and does its own calendar
sums. Slow and straight on purpose; the tests compare it with the record's answer.

The rules, as the project states them:

1.  Known on a day is what was recorded before that day was over at the site. As of a day counts what happened up to it.
2.  A correction that was not itself withdrawn withdraws an entry, changes its content or day, or confirms its day. An
    entry that was moved counts for the person whom it was moved to, on its own day.
3.  A day is in doubt when the clock could not be trusted, or when it had not come when it was recorded. What is in
    doubt does not speak for a person; it does speak against one (a failed practical, a changed machine, a suspension,
    a leaving; an absence ends what was before), and then counts after whatever was recorded before it.
4.  Who left has no standing after the last day, until a return that is not in doubt. Nothing of before a return counts.
5.  A suspension of the machine, or of all, holds until a later reinstatement that names it.
6.  Theory: the first programme of the role passed for that kind of machine (or accepted from elsewhere); then
    whatever was passed since, by the policy in its own entry. Good through the due day.
7.  Practice: passed at that machine in that role, under a right to judge that was never withdrawn; no failure after
    it, no change of the machine after it.
8.  Where the policy that theory is held by names a time without use, it pauses once that is over since the last practical
    or noted use at the machine. While it is paused, use does not count; back leads the way back passed (any programme of
    the role where there is none), then a pre-start check.
9.  The word is that of the first thing that is missing: suspension, theory, practice, use.
"""

import calendar
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

AGAINST = ("machine-changed",)


@dataclass
class Line:
    """One line of the ledger as it is stored."""

    number: int
    person: str
    kind: str
    happened_on: date
    recorded_at: datetime
    zone: str
    body: dict[str, Any]

    @property
    def recorded_on(self) -> date:
        return self.recorded_at.astimezone(ZoneInfo(self.zone)).date()


@dataclass
class Post:
    """A role at a machine; ``programmes`` are those that renew, by id, with their kind."""

    machine: str
    machine_kind: str
    role: str
    programmes: dict[str, str]


@dataclass
class Read:
    """A line as it reads after the corrections."""

    on: date
    number: int
    kind: str
    body: dict[str, Any]
    sure: bool
    names: set[int]

    @property
    def at(self) -> tuple[date, int]:
        return self.on, self.number


def word_of(lines: list[Line], person: str, post: Post, on: date, known_on: date | None = None) -> str:
    told = sorted((x for x in lines if known_on is None or x.recorded_on <= known_on), key=lambda x: x.number)
    withdrawn = withdrawn_in(told)
    known = [x for x in read_of([x for x in told if x.person == person], withdrawn) if x.on <= on]
    known.sort(key=lambda x: x.at)
    return judged(known, withdrawn, post, on)


def withdrawn_in(told: list[Line]) -> set[int]:
    withdrawn: set[int] = set()
    for line in reversed(told):
        if line.kind == "corrected" and line.body["effect"] == "withdrawn" and line.number not in withdrawn:
            withdrawn.add(line.body["corrects"])
    return withdrawn


def read_of(mine: list[Line], withdrawn: set[int]) -> list[Read]:
    reads: dict[int, Read] = {}
    for line in mine:
        if line.number in withdrawn:
            continue
        if line.kind == "moved" and line.body["direction"] == "away":
            reads.pop(line.body["entry"], None)
        elif line.kind == "moved":
            was = line.body["was"]
            day = date.fromisoformat(was["happened_on"])
            sure = clean(line, day) and was["body"].get("time") != "unverified"
            reads[line.number] = Read(
                day, line.number, was["kind"], was["body"], sure, {line.number, line.body["entry"]}
            )
        elif line.kind == "corrected" and line.body["corrects"] in reads and line.body["effect"] != "withdrawn":
            read = reads[line.body["corrects"]]
            settles = line.body["effect"] == "time-confirmed" or "happened_on" in line.body
            if "happened_on" in line.body:
                read.on = date.fromisoformat(line.body["happened_on"])
            read.body = line.body.get("instead", read.body)
            read.sure = clean(line, read.on) and (read.sure or settles)
            read.names.add(line.number)
        elif line.kind not in {"corrected", "moved"}:
            sure = clean(line, line.happened_on)
            reads[line.number] = Read(line.happened_on, line.number, line.kind, line.body, sure, {line.number})
    return list(reads.values())


def clean(line: Line, day: date) -> bool:
    return line.body.get("time") != "unverified" and day <= line.recorded_on


def judged(known: list[Read], withdrawn: set[int], post: Post, on: date) -> str:  # noqa: PLR0912  (straight on)
    # 4: who has left
    out = None
    back = (date.min, 0)
    for x in known:
        if x.kind == "event" and x.body["event"] == "left":
            out = date.fromisoformat(x.body.get("last_day", x.on.isoformat()))
        if x.kind == "event" and x.body["event"] == "returned":
            back = x.at
            if x.sure:
                out = None
    if out is not None and on > out:
        return "no-evidence"
    # 5: who is suspended
    for x in known:
        if x.kind == "suspended" and x.body.get("machine") in (None, post.machine):
            ended = False
            for y in known:
                if y.kind == "reinstated" and y.sure and y.body["suspension"] in x.names and y.at > x.at:
                    ended = True
            if not ended:
                return "suspended"
    # 7: practice, told after theory
    practice = practised(known, withdrawn, post, back)
    # 6: theory
    theory = learnt(known, post, on, back)
    if theory in {"no-evidence", "attended"} and practice != "never" and post.programmes:
        return "theory-open"
    if theory not in {"good", "soon"}:
        return theory
    if practice == "failed":
        return "supervised"
    if practice != "good":
        return "practical-pending"
    if unused(known, withdrawn, post, on, back):
        return "paused"
    return "refresh-due" if theory == "soon" else "authorised"


def practised(known: list[Read], withdrawn: set[int], post: Post, back: tuple[date, int]) -> str:
    passed: Read | None = None
    failures, changes = [], []
    for x in known:
        if x.kind == "practical-signed" and (x.body["machine"], x.body["role"]) == (post.machine, post.role):
            if x.body["result"] != "passed":
                failures.append(x)
            elif x.sure and x.body["entitlement"] not in withdrawn:
                passed = x
        if x.kind == "event" and x.body["event"] in AGAINST and x.body.get("machine") == post.machine:
            changes.append(x)
    if passed is None:
        return "failed" if failures else "never"
    for x in failures:
        if x.at > passed.at or (not x.sure and x.number > passed.number):
            return "failed"
    for x in changes:
        if x.at > passed.at or (not x.sure and x.number > passed.number):
            return "changed"
    return "good" if passed.at > back else "away"


def unused(known: list[Read], withdrawn: set[int], post: Post, on: date, back: tuple[date, int]) -> bool:
    pause = due_of([x for x in passes_of(known, post) if x.at > back])[2].get("pause_after")
    if not pause:
        return False
    last: Read | None = None
    for x in known:
        there = x.kind == "practical-signed" and (x.body["machine"], x.body["role"]) == (post.machine, post.role)
        if there and x.body["result"] == "passed" and x.sure and x.body["entitlement"] not in withdrawn:
            last = x
    assert last is not None
    backs = [name for name, kind in post.programmes.items() if kind == "return"] or list(post.programmes)
    until, found = moved(last.on, months_in(pause), USUAL), False
    for x in known:
        if x.at <= last.at or not x.sure:
            continue
        paused = x.on > until
        passed = x.kind == "sitting-marked" and x.body["passed"] and x.body["programme"] in backs
        if paused and passed and post.machine_kind in x.body["machine_kinds"]:
            found = True
        noted = x.kind == "event" and x.body["event"] in ("used", "pre-start-check")
        counts = not paused or (found and x.body["event"] != "used") if noted else False
        if counts and x.body.get("machine") == post.machine:
            until, found = moved(x.on, months_in(pause), USUAL), False
    return on > until


def learnt(known: list[Read], post: Post, on: date, back: tuple[date, int]) -> str:
    passes = passes_of(known, post)
    if passes:
        anew = [x for x in passes if x.at > back]
        if not anew:
            return "lapsed"
        due, last, policy = due_of(anew)
        if on > last:
            return "lapsed"
        return "soon" if on >= due - timedelta(days=policy["warn_days"]) else "good"
    for kind, told in (("sitting-marked", "theory-open"), ("assigned", "theory-open"), ("attended", "attended")):
        for x in known:
            if x.kind == kind and x.sure and bears_on(x, post) and post.programmes:
                return told
    return "no-evidence"


def passes_of(known: list[Read], post: Post) -> list[Read]:
    passes: list[Read] = []
    for x in known:
        done = x.kind == "prior-accepted" or (x.kind == "sitting-marked" and x.body["passed"])
        if not (done and x.sure and x.body["programme"] in post.programmes):
            continue
        if post.machine_kind not in x.body["machine_kinds"]:
            continue
        if passes or post.programmes[x.body["programme"]] == "induction":
            passes.append(x)
    return passes


def bears_on(x: Read, post: Post) -> bool:
    programme, machine, role = x.body.get("programme"), x.body.get("machine"), x.body.get("role")
    if programme is not None and programme not in post.programmes:
        return False
    return (machine is None or machine == post.machine) and (role is None or role == post.role)


USUAL = {"count_from": "day", "leap_day": "feb28", "warn_days": 30, "early_window": "", "late_grace": ""}
USUAL |= {"late_resets": True, "work_in_grace": False}


def due_of(passes: list[Read]) -> tuple[date, date, dict[str, Any]]:
    """Return the due day of results one after the other, the last day of work, and the policy that it goes by."""
    begin, count, due, policy = date.min, 0, date.min, {}
    for x in passes:
        rule = USUAL | x.body["policy"]
        period = months_in(rule["period"])
        day = date.fromisoformat(x.body["trained_on"]) if x.kind == "prior-accepted" else x.on
        kept = False
        if due > date.min and x.kind != "prior-accepted":
            if rule["early_window"]:
                first = moved(due, -months_in(rule["early_window"]), rule) + timedelta(days=1)
                kept = first <= day <= due
            if day > due:
                grace = moved(due, months_in(rule["late_grace"]), rule) if rule["late_grace"] else due
                kept = day <= grace or not rule["late_resets"]
        if kept:
            count += period
            while counted(begin, count, rule) <= day:
                count += period
            due, policy = counted(begin, count, rule), rule
        elif counted(day, period, rule) >= due:
            begin, count, due, policy = day, period, counted(day, period, rule), rule
    last = due
    if policy["work_in_grace"] and policy["late_grace"]:
        last = moved(due, months_in(policy["late_grace"]), policy)
    return due, last, policy


def counted(begin: date, count: int, rule: dict[str, Any]) -> date:
    due = moved(begin, count, rule)
    clamped = (begin.month, begin.day) == (2, 29) and (due.month, due.day) == (2, 28)
    if clamped and rule["leap_day"] == "mar1" and rule["count_from"] == "day":
        return date(due.year, 3, 1)
    return due


def moved(day: date, count: int, rule: dict[str, Any]) -> date:
    turn = day.year * 12 + day.month - 1 + count
    year, month = turn // 12, turn % 12 + 1
    last = calendar.monthrange(year, month)[1]
    return date(year, month, last if rule["count_from"] == "month_end" else min(day.day, last))


def months_in(period: str) -> int:
    years, _, rest = period.removeprefix("P").rpartition("Y")
    return int(years or 0) * 12 + int(rest.removesuffix("M") or 0)
