"""The quote's page, where answers and modules come late: what was typed last holds."""

from typing import Any

import requests
from playwright.sync_api import expect
from tests.browser.desk import Desk
from tests.browser.keyed import Keyed
from tests.browser.late import await_held, holding, let_go
from tests.browser.test_views import JOB, READY
from tests.builders import document, measured

AREA = "[data-at='shape/measured/area']"
QUOTES = "**/v1/quotes?*"
SYSTEMS = "**/v1/systems*"
STALE = "#sheet[data-stale]"
RESTS = "window.setTimeout = () => 0"
"""Somebody has just typed, and the page still waits whether more comes."""


def quoted(open_page: Any, width: int = 1280, **options: Any) -> Desk:
    """A page with the quote of 1,200 square feet."""
    desk: Desk = open_page(width, **options)
    desk.type("Area", "1200")
    desk.quoted()
    return desk


def asked(desk: Desk, area: str, pattern: str = QUOTES) -> None:
    """Type another area, and wait until something is asked."""
    with desk.page.expect_request(pattern):
        desk.page.locator(AREA).fill(area)


def test_an_answer_to_what_was_typed_before_does_not_hold(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, QUOTES)
    asked(desk, "2400")
    desk.page.evaluate(RESTS)
    desk.page.locator(AREA).fill("24000")
    let_go(desk.page, held[0])
    expect(desk.page.locator(STALE)).to_be_attached()


def test_what_a_figure_was_taken_for_is_not_told_beside_another(open_page: Any) -> None:
    desk = quoted(open_page)
    other = "**/v1/readiness?units=si*"
    held = holding(desk.page, other)
    asked(desk, "2400", other)
    desk.page.evaluate(RESTS)
    desk.page.locator(AREA).fill("24000")
    let_go(desk.page, held[0])
    expect(desk.page.locator(".room .understood")).to_have_count(0)


def test_the_sheet_is_old_until_its_drawings_are_there(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, "**/drawings/plan.js*")
    desk.page.locator(".room [data-variant]").select_option("rectangle")
    desk.page.locator("[data-at$='rectangle/length']").fill("40")
    with desk.page.expect_request("**/drawings/plan.js*"):
        desk.page.locator("[data-at$='rectangle/width']").fill("30")
    await_held(desk.page, held, 1)
    expect(desk.page.locator(STALE)).to_be_attached()
    held[0].continue_()
    desk.quoted()
    expect(desk.page.locator("#answer .plan")).to_be_visible()


def test_a_drawing_that_comes_after_more_was_typed_is_not_shown(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, "**/drawings/plan.js*")
    desk.page.locator(".room [data-variant]").select_option("rectangle")
    desk.page.locator("[data-at$='rectangle/length']").fill("40")
    with desk.page.expect_request("**/drawings/plan.js*"):
        desk.page.locator("[data-at$='rectangle/width']").fill("30")
    desk.page.evaluate(RESTS)
    desk.page.locator("[data-at$='rectangle/width']").fill("300")
    let_go(desk.page, held[0])
    expect(desk.page.locator(STALE)).to_be_attached()


def test_faults_that_are_put_right_before_they_are_told_are_not_told(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, "**/quote/faults.js*")
    with desk.page.expect_request("**/quote/faults.js*"):
        desk.type("Area", "12 elephants")
    desk.type("Area", "2400")
    desk.quoted()
    let_go(desk.page, held[0])
    desk.quoted()
    expect(desk.page.locator("#faults")).to_be_hidden()
    expect(desk.page.locator(".wrong")).to_have_count(0)


def test_the_catalogue_stands_in_the_units_that_are_chosen_last(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, SYSTEMS)
    for name in ("metres", "feet"):
        with desk.page.expect_request(SYSTEMS):
            desk.page.get_by_role("radio", name=name).check()
    await_held(desk.page, held, 2)
    let_go(desk.page, held[1])
    let_go(desk.page, held[0])
    expect(desk.page.locator("#system-note")).to_contain_text(" in")
    expect(desk.page.locator("#system-note")).not_to_contain_text("mm")


