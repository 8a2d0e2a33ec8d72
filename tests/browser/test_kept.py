"""What stays: the job and the units in the browser, the quote in a link, the page without a network."""

from typing import Any

import numpy as np
import requests
import zxingcpp
from playwright.sync_api import Dialog, expect

SIDE = 264
"""Pixels of the code on a screen with two for each of CSS."""

PIXELS = f"""(one) => {{
  const canvas = Object.assign(document.createElement('canvas'), {{width: {SIDE}, height: {SIDE}}});
  const brush = canvas.getContext('2d');
  brush.fillStyle = '#fff';
  brush.fillRect(0, 0, {SIDE}, {SIDE});
  brush.drawImage(one, 0, 0, {SIDE}, {SIDE});
  return [...brush.getImageData(0, 0, {SIDE}, {SIDE}).data].filter((_, i) => i % 4 === 0);
}}"""


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
    desk.page.get_by_role("button", name="Clear the job").click()
    desk.says("the quote appears here")
    expect(desk.page.locator(".room input").nth(1)).to_have_value("")
    desk.page.reload()
    expect(desk.page.locator("#thickness")).to_have_value("")
    expect(desk.page.locator("#answer > *")).to_have_count(0)


def test_a_slip_of_the_finger_takes_no_room_away(open_page: Any) -> None:
    desk = open_page(390)
    desk.type("Area", "1200")
    desk.page.get_by_role("button", name="Add a room").click()
    second = desk.page.get_by_role("button", name="Remove this room").nth(1)
    second.click()  # nothing is typed in it yet, and nothing asked
    expect(desk.page.locator(".room")).to_have_count(1)
    desk.page.get_by_role("button", name="Add a room").click()
    desk.page.locator(".room").nth(1).get_by_label("Name").fill("Corridor")
    second.click()
    expect(desk.page.locator(".room")).to_have_count(1)
    undo = desk.page.get_by_role("button", name="Undo")
    expect(undo).to_be_focused()
    desk.is_accessible()
    undo.press("Enter")
    expect(desk.page.locator(".room").nth(1).get_by_label("Name")).to_have_value("Corridor")
    expect(desk.page.locator(".room > legend").nth(1)).to_have_text("Room 2")


