"""The views beside the quote: choices side by side, and the best hours to begin."""

import base64
import json
import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from tests.browser.late import await_held, holding
from tests.browser.papers import pages_of
from tests.browser.test_log import COPY
from tests.browser.test_paper import LEAST_PT
from tests.builders import document, rectangle

MOST_BYTES = 40_000
"""Of a view's own files, with their heads, beside the answer and the catalogue."""
READY = "#answer > *"
OVER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
JOB = document(
    rectangle("30 ft", "20 ft", name="Packing"),
    air={"temperature": "60 degF", "humidity_percent": 55},
    slab={"relative_humidity": [{"percent": 86, "depth": "2 in"}]},
    work={
        "zone": "America/Chicago",
        "start": "2027-04-06T07:00",
        "crew": {"mixing_stations": 2},
        "temperatures": {"daily": {"low": "54 degF", "high": "70 degF", "coldest_at": "05:00"}},
    },
)


def carried(page: Page, selector: str) -> Any:
    """The job in the address that a link leads to."""
    text = (page.locator(selector).first.get_attribute("href") or "").partition("#job=")[2]
    return json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))["job"]


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("path", ["compare.html", "start.html"])
def test_a_view_is_readable_and_accessible(open_page: Any, width: int, path: str) -> None:
    desk = open_page(width, path=path, job=JOB, ready=READY)
    assert desk.page.evaluate(OVER) == 0
    desk.unfold()
    desk.reads_well()
    desk.is_accessible()


def test_a_system_that_stops_says_why_and_another_is_taken_over(open_page: Any) -> None:
    """86 %: double quartz allows up to 82 %, the trowelled mortar up to 94 %."""
    desk = open_page(path="compare.html", job=JOB, ready=READY)
    quartz = desk.page.locator(".choice", has=desk.page.get_by_role("heading", name="quartz"))
    expect(quartz).to_contain_text("Do not pour")
    expect(quartz).to_contain_text("Relative humidity: Probe 1 reads 86 %, above the limit of 82 %.")
    desk.page.get_by_role("link", name="Take Trowelled").click()
    desk.quoted()
    expect(desk.page.locator("#system")).to_have_value("trowelled-mortar")
    expect(desk.page.locator("#start")).to_have_value("2027-04-06T07:00")


def test_what_must_be_put_right_is_told_with_its_reason(open_page: Any) -> None:
    """95 %: over the 92 % of the levelled floor, up to the 96 % of its primer; the others have none."""
    slab = {"relative_humidity": [{"percent": 95, "depth": "2 in"}]}
    desk = open_page(path="compare.html", job={**JOB, "slab": slab}, ready=READY)
    levelled = desk.page.locator(".choice", has=desk.page.get_by_role("heading", name="Levelled"))
    expect(levelled).to_contain_text("Relative humidity: Probe 1 reads 95 %, above the limit of 92 %")
    expect(levelled).to_contain_text("the limit is 96 %")


@pytest.mark.parametrize("path", ["compare.html", "start.html"])
def test_a_view_prints_all_that_it_found_on_one_page(open_page: Any, path: str) -> None:
    """Three choices, or the three best starts, stand beside one another on paper; a shut fold leaves no line."""
    desk = open_page(path=path, job=JOB, ready=READY)
    for paper in ("Letter", "A4"):
        (whole,) = pages_of(desk.page.pdf(format=paper))
        assert whole.smallest() > (LEAST_PT, "")
    desk.page.set_viewport_size({"width": 750, "height": 900})
    desk.page.emulate_media(media="print")
    found = desk.page.locator(".choice, .bests li")
    expect(found).to_have_count(3)
    tops = [found.nth(i).bounding_box()["y"] for i in range(3)]
    assert max(tops) - min(tops) < 1
    assert all(found.nth(i).inner_text().strip() for i in range(3))
    expect(desk.page.locator("summary:visible")).to_have_count(0)


def test_a_choice_without_any_price_shows_none(open_page: Any) -> None:
    """The answer is the service's, with every price taken out of its totals."""
    desk = open_page(path="compare.html", job=JOB, ready=READY)

    def unpriced(route: Any) -> None:
        answer = route.fetch().json()
        answer["choices"][0]["totals"] |= {"gross": "0.00", "unpriced": ["LB-1", "LB-24"]}
        route.fulfill(json=answer)

    desk.page.route("**/v1/comparisons*", unpriced)
    desk.page.get_by_label("metres").check()
    first = desk.page.locator(".choice").first
    expect(first).to_contain_text("Not in this total, as no price is listed: LB-1, LB-24.")
    expect(first.locator("dd").first).to_contain_text("no price")


