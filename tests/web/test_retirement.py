"""When a worker goes because of its memory: in turn, with nothing in hand, and not for ever waiting."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from gaugerake.web.server import retirement
from gaugerake.web.server.retirement import PATIENCE_SECONDS, PAUSE_SECONDS, Retirement

Made = Callable[..., Retirement]


class Memory:
    """What the system says that the process has."""

    mb = 100

    def __call__(self) -> int:
        return self.mb * 10**6


@pytest.fixture
def memory(monkeypatch: pytest.MonkeyPatch) -> Memory:
    memory = Memory()
    monkeypatch.setattr(retirement, "resident_bytes", memory)
    return memory


@pytest.fixture
def made(tmp_path: Path) -> Iterator[Made]:
    """Makes what a worker has of it; the lock files are closed afterwards, as by a process that ends."""
    all_made: list[Retirement] = []

    def make(most_mb: int = 300, *, is_alone: bool = False) -> Retirement:
        all_made.append(Retirement(most_mb=most_mb, folder=tmp_path, is_alone=is_alone))
        return all_made[-1]

    yield make
    for one in all_made:
        one._turn.close()


def test_a_worker_goes_past_its_bound_when_it_has_nothing_in_hand(memory: Memory, made: Made) -> None:
    one = made()
    for mb, leaving in ((100, False), (300, False), (301, True)):
        memory.mb = mb
        one.weigh(0, 10.0)
        assert one.is_leaving is leaving
    assert [one.is_due(in_hand, 11.0) for in_hand in (3, 1, 0)] == [False, False, True]


def test_one_leaves_at_a_time(memory: Memory, made: Made) -> None:
    one, other = made(), made()
    memory.mb = 400
    one.weigh(0, 0.0)
    other.weigh(0, 0.0)
    assert (one.is_leaving, other.is_leaving) == (True, False)
    one.is_due(1, PATIENCE_SECONDS + 0.1)  # it stays, and lets the other go first
    other.weigh(0, PATIENCE_SECONDS + 0.2)
    assert (one.is_leaving, other.is_leaving) == (False, True)


def test_one_that_is_alone_answers_on_until_it_has_nothing_in_hand(memory: Memory, made: Made) -> None:
    one = made(is_alone=True)
    memory.mb = 400
    one.weigh(1, 0.0)
    assert not one.is_leaving
    one.weigh(0, 1.0)
    assert one.is_due(0, 1.0)


def test_who_waits_too_long_works_on_and_tries_again_later(memory: Memory, made: Made) -> None:
    one = made()
    memory.mb = 400
    one.weigh(0, 0.0)
    assert (one.is_due(1, PATIENCE_SECONDS), one.is_leaving) == (False, True)
    assert (one.is_due(1, PATIENCE_SECONDS + 1), one.is_leaving) == (False, False)
    one.weigh(0, PATIENCE_SECONDS + PAUSE_SECONDS)
    assert not one.is_leaving
    one.weigh(0, PATIENCE_SECONDS + 1 + PAUSE_SECONDS)
    assert one.is_due(0, PATIENCE_SECONDS + 1 + PAUSE_SECONDS)


@pytest.mark.parametrize(("most_mb", "begins_with", "stays_at"), [(0, 100, 10**6), (50, 100, 150), (300, 0, 10**6)])
def test_a_bound_may_be_none_or_too_low(
    memory: Memory, made: Made, most_mb: int, begins_with: int, stays_at: int
) -> None:
    memory.mb = begins_with
    one = made(most_mb)
    memory.mb = stays_at
    one.weigh(0, 0.0)
    assert not one.is_leaving


def test_the_memory_of_a_process_is_told() -> None:
    """Of a process of its own: one that has run many tests has room left that it once gave back."""
    program = (
        "from gaugerake.web.server.retirement import resident_bytes\n"
        "before = resident_bytes()\n"
        "held = b'x' * 50_000_000\n"
        "print(resident_bytes() - before)"
    )
    told = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=120)
    assert 40_000_000 < int(told.stdout) < 100_000_000
