"""What a person does at the page, in the words of one."""

import base64
import json
import re
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import ConsoleMessage, Page, Request, expect

RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
    # style sheets are asked for again by one rule alone, which has a test of its own
    "preload": False,
}
AXE = Axe().axe_script
VIOLATIONS = "(options) => axe.run(options).then(({violations}) => violations)"
CHOSEN = "axe.configure({rules: [{id: 'color-contrast', selector: '[data-chosen]'}]})"
CHOOSE = """() => {
  const drawn = ['color', 'backgroundColor', 'backgroundImage', 'opacity', 'fontSize', 'fontWeight', 'textShadow',
    'filter', 'mixBlendMode', 'position', 'zIndex', 'transform'];
  const makes = new Map([[null, '']]);
  const make = (one) => {
    if (!makes.has(one)) {
      const style = getComputedStyle(one);
      makes.set(one, `${make(one.parentElement)} > ${one.matches(':disabled')} ${drawn.map((name) => style[name])}`);
    }
    return makes.get(one);
  };
  const seen = {};
  const lettered = (one) => [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
  for (const one of document.body.querySelectorAll('*')) {
    if (!one.checkVisibility() || !(lettered(one) || one.matches('input, select, textarea, button'))) continue;
    const own = make(one);
    seen[own] = (seen[own] ?? 0) + 1;
    if (seen[own] <= 3 || one.closest('svg')) one.dataset.chosen = '';
  }
}"""
"""Whether letters can be told from what is behind them depends on how they, and all that they stand in, are drawn: axe
looks at the colours of three of each make, and of all that is in a drawing. Of a page of 190 mixes it would see each
cell, for seconds."""
FORGET = "document.querySelectorAll('[data-chosen]').forEach((one) => delete one.dataset.chosen)"
READY = "#system option:not([value=''])"
"""The catalogue is on the page."""

LATE = "details[open] > .figures:empty, details.clock[open] > div:empty"
"""Where something is still on its way into a fold."""

NEVER = re.compile(r"\[object|\bundefined\b|\bNaN\b|\bnull\b|\bInfinity\b|Traceback|\{\w+\}")


class Desk:
    """A page, and what it did."""

    def __init__(self, page: Page, server: str) -> None:
        self.page, self.server = page, server
        self.outside: list[str] = []
        self.complaints: list[str] = []
        page.set_default_timeout(15_000)
        page.on("request", self._watch)
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def _watch(self, request: Request) -> None:
        if not request.url.startswith((self.server + "/", "data:")):
            self.outside.append(request.url)

    def _hear(self, message: ConsoleMessage) -> None:
        # a refused job or a server that is down is written there by the browser itself
        known = "Failed to load resource" in message.text or "Service Worker registration blocked" in message.text
        if message.type in {"error", "warning"} and not known:
            self.complaints.append(message.text)

    def open(self, path: str = "", *, job: Any = None, units: str = "us", ready: str = READY) -> None:
        """Go to the page, with a job in its address if there is one; it is there when what is ``ready`` is."""
        self.page.goto(f"{self.server}/{path}{link(job, units) if job is not None else ''}")
        expect(self.page.locator(ready).first).to_be_attached()

    def over_the_wire(self) -> list[tuple[str, float]]:
        """What comes from now on, past the browser's cache: each address and its bytes, heads and all."""
        session = self.page.context.new_cdp_session(self.page)
        session.send("Network.enable")
        session.send("Network.setCacheDisabled", {"cacheDisabled": True})
        address: dict[str, str] = {}
        came: list[tuple[str, float]] = []
        session.on("Network.responseReceived", lambda one: address.update({one["requestId"]: one["response"]["url"]}))
        session.on(
            "Network.loadingFinished",
            lambda one: came.append((address[one["requestId"]], one["encodedDataLength"])),
        )
        return came

    def type(self, label: str, text: str) -> None:
        """Type into the field of that label, and leave it."""
        field = self.page.get_by_label(re.compile(rf"^{re.escape(label)}(,|$)")).locator("visible=true").first
        field.fill(text)
        field.press("Tab")

    def quoted(self) -> None:
        """Wait until the sheet holds for what is typed.

        Between the typing and the asking the line still has its old words; the sheet is marked stale at once.
        """
        holds = self.page.locator("#sheet:not([data-stale]) #state")
        expect(holds).to_have_text("Worked out for what is typed now.")

    def says(self, words: str | re.Pattern[str]) -> None:
        """Wait for the line that tells how the answer stands."""
        expect(self.page.locator("#state")).to_contain_text(words)

    def unfold(self) -> None:
        """Open everything that is folded, and wait for what comes only then."""
        self.page.evaluate("for (const part of document.querySelectorAll('details')) part.open = true")
        expect(self.page.locator(LATE)).to_have_count(0)

    def text(self) -> str:
        """All that can be read."""
        return self.page.inner_text("body")

    def reads_well(self) -> None:
        """Nothing that a program would say to a program."""
        found = NEVER.search(self.text())
        assert found is None, f"the page says {found.group()!r}" if found else ""
        titles = self.page.eval_on_selector_all(
            "[aria-label], [alt], [title]", "all => all.map((one) => one.ariaLabel ?? one.alt ?? one.title)"
        )
        assert not [title for title in titles if title and NEVER.search(title)]

    def is_accessible(self, *, but_for: tuple[str, ...] = (), colours: bool = True) -> None:
        """Axe finds nothing against WCAG 2.2 AA and good practice; without ``colours`` where they were seen before."""
        self.page.evaluate("document.getAnimations().forEach((one) => one.finish())")
        if not self.page.evaluate("'axe' in window"):
            self.page.evaluate(AXE)
            self.page.evaluate(CHOSEN)
        if colours:
            self.page.evaluate(CHOOSE)
        told = [
            f"{one['id']}: {node['target']} {node['failureSummary']}"
            for one in self.page.evaluate(VIOLATIONS, RULES | {"rules": {"color-contrast": {"enabled": colours}}})
            for node in one["nodes"]
            if one["id"] not in but_for
        ]
        self.page.evaluate(FORGET)
        assert told == [], "\n".join(told)


def link(job: Any, units: str = "us") -> str:
    """The part of an address that carries a job."""
    text = json.dumps({"units": units, "job": job}).encode()
    return "#job=" + base64.urlsafe_b64encode(text).decode().rstrip("=")
