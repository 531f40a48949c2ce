"""Which rosters were taken.

Revision: 0010
"""

import sqlalchemy as sa
from alembic import op

from trainer.records import triggers

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "roster_import",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("by", plain(32), nullable=True),
        sa.Column("file", sa.Text(), nullable=False),
        sa.Column("digest", plain(64), nullable=False),
        sa.Column("changed", sa.Integer(), nullable=False),
        sa.Column("counts", sa.Text(), nullable=False),
        sa.Column("answers", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_roster_import"),
    )
    for statement in triggers.refusing(op.get_bind().dialect.name, ("roster_import",)):
        op.execute(statement)


def downgrade() -> None:
    op.drop_table("roster_import")
