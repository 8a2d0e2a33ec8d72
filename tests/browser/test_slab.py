"""The page on the slab: a room is poured on a phone with taps alone, with a network and without.

The service has the invented catalogue of the tests of marks: a mix of the plain floor covers 35.2 ft² at 3/16 in.
"""

import re
from typing import Any

import pytest
import requests
from playwright.sync_api import expect
from tests.answers.slab_jobs import FROM_LEFT, feet, job
from tests.browser.conftest import opening
from tests.browser.desk import Desk, link
from tests.browser.pouring import BOARD, HALL, WAY, Pour
from tests.browser.profiles import Profiles

MOST_BYTES = 40_000
"""Of what this view needs beside the quote's, with heads, until its marks stand there."""


def test_a_whole_room_is_poured_by_taps_with_the_network_cut_half_way(phone: Any) -> None:
    """Each mix covers 35.2 ft², so 35.2 / 28.5 = 1.2351 ft of the hall: 1 ft 2.8 in, at 10 mixes 12 ft 4.2 in.

    The hall is 1,197 ft², 34.006 mixes. At the tape's mark after ten, 12 ft 4 1/4 in, a mix covers 12.354167 x 28.5 /
    10 = 35.2094 ft², and the rest takes 844.906 / 35.2094 = 23.997: 24. With 20 left it is 4 short and ends after 30
    mixes, at 3 x 12.354167 = 37.0625 ft = 37 ft 3/4 in.
    """
    pour = phone(HALL, ready="#setup:not([hidden])", service_workers="allow")
    pour.tap("side", "left")
    pour.tells("next", "Mix 1 ends at 1 ft 2 3/4 in")
    pour.tap("mix", "1", 10)
    pour.tells("mixes", "10 mixes emptied")
    pour.tells("next", "Mix 11 ends at 13 ft 7 in")  # 387.2 / 28.5 = 13.5860 ft = 13 ft 7.03 in
    pour.tells("edge", "Edge: 12 ft 4 1/4 in")
    pour.tap("measure")
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text("Judged after 10 mixes")
    pour.page.locator("summary", has_text="This pour").tap()
    given = re.match(r"\d+", pour.page.locator('[data-tell="stock"]').inner_text())
    assert given
    pour.tap("stock", "-1", int(given[0]) - 20)
    pour.tells("stock", "20 mixes left")
    pour.tells("headline", "4 mixes short")
    pour.tells("second", "Hall: the material ends at 37 ft 3/4 in.")
    pour.tap("stock", "1", 6)
    pour.tells("headline", "It reaches: 2 mixes over")
    pour.page.wait_for_function("navigator.serviceWorker.ready.then(() => true)")
    pour.page.context.set_offline(True)
    pour.tap("mix", "1", 5)
    pour.tells("next", "Mix 16 ends at 19 ft 9 1/4 in")  # 563.2 / 28.5 = 19.7614 ft = 19 ft 9.14 in
    pour.tap("edge", "-2", 3)
    pour.tap("measure")
    pour.state("No network")
    pour.tells("headline", "It reaches: 2 mixes over")
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text("Judged after 10 mixes")
    pour.page.reload()
    pour.tells("mixes", "15 mixes emptied")
    pour.state("No network")
    pour.tells("headline", "It reaches: 2 mixes over")
    pour.tap("undo")  # the measuring
    pour.tap("undo")  # the three inches, at once
    pour.tells("edge", "Edge: 18 ft 6 1/4 in")  # 528 / 28.5 = 18.5263 ft = 18 ft 6.3 in
    pour.tap("measure")
    pour.page.context.set_offline(False)
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text("Judged after 15 mixes")
    pour.tap("mix", "1", 20)
    pour.tells("next", "The plan has no more mixes.")
    pour.tells("edge", "Edge: 42 ft 0 in")
    pour.tap("measure")
    pour.tells("headline", "All of it is placed")
    assert not pour.page.locator("input:not([type=radio]), textarea, select").count()
    pour.desk.reads_well()


