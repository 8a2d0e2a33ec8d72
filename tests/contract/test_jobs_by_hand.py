"""Three jobs of a contractor, quoted whole and worked by hand: a kitchen by night, a hall for two, a counter's guess.

The catalogue is invented and made for the sums: a mix is 0.5 ft³, which covers 24 ft² at 1/4 in. Rates and hands are
those of the job or the unsaid ones, common practice without a source.
"""

from datetime import datetime, timedelta
from math import exp, log
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of, document, measured, rectangle
from tests.changes import put, with_remedy

from gaugerake.catalogue.store.snapshot import snapshot_of

CATALOGUE = """
catalogue: Floors for sums by hand (invented)
invented: true
currency: USD
valid_days: 30
products:
  - code: body
    name: Body
    counted_in: mix
    yield: 0.5 ft3
    mixing: {minutes: 2}
    pour_within: 2 min
    open_time: [{at: 60 degF, low: 20 min, high: 24 min}, {at: 80 degF, low: 12 min, high: 14 min}]
    temperatures: {low: 50 degF, high: 70 degF}
    hazards: []
    packs: [{sku: B-1, contents: 1 mix, unit_code: KT, weight: 66 lb, price: "80.00"}]
  - code: sand
    name: Sand
    counted_in: mass
    hazards: [silica-dust]
    packs: [{sku: S-50, contents: 50 lb, unit_code: XBG, weight: 50 lb, price: "12.00"}]
  - code: clear
    name: Clear coat
    counted_in: liquid
    hazards: []
    packs: [{sku: C-5, contents: 5 gal, unit_code: KT, weight: 45 lb, price: "300.00"}]
systems:
  - code: quarter
    name: Quarter inch
    reference_temperature: 60 degF
    thickness: {low: 1/8 in, usual: 1/4 in, high: 3/8 in}
    thickness_sd_percent: 0
    layers:
      - {layer: body, product: body}
      - layer: broadcast
        product: sand
        rate: 0.9 lb/ft2
        retained: 0.6 lb/ft2
        cure: [{at: 60 degF, likely: 24 h}, {at: 80 degF, likely: 12 h}]
      - {layer: coat, product: clear, spreading_rate: 160 ft2/gal}
    returns:
      - {traffic: foot, after: [{at: 60 degF, likely: 44 h}, {at: 80 degF, likely: 22 h}]}
      - {traffic: forklift, after: [{at: 60 degF, likely: 48 h}, {at: 80 degF, likely: 24 h}]}
"""
WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Job = dict[str, Any]


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(snapshot_of(CATALOGUE))


def quoted(client: FlaskClient, job: Job) -> Any:
    response = client.post("/v1/quotes", json=job)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def steps(answer: Any) -> dict[str, Any]:
    """The steps of the likely run, each by its kind and layer."""
    return {f"{one['step']} {one['layer'] or ''}".strip(): one for one in answer["return_times"]["steps"]}


def changes_of(remedy: Any) -> dict[str, Any]:
    """What a remedy puts where."""
    return {one["pointer"]: one["value"] for one in (remedy, *remedy["also"])}


def packs(answer: Any) -> dict[str, int]:
    return {line["sku"]: line["packs"] for line in answer["quantities"]["order_lines"]}


# A kitchen by night that opens on Monday

KITCHEN = document(
    rectangle("40 ft", "26 ft", name="Kitchen", joints=[]),
    of="quarter",
    work={
        "start": "2027-03-12T21:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "60 degF"},
        "material_temperature": "60 degF",
        "preparation": "3.5 h",
        "shifts": [{"days": WEEK, "from": "21:00", "to": "05:00"}],
        "crew": {"mixing_stations": 2, "minutes_per_mix": 4, "placing_rate": "900 ft2/h"},
        "reopen_by": "2027-03-15T06:00",
        "traffic": "foot",
    },
    order={"waste_percent": 0},
)


POURED = datetime.fromisoformat("2027-03-13T01:56:40-06:00")
DEADLINE = datetime.fromisoformat("2027-03-15T06:00:00-05:00")


def share_of_60_degf(degrees_f: float) -> float:
    """How long a cure of the tables takes at a temperature, as a share of its time at 60 °F.

    Half at 80 °F, and ln t is straight in 1/T (ASTM C1074): 60 °F are 288.706 K and 80 °F 299.817 K, so that
    ln 2 / (1/288.706 − 1/299.817) = 5,400 K.
    """
    cool_k, warm_k, at_k = ((degrees + 459.67) / 1.8 for degrees in (60.0, 80.0, degrees_f))
    return exp(-log(2) / (1 / cool_k - 1 / warm_k) * (1 / cool_k - 1 / at_k))


