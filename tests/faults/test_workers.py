"""Workers and replicas die, are replaced and drain, while clients go on asking."""

import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from tests.faults.load import ANSWERED, LOST, REFUSED, UNSENT, Load
from tests.faults.processes import Deployed, Service, environment, eventually, free_port, kill

Note = Callable[..., None]


def test_a_killed_worker_loses_no_more_than_it_had_in_hand(service: Service, note: Note) -> None:
    load = Load(service.port, "kill-one")
    may_be_lost: set[str] = set()
    with load.running():
        for _ in range(3):
            victim = min(service.workers())
            begin, end = kill(victim)
            eventually(lambda: len(service.workers()) == 2, "another worker up")
            load.wait_for(20)
            may_be_lost |= {sent.id for sent in load.in_flight(begin, end)}
    assert {sent.id for sent in load.those(LOST)} <= may_be_lost
    assert load.those(REFUSED) == load.those(UNSENT) == []
    note("one of two workers killed (`kill -9`), three times", load, begin, in_flight=len(may_be_lost))


def test_all_workers_killed_at_once(service: Service, note: Note) -> None:
    load = Load(service.port, "kill-all")
    with load.running():
        before = service.workers()
        begin, end = kill(*before)
        eventually(lambda: len(service.workers() - before) == 2, "other workers up")
        load.wait_for(20)
    in_flight = {sent.id for sent in load.in_flight(begin, end)}
    assert {sent.id for sent in load.those(LOST)} <= in_flight
    assert load.those(REFUSED) == load.those(UNSENT) == []
    note("all workers killed at once", load, begin, in_flight=len(in_flight))


def test_a_reload_loses_nothing(service: Service, note: Note) -> None:
    load = Load(service.port, "hup")
    with load.running():
        for _ in range(3):
            before = service.workers()
            at = time.monotonic()
            service.process.send_signal(signal.SIGHUP)
            eventually(lambda before=before: len(service.workers()) == 2 and not service.workers() & before, "reloaded")
            load.wait_for(12)
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    note("settings reloaded (`HUP`), three times", load, at)


def test_clients_that_do_not_close_hold_up_nobody(service: Service, note: Note) -> None:
    load = Load(service.port, "unclosed", path="/v1/readiness")
    held: list[socket.socket] = []
    with load.running():
        at = time.monotonic()
        for _ in range(60):
            held.append(socket.create_connection(("127.0.0.1", service.port), timeout=30))
            held[-1].sendall(b"GET /healthz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        load.wait_for(60)
    for one in held:
        assert one.recv(15) == b"HTTP/1.1 200 OK"
        one.close()
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    note("60 sockets that are answered and not closed, without nginx", load, at)


def test_a_stop_answers_all_that_was_asked_and_leaves_nothing_behind(service: Service, note: Note) -> None:
    (folder,) = {line.split()[-1].rpartition("/")[0] for line in service.maps() if line.endswith(".db")}
    assert Path(folder).is_dir()
    load = Load(service.port, "term", clients=12)
    with load.running():
        at = time.monotonic()
        service.process.terminate()
        assert service.process.wait(45) == 0
    asked = [sent for sent in load.sent if sent.began <= at]
    assert [sent for sent in asked if sent.outcome != ANSWERED] == []
    assert not Path(folder).exists()
    note("stopped (`TERM`): all that was asked before", load, at, until=at, in_flight=len(load.in_flight(at, at)))


SLOW_TO_HEAR = """
import sys, time
from gaugerake.web.observe import metrics
take = metrics.take_slot
metrics.take_slot = lambda slot: (time.sleep(3), take(slot))
from gaugerake.cli import main
sys.exit(main())
"""


def test_a_stop_while_workers_begin_is_heard_by_them(tmp_path: Path) -> None:
    """The master tells a worker once; one that did not listen yet was waited for until it was killed."""
    command = [sys.executable, "-c", SLOW_TO_HEAR, "serve", "--port", str(free_port()), "--workers", "2"]
    database = environment(GAUGERAKE_DATABASE=f"sqlite:///{tmp_path / 'catalogue.sqlite3'}")
    with subprocess.Popen(command, env=database, stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as master:
        children = Path(f"/proc/{master.pid}/task/{master.pid}/children")
        eventually(lambda: len(children.read_text().split()) == 2, "both workers forked")
        master.terminate()
        assert master.stdout is not None
        log = master.stdout.read().decode()
    assert master.returncode == 0
    assert "was sent SIGKILL" not in log
    assert log.count("Worker exiting") == 2


STOPPED_AT_THE_FORK = """
import os, signal, sys
fork, children = os.fork, []
def stopped():
    child = fork()
    children.append(child)
    if child and len(children) in (2, 3):  # the first one makes the catalogue ready
        os.kill(child, signal.SIGTERM)
    return child
os.fork = stopped
from gaugerake.cli import main
sys.exit(main())
"""


def test_a_stop_that_comes_before_a_worker_is_quite_forked_is_heard(tmp_path: Path) -> None:
    """Python forgets the signals that a process has before its fork is done; two others take the workers' places."""
    command = [sys.executable, "-c", STOPPED_AT_THE_FORK, "serve", "--port", str(free_port()), "--workers", "2"]
    database = environment(GAUGERAKE_DATABASE=f"sqlite:///{tmp_path / 'catalogue.sqlite3'}")
    said = tmp_path / "log"
    with said.open("wb") as log, subprocess.Popen(command, env=database, stdout=log, stderr=log) as master:
        try:
            eventually(lambda: said.read_text().count("Worker exiting") == 2, "both workers gone")
            eventually(lambda: said.read_text().count("Booting worker") == 4, "two others forked")
        finally:
            master.terminate()
    assert master.returncode == 0
    assert "was sent SIGKILL" not in said.read_text()


def test_behind_the_edge_a_killed_worker_loses_no_more_than_it_was_sending(deployed: Deployed, note: Note) -> None:
    """What was not begun to be answered is asked again of another worker; an answer that was half out cannot be."""
    one, other = deployed.replicas
    load = Load(deployed.nginx.port, "edge-kill", tls=deployed.nginx.tls)
    in_flight: set[str] = set()
    with load.running():
        for replica in (one, other, one):
            begin, end = kill(min(replica.workers()))
            load.wait_for(20)
            in_flight |= {sent.id for sent in load.in_flight(begin, end)}
    assert_half_sent(load, in_flight)
    note("a worker killed behind nginx, three times", load, begin, in_flight=len(in_flight))


def test_behind_the_edge_replicas_take_each_others_place(deployed: Deployed, note: Note) -> None:
    one, other = deployed.replicas
    load = Load(deployed.nginx.port, "edge-replica", tls=deployed.nginx.tls)
    with load.running():
        at = time.monotonic()
        one.kill_all()
        end = time.monotonic()
        load.wait_for(20)
        one.start()
        other.stop()
        load.wait_for(20)
    other.start()
    in_flight = {sent.id for sent in load.in_flight(at, end)}
    assert_half_sent(load, in_flight)
    note(
        "one replica killed and started again, then the other stopped, behind nginx", load, at, in_flight=len(in_flight)
    )


def assert_half_sent(load: Load, in_flight: set[str]) -> None:
    """Nothing is lost but answers that were being sent when their worker was killed."""
    failed = [sent for sent in load.sent if sent.outcome != ANSWERED]
    assert {sent.id for sent in failed} <= in_flight
    assert all("IncompleteRead" in sent.seen for sent in failed), failed