def test_a_catalogue_that_did_not_come_is_not_told_once_another_is_there(open_page: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    held = holding(desk.page, SYSTEMS)
    with desk.page.expect_request(SYSTEMS):
        desk.page.goto(desk.server)
    expect(desk.page.locator(AREA)).to_be_visible()
    asked(desk, "1200", SYSTEMS)
    await_held(desk.page, held, 2)
    held[1].continue_()
    desk.quoted()
    with desk.page.expect_event("requestfailed"):
        held[0].abort()
    desk.page.wait_for_timeout(150)
    desk.quoted()


def test_the_focus_stays_with_who_goes_on_typing(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, QUOTES)
    asked(desk, "2400")
    desk.page.locator(AREA).press("Enter")
    name = desk.page.get_by_label("Name").first
    with desk.page.expect_request(QUOTES):
        name.fill("Hall")
    await_held(desk.page, held, 2)
    held[1].continue_()
    desk.quoted()
    expect(name).to_be_focused()


def test_a_link_is_not_arrived_at_once_somebody_types(open_page: Any) -> None:
    desk = open_page(390, path="healthz", ready="body")
    held = holding(desk.page, QUOTES)
    with desk.page.expect_request(QUOTES):
        desk.open(job=document(measured()))
    asked(desk, "2400")
    await_held(desk.page, held, 2)
    held[1].continue_()
    desk.quoted()
    expect(desk.page.locator(AREA)).to_be_in_viewport()


def test_the_strip_of_starts_goes_with_its_quote(open_page: Any) -> None:
    """It comes late for the kept quote, when one that begins at another hour stands there."""
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator(".bests .take").first.click()
    desk.quoted()
    held = holding(page, "**/js/quote/chosen.js*")
    with page.expect_request("**/js/quote/chosen.js*"):
        page.reload()
    expect(page.locator("#answer .price")).to_be_visible()
    page.locator("#start").evaluate(
        "(field) => { field.value = '2027-04-06T09:13'; field.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    expect(page.locator("#sheet:not([data-stale]) #answer")).to_be_attached()
    let_go(page, held[0])
    desk.quoted()
    expect(page.locator(".chosen")).to_have_count(0)


def test_marks_of_a_quote_are_not_drawn_into_the_next(open_page: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    held = holding(desk.page, "**/v1/pour-plan*")
    with desk.page.expect_request("**/v1/pour-plan*"):
        desk.open(job=document(measured("600 sq ft", pour={"run": "30 ft"})))
    with desk.page.expect_response(QUOTES):
        desk.page.locator("[data-at='pour/run']").evaluate(
            "(field) => { field.value = ''; field.dispatchEvent(new Event('input', {bubbles: true})); }"
        )
    desk.quoted()
    let_go(desk.page, held[0])
    expect(desk.page.locator("#answer .part-the-floor")).to_be_visible()
    expect(desk.page.locator("#answer .plan")).to_have_count(0)


def test_what_is_typed_while_a_quote_is_opened_stays(open_page: Any, example: Any) -> None:
    desk = open_page(path="healthz", ready="body")
    token = requests.post(f"{desk.server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    held = holding(desk.page, "**/v1/quotes/*")
    with desk.page.expect_request("**/v1/quotes/*"):
        desk.page.goto(f"{desk.server}/#quote={token}")
    expect(desk.page.locator(AREA)).to_be_visible()
    desk.page.locator(AREA).fill("500")
    let_go(desk.page, held[0])
    desk.quoted()
    expect(desk.page.locator(AREA)).to_have_value("500")
    expect(desk.page.locator("#answer .of").first).to_contain_text("500")


def test_what_is_typed_before_the_kept_job_is_there_stays(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, "**/quote/opening.js*")
    with desk.page.expect_request("**/quote/opening.js*"):
        desk.page.reload(wait_until="commit")
    desk.page.locator("#thickness").fill("1/4")
    held[0].continue_()
    desk.quoted()
    expect(desk.page.locator("#thickness")).to_have_value("1/4")
    expect(desk.page.locator(AREA)).to_have_value("1200")
    expect(desk.page.locator("#answer .rooms")).to_contain_text("1/4 in")


def test_one_room_stays_however_fast_they_are_removed(open_page: Any) -> None:
    rooms = [measured(name=name) for name in ("North", "South")]
    desk = open_page(job=document(*rooms))
    desk.quoted()
    held = holding(desk.page, "**/quote/back.js*")
    removes = desk.page.get_by_role("button", name="Remove this room")
    with desk.page.expect_request("**/quote/back.js*"):
        removes.first.click()
    removes.first.click()
    removes.last.click()
    let_go(desk.page, held[0])
    expect(desk.page.locator(".room")).to_have_count(1)
    desk.page.get_by_role("button", name="Undo").click()
    expect(desk.page.locator(".room [data-at=name]").first).to_have_value("North")


def test_the_list_of_jobs_opens_once(open_page: Any) -> None:
    desk = quoted(open_page)
    held = holding(desk.page, "**/quote/back.js*")
    with desk.page.expect_request("**/quote/back.js*"):
        desk.page.locator("#jobs").dblclick()
    let_go(desk.page, held[0])
    expect(desk.page.locator("dialog.jobs")).to_have_count(1)


def test_a_module_that_is_missed_brings_no_other_a_second_time(open_page: Any) -> None:
    desk = quoted(open_page)
    desk.page.locator(".room [data-variant]").select_option("polygon")
    corners = desk.page.locator("[data-at='shape/polygon/points']")
    corners.focus()
    expect(corners.locator("xpath=ancestor::*[contains(@class, 'field')]").locator(".outline")).to_have_count(1)
    desk.page.route("**/quote/back.js*", lambda route: route.abort())
    with desk.page.expect_event("requestfailed"):
        desk.page.locator("#jobs").click()
    corners.focus()
    desk.page.wait_for_timeout(300)
    expect(desk.page.locator(".room .outline")).to_have_count(1)


def test_a_job_that_is_come_back_to_is_open_again(open_page: Any) -> None:
    """A browser may keep a page that is left as it is, and show it again."""
    desk = quoted(open_page)
    desk.page.evaluate("dispatchEvent(new PageTransitionEvent('pagehide', {persisted: true}))")
    desk.page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))")
    other = Desk(desk.page.context.new_page(), desk.server)
    other.open()
    expect(other.page.locator(AREA)).to_have_value("")


def test_an_answer_that_comes_after_the_job_was_cleared_is_not_kept(open_page: Any) -> None:
    desk = quoted(open_page)
    answers, pages = holding(desk.page, QUOTES), holding(desk.page, f"{desk.server}/")
    asked(desk, "2400")
    with desk.page.expect_request(f"{desk.server}/"):
        desk.page.locator("#clear").click(no_wait_after=True)
    let_go(desk.page, answers[0])
    pages[0].continue_()
    desk.says("the quote appears here")
    expect(desk.page.locator("#answer > *")).to_have_count(0)
    expect(desk.page.locator(".way-back")).to_be_visible()


def test_an_answer_that_comes_while_another_job_is_fetched_is_not_shown_with_it(open_page: Any) -> None:
    desk = quoted(open_page)
    desk.page.locator("#jobs").click()
    answers, pages = holding(desk.page, QUOTES), holding(desk.page, f"{desk.server}/")
    desk.page.locator("dialog").get_by_role("button", name="Close").click()
    asked(desk, "2400")
    desk.page.locator("#jobs").click()
    with desk.page.expect_request(f"{desk.server}/"):
        desk.page.get_by_role("button", name="New job").click(no_wait_after=True)
    let_go(desk.page, answers[0])
    pages[0].continue_()
    desk.says("the quote appears here")
    expect(desk.page.locator("#answer > *")).to_have_count(0)


def test_a_quote_that_comes_when_its_key_is_forgotten_is_not_kept(open_page: Any, keyed: Keyed) -> None:
    desk = open_page(server=keyed.address, ready="#state:not(:empty)")
    desk.page.get_by_label("Key for this service").fill(keyed.page)
    desk.page.get_by_role("button", name="Use this key").click()
    desk.type("Area", "1200")
    desk.quoted()
    answers, pages = holding(desk.page, QUOTES), holding(desk.page, f"{desk.server}/")
    asked(desk, "2400")
    with desk.page.expect_request(f"{desk.server}/"):
        desk.page.locator("#forget").click(no_wait_after=True)
    let_go(desk.page, answers[0])
    pages[0].continue_()
    desk.says("answers only those who have a key")
    expect(desk.page.locator("#answer > *")).to_have_count(0)
    assert desk.page.evaluate("localStorage.getItem('gaugerake.quote')") is None
