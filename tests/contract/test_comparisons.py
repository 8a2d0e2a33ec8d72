"""Every cell of a comparison is what the quote of the merged job says; the best are found again from the answer."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.builders import client_of, document, measured
from tests.contract.test_whole_jobs import METRIC
from tests.contract.whole_jobs import jobs, written

from gaugerake.answers.choosing.comparison import shared
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.web.api.examples import COMPARISONS, TESTED
from gaugerake.web.describe.description import description
from gaugerake.web.json_in.schemas.rooms import RoomSchema

SNAPSHOTS = {"demonstration": demo_snapshot(), "metric": snapshot_of(METRIC.read_text("utf-8"))}
CLIENTS = {name: client_of(snapshot) for name, snapshot in SNAPSHOTS.items()}
Document = dict[str, Any]


def with_change(target: Any, patch: Any) -> Any:
    """RFC 7396, section 2, written once more from its pseudocode."""
    if not isinstance(patch, dict):
        return patch
    result = copy.deepcopy(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            result.pop(name, None)
        else:
            result[name] = with_change(result.get(name), value)
    return result


def compare(client: FlaskClient, job: Document, *changes: Document, units: str = "us") -> Any:
    choices = [{"name": f"Choice {number}", "change": change} for number, change in enumerate(changes, 1)]
    response = client.post(f"/v1/comparisons?units={units}", json={"job": job, "choices": choices})
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def cells(quote: Document) -> Document:
    """What a choice shows, from its whole quote."""
    times, order, slab = quote["return_times"], quote["quantities"], quote["readiness"]
    due = times["deadline"]
    return {
        "thickness": order["rooms"][0]["thickness"],
        "verdict": slab["verdict"],
        "stops": [check["check"] for check in slab["checks"] if check["verdict"] == "stop"],
        "reason": reason(slab),
        "orderable": order["orderable"],
        "totals": order["totals"],
        "weight": order["totals"]["weight"],
        "returns": times["returns"],
        "deadline": due and {name: due[name] for name in ("reopen_by", "met", "slack", "latest_start")},
        "holds": quote["pour_plan"]["feasible"],
        "lacks": [
            note for note in quote["cautions"] if note["code"].startswith(("no-layer-for-", "layer-not-chosen-for-"))
        ],
        "fingerprint": quote["fingerprint"],
    }


def reason(slab: Document) -> Document | None:
    """The first check of a quote that has the verdict of the whole slab; none where all is good."""
    first = next(check for check in slab["checks"] if check["verdict"] == slab["verdict"])
    return None if slab["verdict"] == "go" else {name: first[name] for name in ("check", "because", "do")}


def hold_equal(client: FlaskClient, job: Document, choice: Document, change: Document, units: str) -> None:
    merged = with_change(job, change)
    response = client.post(f"/v1/quotes?units={units}", json=merged)
    alone = response.get_json()
    if response.status_code != 200:
        assert {**choice["problem"], "request_id": None} == {**alone, "request_id": None}
        return
    shown = {name: choice[name] for name in cells(alone)}
    if choice["deadline"] is not None:
        shown["deadline"] = dict(choice["deadline"])
        if not shown["deadline"].pop("latest_start_found"):
            shown["deadline"]["latest_start"] = alone["return_times"]["deadline"]["latest_start"]
    assert shown == cells(alone)
    assert choice["system"] == merged["system"]


def changes_of(job: Document, codes: list[str], draw: random.Random) -> list[Document]:
    """Changes of every kind, and some that make no sound job."""
    start = job.get("work", {}).get("start")
    found: list[Document] = [
        {},
        {"system": draw.choice(codes), "thickness": None, "order": None},
        {"system": draw.choice(codes), "rooms": [measured("640 ft2", name="Other")]},
        {"thickness": draw.choice(["3/16 in", "6 mm", "3/8 in", "1 m"])},
        {"work": {"crew": {"mixing_stations": draw.randint(1, 4), "minutes_per_mix": None}}},
        {"work": {"crew": {"people": draw.choice([1, 3, 8]), "hourly_cost": "41.50"}}},
        {"work": {"round_the_clock": draw.choice([True, False]), "shifts": None}},
        {"order": {"optional_layers": draw.choice([["primer"], [], ["nothing"]]), "waste_percent": 7}},
        {"slab": {"relative_humidity": [{"percent": draw.choice([80, 95, 99]), "depth": "2 in"}]}},
        {"slab": None, "air": None, "work": {"temperatures": None}},
        {"air": {"readings": [{"at": "2027-03-05T06:00", "temperature": "60 degF", "humidity_percent": 70}]}},
        {"work": {"start": draw.choice([None, start, "2028-03-05T06:00"])}},
        {"colour": "red"},
        {
            "thickness": "1 m",
            "order": {"colour": "no such"},
            "work": {"traffic": "tanks"},
            "air": {
                "temperature": None,
                "humidity_percent": None,
                "readings": [{"at": "2027-03-14T02:30", "temperature": "60 degF", "humidity_percent": 70}],
            },
        },
        {"rooms": []},
    ]
    draw.shuffle(found)
    return found[: draw.randint(2, 6)]


@pytest.mark.parametrize("name", SNAPSHOTS)
def test_every_cell_is_that_of_the_single_quote(name: str) -> None:
    codes = list(SNAPSHOTS[name].catalogue.systems)

    def held(drawn: Any, seed: int) -> None:
        job, draw = written(drawn), random.Random(seed)
        changes, units = changes_of(job, codes, draw), draw.choice(["us", "si"])
        answer = compare(CLIENTS[name], job, *changes, units=units)
        for choice, change in zip(answer["choices"], changes, strict=True):
            hold_equal(CLIENTS[name], job, choice, change, units)
        assert answer["best"] == best(answer["choices"])

    health = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
    drawing = settings(phases=[Phase.generate], derandomize=True, suppress_health_check=health)
    once = settings(drawing, max_examples=30, deadline=None)
    once(given(jobs(SNAPSHOTS[name].catalogue), st.integers(0, 2**30))(held))()


def best(choices: list[Document]) -> Document:
    """From the answer alone: no stop, no problem, the deadline met, the least of what is priced; first listed first."""
    sound = [one for one in choices if "problem" not in one]
    good = [one for one in sound if one["verdict"] != "stop" and (one["deadline"] is None or one["deadline"]["met"])]
    timed = any(row["latest"] for one in sound for row in one["returns"])
    soonest: list[tuple[float, int]] = []
    for index, one in enumerate(good):
        row = next((row for row in one["returns"] if row["traffic"] == one["traffic"]), None)
        if row and timed and row["latest"]:
            soonest.append((datetime.fromisoformat(row["latest"]).timestamp(), index))
        elif row and not timed and row["after"]:
            soonest.append((row["after"]["value"], index))
    priced = [(index, one) for index, one in enumerate(good) if not one["totals"]["unpriced"]]
    cheapest = min(((Decimal(one["totals"]["gross"]), index) for index, one in priced), default=None)
    return {
        "cheapest": None if cheapest is None else good[cheapest[1]]["name"],
        "soonest": good[min(soonest)[1]]["name"] if soonest else None,
    }


def without_price(*skus: str) -> FlaskClient:
    """The demonstration, whose list has no price for some skus."""
    listed = SNAPSHOTS["demonstration"].list_book
    prices = {sku: price for sku, price in listed.prices.items() if sku not in skus}
    return client_of(replace(SNAPSHOTS["demonstration"], books={"list": replace(listed, prices=prices)}))


def test_what_has_no_price_is_not_called_the_cheapest() -> None:
    """The levelled floor without the price of its body: what is left of its total is less than any other's."""
    body = ("LB-1", "LB-24")
    systems: list[Document] = [{"system": "level-clear"}, {"system": "trowelled-mortar"}]
    answer = compare(without_price(*body), document(), *systems)
    level, mortar = answer["choices"]
    assert Decimal(level["totals"]["gross"]) < Decimal(mortar["totals"]["gross"])
    assert (set(level["totals"]["unpriced"]) <= set(body), mortar["totals"]["unpriced"]) == (True, [])
    assert level["totals"]["unpriced"]
    assert answer["best"]["cheapest"] == "Choice 2"
    both = compare(without_price(*body), document(), systems[0], {**systems[0], "thickness": "1/4 in"})
    assert both["best"]["cheapest"] is None
    assert both["best"]["soonest"] is not None


