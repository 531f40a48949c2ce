"""What is measured on machines, as it came to be known, and the editions of the bank that papers were drawn from.

Revision: 0003
"""

import sqlalchemy as sa
from alembic import op

from trainer.records import triggers

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

TABLES = ("machine_fact", "machine_reading", "edition")


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def machine_rows(name, *columns):
    op.create_table(
        name,
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("machine", plain(40), nullable=False),
        *columns,
        sa.Column("on", plain(10), nullable=False),
        sa.Column("by", plain(32), nullable=True),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["machine"], ["machine.id"], name=f"fk_{name}_machine_machine"),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name=f"fk_{name}_by_person"),
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
    )
    op.create_index(f"ix_{name}_machine", name, ["machine"])


def upgrade() -> None:
    machine_rows(
        "machine_fact",
        sa.Column("key", plain(80), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
    )
    machine_rows(
        "machine_reading",
        sa.Column("time", plain(40), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
    )
    op.create_table(
        "edition",
        sa.Column("fingerprint", plain(64), nullable=False),
        sa.Column("edition", sa.Integer(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.PrimaryKeyConstraint("fingerprint", name="pk_edition"),
    )
    for statement in triggers.refusing(op.get_bind().dialect.name, TABLES):
        op.execute(statement)


def downgrade() -> None:
    for table in reversed(TABLES):
        op.drop_table(table)
