"""What a report is, a hazard or a suggestion, and the place on the drawing that it names.

Revision: 0007
"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def plain(length):
    return sa.String(length).with_variant(sa.String(length, collation="C"), "postgresql")


def upgrade() -> None:
    op.add_column("hazard", sa.Column("kind", plain(80), nullable=False, server_default="hazard"))
    op.add_column("hazard", sa.Column("place", plain(80), nullable=False, server_default=""))


def downgrade() -> None:
    for column in ("place", "kind"):
        op.drop_column("hazard", column)