def test_thicknesses_are_compared_where_some_are_typed(open_page: Any) -> None:
    desk = open_page(path="compare.html", job=JOB, ready=READY)
    desk.page.locator("#thicknesses").fill("3/16 in, 1/4 in, 4 in")
    expect(desk.page.locator(".choice h2").first).to_have_text("3/16 in")
    assert desk.page.locator(".choice h2").all_inner_texts() == ["3/16 in", "1/4 in", "4 in"]
    expect(desk.page.locator(".refused")).to_contain_text("Cannot be laid so")
    assert carried(desk.page, ".choice:nth-child(2) .take")["thickness"] == "1/4 in"


def test_turning_the_switch_of_units_changes_no_thickness(open_page: Any) -> None:
    desk = open_page(path="compare.html", job=JOB, ready=READY)
    desk.page.locator("#thicknesses").fill("3/16, 1/4")
    expect(desk.page.locator(".choice h2").first).to_have_text("3/16 in")
    desk.page.get_by_label("metres").check()
    expect(desk.page.locator("#thicknesses")).to_have_value("3/16 in, 1/4 in")
    expect(desk.page.locator(".choice dd", has_text="mm").first).to_be_visible()
    assert desk.page.locator(".choice h2").all_inner_texts() == ["3/16 in", "1/4 in"]


