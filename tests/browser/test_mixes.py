"""The clock of every mix: what the API says, to read on the slab, and nothing of it before it is asked for."""

import re
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import requests
from playwright.sync_api import Request, Route, expect
from tests.browser.test_keyboard import Hands
from tests.browser.test_trouble import QUOTES, TROUBLE, failing
from tests.service import running

from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.first_start import ensure_ready

FOLD = "The clock of every mix"
SUMMARY = ".clock > summary"
PLAN = "**/v1/pour-plan?*"
ROWS = ".mixes tbody tr:not(.begins, .stops)"
KEYS = ["mix_at", "pour_by", "placed", "roll_by", "broadcast_from", "broadcast_by"]
CELLS = "(all) => all.map((row) => [...row.children].map((cell) => cell.textContent))"
OVER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
HALL = {"system": "level-clear", "rooms": [{"name": "Hall", "shape": {"measured": {"area": "1200 sq ft"}}}]}
LONG = {
    "system": "level-clear",
    "rooms": [{"name": "Hall", "shape": {"measured": {"area": "400000 sq ft"}}}],
    "work": {"round_the_clock": True, "preparation": "0 h"},
}


SHIFTS = [("06:00", "12:00"), ("13:00", "18:00")]


def over_nights(north: int, south: int) -> Any:
    """More than one shift: the work stops, and goes on later that day or on another."""
    areas = {"North": north, "South": south}
    return {
        "system": "level-clear",
        "rooms": [{"name": name, "shape": {"measured": {"area": f"{area} sq ft"}}} for name, area in areas.items()],
        "work": {
            "start": "2027-03-05T06:00",
            "zone": "America/Chicago",
            "crew": {"mixing_stations": 1},
            "shifts": [{"days": ["fri", "sat"], "from": one, "to": other} for one, other in SHIFTS],
        },
    }


def plan_of(server: str, job: Any) -> Any:
    answer = requests.post(f"{server}/v1/pour-plan?units=us", json=job, timeout=60)
    assert answer.status_code == 200
    return answer.json()


def opened(desk: Any, *, whole: bool = True) -> Any:
    """The rows of the fold, once it is opened and answered."""
    desk.quoted()
    desk.page.locator(SUMMARY).click()
    expect(desk.page.locator(".clock [role=status]")).to_have_text(re.compile(r"^[\d,]+ mix(es)?\.$"))
    return desk.page.locator(ROWS) if whole else None


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", ["counter", "full", "metric", "winter"])
def test_the_times_of_day_are_the_answers(open_page: Any, server: str, example: Any, name: str, width: int) -> None:
    """Also where the job is in another time zone than the browser, and where the floor has two bodies."""
    plan = plan_of(server, example(name))
    desk = open_page(width, job=example(name))
    cells = opened(desk).evaluate_all(CELLS)
    assert cells == [
        [
            str(mix["number"]),
            f"{mix['room']}, on into {mix['runs_on_to']}" if mix["runs_on_to"] else mix["room"],
            *(mix[key][11:19] for key in KEYS),
        ]
        for mix in plan["mixes"]
    ]
    expect(desk.page.locator(".clock [role=status]")).to_have_text(f"{len(plan['mixes'])} mixes.")
    desk.reads_well()


@pytest.mark.parametrize("width", [390, 1280])
def test_without_a_start_the_minutes_are_the_answers(open_page: Any, server: str, width: int) -> None:
    """To the second: a deadline at most one before what the API says and never after, an earliest time the reverse."""
    job = {**HALL, "work": {"crew": {"mixing_stations": 1, "minutes_per_mix": 5.37}}}
    plan = plan_of(server, job)
    cells = opened(open_page(width, job=job)).evaluate_all(CELLS)
    assert len(cells) == len(plan["mixes"])
    parts = {round(mix["minutes"]["pour_by"] * 60 % 1, 1) for mix in plan["mixes"]}
    assert len(parts) >= 5, "the seconds of this job come in all fractions"
    for (number, room, *times), mix in zip(cells, plan["mixes"], strict=True):
        assert (number, room) == (str(mix["number"]), mix["room"])
        for told, key in zip(times, KEYS, strict=True):
            minutes, seconds = re.fullmatch(r"(\d+):([0-5]\d)", told).groups()  # type: ignore[union-attr]
            off = int(minutes) * 60 + int(seconds) - mix["minutes"][key] * 60
            # the API's four digits of a minute are within six thousandths of a second
            least, most = {"y": (-1, 0.006), "m": (-0.006, 1)}.get(key[-1] if key != "mix_at" else "", (-0.51, 0.51))
            assert least < off < most, (number, key, told)


