"""Contexts of one browser, each as if it were new.

One of a kind that is asked for again is kept, emptied, for whoever wants it next. A blank page stays open in it, and
with it the process that draws all pages of this machine there: to start one and warm it up takes more of the processor
than to open the page and have its first quote.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, BrowserContext

BLANK = "http://127.0.0.1/"
"""Where the page is that stays open: nothing listens there, it is answered here. A port is no part of a site."""
MOST_KEPT = 3
"""Each has a process of some 100 MB."""
Options = dict[str, Any]


class Profile:
    """A context, with a page that stays open."""

    def __init__(self, browser: Browser, options: Options) -> None:
        self.options, self.lent = options, False
        self.context: BrowserContext = browser.new_context(**options)
        self._page = self.context.new_page()
        self._page.route(BLANK, lambda route: route.fulfill(body="", content_type="text/html"))
        self._page.goto(BLANK)
        self._tools = self.context.new_cdp_session(self._page)

    def empty(self) -> None:
        """Close what was opened, forget what was stored, fetched and allowed, and have a network again."""
        for page in self.context.pages:
            if page != self._page:
                page.close()
        self.context.clear_cookies()
        self.context.clear_permissions()
        self.context.set_offline(False)
        self._tools.send("Storage.clearDataForOrigin", {"origin": "*", "storageTypes": "all"})
        self._tools.send("Network.clearBrowserCache")


class Profiles:
    """Lends contexts of a browser."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._asked: list[Options] = []
        self._kept: list[Profile] = []

    @contextmanager
    def lend(self, **options: Any) -> Iterator[BrowserContext]:
        """A context in which nothing is stored. Who lets a service worker run has a new one."""
        profile = self._free(options) if options.get("service_workers") == "block" else None
        if profile is None:
            with self._browser.new_context(**options) as context:
                yield context
            return
        profile.lent = True
        try:
            yield profile.context
        finally:
            profile.empty()
            profile.lent = False

    def _free(self, options: Options) -> Profile | None:
        """One of this kind that nobody has; none the first time, as some kinds are asked for once."""
        if options not in self._asked:
            self._asked.append(options)
            return None
        for profile in self._kept:
            if profile.options == options:
                return None if profile.lent else profile
        return self._make(options)

    def _make(self, options: Options) -> Profile | None:
        if len(self._kept) == MOST_KEPT:
            if self._kept[0].lent:
                return None
            self._kept.pop(0).context.close()
        self._kept.append(Profile(self._browser, options))
        return self._kept[-1]
