"""The pictures of README.md: the page with a quote on it, and the quote as it is printed.

``python -m tests.browser.pictures`` takes them of the demonstration catalogue, with Debian's chromium.
"""

import shutil
import tempfile
from pathlib import Path

import requests
from playwright.sync_api import Browser, expect, sync_playwright
from tests import builders
from tests.browser.conftest import FLAGS
from tests.browser.desk import READY, Desk
from tests.service import running

FOLDER = Path(__file__).parents[2] / "client" / "pictures"
SIZES = {"page.png": {"width": 1180, "height": 650}, "paper.png": {"width": 860, "height": 900}}
JOB = builders.example("counter")


def picture_page(browser: Browser, address: str) -> None:
    """The page, with a job of the counter's filled in and its quote beside it."""
    page = browser.new_page(viewport=SIZES["page.png"], locale="en-US", timezone_id="America/Chicago")
    desk = Desk(page, address)
    desk.open(job=JOB, ready=READY)
    desk.quoted()
    page.screenshot(path=FOLDER / "page.png", animations="disabled")


def picture_paper(browser: Browser, address: str) -> None:
    """The quote that its token opens, as a printer has it."""
    token = requests.post(f"{address}/v1/quotes", json=JOB, timeout=30).json()["token"]
    page = browser.new_page(viewport=SIZES["paper.png"], device_scale_factor=0.9)
    page.emulate_media(media="print")
    page.goto(f"{address}/v1/quotes/{token}")
    expect(page.locator("h1").first).to_be_visible()
    page.wait_for_function("[...document.images].every(image => image.naturalWidth > 0)")
    page.evaluate("document.body.style.padding = '24px'")  # the paper's own margin
    page.screenshot(path=FOLDER / "paper.png", animations="disabled")


def main() -> None:
    """Take both pictures anew."""
    FOLDER.mkdir(exist_ok=True)
    path = shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, running(Path(folder)) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        picture_page(browser, address)
        picture_paper(browser, address)
        browser.close()


if __name__ == "__main__":
    main()