def test_a_reading_of_95_percent_goes_on_with_the_primer_alone() -> None:
    """95 % against 92 %: the primer goes up to 96 %; its gallons and its cure then stand in order and timetable."""
    client = CLIENTS["demonstration"]
    slab = {"relative_humidity": [{"percent": 95, "depth": "2 in"}] * 4, "thickness": "5 in"}
    job = document(slab=slab)
    with_primer = {"order": {"optional_layers": ["primer"]}}
    without, primed = compare(client, job, {}, with_primer)["choices"]
    assert (without["verdict"], primed["verdict"]) == ("fix", "untested")
    assert without["orderable"] is primed["orderable"] is True
    assert Decimal(primed["totals"]["gross"]) > Decimal(without["totals"]["gross"])
    quote = client.post("/v1/quotes", json=with_change(job, with_primer)).get_json()
    assert "primer" in [layer["layer"] for layer in quote["quantities"]["layers"]]
    assert "primer" in [step["layer"] for step in quote["return_times"]["steps"]]
    check = next(one for one in quote["readiness"]["checks"] if one["check"] == "relative-humidity")
    assert (check["verdict"], check["limit"]["high"]["value"]) == ("go", 96)


def test_a_trowelled_system_goes_on_where_another_stops() -> None:
    """86 %: the demonstration's trowelled mortar allows up to 94 %, its double quartz up to 82 %."""
    job = document(slab={"relative_humidity": [{"percent": 86, "depth": "2 in"}]})
    quartz, trowelled = compare(
        CLIENTS["demonstration"], job, {"system": "double-quartz"}, {"system": "trowelled-mortar"}
    )["choices"]
    assert quartz["verdict"] == "stop"
    assert "relative-humidity" in quartz["stops"]
    assert "relative-humidity" not in trowelled["stops"]


