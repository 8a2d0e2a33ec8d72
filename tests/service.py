"""The service as it runs: gunicorn on a free port, with a database of its own filled with the demonstration."""

import os
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running(folder: Path, *, database: str | None = None, workers: int = 2, **settings: str) -> Iterator[str]:
    """The address of a service that runs until the block is left; its log is in the folder, and so is its catalogue."""
    port = free_port()
    kept = database or f"sqlite:///{folder / 'catalogue.sqlite3'}"
    environment = {**os.environ, "GAUGERAKE_DATABASE": kept, **settings}
    command = [sys.executable, "-c", "import sys; from gaugerake.cli import main; sys.exit(main())"]
    with (folder / "log").open("wb") as log:
        process = subprocess.Popen(
            [*command, "serve", "--port", str(port), "--workers", str(workers)],
            env=environment,
            stdout=log,
            stderr=subprocess.PIPE,
        )
        assert process.stderr is not None
        try:
            said = process.stderr.readline().decode()
            told = "1 worker" if workers == 1 else f"{workers} workers"
            assert said == f"gaugerake serves on http://127.0.0.1:{port} with {told}\n"
            yield f"http://127.0.0.1:{port}"
        finally:
            ended = _stopped(process)
            process.stderr.close()
        assert ended == 0, (folder / "log").read_text("utf-8")[-4000:]


def _stopped(process: subprocess.Popen[bytes]) -> int | None:
    """How it ended; None when it took over half a minute, and was killed with all that was left of it."""
    process.terminate()
    with suppress(subprocess.TimeoutExpired):
        return process.wait(timeout=30)
    for child in Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text("ascii").split():
        os.kill(int(child), signal.SIGKILL)
    process.kill()
    process.wait()
    return None
