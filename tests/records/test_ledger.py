"""Entries are only ever added, each on top of the one before it, on SQLite and PostgreSQL alike."""

import threading
from datetime import date, timedelta

import pytest
from records.site import TODAY, entitle, tamper
from sqlalchemy.exc import DBAPIError

from trainer.errors import Missing, UsageError
from trainer.records import acts, ledger, people
from trainer.records.chain import START, EntryKind
from trainer.records.ledger import Entry, append, entries, entry, size


def attend(w, person: str, topic: str = "Loose pedals", on: date = TODAY) -> Entry:
    return append(w, person, EntryKind.ATTENDED, {"topic": topic}, happened_on=on, by="office")


@pytest.fixture
def two(record):
    with record.writing() as w:
        return tuple(people.add(w, number=number, name="Maria Garcia").key for number in ("2201", "2210"))


def test_each_person_has_a_chain_and_the_ledger_one_row_of_numbers(record, two):
    with record.writing() as w:
        made = [attend(w, two[0]), attend(w, two[1]), attend(w, two[0]), attend(w, two[0])]

    assert [(row.number, row.seq) for row in made] == [(1, 1), (2, 1), (3, 2), (4, 3)]
    assert [row.previous for row in made] == [START, START, made[0].digest, made[2].digest]
    assert made[3].reference == "L-4"


def test_what_is_read_is_what_was_written(record, two):
    with record.writing() as w:
        made = attend(w, two[0], "Zoë’s talk: “loose” pedals\n<b>=1+1</b> 😂")
    with record.reading() as r:
        assert [entry(r, 1), *entries(r)] == [made, made]
        assert size(r) == 1
    assert made.zone == "America/Chicago"


def test_an_entry_carries_the_day_it_happened_and_the_instant_it_was_recorded(record, two, clock):
    with record.writing() as w:
        made = attend(w, two[0], on=date(2026, 2, 28))

    assert (made.happened_on, made.recorded_at) == (date(2026, 2, 28), clock.now())


def test_entries_are_chosen_by_person_kind_and_days(record, site, clock):
    with record.writing() as w:
        attend(w, site.learner, on=TODAY - timedelta(days=3))
    clock.advance(timedelta(days=2))
    with record.writing() as w:
        attend(w, site.trainer, on=TODAY)
    with record.reading() as r:

        def numbers(**chosen):
            return [row.number for row in entries(r, **chosen)]

        assert numbers() == [1, 2, 3]
        assert numbers(person=site.trainer) == [1, 3]
        assert numbers(kind=EntryKind.ATTENDED) == [2, 3]
        assert numbers(until=TODAY - timedelta(days=1)) == [2]
        assert numbers(since=TODAY) == [1, 3]
        assert numbers(known_on=TODAY) == [1, 2]
        assert numbers(known_on=TODAY + timedelta(days=2)) == [1, 2, 3]


def test_what_was_recorded_until_midnight_at_the_site_was_known_on_that_day(record, two, clock):
    for step in (timedelta(hours=15, minutes=47), timedelta(minutes=2)):  # 23:59 and 00:01 in Chicago
        clock.advance(step)
        with record.writing() as w:
            attend(w, two[0])
    with record.reading() as r:
        assert [row.number for row in entries(r, known_on=TODAY)] == [1]
        assert [row.number for row in entries(r, known_on=TODAY + timedelta(days=1))] == [1, 2]


def test_nobody_unknown_gets_an_entry_and_no_unknown_entry_is_found(record):
    with pytest.raises(Missing, match="no such person"), record.writing() as w:
        attend(w, "nobody")
    with pytest.raises(Missing, match="L-9"), record.reading() as r:
        entry(r, 9)


def test_what_json_cannot_hold_is_refused(record, two):
    with pytest.raises(UsageError, match="cannot be kept"), record.writing() as w:
        append(w, two[0], EntryKind.ATTENDED, {"topic": 2**60}, happened_on=TODAY, by="x")


@pytest.mark.parametrize("kind", list(EntryKind))
def test_a_body_that_lacks_what_its_kind_must_say_is_refused(record, two, kind):
    with pytest.raises(UsageError, match=f"kind {kind.value} lacks "), record.writing() as w:
        append(w, two[0], kind, {"revokes": 1} if kind is EntryKind.ENTITLED else {}, happened_on=TODAY, by="x")


ODD = {
    "nothing": lambda r: people.find(r, "no\u0007body"),
    "half a character": lambda r: people.get(r, "\ud800"),
    "a number too large": lambda r: entry(r, 10**30),
    "NUL": lambda r: people.with_number(r, "a\0b"),
}


@pytest.mark.parametrize("name", ODD)
def test_a_value_that_no_database_can_hold_is_told_or_finds_nothing(record, name):
    told: object = None
    try:
        with record.reading() as r:
            told = ODD[name](r)
    except (UsageError, Missing) as error:
        told = str(error)

    assert told in (
        None,
        [],
        "A value is too long, or holds a sign that cannot be stored.",
        f"There is no entry L-{10**30}.",
    )


