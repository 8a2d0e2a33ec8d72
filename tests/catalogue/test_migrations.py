"""The tables are made in steps, one after the other, up and down, on both databases; the last gives today's tables."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlalchemy import Connection, inspect, text

from gaugerake.catalogue.errors import Unavailable
from gaugerake.catalogue.store import database, migrations
from gaugerake.catalogue.store.first_start import ensure_ready, prepare
from gaugerake.catalogue.store.keys import list_keys, make_key
from gaugerake.catalogue.store.tables import SCHEMA, Base

BOTH = pytest.mark.parametrize("url", ["sqlite", "postgresql"], indirect=True)


@contextmanager
def connected(url: str) -> Iterator[Connection]:
    with database.writing(database.writer(url)) as session:
        yield session.connection()


def tables(url: str) -> set[str]:
    with connected(url) as connection:
        return set(inspect(connection).get_table_names()) - {"alembic_version"}


def test_the_steps_are_one_line_in_the_order_of_their_numbers() -> None:
    script = migrations.steps()
    walked = [step.revision for step in script.walk_revisions()]
    assert script.get_heads() == [SCHEMA]
    assert script.get_bases() == ["0001"]
    assert walked == sorted(walked, reverse=True) == [f"{number:04}" for number in range(len(walked), 0, -1)]


@BOTH
def test_the_last_step_makes_the_tables_of_the_models(url: str) -> None:
    ensure_ready(url)
    with connected(url) as connection:
        assert compare_metadata(MigrationContext.configure(connection), Base.metadata) == []
    assert tables(url) == set(Base.metadata.tables)


@BOTH
def test_each_step_goes_back_and_forth(url: str) -> None:
    names = [step.revision for step in reversed(list(migrations.steps().walk_revisions()))]
    seen = []
    for name in names:
        with connected(url) as connection:
            migrations.upgrade(connection, name)
            assert migrations.schema_of(connection) == name
        seen.append(tables(url))
    for name, before in zip(reversed(names), reversed([set(), *seen[:-1]]), strict=True):
        with connected(url) as connection:
            assert migrations.schema_of(connection) == name
            migrations.downgrade(connection, "-1")
        assert tables(url) == before


@BOTH
def test_what_was_kept_is_there_after_the_next_step(url: str) -> None:
    with connected(url) as connection:
        migrations.upgrade(connection, "0001")
        connection.execute(text("INSERT INTO settings VALUES ('token-secret', 'as it was')"))
    store = ensure_ready(url)
    assert store.setting("token-secret") == "as it was"
    assert store.is_ready()
    make_key(store, "Shop")
    assert [listed.key.holder for listed in list_keys(store)] == ["Shop"]


@BOTH
def test_a_step_that_fails_leaves_the_tables_as_they_were(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    with connected(url) as connection:
        migrations.upgrade(connection, "0001")
    before = tables(url)
    script = migrations.steps()
    step = script.get_revision(SCHEMA)
    assert step is not None
    whole = step.module.upgrade

    def half_done() -> None:
        whole()
        raise RuntimeError("in the middle")

    monkeypatch.setattr(step.module, "upgrade", half_done)
    monkeypatch.setattr(migrations, "steps", lambda: script)
    with pytest.raises(RuntimeError, match="in the middle"):
        prepare(url)
    assert tables(url) == before


@BOTH
def test_a_database_of_a_later_version_is_used_and_not_taken_further(url: str) -> None:
    store = ensure_ready(url)
    with connected(url) as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    assert store.is_ready()
    assert ensure_ready(url).state() == store.state()
    with pytest.raises(Unavailable, match="step 9999, which this version does not know"):
        prepare(url)
