"""The page on the slab, and a finger on it.

Its service has the invented catalogue of the tests of marks: a mix of the plain floor covers 35.2 ft² at 3/16 in.
"""

import re
from typing import Any

from playwright.sync_api import expect
from tests.answers.slab_jobs import FROM_LEFT, feet, job
from tests.browser.desk import Desk

HALL = job("plain", feet("42 ft", "28.5 ft", name="Hall"))
WAY = job("plain", feet("42 ft", "28.5 ft", name="Hall", **FROM_LEFT))
BOARD = "#board:not([hidden])"
SETUP = "#setup:not([hidden])"
LEAST_PX = 48
"""The least height and width of what is tapped."""

SMALL = """(least) => [...document.querySelectorAll('button, summary, main a, .top a, .switch label')]
  .filter((one) => one.checkVisibility()).map((one) => [one.textContent, one.getBoundingClientRect()])
  .filter(([, {width, height}]) => width < least || height < least).map(([text]) => text)"""


class Pour:
    """The page, and a finger on it; nothing is typed."""

    def __init__(self, desk: Desk) -> None:
        self.desk, self.page = desk, desk.page

    def tap(self, does: str, given: str | None = None, times: int = 1) -> None:
        """Tap the key that does something."""
        key = self.page.locator(f'[data-do="{does}"]' + (f'[data-with="{given}"]' if given else ""))
        for _ in range(times):
            key.locator("visible=true").first.tap()

    def tells(self, place: str, words: str) -> None:
        """Wait until a place of the page says this; a blank stands for one that does not break, too."""
        pattern = re.escape(words).replace(r"\ ", r"\s")
        expect(self.page.locator(f'[data-tell="{place}"]')).to_have_text(re.compile(f"^{pattern}$"))

    def state(self, words: str) -> None:
        """Wait until the line under the heading says this."""
        expect(self.page.locator("#state")).to_contain_text(words)

    def small_keys(self) -> Any:
        """What is too small for a fingertip in a glove."""
        return self.page.evaluate(SMALL, LEAST_PX)
