"""The page works nothing out: its figures are the API's, and so is the job that it sends."""

import re
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import requests
from playwright.sync_api import Route, expect
from tests.builders import document, measured

JOBS = ["counter", "full", "least", "metric", "winter"]


def ask(server: str, job: Any, units: str = "us") -> Any:
    answer = requests.post(f"{server}/v1/quotes?units={units}&echo=true", json=job, timeout=60)
    assert answer.status_code == 200
    return answer.json()


def issued(job: Any) -> Any:
    """The job as the page sends it: issued today, on the browser's calendar, unless it says another day."""
    today = datetime.now(ZoneInfo("America/Chicago")).date().isoformat()
    return job | {"order": {"issued": today} | job.get("order", {})}


def clock(instant: str) -> str:
    """A time of day as the page writes it with US units: '22:24' is '10:24 pm'."""
    hour, minute = int(instant[11:13]), instant[14:16]
    return f"{(hour + 11) % 12 + 1}:{minute}\xa0{'pm' if hour > 11 else 'am'}"


def figures(text: str) -> list[float]:
    return [float(word.replace(",", "")) for word in re.findall(r"-?\d[\d,]*\.?\d*", text)]


@pytest.mark.parametrize("name", JOBS)
def test_a_job_goes_through_the_form_unchanged(open_page: Any, server: str, example: Any, name: str) -> None:
    """The fingerprint is of the job as it is understood: the same one means the same job."""
    expected = ask(server, issued(example(name)))
    desk = open_page()
    with desk.page.expect_response(lambda one: "/v1/quotes?" in one.url) as seen:
        desk.open(job=example(name))
    answer = seen.value.json()
    desk.quoted()
    job = answer["job"]
    zone = example(name).get("work", {}).get("zone")
    if zone is None:
        assert job.get("work", {}).pop("zone") == "America/Chicago"
        job = {key: value for key, value in job.items() if value != {}}
        expected["job"].get("work", {}).pop("zone", None)
    assert job == {key: value for key, value in expected["job"].items() if value != {}}
    number = desk.page.locator(".titleblock dd").first.inner_text()
    assert number.replace(" ", "") == answer["fingerprint"][:12]
    if zone is not None:
        assert number.replace(" ", "") == expected["fingerprint"][:12]


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_order_is_the_answers(shown: Any, server: str, example: Any, units: str) -> None:
    order = ask(server, example("full"), units)["quantities"]
    desk = shown("full", units)
    rows = desk.page.locator("table.order tbody tr")
    expect(rows).to_have_count(len(order["order_lines"]))
    for row, line in zip(rows.all(), order["order_lines"], strict=True):
        cells = row.locator("th, td").all_inner_texts()
        assert cells[:3] == [line["description"], line["sku"], str(line["packs"])]
        assert [cell.replace(",", "") for cell in cells[4:]] == [f"${line['unit_price']}", f"${line['amount']}"]
        if line["need"] is None:
            assert cells[3] == ""
        else:
            # whole pounds and kilograms, else one decimal
            assert figures(cells[3])[0] == pytest.approx(line["need"]["ordered"]["value"], rel=5e-4, abs=0.051)
    totals = desk.page.locator("table.order tfoot tr").all_inner_texts()
    assert [row.split("\t")[-1].replace(",", "").strip() for row in totals] == [
        f"${order['totals'][key]}" for key in ("lines", "delivery", "net", "tax", "gross")
    ]


def test_returns_lead_with_the_latest(shown: Any, server: str, example: Any) -> None:
    returns = ask(server, example("full"))["return_times"]["returns"]
    desk = shown("full")
    rows = desk.page.locator("table.returns tbody tr")
    for row, one in zip(rows.all(), returns, strict=True):
        cells = row.locator("th, td").all_inner_texts()
        assert cells[0].lower() == one["traffic"]
        for cell, instant in zip(cells[1:], (one["latest"], one["likely"], one["earliest"]), strict=True):
            assert cell.endswith(clock(instant))
            assert str(int(instant[8:10])) in cell
    asked = next(one for one in returns if one["traffic"] == example("full")["work"]["traffic"])
    lead = desk.page.locator(".answers div", has_text="back").locator("dd").inner_text()
    assert clock(asked["latest"]) in lead
    assert "at the latest" in lead


