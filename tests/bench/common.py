"""What the benches share: servers on loopback, wrk, medians, and the tables of tests/bench/results.

Times on one machine mean little on another, and little on the same one an hour later. So everything is a ratio of
things measured side by side, in turn, in one run.
"""

import contextlib
import hashlib
import json
import os
import platform
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, NamedTuple

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
PYTHON = ROOT / ".venv" / "bin" / "python"
if {"-h", "--help"} & set(sys.argv[1:]) and Path(getattr(sys.modules["__main__"], "__file__", "")).parent == HERE:
    print((sys.modules["__main__"].__doc__ or "").strip())
    sys.exit()  # a bench takes minutes: who asks what it does must not start it
if Path(sys.prefix) != PYTHON.parents[1] and __name__ != "__main__":
    if not PYTHON.exists():
        subprocess.run([sys.executable, str(ROOT / "api" / "prepare.py"), "tests/locked.txt"], check=True)
    os.execv(PYTHON, [str(PYTHON), *sys.argv])  # the project's own Python, as tests/run has it
PEERS = ROOT / ".venv-bench"
RESULTS = ROOT / "tests" / "bench" / "results"
sys.path.insert(0, str(ROOT / "api"))  # this tree's own, whatever is installed
WORKERS = 2
BEGIN, END = "<!-- bench:begin -->", "<!-- bench:end -->"


def need(program: str, package: str) -> str:
    """The path of a program, installed from Debian when it is missing and this user may."""
    found = shutil.which(program)
    if found is None and os.geteuid() == 0 and shutil.which("apt-get"):
        subprocess.run(
            ["apt-get", "install", "-y", "-qq", "--no-install-recommends", package], check=False, capture_output=True
        )
        found = shutil.which(program)
    if found is None:
        sys.exit(f"{program} is not installed: apt-get install {package}")
    return found


def peer_python() -> Path:
    """The Python of the peers' own environment."""
    return locked_python(PEERS, HERE / "locked.txt")


def locked_python(folder: Path, lock: Path) -> Path:
    """The Python of an environment, made from the lock when it is not there or not from this lock."""
    stamp, python = folder / "stamp", folder / "bin" / "python"
    digest = hashlib.sha256(lock.read_bytes()).hexdigest()
    if not stamp.exists() or stamp.read_text() != digest:
        print(f"making {folder.name} ...", file=sys.stderr)
        subprocess.run([sys.executable, "-m", "venv", "--clear", folder], check=True)
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--require-hashes", "-r", lock]
        subprocess.run(pip, check=True)
        stamp.write_text(digest)
    return python


