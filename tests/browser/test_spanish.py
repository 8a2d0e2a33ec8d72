"""The page in Spanish: the browser's language first, a switch that stays, and nothing that Spanish words push aside."""

from collections.abc import Callable
from typing import Any

import pytest
import requests
from playwright.sync_api import expect
from tests.browser.desk import Desk, link
from tests.browser.profiles import Profiles
from tests.browser.test_views import JOB

from gaugerake.answers.show.words import templates

Open = Callable[..., Desk]
ES = templates("es")
OVER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
CUT = """
[...document.querySelectorAll('button, label, legend, h1, h2, h3, summary, th, dt, .answer')]
  .filter((one) => one.offsetParent !== null && one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
  .map((one) => one.textContent.trim().slice(0, 60))
"""
ENGLISH = ("the ", " with ", "Worked out", "Take care", "Slab", "Pour", "Order")
"""What an English page says all over."""


def in_spanish(desk: Desk) -> None:
    expect(desk.page.locator("#state")).to_have_text(ES["client-worked-out"])


@pytest.mark.parametrize("width", [390, 1280])
def test_a_quote_in_spanish_fits_and_can_be_used_by_all(open_page: Open, example: Any, width: int) -> None:
    desk = open_page(width, job=example("full"), locale="es-MX")
    in_spanish(desk)
    assert desk.page.locator("html").get_attribute("lang") == "es"
    desk.unfold()
    assert desk.page.evaluate(OVER) <= 0
    assert desk.page.evaluate(CUT) == []
    desk.reads_well()
    desk.is_accessible()
    text = desk.page.inner_text("main")
    assert ".." not in text
    assert [word for word in ENGLISH if word in text] == []


@pytest.mark.parametrize("path", ["compare.html", "start.html", "slab.html"])
def test_the_other_views_are_in_spanish_too(open_page: Open, path: str) -> None:
    desk = open_page(390, path=path, locale="es-MX", ready="h1")
    assert desk.page.locator("html").get_attribute("lang") == "es"
    assert desk.page.evaluate(OVER) <= 0
    desk.reads_well()
    desk.is_accessible()


POURED = {
    "system": "level-clear",
    "rooms": [
        {
            "name": "Cocina",
            "shape": {"rectangle": {"length": "40 ft", "width": "30 ft"}},
            "pour": {"from": "left"},
        }
    ],
}


def test_the_keys_of_the_pour_hold_their_spanish_words(open_page: Open) -> None:
    path = f"slab.html{link(POURED)}"
    desk = open_page(390, path=path, locale="es-MX", ready="[data-do=measure]")
    expect(desk.page.locator("[data-do=measure]")).to_be_visible()
    desk.page.get_by_role("button", name=ES["pouring-one-mix-more"]).click()
    desk.page.locator("[data-do=measure]").click()
    expect(desk.page.locator('[data-tell="answered"]')).to_contain_text("juzgado")
    assert desk.page.evaluate(OVER) <= 0
    assert desk.page.evaluate(CUT) == []
    desk.reads_well()
    desk.is_accessible()


DRAWN = {**JOB, "rooms": [{**JOB["rooms"][0], "pour": {"from": "left"}}]}


@pytest.mark.parametrize("width", [390, 768])
@pytest.mark.parametrize(
    ("path", "ready"),
    [("compare.html", "#answer > *"), ("start.html", "#answer > *"), ("slab.html", "#board:not([hidden])")],
)
def test_an_answer_in_spanish_fits_its_view(open_page: Open, path: str, ready: str, width: int) -> None:
    desk = open_page(width, path=path, job=DRAWN, locale="es-MX", ready=ready)
    assert desk.page.evaluate(OVER) <= 0
    assert desk.page.evaluate(CUT) == []
    assert ".." not in desk.page.inner_text("main")


def test_the_switch_turns_the_page_and_stays(open_page: Open, example: Any) -> None:
    desk = open_page(job=example("counter"), locale="es-MX")
    in_spanish(desk)
    desk.page.get_by_role("button", name="English").click()
    desk.quoted()
    assert desk.page.locator("html").get_attribute("lang") == "en"
    desk.open()
    expect(desk.page.get_by_role("heading", name="What floor, on what slab?")).to_be_visible()
    desk.page.get_by_role("button", name="Español").click()
    expect(desk.page.get_by_role("heading", name=ES["page-what-floor-on-what-slab"])).to_be_visible()


def test_what_the_page_opens_is_in_its_language(open_page: Open, example: Any) -> None:
    desk = open_page(job=example("full"), locale="en-US")
    desk.quoted()
    desk.page.get_by_role("button", name="Español").click()
    in_spanish(desk)
    address = desk.page.get_by_role("link", name=ES["client-day-sheets"]).get_attribute("href")
    desk.page.goto(f"{desk.server}/{address}")
    expect(desk.page.get_by_role("heading", name=ES["sheet-days"])).to_be_visible()


def test_a_quote_made_in_spanish_is_read_in_the_language_of_the_page(
    open_page: Open, server: str, example: Any
) -> None:
    """Its token says Spanish, for the printed page; headings and sentences of one page are in one language."""
    made = requests.post(f"{server}/v1/quotes?lang=es", json=example("counter"), timeout=30).json()
    assert requests.get(f"{server}/v1/quotes/{made['token']}", timeout=30).headers["Content-Language"] == "es"
    desk = open_page(path=f"#quote={made['token']}", locale="en-US", ready="#answer .price")
    desk.unfold()
    text = desk.text()
    spanish = [note["text"] for note in (*made["cautions"], *made["assumptions"])]
    assert len(spanish) > 10
    assert [one for one in spanish if one in text] == []


LETTER = 733
"""The pixels between the margins of 11 mm: a browser prints a page that is wider in smaller letters."""


@pytest.mark.parametrize("query", ["lang=en", "lang=es", "lang=es&beside=en"])
def test_a_printed_quote_is_no_wider_than_its_paper(profiles: Profiles, server: str, example: Any, query: str) -> None:
    made = requests.post(f"{server}/v1/quotes", json=example("full"), timeout=30).json()
    with profiles.lend(service_workers="block", extra_http_headers={"accept": "text/html"}) as context:
        page = context.new_page()
        page.set_viewport_size({"width": 390, "height": 900})
        page.goto(f"{server}/v1/quotes/{made['token']}?{query}")
        assert page.evaluate(OVER) <= 0  # on a phone, before it is printed
        page.set_viewport_size({"width": LETTER, "height": 900})
        page.emulate_media(media="print")
        assert page.evaluate(OVER) <= 0


LINES = """(cells) => Math.max(...cells.map((one) => {
  const words = document.createRange();
  words.selectNodeContents(one);
  return new Set([...words.getClientRects()].map(({top}) => Math.round(top))).size;
}))"""


@pytest.mark.parametrize(("width", "most"), [(768, 3), (1280, 4)])
def test_the_names_of_packs_have_room_in_the_order(open_page: Open, example: Any, width: int, most: int) -> None:
    """The longest has 59 letters; beside a need that keeps to one line it took five lines."""
    desk = open_page(width, job=example("full"), locale="es-MX")
    in_spanish(desk)
    names = desk.page.locator(".order tbody th")
    assert names.count() == 14
    assert names.evaluate_all(LINES) <= most
    assert desk.page.evaluate(OVER) <= 0
