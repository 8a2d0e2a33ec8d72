"""Keys are told once and kept by their digest; two to a holder; the last one's end does not open the service."""

import hashlib
import hmac
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import text

from gaugerake.catalogue.errors import BadKeyDetail, BookInUse, UnknownBook, UnknownKey
from gaugerake.catalogue.keys import key as keys
from gaugerake.catalogue.keys.key import Access, Key, new_key, origins_of
from gaugerake.catalogue.store import database
from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.holder import SnapshotHolder
from gaugerake.catalogue.store.keys import list_keys, make_key, open_again, revoke_key
from gaugerake.catalogue.store.revisions import Store

BOTH = pytest.mark.parametrize("url", ["sqlite", "postgresql"], indirect=True)
BOOK = "sku,price\nLB-1,110.00\n"


@pytest.fixture()
def store(url: str) -> Store:
    return ensure_ready(url)


@pytest.fixture()
def holder(store: Store) -> Iterator[SnapshotHolder]:
    holder = SnapshotHolder(store, poll_seconds=3600)
    holder.refresh()
    yield holder
    holder.close()


def access_of(store: Store) -> Access:
    access = store.snapshot(store.state()).access
    assert access is not None
    return access


def prefix_of(key: str) -> str:
    return key.split("_")[1]


def everything_kept(url: str) -> str:
    with database.reading(database.reader(url)) as session:
        return json.dumps([list(row) for row in session.execute(text("SELECT * FROM api_keys"))], default=str)


@BOTH
def test_without_any_key_the_service_is_open(store: Store) -> None:
    assert store.state().keys is None
    assert store.snapshot(store.state()).access is None


@BOTH
def test_a_key_has_160_random_bits_and_its_digest_alone_is_kept(store: Store, url: str) -> None:
    key = make_key(store, "North branch")
    assert re.fullmatch(r"gr_[a-z2-7]{8}_[a-z2-7]{32}", key)
    assert 32 * 5 == 160  # each of 32 letters tells 5 bits
    kept = everything_kept(url)
    assert key.split("_")[2] not in kept
    assert hashlib.sha256(key.encode()).hexdigest() in kept
    assert make_key(store, "North branch") != key


def test_the_holder_of_a_key_is_found_and_of_no_other_text(store: Store) -> None:
    key = make_key(store, "Shop", origins=["https://shop.example"], rate="20/second")
    access = access_of(store)
    found = access.holder_of(key)
    assert found is not None
    assert (found.holder, found.origins, found.rate, found.book) == (
        "Shop",
        ("https://shop.example",),
        "20/second",
        None,
    )
    last = "a" if key[-1] != "a" else "b"
    for wrong in ("", key[:-1] + last, key.upper(), f" {key}", key + "a", key[3:], prefix_of(key), "\udcff" * 44):
        assert access.holder_of(wrong) is None


@BOTH
def test_a_third_live_key_is_refused_until_one_is_revoked(store: Store) -> None:
    first, second = make_key(store, "Shop"), make_key(store, " Shop ")
    make_key(store, "Other shop")
    with pytest.raises(BadKeyDetail, match="revoke one first") as refused:
        make_key(store, "Shop")
    assert prefix_of(first) in str(refused.value)
    assert prefix_of(second) in str(refused.value)
    revoke_key(store, prefix_of(first)[:5])
    make_key(store, "Shop")
    assert access_of(store).holder_of(first) is None
    assert access_of(store).holder_of(second) is not None


@BOTH
def test_the_last_keys_end_leaves_the_service_closed(store: Store) -> None:
    key = make_key(store, "Shop")
    with pytest.raises(BadKeyDetail, match="live"):
        open_again(store)
    revoke_key(store, key[:11])  # as it is listed, or as it begins
    assert store.state().keys == ()
    assert access_of(store).keys == {}
    assert [bool(listed.revoked_at) for listed in list_keys(store)] == [True]
    assert open_again(store) == 1
    assert store.state().keys is None


def test_a_key_is_named_by_enough_of_its_beginning(store: Store) -> None:
    key = make_key(store, "Shop")
    for name in ("", prefix_of(key)[:3], "!" * 8, key):
        with pytest.raises(UnknownKey):
            revoke_key(store, name)


@BOTH
def test_a_keys_price_book_is_there_as_long_as_the_key(store: Store) -> None:
    with pytest.raises(UnknownBook):
        make_key(store, "Shop", book="north")
    store.load_book("north", BOOK)
    key = make_key(store, "Shop", book="north")
    with pytest.raises(BookInUse, match=prefix_of(key)):
        store.drop_book("north")
    revoke_key(store, prefix_of(key))
    store.drop_book("north")


@pytest.mark.parametrize("name", ["", "  ", "n" * 81, "two\x00lines"])
def test_a_holder_has_a_name(store: Store, name: str) -> None:
    with pytest.raises(BadKeyDetail, match="holder"):
        make_key(store, name)


@pytest.mark.parametrize("rate", ["", "0/minute", "10", "10/day", "-1/minute", "1e3/minute", "99999999/hour"])
def test_a_rate_is_a_count_for_a_span(store: Store, rate: str) -> None:
    with pytest.raises(BadKeyDetail, match="600/minute"):
        make_key(store, "Shop", rate=rate)


@pytest.mark.parametrize(
    "origin",
    [
        "*",
        "null",
        "shop.example",
        "ftp://shop.example",
        "https://shop.example/cart",
        "https://a@shop.example",
        "https://",
    ],
)
def test_an_origin_is_a_scheme_a_host_and_a_port(store: Store, origin: str) -> None:
    with pytest.raises(BadKeyDetail, match=r"https://shop\.example"):
        make_key(store, "Shop", origins=[origin])


def test_origins_are_kept_as_browsers_send_them() -> None:
    written = ["HTTPS://Shop.Example/", "http://shop.example:80", "http://[::1]:8080", "https://shop.example:8443"]
    assert origins_of(written) == (
        "http://[::1]:8080",
        "http://shop.example",
        "https://shop.example",
        "https://shop.example:8443",
    )


@BOTH
def test_a_worker_takes_new_keys_and_lets_revoked_ones_go_without_reading_the_catalogue(
    holder: SnapshotHolder, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = holder.current
    monkeypatch.setattr(store, "snapshot", lambda _state: pytest.fail("read again"))
    key = make_key(store, "Shop")
    holder.refresh()
    assert holder.current.catalogue is before.catalogue
    access = holder.current.access
    assert access is not None
    assert access.holder_of(key)
    revoke_key(store, prefix_of(key))
    holder.refresh()
    assert holder.current.access is not None
    assert holder.current.access.holder_of(key) is None


@BOTH
def test_nothing_is_kept_of_what_was_refused(store: Store, tmp_path: Path) -> None:
    with pytest.raises(BadKeyDetail):
        make_key(store, "Shop", rate="often")
    assert list_keys(store) == []
    assert store.state().keys is None


def test_whatever_is_given_one_whole_digest_is_compared_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[tuple[str, str]] = []
    same = keys.compare_digest
    assert same is hmac.compare_digest
    monkeypatch.setattr(keys, "compare_digest", lambda *both: compared.append(both) or same(*both))
    right, prefix, digest = new_key()
    access = Access.of([Key(prefix=prefix, digest=digest, holder="Shop")])
    wrong = right[:-1] + ("b" if right[-1] == "a" else "a")
    for given, found in ((right, True), (wrong, False), (new_key()[0], False), ("no key at all", False), ("", False)):
        assert (access.holder_of(given) is not None) is found
    assert [tuple(map(len, both)) for both in compared] == [(64, 64)] * 5
