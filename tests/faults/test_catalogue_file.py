"""Catalogue files cut short, loads that are killed, and disks that are full: what is in use stays in use."""

import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.builders import retitled
from tests.faults.load import ANSWERED, Load
from tests.faults.processes import MAIN, Service, environment, free_port, gaugerake

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.revisions import Store

Note = Callable[..., None]


@pytest.fixture
def database(service: Service) -> str:
    return service.database


def served(service: Service) -> str:
    return str(service.get("/readyz")["catalogue_revision"])


def test_a_file_cut_within_a_line_is_refused() -> None:
    """One cut between two lines may be a sound, shorter catalogue: nobody can tell, but `catalogue diff` shows it."""
    text = demo_text()
    loaded = []
    for end in range(400, len(text), 397):
        if text[end:].split("\n", 1)[0].strip() and text[:end].rsplit("\n", 1)[-1].strip():
            try:
                load_text(text[:end])
            except FileRefused:
                continue
            loaded.append(text[end - 60 : end])
    assert loaded == []


def test_loading_a_file_cut_short_changes_nothing(service: Service, tmp_path: Path, note: Note) -> None:
    before = served(service)
    file = tmp_path / "half.yaml"
    load = Load(service.port, "half-written", clients=3)
    with load.running():
        at = time.monotonic()
        for part in (1, 2, 3):
            file.write_bytes(demo_text().encode()[: 4096 * part])  # as much as a buffer or some hold
            done = gaugerake(service.database, "catalogue", "load", str(file))
            assert done.returncode == 1, done.stdout + done.stderr
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    assert served(service) == before
    note("a half-written catalogue loaded, three times", load, at)


def test_a_load_that_is_killed_changes_all_or_nothing(service: Service, tmp_path: Path) -> None:
    before = served(service)
    file = tmp_path / "other.yaml"
    file.write_text(retitled("Other"), "utf-8")
    for after in (0.5, 0.8):
        process = subprocess.Popen(
            [*MAIN, "catalogue", "load", str(file)], env=environment(GAUGERAKE_DATABASE=service.database)
        )
        time.sleep(after)
        process.send_signal(signal.SIGKILL)
        process.wait(30)
        revisions = Store(service.database).revisions()
        assert [listed.current for listed in revisions].count(True) == 1
    Store(service.database).use(before)


KILLED_HALF_WAY = """
import os, signal, sqlite3, sys
wire = sqlite3.connect(sys.argv[1], isolation_level=None)
wire.execute("PRAGMA cache_size = 1")  # so that what is written does not stay in memory
wire.execute("BEGIN IMMEDIATE")
wire.execute("CREATE TABLE half (text)")
wire.executemany("INSERT INTO half VALUES (?)", [("x" * 1000,)] * 1000)
os.kill(os.getpid(), signal.SIGKILL)
"""


def test_what_a_killed_writer_left_is_taken_back_by_who_reads(service: Service) -> None:
    file = service.database.removeprefix("sqlite:///")
    before = Store(service.database).revisions()
    subprocess.run([sys.executable, "-c", KILLED_HALF_WAY, file], check=False)
    assert Path(f"{file}-journal").stat().st_size > 0
    assert Store(service.database).revisions() == before
    assert not Path(f"{file}-journal").exists()


def no_bigger(size: int) -> Callable[[], None]:
    """No file of the process that is started may grow past this: what a full disk looks like."""

    def limit() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))

    return limit


def test_a_full_disk_leaves_what_is_in_use(service: Service, tmp_path: Path, note: Note) -> None:
    before = served(service)
    file = tmp_path / "other.yaml"
    file.write_text(retitled("Too much"), "utf-8")
    size = Path(service.database.removeprefix("sqlite:///")).stat().st_size
    load = Load(service.port, "disk-full", clients=3)
    with load.running():
        at = time.monotonic()
        done = gaugerake(service.database, "catalogue", "load", str(file), preexec_fn=no_bigger(size))
    assert done.returncode == 3
    assert "database" in done.stderr
    assert "Traceback" not in done.stderr
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    assert served(service) == before
    assert not [listed for listed in Store(service.database).revisions() if listed.title.startswith("Too much")]
    note("the disk full while a catalogue is loaded", load, at)


@pytest.mark.skipif(os.geteuid() != 0 or shutil.which("mount") is None, reason="only root mounts a small disk")
def test_a_first_start_on_a_full_disk_says_so(tmp_path: Path) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=16k", "tmpfs", str(disk)], capture_output=True)
    if mounted.returncode:
        pytest.skip("nothing can be mounted here")
    try:
        done = gaugerake(f"sqlite:///{disk / 'catalogue.sqlite3'}", "serve", "--port", str(free_port()))
    finally:
        subprocess.run(["umount", str(disk)], check=True)
    assert done.returncode == 3
    assert "catalogue cannot be opened" in done.stderr
    assert "Traceback" not in done.stderr
