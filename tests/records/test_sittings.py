"""An answer that was acknowledged is there, once, whatever happens; a sitting is handed in whole or not at all."""

import threading
from datetime import date, timedelta

import pytest
from records.site import INDUCTION, REFRESHER, TODAY, mark, outcome, paper

from trainer.bank.model import DueRules
from trainer.errors import Missing, RecordError
from trainer.records import ledger, open_record, people, sittings
from trainer.records.chain import EntryKind


@pytest.fixture
def sitting(record, site):
    with record.writing() as w:
        return sittings.start(
            w, site.bank, person=site.learner, programme=INDUCTION, paper=paper(), language="en", kiosk="K1"
        ).id


def save(record, sitting, *, sheet=2, chosen="a", key="k1", right=True):
    with record.writing() as w:
        return sittings.save_answer(w, sitting, sheet, {"chosen": chosen}, mark(right), key=key, took_ms=4_000)


def read(record, sitting):
    with record.reading() as r:
        return sittings.get(r, sitting)


def test_a_sitting_keeps_the_paper_and_what_the_programme_asks_for_now(record, site, sitting, clock):
    row = read(record, sitting)

    assert (row.paper, row.at, row.state, row.started_at, row.answers) == (paper(), 1, "open", clock.now(), {})
    assert row.terms["policy"]["period"] == site.bank.programmes[INDUCTION].interval
    assert row.terms["machine_kinds"] == [kind.value for kind in site.bank.programmes[INDUCTION].machine_kinds]


def test_an_answer_is_on_disk_before_it_is_acknowledged(record, stored, sitting, clock):
    save(record, sitting)
    again = open_record(stored, clock)  # as after a crash: another process opens the same database
    try:
        assert read(again, sitting).answers[2].answer == {"chosen": "a"}
    finally:
        again.close()


def test_sqlite_syncs_every_commit(record):
    if record.engine.dialect.name != "sqlite":
        pytest.skip("PostgreSQL syncs every commit unless told otherwise")
    with record.writing() as w:
        pragmas = {
            name: w.session.connection().exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }

    assert pragmas == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}


def test_the_same_key_is_stored_once_and_gives_what_was_stored(record, sitting):
    first = save(record, sitting, chosen="a")
    again = save(record, sitting, chosen="b")

    assert again == first
    assert read(record, sitting).answers[2].answer == {"chosen": "a"}


