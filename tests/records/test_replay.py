"""The record's answer on standing equals a second reckoning that was written from the rules alone, on random histories."""

from collections import Counter
from datetime import UTC, date, datetime, time, timedelta

from hypothesis import example, given, settings
from hypothesis import strategies as st
from records.replay import Line, Post, word_of

from trainer.bank.model import ProgrammeKind
from trainer.records.chain import START as NOTHING
from trainer.records.chain import Entry, EntryKind
from trainer.records.effects import facts, withdrawn
from trainer.records.judging import Rules, judge

START, ZONE = date(2026, 1, 1), "America/Chicago"
HYDRAULIC, FOLDER = "press-brake-hydraulic", "folder"
PROGRAMMES = {"first": "induction", "again": "refresher", "back": "return"}
POST = Post("PB-1", HYDRAULIC, "operator", PROGRAMMES)
RULES = Rules(
    machine="PB-1",
    machine_kind=HYDRAULIC,
    role="operator",
    programmes={name: ProgrammeKind(kind) for name, kind in PROGRAMMES.items()},
)


@st.composite
def policies(draw):
    return {
        "period": draw(st.sampled_from(["P1M", "P6M", "P12M", "P1Y"])),
        "count_from": draw(st.sampled_from(["day", "month_end"])),
        "leap_day": draw(st.sampled_from(["feb28", "mar1"])),
        "warn_days": draw(st.sampled_from([0, 30, 60])),
        "pause_after": draw(st.sampled_from(["", "", "P3M"])),
    } | draw(
        st.sampled_from(
            [
                {},
                {"early_window": "", "late_grace": "P1M", "late_resets": True, "work_in_grace": True},
                {"early_window": "", "late_grace": "P1M", "late_resets": True, "work_in_grace": False},
                {"late_resets": False},
            ]
        )
    )


@st.composite
def bodies(draw, rows):
    """Draw a kind and what it says. Half of all is what authorises, so that there is something to lose."""
    held = [row.number for row in rows if row.kind is EntryKind.SUSPENDED]
    kind = draw(st.sampled_from(["sat", "sat", "shown", "shown", "prior", "suspended", "reinstated", "event", "small"]))
    unsure = {"time": "unverified"} if draw(st.integers(0, 9)) == 0 else {}
    if kind in {"sat", "prior"}:
        policy = draw(policies())
        if draw(st.booleans()) and policy["period"] != "P1M":
            policy = {**policy, "early_window": draw(st.sampled_from(["P1M", "P3M"]))}
        body = {
            "programme": draw(st.sampled_from(["first", "first", "again", "back", "other"])),
            "policy": policy,
            **unsure,
        }
        body |= {
            "machine_kinds": draw(st.sampled_from([[HYDRAULIC], [FOLDER], [FOLDER, HYDRAULIC]])),
            "role": "operator",
        }
        if kind == "sat":
            return "sitting-marked", {**body, "passed": draw(st.integers(0, 3)) > 0}
        return "prior-accepted", {**body, "trained_on": (START - timedelta(draw(st.integers(0, 400)))).isoformat()}
    if kind == "shown":
        body = {
            "machine": draw(st.sampled_from(["PB-1", "PB-1", "PB-2"])),
            "entitlement": draw(st.sampled_from([1, 2])),
        }
        body |= {"role": draw(st.sampled_from(["operator", "operator", "helper"])), **unsure}
        return "practical-signed", {**body, "result": draw(st.sampled_from(["passed", "passed", "failed"]))}
    if kind == "suspended":
        return "suspended", {"machine": draw(st.sampled_from([None, "PB-1", "PB-2"])), "reason": "x", **unsure}
    if kind == "reinstated":
        return "reinstated", {"suspension": draw(st.sampled_from(held or [1])), "reason": "x", **unsure}
    if kind == "event":
        event = draw(st.sampled_from(["machine-changed", "left", "returned", "incident", "used", "pre-start-check"]))
        body = {"event": event, "note": "", "machine": draw(st.sampled_from(["PB-1", "PB-2"])), **unsure}
        last = {"last_day": (START + timedelta(draw(st.integers(0, 500)))).isoformat()}
        return "event", body | (last if event == "left" and draw(st.booleans()) else {})
    return draw(
        st.sampled_from(
            [
                ("assigned", {"programme": "first", "reason": "x"}),
                ("assigned", {"programme": "again", "reason": "x", "machine": "PB-2"}),
                ("attended", {"topic": "x", **unsure}),
                ("attended", {"topic": "x", "machine": "PB-2"}),
            ]
        )
    )


@st.composite
def corrections(draw, number, on):
    body = {"corrects": draw(st.integers(1, number - 1)), "reason": "x"}
    effect = draw(st.sampled_from(["withdrawn", "withdrawn", "replaced", "time-confirmed"]))
    day = (on - timedelta(draw(st.integers(-2, 60)))).isoformat()
    if effect == "time-confirmed" or (effect == "replaced" and draw(st.booleans())):
        body["happened_on"] = day
    if draw(st.integers(0, 9)) == 0:
        body["time"] = "unverified"
    return {**body, "effect": effect}