@pytest.mark.parametrize(
    ("scheme", "forced"), [("light", "none"), ("dark", "none"), ("light", "active"), ("dark", "active")]
)
def test_it_is_read_and_tapped_with_one_hand(phone: Any, scheme: str, forced: str) -> None:
    """In light, in the dark and in colours of one's own; each key is as large as a fingertip in a glove."""
    pour = phone(HALL, ready="#setup:not([hidden])", color_scheme=scheme, forced_colors=forced)
    pour.desk.is_accessible()
    assert pour.small_keys() == []
    pour.tap("side", "top")
    pour.tap("mix", "1", 3)
    pour.tap("measure")
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text("Judged after 3 mixes")
    expect(pour.page.locator(".headline")).to_be_in_viewport()
    expect(pour.page.locator(".edge").first).to_be_attached()
    pour.desk.unfold()
    pour.desk.is_accessible()
    pour.desk.reads_well()
    assert pour.small_keys() == []
    size = pour.page.locator(".headline").evaluate("(one) => parseFloat(getComputedStyle(one).fontSize)")
    assert size >= 32
    assert pour.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_what_the_service_refuses_is_said_and_gone_with_the_next_tap(phone: Any) -> None:
    pour = phone(WAY)
    pour.tap("measure")
    pour.state("Nothing is placed yet")
    expect(pour.page.locator("#state")).to_have_attribute("data-trouble", "")
    pour.tap("mix", "1")
    pour.state("Kept on this device")
    pour.tap("undo", times=2)
    pour.tells("mixes", "0 mixes emptied")
    expect(pour.page.locator('[data-do="undo"]')).to_be_disabled()


def test_a_measured_room_is_asked_for_its_length(phone: Any) -> None:
    """400 ft² are taken for 20 ft; at 16 ft they are 25 ft wide: 35.2 / 25 = 1.408 ft = 1 ft 4.9 in.

    Its strip is 300 units long for 16 ft: the edge of two mixes, 33.79 in and so 33.75 on the tape, is at 52.7.
    """
    pour = phone(
        job("plain", {"shape": {"measured": {"area": "400 ft2"}}, "name": "Bay"}), ready="#setup:not([hidden])"
    )
    pour.tells("setup", "Bay: how long is it, the way the pour goes?")
    pour.tells("run", "20 ft 0 in")
    pour.tap("run", "-3", 4)
    pour.tells("run", "16 ft 0 in")
    pour.tap("run-done")
    pour.tells("next", "Mix 1 ends at 1 ft 5 in")
    pour.tap("mix", "1", 2)
    expect(pour.page.locator("#board .plan .edge").first).to_have_attribute("d", re.compile(r"^M52\.7 0v"))
    expect(pour.page.locator("#board .plan")).to_contain_text("16 ft 0 in")
    pour.page.locator("summary", has_text="This pour").tap()
    pour.tap("other-side")
    pour.tap("as-it-was")
    pour.tells("mixes", "2 mixes emptied")


def test_rooms_of_one_name_are_told_apart(phone: Any) -> None:
    """285 ft² take 8.0966 mixes; of the ninth 9 x 35.2 - 285 = 31.8 ft² go on: 3.18 ft = 3 ft 2.2 in of the next."""
    rooms = [feet("28.5 ft", "10 ft", name="Bay", **FROM_LEFT), feet("20 ft", "10 ft", name="Bay", **FROM_LEFT)]
    pour = phone(job("plain", *rooms))
    pour.tells("room", "Bay")
    pour.tap("mix", "1", 9)
    pour.tells("room", "Bay 2")
    pour.tells("edge", "Edge: 3 ft 2 1/4 in")
    pour.tap("room", "-1")
    pour.tells("edge", "Edge: 28 ft 6 in")
    pour.tap("undo")
    pour.tap("measure")
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text("Judged after 9 mixes")


def test_metres_are_rounded_to_five_millimetres(phone: Any) -> None:
    """35.2 / 28.5 ft = 0.37645 m."""
    pour = phone(WAY, units="si")
    pour.tells("next", "Mix 1 ends at 0.375 m")
    pour.tap("mix", "1")
    pour.tap("edge", "2")
    pour.tells("edge", "Edge: 0.475 m")
    pour.page.get_by_label("feet").tap()
    pour.tells("next", "Mix 2 ends at 2 ft 5 3/4 in")  # 2.4702 ft = 2 ft 5.64 in