def test_the_kitchen_is_late_as_planned(client: FlaskClient) -> None:
    """Friday 21:00 and 3.5 h of preparation: the pour begins at 00:30.

    1,040 ft² at 1/4 in are 21.667 ft³, 43.333 mixes. One comes every 4 min / 2 = 2 min (24 ft² are placed in 1.6 min
    at 900 ft²/h, and their 21.6 lb broadcast in 1.44 min at 900 lb/h): 86.667 min, to 01:56:40. The sand cures 24 h,
    to Sunday 01:56:40. The clocks go on at 02:00: 1,040 ft² are cleared in 31.2 min, to 03:27:52, and coated in
    62.4 min, to 04:30:16, within the shift that ends at 05:00. 44 h more are Tuesday 00:30:16: 18 h 31 min late, to
    the minute.
    """
    answer = quoted(client, KITCHEN)
    done = steps(answer)
    assert done["apply body"]["from"] == "2027-03-13T00:30:00-06:00"
    assert done["apply body"]["until"] == "2027-03-13T01:56:40-06:00"
    assert done["clear broadcast"]["from"] == "2027-03-14T01:56:40-06:00"
    assert done["clear broadcast"]["until"] == "2027-03-14T03:27:52-05:00"
    assert done["apply coat"]["until"] == "2027-03-14T04:30:16-05:00"
    deadline = answer["return_times"]["deadline"]
    assert answer["return_times"]["returns"][0]["latest"] == "2027-03-16T00:31:00-05:00"
    assert (deadline["met"], deadline["slack"]["value"]) == (False, pytest.approx(-(18 + 31 / 60), rel=1e-5))
    assert answer["pour_plan"]["feasible"] is True


def test_no_one_change_opens_the_kitchen_in_time_and_two_do(client: FlaskClient) -> None:
    """At 60 °F and at any hour 24 h + 31.2 min + 62.4 min + 44 h = 69.56 h, where 51.056 h are left from 01:56:40 on.

    By night, on the warmest floor that the body may be placed on, 70 °F (a share of 0.7025): cured after 16.86 h,
    before the shift of Saturday 21:00. Coated at 22:33:36, and 30.91 h later it is Monday 06:28 daylight time: late.
    Together: 24 h and 44 h at a share f, and 1.56 h of work, within 51.056 h: f at most 0.72788. 9.0 °F warmer that
    is 0.72733, enough; a step of 0.9 °F less is 0.7532, and is not.
    """
    left_h = (DEADLINE - POURED) / timedelta(hours=1)
    worked_h = 1040 / 2000 + 1040 / 1000
    assert 24 + worked_h + 44 > left_h
    coated_h = (datetime.fromisoformat("2027-03-13T21:00:00-06:00") - POURED) / timedelta(hours=1) + worked_h
    assert coated_h + 44 * share_of_60_degf(70) > left_h
    assert worked_h + 68 * share_of_60_degf(69.0) < left_h < worked_h + 68 * share_of_60_degf(68.1)

    crews, around = quoted(client, KITCHEN)["return_times"]["deadline"]["remedies"]
    assert (crews["kind"], around["kind"]) == ("combined", "combined")
    for remedy in (crews, around):
        assert changes_of(remedy)["/work/temperatures"]["steady"]["value"] == pytest.approx(69.0, abs=1e-3)
    changes = changes_of(crews)
    hours = [(shift["from"], shift["to"]) for shift in changes["/work/shifts"]]
    assert hours == [("21:00", "05:00"), ("05:00", "13:00"), ("13:00", "21:00")]
    for remedy in (crews, around):
        mended = quoted(client, with_remedy(KITCHEN, remedy))
        assert mended["return_times"]["deadline"]["met"] is True
        assert mended["pour_plan"]["feasible"] is True
        cleared_from = datetime.fromisoformat(steps(mended)["clear broadcast"]["from"])
        assert abs(cleared_from - POURED - timedelta(hours=24 * share_of_60_degf(69.0))) < timedelta(seconds=2)


COLDER_KITCHEN = put(put(KITCHEN, "/work/temperatures", {"steady": "58 degF"}), "/work/reopen_by", "2027-03-15T05:00")
AROUND = {"work": {"round_the_clock": True, "shifts": None}}