@pytest.mark.parametrize(("north", "south", "kind"), [(2000, 3000, "joint"), (2000, 2000, "room")])
def test_a_line_tells_where_the_room_or_the_day_changes_and_where_work_stops(
    open_page: Any, server: str, north: int, south: int, kind: str
) -> None:
    job = over_nights(north, south)
    plan = plan_of(server, job)
    stops = {pour["last_mix"]: pour["stops_at"] for pour in plan["pours"] if pour["stops_at"]}
    assert set(stops.values()) == {kind, "end"}
    said = {"room": "between two rooms", "joint": "at a joint or keyway", "end": "The pour ends here"}
    expected, before = [], None
    for mix in plan["mixes"]:
        day = date.fromisoformat(mix["mix_at"][:10])
        if (mix["room"], day) != before:
            expected.append(f"{mix['room']}, {day:%a} {day:%b} {day.day}")
        expected.append(str(mix["number"]))
        before = (mix["room"], day)
        if mix["number"] in stops:
            expected.append(said[stops[mix["number"]]])
            before = None
    assert len({mix["mix_at"][:10] for mix in plan["mixes"]}) > 1
    desk = open_page(390, job=job)
    opened(desk)
    told = desk.page.locator(".mixes tbody tr > :first-child").all_text_contents()
    assert len(told) == len(expected)
    assert all(words in line for line, words in zip(told, expected, strict=True))


def test_two_bodies_in_a_room_are_told_apart(open_page: Any, server: str, example: Any) -> None:
    plan = plan_of(server, example("metric"))
    desk = open_page(job=example("metric"))
    opened(desk)
    titles = desk.page.locator(".mixes .begins").all_inner_texts()
    assert len(titles) == len(plan["pours"]) == len(set(titles))
    for title, pour in zip(titles, plan["pours"], strict=True):
        assert title.startswith(f"{pour['room']}: ")


def test_nothing_is_asked_before_it_is_opened(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("full"))
    sent: list[Request] = []
    desk.page.on("request", lambda request: sent.append(request))
    desk.page.reload()
    desk.quoted()
    desk.page.wait_for_load_state("networkidle")
    assert [one.url for one in sent if "pour-plan" in one.url or "mixes" in one.url] == []
    opened(desk)
    asked = [one for one in sent if "pour-plan" in one.url]
    assert [one.method for one in asked] == ["POST"]
    # seen again, it is not asked for again
    desk.page.locator(SUMMARY).click()
    desk.page.locator(SUMMARY).click()
    expect(desk.page.locator(".mixes")).to_be_visible()
    desk.page.wait_for_timeout(300)
    assert len([one for one in sent if "pour-plan" in one.url]) == 1


def test_while_it_is_open_it_follows_the_job(open_page: Any, server: str) -> None:
    desk = open_page(job=HALL)
    opened(desk)
    for area in (2400, 600):
        job = {**HALL, "rooms": [{"name": "Hall", "shape": {"measured": {"area": f"{area} sq ft"}}}]}
        count = len(plan_of(server, job)["mixes"])
        desk.type("Area", str(area))
        expect(desk.page.locator(".clock [role=status]")).to_have_text(f"{count} mixes.")
        expect(desk.page.locator(ROWS)).to_have_count(count)
    sent: list[str] = []
    desk.page.on("request", lambda request: sent.append(request.url))
    desk.page.locator(SUMMARY).click()
    desk.type("Area", "700")
    desk.quoted()
    desk.page.wait_for_load_state("networkidle")
    assert [url for url in sent if "pour-plan" in url] == []


CHANGED = "The catalogue has changed since this quote was made; these times go by today’s."


def test_a_quote_of_an_older_catalogue_is_poured_by_todays_and_says_so(open_page: Any, tmp_path: Path) -> None:
    """What the maker says of a product today holds for who pours it today, whatever it was quoted by."""
    url = f"sqlite:///{tmp_path / 'catalogue.sqlite3'}"
    store = ensure_ready(url)
    with running(tmp_path, database=url) as server:
        before = plan_of(server, HALL)
        token = requests.post(f"{server}/v1/quotes", json=HALL, timeout=60).json()["token"]
        desk = open_page(server=server, path=f"#quote={token}")
        assert clock_of(desk) == f"{len(before['mixes'])} mixes."
        expect(desk.page.locator(".clock")).not_to_contain_text(CHANGED)

        slower = demo_text().replace("mixing:\n      minutes: 3\n", "mixing:\n      minutes: 5\n", 1)
        assert slower != demo_text()
        store.load(slower)
        waited(lambda: plan_of(server, HALL)["catalogue_revision"] != before["catalogue_revision"])
        today = plan_of(server, HALL)["mixes"]
        assert today[1]["minutes"] != before["mixes"][1]["minutes"]
        desk.page.reload()
        assert clock_of(desk) == f"{len(today)} mixes."
        expect(desk.page.locator(".clock .held")).to_have_text(CHANGED)
        expect(desk.page.locator(".titleblock")).to_contain_text(before["catalogue_revision"][:12])
        second = desk.page.locator(ROWS).nth(1).locator("td").nth(1).inner_text()
        assert second == f"{today[1]['minutes']['mix_at']:.0f}:{today[1]['minutes']['mix_at'] * 60 % 60:02.0f}"

        # a floor that is not made any more has no times of today
        store.load(demo_text().replace("- code: level-clear", "- code: level-other", 1))
        waited(lambda: requests.post(f"{server}/v1/pour-plan", json=HALL, timeout=60).status_code == 422)
        desk.page.reload()
        assert "level-clear" in clock_of(desk)
        expect(desk.page.locator(".mixes")).to_have_count(0)