def test_turning_the_switch_of_units_changes_no_temperature(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    desk.page.locator("#temperatures").select_option("daily")
    desk.type("Lowest", "52")
    desk.type("Highest", "66 °F")
    with desk.page.expect_request("**/v1/start-search*units=si*") as asked:
        desk.page.get_by_label("metres").check()
    assert asked.value.post_data_json["job"]["work"]["temperatures"] == {"daily": {"low": "52 °F", "high": "66 °F"}}


def test_the_best_start_of_a_day_between_low_and_high_is_taken_over(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator("#from").fill("2027-04-06T06:00")
    page.locator("#until").fill("2027-04-07T18:00")
    page.locator("#step").select_option("1 h")
    page.locator("#temperatures").select_option("daily")
    desk.type("Lowest", "52")
    desk.type("Highest", "66")
    page.get_by_role("button", name="Look for the best start").click()
    expect(page.locator(".hours figcaption")).to_contain_text("of 37 starts are good")
    expect(page.locator(".bests .take")).to_have_count(3)
    job = carried(page, ".bests .take")
    assert job["work"]["temperatures"] == {"daily": {"low": "52 °F", "high": "66 °F"}}
    page.locator(".bests .take").first.click()
    desk.quoted()
    expect(page.locator("#start")).to_have_value(job["work"]["start"])
    chosen = page.locator(".part-back-on-the-floor .chosen")
    expect(chosen).to_contain_text("of 37 starts are good")
    page.reload()
    desk.quoted()
    expect(chosen).to_have_count(1)
    for units, area in (("metres", "m²"), ("feet", "sq ft")):
        page.get_by_role("radio", name=units).check()
        expect(page.locator(".part-back-on-the-floor ~ *", has_text=area).first).to_be_visible()
        expect(chosen.locator(".day svg").first).to_be_visible()
        expect(chosen).to_have_count(1)
    page.emulate_media(media="print")
    assert chosen.locator(".day svg").first.bounding_box()["width"] > 100
    page.emulate_media(media="screen")
    assert min(one.smallest() for one in pages_of(page.pdf(format="Letter"))) > (LEAST_PT, "")
    desk.unfold()
    page.locator("#start").fill("2027-04-06T09:00")
    expect(chosen).to_have_count(0)


def test_the_strip_of_one_job_is_not_shown_with_another_that_begins_then(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    desk.page.locator(".bests .take").first.click()
    desk.quoted()
    chosen = desk.page.locator(".part-back-on-the-floor .chosen")
    expect(chosen).to_have_count(1)
    start = desk.page.locator("#start").input_value()
    desk.page.goto("about:blank")
    other = document(rectangle("60 ft", "20 ft", name="Packing"), work={**JOB["work"], "start": start})
    desk.open(job=other)
    desk.quoted()
    expect(desk.page.locator(".part-back-on-the-floor")).to_be_visible()
    expect(chosen).to_have_count(0)


def test_an_answer_that_comes_before_the_strip_of_the_kept_quote_is_not_told_as_old(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator(".bests .take").first.click()
    desk.quoted()
    held = holding(page, "**/js/quote/chosen.js*")
    with page.expect_response("**/v1/quotes?*"):
        page.reload()
    expect(page.locator(".price dd").first).to_contain_text("$")
    await_held(page, held, 1)
    held[0].continue_()
    desk.quoted()
    expect(page.locator(".part-back-on-the-floor .chosen")).to_have_count(1)
    expect(page.locator(".price .old")).to_be_hidden()
    assert page.locator(".price dd").first.evaluate("(price) => getComputedStyle(price).textDecorationLine") == "none"


def test_the_date_of_a_pour_tells_the_age_at_every_start(open_page: Any) -> None:
    """Poured on January 19, it is 45 days old on March 5, 50 on March 10: the age that was typed stays behind."""
    slab = {"poured": "2027-01-19", "age": "45 d", **JOB["slab"]}
    desk = open_page(path="start.html", job={**JOB, "slab": slab}, ready="#state")
    page = desk.page
    page.locator("#from").fill("2027-03-05T06:00")
    page.locator("#until").fill("2027-03-10T18:00")
    page.locator("#step").select_option("1 h")
    page.get_by_role("button", name="Look for the best start").click()
    expect(page.locator(".hours figcaption")).to_contain_text("of 133 starts are good")
    assert carried(page, ".bests .take")["slab"] == {key: value for key, value in slab.items() if key != "age"}


def test_a_pasted_log_is_read_and_asked_about(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator("#temperatures").select_option("readings")
    field = page.locator("#readings")
    field.focus()
    with page.expect_request("**/v1/start-search*") as asked:
        field.fill("2027-04-06 06:00, 55\n2027-04-08 06:00, 61")
        page.get_by_role("button", name="Look for the best start").click()
    readings = asked.value.post_data_json["job"]["work"]["temperatures"]["readings"]
    assert [one["temperature"] for one in readings] == ["55 °F", "61 °F"]
    expect(page.locator("#answer")).to_contain_text("The readings of the floor end at")


FORECAST = """Time,Temp (F),RH
2027-04-06 06:00,55,62
2027-04-08 06:00,61,48
"""


def test_a_pasted_forecast_is_used_whole(open_page: Any) -> None:
    """Its temperature is the floor's and the air's, and its humidity goes with it."""
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("#temperatures").select_option("readings")
    field = page.locator("#readings")
    with page.expect_response(re.compile(r"/js/shared/log/stamps\.js")):
        field.focus()
    page.wait_for_load_state("networkidle")
    page.evaluate(COPY, FORECAST)
    field.focus()
    page.keyboard.press("Control+V")
    expect(page.locator("#air-readings")).to_have_value("2027-04-06 06:00, 55 °F, 62 %\n2027-04-08 06:00, 61 °F, 48 %")
    expect(page.locator(".log")).to_contain_text("The air too, from Temp (F) and RH.")
    with page.expect_request("**/v1/start-search*") as asked:
        page.get_by_role("button", name="Look for the best start").click()
    assert asked.value.post_data_json["job"]["air"] == {
        "readings": [
            {"at": "2027-04-06T06:00", "temperature": "55 °F", "humidity_percent": 62},
            {"at": "2027-04-08T06:00", "temperature": "61 °F", "humidity_percent": 48},
        ]
    }
    expect(page.locator(".hours figcaption")).to_contain_text("starts are good")
    desk.is_accessible()


def test_a_forecast_pasted_among_the_readings_of_the_air_is_read_too(open_page: Any) -> None:
    """The floor is left as it was; a list of clocks without minutes is a usual form of a forecast."""
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("#temperatures").select_option("readings")
    field = page.locator("#air-readings")
    with page.expect_response(re.compile(r"/js/shared/log/stamps\.js")):
        field.focus()
    page.wait_for_load_state("networkidle")
    page.evaluate(COPY, "Hour,Temp (F),RH\n4/16/2027 6 AM,55,62\n4/16/2027 6 PM,61,48\n")
    field.focus()
    page.keyboard.press("Control+V")
    expect(field).to_have_value("2027-04-16 06:00, 55 °F, 62 %\n2027-04-16 18:00, 61 °F, 48 %")
    expect(page.locator(".log")).to_have_text("The air, from Temp (F) and RH.")
    expect(page.locator("#readings")).to_have_value("")
    field.fill("")
    page.evaluate(COPY, "4/16/2027 6 AM\t55 °F\n4/17/2027 6 AM\t57 °F\n")
    field.focus()
    page.keyboard.press("Control+V")
    expect(page.locator(".log")).to_contain_text("No humidity found beside a temperature")


def test_what_was_found_for_other_hours_goes_when_they_change(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator("#until").fill("2027-04-07T18:00")
    expect(page.locator("#answer > *")).to_have_count(0)
    expect(page.locator("#state")).to_have_text("Not worked out yet for what is typed now: look again.")
    page.get_by_role("button", name="Look for the best start").click()
    expect(page.locator(".bests .take").first).to_be_visible()
    expect(page.locator("#state")).to_have_text("Worked out for the hours that are typed here.")


def test_lines_that_are_no_readings_are_told_by_what_they_say(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    page = desk.page
    page.locator("#temperatures").select_option("readings")
    page.locator("#readings").fill("\n".join(f"warm on day {day}" for day in range(9)))
    page.get_by_role("button", name="Look for the best start").click()
    told = page.locator("#state li")
    expect(told.first).to_have_text(re.compile("^warm on day 0: This is not a date and a time. Write it such as"))
    expect(told).to_have_count(9)
    expect(told.last).to_have_text("…")
    desk.reads_well()


def test_a_start_in_an_hour_that_comes_twice_keeps_its_offset_in_the_form(open_page: Any) -> None:
    desk = open_page(job={**JOB, "work": {**JOB["work"], "start": "2027-11-07T01:30-06:00"}})
    desk.unfold()
    expect(desk.page.locator("#start")).to_have_value("")
    expect(desk.page.locator(".held-here", has_text="2027-11-07T01:30-06:00")).to_be_visible()
    with desk.page.expect_request("**/v1/quotes*") as asked:
        desk.type("Name", "Packing hall")
    assert asked.value.post_data_json["work"]["start"] == "2027-11-07T01:30-06:00"


def test_hours_that_cannot_be_are_told_with_what_to_write(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    desk.page.locator("#until").fill("2027-04-05T06:00")
    desk.page.get_by_role("button", name="Look for the best start").click()
    expect(desk.page.locator("#state")).to_contain_text("before the first start")


def test_what_a_search_asks_for_stands_apart_from_what_to_beware_of(open_page: Any) -> None:
    desk = open_page(path="start.html", job=JOB, ready=READY)
    asked = desk.page.locator("details", has_text="What would make this surer")
    asked.locator("summary").click()
    expect(asked.locator("li", has_text="Give the slab's surface profile")).to_be_visible()
    expect(desk.page.get_by_text("Give the slab's surface profile")).to_have_count(1)


@pytest.mark.parametrize("path", ["compare.html", "start.html"])
def test_a_view_without_a_job_leads_to_the_quote(open_page: Any, path: str) -> None:
    desk = open_page(path=path, ready="#state:not(:empty)")
    expect(desk.page.locator("#state")).to_contain_text("Go to the quote")


def test_the_quote_carries_its_job_to_the_views(open_page: Any) -> None:
    desk = open_page(job=JOB)
    desk.quoted()
    desk.page.get_by_role("link", name="Compare").click()
    expect(desk.page.locator(".choice").first).to_be_visible()
    assert "#job=" in desk.page.url


@pytest.mark.parametrize("path", ["compare.html", "start.html"])
def test_a_view_weighs_little(open_page: Any, path: str) -> None:
    desk = open_page(path=path, job=JOB, ready=READY)
    came = desk.over_the_wire()
    desk.page.reload()
    expect(desk.page.locator(READY).first).to_be_visible()
    desk.page.wait_for_load_state("networkidle")
    files = [(url, size) for url, size in came if "/v1/" not in url]
    assert any(url.endswith(f"/js/{path.removesuffix('.html')}/main.js") for url, _ in files)
    assert sum(size for _, size in files) < MOST_BYTES, files
