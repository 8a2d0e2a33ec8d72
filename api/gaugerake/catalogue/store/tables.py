"""What is kept in the database. Revisions and books never change once written; one row says which are in use.

`catalogue.store.migrations` makes these tables. A change here needs a step there, and its number in `SCHEMA`.
"""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import CheckConstraint, DateTime, Dialect, ForeignKey, Integer, String, Text, TypeDecorator
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

SCHEMA = "0002"
"""The last step of the migrations: what the tables below are the outcome of."""


class Utc(TypeDecorator[datetime]):
    """An instant, in UTC also where the database forgets the zone (SQLite)."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Into the database, in UTC."""
        return value and value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Out of the database, in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Base(DeclarativeBase):
    """All tables."""


class Revision(Base):
    """A catalogue's text under the name of its content."""

    __tablename__ = "revisions"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    title: Mapped[str] = mapped_column(String(200))
    created_at: Mapped[datetime] = mapped_column(Utc())
    source: Mapped[str] = mapped_column(Text)


class Book(Base):
    """A branch's price list under the name of its content."""

    __tablename__ = "price_books"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    branch: Mapped[str] = mapped_column(String(40))
    currency: Mapped[str] = mapped_column(String(3))
    created_at: Mapped[datetime] = mapped_column(Utc())
    source: Mapped[str] = mapped_column(Text)


class Current(Base):
    """What is in use: one row, so that a revision and the books beside it are always read together.

    ``books`` is a JSON object of branch and book id.
    """

    __tablename__ = "current"
    __table_args__ = (CheckConstraint("id = 1", name="current_is_one_row"),)

    id: Mapped[int] = mapped_column(Integer, primary_key=True, autoincrement=False)
    revision_id: Mapped[str] = mapped_column(ForeignKey("revisions.id"))
    books: Mapped[str] = mapped_column(Text, default="{}")


class Setting(Base):
    """A value that every worker shares, such as the secret of the tokens."""

    __tablename__ = "settings"

    name: Mapped[str] = mapped_column(String(64), primary_key=True)
    value: Mapped[str] = mapped_column(Text)


class ApiKey(Base):
    """A key of the API. ``origins`` is a JSON list; a revoked key stays, so that its last never opens the service."""

    __tablename__ = "api_keys"

    prefix: Mapped[str] = mapped_column(String(16), primary_key=True)
    digest: Mapped[str] = mapped_column(String(64))
    holder: Mapped[str] = mapped_column(String(80), index=True)
    book: Mapped[str | None] = mapped_column(String(40))
    origins: Mapped[str] = mapped_column(Text)
    rate: Mapped[str] = mapped_column(String(20))
    created_at: Mapped[datetime] = mapped_column(Utc())
    revoked_at: Mapped[datetime | None] = mapped_column(Utc())
