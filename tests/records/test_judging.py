"""Authorised is only who meets every condition; each rule has its sentence, and a brute-force replay agrees."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.bank.model import ProgrammeKind
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact
from trainer.records.judging import Rules, StandingWord, judge

RULES = Rules(
    machine="PB-1",
    machine_kind="press-brake-hydraulic",
    role="operator",
    programmes={"first": ProgrammeKind.INDUCTION, "again": ProgrammeKind.REFRESHER},
)
START = date(2026, 1, 1)
POLICY = {"period": "P12M", "count_from": "day", "leap_day": "feb28", "warn_days": 60}


def fact(number, kind, on, *, trusted=True, **body):
    return Fact(
        number=number,
        person="p",
        kind=EntryKind(kind),
        on=on,
        recorded_at=datetime(2026, 1, 1, tzinfo=UTC),
        by="office",
        body=body,
        numbers=(number,),
        trusted=trusted,
    )


def sat(number, on, programme="first", *, passed=True, kinds=("press-brake-hydraulic",), **more):
    return fact(
        number,
        "sitting-marked",
        on,
        programme=programme,
        passed=passed,
        machine_kinds=list(kinds),
        policy=POLICY,
        **more,
    )


def shown(number, on, result="passed", machine="PB-1", role="operator", **more):
    return fact(number, "practical-signed", on, machine=machine, role=role, result=result, entitlement=1, **more)


def day(count):
    return START + timedelta(days=count)


THIRTY = day(30)


def stand(*facts, on=THIRTY, voided=frozenset()):
    return judge("p", facts, RULES, on=on, voided=voided)


def told(standing):
    return [(str(reason.sentence), reason.entries) for reason in standing.reasons], [
        str(text) for text in standing.lacks
    ]


GOOD = (sat(2, day(1)), shown(3, day(2)))


def test_theory_and_practice_together_authorise():
    standing = stand(*GOOD)

    assert (standing.word, standing.may_run, standing.holds_until) == ("authorised", True, date(2027, 1, 2))
    assert told(standing) == (
        [
            ("Passed the induction on 2026-01-02; good until 2027-01-02.", (2,)),
            ("Shown at the machine on 2026-01-03 and signed off.", (3,)),
        ],
        [],
    )


NOT_YET = "Has to be shown at the machine and signed off."
THEORY = "The induction has to be passed."


@pytest.mark.parametrize(
    ("facts", "word", "reasons", "lacks"),
    [
        ((), "no-evidence", [], [THEORY, NOT_YET]),
        (
            (fact(2, "assigned", day(1), programme="first", reason="hired"),),
            "theory-open",
            [("The programme was assigned on 2026-01-02.", (2,))],
            [THEORY, NOT_YET],
        ),
        (
            (fact(2, "attended", day(1), topic="pedals"),),
            "attended",
            [("Attended on 2026-01-02; attending authorises nobody.", (2,))],
            [THEORY, NOT_YET],
        ),
        (
            (sat(2, day(1), passed=False), fact(3, "assigned", day(2), programme="first")),
            "theory-open",
            [("Sat a paper on 2026-01-02; the induction is not passed.", (2,))],
            [THEORY, NOT_YET],
        ),
        (
            (sat(2, day(1)),),
            "practical-pending",
            [("Passed the induction on 2026-01-02; good until 2027-01-02.", (2,))],
            [NOT_YET],
        ),
        ((shown(2, day(1)),), "theory-open", [("Shown at the machine on 2026-01-02 and signed off.", (2,))], [THEORY]),
        (
            (sat(2, day(1)), shown(3, day(2), "failed")),
            "supervised",
            [
                ("Passed the induction on 2026-01-02; good until 2027-01-02.", (2,)),
                ("Was watched at the machine on 2026-01-03 and did not pass.", (3,)),
            ],
            ["Works there only while an entitled person stands by, until it is shown and signed off."],
        ),
        (
            (*GOOD, fact(4, "suspended", day(5), machine=None, reason="Key off.")),
            "suspended",
            [
                ("Suspended on 2026-01-06: Key off.", (4,)),
                ("Passed the induction on 2026-01-02; good until 2027-01-02.", (2,)),
                ("Shown at the machine on 2026-01-03 and signed off.", (3,)),
            ],
            ["Has to be reinstated."],
        ),
        (
            (*GOOD, fact(4, "event", day(5), event="machine-changed", machine="PB-1", note="New tooling.")),
            "practical-pending",
            [
                ("Passed the induction on 2026-01-02; good until 2027-01-02.", (2,)),
                ("Shown at the machine on 2026-01-03 and signed off.", (3,)),
                ("The machine was changed on 2026-01-06.", (4,)),
            ],
            ["Has to be shown at the machine again, as it is now."],
        ),
        (
            (*GOOD, fact(4, "event", day(5), event="left", last_day="2026-01-08")),
            "no-evidence",
            [("Left; the last day was 2026-01-08.", (4,))],
            [],
        ),
    ],
)
def test_each_missing_condition_has_its_word_its_reasons_and_what_it_lacks(facts, word, reasons, lacks):
    standing = stand(*facts)

    assert (standing.word, standing.may_run, standing.holds_until) == (word, False, None)
    assert told(standing) == (reasons, lacks)


def test_it_holds_through_the_due_day_and_not_a_day_longer():
    words = {
        on: stand(*GOOD, on=on) for on in (date(2026, 11, 2), date(2026, 11, 3), date(2027, 1, 2), date(2027, 1, 3))
    }

    assert [standing.word for standing in words.values()] == ["authorised", "refresh-due", "refresh-due", "lapsed"]
    assert [standing.may_run for standing in words.values()] == [True, True, True, False]
    lapsed = words[date(2027, 1, 3)]
    assert (lapsed.due_on, lapsed.holds_until) == (date(2027, 1, 2), None)
    assert told(lapsed)[0][0] == ("Passed the induction on 2026-01-02; it lapsed after 2027-01-02.", (2,))
    assert told(lapsed)[1] == ["The refresher has to be passed."]


def test_before_the_day_nothing_counts():
    assert stand(*GOOD, on=day(0)).word == "no-evidence"
    assert stand(*GOOD, on=day(1)).word == "practical-pending"


def test_a_refresher_counts_only_after_the_induction():
    alone = stand(sat(2, day(1), "again"), shown(3, day(2)))
    assert (alone.word, alone.may_run) == ("theory-open", False)
    assert told(alone)[0][0] == ("Sat a paper on 2026-01-02; the induction is not passed.", (2,))
    late = (*GOOD, sat(4, day(300), "again"))
    assert stand(*late, on=day(500)).holds_until == date(2027, 10, 28)


def test_the_policy_of_the_day_counts_not_the_one_of_now():
    short = replace(sat(2, day(1)), body={**sat(2, day(1)).body, "policy": {**POLICY, "period": "P1M"}})

    assert stand(short, shown(3, day(2)), on=date(2026, 2, 2)).may_run
    assert stand(short, shown(3, day(2)), on=date(2026, 2, 3)).word == "lapsed"


def test_prior_training_counts_from_the_day_of_that_training():
    prior = fact(
        2,
        "prior-accepted",
        day(1),
        programme="first",
        machine_kinds=["press-brake-hydraulic"],
        policy=POLICY,
        trained_on="2025-06-01",
    )

    assert stand(prior, shown(3, day(2))).holds_until == date(2026, 6, 1)
    assert stand(prior).word == "practical-pending"


@pytest.mark.parametrize(
    "other",
    [
        shown(3, day(2), machine="PB-2"),
        shown(3, day(2), role="helper"),
        shown(3, day(2), trusted=False),
    ],
)
def test_a_practical_elsewhere_in_another_role_or_in_doubt_does_not_count(other):
    assert stand(sat(2, day(1)), other).word == "practical-pending"


@pytest.mark.parametrize(
    "other",
    [
        sat(2, day(1), "helper-first"),
        sat(2, day(1), kinds=("folder",)),
        sat(2, day(1), passed=False),
        sat(2, day(1), trusted=False),
    ],
)
def test_another_programme_another_kind_a_failure_or_a_doubt_does_not_count(other):
    assert not stand(other, shown(3, day(2))).may_run


def test_what_is_in_doubt_says_so():
    standing = stand(sat(2, day(1), trusted=False), shown(3, day(2)))

    assert ("What was recorded for 2026-01-02 does not count: its day is in doubt.", (2,)) in told(standing)[0]


def test_a_practical_under_a_right_that_never_was_does_not_count():
    standing = stand(*GOOD, voided=frozenset({1}))

    assert standing.word == "practical-pending"
    assert told(standing)[0][-1] == (
        "What was signed on 2026-01-03 does not count: there was no right to sign it.",
        (3,),
    )


def test_a_practical_that_failed_later_counts_and_one_passed_after_that_again():
    assert stand(*GOOD, shown(4, day(5), "failed")).word == "supervised"
    assert stand(*GOOD, shown(4, day(5), "failed"), shown(5, day(5))).word == "authorised"


def test_what_speaks_against_a_person_counts_although_its_day_is_in_doubt():
    assert stand(*GOOD, shown(4, day(1), "failed", trusted=False)).word == "supervised"
    assert stand(shown(1, day(9), "failed", trusted=False), sat(2, day(1)), shown(3, day(12))).may_run
    changed = fact(4, "event", day(0), event="machine-changed", machine="PB-1", note="x", trusted=False)
    assert stand(changed, *GOOD).word == "practical-pending"


def test_after_a_change_of_the_machine_a_new_practical_is_needed_there():
    changed = fact(4, "event", day(5), event="machine-changed", machine="PB-1", note="x")
    elsewhere = fact(4, "event", day(5), event="machine-changed", machine="PB-2", note="x")

    assert stand(*GOOD, elsewhere).may_run
    assert not stand(*GOOD, changed, fact(5, "attended", day(6), topic="What is new", machine="PB-1")).may_run
    assert stand(*GOOD, changed, shown(5, day(6))).may_run


def test_a_suspension_from_another_machine_does_not_matter_and_a_reinstatement_ends_it():
    held = fact(4, "suspended", day(5), machine="PB-1", reason="x")

    assert stand(*GOOD, fact(4, "suspended", day(5), machine="PB-2", reason="x")).may_run
    assert not stand(*GOOD, held).may_run
    assert stand(*GOOD, held, fact(5, "reinstated", day(6), suspension=4, reason="x")).may_run
    assert not stand(*GOOD, fact(1, "reinstated", day(4), suspension=4, reason="x"), held).may_run
    assert not stand(*GOOD, held, fact(5, "reinstated", day(40), suspension=4, reason="x")).may_run
    assert not stand(*GOOD, held, fact(5, "reinstated", day(6), suspension=4, reason="x", trusted=False)).may_run


def test_a_suspension_whose_day_is_in_doubt_holds_all_the_same():
    assert not stand(*GOOD, fact(4, "suspended", day(5), machine=None, reason="x", trusted=False)).may_run


def test_who_left_has_no_standing_after_the_last_day():
    left = fact(4, "event", day(5), event="left", last_day="2026-01-08")

    assert stand(*GOOD, left, on=date(2026, 1, 8)).may_run
    assert not stand(*GOOD, left, on=date(2026, 1, 9)).may_run


def test_who_came_back_renews_both_and_nothing_of_before_authorises():
    away = (
        *GOOD,
        fact(4, "event", day(5), event="left", last_day="2026-01-08"),
        fact(5, "event", day(20), event="returned", note=""),
    )

    assert stand(*away).word == "lapsed"
    assert stand(*away, sat(6, day(21), "again")).word == "practical-pending"
    assert not stand(*away, shown(6, day(21))).may_run
    assert stand(*away, sat(6, day(21), "again"), shown(7, day(22))).may_run


def test_a_role_without_a_programme_authorises_nobody():
    standing = judge("p", GOOD, replace(RULES, programmes={}), on=day(30))

    assert (standing.word, standing.may_run) == ("no-evidence", False)
    assert told(standing)[1][0] == "No programme covers this role at this kind of machine."


def kinds_of_fact(number, on):
    trusted = st.booleans()
    return st.one_of(
        st.builds(
            lambda passed, programme, kind, sure: sat(
                number, on, programme, passed=passed, kinds=(kind,), trusted=sure
            ),
            st.booleans(),
            st.sampled_from(["first", "again", "other"]),
            st.sampled_from(["press-brake-hydraulic", "folder"]),
            trusted,
        ),
        st.builds(
            lambda result, machine, sure: shown(number, on, result, machine, trusted=sure),
            st.sampled_from(["passed", "failed"]),
            st.sampled_from(["PB-1", "PB-2"]),
            trusted,
        ),
        st.tuples(st.sampled_from(["PB-1", "PB-2", None]), trusted).map(
            lambda of: fact(number, "suspended", on, machine=of[0], reason="x", trusted=of[1])
        ),
        st.integers(1, 15).map(lambda old: fact(number, "reinstated", on, suspension=old, reason="x")),
        st.tuples(st.sampled_from(["machine-changed", "left", "returned", "incident"]), trusted).map(
            lambda of: fact(
                number, "event", on, event=of[0], machine="PB-1", note="", last_day=on.isoformat(), trusted=of[1]
            )
        ),
        st.just(fact(number, "assigned", on, programme="first", reason="x")),
        st.just(fact(number, "attended", on, topic="x")),
    )


@st.composite
def histories(draw):
    days = draw(st.lists(st.integers(0, 500), min_size=0, max_size=12))
    begun = [sat(2, START), shown(3, START)] if draw(st.booleans()) else []
    return begun + [draw(kinds_of_fact(number + 4, day(count))) for number, count in enumerate(sorted(days))]


@given(histories(), st.integers(0, 900))
@settings(max_examples=400, deadline=None)
def test_a_brute_force_replay_day_by_day_agrees(history, count):
    assert judge("p", history, RULES, on=day(count)).may_run is replayed(history, day(count))


def replayed(history, on):
    """Walk through the days one by one with a state that each fact changes; say whether the last day is authorised."""
    inducted, good_until, practised, changed, here = False, None, False, False, True
    held: set[int] = set()
    for each in [f for f in history if f.on <= on]:
        body = each.body
        if each.kind == "event" and body["event"] == "left":
            here = False
        elif each.kind == "event" and body["event"] == "returned" and not each.trusted:
            good_until, practised = None, False  # nobody is let in again on a doubt, and what was before is over
        elif each.kind == "event" and body["event"] == "returned":
            here, good_until, practised = True, None, False
        elif each.kind == "event" and body["event"] == "machine-changed":
            changed = True
        elif each.kind == "suspended" and body["machine"] in (None, "PB-1"):
            held.add(each.number)
        elif each.kind == "reinstated":
            held.discard(body["suspension"])
        elif (
            each.kind == "sitting-marked" and each.trusted and body["passed"] and "folder" not in body["machine_kinds"]
        ):
            inducted = inducted or body["programme"] == "first"
            if inducted and body["programme"] in ("first", "again"):
                good_until = max(good_until or each.on, each.on + timedelta(days=365 if not leaps(each.on) else 366))
        elif each.kind == "practical-signed" and body["machine"] == "PB-1" and body["result"] == "failed":
            practised = changed = False
        elif each.kind == "practical-signed" and each.trusted and body["machine"] == "PB-1":
            practised, changed = True, False
    moves = [f for f in history if f.on <= on and f.kind == "event" and f.body["event"] in ("left", "returned")]
    last = [f for f in moves if f.trusted or f.body["event"] == "left"]
    still_here = here or (bool(last) and last[-1].body["event"] == "left" and last[-1].on == on)
    return bool(still_here and not held and good_until and on <= good_until and practised and not changed)


def leaps(on):
    """Say whether a year from a day spans a 29 February (days of 2026 and 2027 only)."""
    return date(2027, 3, 1) <= on <= date(2028, 2, 29)


@settings(deadline=None)
@given(histories(), st.integers(0, 500), st.integers(1, 400))
def test_what_is_still_to_come_never_changes_a_day(history, count, later):
    on = day(count)
    past = [each for each in history if each.on <= on]

    assert judge("p", history, RULES, on=on) == judge("p", past, RULES, on=on)


@settings(deadline=None)
@given(histories(), st.integers(0, 900))
def test_the_word_and_the_leave_to_run_go_together_and_reasons_name_entries(history, count):
    standing = judge("p", history, RULES, on=day(count))

    assert standing.may_run is (standing.word in {StandingWord.AUTHORISED, StandingWord.REFRESH_DUE})
    assert standing.may_run is not bool(standing.lacks) or standing.word == "no-evidence"
    assert all(set(reason.entries) <= {each.number for each in history} for reason in standing.reasons)
    assert (standing.holds_until is not None) is standing.may_run
    if standing.may_run:
        assert standing.holds_until >= day(count)
        assert len(standing.reasons) >= 2


def test_a_failure_counts_also_where_the_right_to_judge_was_withdrawn():
    assert (
        stand(
            *GOOD,
            fact(4, "practical-signed", day(5), machine="PB-1", role="operator", result="failed", entitlement=9),
            voided=frozenset({9}),
        ).word
        == "supervised"
    )


MONTHS = {**POLICY, "count_from": "month_end", "early_window": "P3M", "late_grace": "P1M"}


def renewing(number, on, programme="again", **rules):
    made = sat(number, on, programme)
    return replace(made, body={**made.body, "policy": {**MONTHS, **rules}})


def test_renewed_in_the_window_it_is_counted_from_the_old_anchor_and_says_so():
    history = (renewing(2, date(2026, 1, 10), "first"), shown(3, day(20)), renewing(4, date(2026, 11, 20)))
    standing = stand(*history, on=date(2027, 6, 1))

    assert (standing.holds_until, standing.due_on) == (date(2028, 1, 31), date(2028, 1, 31))
    assert told(standing)[0][1] == ("Renewed within the time for it, so it is still counted from 2026-01-10.", (4,))
    assert stand(*history[:2], renewing(4, date(2026, 10, 20)), on=day(500)).holds_until == date(2027, 10, 31)


def test_in_the_grace_it_has_lapsed_unless_the_policy_lets_work_go_on():
    day_after = date(2027, 2, 1)
    strict = stand(renewing(2, date(2026, 1, 10), "first"), shown(3, day(20)), on=day_after)
    lenient = stand(renewing(2, date(2026, 1, 10), "first", work_in_grace=True), shown(3, day(20)), on=day_after)

    assert (strict.word, strict.may_run) == ("lapsed", False)
    assert (lenient.word, lenient.holds_until, lenient.due_on) == ("refresh-due", date(2027, 2, 28), date(2027, 1, 31))
    assert "The policy lets work go on until 2027-02-28 while it is renewed." in dict(told(lenient)[0])


def test_the_period_of_young_people_is_explained():
    young = replace(
        sat(2, day(1)), body={**sat(2, day(1)).body, "policy": {**POLICY, "period": "P6M", "young": "under-18"}}
    )

    assert "Under 18 when the shorter time ends, so the shorter time counts." in dict(
        told(stand(young, shown(3, day(2))))[0]
    )
