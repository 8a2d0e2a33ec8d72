"""What goes over the wire, what the browser may do with it, and what comes out of the printer."""

import re
from collections import Counter
from typing import Any

import pytest
import requests
from playwright.sync_api import expect
from tests.browser.papers import pages_of

from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates

MOST_BYTES = 60_000
"""Of the page's own files, with their heads."""

MOST_REQUESTS = 26
"""Until the first quote stands there, all in all."""

MOST_LATER_BYTES = 4_000
"""Of the two modules that write the clock of the mixes, for whoever opens it."""

MOST_DATA_BYTES = 25_000
"""Of what the page asks for until the first quote stands there: the catalogue, the quote, its code."""


PHONE = {"is_mobile": True, "has_touch": True}


@pytest.mark.parametrize("locale", ["en-US", "es-MX"])
@pytest.mark.parametrize("width", [390, 1280])
def test_the_page_and_its_first_quote_weigh_little(open_page: Any, server: str, width: int, locale: str) -> None:
    """Bytes as they came over the wire, heads and all, on a phone and at a desk, for who was not here before; a quote
    that came while typing rested is not asked for again when the field is left.
    """
    desk = open_page(width, locale=locale, ready="body", path="healthz", **(PHONE if width < 400 else {}))
    came = desk.over_the_wire()
    desk.open()
    area = desk.page.locator("[data-at='shape/measured/area']")
    area.click()
    area.fill("1200")
    expect(desk.page.locator("#answer .price")).to_be_visible()
    # a person rests longer than the page waits, then leaves the field
    desk.page.wait_for_timeout(1000)
    area.blur()
    desk.page.wait_for_timeout(1000)
    desk.page.wait_for_load_state("networkidle")
    first = [(url.removeprefix(server), size) for url, size in came if url.startswith(server)]
    urls = [url for url, _ in first]
    assert len(urls) <= MOST_REQUESTS, urls
    assert {"/", "/style.css", "/js/quote/main.js"} <= set(urls)
    assert len([url for url in urls if url.startswith("/v1/quotes?")]) == 1
    data = sum(size for url, size in first if url.startswith("/v1/"))
    assert sum(size for _, size in first) - data <= MOST_BYTES
    assert data < MOST_DATA_BYTES
    before = len(came)
    desk.page.locator(".clock > summary").click()
    expect(desk.page.locator(".mixes")).to_be_visible()
    desk.page.wait_for_load_state("networkidle")
    later = [size for url, size in came[before:] if "/v1/" not in url]
    assert later
    assert sum(later) < MOST_LATER_BYTES


def test_what_works_without_a_network_is_not_loaded_a_second_time(open_page: Any, server: str) -> None:
    """The service counts what it was asked for: the page's own files and those kept for later, each once."""
    before = _asked_of(server)
    desk = open_page(service_workers="allow")
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.wait_for_function("navigator.serviceWorker.ready.then((one) => one.active?.state === 'activated')")
    kept = desk.page.evaluate(
        "caches.keys().then(([name]) => caches.open(name)).then((shelf) => shelf.keys()).then((all) => all.length)"
    )
    assert kept > 60
    asked = _asked_of(server) - before
    files = [file for file in asked if "." in file and not file.startswith("/v1")]
    assert len(files) > 60
    assert {file: asked[file] for file in ["/", *files] if asked[file] > 1} == {}


def _asked_of(server: str) -> Counter[str]:
    """How often each route was asked for."""
    told = requests.get(f"{server}/metrics", timeout=30).text
    found = re.findall(r'^gaugerake_requests_total\{.*?route="([^"]+)".*?\} (\S+)$', told, re.M)
    asked: Counter[str] = Counter()
    for route, count in found:
        asked[route] += int(float(count))
    return asked


def test_the_policy_allows_nothing_but_the_services_own(open_page: Any, server: str) -> None:
    policy = requests.get(server, timeout=30).headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy
    assert "http" not in policy


@pytest.mark.parametrize("path", ["", "sw.js", "js/quote/main.js", "style.css"])
def test_every_file_comes_packed(server: str, path: str) -> None:
    answer = requests.get(f"{server}/{path}", headers={"Accept-Encoding": "gzip"}, timeout=30)
    assert answer.status_code == 200
    assert answer.headers["Content-Encoding"] == "gzip"


