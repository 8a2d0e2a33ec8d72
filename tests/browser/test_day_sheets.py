"""The day sheets as a person sees and prints them: reached from the quote, read by all, a page for each day."""

import re
from typing import Any

import pytest
import requests
from playwright.sync_api import expect
from tests.browser.papers import pages_of
from tests.browser.test_paper import LEAST_PT, close, plain

from gaugerake.answers.job.everyday import EVERYDAY
from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates

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


AS_JSON = {"Accept": "application/json"}


def sheets(server: str, job: Any, units: str = "us") -> tuple[str, list[Any]]:
    """The address of a job's day sheets below the service, and its days."""
    quote = requests.post(f"{server}/v1/quotes?units={units}", json=job, timeout=30).json()
    path = f"v1/quotes/{quote['token']}/day-sheet"
    days = requests.get(f"{server}/{path}", headers=AS_JSON, timeout=30).json()["days"]
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
    expect(desk.page.locator(".day h2").first).to_contain_text(f"{dated}: ")
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


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["counter", "full", "winter", "metric", "full day"])
def test_a_day_prints_on_one_page(
    open_page: Any, server: str, example: Any, name: str, language: Language, units: str
) -> None:
    """One page for all days, one of cautions, then one for each day, in letters of 8 points or more on either paper.

    A phone prints it, whose tables are whole.
    """
    path, days = sheets(server, FULL_DAY if name == "full day" else example(name), units)
    desk = open_page(390, path=f"{path}?lang={language}", ready="h1")
    assert desk.page.locator(".wide").evaluate_all("all => all.every((one) => one.scrollWidth <= one.clientWidth)")
    for paper in ("Letter", "A4"):
        pages = pages_of(desk.page.pdf(format=paper))
        assert min(page.smallest() for page in pages) > (LEAST_PT, "")
        assert len(pages) == 2 + len(days)
        heads = [templates(language)["sheet-day"].partition("{number}")[0].rpartition("{day}")[2]] * len(days)
        for number, head in enumerate(heads, 1):
            assert f"{head}{number} " in plain(pages[1 + number].text)
    if name == "full day":
        assert max(len(day["steps"]) for day in days) > 5


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["counter", "full", "winter"])
def test_cautions_print_in_full_on_a_page_of_their_own(
    open_page: Any, server: str, example: Any, name: str, language: Language
) -> None:
    """The first page names the dangers, says the first cautions of the job and where all stand; they do."""
    job = example(name)
    job["order"] = job.get("order", {}) | {"reference": "PO 4711"}
    path, _ = sheets(server, job)
    desk = open_page(path=f"{path}?lang={language}", ready="h1")
    first, safety, *_ = (plain(page.text) for page in pages_of(desk.page.pdf(format="Letter")))
    words, reply = templates(language), requests.get(f"{server}/{path}?lang={language}", headers=AS_JSON, timeout=30)
    cautions = reply.json()["cautions"]
    assert words["client-danger-hazard-wet-cement"] in first
    assert words["print-in-full"] in first
    assert words["print-safety"] in safety[:60]
    assert "PO 4711" in safety
    said = [note["text"] for note in cautions if close(note["text"]) not in close(first)]
    assert len(said) > 12
    assert [text for text in said if close(text) not in close(safety)] == []
    mine = [note["text"] for note in cautions if note["code"] not in EVERYDAY]
    assert mine
    assert all(close(text) in close(first + safety) for text in mine)


def test_two_languages_print_no_smaller(open_page: Any, server: str) -> None:
    path, _ = sheets(server, FULL_DAY)
    desk = open_page(path=f"{path}?lang=en&beside=es", ready="h1")
    assert min(page.smallest() for page in pages_of(desk.page.pdf(format="Letter"))) > (LEAST_PT, "")


def test_paper_has_room_to_write_on(open_page: Any, server: str, example: Any) -> None:
    """Six blanks for each reading: floor, air, humidity, dew point, spread, and who read them."""
    path, days = sheets(server, example("full"))
    desk = open_page(path=path, ready="h1")
    blanks = desk.page.locator("table.readings td.blank")
    assert blanks.count() == 6 * sum(len(day["readings"]) for day in days)
    assert blanks.evaluate_all("all => all.every((one) => one.getBoundingClientRect().width > 40)")
    desk.is_accessible()
    desk.reads_well()
