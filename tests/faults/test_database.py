"""PostgreSQL goes away, comes back, slows down, hangs and answers errors: no request notices."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from tests.builders import retitled
from tests.faults.load import ANSWERED, Load
from tests.faults.processes import Postgres, Service, eventually, gaugerake, kill
from tests.faults.wire import Wire

Note = Callable[..., None]


class Kept:
    """A service, its database, and the wire between them."""

    def __init__(self, folder: Path, postgres: Postgres) -> None:
        self.folder, self.postgres = folder, postgres
        self.database = postgres.new("kept")
        self.wire = Wire(postgres.port)
        self.service = Service(folder, postgres.url("kept", port=self.wire.port))
        self.titles = 0

    def standing(self) -> list[dict[str, object]]:
        """What each worker says of itself, as far as a few questions reach both."""
        return [self.service.get("/readyz") for _ in range(6)]

    def stale(self) -> bool:
        """Whether every worker that answers knows that it is."""
        return all(standing["stale_since"] for standing in self.standing())

    def picks_up_another_revision(self) -> bool:
        """Load one, and see it served."""
        self.titles += 1
        file = self.folder / "another.yaml"
        file.write_text(retitled(str(self.titles)), "utf-8")
        done = gaugerake(self.database, "catalogue", "load", str(file))
        assert done.returncode == 0, done.stderr
        revision = done.stdout.split()[1]
        both = f'gaugerake_catalogue_workers{{revision="{revision}"}} 2.0\n'
        fresh = "gaugerake_catalogue_stale_seconds 0.0\n"
        return bool(
            eventually(
                lambda: both in (text := self.service.text("/metrics")) and fresh in text,
                "another revision served by both workers",
            )
        )


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory, postgres: Postgres) -> Iterator[Kept]:
    kept = Kept(tmp_path_factory.mktemp("kept"), postgres)
    yield kept
    kept.service.stop()
    kept.wire.cut()


def all_answered(load: Load) -> bool:
    return [sent for sent in load.sent if sent.outcome != ANSWERED] == []


def test_it_stops_and_comes_back(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-stopped", clients=3)
    with load.running():
        at = time.monotonic()
        kept.postgres.stop()
        try:
            eventually(kept.stale, "the outage seen")
            load.wait_for(10)
        finally:
            kept.postgres.start()
        load.wait_for(10)
    assert all_answered(load)
    assert kept.picks_up_another_revision()
    note("PostgreSQL stopped as by a crash, and started again", load, at)


def test_it_restarts_at_once(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-restarted", clients=3)
    with load.running():
        at = time.monotonic()
        kept.postgres.stop("fast")
        kept.postgres.start()
        load.wait_for(10)
    assert all_answered(load)
    assert kept.picks_up_another_revision()
    note("PostgreSQL restarted", load, at)


def test_it_is_slow(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-slow", clients=3)
    with load.running():
        at = time.monotonic()
        kept.wire.delay = 0.3
        time.sleep(3)
        load.wait_for(10)
        kept.wire.delay = 0.0
    assert all_answered(load)
    assert kept.picks_up_another_revision()
    note("PostgreSQL slow (0.3 s for each piece of an exchange)", load, at)


def test_it_hangs(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-hangs", clients=3)
    with load.running():
        at = time.monotonic()
        kept.wire.hangs = True
        try:
            eventually(kept.stale, "the outage seen")
            load.wait_for(10)
        finally:
            kept.wire.hangs = False
    assert all_answered(load)
    assert kept.picks_up_another_revision()
    note("PostgreSQL takes connections and says nothing", load, at)


def test_it_answers_errors(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-errors", clients=3)
    with load.running():
        at = time.monotonic()
        kept.postgres.say("ALTER TABLE current RENAME TO elsewhere", "kept")
        try:
            eventually(kept.stale, "the outage seen")
            load.wait_for(10)
        finally:
            kept.postgres.say("ALTER TABLE elsewhere RENAME TO current", "kept")
    assert all_answered(load)
    assert kept.picks_up_another_revision()
    note("PostgreSQL answers every question with an error", load, at)


def test_workers_that_begin_while_it_is_away_answer_the_same(kept: Kept, note: Note) -> None:
    load = Load(kept.service.port, "db-born", clients=3)
    with load.running():
        kept.wire.cut()
        eventually(kept.stale, "the outage seen")
        before = kept.service.workers()
        at, end = kill(*before)
        eventually(lambda: len(kept.service.workers() - before) == 2, "other workers up")
        load.wait_for(20)
        assert kept.stale()
        kept.wire.mend()
    in_flight = {sent.id for sent in load.in_flight(at, end)}
    assert {sent.id for sent in load.sent if sent.outcome != ANSWERED} <= in_flight
    assert kept.picks_up_another_revision()
    note("all workers killed while PostgreSQL is away", load, at, in_flight=len(in_flight))
