"""The devices on which a badge and a PIN open sheets.

Revision: 0009
"""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.create_table(
        "kiosk",
        sa.Column("id", plain(32), nullable=False),
        sa.Column("name", plain(80), nullable=False),
        sa.Column("code", plain(64), nullable=True),
        sa.Column("code_until", plain(27), nullable=True),
        sa.Column("token", plain(64), nullable=True),
        sa.Column("invited_by", plain(32), nullable=False),
        sa.Column("invited_at", plain(27), nullable=False),
        sa.Column("enrolled_at", plain(27), nullable=True),
        sa.Column("withdrawn_by", plain(32), nullable=True),
        sa.Column("withdrawn_at", plain(27), nullable=True),
        sa.ForeignKeyConstraint(["invited_by"], ["person.key"], name="fk_kiosk_invited_by_person"),
        sa.ForeignKeyConstraint(["withdrawn_by"], ["person.key"], name="fk_kiosk_withdrawn_by_person"),
        sa.PrimaryKeyConstraint("id", name="pk_kiosk"),
        sa.UniqueConstraint("token", name="uq_kiosk_token"),
    )
    op.create_index("ix_kiosk_code", "kiosk", ["code"])


def downgrade() -> None:
    op.drop_table("kiosk")
