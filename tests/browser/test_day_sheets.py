"""The day sheets as a person sees and prints them: reached from the quote, read by all, a page for each day."""

import re
from typing import Any

import pytest
import requests
from playwright.sync_api import expect

FULL_DAY = {
    "system": "double-quartz",
    "rooms": [
        {
            "name": f"Laboratory {number}",
            "shape": {"rectangle": {"length": "20 ft", "width": "12 ft"}},
            "pour": {"from": "left"},
        }
        for number in range(1, 13)
    ],
    "work": {
        "start": "2027-03-05T00:00",
        "zone": "America/Chicago",
        "round_the_clock": True,
        "temperatures": {"steady": "86 degF"},
        "preparation": "30 min",
    },
}


def sheets(server: str, job: Any) -> tuple[str, list[Any]]:
    """The address of a job's day sheets below the service, and its days."""
    quote = requests.post(f"{server}/v1/quotes", json=job, timeout=30).json()
    path = f"v1/quotes/{quote['token']}/day-sheet"
    days = requests.get(f"{server}/{path}", headers={"Accept": "application/json"}, timeout=30).json()["days"]
    return path, days


@pytest.mark.parametrize("width", [390, 1280])
def test_they_are_reached_from_the_quote(open_page: Any, example: Any, width: int) -> None:
    desk = open_page(width, job=example("counter"))
    desk.quoted()
    desk.page.get_by_role("link", name="Day sheets for the crew").click()
    expect(desk.page).to_have_title(re.compile(r"^Day sheets of quote [0-9a-f-]{14}$"))
    expect(desk.page.get_by_role("heading", name=re.compile("^Fri Mar 5, 2027: day 1 of"))).to_be_visible()
    desk.is_accessible()
    desk.reads_well()


@pytest.mark.parametrize(
    ("query", "units", "dated", "short"),
    [
        ("lang=en", "us", "Fri Mar 5, 2027", "Fri Mar 5"),
        ("lang=en", "si", "Fri 5 Mar 2027", "Fri 5 Mar"),
        ("lang=es", "us", "vie 5 mar 2027", "vie 5 mar"),
    ],
)
def test_a_phone_shows_each_day_as_a_card(
    open_page: Any, server: str, example: Any, query: str, units: str, dated: str, short: str
) -> None:
    """Its date in one line, as language and units write it, its hours beside it, its work below in the whole width."""
    made = requests.post(f"{server}/v1/quotes?units={units}", json=example("counter"), timeout=30).json()
    desk = open_page(390, path=f"v1/quotes/{made['token']}/day-sheet?{query}", ready="h1")
    day = desk.page.get_by_role("row").filter(has_text=short).first
    expect(day.get_by_role("rowheader")).to_have_text(short)
    expect(desk.page.locator("section h2").first).to_contain_text(f"{dated}: ")
    head, work = day.get_by_role("rowheader").bounding_box(), day.get_by_role("cell").nth(2).bounding_box()
    assert head is not None
    assert work is not None
    assert head["height"] < 30
    assert work["y"] >= head["y"] + head["height"]
    assert work["width"] > 330
    assert desk.page.locator(".wide").first.evaluate("(one) => one.scrollWidth <= one.clientWidth")
    desk.is_accessible()


def test_without_a_start_there_are_none(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("least"))
    desk.quoted()
    expect(desk.page.get_by_role("link", name="Day sheets for the crew")).to_have_count(0)


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("name", ["counter", "full", "winter", "metric", "full day"])
def test_a_day_prints_on_one_page(open_page: Any, server: str, example: Any, name: str, paper: str) -> None:
    """One page for all days, with what to beware of; then one for each. A phone prints it, whose tables are whole."""
    path, days = sheets(server, FULL_DAY if name == "full day" else example(name))
    desk = open_page(390, path=path, ready="h1")
    assert desk.page.locator(".wide").evaluate_all("all => all.every((one) => one.scrollWidth <= one.clientWidth)")
    printed = desk.page.pdf(format=paper)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1 + len(days)
    if name == "full day":
        assert max(len(day["steps"]) for day in days) > 5


def test_paper_has_room_to_write_on(open_page: Any, server: str, example: Any) -> None:
    """Six blanks for each reading: floor, air, humidity, dew point, spread, and who read them."""
    path, days = sheets(server, example("full"))
    desk = open_page(path=path, ready="h1")
    blanks = desk.page.locator("table.readings td.blank")
    assert blanks.count() == 6 * sum(len(day["readings"]) for day in days)
    assert blanks.evaluate_all("all => all.every((one) => one.getBoundingClientRect().width > 40)")
    desk.is_accessible()
    desk.reads_well()
