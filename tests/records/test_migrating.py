"""Models, migrations and triggers say the same, on both databases; nobody opens what does not fit."""

from dataclasses import replace

import pytest
from sqlalchemy import text

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import migrating, open_record, people, pepper, triggers
from trainer.records.database import differences, engine_of, upgrade


def test_models_and_migrations_agree(record):
    assert differences(record.engine) == []


def test_every_guard_is_there(record):
    with record.engine.connect() as connection:
        present = migrating.present_triggers(connection)

    assert triggers.names(record.engine.dialect.name) <= present


def test_a_missing_guard_and_a_missing_table_are_differences(record):
    on = " ON head" if record.engine.dialect.name == "postgresql" else ""
    with record.engine.begin() as connection:
        connection.execute(text(f"DROP TRIGGER head_forward{on}"))
        connection.execute(text("DROP TABLE sign_in"))
    found = differences(record.engine)

    assert any("head_forward" in line for line in found)
    assert any("sign_in" in line for line in found)


def test_opening_twice_changes_nothing(record, stored, clock):
    assert upgrade(record.engine) is False
    open_record(stored, clock).close()


def test_a_record_of_a_newer_program_is_refused(record, stored, clock):
    with record.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))

    with pytest.raises(RecordError, match="newer program"):
        open_record(stored, clock)
    assert differences(record.engine) == [f"revision 9999, needs {migrating.head()}"]


def test_without_leave_to_make_one_a_missing_record_is_named(settings, clock):
    with pytest.raises(Missing, match="no record at"):
        open_record(settings, clock, create=False)
    assert not settings.data.exists()


@pytest.mark.parametrize("address", ["mysql://h/d", "nonsense", "postgresql+nodriver://h/d", "sqlite+aiosqlite:///x"])
def test_an_address_that_is_none_is_refused_in_one_sentence(settings, clock, address):
    with pytest.raises(UsageError):
        open_record(replace(settings, database=address), clock)


def test_a_server_that_does_not_answer_is_told(settings, clock):
    with pytest.raises(RecordError, match="cannot be opened"):
        open_record(replace(settings, database="postgresql://127.0.0.1:1/nothing?connect_timeout=1"), clock)


def test_a_file_that_is_no_database_is_told(settings, clock):
    settings.data.mkdir()
    (settings.data / "record.sqlite").write_text("not a database, at all, whatever its name may be")

    with pytest.raises(RecordError, match="not a database"):
        open_record(settings, clock)


def test_the_key_of_the_pins_is_its_owners_alone_and_kept(settings, clock):
    open_record(settings, clock).close()
    path = settings.data / pepper.FILE
    first = path.read_text()
    open_record(settings, clock).close()

    assert path.read_text() == first
    assert path.stat().st_mode & 0o777 == 0o600
    assert len(bytes.fromhex(first)) == 32


def test_a_record_whose_key_was_lost_says_so_instead_of_refusing_every_pin(settings, clock):
    record = open_record(settings, clock)
    with record.writing() as w:
        people.add(w, number="1", name="Suharto", pin="4072")
    record.close()
    (settings.data / pepper.FILE).unlink()

    with pytest.raises(RecordError, match=r"pepper\.key is not the key"):
        open_record(settings, clock)


def test_an_engine_can_be_had_without_touching_the_tables(settings):
    engine = engine_of(settings)
    assert differences(engine)[0].startswith("revision none")
    engine.dispose()