def clock_of(desk: Any) -> str:
    """What the fold of an opened quote says, once it is opened and answered."""
    desk.says("The quote as it was made")
    desk.page.locator(SUMMARY).click()
    told = desk.page.locator(".clock [role=status]")
    expect(told).not_to_have_text(re.compile("^(Working it out …)?$"))
    return str(told.inner_text())


def waited(is_so: Callable[[], bool]) -> None:
    """Wait until all workers have seen a new catalogue: they look every few seconds, each for itself."""
    until = time.monotonic() + 60
    seen = 0
    while seen < 20:
        assert time.monotonic() < until
        seen = seen + 1 if is_so() else 0
        time.sleep(0.1)


def test_a_quote_that_is_under_way_is_not_given_up_for_it(open_page: Any) -> None:
    desk = open_page(job=HALL)
    desk.quoted()
    held: list[Route] = []
    desk.page.route(QUOTES, lambda route: held.append(route))
    with desk.page.expect_request(QUOTES):
        desk.type("Area", "2400")
    desk.page.locator(SUMMARY).click()
    expect(desk.page.locator(".mixes")).to_be_visible()
    held[-1].continue_()
    desk.quoted()


@pytest.mark.parametrize("width", [390, 1280])
def test_the_keyboard_opens_it(open_page: Any, width: int) -> None:
    desk = open_page(width, job=HALL)
    desk.quoted()
    hands = Hands(desk.page)
    desk.page.locator("#sheet").focus()
    hands.to(FOLD)
    hands.keys.press("Enter")
    expect(desk.page.locator(".mixes")).to_be_visible()
    expect(desk.page.locator(".clock summary")).to_be_focused()


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (390, "dark"), (1280, "light"), (1280, "dark")])
def test_it_is_accessible(open_page: Any, width: int, scheme: str) -> None:
    desk = open_page(width, job=over_nights(2000, 3000), color_scheme=scheme)
    opened(desk)
    desk.is_accessible()
    desk.reads_well()


@pytest.mark.parametrize("kind", TROUBLE)
def test_a_call_that_fails_says_so_and_is_tried_again(open_page: Any, kind: str) -> None:
    status, words = TROUBLE[kind]
    desk = open_page(390, job=HALL)
    desk.quoted()
    desk.page.route(PLAN, failing(status))
    desk.page.locator(SUMMARY).click()
    told = desk.page.locator(".clock [role=status]")
    expect(told).to_contain_text(words)
    expect(desk.page.locator(".mixes")).to_have_count(0)
    if kind == "down":
        desk.is_accessible()
    desk.reads_well()
    desk.page.unroute(PLAN)
    told.get_by_role("button", name="Try again").click()
    expect(desk.page.locator(".mixes")).to_be_visible()


def test_no_clock_of_before_stays_where_the_new_one_does_not_come(open_page: Any) -> None:
    desk = open_page(job=HALL)
    opened(desk)
    desk.page.route(PLAN, failing(503))
    desk.type("Area", "2400")
    expect(desk.page.locator(".clock [role=status]")).to_contain_text("could not answer this time")
    expect(desk.page.locator(".mixes")).to_have_count(0)


def test_what_writes_it_may_fail_to_come_as_well(open_page: Any) -> None:
    desk = open_page(390, job=HALL)
    desk.quoted()
    asked: list[str] = []
    desk.page.on("requestfailed", lambda one: asked.append(one.url))
    desk.page.route("**/js/quote/mixes.js*", failing(None))
    desk.page.locator(SUMMARY).click()
    told = desk.page.locator(".clock [role=status]")
    expect(told).to_contain_text("The server cannot be reached")
    with desk.page.expect_event("requestfailed"):
        told.get_by_role("button", name="Try again").click()
    expect(told).to_contain_text("The server cannot be reached")
    # some browsers keep it in mind that an address failed
    assert len(asked) == len(set(asked)) == 2
    desk.page.unroute("**/js/quote/mixes.js*")
    told.get_by_role("button", name="Try again").click()
    expect(desk.page.locator(".mixes")).to_be_visible()


