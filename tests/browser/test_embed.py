"""The form for other sites, on a page of another origin: between styles not its own, with and without a key."""

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Route, expect
from tests.browser.keyed import Keyed
from tests.browser.late import holding, let_go
from tests.browser.profiles import Profiles
from tests.service import running

from gaugerake.answers.show.words import templates

EMBED = Path(__file__).parents[2] / "client" / "embed.js"
ES = templates("es")
SHOP = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A shop</title>
<meta name="viewport" content="width=device-width">
<style>
  * {{ color: rgb(200, 0, 0) !important; letter-spacing: 1px }}
  form, table, button {{ display: none !important }}
  .sum {{ font-size: 3px }}
</style></head>
<body><main><h1>A shop</h1><p class="sum" id="own">Our own sum</p>
<script src="{service}/embed.js{query}" defer></script>
<gaugerake-quote {attributes}></gaugerake-quote></main></body></html>
"""
HEARING = """
window.heard = []; addEventListener('quote', (event) => heard.push(event.detail));
window.complaints = []; console.error = (text) => complaints.push(text);
"""
QUOTES = "**/v1/quotes?*"
AXE = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    "rules": {"color-contrast": {"enabled": False}},
}


@pytest.fixture(scope="module")
def opened_to(other_origin: tuple[str, Path], tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A service without keys that is open to pages of the shop."""
    with running(tmp_path_factory.mktemp("service"), GAUGERAKE_ORIGINS=other_origin[0]) as address:
        yield address


Visit = Callable[..., Page]


@pytest.fixture
def visit(profiles: Profiles, other_origin: tuple[str, Path]) -> Iterator[Visit]:
    """Opens the shop's page with the form in it."""

    def go(service: str, attributes: str = "", width: int = 1024, query: str = "", locale: str = "en-US") -> Page:
        origin, folder = other_origin
        (folder / "page.html").write_text(SHOP.format(service=service, attributes=attributes, query=query), "utf-8")
        page = lent.enter_context(profiles.lend(service_workers="block", locale=locale)).new_page()
        page.set_viewport_size({"width": width, "height": 800})
        page.set_default_timeout(15_000)
        page.add_init_script(HEARING)
        page.goto(f"{origin}/page.html")
        return page

    with ExitStack() as lent:
        yield go


def ask(page: Page, area: str) -> None:
    page.get_by_label("Area in").fill(area)
    page.get_by_role("button", name="Quote this floor").click()


def test_it_is_small() -> None:
    assert len(EMBED.read_bytes()) < 8000
    assert "innerHTML" not in EMBED.read_text("utf-8")