def test_a_key_that_is_held_goes_on(phone: Any) -> None:
    pour = phone(WAY)
    pour.tap("mix", "1", 10)
    key = pour.page.locator('#pad [data-do="edge"][data-with="3"]')
    key.dispatch_event("pointerdown")
    pour.tells("edge", "Edge: 42 ft 0 in")
    key.dispatch_event("pointerup")
    pour.tap("undo")
    pour.tells("edge", "Edge: 12 ft 4 1/4 in")


def test_the_quote_leads_to_its_pour_and_shows_what_is_placed(profiles: Profiles, marks_server: str) -> None:
    """The plan of the quote has the marks; on the device that pours it, also what is placed."""
    with opening(profiles.lend, marks_server) as open_it:
        desk: Desk = open_it(job=WAY)
        desk.quoted()
        expect(desk.page.locator(".plan .mix-mark").first).to_be_attached()
        expect(desk.page.locator(".plan .edge")).to_have_count(0)
        desk.is_accessible()
        desk.page.get_by_role("link", name="Pour it").click()
        pour = Pour(desk)
        expect(desk.page.locator(BOARD)).to_be_attached()
        desk.page.locator('[data-do="mix"][data-with="1"]').click(click_count=4)
        pour.tells("mixes", "4 mixes emptied")
        desk.page.get_by_role("link", name="The quote").click()
        desk.says("The quote as it was made")
        expect(desk.page.locator(".plan .edge").first).to_be_attached()


def test_each_layer_has_its_marks_on_the_quote_and_a_room_of_an_area_a_strip(
    profiles: Profiles, marks_server: str
) -> None:
    bay = {"shape": {"measured": {"area": "400 ft2"}}, "name": "Bay", "pour": {"run": "16 ft"}}
    hall = feet("42 ft", "28.5 ft", name="Hall", **FROM_LEFT)
    with opening(profiles.lend, marks_server) as open_it:
        desk: Desk = open_it(390, job={**job("keyed", hall), "rooms": [hall, bay]})
        desk.quoted()
        plans = desk.page.locator(".plan:has(.mix-mark)")
        expect(plans).to_have_count(4)
        told = [text.partition(",")[0] for text in plans.locator("figcaption").all_inner_texts()]
        assert told == [f"{room}: Body of small mixes" for room in ("Hall", "Hall", "Bay", "Bay")]
        expect(plans.nth(2).get_by_role("img")).to_have_accessible_name("The way of the pour through Bay, 16 ft long")
        desk.is_accessible()
        desk.reads_well()


def test_a_system_without_a_body_has_no_pour(phone: Any, marks_server: str) -> None:
    pour = phone(job("coated", feet("9 ft", "9 ft")), ready="#state[data-trouble]")
    pour.state("Nothing of this system is poured")
    assert requests.get(f"{marks_server}/slab.html", timeout=30).headers["Content-Security-Policy"]


def test_without_a_link_the_last_pour_is_opened(phone: Any) -> None:
    empty = phone(None, ready="#state[data-trouble]")
    empty.state("No pour is open here")
    pour = phone(WAY)
    pour.tap("mix", "1", 2)
    pour.page.goto(f"{pour.desk.server}/slab.html")
    pour.tells("mixes", "2 mixes emptied")


def test_it_weighs_little_beside_the_quote(profiles: Profiles, marks_server: str) -> None:
    """Bytes as they come over the wire, heads and all, of files that the first view does not have."""
    with opening(profiles.lend, marks_server) as open_it:
        desk: Desk = open_it(390, job=HALL)
        desk.quoted()
        first = desk.page.evaluate("performance.getEntriesByType('resource').map(({name}) => name)")
        came = desk.over_the_wire()
        desk.page.goto(f"{marks_server}/slab.html{link(WAY)}")
        expect(desk.page.locator(BOARD)).to_be_attached()
        desk.page.wait_for_load_state("networkidle")
        files = [(url, size) for url, size in came if url not in first and "/v1/" not in url]
        assert any(url.endswith("js/slab/main.js") for url, _ in files)
        assert sum(size for _, size in files) < MOST_BYTES, files
