"""A service that asks for a key: the page says so, takes one, sends it in one header, and forgets it again."""

import json
from decimal import Decimal
from typing import Any

import pytest
import requests
from playwright.sync_api import Request, Route, expect
from tests.browser.keyed import Keyed

TOLD = "answers only those who have a key"
ANYWHERE = """async (key) => {
  const [local, tab, shelf] = [{}, {}, []];
  for (const [name, value] of Object.entries(localStorage)) local[name] = value.includes(key);
  for (const [name, value] of Object.entries(sessionStorage)) tab[name] = value.includes(key);
  for (const name of await caches.keys()) {
    for (const one of await (await caches.open(name)).keys()) shelf.push(one.url + JSON.stringify([...one.headers]));
  }
  return {address: location.href, title: document.title, seen: document.body.innerText, local, tab, shelf};
}"""


@pytest.fixture
def closed(open_page: Any, keyed: Keyed) -> Any:
    """Opens the page of the service with keys, on which nothing can be chosen yet."""

    def go(width: int = 1280, **options: Any) -> Any:
        return open_page(width, server=keyed.address, ready="#state:not(:empty)", **options)

    return go


def give(desk: Any, key: str, *, stays: bool = False) -> None:
    """Type a key and send it."""
    desk.page.get_by_label("Key for this service").fill(key)
    if stays:
        desk.page.get_by_label("keep it on this device").check()
    desk.page.get_by_role("button", name="Use this key").click()


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1280, "dark")])
def test_who_has_a_key_is_answered(closed: Any, keyed: Keyed, width: int, scheme: str) -> None:
    desk = closed(width, color_scheme=scheme)
    desk.says(TOLD)
    expect(desk.page.get_by_text("Whoever runs the service makes keys")).to_be_visible()
    desk.is_accessible()
    desk.reads_well()
    give(desk, "")
    expect(desk.page.locator("#access-told")).to_contain_text("first")
    give(desk, "gr_no such key")
    expect(desk.page.locator("#access-told")).to_contain_text("no blanks")
    give(desk, "gr_00000000_of_somebody_else")
    expect(desk.page.locator("#access-told")).to_contain_text("does not know this key")
    expect(desk.page.locator("#key")).to_be_focused()
    expect(desk.page.locator("#key")).to_have_attribute("aria-invalid", "true")
    desk.is_accessible()
    give(desk, keyed.page)
    expect(desk.page.locator("#access")).to_be_hidden()
    expect(desk.page.locator("#system")).to_be_focused()
    desk.type("Area", "1200")
    desk.quoted()


def test_a_key_goes_into_a_header_and_nowhere_else(closed: Any, keyed: Keyed) -> None:
    desk = closed(service_workers="allow")
    sent: list[Request] = []
    desk.page.on("request", lambda request: sent.append(request))
    give(desk, keyed.page)
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.wait_for_function("navigator.serviceWorker.ready.then(() => true)")
    desk.page.reload()
    desk.quoted()
    desk.page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    desk.page.get_by_role("button", name="Link to this quote").click()
    link = desk.page.get_by_role("link", name="Here is the link to this quote").get_attribute("href")
    asked = [one for one in sent if one.method == "POST"]
    assert asked
    assert {one.all_headers().get("authorization") for one in asked} == {f"Bearer {keyed.page}"}
    assert not [one.url for one in sent if keyed.page in one.url or keyed.page in (one.post_data or "")]
    found = desk.page.evaluate(ANYWHERE, keyed.page)
    assert found["tab"] == {"gaugerake.key": True, "gaugerake.job": False}
    assert set(found["local"]) >= {"gaugerake.jobs", "gaugerake.quote"}
    assert not any(found["local"].values())
    assert any("v1/systems" in one for one in found["shelf"])
    for place in (link, found["address"], found["title"], found["seen"], *found["shelf"]):
        assert keyed.page not in place
    desk.page.emulate_media(media="print")
    expect(desk.page.locator("#access, #forget").first).to_be_hidden()
    assert keyed.page not in desk.page.content()


