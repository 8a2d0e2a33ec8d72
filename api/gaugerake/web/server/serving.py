"""The service as it runs: gunicorn with threads, in front of whichever catalogue the environment names.

The modules are loaded before the workers are forked, the app is made in each of them: no connection, thread or lock
is ever shared across a fork.
"""

from __future__ import annotations

import gc
import os
import runpy
import socket
import sys
from pathlib import Path
from typing import Any

from flask import Flask
from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]

from gaugerake.catalogue.errors import CatalogueError, Unavailable
from gaugerake.catalogue.store.database import database_url
from gaugerake.catalogue.store.first_start import TOKEN_SECRET, ensure_ready
from gaugerake.catalogue.store.holder import SnapshotHolder
from gaugerake.catalogue.store.revisions import Store
from gaugerake.catalogue.store.spare import Spare
from gaugerake.exchange.errors import WeakSecret
from gaugerake.exchange.token import Keys
from gaugerake.shipped import shipped
from gaugerake.web.api.tokens import VARIABLE, Secrets, given_secrets
from gaugerake.web.observe import metrics
from gaugerake.web.server import counter, edge, limits, own_settings
from gaugerake.web.server.apart import apart
from gaugerake.web.server.app import create_app
from gaugerake.web.server.master import Master
from gaugerake.web.server.run_folder import run_folder
from gaugerake.web.server.worker import before_fork, free_slot

HINDERED = 3
COUNTS = "rates.sqlite3"
GARBAGE = (20_000, 20, 20)
"""Objects between collections: about two answers' worth, of which next to none is in a cycle."""
SWITCH_SECONDS = 0.001
"""How long a thread computes before it lets another one go on.

At Python's own 5 ms, four dear requests in a worker kept /healthz waiting for up to a second; at 1 ms for a third of
that, and no fewer were answered (tests/bench/results/beside.md).
"""
SETTINGS = shipped("docker/gunicorn.conf.py")


def serve(host: str = "127.0.0.1", port: int = 8080, workers: int = 2) -> int:
    """Serve until told to stop; the code to exit with.

    A message on standard error says why it could not begin, or where it serves once the first worker answers.
    """
    fault = _hindrance(host, port)
    if fault:
        sys.stderr.write(f"{fault}\n")
        return HINDERED
    url = database_url()
    code = apart(lambda: _make_ready(url))
    if code:
        if code < 0:
            sys.stderr.write(f"The catalogue cannot be opened: signal {-code} ended the process that does so\n")
        return HINDERED
    with run_folder() as folder:
        os.environ[metrics.DIRECTORY] = str(folder)
        _Service(url, folder, settings(host, port, workers)).run()
    return 0


def _hindrance(host: str, port: int) -> str | None:
    """Why the service cannot begin, if the address or a setting is at fault."""
    fault = _cannot_listen(host, port)
    if fault:
        return fault
    try:
        if given_secrets():
            Keys(given_secrets())
    except WeakSecret as error:
        return f"{VARIABLE} cannot be used: {error}."
    try:
        edge.proxy_hops(os.environ)
        edge.page_address(os.environ)
        limits.access_settings(os.environ)
    except edge.BadSetting as error:
        return str(error)
    return None


def _make_ready(url: str) -> int:
    """Give an empty database what a first start gives it; the code to exit with, beside the reason if it cannot."""
    try:
        ensure_ready(url)
    except CatalogueError as error:
        sys.stderr.write(f"The catalogue cannot be opened: {error}\n")
        return HINDERED
    return 0


def settings(host: str, port: int, workers: int) -> dict[str, Any]:
    """Gunicorn's settings: those of the file beside the other files of the deployment, and the command line's."""
    given, known = runpy.run_path(str(SETTINGS)), own_settings.known()
    return {name: value for name, value in given.items() if name in known} | {
        "bind": f"{_bracketed(host)}:{port}",
        "workers": workers,
        "pre_fork": before_fork,
        "child_exit": free_slot,
        "when_ready": _loaded,
        "post_worker_init": _ready,
    }


def secrets_of(store: Store, spare: Spare) -> Secrets:
    """The secrets that sign tokens: the environment's, else the database's own, which all its workers share."""

    def secrets() -> tuple[str, ...]:
        given = given_secrets()
        if given:
            return given
        try:
            own = store.setting(TOKEN_SECRET)
        except Unavailable:
            own = spare.setting(TOKEN_SECRET)
        if own is None:
            raise Unavailable(f"the database holds no secret for tokens: set {VARIABLE}")
        return (own,)

    return secrets


class _Service(BaseApplication):  # type: ignore[misc]
    """Gunicorn around the app."""

    def __init__(self, url: str, folder: Path, options: dict[str, Any]) -> None:
        self.options = options
        self.store, self.spare = Store(url), Spare(folder)
        self.counts = folder / COUNTS
        counter.make(self.counts)
        # read before the fork, so that a worker that takes another's place begins with it; no connection is kept
        self.holder = SnapshotHolder(self.store, spare=self.spare)
        self.holder.refresh()
        super().__init__()

    def load_config(self) -> None:
        """Take our settings, and none from the places where gunicorn would look."""
        for name, value in self.options.items():
            self.cfg.set(name, value)

    def run(self) -> None:
        """Serve until told to stop."""
        Master(self).run()

    def load(self) -> Flask:
        """The app of one worker, which has looked for another snapshot before the first request."""
        self.holder.start()
        return create_app(
            self.holder,
            secrets=secrets_of(self.store, self.spare),
            address=edge.page_address(os.environ),
            counts=self.counts,
        )


def _loaded(_server: Any) -> None:
    """Before the first fork: what is loaded stays, and workers share it as long as nobody looks through it."""
    gc.freeze()
    gc.enable()


def _ready(worker: Any) -> None:
    """Let no collection of garbage look again and again at what stays, and threads take turns often; then announce."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*GARBAGE)
    sys.setswitchinterval(SWITCH_SECONDS)
    _announce(worker)


def _announce(worker: Any) -> None:
    """Say where the service is, when the first worker can answer."""
    if worker.age == 1:
        address = worker.cfg.bind[0]
        workers = "1 worker" if worker.cfg.workers == 1 else f"{worker.cfg.workers} workers"
        sys.stderr.write(f"gaugerake serves on http://{address} with {workers}\n")
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
