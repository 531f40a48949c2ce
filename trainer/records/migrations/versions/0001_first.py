"""The first tables, with the triggers that guard what is only ever added to.

Revision: 0001
"""

import sqlalchemy as sa
from alembic import op

from trainer.records import triggers

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "checkpoint",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("entries", sa.Integer(), nullable=False),
        sa.Column("chains", sa.Integer(), nullable=False),
        sa.Column("entries_root", plain(64), nullable=False),
        sa.Column("heads_root", plain(64), nullable=False),
        sa.Column("frontier", sa.Text(), nullable=False),
        sa.Column("previous", plain(64), nullable=False),
        sa.Column("digest", plain(64), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_checkpoint"),
    )
    op.create_table(
        "head",
        sa.Column("chain", plain(32), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("digest", plain(64), nullable=False),
        sa.PrimaryKeyConstraint("chain", name="pk_head"),
    )
    op.create_table(
        "machine",
        sa.Column("id", plain(40), nullable=False),
        sa.Column("kind", plain(80), nullable=False),
        sa.Column("name", sa.String(length=300), nullable=False),
        sa.Column("facts", sa.Text(), nullable=False),
        sa.Column("in_use", sa.Boolean(), nullable=False),
        sa.Column("recorded_at", plain(27), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_machine"),
    )
    op.create_table(
        "person",
        sa.Column("key", plain(32), nullable=False),
        sa.Column("number", plain(80), nullable=False),
        sa.Column("badge", plain(80), nullable=True),
        sa.Column("login", plain(80), nullable=True),
        sa.Column("name", sa.String(length=300), nullable=False),
        sa.Column("sort_name", sa.String(length=300), nullable=False),
        sa.Column("shift", plain(80), nullable=False),
        sa.Column("crew", plain(80), nullable=False),
        sa.Column("language", plain(80), nullable=False),
        sa.Column("kind", plain(80), nullable=False),
        sa.Column("agency", plain(80), nullable=True),
        sa.Column("status", plain(80), nullable=False),
        sa.Column("started", plain(10), nullable=True),
        sa.Column("ended", plain(10), nullable=True),
        sa.Column("born", plain(10), nullable=True),
        sa.Column("erased", sa.Boolean(), nullable=False),
        sa.Column("recorded_at", plain(27), nullable=False),
        sa.CheckConstraint("kind IN ('employee', 'agency', 'contractor')", name="ck_person_kind"),
        sa.CheckConstraint("status IN ('active', 'left')", name="ck_person_status"),
        sa.PrimaryKeyConstraint("key", name="pk_person"),
    )
    op.create_index(
        "uq_person_badge",
        "person",
        ["badge"],
        unique=True,
        sqlite_where=sa.text("status = 'active'"),
        postgresql_where=sa.text("status = 'active'"),
    )
    op.create_index(
        "uq_person_login",
        "person",
        ["login"],
        unique=True,
        sqlite_where=sa.text("status = 'active'"),
        postgresql_where=sa.text("status = 'active'"),
    )
    op.create_index(
        "uq_person_number",
        "person",
        ["number"],
        unique=True,
        sqlite_where=sa.text("status = 'active'"),
        postgresql_where=sa.text("status = 'active'"),
    )
    op.create_table(
        "sign_in",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("kind", plain(10), nullable=False),
        sa.Column("place", plain(80), nullable=False),
        sa.Column("person", plain(32), nullable=True),
        sa.Column("outcome", plain(10), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sign_in"),
    )
    op.create_index("ix_sign_in_at", "sign_in", ["at"], unique=False)
    op.create_index("ix_sign_in_person", "sign_in", ["person"], unique=False)
    op.create_table(
        "throttle",
        sa.Column("scope", plain(10), nullable=False),
        sa.Column("subject", plain(64), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("failed_at", plain(27), nullable=False),
        sa.Column("until", plain(27), nullable=True),
        sa.PrimaryKeyConstraint("scope", "subject", name="pk_throttle"),
    )
    op.create_index("ix_throttle_failed_at", "throttle", ["failed_at"], unique=False)
    op.create_table(
        "entry",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("kind", plain(20), nullable=False),
        sa.Column("happened_on", plain(10), nullable=False),
        sa.Column("recorded_at", plain(27), nullable=False),
        sa.Column("zone", plain(80), nullable=False),
        sa.Column("by", plain(80), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("previous", plain(64), nullable=False),
        sa.Column("digest", plain(64), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_entry_person_person"),
        sa.PrimaryKeyConstraint("number", name="pk_entry"),
        sa.UniqueConstraint("person", "previous", name="uq_entry_person_previous"),
        sa.UniqueConstraint("person", "seq", name="uq_entry_person_seq"),
    )
    op.create_index("ix_entry_happened_on", "entry", ["happened_on"], unique=False)
    op.create_index("ix_entry_kind", "entry", ["kind"], unique=False)
    op.create_table(
        "person_name",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("number", plain(80), nullable=False),
        sa.Column("name", sa.String(length=300), nullable=False),
        sa.Column("sort_name", sa.String(length=300), nullable=False),
        sa.Column("folded", sa.String(length=300), nullable=False),
        sa.Column("since", plain(10), nullable=False),
        sa.Column("recorded_at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_person_name_person_person"),
        sa.PrimaryKeyConstraint("id", name="pk_person_name"),
    )
    op.create_index("ix_person_name_folded", "person_name", ["folded"], unique=False)
    op.create_index("ix_person_name_person", "person_name", ["person"], unique=False)
    op.create_table(
        "person_role",
        sa.Column("person", plain(32), nullable=False),
        sa.Column("role", plain(20), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_person_role_person_person"),
        sa.PrimaryKeyConstraint("person", "role", name="pk_person_role"),
    )
    op.create_table(
        "secret",
        sa.Column("person", plain(32), nullable=False),
        sa.Column("kind", plain(10), nullable=False),
        sa.Column("hash", sa.Text(), nullable=False),
        sa.Column("pepper", plain(80), nullable=False),
        sa.Column("changed_at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_secret_person_person"),
        sa.PrimaryKeyConstraint("person", "kind", name="pk_secret"),
    )
    op.create_table(
        "sitting",
        sa.Column("id", plain(32), nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("programme", plain(80), nullable=False),
        sa.Column("language", plain(80), nullable=False),
        sa.Column("languages", sa.Text(), nullable=False),
        sa.Column("kiosk", plain(80), nullable=False),
        sa.Column("paper", sa.Text(), nullable=False),
        sa.Column("terms", sa.Text(), nullable=False),
        sa.Column("sheet", sa.Integer(), nullable=False),
        sa.Column("state", plain(10), nullable=False),
        sa.Column("started_at", plain(27), nullable=False),
        sa.Column("ended_at", plain(27), nullable=True),
        sa.Column("entry", sa.Integer(), nullable=True),
        sa.CheckConstraint("state IN ('open', 'handed-in', 'given-up')", name="ck_sitting_state"),
        sa.ForeignKeyConstraint(["entry"], ["entry.number"], name="fk_sitting_entry_entry"),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_sitting_person_person"),
        sa.PrimaryKeyConstraint("id", name="pk_sitting"),
    )
    op.create_index(
        "ix_sitting_person_programme_started_at", "sitting", ["person", "programme", "started_at"], unique=False
    )
    op.create_index(
        "uq_sitting_open",
        "sitting",
        ["person", "programme"],
        unique=True,
        sqlite_where=sa.text("state = 'open'"),
        postgresql_where=sa.text("state = 'open'"),
    )
    op.create_table(
        "answer",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("sitting", plain(32), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("sheet", sa.Integer(), nullable=False),
        sa.Column("key", plain(80), nullable=False),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("language", plain(80), nullable=False),
        sa.Column("took_ms", sa.Integer(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["sitting"], ["sitting.id"], name="fk_answer_sitting_sitting"),
        sa.PrimaryKeyConstraint("id", name="pk_answer"),
        sa.UniqueConstraint("sitting", "key", name="uq_answer_sitting_key"),
        sa.UniqueConstraint("sitting", "sequence", name="uq_answer_sitting_sequence"),
    )
    op.create_table(
        "sitting_lock",
        sa.Column("sitting", plain(32), nullable=False),
        sa.Column("sheet", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["sitting"], ["sitting.id"], name="fk_sitting_lock_sitting_sitting"),
        sa.PrimaryKeyConstraint("sitting", "sheet", name="pk_sitting_lock"),
    )
    for statement in triggers.statements(op.get_bind().dialect.name):
        op.execute(statement)
