"""Questions that people ask at a kiosk, with their answers.

Revision: 0005
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "asked",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("person", plain(32), nullable=True),
        sa.Column("to", plain(32), nullable=True),
        sa.Column("about", plain(80), nullable=False),
        sa.Column("wish", plain(80), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("kiosk", plain(80), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_asked_person_person"),
        sa.ForeignKeyConstraint(["to"], ["person.key"], name="fk_asked_to_person"),
        sa.PrimaryKeyConstraint("id", name="pk_asked"),
    )
    op.create_index("ix_asked_person", "asked", ["person"])
    op.create_index("ix_asked_at", "asked", ["at"])
    op.create_table(
        "asked_answer",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("asked", sa.Integer(), nullable=False),
        sa.Column("by", plain(32), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("seen_at", plain(27), nullable=True),
        sa.ForeignKeyConstraint(["asked"], ["asked.id"], name="fk_asked_answer_asked_asked"),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name="fk_asked_answer_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_asked_answer"),
    )
    op.create_index("ix_asked_answer_asked", "asked_answer", ["asked"])


def downgrade() -> None:
    for table in ("asked_answer", "asked"):
        op.drop_table(table)
