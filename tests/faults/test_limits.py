"""Who is promised a rate gets it, whatever connections and workers: counted in a file, or in a Redis of the tests' own.

Without that Redis each worker counts for itself.
"""

import http.client
import json
import os
import shutil
import signal
import subprocess
import tempfile
import urllib.error
import urllib.request
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from tests.faults.processes import Service, eventually, free_port, kill

from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.keys import make_key

RATE = 60


class Redis:
    """A redis-server on a port and in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.port, self.folder = free_port(), folder
        self.address = f"redis://127.0.0.1:{self.port}/0"
        self.start()

    def start(self) -> None:
        """Start, and wait until it answers."""
        options = ("--port", self.port, "--bind", "127.0.0.1", "--dir", self.folder, "--save", "", "--daemonize", "no")
        self.process = subprocess.Popen(["redis-server", *map(str, options)], stdout=subprocess.DEVNULL)
        eventually(self._answers, "Redis up")

    def _answers(self) -> bool:
        done = subprocess.run(["redis-cli", "-p", str(self.port), "ping"], capture_output=True, text=True)
        return done.stdout == "PONG\n"

    def kept(self) -> set[str]:
        """The names of what is kept in it."""
        command = ["redis-cli", "-p", str(self.port), "keys", "*"]
        return set(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())

    def mend(self, trouble: signal.Signals) -> None:
        """Bring it back."""
        if trouble is signal.SIGSTOP:
            self.process.send_signal(signal.SIGCONT)
        else:
            self.process.wait(30)
            self.start()

    def stop(self) -> None:
        """End it at once."""
        self.process.kill()
        self.process.wait(30)


@pytest.fixture
def redis() -> Iterator[Redis]:
    if shutil.which("redis-server") is None:
        (pytest.fail if os.environ.get("CI") else pytest.skip)(
            "redis-server is not installed (./tests/run does, as root)"
        )
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-redis-", dir="/tmp"))
    server = Redis(folder)
    yield server
    server.stop()
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture
def keys(tmp_path: Path) -> dict[str, str]:
    """Keys of three shops, of which one has a rate that it can reach."""
    database = f"sqlite:///{tmp_path / 'limits.sqlite3'}"
    store = ensure_ready(database)
    made = {
        holder: make_key(store, holder, rate=rate)
        for holder, rate in (("Shop", f"{RATE}/hour"), ("Patient", "100000/hour"), ("Other", "100000/hour"))
    }
    return made | {"database": database}


def asked(service: Service, key: str) -> tuple[int, str]:
    """The status of one answer on a connection of its own, and what is left by its header."""
    request = urllib.request.Request(f"http://127.0.0.1:{service.port}/v1/units")
    request.add_header("Authorization", f"Bearer {key}")
    try:
        with urllib.request.urlopen(request, timeout=30) as response:
            return int(response.status), str(response.headers["RateLimit"])
    except urllib.error.HTTPError as error:
        assert json.load(error)["code"] == "too-many-requests"
        assert int(error.headers["Retry-After"]) >= 1
        return error.code, str(error.headers["RateLimit"])


def asked_at_once(service: Service, key: str, count: int) -> list[tuple[int, str]]:
    with ThreadPoolExecutor(8) as pool:
        return list(pool.map(lambda _: asked(service, key), range(count)))


def test_a_rate_is_exact_over_both_workers(redis: Redis, keys: dict[str, str], tmp_path: Path) -> None:
    service = Service(tmp_path, keys["database"], GAUGERAKE_LIMITS=redis.address)
    try:
        assert [left(asked(service, keys["Shop"])) for _ in range(4)] == [RATE - 1, RATE - 2, RATE - 3, RATE - 4]
        statuses = [status for status, _ in asked_at_once(service, keys["Shop"], RATE + 16)]
        assert (statuses.count(200), statuses.count(429)) == (RATE - 4, 20)
        assert {status for status, _ in asked_at_once(service, keys["Patient"], 10)} == {200}
        kept = redis.kept()
        assert kept
        assert not any(keys["Shop"].split("_")[2] in name for name in kept)
    finally:
        service.stop()


@pytest.fixture
def slow(tmp_path: Path) -> Iterator[tuple[Service, str]]:
    """A service of two workers, without Redis, and a key of 30 an hour."""
    database = f"sqlite:///{tmp_path / 'slow.sqlite3'}"
    key = make_key(ensure_ready(database), "Slow shop", rate="30/hour")
    service = Service(tmp_path, database)
    yield service, key
    service.stop()


def test_on_one_connection_a_key_of_30_gets_30(slow: tuple[Service, str]) -> None:
    service, key = slow
    connection = http.client.HTTPConnection("127.0.0.1", service.port, timeout=30)
    found = []
    for _ in range(40):
        connection.request("GET", "/v1/units", headers={"Authorization": f"Bearer {key}"})
        response = connection.getresponse()
        response.read()
        found.append((response.status, left((0, str(response.headers["RateLimit"])))))
    connection.close()
    assert found == [(200, 29 - turn) for turn in range(30)] + [(429, 0)] * 10


def test_on_new_connections_an_address_of_100_gets_100(tmp_path: Path) -> None:
    service = Service(tmp_path, f"sqlite:///{tmp_path / 'open.sqlite3'}", GAUGERAKE_RATE="100/hour")
    try:
        one_by_one = [asked(service, "")[0] for _ in range(60)]
        at_once = [status for status, _ in asked_at_once(service, "", 60)]
        assert one_by_one == [200] * 60
        assert (at_once.count(200), at_once.count(429)) == (40, 20)
    finally:
        service.stop()


def test_a_worker_that_is_killed_takes_no_count_with_it(slow: tuple[Service, str]) -> None:
    service, key = slow
    statuses = []
    for _ in range(4):
        statuses += [asked(service, key)[0] for _ in range(10)]
        kill(*service.workers())
        eventually(lambda: len(service.workers()) == 2 and service.alive(), "other workers up")
    assert statuses == [200] * 30 + [429] * 10


def left(answer: tuple[int, str]) -> int:
    """What is left by the header of an answer."""
    return int(answer[1].split(";r=")[1].split(";")[0])


@pytest.mark.parametrize("trouble", [signal.SIGKILL, signal.SIGSTOP], ids=["gone", "silent"])
def test_without_redis_each_worker_counts_for_itself_and_nobody_is_failed(
    redis: Redis, keys: dict[str, str], tmp_path: Path, trouble: signal.Signals
) -> None:
    service = Service(tmp_path, keys["database"], GAUGERAKE_LIMITS=redis.address)
    try:
        assert asked(service, keys["Shop"])[0] == 200
        redis.process.send_signal(trouble)
        assert {status for status, _ in asked_at_once(service, keys["Patient"], 30)} == {200}
        alone = [status for status, _ in asked_at_once(service, keys["Shop"], 2 * RATE + 20)]
        assert set(alone) == {200, 429}
        assert RATE <= alone.count(200) <= 2 * RATE, "two workers, each with a count of its own"
        redis.mend(trouble)
        before = redis.kept()
        eventually(lambda: asked(service, keys["Other"]) and redis.kept() - before, "counted in Redis again")
    finally:
        service.stop()