def warmer(degrees_f: float) -> Job:
    """That the floor of 58 °F is kept so much warmer."""
    return {"work": {"temperatures": {"steady": f"{58 + degrees_f} degF"}}}


def both(degrees_f: float) -> Job:
    """Work around the clock, on a floor so much warmer."""
    return {"work": AROUND["work"] | warmer(degrees_f)["work"]}


def test_around_the_clock_and_11_7_degf_warmer_open_the_colder_kitchen_on_monday_at_five(client: FlaskClient) -> None:
    """Poured until Saturday 01:56:40 as before, and due on Monday 05:00 daylight time: 50.056 h later.

    On 58 °F (a share of 1.0749) two cures and the work on the coat are 68 h x 1.0749 + 1.56 h = 74.66 h, at whatever
    hours and with whatever crew: late. Half a kelvin is 0.9 °F: 13 of them, 11.7 °F, make 69.7 °F (0.7098), and one
    more passes the 70 °F of the body. By night on that floor the coat is laid on Saturday from 21:00 until 22:33:36,
    and 31.2 h later it is Monday 06:47: late. Together 68 h x 0.7098 + 1.56 h = 49.8 h: in time. With 10.8 °F (0.7324)
    they are 51.4 h: late.
    """
    left_h = (DEADLINE - POURED) / timedelta(hours=1) - 1
    worked_h = 1040 / 2000 + 1040 / 1000
    assert worked_h + 68 * share_of_60_degf(58) > left_h
    coated_h = (datetime.fromisoformat("2027-03-13T21:00:00-06:00") - POURED) / timedelta(hours=1) + worked_h
    assert 24 * share_of_60_degf(69.7) < coated_h - worked_h  # cured before that night begins
    assert coated_h + 44 * share_of_60_degf(69.7) > left_h
    assert worked_h + 68 * share_of_60_degf(69.7) < left_h < worked_h + 68 * share_of_60_degf(68.8)

    remedies = quoted(client, COLDER_KITCHEN)["return_times"]["deadline"]["remedies"]
    assert {remedy["kind"] for remedy in remedies} == {"combined"}
    [around] = [remedy for remedy in remedies if remedy["pointer"] == "/work/round_the_clock"]
    assert [(one["kind"], one["pointer"]) for one in around["also"]] == [
        ("round-the-clock", "/work/shifts"),
        ("warmer-floor", "/work/temperatures"),
    ]
    assert around["also"][1]["by"] == {"value": pytest.approx(11.7), "unit": "delta_degF"}
    assert quoted(client, with_remedy(COLDER_KITCHEN, around))["return_times"]["deadline"]["met"] is True


def test_a_comparison_finds_the_colder_kitchen_open_with_both_changes_alone(client: FlaskClient) -> None:
    """The same sums, choice by choice: neither four stations nor one of the two changes alone do it; both do."""
    changes: dict[str, Job] = {
        "as planned": {},
        "four stations": {"work": {"crew": {"mixing_stations": 4}}},
        "around the clock": AROUND,
        "11.7 degF warmer": warmer(11.7),
        "both, 10.8 degF": both(10.8),
        "both, 11.7 degF": both(11.7),
    }
    choices = [{"name": name, "change": change} for name, change in changes.items()]
    response = client.post("/v1/comparisons", json={"job": COLDER_KITCHEN, "choices": choices})
    assert response.status_code == 200, response.get_data(as_text=True)
    answer = response.get_json()
    met = {choice["name"]: choice["deadline"]["met"] for choice in answer["choices"]}
    assert met == dict.fromkeys(changes, False) | {"both, 11.7 degF": True}
    assert answer["best"] == {"cheapest": "both, 11.7 degF", "soonest": "both, 11.7 degF"}


# 12,000 square feet with two people and one mixer

HALL = document(
    rectangle("150 ft", "80 ft", name="Hall", joints=[]),
    of="quarter",
    work={
        "start": "2027-03-01T07:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "60 degF"},
        "material_temperature": "60 degF",
        "crew": {"people": 2, "mixing_stations": 1, "minutes_per_mix": 5, "hourly_cost": "41.50"},
    },
    order={"waste_percent": 0},
)


def test_what_goes_on_the_truck_for_the_hall(client: FlaskClient) -> None:
    """12,000 ft² / 48 = 250 ft³ = 500 mixes; 10,800 lb of sand, 216 bags; 75 gal of coat, 15 packs.

    500 × 80 + 216 × 12 + 15 × 300 = 40,000 + 2,592 + 4,500 = 47,092; 33,000 + 10,800 + 675 = 44,475 lb.
    """
    answer = quoted(client, HALL)
    assert packs(answer) == {"B-1": 500, "S-50": 216, "C-5": 15}
    totals = answer["quantities"]["totals"]
    assert totals["lines"] == "47092.00"
    assert totals["weight"] == {"value": 44475.0, "unit": "lb"}


