"""The service as it runs: gunicorn with threads, in front of whichever catalogue the environment names.

The modules are loaded before the workers are forked, the app is made in each of them: no connection, thread or lock
is ever shared across a fork.
"""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path
from typing import Any

from flask import Flask
from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]

from gaugerake.catalogue.database import database_url
from gaugerake.catalogue.errors import CatalogueError, Unavailable
from gaugerake.catalogue.first_start import TOKEN_SECRET, ensure_ready
from gaugerake.catalogue.holder import SnapshotHolder
from gaugerake.catalogue.store import Store
from gaugerake.exchange.errors import WeakSecret
from gaugerake.exchange.token import Keys
from gaugerake.web.app import create_app
from gaugerake.web.tokens import VARIABLE, Secrets, given_secrets

HINDERED = 3
ADDRESS = "GAUGERAKE_ADDRESS"
THREADS = 8
_MEMORY = Path("/dev/shm")  # for the heartbeat file, where there is such


def serve(host: str = "127.0.0.1", port: int = 8080, workers: int = 2) -> int:
    """Serve until told to stop; the code to exit with.

    A message on standard error says why it could not begin, or where it serves once the first worker answers.
    """
    fault = _cannot_listen(host, port)
    if fault:
        sys.stderr.write(f"{fault}\n")
        return HINDERED
    try:
        if given_secrets():
            Keys(given_secrets())
    except WeakSecret as error:
        sys.stderr.write(f"{VARIABLE} cannot be used: {error}.\n")
        return HINDERED
    url = database_url()
    try:
        ensure_ready(url)
    except CatalogueError as error:
        sys.stderr.write(f"The catalogue cannot be opened: {error}\n")
        return HINDERED
    _Service(url, settings(host, port, workers)).run()
    return 0


def settings(host: str, port: int, workers: int) -> dict[str, Any]:
    """Gunicorn's settings. Its timeout is a heartbeat and not a limit of a request: slow clients are the proxy's."""
    return {
        "bind": f"{_bracketed(host)}:{port}",
        "workers": workers,
        "worker_class": "gthread",
        "threads": THREADS,
        "timeout": 60,
        "graceful_timeout": 30,
        "keepalive": 5,
        "worker_tmp_dir": str(_MEMORY) if os.access(_MEMORY, os.W_OK) else None,
        "control_socket_disable": True,
        "proc_name": "gaugerake",
        "logconfig_dict": LOGGING,
        "post_worker_init": _announce,
    }


LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": "gaugerake.web.traces.JsonLines"}},
    "handlers": {"out": {"class": "logging.StreamHandler", "stream": "ext://sys.stdout", "formatter": "lines"}},
    "root": {"level": "WARNING", "handlers": ["out"]},
    "loggers": {
        "gaugerake": {"level": "INFO", "handlers": ["out"], "propagate": False},
        "gunicorn.error": {"level": "INFO", "handlers": ["out"], "propagate": False},
        "gunicorn.access": {"level": "INFO", "handlers": [], "propagate": False},
    },
}


def secrets_of(store: Store) -> Secrets:
    """The secrets that sign tokens: the environment's, else the database's own, which all its workers share."""

    def secrets() -> tuple[str, ...]:
        given = given_secrets()
        if given:
            return given
        own = store.setting(TOKEN_SECRET)
        if own is None:
            raise Unavailable(f"the database holds no secret for tokens: set {VARIABLE}")
        return (own,)

    return secrets


class _Service(BaseApplication):  # type: ignore[misc]
    """Gunicorn around the app."""

    def __init__(self, url: str, options: dict[str, Any]) -> None:
        self.url, self.options = url, options
        super().__init__()

    def load_config(self) -> None:
        """Take our settings, and none from files or the command line."""
        for name, value in self.options.items():
            self.cfg.set(name, value)

    def load(self) -> Flask:
        """The app of one worker, its first snapshot read before the first request."""
        store = Store(self.url)
        holder = SnapshotHolder(store)
        holder.refresh()
        return create_app(holder, secrets=secrets_of(store), address=os.environ.get(ADDRESS))


def _announce(worker: Any) -> None:
    """Say where the service is, when the first worker can answer."""
    if worker.age == 1:
        address = worker.cfg.bind[0]
        sys.stderr.write(f"gaugerake serves on http://{address} with {worker.cfg.workers} workers\n")
        sys.stderr.flush()


def _bracketed(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def _cannot_listen(host: str, port: int) -> str | None:
    """Why the address cannot be listened on, if it cannot."""
    try:
        family, kind, _, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, kind) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(address)
    except OSError as error:
        return f"Cannot listen on {_bracketed(host)}:{port}: {error.strerror or error}. Choose another with --port."
    return None
