"""A logger's file is pasted among the readings: what it says is taken, and what it leaves open is asked."""

import re
from typing import Any

from playwright.sync_api import Locator, expect
from tests.browser.desk import Desk

FILE = """#,Date Time,"Slab, °F","Air, °F",RH %
1,03/04/2027 06:00:00 AM,52.1,58.0,41
2,03/04/2027 12:00:00 PM,54.5,63.2,39
3,03/04/2027 06:00:00 PM,Logged,,
4,03/05/2027 12:00:00 AM,53.0,57.1,44
"""
READ = "2027-03-04 06:00, 52.1 °F\n2027-03-04 12:00, 54.5 °F\n2027-03-05 00:00, 53.0 °F"
COPY = """(text) => {
  const source = document.createElement('textarea');
  source.value = text;
  document.body.append(source);
  source.select();
  document.execCommand('copy');
  source.remove();
}"""


def pasted(desk: Desk, text: str) -> Locator:
    """The field of readings with a text in it that comes from elsewhere."""
    desk.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    desk.unfold()
    desk.page.locator("#temperatures").select_option("readings")
    field = desk.page.locator("#readings")
    with desk.page.expect_response(re.compile(r"/js/shared/log/stamps\.js")):
        field.focus()
    desk.page.wait_for_load_state("networkidle")
    desk.page.evaluate(COPY, text)
    field.focus()
    desk.page.keyboard.press("Control+V")
    return field


def test_what_a_file_leaves_open_is_asked_and_then_it_is_read(open_page: Any) -> None:
    desk = open_page()
    field = pasted(desk, FILE)
    asks = desk.page.locator(".log")
    expect(asks).to_contain_text("Which day is 03/04/2027 06:00:00 AM?")
    expect(field).to_have_value(FILE)  # nothing is lost while it waits
    expect(asks.get_by_role("button")).to_have_text(["March 4, 2027", "April 3, 2027"])
    desk.is_accessible()
    asks.get_by_role("button", name="March 4, 2027").click()
    expect(asks).to_contain_text("Which column is the floor's temperature?")
    asks.get_by_role("button", name="Slab, °F: 52.1, 54.5, 53.0 …").click()
    expect(field).to_have_value(READ)
    expect(asks).to_contain_text("3 readings taken. Column: Slab, °F. Lines left out: 4.")
    desk.page.locator("[data-at='/work/start']").fill("2027-03-04T07:00")  # readings have dates, so the work needs one
    desk.type("Area", "1200")
    desk.quoted()
    desk.reads_well()


def test_a_file_that_leaves_nothing_open_is_read_at_once(open_page: Any) -> None:
    desk = open_page()
    field = pasted(desk, "Date\tTemp (C)\n2027-03-05 06:00\t12.5\n2027-03-05 05:00\t12,25\n")
    expect(field).to_have_value("2027-03-05 05:00, 12.25 °C\n2027-03-05 06:00, 12.5 °C")
    said = "2 readings taken. Column: Temp (C). Turned: the newest came first."
    expect(desk.page.locator(".log")).to_have_text(said)
    field.press("End")
    field.type(" ")
    expect(desk.page.locator(".log")).to_be_empty()


def test_what_is_no_file_stays_and_is_told(open_page: Any) -> None:
    desk = open_page()
    field = pasted(desk, "see attachment")
    expect(field).to_have_value("see attachment")
    expect(desk.page.locator(".log")).to_have_text("No reading found: each takes a date, a time and a temperature.")


def test_readings_as_the_form_takes_them_are_left_alone(open_page: Any) -> None:
    desk = open_page()
    field = pasted(desk, "2027-03-05 06:00, 61\n2027-03-05 18:00, 64")
    expect(field).to_have_value("2027-03-05 06:00, 61\n2027-03-05 18:00, 64")
    expect(desk.page.locator(".log")).to_be_empty()
