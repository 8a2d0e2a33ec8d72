"""Sentences that a tradesman would stop at: what they name, what they advise, and what stands beside them.

Limits and times are the demonstration's own or of the small catalogue here; no expected value is a figure of ours.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import ask, client_of, document, measured, rectangle

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import snapshot_of

WAVE = {
    "start": "2027-07-05T07:00",
    "zone": "America/Phoenix",
    "temperatures": {"daily": {"low": "78 degF", "high": "118 degF"}},
}


FLAKE = """
catalogue: A floor of flake (invented)
invented: true
currency: USD
valid_days: 10
products:
  - {code: body, name: Body, counted_in: mix, yield: {area: 40 ft2, at: 1/8 in}, mixing: {minutes: 3},
     open_time: [{at: 70 degF, low: 12 min, high: 18 min}],
     packs: [{sku: B-1, contents: 1 mix, unit_code: KT, price: "80.00"}]}
  - {code: flake, name: Flake, counted_in: mass, packs: [{sku: F-1, contents: 25 lb, unit_code: XBX, price: "60.00"}]}
systems:
  - code: flake
    name: Flake floor
    thickness: {low: 1/8 in, usual: 1/8 in, high: 1/4 in}
    reference_temperature: 70 degF
    layers:
      - {layer: body, product: body}
      - {layer: broadcast, product: flake, rate: 0.15 lb/ft2, cure: [{at: 70 degF, likely: 10 h}]}
    returns: [{traffic: foot, after: [{at: 70 degF, likely: 12 h}]}]
"""
MORTAR = """  - {code: mortar, name: Mortar, counted_in: mix, yield: 0.3 ft3, mixing: {minutes: 3},
     open_time: [{at: 70 degF, low: 12 min, high: 18 min}],
     packs: [{sku: M-1, contents: 1 mix, unit_code: KT, price: "50.00"}]}
systems:"""
COVE = "- {layer: cove, product: mortar, optional: true, thickness: 3/16 in, radius: 1 in}"
MONDAY = {"start": "2027-04-05T07:00", "zone": "America/Chicago"}


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(demo_snapshot())


def told(client: FlaskClient, path: str, job: dict[str, Any], code: str) -> list[str]:
    """The cautions of that code."""
    return [note["text"] for note in ask(client, path, job)["cautions"] if note["code"] == code]


def test_the_limit_of_a_cure_is_that_of_the_body_which_holds_the_sand(client: FlaskClient) -> None:
    """86 °F is the body's highest temperature in the demonstration; sand has none."""
    capped = told(client, "return-times", document(work=WAVE), "cure-capped")
    assert [text.partition(":")[0] for text in capped if "86 °F" in text] == ["Urethane-cement levelling body"]
    assert not [text for text in capped if "sand" in text]


def test_what_cures_is_the_body_and_not_the_sand_in_it(client: FlaskClient) -> None:
    """The body cures from 48 °F on in the demonstration, and its table begins at 50 °F: a cold night is between."""
    cold = {**MONDAY, "temperatures": {"daily": {"low": "38 degF", "high": "60 degF"}}}
    left = told(client, "return-times", document(work=cold), "beyond-the-table")
    assert [text for text in left if "the cure of Urethane-cement levelling body" in text]
    assert not [text for text in left if "sand" in text]


# A hall that no shift is long enough for


def test_each_pour_of_a_hall_tells_its_own_stops_and_no_keyway_where_there_is_none(client: FlaskClient) -> None:
    """The demonstration's double broadcast floor pours twice, and anchors no edge in a keyway."""
    hall = document(rectangle("100 ft", "90 ft"), of="double-quartz", work=MONDAY)
    stops = told(client, "pour-plan", hall, "pour-stops-at-joint")
    assert [text.partition(" Stop it")[0] for text in stops] == [
        "Room 1: no shift is long enough for the whole pour of First slurry coat.",
        "Room 1: no shift is long enough for the whole pour of Second slurry coat.",
    ]
    split = told(client, "return-times", hall, "split-at-shift-end")
    strips = told(client, "pour-plan", {**hall, "work": {**MONDAY, "crew": {"lane_width": "20 ft"}}}, "pour-strips")
    for text in (*stops, *split, *strips):
        assert "at a joint or a straight taped edge" in text
        assert "keyway" not in text


