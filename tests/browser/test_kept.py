"""What stays: the job and the units in the browser, the quote in a link, the page without a network."""

from typing import Any

import requests
from playwright.sync_api import expect


def test_the_job_comes_back_as_it_was_typed_until_it_is_cleared(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.type("Thickness", "1/4")
    desk.page.locator("#part-order summary").click()
    desk.type("Your reference", "PO 4711")
    desk.quoted()
    desk.page.reload()
    desk.quoted()
    expect(desk.page.locator(".room input").nth(1)).to_have_value("1200")
    expect(desk.page.locator("#thickness")).to_have_value("1/4")
    expect(desk.page.locator("#reference")).to_be_visible()
    desk.page.get_by_role("button", name="Clear everything").click()
    desk.says("the quote appears here")
    expect(desk.page.locator(".room input").nth(1)).to_have_value("")
    desk.page.reload()
    expect(desk.page.locator("#thickness")).to_have_value("")
    expect(desk.page.locator("#answer > *")).to_have_count(0)


def test_units_are_remembered_and_the_switch_changes_no_meaning(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.quoted()
    before = desk.page.locator(".answers dd").first.inner_text().split()[0]
    desk.page.get_by_label("metres, °C").check()
    expect(desk.page.locator(".rooms")).to_contain_text("111.5 m²")
    expect(desk.page.locator(".room input").nth(1)).to_have_value("1200 sq ft")
    assert desk.page.locator(".answers dd").first.inner_text().split()[0] == before
    desk.page.reload()
    desk.quoted()
    expect(desk.page.get_by_label("metres, °C")).to_be_checked()
    desk.type("Area", "100")
    expect(desk.page.locator(".rooms")).to_contain_text("100 m²")


def test_pasted_readings_keep_their_meaning_too(open_page: Any) -> None:
    desk = open_page()
    desk.unfold()
    desk.page.locator("#temperatures").select_option("readings")
    desk.page.locator("#readings").fill("2027-03-05 06:00, 61\n2027-03-05T12:00;70\n2027-03-05 18:00\t64 degF")
    desk.page.get_by_label("metres, °C").check()
    expect(desk.page.locator("#readings")).to_have_value(
        "2027-03-05 06:00, 61 °F\n2027-03-05 12:00, 70 °F\n2027-03-05 18:00, 64 degF"
    )


def test_a_link_opens_the_same_quote_elsewhere(open_page: Any, example: Any, server: str) -> None:
    desk = open_page(job=example("counter"))
    desk.quoted()
    number = desk.page.locator(".titleblock dd").first.inner_text()
    desk.page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    desk.page.get_by_role("button", name="Link to this quote").click()
    address = desk.page.get_by_role("link", name="Here is the link to this quote").get_attribute("href")
    assert address is not None
    assert address.startswith(f"{server}/#quote=")
    other = open_page(390, path=address.removeprefix(f"{server}/"))
    other.says("The quote as it was made")
    expect(other.page.locator(".titleblock dd").first).to_have_text(number)
    expect(other.page.locator(".room input").first).to_have_value("Packing hall")
    other.type("Name", "Packing hall, north")
    other.quoted()


def test_the_code_on_the_sheet_is_the_servers(open_page: Any, example: Any, server: str) -> None:
    desk = open_page(job=example("counter"))
    desk.quoted()
    code = desk.page.locator("img.qr")
    expect(code).to_be_visible()
    assert code.evaluate("(one) => one.complete && one.naturalWidth > 0")
    picture = requests.get(f"{server}/{code.get_attribute('src')}", timeout=30)
    assert picture.headers["Content-Type"].startswith("image/svg+xml")


def test_without_a_network_the_last_quote_is_shown_and_said_to_be_so(open_page: Any) -> None:
    desk = open_page(390, service_workers="allow")
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    desk.page.wait_for_function("navigator.serviceWorker.controller !== null")
    desk.page.reload()
    desk.quoted()
    total = desk.page.locator(".answers dd").first.inner_text()
    desk.page.context.set_offline(True)
    desk.page.reload()
    desk.says("The server cannot be reached")
    desk.says("The quote below is the last one that came")
    assert desk.page.locator(".answers dd").first.inner_text() == total
    expect(desk.page.locator(".room input").nth(1)).to_have_value("1200")
    desk.is_accessible()
    desk.reads_well()
    desk.type("Area", "1300")
    desk.says("The server cannot be reached")
    desk.page.context.set_offline(False)
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("1,300 sq ft")
