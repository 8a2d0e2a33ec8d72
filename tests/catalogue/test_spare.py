"""A worker that begins while the database is away takes the spare copy, with all that guards the service."""

from pathlib import Path

from gaugerake.catalogue.store.first_start import TOKEN_SECRET, ensure_ready
from gaugerake.catalogue.store.holder import SnapshotHolder
from gaugerake.catalogue.store.revisions import Store
from gaugerake.catalogue.store.snapshot import revision_id
from gaugerake.catalogue.store.spare import Spare

BOOK = "sku,price\nBD-1,64.00\n"


def away(url: str) -> None:
    file = Path(url.removeprefix("sqlite:///"))
    file.rename(file.with_suffix(".away"))


def test_an_empty_spare_has_nothing(tmp_path: Path) -> None:
    spare = Spare(tmp_path)
    assert (spare.read(), spare.setting(TOKEN_SECRET)) == (None, None)


def test_the_spare_is_what_is_in_use_and_no_more(url: str, small: str, tmp_path: Path) -> None:
    store, spare = ensure_ready(url), Spare(tmp_path)
    store.load(small)
    store.load_book("north", BOOK)
    for text in (small, small.replace("Probe", "Other")):
        store.load(text)
        spare.keep(store, store.state())
        assert spare.read() == (store.state(), store.snapshot(store.state()))
        assert [listed.revision for listed in spare.store.revisions()] == [revision_id(text)]
    store.drop_book("north")
    spare.keep(store, store.state())
    assert spare.store.state().books == {}
    assert spare.setting(TOKEN_SECRET) == store.setting(TOKEN_SECRET)


def test_the_spare_is_readable_by_its_owner_alone(url: str, tmp_path: Path) -> None:
    store, spare = ensure_ready(url), Spare(tmp_path)
    spare.keep(store, store.state())
    (file,) = tmp_path.glob("spare*")
    assert file.stat().st_mode & 0o077 == 0


def test_a_worker_that_begins_without_a_database_serves_the_spare_and_says_so(
    url: str, small: str, tmp_path: Path
) -> None:
    store = ensure_ready(url)
    store.load(small)
    first = SnapshotHolder(store, poll_seconds=3600, spare=Spare(tmp_path))
    assert first.current.revision == revision_id(small)
    first.close()
    away(url)
    later = SnapshotHolder(Store(url), poll_seconds=3600, spare=Spare(tmp_path))
    assert later.current == first.current
    assert later.stale_since is not None
    later.close()


def test_a_spare_that_cannot_be_written_hinders_nothing(url: str, small: str, tmp_path: Path) -> None:
    store = ensure_ready(url)
    store.load(small)
    (tmp_path / "spare.sqlite3").mkdir()
    holder = SnapshotHolder(store, poll_seconds=3600, spare=Spare(tmp_path))
    assert holder.current.revision == revision_id(small)
    assert holder.stale_since is None
    holder.close()


def test_the_spare_comes_before_what_was_read_long_ago(url: str, small: str, metric: str, tmp_path: Path) -> None:
    store, spare = ensure_ready(url), Spare(tmp_path)
    store.load(small)
    early = SnapshotHolder(store, poll_seconds=3600, spare=spare)
    early.refresh()  # as before a fork
    store.load(metric)
    spare.keep(store, store.state())  # as another worker has done since
    away(url)
    assert early.current.revision == revision_id(metric)
    assert early.stale_since is not None
    early.close()