@st.composite
def authorised(draw):
    """Draw how somebody became authorised and, at times, renewed it about when it was due."""
    policy = draw(policies()) | draw(st.sampled_from([{}, {"period": "P12M", "early_window": "P3M"}]))
    sat = {"programme": "first", "policy": policy, "machine_kinds": [HYDRAULIC], "role": "operator", "passed": True}
    shown = {"machine": "PB-1", "role": "operator", "entitlement": 1}
    shown["result"] = draw(st.sampled_from(["passed", "passed", "passed", "failed"]))
    rows = [made(3, "p", "sitting-marked", START, START, sat), made(4, "p", "practical-signed", START, START, shown)]
    if draw(st.booleans()):
        on = START + timedelta(365 + draw(st.integers(-100, 60)))
        rows.append(made(5, "p", "sitting-marked", on, on, {**sat, "programme": "again"}))
    return rows


@st.composite
def ledgers(draw):
    """Draw a ledger of two people. The first two entries give rights to judge; one of them may be withdrawn later."""
    entitled = {"machine_kinds": [HYDRAULIC], "roles": ["operator"], "basis": "x", "valid_to": "2030-01-01"}
    rows = [made(1, "q", "entitled", START, START, entitled), made(2, "q", "entitled", START, START, entitled)]
    if draw(st.booleans()):
        rows += draw(authorised())
    recorded = rows[-1].recorded_on
    for _turn in range(draw(st.integers(0, 10))):
        number = len(rows) + 1
        recorded += timedelta(draw(st.integers(0, 70)))
        on = recorded - timedelta(draw(st.sampled_from([0, 0, 0, 0, 1, 9, 40, -3])))
        choice = draw(st.integers(0, 9))
        if choice == 0:
            body = draw(corrections(number, recorded))
            person = rows[body["corrects"] - 1].person
            if body["effect"] == "replaced" and "happened_on" not in body:
                same = [row for row in rows if row.kind is rows[body["corrects"] - 1].kind]
                body["instead"] = draw(st.sampled_from(same)).body
            if rows[body["corrects"] - 1].kind is not EntryKind.CORRECTED or body["effect"] == "withdrawn":
                rows.append(made(number, person, "corrected", recorded, recorded, body))
        elif choice == 1:
            rows += moving(draw(st.sampled_from(rows)), number, recorded)
        else:
            kind, body = draw(bodies(rows))
            rows.append(made(number, draw(st.sampled_from("pppq")), kind, on, recorded, body))
    return rows


def moving(row, number, recorded):
    if row.kind in {EntryKind.CORRECTED, EntryKind.MOVED, EntryKind.ENTITLED}:
        return []
    was = {"kind": row.kind.value, "happened_on": row.happened_on.isoformat(), "by": row.by, "body": row.body}
    common = {"entry": row.number, "reason": "x", "approved_by": "z"}
    other = "q" if row.person == "p" else "p"
    return [
        made(number, row.person, "moved", recorded, recorded, {**common, "direction": "away", "to": other}),
        made(number + 1, other, "moved", recorded, recorded, {**common, "direction": "here", "was": was}),
    ]


def made(number, person, kind, on, recorded, body):  # noqa: PLR0917
    return Entry(
        number=number,
        person=person,
        seq=number,
        kind=EntryKind(kind),
        happened_on=on,
        recorded_at=datetime.combine(recorded, time(18), UTC) + timedelta(seconds=number),
        zone=ZONE,
        by="office",
        body=body,
        previous=NOTHING,
        digest="",
    )


def asked(rows, on, known_on=None):
    """Ask the record's own rule, as it does after reading the rows from the database."""
    known = [row for row in rows if known_on is None or row.recorded_on <= known_on]
    mine = facts(row for row in known if row.person == "p")
    return judge("p", mine, RULES, on=on, voided=withdrawn(known)).word.value


def replayed(rows, on, known_on=None):
    lines = [
        Line(row.number, row.person, row.kind.value, row.happened_on, row.recorded_at, row.zone, dict(row.body))
        for row in rows
    ]
    return word_of(lines, "p", POST, on, known_on)


@given(ledgers(), st.integers(0, 19), st.one_of(st.none(), st.integers(0, 900)))
@settings(max_examples=300, deadline=None)
@example([], 0, None)
def test_a_second_reckoning_of_random_histories_comes_to_the_same_words(rows, first, known):
    known_on = None if known is None else START + timedelta(known)
    days = [START + timedelta(count) for count in range(first, 1100, 20)]

    assert [asked(rows, on, known_on) for on in days] == [replayed(rows, on, known_on) for on in days]


def test_the_random_histories_reach_the_words():
    """Without this the comparison could agree on nothing but emptiness."""
    seen = Counter()

    @given(ledgers(), st.integers(0, 500))
    @settings(max_examples=300, deadline=None, derandomize=True, database=None)
    def collect(rows, count):
        seen[replayed(rows, START + timedelta(count))] += 1

    collect()
    several = {"authorised", "refresh-due", "supervised", "practical-pending", "lapsed", "suspended", "theory-open"}
    assert several <= set(seen), "the words that take more than one entry"
