"""The counter that workers share: exact over processes, whole after one of them is killed, and bounded."""

import multiprocessing
import os
import signal
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from limits import parse
from limits.strategies import FixedWindowRateLimiter

from gaugerake.web.server import counter
from gaugerake.web.server.counter import SharedCounter

MANY = multiprocessing.get_context("spawn")


class Clock:
    """A clock that stands until it is set."""

    now = 1_000_000.0

    def time(self) -> float:
        return self.now


@pytest.fixture
def file(tmp_path: Path) -> Path:
    counter.make(tmp_path / "rates.sqlite3")
    return tmp_path / "rates.sqlite3"


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[Clock]:
    clock = Clock()
    monkeypatch.setattr(counter, "time", clock)
    return clock


def opened(file: Path) -> SharedCounter:
    return SharedCounter(counter.address_of(file))


def test_two_count_as_one(file: Path) -> None:
    one, other = opened(file), opened(file)
    assert [each.incr("key", 60) for each in (one, other, other, one)] == [1, 2, 3, 4]
    assert (one.get("key"), other.get("key"), other.get("another")) == (4, 4, 0)
    assert one.get_expiry("key") == other.get_expiry("key")


def test_a_window_begins_with_its_first_count_and_ends(file: Path, clock: Clock) -> None:
    counts = opened(file)
    assert counts.incr("key", 60, amount=5) == 5
    clock.now += 59
    assert (counts.incr("key", 60), counts.get_expiry("key") - clock.now) == (6, 1)
    clock.now += 1
    assert (counts.get("key"), counts.get_expiry("key")) == (0, clock.now)
    assert (counts.incr("key", 60), counts.get_expiry("key") - clock.now) == (1, 60)


def test_a_clock_that_was_set_back_keeps_nobody_out(file: Path, clock: Clock) -> None:
    counts = opened(file)
    assert counts.incr("key", 60, amount=1000) == 1000
    clock.now -= 3600
    assert (counts.incr("key", 60), counts.get_expiry("key") - clock.now) == (1, 60)


def test_limits_keeps_a_rate_by_it(file: Path) -> None:
    strategies = [FixedWindowRateLimiter(opened(file)) for _ in range(2)]
    rate = parse("30/hour")
    assert [strategies[turn % 2].hit(rate, "key", "one") for turn in range(40)] == [True] * 30 + [False] * 10
    assert strategies[0].get_window_stats(rate, "key", "one").remaining == 0


def test_counts_are_forgotten_one_and_all(file: Path) -> None:
    counts = opened(file)
    for key in ("a", "b", "c"):
        counts.incr(key, 60)
    counts.clear("a")
    assert (counts.get("a"), counts.get("b"), counts.reset(), counts.get("b")) == (0, 1, 2, 0)


def test_what_is_over_is_dropped_and_there_is_a_most(file: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(counter, "TIDIED_EVERY", 10)
    monkeypatch.setattr(counter, "MOST_KEPT", 15)
    counts = opened(file)
    for number in range(9):
        counts.incr(f"over {number}", 1)
    clock.now += 1
    for number in range(91):
        counts.incr(f"new {number}", 60 + number)
    with sqlite3.connect(file) as seen:
        kept = {name for (name,) in seen.execute("SELECT name FROM counts")}
    assert kept == {f"new {number}" for number in range(75, 91)}  # tidied before the last was counted


def test_a_file_that_cannot_be_written_is_said_and_seen(file: Path) -> None:
    counts = opened(file)
    assert counts.check()
    counts._file.execute("PRAGMA query_only=ON")
    with pytest.raises(sqlite3.Error):
        counts.incr("key", 60)
    assert isinstance(sqlite3.OperationalError(), counts.base_exceptions)
    assert not counts.check()


def count_many(file: Path, times: int) -> None:
    counts = opened(file)
    for _ in range(times):
        counts.incr("key", 3600)


def test_processes_lose_no_count_between_them(file: Path) -> None:
    counting = [MANY.Process(target=count_many, args=(file, 500)) for _ in range(3)]
    for process in counting:
        process.start()
    for process in counting:
        process.join(60)
    assert [process.exitcode for process in counting] == [0, 0, 0]
    assert opened(file).get("key") == 1500


def test_a_process_that_is_killed_while_it_counts_leaves_it_free_and_right(file: Path) -> None:
    counts = opened(file)
    for _ in range(3):
        victim = MANY.Process(target=count_many, args=(file, 10**9))
        victim.start()
        before = counts.incr("key", 3600)
        assert victim.pid is not None
        while counts.get("key") < before + 50:
            assert victim.is_alive()
        os.kill(victim.pid, signal.SIGKILL)
        victim.join(60)
        then = counts.get("key")
        assert then >= before + 50
        assert [counts.incr("key", 3600) for _ in range(3)] == [then + 1, then + 2, then + 3]