def test_the_days_of_the_hall(client: FlaskClient) -> None:
    """Shifts of 8.5 h. 12,000 ft² are prepared in 40 h: four days, and 6 h of Friday, to 13:00.

    500 mixes at 5 min: 30 until 15:30, 102 in each of the four days from Monday on, and on Friday the 62 that are left,
    310 min, to 12:10. Cured on Saturday; cleared on Monday in 6 h, to 13:00; coated in 12 h: 2.5 h, 8.5 h and 1 h, to
    Wednesday 08:00. On foot 44 h later, Friday 04:00, and a forklift 4 h after that.
    """
    answer = quoted(client, HALL)
    done = steps(answer)
    assert done["prepare"]["until"] == "2027-03-05T13:00:00-06:00"
    assert done["apply body"]["until"] == "2027-03-12T12:10:00-06:00"
    assert [pour["mixes"] for pour in answer["pour_plan"]["pours"]] == [30, 102, 102, 102, 102, 62]
    assert done["clear broadcast"]["until"] == "2027-03-15T13:00:00-05:00"
    assert done["apply coat"]["until"] == "2027-03-17T08:00:00-05:00"
    latest = {one["traffic"]: one["latest"] for one in answer["return_times"]["returns"]}
    assert latest == {"foot": "2027-03-19T04:00:00-05:00", "forklift": "2027-03-19T08:00:00-05:00"}


def test_two_people_cannot_and_what_it_takes(client: FlaskClient) -> None:
    """One mixes, one places, one rolls, one broadcasts: four, where there are two.

    A lane 80 ft wide and 3 ft deep is 240 ft², 10 mixes: the edge waits 10 × 5 min, 2 min from mixing to the pour and
    2.4 min in which 24 ft² are placed, 54.4 min, and 20 min are sure at 60 °F. However many stations, placing takes
    2.4 min a mix: 28.4 min. So no count of stations does it, and lanes do: w ft wide it waits 3w/24 × 5 + 4.4 min,
    20 min at 24.96 ft, 24.5 ft in half feet. 80 ft in strips of those are four, with three edges of 150 ft between.
    """
    plan = quoted(client, HALL)["pour_plan"]
    assert (plan["feasible"], plan["bottleneck"], plan["least_crew"]) == (False, "people", None)
    pour = plan["pours"][0]
    assert pour["needed"]["value"] == pytest.approx(54.4, rel=1e-5)
    assert pour["open_time"]["value"] == pytest.approx(20.0)
    remedy = next(one for one in plan["remedies"] if one.get("first") == "narrower-pour")
    changes = {one["pointer"]: one["value"] for one in (remedy, *remedy["also"])}
    assert changes["/work/crew/people"] == 4
    assert changes["/work/crew/lane_width"]["value"] == pytest.approx(24.5)
    assert quoted(client, with_remedy(HALL, remedy))["pour_plan"]["feasible"] is True
    assert "450 ft" in remedy["text"]


@pytest.mark.parametrize(
    ("width", "stations", "waits_min"),
    [
        ("24 ft", 1, 3 * 5 + 4.4),  # 24 x 3 ft are 72 ft², 3 mixes: 19.4 min
        ("30 ft", 2, 3.75 * 2.5 + 4.4),  # 90 ft², 3.75 mixes: 23.15 min with one station, 13.775 with two
    ],
)
def test_the_smallest_crew_in_narrower_lanes(client: FlaskClient, width: str, stations: int, waits_min: float) -> None:
    """A station more mixes and takes one more who mixes; three place, roll and broadcast."""
    lanes = put(HALL, "/work/crew/lane_width", width)
    assert quoted(client, lanes)["pour_plan"]["least_crew"] == {"mixing_stations": stations, "people": stations + 3}
    crew = put(put(lanes, "/work/crew/mixing_stations", stations), "/work/crew/people", stations + 3)
    plan = quoted(client, crew)["pour_plan"]
    assert plan["feasible"] is True
    assert plan["pours"][0]["needed"]["value"] == pytest.approx(waits_min, rel=1e-5)


