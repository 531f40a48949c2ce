"""Mail addresses, and the reminders that were sent.

Revision: 0006
"""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "mail_address",
        sa.Column("person", plain(32), nullable=False),
        sa.Column("address", sa.String(length=300), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_mail_address_person_person"),
        sa.PrimaryKeyConstraint("person", name="pk_mail_address"),
    )
    op.create_table(
        "reminder",
        sa.Column("id", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("recipient", plain(32), nullable=False),
        sa.Column("person", plain(32), nullable=False),
        sa.Column("programme", plain(80), nullable=False),
        sa.Column("due_on", plain(10), nullable=False),
        sa.Column("step", plain(80), nullable=False),
        sa.Column("state", plain(10), nullable=False),
        sa.Column("letter", plain(32), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("at", plain(27), nullable=False),
        sa.Column("retry_at", plain(27), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("state IN ('claimed', 'sent', 'failed', 'unsure')", name="ck_reminder_state"),
        sa.ForeignKeyConstraint(["recipient"], ["person.key"], name="fk_reminder_recipient_person"),
        sa.ForeignKeyConstraint(["person"], ["person.key"], name="fk_reminder_person_person"),
        sa.PrimaryKeyConstraint("id", name="pk_reminder"),
        sa.UniqueConstraint("recipient", "person", "programme", "due_on", "step", name="uq_reminder_once"),
    )
    op.create_index("ix_reminder_person", "reminder", ["person"])
    op.create_index("ix_reminder_letter", "reminder", ["letter"])


def downgrade() -> None:
    for table in ("reminder", "mail_address"):
        op.drop_table(table)