def test_where_no_class_is_asked_the_first_leads(shown: Any, server: str, example: Any) -> None:
    returns = ask(server, example("counter"))["return_times"]["returns"]
    backs = shown("counter").page.locator(".answers dt", has_text="back").all_inner_texts()
    assert backs == [f"{returns[place]['traffic'].capitalize()} back" for place in (0, -1)]


def test_waits_are_told_in_half_days_and_never_too_early(shown: Any, server: str, example: Any) -> None:
    returns = ask(server, example("least"))["return_times"]["returns"]
    desk = shown("least")
    for row, one in zip(desk.page.locator("table.returns tbody tr").all(), returns, strict=True):
        days, half = re.fullmatch(r"(\d+)(½?) days", row.locator("td").inner_text()).groups()  # type: ignore[union-attr]
        told, exact = 24 * int(days) + 12 * bool(half), one["after"]["value"]
        assert exact <= told < exact + 12


def test_the_exact_figure_is_one_tap_away_in_the_working(open_page: Any, server: str, example: Any) -> None:
    exact = ask(server, example("least"))["return_times"]["returns"][0]["after"]["value"]
    desk = open_page(job=example("least"))
    desk.quoted()
    desk.page.get_by_role("button", name=re.compile("^4 days$")).click()
    work = desk.page.locator("[data-figure='/return_times/returns/0/after']")
    expect(work).to_be_focused()
    expect(work).to_contain_text(f"{exact:g}\xa0h")


def test_the_quote_says_which_floor_it_is_and_until_when_it_holds(open_page: Any, example: Any) -> None:
    job = example("least") | {"order": {"buyer": "Ovens and Sons", "reference": "PO 4711"}}
    desk = open_page(job=job)
    desk.quoted()
    told = desk.page.locator("#answer .heading")
    for words in ("Levelled broadcast floor with two clear coats (level-clear)", "1,200 sq ft", "7/32 in"):
        expect(told).to_contain_text(words)
    today = datetime.now(ZoneInfo("America/Chicago")).date()
    days = [f"{day:%b} {day.day}, {day.year}" for day in (today, today + timedelta(days=21))]
    for words in ("Ovens and Sons", "PO 4711", "Wrenfold Floor Supply", f"{days[0]}; prices hold until {days[1]}"):
        expect(told).to_contain_text(words)
    number = desk.page.locator(".titleblock dd").first.inner_text()
    assert desk.page.title() == f"Quote {number} · Ovens and Sons · PO 4711"
    desk.unfold()
    desk.page.locator("#issued").fill("2027-03-01")
    expect(told).to_contain_text("Mar 1, 2027; prices hold until Mar 22, 2027")


def test_an_edge_that_does_not_hold_says_what_it_needs(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("least"))
    desk.quoted()
    expect(desk.page.locator(".wrong-here")).to_have_text("The wet edge: needs 2 mixing stations (1 assumed).")
    lead = desk.page.locator(".answers .fails")
    expect(lead.locator("dd")).to_contain_text("needs 2 mixing stations (1 assumed)")
    order = "(all) => all.map((one) => one.className)"
    looks = desk.page.locator("#answer > .first > *").evaluate_all(order)
    assert looks == ["heading", "answers price", "old", "wrong-here", "verdict", "answers"]
    first = desk.page.locator("#answer .answers:not(.price) > div").first
    assert first.get_attribute("class") == "fails"


def test_lateness_comes_right_after_the_price(shown: Any) -> None:
    desk = shown("full")
    expect(desk.page.locator(".wrong-here")).to_contain_text("too late by 4½ days")
    expect(desk.page.locator("#answer .answers:not(.price) > div").first).to_contain_text("4½ days late")


