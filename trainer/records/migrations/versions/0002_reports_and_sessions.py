"""Hazard reports with their answers, and the sessions behind the doors' cookies.

Revision: 0002
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "hazard",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("person", plain(32), nullable=True),
        sa.Column("machine", plain(40), nullable=True),
        sa.Column("kiosk", plain(80), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_hazard_person_person"),
        sa.ForeignKeyConstraint(["machine"], ["machine.id"], name="fk_hazard_machine_machine"),
        sa.PrimaryKeyConstraint("id", name="pk_hazard"),
    )
    op.create_index("ix_hazard_at", "hazard", ["at"])
    op.create_table(
        "hazard_answer",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("hazard", sa.Integer(), nullable=False),
        sa.Column("by", plain(32), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("closes", sa.Boolean(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["hazard"], ["hazard.id"], name="fk_hazard_answer_hazard_hazard"),
        sa.ForeignKeyConstraint(["by"], ["person.key"], name="fk_hazard_answer_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_hazard_answer"),
    )
    op.create_index("ix_hazard_answer_hazard", "hazard_answer", ["hazard"])
    op.create_table(
        "web_session",
        sa.Column("token", plain(64), nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("door", plain(80), nullable=False),
        sa.Column("place", plain(80), nullable=False),
        sa.Column("began_at", plain(27), nullable=False),
        sa.Column("ended_at", plain(27), nullable=True),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_web_session_person_person"),
        sa.PrimaryKeyConstraint("token", name="pk_web_session"),
    )
    op.create_index("ix_web_session_person", "web_session", ["person"])


def downgrade() -> None:
    for table in ("web_session", "hazard_answer", "hazard"):
        op.drop_table(table)