def test_the_service_worker_keeps_every_file_of_the_page(server: str, request: pytest.FixtureRequest) -> None:
    client = request.config.rootpath / "client"
    kept = re.findall(r"'([\w/-]+)'", re.search(r"MODULES = \[(.*?)\]", (client / "sw.js").read_text("utf-8"), re.S)[1])  # type: ignore[index]
    assert sorted(kept) == sorted(
        path.relative_to(client / "js").with_suffix("").as_posix() for path in (client / "js").rglob("*.js")
    )


def test_modules_are_short_and_write_no_markup(request: pytest.FixtureRequest) -> None:
    client = request.config.rootpath / "client"
    for path in (*(client / "js").rglob("*.js"), client / "sw.js"):
        text = path.read_text("utf-8")
        assert len(text.splitlines()) < 150, path.name
        assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(", text), path.name
        assert path.name == "api.js" or path.name == "sw.js" or "fetch(" not in text, path.name


@pytest.mark.parametrize(("locale", "language"), [("en-US", "en"), ("es-MX", "es")])
@pytest.mark.parametrize("name", ["least", "counter", "metric", "full", "winter"])
def test_a_quote_prints_on_one_page_and_its_cautions_on_the_next(
    open_page: Any, example: Any, name: str, locale: str, language: Language
) -> None:
    """The one page is the quote itself, to its title block, with the dangers by name; the cautions in full and what was
    assumed follow on a page of their own. No letter is under 8 points, which a browser rounds to 7.99, and none of a
    drawing either.
    """
    desk, words = open_page(job=example(name), locale=locale), templates(language)
    desk.says(words["client-worked-out"])
    desk.page.wait_for_load_state("networkidle")
    number = desk.page.locator(".titleblock dd").first.inner_text()
    for paper in ("Letter", "A4"):
        quote, cautions = pages_of(desk.page.pdf(format=paper))
        assert words["client-engine"] in quote.text
        assert words["client-danger-hazard-isocyanate"] in quote.text
        assert cautions.text.startswith(words["client-take-care"])
        assert number in cautions.text
        assert words["client-assumed"] in cautions.text
        assert min(quote.smallest(), cautions.smallest()) > (7.95, "")


@pytest.mark.parametrize(("name", "least"), [("full", 14), ("metric", 20)])
def test_the_drawings_can_be_read_on_paper(open_page: Any, example: Any, name: str, least: int) -> None:
    """No letter is under 8 points; a page has some 750 pixels between its margins. A long order has no timetable: the
    lengths of 3 plans, and 6 plies with 6 details, are 15 words.
    """
    desk = open_page(750, job=example(name))
    desk.quoted()
    desk.page.emulate_media(media="print")
    points = "(all) => all.map((one) => 0.75 * parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM().a || 9)"
    upright = desk.page.locator("#answer svg text:not([transform]):visible").evaluate_all(points)
    assert len(upright) > least
    assert min(upright) > 7.95


def test_paper_says_when_its_quote_is_not_of_what_is_typed(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.route("**/v1/quotes?*", lambda route: route.abort("connectionrefused"))
    desk.type("Area", "1300")
    desk.says("The server cannot be reached")
    desk.page.emulate_media(media="print")
    assert "The quote below is the last one that came" in desk.text()
    assert "Try again" not in desk.text()
    told, code = (desk.page.locator(one).bounding_box() for one in ("#state", "img.qr"))
    assert told is not None and code is not None
    assert told["x"] + told["width"] <= code["x"]


def test_paper_has_the_quote_and_not_the_form(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("full"))
    desk.quoted()
    desk.page.emulate_media(media="print")
    desk.page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    # the first heading is the form's, which stays on the screen
    desk.is_accessible(but_for=("page-has-heading-one",))
    text = desk.text()
    for words in ("The quote", "PO 4711", "19,987.55", "HEPA", "Assumed", "Catalogue"):
        assert words in text
    for words in ("What floor, on what slab?", "Add a room", "Worked out", "Print", "Change it"):
        assert words not in text
    coloured = desk.page.evaluate(
        """[...document.querySelectorAll('#answer *')].map((one) => getComputedStyle(one))
          .flatMap((look) => [look.color, look.backgroundColor])
          .filter((colour) => new Set(colour.match(/\\d+/g).slice(0, 3)).size > 1)"""
    )
    assert coloured == []
