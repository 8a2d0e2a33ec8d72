"""The processes of a deployment, on loopback: the service, nginx with the very file of docker/, PostgreSQL."""

import json
import os
import pwd
import re
import shutil
import signal
import socket
import ssl
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from tests.service import free_port

ROOT = Path(__file__).parents[2]
MAIN = [sys.executable, "-c", "import sys; from gaugerake.cli import main; sys.exit(main())"]
SETTINGS = ("GAUGERAKE_", "PROMETHEUS_")


def eventually(seen: Callable[[], Any], what: str = "it") -> Any:
    """Wait until ``seen`` gives something true, and give that; fail after half a minute, far more than it takes."""
    for _ in range(600):
        found = seen()
        if found:
            return found
        time.sleep(0.05)
    raise AssertionError(f"{what} never became so")


def environment(**changes: str) -> dict[str, str]:
    """This process's environment without settings of the service, and with these."""
    return {name: value for name, value in os.environ.items() if not name.startswith(SETTINGS)} | changes


def gaugerake(database: str, *arguments: str, **options: Any) -> subprocess.CompletedProcess[str]:
    """Run one command of the command line to its end, on this database."""
    return subprocess.run(
        [*MAIN, *arguments],
        env=environment(GAUGERAKE_DATABASE=database),
        capture_output=True,
        text=True,
        timeout=120,
        **options,
    )


class Service:
    """One replica: ``gaugerake serve`` with two workers, on a free port of this machine."""

    def __init__(self, folder: Path, database: str, *, port: int = 0, prefix: tuple[str, ...] = (), **env: str) -> None:
        self.port, self.database = port or free_port(), database
        self.log = folder / f"service-{self.port}.log"
        self._env = environment(GAUGERAKE_DATABASE=database, **env)
        self._prefix = prefix
        self.start()

    def start(self) -> None:
        """Start, and wait until the first worker answers."""
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [*self._prefix, *MAIN, "serve", "--port", str(self.port), "--workers", "2"],
                env=self._env,
                stdout=log,
                stderr=log,
            )
        eventually(lambda: b"gaugerake serves on" in self.log.read_bytes() and self.alive(), "the service up")
        eventually(lambda: len(self.workers()) == 2, "both workers up")

    def alive(self) -> bool:
        """Whether it answers."""
        try:
            return bool(self.get("/healthz")["alive"])
        except OSError:
            return False

    def get(self, path: str) -> Any:
        """The JSON of an address."""
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}{path}", timeout=30) as response:
            return json.load(response)

    def text(self, path: str) -> str:
        """The text of an address."""
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}{path}", timeout=30) as response:
            return str(response.read().decode())

    def workers(self) -> set[int]:
        """The processes of its workers that are not on their way out."""
        children = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text()
        return {pid for pid in map(int, children.split()) if not gone(pid)}

    def maps(self) -> list[str]:
        """The files that one worker has mapped into memory, as lines of /proc."""
        return Path(f"/proc/{min(self.workers())}/maps").read_text().splitlines()

    def kill_all(self) -> None:
        """End it and its workers at once."""
        workers = self.workers()
        self.process.kill()
        for pid in workers:
            os.kill(pid, signal.SIGKILL)
        self.process.wait(30)

    def stop(self) -> None:
        """Ask it to end, and kill it where it does not within 45 s."""
        if self.process.poll() is None:
            self.process.terminate()
            try:
                self.process.wait(45)
            except subprocess.TimeoutExpired:
                self.kill_all()


