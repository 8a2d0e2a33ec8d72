"""The page in Debian's chromium, before a running service."""

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager
from functools import cache, partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright
from tests import builders
from tests.answers.slab_jobs import CATALOGUE
from tests.browser.desk import READY, Desk, link
from tests.browser.keyed import Keyed, serving
from tests.browser.pouring import BOARD, Pour
from tests.browser.profiles import Profiles
from tests.service import running

from gaugerake.catalogue.store.first_start import ensure_ready

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--process-per-site",
]


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a running service."""
    with running(tmp_path_factory.mktemp("service")) as address:
        yield address


class Quiet(SimpleHTTPRequestHandler):
    """Serves files and tells nobody."""

    def log_message(self, *_given: Any) -> None:
        """Nothing."""


@pytest.fixture(scope="session")
def other_origin(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """The origin of a shop, and the folder of its pages."""
    folder = tmp_path_factory.mktemp("shop")
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}", folder
        server.shutdown()


@pytest.fixture(scope="session")
def keyed(other_origin: tuple[str, Path], tmp_path_factory: pytest.TempPathFactory) -> Iterator[Keyed]:
    """A running service that asks for a key."""
    with serving(tmp_path_factory.mktemp("keyed"), other_origin[0]) as service:
        yield service


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium; without one the tests are skipped, and fail where CI is set."""
    path = shutil.which("chromium")
    if path is None:
        if os.environ.get("CI"):
            pytest.fail("the browser tests need Debian's chromium")
        pytest.skip("no chromium here")
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def profiles(browser: Browser) -> Profiles:
    """Contexts of the browser, one of which is kept for the next test."""
    return Profiles(browser)


Open = Callable[..., Desk]
Example = Callable[[str], Any]
expect.set_options(timeout=20_000)


LOOKS = ("color_scheme", "reduced_motion", "forced_colors")
"""What a page is told for itself; all else makes a context of another kind."""

Lend = Callable[..., AbstractContextManager[BrowserContext]]


@contextmanager
def opening(lend: Lend, server: str) -> Iterator[Open]:
    """Opens the page in a browser that keeps nothing from before; what it must never do is asked at the end."""
    desks: list[Desk] = []

    def open_it(width: int = 1280, *, job: Any = None, units: str = "us", path: str = "", **options: Any) -> Desk:
        address, ready = options.pop("server", server), options.pop("ready", READY)
        looks = {name: options.pop(name) for name in LOOKS if name in options}
        options = {"service_workers": "block", "locale": "en-US", "timezone_id": "America/Chicago", **options}
        page = lent.enter_context(lend(viewport={"width": 1280, "height": 900}, **options)).new_page()
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(**looks)
        desk = Desk(page, address)
        desks.append(desk)
        desk.open(path, job=job, units=units, ready=ready)
        return desk

    with ExitStack() as lent:
        yield open_it
    for desk in desks:
        assert desk.outside == [], "a request left the host"
        assert desk.complaints == [], "the browser complained"


@pytest.fixture
def open_page(profiles: Profiles, server: str) -> Iterator[Open]:
    """Opens the page for one test, which may do with it what it likes."""
    with opening(profiles.lend, server) as open_it:
        yield open_it


@pytest.fixture(scope="session")
def shown(browser: Browser, server: str, example: Example) -> Iterator[Callable[..., Desk]]:
    """A quote on the sheet of a wide page, opened once for all tests that do no more than look at it and unfold it."""
    with opening(browser.new_context, server) as open_it:

        @cache
        def show(name: str, units: str = "us") -> Desk:
            desk = open_it(job=example(name), units=units)
            desk.quoted()
            return desk

        yield show


@pytest.fixture(scope="session")
def example() -> Example:
    """A filled job of the description's own."""
    return builders.example


@pytest.fixture(scope="session")
def marks_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a service with floors whose mixes cover round areas."""
    folder: Path = tmp_path_factory.mktemp("marks")
    url = f"sqlite:///{folder / 'catalogue.sqlite3'}"
    ensure_ready(url).load(CATALOGUE)
    with running(folder, database=url) as address:
        yield address


Phone = Callable[..., Pour]


@pytest.fixture
def phone(profiles: Profiles, marks_server: str) -> Iterator[Phone]:
    """Opens the page on the slab on a phone that has nothing but a finger."""
    with opening(profiles.lend, marks_server) as open_it:
        touch = {"has_touch": True, "is_mobile": True}

        def go(document: Any, *, width: int = 390, ready: str = BOARD, units: str = "us", **options: Any) -> Pour:
            path = f"slab.html{link(document, units) if document else ''}"
            return Pour(open_it(width, path=path, ready=ready, **touch, **options))

        yield go
