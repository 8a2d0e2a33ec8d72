"""Keys of the API."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table of keys."""
    op.create_table(
        "api_keys",
        sa.Column("prefix", sa.String(16), primary_key=True),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("holder", sa.String(80), nullable=False),
        sa.Column("book", sa.String(40), nullable=True),
        sa.Column("origins", sa.Text(), nullable=False),
        sa.Column("rate", sa.String(20), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
    )
    op.create_index("ix_api_keys_holder", "api_keys", ["holder"])


def downgrade() -> None:
    """Forget all keys: the service is open then."""
    op.drop_table("api_keys")
