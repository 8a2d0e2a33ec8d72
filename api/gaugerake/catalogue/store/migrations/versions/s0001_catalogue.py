"""Revisions, price books, which of them are in use, and shared settings."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "revisions",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("title", sa.String(200), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
    )
    op.create_table(
        "price_books",
        sa.Column("id", sa.String(64), primary_key=True),
        sa.Column("branch", sa.String(40), nullable=False),
        sa.Column("currency", sa.String(3), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
    )
    op.create_table(
        "current",
        sa.Column("id", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("revision_id", sa.String(64), sa.ForeignKey("revisions.id"), nullable=False),
        sa.Column("books", sa.Text(), nullable=False),
        sa.CheckConstraint("id = 1", name="current_is_one_row"),
    )
    op.create_table(
        "settings",
        sa.Column("name", sa.String(64), primary_key=True),
        sa.Column("value", sa.Text(), nullable=False),
    )


def downgrade() -> None:
    """Leave nothing."""
    for table in ("settings", "current", "price_books", "revisions"):
        op.drop_table(table)
