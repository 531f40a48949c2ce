"""Requests of people about their data, rules of retention, and what was removed by them.

Revision: 0004
"""

import sqlalchemy as sa
from alembic import op

from trainer.records import triggers

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

GUARDED = ("retention_rule", "retention_run")


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "privacy_request",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("kind", plain(80), nullable=False),
        sa.Column("received_on", plain(10), nullable=False),
        sa.Column("due_on", plain(10), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("by", plain(32), nullable=True),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("answered_on", plain(10), nullable=True),
        sa.Column("answered_by", plain(32), nullable=True),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_privacy_request_person_person"),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name="fk_privacy_request_by_person"),
        sa.ForeignKeyConstraint(["answered_by"], ["person.key"], name="fk_privacy_request_answered_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_privacy_request"),
    )
    op.create_index("ix_privacy_request_person", "privacy_request", ["person"])
    op.create_table(
        "retention_rule",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("kind", plain(80), nullable=False),
        sa.Column("years", sa.Integer(), nullable=True),
        sa.Column("counts_from", plain(80), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("by", plain(32), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name="fk_retention_rule_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_retention_rule"),
    )
    op.create_table(
        "retention_run",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("by", plain(32), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("removed", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name="fk_retention_run_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_retention_run"),
    )
    for statement in triggers.refusing(op.get_bind().dialect.name, GUARDED):
        op.execute(statement)


def downgrade() -> None:
    for table in (*reversed(GUARDED), "privacy_request"):
        op.drop_table(table)
