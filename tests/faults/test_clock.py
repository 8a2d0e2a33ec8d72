"""The service has no clock of its own: answers are the same whatever the machine's clock and zone say."""

import json
import os
import shutil
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.builders import example
from tests.faults.load import ANSWERED, BODY, Load
from tests.faults.processes import Service, eventually

Note = Callable[..., None]
JOBS = [example(name) for name in ("full", "winter")]


def quotes(service: Service) -> list[bytes]:
    """The quotes of some examples, to the byte."""
    bodies = [BODY, *(json.dumps(job.get("value", job)).encode() for job in JOBS)]
    return [_quote(service, body) for body in bodies]


def _quote(service: Service, body: bytes) -> bytes:
    request = urllib.request.Request(
        f"http://127.0.0.1:{service.port}/v1/quotes?working=true", body, {"Content-Type": "application/json"}
    )
    with urllib.request.urlopen(request, timeout=60) as response:
        return bytes(response.read())


def library() -> str | None:
    """Where the library is that fakes the clock, if it is installed."""
    found = sorted(Path("/usr/lib").glob("*/faketime/libfaketime.so.1"))
    return str(found[0]) if found and shutil.which("faketime") else None


def test_a_clock_that_jumps_and_another_zone_change_nothing(service: Service, tmp_path: Path, note: Note) -> None:
    preload = library()
    if preload is None:
        if os.environ.get("CI"):
            pytest.fail("faketime is not installed")
        pytest.skip("faketime is not installed")
    expected = quotes(service)
    clock = tmp_path / "clock"
    clock.write_text("+0\n")
    elsewhere = Service(
        tmp_path,
        service.database,
        LD_PRELOAD=preload,
        FAKETIME_TIMESTAMP_FILE=str(clock),
        FAKETIME_CACHE_DURATION="1",
        TZ="Pacific/Kiritimati",
    )
    try:
        load = Load(elsewhere.port, "clock", clients=3)
        with load.running():
            for jump in ("+400d", "-400d", "+0"):
                at = time.monotonic()
                clock.write_text(f"{jump}\n")
                eventually(lambda jump=jump: jumped(elsewhere, jump), "the clock jumped")
                load.wait_for(10)
                assert quotes(elsewhere) == expected
        assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
        note("the clock jumps by 400 days, forth and back", load, at)
    finally:
        elsewhere.kill_all()  # under faketime, threads of a forked process do not end: a fault of its own


def jumped(service: Service, jump: str) -> bool:
    """Whether the service's own clock, as its answers are dated, has done so."""
    with urllib.request.urlopen(f"http://127.0.0.1:{service.port}/healthz", timeout=30) as response:
        year = int(response.headers["Date"].split()[3])
    now = time.gmtime().tm_year
    return {"+400d": year > now, "-400d": year < now}.get(jump, year == now)