def test_the_paid_hours_of_the_hall(client: FlaskClient) -> None:
    """Hands times hours: 2 × 40, 4 × 500 × 5/60 = 166.667, 2 × 6 and 2 × 12: 282.667 h, at 41.50 11,730.67."""
    labour = quoted(client, HALL)["return_times"]["labour"]
    assert labour["people_needed"] == 4
    assert labour["person_hours"]["value"] == pytest.approx(80 + 2000 * 5 / 60 + 12 + 24, rel=1e-5)
    assert labour["cost"] == "11730.67"
    hours = {one["task"]: one["person_hours"]["value"] for one in labour["tasks"]}
    assert hours["mix"] == hours["place"] == hours["roll"] == hours["cast"] == pytest.approx(2500 / 60, rel=1e-5)
    assert sum(hours.values()) == pytest.approx(labour["person_hours"]["value"], rel=1e-5)


# "About 1,500 square feet, forklift Monday"

COUNTER = document(measured("1500 ft2"), of="quarter")


def test_what_the_counter_loads(client: FlaskClient) -> None:
    """1,500 ft² / 48 x 1.05 = 32.8125 ft³, 65.625 mixes: 66. 1,417.5 lb of sand, 29 bags; 9.84 gal of coat, 2 packs."""
    assert packs(quoted(client, COUNTER)) == {"B-1": 66, "S-50": 29, "C-5": 2}


def test_how_long_the_counter_says(client: FlaskClient) -> None:
    """From Monday 07:00. Prepared in 5 h, to 12:00; the pour does not fit before 15:30, so it begins 24 h after.

    A mix takes 2 min and the change to the next 1.5 min, 3.5 min: 65.625 mixes are 229.7 min, 3.828 h. Cured 24 h
    later, at 51.828 h, on Wednesday at 10:49:41: cleared in 0.75 h and coated in 1.5 h, to 54.078 h. 44 h and 48 h more
    are 98.078 h and 102.078 h, to the minute 5,885 and 6,125 min: a forklift on Friday at 13:05.
    """
    answer = quoted(client, COUNTER)
    done = steps(answer)
    assert done["prepare"]["lasts"]["value"] == pytest.approx(5)
    body = done["apply body"]
    assert (body["after"]["value"], body["lasts"]["value"]) == (24, pytest.approx(65.625 * 3.5 / 60, rel=1e-5))
    assert done["clear broadcast"]["after"]["value"] == pytest.approx(24 + 65.625 * 3.5 / 60 + 24, rel=1e-5)
    after = {one["traffic"]: one["after"]["value"] for one in answer["return_times"]["returns"]}
    assert after == {"foot": pytest.approx(5885 / 60, rel=1e-5), "forklift": pytest.approx(6125 / 60, rel=1e-5)}


def test_when_to_begin_for_a_forklift_on_monday(client: FlaskClient) -> None:
    """Monday 06:00 less 48 h is Saturday 06:00: coated on Friday, and cleared and coated in 2.25 h from 13:15 on.

    Cured by then, so the body is down by Thursday 13:15 and is begun 229.7 min sooner, by 09:25:18 on that day. The 5 h
    of preparation fit one shift, and so are done in one: on Thursday they would end at 12:00, so on Wednesday.
    """
    by = {"zone": "America/Chicago", "reopen_by": "2027-06-14T06:00", "traffic": "forklift"}

    def told(start: str) -> Any:
        return quoted(client, put(COUNTER, "/work", {**by, "start": start}))["return_times"]["deadline"]

    assert told("2027-06-10T07:00")["latest_start"] == "2027-06-09T10:30:00-05:00"
    starts = ("2027-06-09T10:30", "2027-06-09T10:31", "2027-06-10T07:00")
    assert [told(start)["met"] for start in starts] == [True, False, False]


# What every answer to them tells first


@pytest.mark.parametrize("job", [KITCHEN, HALL, COUNTER], ids=["kitchen", "hall", "counter"])
def test_cautions_of_the_job_come_before_the_everyday_ones(client: FlaskClient, job: Job) -> None:
    """Silica dust, cold material and a floor's own temperature hold on any job; a lost edge or a short crew do not."""
    told = quoted(client, job)["cautions"]
    is_everyday = [one.get("everyday", False) for one in told]
    assert is_everyday == sorted(is_everyday)
    everyday = {one["code"] for one in told if one.get("everyday")}
    assert {"hazard-silica-dust", "condition-materials", "data-sheet-rules"} <= everyday
    assert everyday.isdisjoint({"pour-edge-lost", "pour-short-handed", "split-at-shift-end", "abrade-first"})
