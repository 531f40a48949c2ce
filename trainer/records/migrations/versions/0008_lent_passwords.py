"""Until when a password that was handed out may be used once.

Revision: 0008
"""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    kind = sa.String(27).with_variant(sa.String(27, collation="C"), "postgresql")
    op.add_column("secret", sa.Column("lent_until", kind, nullable=True))


def downgrade() -> None:
    op.drop_column("secret", "lent_until")