@pytest.mark.parametrize("units", ["us", "si"])
def test_rooms_and_checks_are_the_answers(shown: Any, server: str, example: Any, units: str) -> None:
    answer = ask(server, example("full"), units)
    desk = shown("full", units)
    desk.unfold()
    for row, room in zip(desk.page.locator(".rooms tbody tr").all(), answer["quantities"]["rooms"], strict=True):
        cells = row.locator("th, td").all_inner_texts()
        assert cells[0] == room["name"]
        # whole square feet, and feet with whole inches
        assert figures(cells[1])[0] == pytest.approx(room["area"]["value"], rel=5e-4, abs=0.5)
        feet, inches = [*figures(cells[2]), 0][:2] if units == "us" else (figures(cells[2])[0], 0)
        assert feet + inches / 12 == pytest.approx(room["keyway_length"]["value"], rel=5e-4, abs=0.5 / 12)
    text = desk.text()
    for check in answer["readiness"]["checks"]:
        assert check["because"] in text or check["do"] in text
    for note in answer["cautions"] + answer["assumptions"]:
        assert note["text"] in text


def test_a_plan_is_drawn_to_scale(shown: Any, server: str, example: Any) -> None:
    rooms = [room for room in ask(server, example("full"))["quantities"]["rooms"] if room["outline"]]
    desk = shown("full")
    plans = desk.page.locator("figure.plan")
    expect(plans).to_have_count(len(rooms))
    for plan, room in zip(plans.all(), rooms, strict=True):
        box = plan.locator(".wall").bounding_box()
        assert box is not None
        # the line itself is 2.5 wide
        assert (box["width"] - 2.5) / (box["height"] - 2.5) == pytest.approx(
            room["box"]["length"]["value"] / room["box"]["width"]["value"], rel=0.03
        )
        assert plan.locator(":scope > svg .groove").count() == len(room["inset"]) + len(room["grooves"])
        assert plan.locator(":scope > svg .drain").count() == len(room["drains"])
        assert plan.locator(":scope > svg .joint").count() == len(room["joint_lines"])
    expect(plans.first).to_contain_text("Counted, not drawn: 2 × round drain, 8 in")


def test_a_plan_tells_the_lengths_of_its_edges(open_page: Any) -> None:
    """Once each: the length and width of a room stand outside. The slanting one is the root of 12² + 15², 19.21 ft."""
    corners = {
        "Ell": [[0, 0], [20, 0], [20, 10], [8, 10], [8, 6], [0, 6]],
        "Bevelled, clockwise": [[0, 0], [0, 24], [18, 24], [30, 9], [30, 0]],
    }
    rooms: list[Any] = [
        {"name": name, "shape": {"polygon": {"points": points, "unit": "ft"}}} for name, points in corners.items()
    ]
    rooms += [
        {"shape": {"rectangle": {"length": "30 ft", "width": "20 ft"}}},
        {"shape": {"circle": {"diameter": "17 ft"}}},
    ]
    desk = open_page(390, job={"system": "level-clear", "rooms": rooms})
    desk.quoted()
    told = "(all) => all.map((one) => [...one.querySelectorAll('text.over')].map((text) => text.textContent))"
    assert [[words.replace("\xa0", " ") for words in one] for one in desk.page.locator(".plan").evaluate_all(told)] == [
        ["12 ft", "4 ft", "8 ft", "6 ft"],
        ["9 ft", "19 ft 3 in", "18 ft"],
        [],
        [],
    ]
    # each inside its room: its middle is in the shape that the walls make
    inside = """(all) => all.every((text) => {
      const [x, y] = [Number(text.getAttribute('x')), Number(text.getAttribute('y'))];
      const point = Object.assign(text.ownerSVGElement.createSVGPoint(), {x, y});
      return text.closest('svg').querySelector('.wall').isPointInFill(point);
    })"""
    assert desk.page.locator(".plan text.over").evaluate_all(inside)
    desk.is_accessible()


def widths(desk: Any, look: str) -> list[float]:
    shapes = desk.page.locator(f".timetable .wide-only {look}")
    return [float(one.get_attribute("width")) for one in shapes.all()]


def bars_of(steps: list[dict[str, Any]]) -> list[tuple[float, float]]:
    """When each bar begins and ends [h]: a broadcast is one with the body that it is cast into."""
    bars: list[tuple[float, float]] = []
    for step in steps:
        start = step["after"]["value"]
        until = start + step["lasts"]["value"]
        if step["step"] == "apply" and step["layer"].startswith("broadcast"):
            start, before = bars.pop()
            until = max(before, until)
        bars.append((start, until))
    return bars


