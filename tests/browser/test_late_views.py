"""The views beside the quote, and the form for other sites, where answers come late and not in their order."""

from typing import Any

from playwright.sync_api import Route, expect
from tests.browser.desk import Desk
from tests.browser.late import await_held, holding, let_go
from tests.browser.test_views import JOB, READY

START = "**/v1/start-search*"
SYSTEMS = "**/v1/systems*"


def is_not_shown_once_typed_over(desk: Desk, late: Route) -> None:
    """Another last start is typed, and then the answer comes."""
    desk.page.locator("#until").fill("2027-04-07T18:00")
    let_go(desk.page, late)
    desk.says("Not worked out yet for what is typed now")
    expect(desk.page.locator(READY)).to_have_count(0)


def test_a_search_for_hours_that_were_typed_over_is_not_shown(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    held = holding(desk.page, START)
    with desk.page.expect_request(START):
        desk.page.get_by_role("button", name="Look for the best start").click()
    is_not_shown_once_typed_over(desk, held[0])


def test_a_first_search_that_was_typed_over_is_not_shown(open_page: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    held = holding(desk.page, START)
    with desk.page.expect_request(START):
        desk.open("start.html", job=JOB, ready="#job:not([hidden])")
    is_not_shown_once_typed_over(desk, held[0])


def test_the_systems_are_offered_once_however_often_they_are_asked_for(open_page: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    held = holding(desk.page, SYSTEMS)
    with desk.page.expect_request(SYSTEMS):
        desk.open("compare.html", job=JOB, ready="#units")
    with desk.page.expect_request("**/v1/systems?units=si"):
        desk.page.get_by_label("metres").check()
    await_held(desk.page, held, 2)
    for route in reversed(held):
        let_go(desk.page, route)
    expect(desk.page.locator(READY).first).to_be_visible()
    expect(desk.page.locator("#picked input")).to_have_count(3)


def test_a_catalogue_in_other_units_that_does_not_come_is_not_told(open_page: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    held = holding(desk.page, SYSTEMS)
    with desk.page.expect_request(SYSTEMS):
        desk.open("compare.html", job=JOB, ready="#units")
    with desk.page.expect_request("**/v1/systems?units=si"):
        desk.page.get_by_label("metres").check()
    await_held(desk.page, held, 2)
    held[1].continue_()
    expect(desk.page.locator(READY)).to_have_count(3)
    with desk.page.expect_event("requestfailed"):
        held[0].abort()
    desk.page.wait_for_timeout(150)
    expect(desk.page.locator("#state")).not_to_contain_text("cannot be reached")
    expect(desk.page.locator(READY)).to_have_count(3)