def test_an_exception_drops_the_whole_transaction(record, two):
    def work() -> None:
        with record.writing() as w:
            attend(w, two[0])
            attend(w, "nobody")

    with pytest.raises(Missing):
        work()
    with record.reading() as r:
        assert (size(r), ledger.verify(r).good) == (0, True)


STATEMENTS = [
    "UPDATE entry SET body = '{}' WHERE number = 1",
    "UPDATE entry SET digest = digest",
    "DELETE FROM entry WHERE number = 1",
    "UPDATE checkpoint SET entries = 0",
    "DELETE FROM checkpoint",
    "DELETE FROM head",
    "UPDATE head SET seq = seq",
    "UPDATE head SET seq = seq + 2",
    "INSERT INTO entry SELECT 7, person, 2, kind, happened_on, recorded_at, zone, by, body, digest, digest FROM entry",
    "UPDATE answer SET took_ms = 1",
    "DELETE FROM answer",
]
COPY = {
    "entry": "number, person, seq, kind, happened_on, recorded_at, zone, by, '{}', previous, digest",
    "answer": "id, sitting, sequence, sheet, key, '{}', mark, language, took_ms, at",
    "checkpoint": "number, at, 0, chains, entries_root, heads_root, frontier, previous, digest",
    "head": "chain, 9, digest",
}
SQLITE = [
    "UPDATE OR REPLACE entry SET number = 9",
    *(f"INSERT OR REPLACE INTO {table} SELECT {columns} FROM {table}" for table, columns in COPY.items()),
]
POSTGRESQL = [
    "TRUNCATE entry CASCADE",
    "TRUNCATE checkpoint",
    "TRUNCATE head",
    "TRUNCATE answer",
    "INSERT INTO entry SELECT * FROM entry WHERE number = 1 ON CONFLICT (number) DO UPDATE SET body = '{}'",
    "INSERT INTO head SELECT * FROM head ON CONFLICT (chain) DO UPDATE SET seq = 9",
]


def test_the_database_itself_refuses_to_change_or_remove(record, site):
    site.sit(site.learner)
    own = SQLITE if record.engine.dialect.name == "sqlite" else POSTGRESQL
    before = rows(record)
    for statement in STATEMENTS + own:
        with pytest.raises(DBAPIError, match=r"append-only|next number only|by one only"), record.engine.begin() as c:
            c.exec_driver_sql(statement)
        assert rows(record) == before, statement


def rows(record) -> list:
    with record.engine.connect() as c:
        return [
            sorted(map(tuple, c.exec_driver_sql(f"SELECT * FROM {table}")))
            for table in ("entry", "checkpoint", "head", "answer")
        ]


def test_many_writers_at_once_never_fork_a_chain(record, two):
    failures: list[Exception] = []

    def work(person: str) -> None:
        try:
            for _ in range(8):
                with record.writing() as w:
                    attend(w, person)
        except Exception as error:  # noqa: BLE001
            failures.append(error)

    threads = [threading.Thread(target=work, args=(person,)) for person in (*two, *two)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert failures == []
    with record.reading() as r:
        for person in two:
            chain = list(entries(r, person=person))
            assert [row.seq for row in chain] == list(range(1, 17))
            assert [row.previous for row in chain] == [START, *(row.digest for row in chain[:-1])]
        assert ledger.verify(r).good


def test_a_reader_sees_one_state_while_another_writes(record, two):
    with record.writing() as w:
        attend(w, two[0])
    with record.reading() as r:
        assert size(r) == 1
        with record.writing() as w:
            attend(w, two[0])
        assert size(r) == 1
    with record.reading() as r:
        assert size(r) == 2


def test_a_reading_cannot_write(record, two):
    with pytest.raises(DBAPIError, match=r"readonly|read-only"), record.reading() as r:
        attend(r, two[0])


def test_a_clock_set_back_marks_what_it_stamps(record, two, clock):
    with record.writing() as w:
        attend(w, two[0])
    clock.advance(timedelta(hours=-3))
    with record.writing() as w:
        doubtful = attend(w, two[0])
    clock.advance(timedelta(hours=3, minutes=-1))  # within what a clock is put right by
    with record.writing() as w:
        fine = attend(w, two[0])

    assert (doubtful.unverified, fine.unverified) == (True, False)
    with record.reading() as r:
        assert ledger.verify(r).good


def test_a_day_confirmed_later_is_an_entry_of_its_own(record, site, clock):
    clock.advance(timedelta(days=-400))
    made = site.sit(site.learner)
    assert made.unverified
    clock.advance(timedelta(days=400))
    with record.writing() as w:
        told = acts.confirm_day(
            w, entry=made.number, day=TODAY, reason="The kiosk's log says so.", by=site.officer, happened_on=TODAY
        )

    assert told.body["corrects"] == made.number


def test_tampering_helpers_really_tamper(record, site):
    with record.writing() as w:
        entitle(w, site)
    tamper(record, "UPDATE entry SET body = '{}' WHERE number = 1")
    with record.reading() as r:
        assert entry(r, 1).body == {}