def gone(pid: int) -> bool:
    """Whether a process has ended, waited for or not."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] == "Z"
    except OSError:
        return True


def kill(*pids: int) -> tuple[float, float]:
    """Kill processes and wait until they are gone; the monotonic times before and after [s]."""
    begin = time.monotonic()
    for pid in pids:
        os.kill(pid, signal.SIGKILL)
    eventually(lambda: all(gone(pid) for pid in pids), "the processes gone")
    return begin, time.monotonic()


KEYS = {"ECDSA": ("ec", "-pkeyopt", "ec_paramgen_curve:prime256v1"), "RSA": ("rsa:2048",)}


def certificate(folder: Path, key: str = "ECDSA") -> None:
    """Write a self-signed certificate for this machine, with a key of this kind."""
    subprocess.run(
        [
            *("openssl", "req", "-x509", "-nodes", "-newkey", *KEYS[key]),
            *("-keyout", folder / "certificate_key", "-out", folder / "certificate", "-days", "2"),
            *("-subj", "/CN=localhost", "-addext", "subjectAltName=IP:127.0.0.1,DNS:localhost"),
        ],
        check=True,
        capture_output=True,
    )


class Nginx:
    """nginx with docker/nginx.conf, started by docker/edge.sh; only addresses and paths are changed."""

    def __init__(self, folder: Path, *replicas: int, balancers: str = "", key: str = "ECDSA") -> None:
        self.folder = folder
        self._env = {
            **environment(GAUGERAKE_TRUSTED_HOSTS="floors.example, .shop.example", GAUGERAKE_BALANCERS=balancers),
            "EDGE_SETTINGS": str(folder / "settings"),
        }
        self.port, self.plain_port = free_port(), free_port()
        certificate(folder, key)
        text = (ROOT / "docker" / "nginx.conf").read_text("utf-8")
        for old, new in (
            ("/tmp/", f"{folder}/"),
            ("/run/secrets/", f"{folder}/"),
            ("/dev/stderr", f"{folder}/error.log"),
            ("/dev/stdout", f"{folder}/access.log"),
            ("listen 8443", f"listen 127.0.0.1:{self.port}"),
            ("listen 8080", f"listen 127.0.0.1:{self.plain_port}"),
            ("api-1:8080", f"127.0.0.1:{replicas[0]}"),
            ("api-2:8080", f"127.0.0.1:{replicas[1]}"),
        ):
            assert old in text, old
            text = text.replace(old, new)
        assert not re.search(r"/run/|/dev/std|api-\d", text)
        (folder / "nginx.conf").write_text(text, "utf-8")
        edge = (ROOT / "docker" / "edge.sh").read_text("utf-8")
        for old, new in (('"8443 ', f'"{self.port} '), ('"8080 ', f'"{self.plain_port} '), ("[::]", "[::1]")):
            assert old in edge, old
            edge = edge.replace(old, new)
        (folder / "edge.sh").write_text(edge, "utf-8")
        self.command = ["sh", str(folder / "edge.sh"), "-p", str(folder), "-c", str(folder / "nginx.conf")]
        self.tls = ssl.create_default_context(cafile=str(folder / "certificate"))
        self.tls.set_alpn_protocols(["http/1.1"])

    def start(self) -> None:
        """Start, and wait until it listens."""
        self.process = subprocess.Popen(
            [*self.command, "-g", "daemon off;"],
            env=self._env,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        eventually(self._listens, "nginx up")

    def _listens(self) -> bool:
        try:
            socket.create_connection(("127.0.0.1", self.port), timeout=5).close()
        except OSError:
            return False
        return True

    def judged(self) -> subprocess.CompletedProcess[str]:
        """Let nginx check its settings (``nginx -t``)."""
        return subprocess.run([*self.command, "-t"], env=self._env, capture_output=True, text=True)

    def stop(self) -> None:
        """End it."""
        self.process.terminate()
        self.process.wait(30)


class Deployed:
    """nginx, two replicas and a database."""

    SECRET = "a-secret-for-tokens-that-no-log-may-show-0123456789"

    def __init__(self, folder: Path, database: str) -> None:
        settings = {"GAUGERAKE_SECRETS_FILE": str(folder / "token_secrets"), "GAUGERAKE_PROXY_HOPS": "1"}
        (folder / "token_secrets").write_text(f"{self.SECRET}\n", "utf-8")
        self.folder, self.database = folder, database
        self.replicas = [
            Service(folder, database, GAUGERAKE_TRUSTED_HOSTS="floors.example", **settings) for _ in range(2)
        ]
        self.nginx = Nginx(folder, *(replica.port for replica in self.replicas))
        self.nginx.start()

    def logs(self) -> str:
        """All that any of them has logged."""
        return "".join(path.read_text("utf-8") for path in self.folder.glob("*.log"))

    def stop(self) -> None:
        """End all."""
        self.nginx.stop()
        for replica in self.replicas:
            replica.stop()


class Postgres:
    """A PostgreSQL server of the tests, under another user where this one is root, as it refuses to run as root."""

    def __init__(self, folder: Path) -> None:
        self.port = free_port()
        self.folder, self.data = folder, folder / "data"
        self._user = pwd.getpwnam("nobody").pw_uid if os.geteuid() == 0 else None
        install = _postgres_folder()
        if self._user is not None and not all(parent.stat().st_mode & 0o001 for parent in install.parents):
            shutil.copytree(install, folder / "install", symlinks=True)  # the other user may not look there
            install = folder / "install"
        self.programs = install / "bin"
        if self._user is not None:
            os.chown(folder, self._user, -1)
        self._run("initdb", "--auth=trust", "--encoding=utf8", "--no-sync", "-U", "gaugerake", "-D", str(self.data))

    def url(self, database: str = "postgres", *, port: int = 0) -> str:
        """The address of a database, through another port if need be."""
        return f"postgresql+psycopg://gaugerake@127.0.0.1:{port or self.port}/{database}"

    def new(self, database: str, *, template: str = "template1") -> str:
        """Create a database, empty or a copy of ``template``, and give its address."""
        self.say(f"CREATE DATABASE {database} TEMPLATE {template}")
        return self.url(database)

    def _run(self, name: str, *arguments: str) -> None:
        subprocess.run(
            [str(self.programs / name), *arguments],
            check=True,
            timeout=60,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            user=self._user,
            cwd=self.folder,
        )

    def start(self) -> None:
        """Start, and wait until it answers."""
        options = f"-p {self.port} -c listen_addresses=127.0.0.1 -c unix_socket_directories= -c fsync=off"
        log = str(self.folder / "log")
        self._run("pg_ctl", "-D", str(self.data), "-w", "-l", log, "-o", options, "start")

    def stop(self, mode: str = "immediate") -> None:
        """Stop, by default as a crash would."""
        self._run("pg_ctl", "-D", str(self.data), "-w", "-m", mode, "stop")

    def say(self, statement: str, database: str = "postgres") -> None:
        """Run one statement."""
        import psycopg

        with psycopg.connect(self.url(database).replace("+psycopg", ""), autocommit=True) as connection:
            connection.execute(statement)  # type: ignore[call-overload]


def allow_open_files(number: int) -> None:
    """Allow this process so many open files, where it may."""
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = number if hard == resource.RLIM_INFINITY else min(number, hard)
    resource.setrlimit(resource.RLIMIT_NOFILE, (max(soft, wanted), hard))


def _postgres_folder() -> Path:
    """Where PostgreSQL's programs stand: in a package for Python before 3.13, else where Debian puts them."""
    package = find_spec("pgserver")  # for its files alone: an import would set up a server of its own
    if package is not None and package.origin is not None:
        return Path(package.origin).parent / "pginstall"
    newest = max(Path("/usr/lib/postgresql").glob("*/bin/initdb"), default=None)
    assert newest is not None, "PostgreSQL is not installed: apt-get install postgresql"
    return newest.parents[1]
