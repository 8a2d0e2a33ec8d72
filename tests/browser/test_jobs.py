"""A job for each tab, the jobs of this device, and the way back to what a link or an empty form took the place of."""

import re
from typing import Any

import pytest
import requests
from playwright.sync_api import Page, expect
from tests.browser.desk import READY, Desk, link

AREA = "[data-at='shape/measured/area']"


def beside(desk: Desk, path: str = "") -> Desk:
    """Another tab of the same browser."""
    other = Desk(desk.page.context.new_page(), desk.server)
    other.open(path)
    return other


def named(desk: Desk, name: str, area: str) -> None:
    desk.type("Name", name)
    desk.type("Area", area)
    desk.quoted()


def lines(page: Page) -> list[str]:
    return [re.sub(r"\s+", " ", text) for text in page.locator("dialog .job-name").all_inner_texts()]


def test_each_tab_keeps_a_job_of_its_own(open_page: Any) -> None:
    first = open_page()
    named(first, "Packing hall", "1200")
    second = beside(first)
    expect(second.page.locator(AREA)).to_have_value("")
    named(second, "Corridor", "300")
    first.page.reload()
    first.quoted()
    expect(first.page.locator(AREA)).to_have_value("1200")
    second.page.reload()
    second.quoted()
    expect(second.page.locator(AREA)).to_have_value("300")


def test_a_new_tab_goes_on_with_the_job_that_no_tab_has_open(open_page: Any) -> None:
    first = open_page()
    named(first, "Packing hall", "1200")
    waiting = first.page.context.new_page()  # a context ends with its last page
    first.page.close(run_before_unload=True)
    second = Desk(waiting, first.server)
    second.open()
    second.quoted()
    expect(second.page.locator(AREA)).to_have_value("1200")


def test_a_link_over_a_job_in_progress_keeps_it_and_offers_the_way_back(open_page: Any, example: Any) -> None:
    desk = open_page()
    named(desk, "Packing hall", "1200")
    desk.open(link(example("least")))
    desk.quoted()
    line = desk.page.locator(".way-back")
    expect(line).to_contain_text("The job that you had here is kept: Packing hall.")
    desk.is_accessible()
    line.get_by_role("button", name="Back to it").click()
    expect(desk.page.locator(AREA)).to_have_value("1200")
    desk.quoted()
    expect(line).to_have_count(0)


def test_a_quote_that_is_opened_over_a_job_leaves_it_even_when_typed_in(open_page: Any, example: Any) -> None:
    desk = open_page(390)
    named(desk, "Packing hall", "1200")
    token = requests.post(f"{desk.server}/v1/quotes", json=example("counter"), timeout=30).json()["token"]
    desk.open(f"#quote={token}")
    desk.says("The quote as it was made")
    expect(desk.page.locator(".way-back")).to_be_in_viewport()
    desk.type("Name", "North")
    desk.quoted()
    desk.page.get_by_role("button", name="Back to it").click()
    expect(desk.page.locator(AREA)).to_have_value("1200")


@pytest.mark.parametrize("view", ["Compare", "Best start"])
def test_another_view_and_back_is_the_same_job(open_page: Any, view: str) -> None:
    desk = open_page()
    named(desk, "Packing hall", "1200")
    desk.page.get_by_role("link", name=view).click()
    desk.page.locator("#back").click()
    desk.quoted()
    expect(desk.page.locator(".way-back")).to_have_count(0)
    desk.page.get_by_role("button", name="Jobs", exact=True).click()
    expect(desk.page.locator("dialog .job-name")).to_have_count(1)


def test_the_list_has_name_area_and_time_and_opens_a_job(open_page: Any) -> None:
    desk = open_page(390)
    named(desk, "Packing hall", "1200")
    desk.page.get_by_role("button", name="Clear the job").click()
    expect(desk.page.locator(".way-back")).to_contain_text("The job is cleared here and still in the list")
    named(desk, "Corridor", "300")
    desk.page.get_by_role("button", name="Jobs", exact=True).click()
    expect(desk.page.locator("dialog .job-name")).to_have_count(2)
    desk.is_accessible()
    here, other = lines(desk.page)
    assert re.fullmatch(r"Corridor, which is open here ?300 sq ft · \w{3} \w+ \d+, \d+:\d\d [ap]m", here)
    assert re.fullmatch(r"Packing hall ?1,200 sq ft · \w{3} \w+ \d+, \d+:\d\d [ap]m", other)
    desk.page.locator("dialog .job-name").nth(1).click()
    desk.quoted()
    expect(desk.page.locator(AREA)).to_have_value("1200")


def test_what_is_cleared_and_what_is_taken_off_the_list_comes_back(open_page: Any) -> None:
    desk = open_page()
    named(desk, "Packing hall", "1200")
    desk.page.get_by_role("button", name="Clear the job").click()
    expect(desk.page.locator(AREA)).to_have_value("")
    desk.page.get_by_role("button", name="Jobs", exact=True).click()
    desk.page.get_by_role("button", name="Take off the list").click()
    assert desk.page.evaluate("JSON.parse(localStorage['gaugerake.jobs']).length") == 0
    undo = desk.page.get_by_role("button", name="Undo")
    expect(undo).to_be_focused()
    undo.press("Enter")
    assert [line.split(" · ")[0] for line in lines(desk.page)] == ["Packing hall 1,200 sq ft"]
    desk.page.keyboard.press("Escape")
    desk.page.get_by_role("button", name="Back to it").click()
    desk.quoted()
    expect(desk.page.locator(AREA)).to_have_value("1200")


def test_an_empty_list_says_how_a_job_comes_into_it(open_page: Any) -> None:
    desk = open_page()
    expect(desk.page.locator(READY).first).to_be_attached()
    desk.page.get_by_role("button", name="Jobs", exact=True).click()
    expect(desk.page.get_by_role("dialog")).to_contain_text("No job yet")
    desk.is_accessible()
    desk.page.get_by_role("button", name="Close").click()
    expect(desk.page.get_by_role("dialog")).to_have_count(0)