def free_port() -> int:
    """A port of loopback that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextlib.contextmanager
def running(command: Sequence[Any], port: int, path: str, **environment: str) -> Iterator[subprocess.Popen[bytes]]:
    """A server while it is wanted, once it answers something at the path."""
    process = subprocess.Popen(
        [str(part) for part in command],
        env={**os.environ, "PYTHONPATH": f"{ROOT / 'api'}:{HERE / 'peers'}", **environment},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        await_answer(port, path, process)
        yield process
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(15)
        except subprocess.TimeoutExpired:
            process.kill()


def await_answer(port: int, path: str, process: subprocess.Popen[bytes], seconds: float = 60) -> None:
    """Wait until something answers, be it a 404 or a 405."""
    until = time.monotonic() + seconds
    while time.monotonic() < until and process.poll() is None:
        with contextlib.suppress(OSError):
            with contextlib.suppress(urllib.error.HTTPError):
                urllib.request.urlopen(f"http://127.0.0.1:{port}{path}", timeout=5).read()
            return
        time.sleep(0.02)
    sys.exit("a server of the bench did not begin to answer")


@contextlib.contextmanager
def service(workers: int = WORKERS, **environment: str) -> Iterator[tuple[int, subprocess.Popen[bytes]]]:
    """Our own service as people run it, over a database of its own."""
    port = free_port()
    with tempfile.TemporaryDirectory(prefix="gaugerake-bench-") as folder:
        database = f"sqlite:///{folder}/catalogue.sqlite3"
        command = [PYTHON, "-c", "import sys; from gaugerake.cli import main; sys.exit(main(sys.argv[1:]))"]
        command += ["serve", "--port", port, "--workers", workers]
        with running(command, port, "/healthz", GAUGERAKE_DATABASE=database, **environment) as process:
            yield port, process


def post(port: int, path: str, job: Any) -> bytes:
    """One answer."""
    request = urllib.request.Request(
        f"http://127.0.0.1:{port}{path}", json.dumps(job).encode(), {"Content-Type": "application/json"}
    )
    with urllib.request.urlopen(request, timeout=120) as response:
        return bytes(response.read())


def bodies(folder: str, name: str, jobs: Iterable[Any]) -> Path:
    """A file of jobs, one a line, for wrk."""
    path = Path(folder) / f"{name}.ndjson"
    path.write_text("".join(json.dumps(job) + "\n" for job in jobs))
    return path


class Load(NamedTuple):
    """What was answered, and in what time."""

    answers: int
    seconds: float

    @property
    def rate(self) -> float:
        """Answers per second."""
        return self.answers / self.seconds


def processor_s(process: subprocess.Popen[bytes]) -> float:
    """The processor's time [s] that a server and its workers have had: the machine's other work is not in it."""
    pids = [process.pid]
    for pid in pids:
        pids += map(int, Path(f"/proc/{pid}/task/{pid}/children").read_text().split())
    stats = [Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split() for pid in pids]
    return sum(int(stat[11]) + int(stat[12]) for stat in stats) / os.sysconf("SC_CLK_TCK")


def wrk(port: int, path: str, file: Path, *, seconds: float = 2, connections: int = 8) -> Load:
    """Ask for as long; it is a fault if any request fails."""
    command = [need("wrk", "wrk"), "-t1", f"-c{connections}", f"-d{seconds:g}s", "--timeout", "20s"]
    command += ["-s", str(HERE / "pick.lua"), f"http://127.0.0.1:{port}{path}", "--", str(file)]
    told = subprocess.run(command, capture_output=True, text=True, timeout=seconds + 60).stdout
    found = re.search(r"^RESULT (\d+) (\d+) (\d+) (\d+) (\d+)$", told, re.M)
    if found is None or found[3] != "0" or found[1] == "0":
        sys.exit(f"wrk did not get its answers from {path}:\n{told}")
    return Load(int(found[1]), int(found[2]) / 1e6)


def table(head: Sequence[str], rows: Iterable[Sequence[Any]]) -> str:
    """A table in Markdown."""
    lines = [head, ["---"] + ["---:"] * (len(head) - 1), *rows]
    return "\n".join("| " + " | ".join(str(cell) for cell in line) + " |" for line in lines)


def machine() -> str:
    """Where and when this was."""
    model = re.search(r"model name\s*: (.*)", Path("/proc/cpuinfo").read_text())
    cores = len(os.sched_getaffinity(0))
    load = os.getloadavg()[0]
    return (
        f"{datetime.now(UTC):%Y-%m-%d}, {cores} cores ({model[1] if model else platform.machine()}), Linux,"
        f" Python {platform.python_version()}; load of the machine at the end {load:.1f}."
    )


def report(name: str, about: str, *tables: str, into: str = "speed", within: tuple[str, str] = (BEGIN, END)) -> None:
    """Print what was found, and with ``--write`` put it in its place in a file of tests/bench/results."""
    text = f"### `tests/bench/{name}`\n\n{about} {machine()}\n\n" + "\n\n".join(tables) + "\n"
    print(text)
    if "--write" not in sys.argv:
        return
    file = RESULTS / f"{into}.md"
    notes = file.read_text("utf-8")
    begin, end = within
    before, _, rest = notes.partition(begin)
    inside, _, after = rest.partition(end)
    parts = {
        part.split("`")[1]: part for part in re.split(r"(?m)^(?=### `)", inside.strip()) if part.startswith("### ")
    }
    parts[f"tests/bench/{name}"] = text
    written = "\n".join(parts[key].rstrip() + "\n" for key in sorted(parts))
    file.write_text(f"{before}{begin}\n\n{written}\n{end}{after}", "utf-8")


def option(name: str, default: float) -> float:
    """``--name=value`` of the command line."""
    for argument in sys.argv[1:]:
        if argument.startswith(f"--{name}="):
            return float(argument.partition("=")[2])
    return default