def test_the_same_key_at_the_same_moment_is_stored_once(record, sitting):
    rows, failures = [], []

    def press() -> None:
        try:
            rows.append(save(record, sitting))
        except Exception as error:  # noqa: BLE001
            failures.append(error)

    threads = [threading.Thread(target=press) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert failures == []
    assert len(rows) == 6
    assert len({(row.sheet, row.at) for row in rows}) == 1


def test_another_answer_counts_until_the_sheet_is_locked(record, sitting):
    save(record, sitting, chosen="a", key="k1")
    save(record, sitting, chosen="b", key="k2")
    assert read(record, sitting).answers[2].answer == {"chosen": "b"}
    for _ in range(2):
        with record.writing() as w:
            sittings.lock(w, sitting, 2)
    assert read(record, sitting).answers[2].locked
    assert save(record, sitting, chosen="b", key="k2").locked
    with pytest.raises(RecordError, match="cannot be changed"):
        save(record, sitting, chosen="c", key="k3")
    save(record, sitting, sheet=3, key="k4")


def test_it_goes_on_where_it_was_left(record, site, sitting):
    with record.writing() as w:
        sittings.move_to(w, sitting, 3)
        sittings.set_language(w, sitting, "es")
        sittings.set_language(w, sitting, "en")
    with record.reading() as r:
        rows = sittings.open_for(r, site.learner)
        assert [(row.id, row.at, row.language, row.languages) for row in rows] == [(sitting, 3, "en", ("en", "es"))]
        assert [row.id for row in sittings.open_now(r)] == [sitting]
        assert sittings.open_for(r, site.trainer) == []


def test_there_is_one_open_sitting_of_a_programme(record, site, sitting):
    given = {"person": site.learner, "paper": paper(), "language": "en", "kiosk": "K2"}
    with pytest.raises(RecordError, match="open sitting"), record.writing() as w:
        sittings.start(w, site.bank, programme=INDUCTION, **given)
    with record.writing() as w:
        sittings.start(w, site.bank, programme=REFRESHER, **given)


@pytest.mark.parametrize("sheet", [0, 4, -1])
def test_a_sheet_that_is_not_in_the_paper_is_refused(record, sitting, sheet):
    with pytest.raises(Missing, match="no such sheet"):
        save(record, sitting, sheet=sheet)
    with pytest.raises(Missing, match="no such sheet"), record.writing() as w:
        sittings.move_to(w, sitting, sheet)


def test_unknown_names_are_refused(record, site):
    given = {"paper": paper(), "language": "en", "kiosk": "K1"}
    with pytest.raises(Missing), record.writing() as w:
        sittings.start(w, site.bank, person="nobody", programme=INDUCTION, **given)
    with pytest.raises(Missing), record.writing() as w:
        sittings.start(w, site.bank, person=site.learner, programme="no-such", **given)
    with pytest.raises(Missing):
        save(record, "no-such")


def test_handing_in_appends_all_that_is_needed_to_print_it_again(record, site, sitting, clock):
    clock.advance(timedelta(minutes=4))
    save(record, sitting)
    clock.advance(timedelta(minutes=3))
    with record.writing() as w:
        entry = sittings.hand_in(w, sitting, outcome(passed=True))
    body = entry.body
    item = {
        "item": "PB-S14/q1",
        "version": 3,
        "kind": "question",
        "competency": "die-ends",
        "critical": True,
        "order": ["c", "a", "b", "d"],
        "drawn": {"stopping-time": "120 ms"},
        "chosen": "a",
        "value": None,
        "verdict": "right",
        "right": True,
        "misconception": None,
        "slips": [],
        "gap": None,
        "needed": None,
        "language": "en",
        "took_ms": 4000,
    }

    assert (entry.kind, entry.person, entry.happened_on) == (EntryKind.SITTING_MARKED, site.learner, TODAY)
    assert body["items"][0] == item
    assert (body["items"][1]["item"], body["items"][1]["verdict"], body["items"][1]["right"]) == (
        "PB-D01",
        "none",
        False,
    )
    assert (body["score"], body["needed"], body["passed"]) == ({"right": 2, "out_of": 2}, 2, True)
    assert (body["edition"], body["fingerprint"], body["seed"]) == (1, "f" * 64, 7)
    assert (body["language"], body["languages"], body["kiosk"]) == ("en", ["en"], "K1")
    assert (body["started_at"], body["ended_at"]) == ("2026-03-09T13:12:00.000000Z", "2026-03-09T13:19:00.000000Z")
    assert (body["programme"], body["role"], body["programme_kind"]) == (INDUCTION, "operator", "induction")
    assert body["due_on"] == "2027-03-09"
    row = read(record, sitting)
    assert (row.state, row.entry, row.ended_at) == ("handed-in", entry.number, clock.now())


def test_a_failed_sitting_has_no_due_day(site):
    assert "due_on" not in site.sit(site.learner, right=False).body


def test_handing_in_twice_gives_the_same_entry(record, sitting):
    with record.writing() as w:
        first = sittings.hand_in(w, sitting, outcome(passed=True))
    with record.writing() as w:
        assert sittings.hand_in(w, sitting, outcome(passed=False)) == first
    with record.reading() as r:
        assert sum(1 for _ in ledger.entries(r, kind=EntryKind.SITTING_MARKED)) == 1


def test_after_handing_in_nothing_more_is_answered(record, sitting):
    save(record, sitting)
    with record.writing() as w:
        sittings.hand_in(w, sitting, outcome(passed=True))
    with pytest.raises(RecordError, match="is closed"):
        save(record, sitting, key="k2")
    with pytest.raises(RecordError, match="is closed"), record.writing() as w:
        sittings.move_to(w, sitting, 2)
    assert save(record, sitting).answer == {"chosen": "a"}


def test_a_hand_in_that_fails_leaves_the_sitting_open_and_the_ledger_as_it_was(record, sitting):
    with pytest.raises(KeyError), record.writing() as w:
        sittings.hand_in(w, sitting, {"passed": True})
    with record.reading() as r:
        assert sittings.get(r, sitting).state == "open"
        assert list(ledger.entries(r, kind=EntryKind.SITTING_MARKED)) == []


def test_a_night_shift_that_ends_after_midnight_belongs_to_the_day_it_ended(record, site, clock):
    clock.advance(timedelta(hours=15, minutes=38))  # 23:50 on 9 March in Chicago
    with record.writing() as w:
        begun = sittings.start(
            w, site.bank, person=site.learner, programme=INDUCTION, paper=paper(), language="en", kiosk="K1"
        )
    clock.advance(timedelta(minutes=30))
    with record.writing() as w:
        entry = sittings.hand_in(w, begun.id, outcome(passed=True))

    assert entry.happened_on == date(2026, 3, 10)
    assert entry.body["due_on"] == "2027-03-10"


def test_a_clock_that_goes_back_during_a_sitting_leaves_its_day_in_doubt(record, sitting, clock):
    clock.advance(timedelta(minutes=-3))
    with record.writing() as w:
        entry = sittings.hand_in(w, sitting, outcome(passed=True))

    assert entry.unverified
    row = read(record, sitting)
    assert row.ended_at == row.started_at


def test_what_was_asked_lately_comes_newest_first(record, site, clock):
    for seed, programme in ((1, INDUCTION), (2, INDUCTION), (3, REFRESHER), (4, INDUCTION)):
        clock.advance(timedelta(minutes=1))
        given = paper(programme, seed)
        given["sheets"][2]["drawn"] = {"stopping-time": f"{seed}00 ms"}
        with record.writing() as w:
            row = sittings.start(
                w, site.bank, person=site.learner, programme=programme, paper=given, language="en", kiosk="K1"
            )
            sittings.hand_in(w, row.id, outcome(passed=True))
    with record.reading() as r:
        asked = sittings.recent_papers(r, site.learner, INDUCTION, n=2)

    assert asked == [
        {"PB-S14/q1 stopping-time=120 ms", "PB-D01 stopping-time=400 ms"},
        {"PB-S14/q1 stopping-time=120 ms", "PB-D01 stopping-time=200 ms"},
    ]


def test_a_sitting_that_cannot_be_finished_is_given_up_and_stays_on_record(record, site, sitting):
    save(record, sitting, key="k1", right=False)
    save(record, sitting, key="k2", right=True)
    with record.writing() as w:
        entry = sittings.give_up(w, sitting, reason="A question was withdrawn.", by=site.trainer)

    assert (entry.kind, entry.body["event"], entry.body["answered"], entry.body["right"]) == (
        EntryKind.EVENT,
        "sitting-given-up",
        1,
        1,
    )
    assert read(record, sitting).state == "given-up"
    for late in (sittings.hand_in, sittings.give_up):
        given = {"reason": "x", "by": "x"} if late is sittings.give_up else {"result": outcome(passed=True)}
        with pytest.raises(RecordError, match="is closed"), record.writing() as w:
            late(w, sitting, **given)
    with record.writing() as w:
        sittings.start(w, site.bank, person=site.learner, programme=INDUCTION, paper=paper(), language="en", kiosk="K1")


def test_the_entry_keeps_the_rule_as_it_applied_to_the_persons_age(record, site, bank):
    name = INDUCTION
    strict = bank.programmes[name].model_copy(update={"due": DueRules(young_period="P6M")})
    site.bank = bank.model_copy(update={"programmes": {**bank.programmes, name: strict}})
    with record.writing() as w:
        people.change(w, site.learner, born=TODAY - timedelta(days=17 * 365))
    entry = site.sit(site.learner)

    assert (entry.body["policy"]["period"], entry.body["policy"]["young"]) == ("P6M", "under-18")
    assert entry.body["due_on"] == "2026-09-09"
    assert "born" not in str(entry.body)


def test_the_due_day_of_an_early_renewal_is_counted_from_the_old_anchor(record, site, bank, clock):
    names = (INDUCTION, REFRESHER)
    windows = {n: bank.programmes[n].model_copy(update={"due": DueRules(early_window="P2M")}) for n in names}
    site.bank = bank.model_copy(update={"programmes": {**bank.programmes, **windows}})
    site.sit(site.learner)
    clock.advance(timedelta(days=340))
    entry = site.sit(site.learner, REFRESHER)

    assert entry.body["due_on"] == "2028-03-09"