def test_air_of_20_degrees_and_65_percent_wants_the_floor_above_16_561() -> None:
    """Its dew point is 13.2272 °C by psychrolib 2.5.0, and the demonstration's 6 °F above it are 3.3333 K: 16.5605 °C.

    Nothing else of this job fails, so the verdict of a choice tells of the spread alone.
    """
    job = document(air={"temperature": "20 degC", "humidity_percent": 65})
    floors = [{"slab": {"temperature": f"{celsius} degC"}} for celsius in (16.558, 16.563)]
    nearer, farther = compare(CLIENTS["demonstration"], job, *floors)["choices"]
    assert (nearer["verdict"], farther["verdict"]) == ("fix", "untested")


def test_the_tested_slab_of_the_description_is_quoted() -> None:
    quote = CLIENTS["demonstration"].post("/v1/quotes", json=TESTED).get_json()
    checks = {check["check"]: check for check in quote["readiness"]["checks"]}
    assert (checks["relative-humidity"]["verdict"], checks["relative-humidity"]["room"]) == ("go", "Wash bay")
    assert checks["air-humidity"]["measured"]["value"] == 63  # a quarter of the way from 60 to 72 %


@pytest.mark.parametrize("name", COMPARISONS)
def test_the_example_is_answered_as_the_description_says(name: str) -> None:
    asked = COMPARISONS[name]["value"]  # type: ignore[index]
    response = CLIENTS["demonstration"].post("/v1/comparisons", json=asked)
    assert response.status_code == 200
    conforms(response.get_json())
    assert all("problem" not in choice for choice in response.get_json()["choices"])


def conforms(body: Any) -> None:
    schema = description()["paths"]["/v1/comparisons"]["post"]["responses"]["200"]["content"]["application/json"]
    validator = Draft202012Validator({**description(), **schema["schema"]})
    assert [error.message[:200] for error in validator.iter_errors(body)] == []


def test_a_choice_that_makes_no_job_spoils_no_other() -> None:
    answer = compare(
        CLIENTS["demonstration"],
        document(),
        {"work": {"strat": "2027-03-05T06:00"}},
        {},
        {"thickness": "5 in"},
        {"rooms": None},
        {"system": "level-cleer"},
    )
    conforms(answer)
    strange, sound, thick, bare, unknown = answer["choices"]
    assert strange["problem"]["errors"][0]["pointer"] == "/work/strat"
    assert strange["problem"]["code"] == "invalid-job"
    assert sound["verdict"] == "untested"
    assert thick["problem"]["errors"][0]["pointer"] == "/thickness"
    assert bare["problem"]["errors"][0] | {"hint": None} == {
        "pointer": "/rooms", "code": "required", "detail": bare["problem"]["errors"][0]["detail"], "seen": None,
        "hint": None,
    }  # fmt: skip
    assert unknown["problem"]["errors"][0]["seen"] == "level-cleer"
    assert answer["best"]["cheapest"] == "Choice 2"