def test_a_system_with_keyways_stops_at_them_and_asks_for_them_to_be_counted(client: FlaskClient) -> None:
    hall = document(rectangle("100 ft", "90 ft"), work=MONDAY)
    (stop,) = told(client, "pour-plan", hall, "pour-stops-at-joint")
    assert "at a joint or keyway. Add " in stop
    assert "keyways are counted" in stop


def test_aggregate_is_never_left_for_the_next_shift() -> None:
    """It is cast into the wet body, and stops where that stops."""
    hall = document(rectangle("240 ft", "220 ft"), of="flake", work=MONDAY)
    said = ask(client_of(snapshot_of(FLAKE)), "return-times", hall)["cautions"]
    split = [note["text"] for note in said if note["code"].startswith("split-")]
    assert [text.partition(" takes")[0] for text in split] == ["Body"]


def test_a_batch_that_is_the_smallest_is_not_to_be_made_smaller(client: FlaskClient) -> None:
    """The second clear coat at 86 °F has a pot life of 11 min, and 0.75 gal takes 0.75 x 262 / 1,000 h, 11.8 min."""
    warm = {"material_temperature": "86 degF"}
    (batch,) = told(client, "quantities", document(work=warm), "batch-outlives-pot-life")
    assert "0.75 gal, the least that may be mixed, " in batch
    assert batch.endswith("Put more people on it, or keep the material cooler.")
    assert "mix less" not in batch
    cooler, faster = {"material_temperature": "70 degF"}, {**warm, "crew": {"coating_rate": "2000 ft2/h"}}
    for mended in (cooler, faster):
        assert told(client, "quantities", document(work=mended), "batch-outlives-pot-life") == []


@pytest.mark.parametrize(
    ("gain", "verdict", "over"), [("6 g", "untested", False), ("9 g", "fix", True), ("15 g", "stop", True)]
)
def test_a_dish_that_does_not_count_but_is_over_the_limit_says_both(
    client: FlaskClient, gain: str, verdict: str, over: bool
) -> None:
    """1 g in 80 h on 64.06 in2 is 1000 x 144 x 24 / (453.592 x 64.06 x 80) = 1.487 lb; 13 lb is the limit, 20 primed.

    So 6 g are 8.9 lb, 9 g 13.4 and 15 g 22.3.
    """
    dish = {"gain": gain, "hours": 80, "area": "64.06 in2"}
    ready = ask(client, "readiness", document(slab={"moisture_emission": [dish]}))
    assert next(one["verdict"] for one in ready["checks"] if one["check"] == "moisture-emission") == verdict
    (said,) = [note["text"] for note in ready["cautions"] if note["code"] == "dish-exposure"]
    assert said.endswith(" A reading over the limit stands against the slab all the same.") is over


def test_a_search_that_ended_early_speaks_of_what_it_did_not_try(client: FlaskClient) -> None:
    """Two pours of weeks on a day's wave: more than one answer tries, and nothing is found."""
    wave = {**MONDAY, "temperatures": {"daily": {"low": "68 degF", "high": "88 degF"}}}
    hall = document(rectangle("400 ft", "220 ft"), of="double-quartz", work=wave)
    plan = ask(client, "pour-plan", hall)
    assert plan["remedies"] == []
    (ended,) = [note["text"] for note in plan["cautions"] if note["code"] == "pour-remedy-search-ended"]
    assert "changes that were not tried may do it." in ended
    assert " too" not in ended


WARM_DAYS = {"daily": {"low": "66 degF", "high": "90 degF"}}
SUMMER = {"start": "2027-06-07T07:00", "zone": "America/Chicago", "temperatures": WARM_DAYS}
SEARCH = {"from": "2027-06-07T06:00", "until": "2027-06-07T12:00", "step": "3 h"}