def test_a_floor_is_quoted_on_another_origins_page(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    page.get_by_label("Floor system").select_option("level-clear")
    ask(page, "1200")
    expect(page.get_by_text("$7,547.25")).to_be_visible()  # the sum that README.md shows
    expect(page.get_by_role("cell", name=re.compile("LB-24"))).to_be_visible()
    expect(page.get_by_text("silica dust").first).to_be_visible()
    expect(page.get_by_text("nothing here can be bought")).to_be_visible()
    heard = page.evaluate("heard")
    assert [quote["quantities"]["totals"]["gross"] for quote in heard] == ["7547.25"]
    link = page.get_by_role("link", name="Open the whole quote")
    assert link.get_attribute("href") == f"{opened_to}/#quote={heard[0]['token']}"


@pytest.mark.parametrize("late", ["comes", "is lost"])
def test_an_answer_that_was_overtaken_is_not_shown(opened_to: str, visit: Visit, late: str) -> None:
    """1,200 sq ft cost what README.md shows; 600 were asked for before, and are answered after them or not at all."""
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    page.get_by_label("Floor system").select_option("level-clear")
    held = holding(page, QUOTES)
    with page.expect_request(QUOTES):
        ask(page, "600")
    with page.expect_request(QUOTES):
        ask(page, "1200")
    held[1].continue_()
    expect(page.get_by_text("$7,547.25")).to_be_visible()
    if late == "comes":
        let_go(page, held[0])
    else:
        with page.expect_event("requestfailed"):
            held[0].abort()
    expect(page.get_by_text("$7,547.25")).to_be_visible()
    assert len(page.evaluate("heard")) == 1
    assert page.evaluate("complaints") == []


def test_what_is_to_be_mended_stands_at_the_field(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    ask(page, "12 elephants")
    area = page.get_by_label("Area in")
    expect(area).to_have_attribute("aria-invalid", "true")
    expect(area).to_be_focused()
    expect(page.locator("gaugerake-quote .fault")).to_contain_text("such as")
    ask(page, "90 m2")
    expect(page.locator("gaugerake-quote .sum")).to_contain_text("$")
    expect(page.locator("gaugerake-quote .fault")).to_have_count(0)


def test_no_style_comes_in_or_goes_out(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to)
    expect(page.get_by_role("button", name="Quote this floor")).to_be_visible()
    ask(page, "1200")
    expect(page.get_by_text("$7,547.25")).to_be_visible()
    size = "(where) => parseFloat(getComputedStyle(where).fontSize)"
    assert page.locator("#own").evaluate(size) == 3
    assert page.locator("gaugerake-quote .sum").evaluate(size) > 16


def test_it_is_usable_by_everybody_and_on_a_phone(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to, width=320)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    page.get_by_label("Area in").press("Tab")
    expect(page.get_by_role("button", name="Quote this floor")).to_be_focused()
    ask(page, "1200")
    expect(page.get_by_text("$7,547.25")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    found = Axe().run(page, options=AXE).response["violations"]
    assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == []


@pytest.mark.parametrize(("query", "locale"), [("?lang=es", "en-US"), ("", "es-MX")])
def test_it_is_in_spanish_where_that_is_asked_for_or_liked(
    opened_to: str, visit: Visit, query: str, locale: str
) -> None:
    page = visit(opened_to, 'units="si"', width=390, query=query, locale=locale)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    assert page.locator("gaugerake-quote").get_attribute("lang") == "es"
    page.get_by_label(ES["embed-area-si"]).fill("12 elefantes")
    page.get_by_role("button", name=ES["embed-quote-this-floor"]).click()
    expect(page.locator("gaugerake-quote .fault")).to_contain_text("por ejemplo")
    page.get_by_label(ES["embed-area-si"]).fill("90")
    page.get_by_role("button", name=ES["embed-quote-this-floor"]).click()
    expect(page.get_by_text(ES["embed-to-load"])).to_be_visible()
    text = page.locator("gaugerake-quote").evaluate("form => form.answer.innerText")
    assert f"para {ES['open-to-washdown']}: " in text
    assert re.match(r"\S.*\n+\$\d?\d,\d{3}\.\d\d\n", text)  # money as the page writes it in Spanish
    assert re.findall(r"\b(?:the|and|with|of|hours|dust|washdown)\b", text) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    found = Axe().run(page, options=AXE).response["violations"]
    assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == []
    address = f"{opened_to}/v1/quotes/{page.evaluate('heard')[0]['token']}"
    read = page.request.get(address, headers={"accept-language": "en", "accept": "application/json"})
    assert read.headers["content-language"] == "en"  # each opens the quote in a language of their own


def change(page: Page, quote: Callable[[Any], None]) -> None:
    """Let a quote come to the page otherwise than the demonstration would make it."""

    def answer(route: Route) -> None:
        response = route.fetch()
        body = response.json()
        quote(body)
        route.fulfill(response=response, json=body)

    page.route("**/v1/quotes?*", answer)


@pytest.mark.parametrize(("every", "sum_"), [(2, "$7,547.25, and what has no price yet"), (1, "Price on request")])
def test_a_sum_that_leaves_something_out_says_so(opened_to: str, visit: Visit, every: int, sum_: str) -> None:
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)

    def unprice(quote: Any) -> None:
        lines = quote["quantities"]["order_lines"][::every]
        for line in lines:
            line["unit_price"] = line["amount"] = None
        quote["quantities"]["totals"]["unpriced"] = [line["sku"] for line in lines]

    change(page, unprice)
    ask(page, "1200")
    expect(page.locator("gaugerake-quote .sum")).to_have_text(sum_)


def test_traffic_that_never_returns_is_not_passed_over(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    change(page, lambda quote: quote["return_times"]["returns"][-1].update(after=None, latest=None))
    ask(page, "1200")
    expect(page.get_by_text("is not known; the notes below tell why")).to_be_visible()
    expect(page.get_by_text("silica dust").first).to_be_visible()


def test_a_form_that_found_the_service_busy_fills_itself_later(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    busy = {"title": "Too many requests", "detail": "", "errors": []}
    shown = {"retry-after": "1", "access-control-allow-origin": "*", "access-control-expose-headers": "retry-after"}
    page.route("**/v1/systems?*", lambda route: route.fulfill(status=429, json=busy, headers=shown), times=1)
    page.reload()
    expect(page.get_by_text("Please try again in 1 s")).to_be_visible()
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    expect(page.get_by_text("Please try again")).to_have_count(0)
    ask(page, "1200")
    expect(page.get_by_text("$7,547.25")).to_be_visible()


def test_a_key_is_for_the_pages_of_its_origin(keyed: Keyed, visit: Visit) -> None:
    page = visit(keyed.address, f'key="{keyed.shop}"')
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    ask(page, "1200")
    expect(page.get_by_text("$7,547.25")).to_be_visible()
    # refused by the service, and unreadable to the page
    expect(visit(keyed.address, f'key="{keyed.other}"').get_by_text("cannot be reached")).to_be_visible()


def told(page: Page) -> str:
    """What the console says to whoever keeps the shop's page, once a visitor is told something."""
    return "\n".join(page.evaluate("complaints"))


def test_a_visitor_reads_no_word_of_keys_and_the_console_tells_the_shop(keyed: Keyed, visit: Visit) -> None:
    page = visit(keyed.address)
    expect(page.get_by_text("Please ask the shop.")).to_be_visible()
    assert "key" not in page.locator("gaugerake-quote").evaluate("form => form.answer.innerText")
    assert "Authorization: Bearer" in told(page)


def test_a_page_of_an_origin_that_was_not_named_reads_nothing(
    visit: Visit, server: str, other_origin: tuple[str, Path]
) -> None:
    page = visit(server)
    expect(page.get_by_text("cannot be reached")).to_be_visible()
    expect(page.get_by_role("button", name="Quote this floor")).to_be_disabled()
    assert f"GAUGERAKE_ORIGINS={other_origin[0]}` " in told(page)
    assert f"key make NAME --origin {other_origin[0]}" in told(page)


def test_what_harms_people_stays_in_sight_and_the_rest_is_folded(opened_to: str, visit: Visit) -> None:
    page = visit(opened_to, width=390)
    expect(page.locator("gaugerake-quote option")).to_have_count(3)
    ask(page, "1200")
    expect(page.get_by_role("heading", name="Take care")).to_be_visible()
    cautions = page.evaluate("heard")[0]["cautions"]
    seen = [one for one in cautions if page.get_by_text(one["text"], exact=True).is_visible()]
    assert {one["code"] for one in cautions if not one.get("everyday")} <= {one["code"] for one in seen}
    hazards = {
        one["code"] for one in cautions if re.match("hazard-|.*-dust$|before-sawing|engines-indoors", one["code"])
    }
    assert len(hazards) >= 8
    assert hazards | {"data-sheet-rules"} <= {one["code"] for one in seen}
    fold = page.locator("gaugerake-quote summary")
    expect(fold).to_have_text(f"Materials and work: {len(cautions) - len(seen)} more")
    fold.click()
    assert [one["code"] for one in cautions if not page.get_by_text(one["text"], exact=True).is_visible()] == []