def test_a_thickness_that_no_room_goes_by_is_refused_as_in_its_quote() -> None:
    """The room has a thickness of its own, so both choices measure alike; 0.01 in is under every system's range."""
    job = document(measured("500 ft2", thickness="1/4 in"))
    sound, thin = compare(CLIENTS["demonstration"], job, {}, {"thickness": "0.01 in"})["choices"]
    assert sound["thickness"] == {"value": 0.25, "unit": "in"}
    (error,) = thin["problem"]["errors"]
    assert (error["pointer"], error["code"]) == ("/thickness", "out-of-range")


def test_one_thickness_is_taken_off_once_and_a_room_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three choices of two thicknesses, all of the same rooms: two takeoffs, one survey, one reading of the room."""
    counts = dict.fromkeys(("takeoffs", "surveys", "rooms"), 0)

    def counted(what: str, made: Callable[..., Any]) -> Callable[..., Any]:
        def make(*given: Any, **named: Any) -> Any:
            counts[what] += 1
            return made(*given, **named)

        return make

    monkeypatch.setattr(shared, "take_off", counted("takeoffs", shared.take_off))
    monkeypatch.setattr(shared, "survey_rooms", counted("surveys", shared.survey_rooms))
    monkeypatch.setattr(RoomSchema, "make", counted("rooms", RoomSchema.make))
    starts = [{"work": {"start": f"2027-04-{day:02d}T06:00"}} for day in (5, 6)]
    compare(CLIENTS["demonstration"], document(), *starts, {"thickness": "1/4 in"})
    assert counts == {"takeoffs": 2, "surveys": 1, "rooms": 1}


def test_the_job_need_not_be_whole_by_itself() -> None:
    """Neither system nor rooms stand in the job."""
    bare = {"work": {"start": "2027-03-05T06:00", "zone": "America/Chicago"}}
    rooms = [measured()]
    answer = compare(
        CLIENTS["demonstration"],
        bare,
        {"system": "level-clear", "rooms": rooms},
        {"system": "double-quartz", "rooms": rooms},
    )
    assert [choice["system"] for choice in answer["choices"]] == ["level-clear", "double-quartz"]


CHOICE = {"name": "a", "change": {}}


@pytest.mark.parametrize(
    ("body", "pointer", "code"),
    [
        ({"job": document(), "choices": [CHOICE]}, "/choices", "list-too-short"),
        ({"job": document(), "choices": [CHOICE] * 25}, "/choices", "list-too-long"),
        ({"job": document(), "choices": [CHOICE, CHOICE]}, "/choices/1/name", "name-twice"),
        ({"job": document(), "choices": [CHOICE, {"name": "b"}]}, "/choices/1/change", "required"),
        ({"job": document(), "choices": [CHOICE, {"name": "b", "change": []}]}, "/choices/1/change",
         "not-a-plain-object"),
        ({"job": document(), "choices": [CHOICE, {"name": " ", "change": {}}]}, "/choices/1/name", "blank-text"),
        ({"choices": [CHOICE, {"name": "b", "change": {}}]}, "/job", "required"),
        ({"job": [], "choices": [CHOICE, {"name": "b", "change": {}}]}, "/job", "not-a-plain-object"),
        ({"job": document(*[measured("30 ft2")] * 1501), "choices": [CHOICE, {"name": "b", "change": {}}]}, "/choices",
         "too-many-compared"),
    ],
)  # fmt: skip
def test_a_fault_of_the_comparison_points_into_the_request(body: Any, pointer: str, code: str) -> None:
    response = CLIENTS["demonstration"].post("/v1/comparisons", json=body)
    assert response.status_code == 422
    errors = response.get_json()["errors"]
    assert [(error["pointer"], error["code"]) for error in errors] == [(pointer, code)]
    assert errors[0]["hint"]


def test_two_comparisons_do_not_share_what_they_read() -> None:
    """The same client asks with other rooms in the same places."""
    client = CLIENTS["demonstration"]
    first = compare(client, document(measured("700 ft2")), {}, {"system": "double-quartz"})
    second = compare(client, document(measured("900 ft2")), {}, {"system": "double-quartz"})
    again = compare(client, document(measured("700 ft2")), {}, {"system": "double-quartz"})
    assert json.dumps(first) == json.dumps(again) != json.dumps(second)