@pytest.mark.parametrize(
    ("reopen_by", "because", "advice"),
    [
        (None, ["edge-lost", "too-damp"], "Dry the air with dehumidifiers, or search other days."),
        (
            "2027-06-09T06:00",
            ["edge-lost", "too-damp", "late"],
            "Dry the air with dehumidifiers, and search other days or a later deadline.",
        ),
    ],
)
def test_a_start_without_remedy_gets_the_advice_for_what_is_against_it(
    client: FlaskClient, reopen_by: str | None, because: list[str], advice: str
) -> None:
    """66 °F in air of 75 °F and 90 % is 5.8 °F under its dew point of 71.9: the system asks for 6 above it."""
    work = SUMMER if reopen_by is None else {**SUMMER, "reopen_by": reopen_by, "traffic": "vehicle"}
    damp = document(rectangle("60 ft", "20 ft"), work=work, air={"temperature": "75 degF", "humidity_percent": 90})
    found = ask(client, "start-search", {"job": damp, "search": SEARCH})
    assert found["starts"][0]["because"] == because
    (text,) = [note["text"] for note in found["cautions"] if note["code"] == "start-without-remedy"]
    assert text.endswith(f"hours and heat together. {advice}")


@pytest.mark.parametrize(
    ("on", "covered"),
    [("quarry tile", True), ("old tile", True), ("loseta vieja", True), ("old coating", True), ("wood", False)],
)
def test_an_old_covering_named_as_the_substrate_is_tested_before_it_is_taken_up(
    client: FlaskClient, on: str, covered: bool
) -> None:
    """Tile on the slab brings the test for asbestos; tile named as what the floor goes on is the same tile."""
    cautions = ask(client, "readiness", document(slab={"substrate": on}))["cautions"]
    found = [note for note in cautions if note["code"] == "old-coverings"]
    assert [note["pointer"] for note in found] == ["/slab/substrate"] * covered
    assert all(note["text"].startswith(f"Found: {on}. ") and "asbestos or lead" in note["text"] for note in found)


def test_a_forecast_of_floor_and_air_is_told_of_each_by_name(client: FlaskClient) -> None:
    hours = [f"2027-06-07T{hour}:00-05:00" for hour in ("07", "13")]
    floor = [{"at": at, "temperature": "70 degF"} for at in hours]
    air = [{"at": at, "temperature": "72 degF", "humidity_percent": 50} for at in hours]
    work = {**MONDAY, "start": "2027-06-07T07:00", "temperatures": {"readings": floor}}
    job = document(work=work, air={"readings": air})
    cautions = ask(client, "start-search", {"job": job, "search": SEARCH})["cautions"]
    for code, verb in (("starts-before-readings", "begin"), ("starts-outlast-readings", "end")):
        found = [note["text"].partition(" at ")[0] for note in cautions if note["code"] == code]
        assert found == [f"The readings of the floor {verb}", f"The readings of the air {verb}"]


@pytest.mark.parametrize(
    ("room", "also"),
    [
        ({}, set()),
        ({"joints": [{"length": "20 ft"}]}, {"Two-part joint sealant"}),
        ({"joints": [{"length": "20 ft", "kind": "contraction"}]}, set()),
        ({"cove": {"length": "90 ft", "height": "4 in"}}, {"Urethane-cement cove mortar"}),
        ({"spalls": [{"area": "2 ft2", "depth": "1/2 in"}]}, {"Urethane-cement cove mortar"}),
    ],
)
def test_a_floor_too_cold_for_a_product_is_told_of_those_that_the_job_takes(
    client: FlaskClient, room: dict[str, Any], also: set[str]
) -> None:
    """At 34 °F every product of the demonstration's levelled floor is too cold; the truck carries some of them."""
    cold = document(rectangle("30 ft", "15 ft", **room), slab={"temperature": "34 degF"})
    names = {text.partition(":")[0] for text in told(client, "quotes", cold, "product-temperature-below")}
    assert names == {"Urethane-cement levelling body", "Clear epoxy coat"} | also


def test_a_slab_without_rooms_is_told_of_every_product(client: FlaskClient) -> None:
    slab = {"system": "level-clear", "slab": {"temperature": "34 degF"}}
    assert len(told(client, "readiness", slab, "product-temperature-below")) == 4