def test_a_busy_server_is_asked_again_by_itself(open_page: Any) -> None:
    desk = open_page(job=HALL)
    desk.quoted()
    calls: list[str] = []

    def once(route: Route) -> None:
        calls.append(route.request.url)
        if len(calls) == 1:
            route.fulfill(status=429, body="{}", headers={"Retry-After": "1"}, content_type="application/problem+json")
        else:
            route.continue_()

    desk.page.route(PLAN, once)
    desk.page.locator(SUMMARY).click()
    expect(desk.page.locator(".mixes")).to_be_visible()
    assert len(calls) == 2


def test_it_goes_with_the_key_and_asks_for_one(open_page: Any, keyed: Any) -> None:
    desk = open_page(server=keyed.address, ready="#state:not(:empty)")
    desk.page.get_by_label("Key for this service").fill(keyed.page)
    desk.page.get_by_role("button", name="Use this key").click()
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.route(PLAN, failing(401))
    desk.page.locator(SUMMARY).click()
    expect(desk.page.locator(".clock [role=status]")).to_contain_text("does not know this key")
    expect(desk.page.locator("#access")).to_be_visible()
    desk.page.unroute(PLAN)
    with desk.page.expect_request(PLAN) as asked:
        desk.page.locator(".clock").get_by_role("button", name="Try again").click()
    assert asked.value.header_value("authorization") == f"Bearer {keyed.page}"
    expect(desk.page.locator(".mixes")).to_be_visible()


def test_a_long_list_begins_short_and_comes_whole_when_asked(open_page: Any, server: str) -> None:
    plan = plan_of(server, LONG)
    desk = open_page(390, job=LONG)
    expect(opened(desk)).to_have_count(200)
    unlisted = next(note["text"] for note in plan["cautions"] if note["code"] == "pour-mixes-unlisted")
    expect(desk.page.locator(".clock")).to_contain_text(unlisted)
    button = desk.page.get_by_role("button", name="Show all 5,000")
    button.focus()
    desk.page.keyboard.press("Enter")
    expect(desk.page.locator(ROWS)).to_have_count(5000)
    expect(button).to_have_count(0)
    assert desk.page.evaluate("document.activeElement.firstChild.textContent") == "201"
    told = desk.page.locator(f"{ROWS} > :first-child").all_text_contents()
    assert told == [str(mix["number"]) for mix in plan["mixes"]]


@pytest.mark.parametrize("width", [320, 390, 700, 1280])
def test_it_fits_the_screen_and_its_heading_stays_in_sight(open_page: Any, example: Any, width: int) -> None:
    desk = open_page(width, job=example("full"), reduced_motion="reduce")
    rows = opened(desk)
    assert desk.page.evaluate(OVER) == 0
    inside = "(one) => one.scrollWidth <= one.clientWidth"
    assert desk.page.locator(".clock").evaluate(inside)
    overlap = """(all) => all.flatMap((row) => [...row.children])
      .filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent)"""
    assert rows.evaluate_all(overlap) == []
    rows.nth(60).evaluate("(row) => row.scrollIntoView({block: 'center'})")
    heading = desk.page.locator(".mixes thead")
    expect(heading).to_be_in_viewport(ratio=0.99)
    seen = """(one) => { const box = one.getBoundingClientRect();
      return one.contains(document.elementFromPoint(box.left + 60, box.top + box.height / 4)); }"""
    assert heading.evaluate(seen)


def test_it_is_printed_on_pages_of_its_own_when_it_is_open(open_page: Any) -> None:
    desk = open_page(job=HALL)
    desk.quoted()

    def pages() -> int:
        return len(re.findall(rb"/Type\s*/Page\b", desk.page.pdf(format="A4")))

    assert pages() == 2  # the quote, and its cautions
    opened(desk)
    assert pages() == 3
    # and stands where it stood
    expect(desk.page.locator("section", has_text="The pour").locator(".clock .mixes").last).to_be_visible()
    desk.page.emulate_media(media="print")
    assert desk.page.locator(".clock").evaluate("(one) => getComputedStyle(one).breakBefore") == "page"
    desk.page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert desk.page.evaluate("document.querySelector('#answer').lastChild.matches('.clock[open]')")
    number = desk.page.locator(".titleblock dd").first.inner_text()
    expect(desk.page.locator(".clock .paper")).to_have_text(f"Quote {number}")
    expect(desk.page.locator(".clock .paper")).to_be_visible()
    desk.is_accessible(but_for=("page-has-heading-one",))
