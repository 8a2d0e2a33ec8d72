"""A worker notices another revision by itself, never serves a mixture, and serves on when the database is away."""

import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest

from gaugerake.catalogue.errors import Unavailable, UnknownBook, UnknownRevision
from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.holder import POLL_SECONDS, SnapshotHolder
from gaugerake.catalogue.store.revisions import Store
from gaugerake.catalogue.store.snapshot import revision_id

BOOK = "sku,price\nBD-1,64.00\n"


BOTH = pytest.mark.parametrize("url", ["sqlite", "postgresql"], indirect=True)


@pytest.fixture()
def store(url: str, small: str) -> Store:
    store = ensure_ready(url)
    store.load(small)
    return store


@pytest.fixture()
def holder(store: Store) -> Iterator[SnapshotHolder]:
    holder = SnapshotHolder(store, poll_seconds=0.05)
    yield holder
    holder.close()


def eventually(seen: Callable[[], bool]) -> None:
    """Wait until something is so; a minute is far more than it takes."""
    for _ in range(1200):
        if seen():
            return
        time.sleep(0.05)
    raise AssertionError("it never became so")


@BOTH
def test_another_revision_is_picked_up_without_a_restart(holder: SnapshotHolder, store: Store, metric: str) -> None:
    first = holder.current
    assert first.catalogue.title == "Probe Floors"
    store.load(metric)
    eventually(lambda: holder.current.revision == revision_id(metric))
    assert first.catalogue.title == "Probe Floors"  # what a request holds stays what it was


@BOTH
def test_prices_of_a_branch_are_picked_up_too(holder: SnapshotHolder, store: Store) -> None:
    assert holder.current.books.keys() == {"list"}
    store.load_book("north", BOOK)
    eventually(lambda: "north" in holder.current.books)
    store.drop_book("north")
    eventually(lambda: "north" not in holder.current.books)


def test_two_seconds_between_looks_leave_room_within_five() -> None:
    assert POLL_SECONDS <= 2.5


@BOTH
def test_what_was_read_before_the_first_request_is_not_served_stale(store: Store, metric: str) -> None:
    holder = SnapshotHolder(store, poll_seconds=3600)
    holder.refresh()
    store.load(metric)
    assert holder.current.revision == revision_id(metric)
    holder.close()


def test_nothing_is_asked_of_the_database_while_nothing_changes(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    holder = SnapshotHolder(store, poll_seconds=3600)
    held = holder.current
    monkeypatch.setattr(store, "state", lambda: pytest.fail("asked"))
    assert all(holder.current is held for _ in range(100))
    holder.close()


def test_it_serves_on_while_the_database_is_away_and_says_since_when(
    holder: SnapshotHolder, url: str, metric: str, store: Store
) -> None:
    file = Path(url.removeprefix("sqlite:///"))
    before = holder.current
    assert holder.stale_since is None
    file.rename(file.with_suffix(".away"))
    eventually(lambda: holder.stale_since is not None)
    since = holder.stale_since
    assert holder.current is before
    file.with_suffix(".away").rename(file)
    eventually(lambda: holder.stale_since is None)
    assert since is not None
    store.load(metric)
    eventually(lambda: holder.current.revision == revision_id(metric))


def test_a_revision_that_cannot_be_read_is_not_served(
    holder: SnapshotHolder, store: Store, metric: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = holder.current

    def broken(_state: object) -> object:
        raise ValueError("whatever goes wrong within")

    monkeypatch.setattr(store, "snapshot", broken)
    store.load(metric)
    eventually(lambda: holder.stale_since is not None)
    assert holder.current is before
    monkeypatch.undo()
    eventually(lambda: holder.current.revision == revision_id(metric))


def test_without_any_catalogue_there_is_nothing_to_hold(url: str) -> None:
    with pytest.raises(Unavailable):
        _ = SnapshotHolder(Store(url)).current


@BOTH
def test_old_revisions_and_books_are_kept_at_hand(
    holder: SnapshotHolder, store: Store, small: str, metric: str
) -> None:
    store.load_book("north", BOOK)
    book_id = store.state().books["north"]
    store.drop_book("north")
    store.load(metric)
    eventually(lambda: holder.current.revision == revision_id(metric))
    old = holder.revision(revision_id(small))
    assert old.catalogue.title == "Probe Floors"
    assert holder.revision(revision_id(small)) is old
    assert str(holder.book(book_id).prices["BD-1"].price) == "64.00"
    with pytest.raises(UnknownRevision):
        holder.revision("0" * 64)
    with pytest.raises(UnknownBook):
        holder.book("0" * 64)


@BOTH
def test_no_reader_sees_a_catalogue_with_the_prices_of_another(store: Store, small: str) -> None:
    texts = {revision_id(text): text for text in (small, small.replace('"99.00"', '"98.00"').replace("Probe", "Other"))}
    holder = SnapshotHolder(store, poll_seconds=0.005)
    seen: set[tuple[str, str, str]] = set()
    stop = threading.Event()

    def look() -> None:
        while not stop.is_set():
            snapshot = holder.current
            seen.add((snapshot.revision, snapshot.catalogue.title, str(snapshot.list_book.prices["CL-2"].price)))

    looker = threading.Thread(target=look)
    looker.start()
    for revision in [*texts, *texts]:
        store.load(texts[revision])
        eventually(partial(serves, holder, revision))
    stop.set()
    looker.join()
    holder.close()
    one, other = texts
    assert seen == {(one, "Probe Floors", "99.00"), (other, "Other Floors", "98.00")}


def serves(holder: SnapshotHolder, revision: str) -> bool:
    return holder.current.revision == revision


FORK = """
import os, sys, time
from gaugerake.catalogue.store.holder import SnapshotHolder
from gaugerake.catalogue.store.revisions import Store
store = Store(sys.argv[1])
holder = SnapshotHolder(store, poll_seconds=0.05)
before = holder.current.revision
child = os.fork()
if child:
    time.sleep(0.3)  # the worker looks once or twice before there is anything new
    store.load(open(sys.argv[2], encoding="utf-8").read())
    sys.exit(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]))
ends = time.monotonic() + 60
while holder.current.revision == before and time.monotonic() < ends:
    time.sleep(0.05)
os._exit(holder.current.revision == before)
"""


def test_a_forked_worker_looks_for_itself(store: Store, url: str, metric: str, tmp_path: Path) -> None:
    (tmp_path / "metric.yaml").write_text(metric, "utf-8")
    forked = [sys.executable, "-c", FORK, url, str(tmp_path / "metric.yaml")]
    end = subprocess.run(forked, capture_output=True, text=True, timeout=120)
    assert end.returncode == 0, end.stderr