@pytest.mark.parametrize("path", ["quantities", "readiness"])
@pytest.mark.parametrize(
    ("of", "why"),
    [
        ("level-clear", "they take keyway and sealant"),
        ("double-quartz", "they take sealant"),
        ("trowelled-mortar", "they take keyway and sealant"),
    ],
)
def test_joints_take_a_keyway_only_where_the_system_has_one(client: FlaskClient, path: str, of: str, why: str) -> None:
    lacking = ask(client, path, document(of=of))["missing"]
    (text,) = [note["text"] for note in lacking if note["code"] == "joints-unsaid"]
    assert text == f"List the joints in the slab, or say that there are none: {why}."


def test_joints_of_a_system_that_neither_seals_nor_anchors_may_still_move() -> None:
    """Common practice, no source: a joint that moves under a rigid floor shows in it as a crack."""
    lacking = ask(client_of(snapshot_of(FLAKE)), "readiness", document(of="flake"))["missing"]
    (text,) = [note["text"] for note in lacking if note["code"] == "joints-unsaid"]
    assert text.endswith(": where one moves, a floor laid over it cracks.")


@pytest.mark.parametrize(
    ("left", "says"),
    [
        (2, "that takes a film of next to nothing, and the system allows 3/16 in"),
        (8, " in, and the system allows 3/16 in"),
    ],
)
def test_a_rest_that_is_no_floor_is_told_without_a_figure_of_it(client: FlaskClient, left: int, says: str) -> None:
    """20 mixes laid half of the floor, 7/32 in on a profile of 19 mil and its keyways: the rest takes as much.

    Its profile alone takes 19 of every 237.75 mil, 1.6 mixes: of two mixes hardly anything is left above it, of eight
    about a quarter of the floor.
    """
    job = document(measured("1200 sq ft", joints=[]), order={"waste_percent": 0})
    progress = {"mixes": 20, "placed": {"area": "600 ft2"}, "mixes_left": left}
    advice = ask(client, "pour-progress", {"job": job, "progress": progress})["advice"]
    (text,) = [note["text"] for note in advice if note["code"] == "progress-no-stretch"]
    assert says in text


@pytest.mark.parametrize(
    ("of", "placed", "cast"),
    [("level-clear", "600 ft2", True), ("level-clear", "1200 ft2", False), ("trowelled-mortar", "600 ft2", False)],
)
def test_whoever_pours_is_still_told_to_leave_the_wet_edge_uncast(
    client: FlaskClient, of: str, placed: str, cast: bool
) -> None:
    """The page on the slab shows the cautions of the last answer: those of the plan go at the first tap."""
    job = document(measured("1200 sq ft", joints=[]), of=of)
    progress = {"mixes": 20, "placed": {"area": placed}, "mixes_left": 30}
    found = ask(client, "pour-progress", {"job": job, "progress": progress})["cautions"]
    assert ("cast-wet-edge-last" in [note["code"] for note in found]) is cast


@pytest.mark.parametrize(
    ("price", "says"),
    [
        (', price: "60.00"', "This order can be placed, but the slab is not fully tested yet"),
        ("", "This order can be placed once its missing prices are known, but the slab is not fully tested yet"),
    ],
)
def test_paper_that_asks_for_a_price_does_not_let_the_order_be_placed_as_it_is(price: str, says: str) -> None:
    """The caution above it says to ask for the price before this is ordered."""
    asks = client_of(snapshot_of(FLAKE.replace(', price: "60.00"', price)))
    paper = asks.post("/v1/quotes", json=document(of="flake"), headers={"Accept": "text/html"}).get_data(as_text=True)
    assert says in paper
    assert ("Ask for the price before this is ordered." in paper) is (not price)


def test_the_floor_during_the_work_is_the_one_that_the_hours_are_worked_out_for(client: FlaskClient) -> None:
    """A freezer's slab is at 34 °F today and is warmed to 70 °F for the work: the slab waits, and the products may."""
    freezer = {"slab": {"temperature": "34 degF"}, "work": {**MONDAY, "temperatures": {"steady": "70 degF"}}}
    quote = ask(client, "quotes", document(**freezer))
    assert next(one["verdict"] for one in quote["readiness"]["checks"] if one["check"] == "slab-temperature") == "fix"
    assert "product-temperature-below" not in [note["code"] for note in quote["cautions"]]
    warm = {"slab": {"temperature": "70 degF"}, "work": {**MONDAY, "temperatures": {"steady": "40 degF"}}}
    below = [
        note
        for note in ask(client, "quotes", document(**warm))["cautions"]
        if note["code"] == "product-temperature-below"
    ]
    assert below[0]["text"].startswith("Urethane-cement levelling body: the floor gets down to 40 °F during the work")
    assert {note["pointer"] for note in below} == {"/work/temperatures"}


