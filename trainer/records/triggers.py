"""Triggers that keep the database itself from changing what is only ever added to.

SQLite's ``INSERT OR REPLACE`` removes a row without firing a DELETE trigger, so an entry also has to carry the next
number to be let in at all.
"""

from collections.abc import Iterable

APPEND_ONLY = ("entry", "checkpoint", "answer")
NUMBERED = ("entry", "checkpoint")
GUARDED = (*APPEND_ONLY, "head")
SINCE_0003 = ("machine_fact", "machine_reading", "edition")  # what a later revision guards brings its own triggers
SINCE_0004 = ("retention_rule", "retention_run")
SINCE_0010 = ("roster_import",)

_PG_REFUSE = """
CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$
"""
_PG_NEXT = """
CREATE OR REPLACE FUNCTION next_in_order() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE last bigint;
BEGIN
  EXECUTE format('SELECT coalesce(max(number), 0) FROM %I', TG_TABLE_NAME) INTO last;
  IF NEW.number <> last + 1 THEN RAISE EXCEPTION '% takes the next number only', TG_TABLE_NAME; END IF;
  RETURN NEW;
END $$
"""
_PG_FORWARD = """
CREATE OR REPLACE FUNCTION head_forward() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.chain <> OLD.chain OR NEW.seq <> OLD.seq + 1 THEN RAISE EXCEPTION 'head moves on by one only'; END IF;
  RETURN NEW;
END $$
"""


def names(dialect: str) -> frozenset[str]:
    """Return the names of the triggers that must be there."""
    acts = ("update", "delete", "truncate") if dialect == "postgresql" else ("update", "delete")
    refusing = {f"{table}_no_{act}" for table in (*APPEND_ONLY, *SINCE_0003, *SINCE_0004, *SINCE_0010) for act in acts}
    beside = {"head_no_delete", "head_forward"} | ({"head_no_truncate"} if dialect == "postgresql" else set())
    inserted = {"answer_once", "head_once"} if dialect == "sqlite" else set()
    return frozenset(refusing | beside | inserted | {f"{table}_in_order" for table in NUMBERED})


def refusing(dialect: str, tables: Iterable[str]) -> list[str]:
    """Return the SQL that lets rows of these tables be added only; the functions of the first revision must be there."""
    made = []
    for table in tables:
        if dialect == "sqlite":
            made += [_refusing(table, act) for act in ("update", "delete")]
        else:
            made += _pg_refusing(table, ("update", "delete"))
    return made


def statements(dialect: str) -> list[str]:
    """Return the SQL that makes those of the first revision."""
    return _postgresql() if dialect == "postgresql" else _sqlite()


def _postgresql() -> list[str]:
    made = [_PG_REFUSE, _PG_NEXT, _PG_FORWARD]
    for table in GUARDED:
        made += _pg_refusing(table, ("update", "delete") if table in APPEND_ONLY else ("delete",))
    made += [
        f"CREATE TRIGGER {table}_in_order BEFORE INSERT ON {table} FOR EACH ROW EXECUTE FUNCTION next_in_order()"
        for table in NUMBERED
    ]
    made.append("CREATE TRIGGER head_forward BEFORE UPDATE ON head FOR EACH ROW EXECUTE FUNCTION head_forward()")
    return made


def _pg_refusing(table: str, acts: Iterable[str]) -> list[str]:
    each = "FOR EACH ROW EXECUTE FUNCTION refuse_change()"
    whole = "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
    rows = [f"CREATE TRIGGER {table}_no_{act} BEFORE {act.upper()} ON {table} {each}" for act in acts]
    return [*rows, f"CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} {whole}"]


def _sqlite() -> list[str]:
    made = [_refusing(table, act) for table in APPEND_ONLY for act in ("update", "delete")]
    made.append(_refusing("head", "delete"))
    made += [
        f"CREATE TRIGGER {table}_in_order BEFORE INSERT ON {table} "  # noqa: S608  (names of our own)
        f"WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM {table}) "
        f"BEGIN SELECT RAISE(ABORT, '{table} takes the next number only'); END"
        for table in NUMBERED
    ]
    made.append(
        "CREATE TRIGGER answer_once BEFORE INSERT ON answer WHEN EXISTS (SELECT 1 FROM answer AS a "
        "WHERE a.id = NEW.id OR a.sitting = NEW.sitting AND (a.key = NEW.key OR a.sequence = NEW.sequence)) "
        "BEGIN SELECT RAISE(ABORT, 'answer is append-only'); END"
    )
    made.append(
        "CREATE TRIGGER head_once BEFORE INSERT ON head WHEN EXISTS (SELECT 1 FROM head AS h WHERE h.chain = NEW.chain) "
        "BEGIN SELECT RAISE(ABORT, 'head moves on by one only'); END"
    )
    made.append(
        "CREATE TRIGGER head_forward BEFORE UPDATE ON head WHEN NEW.chain <> OLD.chain OR NEW.seq <> OLD.seq + 1 "
        "BEGIN SELECT RAISE(ABORT, 'head moves on by one only'); END"
    )
    return made


def _refusing(table: str, act: str) -> str:
    return (
        f"CREATE TRIGGER {table}_no_{act} BEFORE {act.upper()} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
    )
