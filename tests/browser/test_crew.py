"""The crew's people, hands and rates: in a fold, and nothing of a job that has them is lost."""

from typing import Any

import pytest
from playwright.sync_api import expect
from tests.browser.test_carriage import MOST_LATER_BYTES

from gaugerake.answers.job.resolve_crew import USUAL_HANDS

FOLD = "#crew > summary"
CREW = "JSON.parse(sessionStorage['gaugerake.job']).job.work.crew"
SAID = {
    "people": 3,
    "hourly_cost": "46.50",
    "hands": {"prepare": 2, "mix": 1, "seal": 2},
    "prepare_rate": "250 ft2/h",
    "cove_rate": "18 ft/h",
    "cast_rate": "800 lb/h",
    "coating_rate": "900 ft2/h",
}


def job(**crew: Any) -> dict[str, Any]:
    room = {"shape": {"measured": {"area": "1200 sq ft"}}, "cove": {"length": "110 ft", "height": "6 in"}}
    return {"system": "level-clear", "rooms": [room], **({"work": {"crew": crew}} if crew else {})}


@pytest.mark.parametrize("width", [390, 1280])
def test_the_crew_is_said_in_a_fold_that_comes_when_it_is_opened(open_page: Any, width: int) -> None:
    desk = open_page(width)
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.locator("#part-work > summary").click()
    assert desk.page.locator("#crew input").count() == 0
    came = desk.over_the_wire()
    desk.page.locator(FOLD).click()
    cove = desk.page.get_by_label("Preparing, sq ft/h")
    expect(cove).to_be_visible()
    assert sum(size for url, size in came if "/v1/" not in url) < MOST_LATER_BYTES
    # the API's own default, as its description has it
    expect(desk.page.locator(".field", has=cove).locator(".assumed")).to_have_text("assumed 300 sq ft/h")
    for task, hands in USUAL_HANDS.items():
        told = desk.page.locator(".field", has=desk.page.locator(f"#crew-hands-{task}")).locator(".hint")
        expect(told).to_have_text(f"usually {hands}")
    for label, text in (("People in all", "3"), ("Cost of one person per hour", "46.50"), ("Making cove", "2")):
        desk.type(label, text)
    desk.page.get_by_label("Making cove, ft/h").fill("18")
    desk.quoted()
    assert desk.page.evaluate(CREW) == {
        "people": 3,
        "hourly_cost": "46.50",
        "hands": {"cove": 2},
        "cove_rate": "18",  # as typed; the unit beside the field goes out with it
    }
    expect(desk.page.locator("#crew .said")).to_have_text("4 filled in")
    desk.is_accessible()


@pytest.mark.parametrize("width", [390, 1280])
def test_what_the_crew_takes_and_costs_stands_with_the_steps(open_page: Any, width: int) -> None:
    """1,201 sq ft, nothing else said, at 50.00 an hour: at 300 sq ft/h 1201 / 300 x 2 = 8.00667 h, so 8 h 1 min paid.

    A coat is rolled at 1,000 sq ft/h by two: 1.201 x 2 = 2.402 h, so 2 h 25 min. Minutes begun are paid, as the day
    sheet says them. The total is the service's own.
    """
    desk = open_page(width)
    desk.type("Area", "1201")
    desk.quoted()
    desk.page.locator("#part-work > summary").click()
    desk.page.locator(FOLD).click()
    desk.type("Cost of one person per hour", "50.00")
    desk.quoted()
    desk.page.get_by_text("The likely run, step by step").click()
    steps = desk.page.get_by_role("table", name="Steps of the likely run")
    preparing = steps.get_by_role("row").filter(has_text="Prepare the slab")
    expect(preparing.get_by_role("cell").nth(-2)).to_have_text("2")
    expect(preparing.get_by_role("cell").nth(-1)).to_have_text("8 h 1 min")
    first = steps.get_by_role("row").filter(has_text="First clear coat")
    expect(first.get_by_role("cell").nth(-1)).to_have_text("2 h 25 min")
    labour = desk.page.evaluate("JSON.parse(localStorage['gaugerake.quote']).body.return_times.labour")
    assert labour["people_needed"] == 4  # one mixes, one places, one rolls, one broadcasts
    crew = desk.page.get_by_text("Crew: 4 at once at most")
    expect(crew).to_contain_text(f"${float(labour['cost']):,.2f}, not in the order.")
    desk.is_accessible()


def test_nothing_of_a_crew_is_lost_on_the_way(open_page: Any) -> None:
    desk = open_page(job=job(mixing_stations=2, **SAID))
    desk.quoted()
    assert desk.page.evaluate(CREW) == {"mixing_stations": 2, **SAID}
    desk.page.reload()
    desk.quoted()
    assert desk.page.evaluate(CREW) == {"mixing_stations": 2, **SAID}
    assert desk.page.locator(".held-here").count() == 0
    desk.page.locator("[name=units][value=si]").check()
    desk.quoted()
    desk.page.locator("#part-work > summary").click()
    desk.page.locator(FOLD).click()
    rate = desk.page.get_by_label("Making cove, m/h")
    expect(rate).to_have_value("18 ft/h")
    rate.fill("6")
    with desk.page.expect_request("**/v1/quotes?*") as sent:
        rate.press("Tab")
    assert sent.value.post_data_json["work"]["crew"]["cove_rate"] == "6 m/h"


def test_what_is_assumed_of_a_crew_leads_to_its_fold(open_page: Any) -> None:
    """And is not told beside the mixing stations, which it is not about."""
    desk = open_page(job=job())
    desk.quoted()
    assert desk.page.locator("#crew input").count() == 0
    stations = desk.page.locator(".field", has=desk.page.locator("#stations"))
    expect(stations.locator(".assumed")).to_have_text("assumed 1")
    desk.page.locator("#answer details summary", has_text="Assumed").evaluate_all(
        "(all) => all.forEach((one) => (one.parentElement.open = true))"
    )
    about = desk.page.locator("#answer li:visible", has_text="make cove at 20 ft/h")
    about.get_by_role("link", name="Change it").click()
    expect(desk.page.get_by_label("Making cove, ft/h")).to_be_visible()


def test_a_fold_that_does_not_come_says_so(open_page: Any) -> None:
    desk = open_page()
    desk.page.route("**/js/quote/crew.js*", lambda route: route.abort("connectionrefused"))
    desk.page.locator("#part-work > summary").click()
    desk.page.locator(FOLD).click()
    wrong = desk.page.locator("#part-work .wrong")
    expect(wrong).to_contain_text("The server cannot be reached")
    desk.page.unroute("**/js/quote/crew.js*")
    desk.page.locator(FOLD).click()
    desk.page.locator(FOLD).click()
    expect(desk.page.get_by_label("People in all")).to_be_visible()