def test_the_first_try_with_curl_is_told_which_header_it_lacks(client: FlaskClient) -> None:
    """curl's -d alone sends a form (its manual, --data)."""
    form = "application/x-www-form-urlencoded"
    refused = client.post("/v1/quotes", data='{"system": "level-clear"}', content_type=form)
    assert refused.status_code == 415
    assert refused.get_json()["detail"].endswith("Send it with the header Content-Type: application/json.")


# Air that is known for some of the work alone


def air_until(last: str) -> dict[str, Any]:
    ends = ("2027-04-05T07:00", last)
    return {"readings": [{"at": at, "temperature": "70 degF", "humidity_percent": 40} for at in ends]}


@pytest.mark.parametrize(("last", "count"), [("2027-04-06T07:00", 1), ("2027-05-31T07:00", 0)])
@pytest.mark.parametrize("path", ["return-times", "quotes"])
def test_air_that_is_known_for_a_day_alone_is_said_to_be(client: FlaskClient, path: str, last: str, count: int) -> None:
    """The demonstration's floor is asked to stay 6 °F above the dew point; its second coat is days away."""
    found = told(client, path, document(work=MONDAY, air=air_until(last)), "air-readings-end-early")
    assert len(found) == count
    assert all(text.startswith("The readings of the air end at 2027-04-06 07:00") for text in found)


def test_air_that_no_limit_rests_on_may_be_known_for_a_day() -> None:
    job = document(of="flake", work=MONDAY, air=air_until("2027-04-06T07:00"))
    assert told(client_of(snapshot_of(FLAKE)), "return-times", job, "air-readings-end-early") == []


@pytest.mark.parametrize(
    ("room", "count"), [({}, 1), ({"cove": {"length": "90 ft", "height": "4 in"}}, 0)], ids=["no cove", "a cove"]
)
def test_an_optional_layer_that_no_room_has_work_for_is_said_to_be_left_out(room: dict[str, Any], count: int) -> None:
    coved = FLAKE.replace("systems:", MORTAR).replace("- {layer: body,", f"{COVE}\n      - {{layer: body,")
    job = document(rectangle("30 ft", "15 ft", **room), of="flake", order={"optional_layers": ["cove"]})
    quote = ask(client_of(snapshot_of(coved)), "quotes", job)
    assert [note["code"] for note in quote["cautions"]].count("optional-layer-unused") == count
    ordered = {layer for line in quote["quantities"]["order_lines"] for layer in line["layers"]}
    assert ("cove" in ordered) is (not count)


_TO_MEND = "the surface profile, the floor's temperature"


@pytest.mark.parametrize(
    ("slab", "says"),
    [
        ({}, []),
        (
            {"profile_csp": 1, "temperature": "34 degF"},
            [f"To be put right on the slab before the pour: {_TO_MEND}. The quote says how."],
        ),
    ],
    ids=["untested", "to be mended"],
)
def test_day_sheets_say_what_of_the_slab_comes_before_the_pour(
    client: FlaskClient, slab: dict[str, Any], says: list[str]
) -> None:
    assert told(client, "day-sheets", document(slab=slab, work=MONDAY), "day-sheet-slab-fix") == says


@pytest.mark.parametrize(("by", "count"), [("2027-04-05T20:00", 1), ("2027-05-31T07:00", 0)], ids=["no one", "all"])
def test_a_comparison_says_why_no_choice_is_best(client: FlaskClient, by: str, count: int) -> None:
    """No floor of the demonstration is prepared, laid and cured on the day that it is begun."""
    choices = [{"name": name, "change": {"system": name}} for name in ("level-clear", "double-quartz")]
    job = document(work={**MONDAY, "reopen_by": by})
    found = ask(client, "comparisons", {"job": job, "choices": choices})
    assert [note["code"] for note in found["cautions"]].count("comparison-without-best") == count
    assert (found["best"]["soonest"] is None) is bool(count)
