"""Revisions never change, loading is all or nothing, and what is in use is read in one piece."""

from collections.abc import Callable
from pathlib import Path

import pytest

from gaugerake.catalogue.errors import BadBranch, BadDatabase, OtherCurrency, Unavailable, UnknownBook, UnknownRevision
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.store import database
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.first_start import TOKEN_SECRET, ensure_ready
from gaugerake.catalogue.store.revisions import State, Store
from gaugerake.catalogue.store.snapshot import plain_text, revision_id, snapshot_of

BOOK = "sku,price,from\nBD-1,64.00,\nBD-1,60.00,12\nCL-2,90\nCL-8,350\nSD-40,10\nTN-RED,4\nTN-BLUE,4\n"


BOTH = pytest.mark.parametrize("url", ["sqlite", "postgresql"], indirect=True)


@pytest.fixture()
def store(url: str) -> Store:
    return ensure_ready(url)


@BOTH
def test_the_first_start_fills_an_empty_database_with_the_demonstration(store: Store) -> None:
    assert store.state() == State(revision=revision_id(demo_text()))
    assert store.source(store.state().revision) == plain_text(demo_text())
    assert len(store.setting(TOKEN_SECRET) or "") == 64


@BOTH
def test_a_second_start_changes_nothing(store: Store, url: str, small: str) -> None:
    store.load(small)
    secret = store.setting(TOKEN_SECRET)
    again = ensure_ready(url)
    assert again.state().revision == revision_id(small)
    assert again.setting(TOKEN_SECRET) == secret


def test_a_database_is_readable_by_its_owner_alone(store: Store, url: str) -> None:
    assert (Path(url.removeprefix("sqlite:///")).stat().st_mode & 0o077) == 0


@BOTH
def test_a_revision_is_named_by_its_content(store: Store, small: str) -> None:
    first, again = store.load(small), store.load(small.replace("\n", "\r\n"))
    assert (first.new, again.new) == (True, False)
    assert first.revision == again.revision == revision_id(small)
    assert store.load(small.replace("valid_days: 20", "valid_days: 21")).revision != first.revision
    assert len(store.revisions()) == 3


@BOTH
def test_what_is_exported_loads_as_the_same_revision(store: Store, metric: str) -> None:
    kept = store.load(metric)
    again = store.load(store.source(kept.revision))
    assert (again.revision, again.new) == (kept.revision, False)


@BOTH
def test_a_refused_file_leaves_what_is_in_use(store: Store, spoiled: Callable[..., str]) -> None:
    before = store.state()
    with pytest.raises(FileRefused):
        store.load(spoiled(('"99.00"', '"-99.00"')))
    assert store.state() == before
    assert len(store.revisions()) == 1


@BOTH
def test_another_revision_is_used_again_and_old_ones_stay_readable(store: Store, small: str) -> None:
    demo = store.state().revision
    kept = store.load(small)
    store.use(demo)
    assert [listed.revision for listed in store.revisions() if listed.current] == [demo]
    assert store.snapshot(State(revision=kept.revision)) == snapshot_of(small)


@BOTH
def test_a_revision_is_found_by_its_beginning(store: Store, small: str) -> None:
    kept = store.load(small)
    assert store.resolve(kept.revision[:4]) == kept.revision
    assert store.resolve("current") == kept.revision
    for name in (kept.revision[:3], "0" * 12, ""):
        with pytest.raises(UnknownRevision):
            store.resolve(name)


@BOTH
def test_a_branchs_prices_stand_beside_the_list(store: Store, small: str) -> None:
    store.load(small)
    store.load_book("north", BOOK)
    snapshot = store.snapshot(store.state())
    assert snapshot.books.keys() == {"list", "north"}
    assert str(snapshot.books["north"].prices["BD-1"].price) == "64.00"
    assert str(snapshot.list_book.prices["BD-1"].price) == "70.00"
    assert store.book(snapshot.book_ids["north"]) == snapshot.books["north"]


@BOTH
def test_a_dropped_book_can_still_be_opened_by_its_content(store: Store, small: str) -> None:
    store.load(small)
    store.load_book("north", BOOK)
    name = store.state().books["north"]
    store.drop_book("north")
    assert store.state().books == {}
    assert str(store.book(name).prices["CL-2"].price) == "90.00"
    with pytest.raises(UnknownBook):
        store.drop_book("north")
    with pytest.raises(UnknownBook):
        store.book("0" * 64)


@BOTH
def test_a_branchs_price_list_with_faults_changes_nothing(store: Store, small: str) -> None:
    store.load(small)
    store.load_book("north", BOOK)
    before = store.state()
    with pytest.raises(FileRefused):
        store.load_book("north", BOOK.replace("90", "90 EUR"))
    assert store.state() == before


@BOTH
@pytest.mark.parametrize("branch", ["list", "", "north side", "n" * 41, "nörth"])
def test_a_branch_has_a_code_that_is_not_the_lists(branch: str, store: Store, small: str) -> None:
    store.load(small)
    with pytest.raises(BadBranch, match="such as north"):
        store.load_book(branch, BOOK)


@BOTH
def test_a_catalogue_in_another_currency_waits_until_the_books_are_gone(store: Store, small: str, metric: str) -> None:
    store.load(small)
    store.load_book("north", BOOK)
    with pytest.raises(OtherCurrency, match="north"):
        store.load(metric)
    assert store.state().revision == revision_id(small)
    store.drop_book("north")
    assert store.load(metric).new


@pytest.mark.parametrize(
    "url", ["sqlite://", "sqlite:///:memory:", "nonsense", "sqlite:///file:x?uri=true", "bogus+db://x/y"]
)
def test_an_address_that_cannot_serve_is_told_with_what_to_write(url: str) -> None:
    with pytest.raises(BadDatabase, match=database.VARIABLE):
        ensure_ready(url)


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(Unavailable, match="cannot be written"):
        ensure_ready(f"sqlite:///{tmp_path / 'file' / 'x.sqlite3'}")


def test_a_file_that_is_no_database_is_told(tmp_path: Path) -> None:
    (tmp_path / "x.sqlite3").write_text("not a database, but long enough to look at" * 99)
    with pytest.raises(Unavailable, match="not a database"):
        ensure_ready(f"sqlite:///{tmp_path / 'x.sqlite3'}")


def test_a_path_may_hold_signs_that_addresses_use(tmp_path: Path) -> None:
    assert ensure_ready(f"sqlite:///{tmp_path / 'a b#c%20ä.sqlite3'}").state()


def test_the_environment_names_the_database(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(database.VARIABLE, "sqlite:////srv/x.sqlite3")
    assert database.database_url() == "sqlite:////srv/x.sqlite3"
    monkeypatch.delenv(database.VARIABLE)
    assert database.database_url().endswith("api/state/gaugerake.sqlite3")