def test_a_key_is_forgotten_with_the_prices_that_came_for_it(closed: Any, keyed: Keyed) -> None:
    desk = closed(390)
    give(desk, keyed.page, stays=True)
    desk.type("Area", "1200")
    desk.quoted()
    tab = desk.page.context.new_page()
    tab.goto(keyed.address)
    expect(tab.locator("#state")).to_contain_text("the quote appears here")
    tab.locator(".room input").nth(1).fill("1200")
    expect(tab.locator("#state")).to_have_text("Worked out for what is typed now.")
    tab.get_by_role("button", name="Forget the key").click()
    expect(tab.locator("#state")).to_contain_text(TOLD)
    expect(tab.locator("#answer > *")).to_have_count(0)
    expect(tab.locator(".room input").nth(1)).to_have_value("1200")
    expect(tab.get_by_role("button", name="Forget the key")).to_be_hidden()
    kept = tab.evaluate(ANYWHERE, keyed.page)
    assert kept["local"].keys() == {"gaugerake.jobs"}
    assert kept["tab"] == {"gaugerake.job": False}
    assert not [one for one in kept["shelf"] if "v1/systems" in one]


def test_a_key_brings_its_own_prices(closed: Any, keyed: Keyed, example: Any) -> None:
    headers = {"Authorization": f"Bearer {keyed.page}"}
    job = example("least")
    due = requests.post(f"{keyed.address}/v1/quotes", json=job, headers=headers, timeout=60).json()
    desk = closed(job=job)
    give(desk, keyed.page)
    desk.quoted()
    gross = desk.page.locator(".answers dd").first.inner_text().split()[0]
    assert gross == f"${Decimal(due['quantities']['totals']['gross']):,}"
    assert gross != "$7,547.25"  # the list's, as README.md shows it
    desk.unfold()
    desk.type("Price book", "list")
    expect(desk.page.locator("#price-book ~ .wrong")).to_contain_text("prices of its own")


def test_a_quote_is_opened_by_its_token_without_a_key(closed: Any, keyed: Keyed, example: Any) -> None:
    headers = {"Authorization": f"Bearer {keyed.page}"}
    made = requests.post(f"{keyed.address}/v1/quotes", json=example("counter"), headers=headers, timeout=60).json()
    desk = closed(390, path=f"#quote={made['token']}")
    desk.says("The quote as it was made")
    expect(desk.page.locator("#access-told")).to_contain_text("Opening this quote needs no key")
    expect(desk.page.locator("#sheet .heading")).to_be_in_viewport()
    desk.page.locator("img.qr").scroll_into_view_if_needed()
    expect(desk.page.locator("img.qr")).not_to_have_js_property("naturalWidth", 0)
    desk.is_accessible(colours=False)
    give(desk, keyed.page)
    desk.says("The quote as it was made")
    desk.type("Name", "Packing hall, north")
    desk.quoted()


def unknown(route: Route) -> None:
    route.fulfill(status=401, body=json.dumps({"title": "x", "status": 401}), content_type="application/problem+json")


def test_a_key_that_ends_while_one_types_loses_nothing(open_page: Any) -> None:
    desk = open_page(390)
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.route("**/v1/**", unknown)
    desk.type("Area", "1300")
    desk.says(TOLD)
    desk.says("The quote below is the last one that came")
    expect(desk.page.locator("#foot")).to_contain_text("A key is needed")
    desk.page.get_by_role("link", name="A key is needed").click()
    expect(desk.page.locator("#key")).to_be_in_viewport()
    desk.is_accessible(colours=False)
    desk.page.unroute("**/v1/**")
    give(desk, "gr_one_that_an_open_service_does_not_ask_for")
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("1,300 sq ft")


def test_what_the_server_does_not_allow_is_said_and_tried_again(open_page: Any) -> None:
    desk = open_page(390)
    desk.type("Area", "1200")
    desk.quoted()

    def forbid(route: Route) -> None:
        route.fulfill(status=403, body="<html>Forbidden</html>", content_type="text/html")

    desk.page.route("**/v1/quotes?*", forbid)
    desk.type("Area", "1300")
    desk.says("does not allow this")
    desk.reads_well()
    desk.page.unroute("**/v1/quotes?*")
    desk.page.get_by_role("button", name="Try again").click()
    desk.quoted()
