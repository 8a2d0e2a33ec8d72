"""Workers share a door: who is busy leaves it to who is not."""

from pathlib import Path

from tests.faults.batches import Batch
from tests.faults.processes import Service, eventually

TURNS = 30
LEAST_APART = 27


def test_two_batches_opened_at_once_go_to_two_workers(service: Service) -> None:
    """Workers that take what they can were seen to part 25 to 40 of 60: 27 of 30 is then one round of 300 at most.

    A busy machine may spoil a round, so there are three.
    """
    eventually(lambda: len(service.workers()) == 2, "both workers up")
    assert any(apart(service) >= LEAST_APART for _ in range(3))


def apart(service: Service) -> int:
    """How many pairs of batches were parted."""
    found = 0
    for _ in range(TURNS):
        both = [Batch(service), Batch(service)]
        for batch in both:
            batch.send()
        found += holder(service, both[0]) != holder(service, both[1])
        for batch in both:
            batch.end()
    return found


def holder(service: Service, batch: Batch) -> int:
    """The worker that has the other end."""
    ours, theirs = batch.wire.getsockname()[1], service.port
    rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    [inode] = [row[9] for row in rows if row[1].endswith(f":{theirs:04X}") and row[2].endswith(f":{ours:04X}")]
    [pid] = [pid for pid in service.workers() if f"socket:[{inode}]" in open_files(pid)]
    return pid


def open_files(pid: int) -> set[str]:
    """What a process has open, by its names in /proc."""
    found = set()
    for link in Path(f"/proc/{pid}/fd").iterdir():
        try:
            found.add(str(link.readlink()))
        except OSError:  # closed meanwhile
            continue
    return found