def test_closed_hours_are_shaded_as_long_as_they_are(shown: Any, server: str, example: Any) -> None:
    times = ask(server, example("full"))["return_times"]
    edges = [(datetime.fromisoformat(one["from"]), datetime.fromisoformat(one["until"])) for one in times["open_hours"]]
    gaps = [(later - until) / timedelta(hours=1) for (_, until), (later, _) in pairwise(edges)]
    bars = [until - start for start, until in bars_of(times["steps"])]
    desk = shown("full")
    shaded = widths(desk, ".night")
    hour = shaded[0] / gaps[0]
    assert shaded[: len(gaps)] == pytest.approx([gap * hour for gap in gaps], rel=1e-6)
    assert widths(desk, ".bar") == pytest.approx([max(2, lasts * hour) for lasts in bars], rel=1e-6)
    expect(desk.page.locator(".timetable .wide-only .due")).to_have_count(1)
    expect(desk.page.locator(".timetable figcaption")).to_contain_text("shade is closed hours")


def test_a_body_and_its_broadcast_are_one_bar(shown: Any, server: str, example: Any) -> None:
    steps = ask(server, example("metric"))["return_times"]["steps"]
    cast = [step for step in steps if step["step"] == "apply" and step["layer"].startswith("broadcast")]
    assert len(cast) == 2
    timetable = shown("metric").page.locator(".timetable")
    assert timetable.locator(".wide-only .bar").count() == len(steps) - 2
    words = timetable.locator(".wide-only text").all_text_contents()
    assert [one for one in words if one.endswith(", with broadcast")] == [
        "First slurry coat, with broadcast",
        "Second slurry coat, with broadcast",
    ]
    expect(timetable.locator("figcaption")).to_contain_text(f"{len(steps) - 2} steps")


def test_a_section_tells_nothing_of_the_whole_job(shown: Any) -> None:
    """The mass of a broadcast is the job's; a section has its place alone."""
    section = shown("metric").page.locator(".section")
    assert section.locator("text", has_text="cast into the wet layer below").count() == 2
    assert " lb" not in "".join(section.locator("text, figcaption").all_text_contents())


def test_work_round_the_clock_has_its_nights_shaded(open_page: Any, example: Any) -> None:
    job = example("counter")
    job["work"]["round_the_clock"] = True
    desk = open_page(job=job)
    desk.quoted()
    midnights = desk.page.locator(".timetable .wide-only .midnight").get_attribute("d").count("M")
    assert len(widths(desk, ".night")) == midnights + 1
    expect(desk.page.locator(".timetable figcaption")).to_contain_text("shade is night")


def test_a_thickness_laid_in_two_coats_is_not_told_twice(shown: Any) -> None:
    desk = shown("metric", "si")
    section = desk.page.locator(".section")
    assert section.locator("text", has_text="part of the 3.5 mm").count() == 2
    assert section.locator("text", has_text="3.5 mm, placed wet").count() == 0