def test_a_room_that_comes_back_keeps_its_meaning_when_the_units_were_turned(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.page.get_by_role("button", name="Add a room").click()
    desk.page.locator("[data-at='shape/measured/area']").nth(1).fill("100")
    desk.page.locator(".room").first.get_by_role("button", name="Remove this room").click()
    desk.page.get_by_label("metres, °C").check()
    desk.page.get_by_role("button", name="Undo").click()
    expect(desk.page.locator(".room").first.get_by_label("Area, m²")).to_have_value("1200 sq ft")
    expect(desk.page.locator(".room").nth(1).get_by_label("Area, m²")).to_have_value("100 sq ft")


def test_a_row_that_cannot_be_had_back_goes_only_when_that_is_meant(open_page: Any) -> None:
    asked: list[str] = []

    def answer(dialog: Dialog) -> None:
        asked.append(dialog.message)
        if len(asked) == 1:
            dialog.dismiss()
        else:
            dialog.accept()

    desk = open_page()
    desk.page.on("dialog", answer)
    desk.page.route("**/js/quote/back.js*", lambda route: route.abort("connectionrefused"))
    desk.page.get_by_role("button", name="Add a room").click()
    desk.page.locator(".room").nth(1).get_by_label("Name").fill("Corridor")
    drop = desk.page.get_by_role("button", name="Remove this room").nth(1)
    # what cannot be had back is asked about once its module has failed to come: some time after the click
    with desk.page.expect_event("dialog"):
        drop.click()
    expect(desk.page.locator(".room")).to_have_count(2)
    with desk.page.expect_event("dialog"):
        drop.click()
    expect(desk.page.locator(".room")).to_have_count(1)
    assert asked == ["Remove this and all that is given of it?"] * 2


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
    other.page.get_by_role("link", name="The job").click()
    expect(other.page.get_by_role("heading", level=1)).to_be_in_viewport()
    assert other.page.url == address
    expect(other.page.locator(".room input").first).to_have_value("Packing hall")
    other.type("Name", "Packing hall, north")
    other.quoted()


def test_the_code_on_the_sheet_is_the_servers_and_opens_the_quote(open_page: Any, example: Any, server: str) -> None:
    desk = open_page(job=example("counter"))
    desk.quoted()
    code = desk.page.locator("img.qr")
    code.scroll_into_view_if_needed()  # which is when it is asked for
    expect(code).to_be_visible()
    expect(code).not_to_have_js_property("naturalWidth", 0)
    picture = requests.get(f"{server}/{code.get_attribute('src')}", timeout=30)
    assert picture.headers["Content-Type"].startswith("image/svg+xml")
    pixels = np.array(code.evaluate(PIXELS), dtype=np.uint8).reshape(SIDE, SIDE)
    (read,) = zxingcpp.read_barcodes(pixels)
    assert read.text == f"{server}/#quote={code.get_attribute('src').split('/')[2]}"


def test_without_a_network_the_last_quote_is_shown_and_said_to_be_so(open_page: Any) -> None:
    desk = open_page(390, service_workers="allow")
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.wait_for_function("navigator.serviceWorker.ready.then(() => true)")
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


def test_an_opened_quote_stays_until_something_is_typed_and_then_the_typing_stays(
    open_page: Any, example: Any, server: str
) -> None:
    token = requests.post(f"{server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    desk = open_page(path=f"#quote={token}")
    desk.says("The quote as it was made")
    asked: list[str] = []
    desk.page.on("request", lambda request: asked.append(request.url))
    desk.page.locator("#thickness").focus()
    desk.page.keyboard.press("Tab")
    desk.page.wait_for_timeout(600)
    assert asked == []
    desk.says("The quote as it was made")
    desk.type("Name", "Packing hall, north")
    desk.quoted()
    desk.page.reload()
    desk.quoted()
    expect(desk.page.locator(".room input").first).to_have_value("Packing hall, north")


def test_an_opened_quote_takes_nothing_from_the_job_that_was_kept(open_page: Any, example: Any, server: str) -> None:
    token = requests.post(f"{server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    desk = open_page()
    desk.open(job={**example("full"), "order": {"optional_layers": ["primer"], "colour": "oat", "waste_percent": 20}})
    desk.quoted()
    desk.open()
    desk.quoted()
    desk.open(f"#quote={token}")
    desk.says("The quote as it was made")
    desk.unfold()
    total = desk.page.locator(".answers dd").first.inner_text()
    desk.type("Your reference", "PO 4711")
    desk.quoted()
    assert desk.page.locator(".answers dd").first.inner_text() == total
    expect(desk.page.locator("table.order")).not_to_contain_text("primer")


def test_going_back_from_an_opened_quote_leads_to_ones_own_job(open_page: Any, example: Any, server: str) -> None:
    token = requests.post(f"{server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    desk = open_page()
    desk.type("Area", "1200")
    desk.quoted()
    desk.open(f"#quote={token}")
    desk.says("The quote as it was made")
    desk.page.go_back()
    desk.quoted()
    expect(desk.page.locator(".room input").nth(1)).to_have_value("1200")
    desk.page.go_forward()
    desk.says("The quote as it was made")


def test_a_quote_opened_from_a_link_is_there_without_a_network_too(open_page: Any, example: Any, server: str) -> None:
    token = requests.post(f"{server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    desk = open_page(390, path=f"#quote={token}")
    desk.says("The quote as it was made")
    number = desk.page.locator(".titleblock dd").first.inner_text()
    desk.page.route(f"**/v1/quotes/{token}?*", lambda route: route.abort("internetdisconnected"))
    desk.page.reload()
    desk.says("The server cannot be reached")
    desk.says("The quote below was kept")
    expect(desk.page.locator(".titleblock dd").first).to_have_text(number)


def test_mistakes_of_a_job_that_comes_back_are_told_at_once(open_page: Any, example: Any) -> None:
    desk = open_page(job={**example("least"), "thickness": "thin"})
    desk.says("Something needs another look")
    expect(desk.page.locator("#thickness ~ .wrong")).to_be_visible()


def test_a_quote_kept_by_an_older_page_does_no_harm(open_page: Any) -> None:
    desk = open_page()
    desk.page.evaluate("localStorage['gaugerake.quote'] = JSON.stringify({body: {quantities: 7}, at: 'x'})")
    job = "{units: 'furlongs', job: {rooms: 'x'}, open: 4}"
    desk.page.evaluate(f"sessionStorage['gaugerake.job'] = JSON.stringify({job})")
    desk.page.evaluate("localStorage['gaugerake.jobs'] = JSON.stringify({none: [{}, null, {typed: 7}]})")
    desk.page.reload()
    desk.says("the quote appears here")
    desk.reads_well()
    desk.type("Area", "1200")
    desk.quoted()
