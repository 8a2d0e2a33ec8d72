"""A worker reads a newer catalogue in short turns, so that its quotes go on; the first one it reads at once."""

import pytest

from gaugerake.catalogue.file import pace
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.holder import SnapshotHolder


class Rests:
    """Counts rests and takes none, in a time that passes a turn at each look."""

    def __init__(self) -> None:
        self.seconds: list[float] = []
        self._now = 0.0

    def sleep(self, seconds: float) -> None:
        self.seconds.append(seconds)

    def perf_counter(self) -> float:
        self._now += pace.TURN_SECONDS
        return self._now


@pytest.fixture()
def rests(monkeypatch: pytest.MonkeyPatch) -> Rests:
    counted = Rests()
    monkeypatch.setattr(pace, "time", counted)
    return counted


def test_reading_rests_between_turns_and_reads_the_same(rests: Rests, small: str) -> None:
    at_once = load_text.__wrapped__(small)
    assert rests.seconds == []
    with pace.in_turns():
        assert load_text.__wrapped__(small) == at_once
    assert len(rests.seconds) > 100
    assert set(rests.seconds) == {pace.REST_SECONDS}
    rests.seconds.clear()
    load_text.__wrapped__(small)
    assert rests.seconds == []


def test_turns_are_of_one_thread_and_end(rests: Rests) -> None:
    with pace.in_turns():
        pass
    for _ in range(10):
        pace.rest()
    assert rests.seconds == []


def test_a_worker_reads_the_first_catalogue_at_once_and_newer_ones_in_turns(url: str, rests: Rests, small: str) -> None:
    store = ensure_ready(url)
    holder = SnapshotHolder(store)
    load_text.cache_clear()
    holder.refresh()
    assert rests.seconds == []
    store.load(small)
    load_text.cache_clear()
    holder.refresh()
    assert len(rests.seconds) > 100