def test_what_was_understood_stands_beside_each_measure(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.type("Thickness", "1 1/2 in")
    desk.type("Thickness", "1/4")
    expect(desk.page.locator("#thickness ~ .understood")).to_have_text("= 1/4 in = 6.35 mm")
    expect(desk.page.locator(".room .understood").first).to_have_text("= 1,200 sq ft = 111.5 m²")


def test_what_has_no_row_yet_leads_to_where_one_is_added(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("counter"))
    desk.quoted()
    desk.unfold()
    adders = {"Moisture emission": "Add a dish", "Relative humidity": "Add a probe", "Pull-off strength": "Add a test"}
    for link, button in adders.items():
        desk.page.locator("#answer").get_by_role("link", name=link).click()
        expect(desk.page.get_by_role("button", name=button)).to_be_focused()
    desk.page.locator("li", has_text="Work is assumed to go on Monday").get_by_role("link").click()
    expect(desk.page.get_by_role("button", name="Add a shift")).to_be_focused()
    desk.page.keyboard.press("Enter")
    expect(desk.page.get_by_label("Mon")).to_be_focused()


def test_either_kind_of_moisture_test_will_do_where_both_are_asked_for(shown: Any) -> None:
    expect(shown("least").page.locator("#answer")).to_contain_text(
        "Tests that this area requires: "
        "moisture emission, 0 of 4 given, or relative humidity, 0 of 4 given; pull-off strength, 0 of 3 given."
    )


def test_a_deadline_without_a_start_is_not_said_to_be_missed(open_page: Any, example: Any) -> None:
    """By hand, backwards: washdown comes 115 h after the last coat, so this is rolled by Thursday 10:00; the first
    coat on Wednesday, the body on Tuesday. That day has 8.5 h: 2.39 h of sawing (4 walls of a 2:1 room, 60 ft/h) and
    3.49 h to pour and cast leave no 4 h for 1,200 sq ft at 300 sq ft/h: these end on Monday at 15:30.
    """
    desk = open_page(job={**example("least"), "work": {"zone": "America/Chicago", "reopen_by": "2027-03-09T05:00"}})
    desk.quoted()
    told = desk.page.locator("#answer .due-met")
    expect(told).to_contain_text(
        "Washdown by Tue Mar 9, 5:00\xa0am: no start given. The latest start in time is Mon Mar 1, 11:30\xa0am"
    )


def test_one_remedy_is_not_told_as_several(shown: Any, open_page: Any) -> None:
    expect(shown("winter").page.locator(".held")).to_contain_text(["This meets it:Keep the floor 1.8 °F warmer"])
    work = {"start": "2027-06-07T07:00", "zone": "America/Chicago", "reopen_by": "2027-06-14T07:00"}
    desk = open_page(job=document(measured("1500 ft2"), of="double-quartz", work=work | {"traffic": "vehicle"}))
    desk.quoted()
    expect(desk.page.locator(".held")).to_contain_text(["Any one of these meets it:"])


def test_where_the_deadline_stands_no_remedy_is_said(open_page: Any) -> None:
    """Even where an answer has some: who is in time need not change a thing."""
    work = {"start": "2027-06-07T07:00", "zone": "America/Chicago", "reopen_by": "2027-07-14T07:00"}

    def with_a_remedy(route: Route) -> None:
        answer = route.fetch().json()
        assert answer["return_times"]["deadline"]["met"] is True
        assert answer["return_times"]["deadline"]["remedies"] == []
        answer["return_times"]["deadline"]["remedies"] = [{"text": "Keep the floor warmer."}]
        route.fulfill(json=answer)

    desk = open_page()
    desk.page.route("**/v1/quotes?*", with_a_remedy)
    desk.open(job=document(measured("1500 ft2"), of="double-quartz", work=work | {"traffic": "vehicle"}))
    desk.quoted()
    expect(desk.page.locator("#answer .due-met")).to_contain_text("in time")
    assert "meets it" not in desk.text()
    assert "Keep the floor warmer" not in desk.text()


def test_what_was_assumed_leads_to_its_field(open_page: Any) -> None:
    desk = open_page()
    desk.type("Area", "1200")
    desk.quoted()
    desk.unfold()
    line = desk.page.locator("li", has_text="Waste is assumed to be 5 %.")
    line.get_by_role("link", name="Change it").click()
    expect(desk.page.locator("#waste")).to_be_focused()
    expect(desk.page.locator("#waste ~ .assumed")).to_have_text("assumed 5 %")
    desk.page.keyboard.type("8")
    desk.page.keyboard.press("Tab")
    expect(line).to_have_count(0)


@pytest.mark.parametrize(("every", "figure"), [(2, "$7,547.25"), (1, "no price")])
def test_a_sum_that_leaves_something_out_says_so(open_page: Any, every: int, figure: str) -> None:
    desk = open_page()

    def unprice(route: Route) -> None:
        response = route.fetch()
        body = response.json()
        for line in body["quantities"]["order_lines"][::every]:
            line["unit_price"] = line["amount"] = None
        route.fulfill(response=response, json=body)

    desk.page.route("**/v1/quotes?*", unprice)
    desk.type("Area", "1200")
    desk.quoted()
    lead = desk.page.locator(".answers dd").first
    expect(lead).to_contain_text(figure)
    expect(lead).to_contain_text("what has no price is left out")
