"""Every start of a search comes out as the job posted with it; the best are found again from the answer alone."""

from __future__ import annotations

import math
import random
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.builders import client_of, document, measured, rectangle
from tests.changes import put, with_remedy
from tests.contract.test_whole_jobs import METRIC
from tests.contract.whole_jobs import jobs, written

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.web.api.examples import STARTS
from gaugerake.web.describe.description import description

SNAPSHOTS = {"demonstration": demo_snapshot(), "metric": snapshot_of(METRIC.read_text("utf-8"))}
CLIENTS = {name: client_of(snapshot) for name, snapshot in SNAPSHOTS.items()}
NAMES = list(SNAPSHOTS)
Document = dict[str, Any]
K_IN = {"delta_degF": 5 / 9, "delta_degC": 1.0, "K": 1.0}
NEAR_K = 0.02
"""A dip under the limit by less may go unseen in a quote."""


def searched(client: FlaskClient, job: Document, **search: Any) -> Any:
    response = client.post("/v1/start-search", json={"job": job, "search": search})
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def kelvin(figure: Document) -> float:
    return float(figure["value"]) * K_IN[figure["unit"]]


def asked_spread_k(name: str, job: Document) -> float | None:
    return SNAPSHOTS[name].catalogue.systems[job["system"]].air_limits.dew_point_spread_k


def hold_equal(start: Document, quote: Document, spread_k: float | None, traffic: str | None) -> None:
    """A start of a search, beside the quote of the job that begins then."""
    pour, times = quote["pour_plan"], quote["return_times"]
    because = {code for code in start["because"] if code != "too-damp"}
    lost = any(one["holds"] is False for one in pour["pours"])
    assert ("edge-lost" in because) is lost
    assert ("short-handed" in because) is (pour["bottleneck"] == "people")
    assert ({"edge-lost", "short-handed", "never-done"} & because != set()) or pour["feasible"] is not False
    hold_margin(start, pour)
    hold_return(start, times, because, traffic)
    warms = any(note["code"] == "pour-floor-warms" for note in quote["cautions"])
    assert (start["trend"] == "warms") is warms
    assert (start["trend"] is None) is (not pour["pours"])
    hold_spread(start, quote["readiness"]["condensation"], spread_k)
    assert start["ok"] is (start["because"] == [])


def hold_margin(start: Document, pour: Document) -> None:
    margins = [one["open_time"]["value"] - one["needed"]["value"] for one in pour["pours"] if one["open_time"]]
    if not margins:
        assert start["edge_margin"] is None
        return
    assert start["edge_margin"]["value"] == pytest.approx(min(margins), abs=2e-3)


def hold_return(start: Document, times: Document, because: set[str], traffic: str | None) -> None:
    due = times["deadline"]
    asked = traffic or (times["returns"][-1]["traffic"] if times["returns"] else None)
    returned = next((one for one in times["returns"] if one["traffic"] == asked), None)
    assert start["return"] == (returned["latest"] if returned else None)
    assert start["slack"] == (due["slack"] if due else None)
    assert ("late" in because) is bool(due and due["met"] is False and start["return"])
    if asked is not None and start["return"] is None:
        assert "never-done" in because


def hold_spread(start: Document, spans: list[Document], spread_k: float | None) -> None:
    damp = "too-damp" in start["because"]
    if start["least_spread"] is None or spread_k is None:
        assert not damp
        assert spans == []
        return
    least_k = kelvin(start["least_spread"])
    assert damp is (least_k < spread_k * (1 - 1e-9)) or abs(least_k - spread_k) < 1e-4
    begins = "never-done" not in start["because"]  # of work that never begins a quote has no stretch to look at
    if abs(least_k - spread_k) > NEAR_K and begins:
        assert damp is (spans != [])
    if spans:
        assert min(kelvin(one["least_spread"]) for one in spans) == pytest.approx(least_k, abs=NEAR_K)


def in_order(starts: list[Document]) -> list[str]:
    """Those that are ok, ranked from the starts alone."""

    def rank(one: Document) -> tuple[float, float, float]:
        back = math.inf if one["return"] is None else datetime.fromisoformat(one["return"]).timestamp()
        margin = 0.0 if one["edge_margin"] is None else -one["edge_margin"]["value"]
        return back, margin, datetime.fromisoformat(one["start"]).timestamp()

    return [one["start"] for one in sorted((one for one in starts if one["ok"]), key=rank)]


def hold_search(name: str, job: Document, **search: Any) -> Any:
    client = CLIENTS[name]
    response = client.post("/v1/start-search", json={"job": job, "search": search})
    answer = response.get_json()
    if response.status_code != 200:
        refused = client.post("/v1/quotes", json=put(job, "/work/start", search["from"])).get_json()
        last = client.post("/v1/quotes", json=put(job, "/work/start", search["until"])).get_json()
        told = {one["pointer"] for one in answer["errors"]}
        alone = {f"/job{one['pointer']}" for body in (refused, last) for one in body.get("errors", ())}
        assert told
        assert told <= alone
        return answer
    for start in answer["starts"]:
        quote = client.post("/v1/quotes", json=put(job, "/work/start", start["start"]))
        assert quote.status_code == 200
        hold_equal(start, quote.get_json(), asked_spread_k(name, job), job["work"].get("traffic"))
    assert answer["best"] == in_order(answer["starts"])[: search.get("keep", 3)]
    assert (answer["remedies_at"] is None) is any(one["ok"] for one in answer["starts"])
    return answer


def air_of(job: Document, draw: random.Random) -> Document:
    """The same job, with the air as drawn, or with readings of it."""
    begun = datetime.fromisoformat(job["work"]["start"])
    if draw.random() < 0.5 or begun.tzinfo is not None:
        return job
    rows = [
        {
            "at": (begun + timedelta(hours=hour)).isoformat(timespec="minutes"),
            "temperature": f"{draw.uniform(45, 80):.1f} degF",
            "humidity_percent": draw.randint(35, 95),
        }
        for hour in range(0, draw.choice([2, 60, 200]), draw.choice([1, 7]))
    ]
    return {**job, "air": {"readings": rows}}


@pytest.mark.parametrize("name", NAMES)
def test_every_start_is_that_of_the_single_quote(name: str) -> None:
    def held(drawn: Any, seed: int) -> None:
        draw = random.Random(seed)
        job = written(drawn)
        job.setdefault("work", {}).setdefault("start", "2027-03-12T07:00")
        job = air_of(job, draw)
        begun = datetime.fromisoformat(job["work"]["start"]).replace(second=0)
        step = draw.choice([5, 15, 50, 240, 700])
        until = begun + timedelta(minutes=step * draw.randint(0, 4))
        said = {"from": begun.isoformat(timespec="minutes"), "until": until.isoformat(timespec="minutes")}
        hold_search(name, job, **said, step=f"{step} min", keep=draw.randint(1, 4))

    health = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
    drawing = settings(phases=[Phase.generate], derandomize=True, suppress_health_check=health)
    once = settings(drawing, max_examples=40, deadline=None)
    once(given(jobs(SNAPSHOTS[name].catalogue), st.integers(0, 2**30))(held))()


WAVE = {"temperatures": {"daily": {"low": "52 degF", "high": "70 degF", "coldest_at": "05:00"}}}
AIR = {"temperature": "60 degF", "humidity_percent": 68}
CREW = {"mixing_stations": 4, "placing_rate": "1500 ft2/h"}


def wave_job(**work: Any) -> Document:
    """A floor that is coldest at 05:00."""
    return document(
        rectangle("30 ft", "20 ft"), air=AIR, work={"zone": "America/Chicago", "crew": CREW, **WAVE, **work}
    )


@pytest.mark.parametrize(
    ("first", "last"), [("2027-03-13T21:00", "2027-03-14T09:00"), ("2027-11-06T21:00", "2027-11-07T09:00")]
)
def test_every_start_of_the_night_in_which_the_clocks_change_is_that_of_its_quote(first: str, last: str) -> None:
    job = wave_job(round_the_clock=True, reopen_by=f"{last[:8]}25T06:00" if "-11-" not in last else "2027-11-15T06:00")
    answer = hold_search("demonstration", job, **{"from": first, "until": last}, step="25 min")
    starts = [datetime.fromisoformat(one["start"]) for one in answer["starts"]]
    assert len({start.utcoffset() for start in starts}) == 2
    gaps = {later.astimezone(UTC) - sooner.astimezone(UTC) for sooner, later in pairwise(starts)}
    assert gaps == {timedelta(minutes=25)}


def test_nights_and_weekends_share_what_their_next_morning_comes_to() -> None:
    """Friday 15:00 to Monday 08:00: shifts from 07:00 to 15:30 on working days."""
    answer = hold_search("demonstration", wave_job(), **{"from": "2027-04-02T15:00", "until": "2027-04-05T08:00"},
                         step="1 h")  # fmt: skip
    returns = {one["start"][:13]: one["return"] for one in answer["starts"]}
    assert returns["2027-04-03T12"] == returns["2027-04-05T07"]


def test_a_daily_wave_cools_only_from_17_to_5_o_clock() -> None:
    """Coldest at 05:00, so warmest at 17:00. The body is poured as soon as the crew comes, and in half an hour."""
    job = wave_job(round_the_clock=True, preparation="0 h")
    job["rooms"] = [rectangle("30 ft", "16 ft")]
    answer = searched(CLIENTS["demonstration"], job, **{"from": "2027-04-06T00:00", "until": "2027-04-06T23:00"},
                      step="1 h")  # fmt: skip
    quote = CLIENTS["demonstration"].post("/v1/quotes", json=put(job, "/work/start", "2027-04-06T12:00")).get_json()
    poured = datetime.fromisoformat(quote["pour_plan"]["pours"][0]["from"])
    after_h = (poured - datetime.fromisoformat("2027-04-06T12:00-05:00")) / timedelta(hours=1)
    trends = {(hour + after_h) % 24: one["trend"] for hour, one in enumerate(answer["starts"])}
    assert {trend for begun, trend in trends.items() if 7 < begun < 15} == {"warms"}
    assert {trend for begun, trend in trends.items() if begun > 19 or begun < 3} == {"cools"}
    assert {trend for begun, trend in trends.items() if 5 < begun < 17} == {"warms", "steady"}


def test_a_start_that_mends_a_lost_edge_is_found() -> None:
    """Hot by day, cool by night: the edge is lost at noon and holds at night."""
    job = wave_job(round_the_clock=True, temperatures={"daily": {"low": "50 degF", "high": "104 degF"}})
    job["air"] = {"temperature": "50 degF", "humidity_percent": 40}
    job["rooms"], job["work"]["crew"] = [rectangle("30 ft", "24 ft")], {"mixing_stations": 2}
    answer = hold_search("demonstration", job, **{"from": "2027-07-06T00:00", "until": "2027-07-07T00:00"}, step="1 h")
    assert {one["ok"] for one in answer["starts"]} == {True, False}
    assert any("edge-lost" in one["because"] for one in answer["starts"])


NONE_OK: dict[str, Document] = {
    "late": wave_job(reopen_by="2027-04-14T06:00", temperatures={"steady": "62 degF"}),
    "edge lost": {**wave_job(temperatures={"steady": "70 degF"}, crew={"mixing_stations": 1}),
                  "rooms": [rectangle("60 ft", "50 ft")]},
    "too few people": wave_job(temperatures={"steady": "66 degF"}, crew=CREW | {"people": 2}),
    "too damp": wave_job(air_is="damp", temperatures={"steady": "58 degF"}),
    "too damp and late": wave_job(air_is="damp", temperatures={"steady": "58 degF"}, reopen_by="2027-04-13T06:00"),
}  # fmt: skip


@pytest.mark.parametrize("name", NONE_OK)
def test_every_remedy_makes_the_start_ok_that_it_is_for(name: str) -> None:
    job = {**NONE_OK[name], "work": dict(NONE_OK[name]["work"])}
    if job["work"].pop("air_is", None):
        job["air"] = {"temperature": "60 degF", "humidity_percent": 85}
    said = {"from": "2027-04-06T07:00", "until": "2027-04-07T07:00"}
    answer = hold_search("demonstration", job, **said, step="6 h")
    assert answer["best"] == []
    assert answer["remedies"]
    begun = put(job, "/work/start", answer["remedies_at"])
    for remedy in answer["remedies"]:
        mended = with_remedy(begun, remedy)
        at = mended["work"]["start"]
        [again] = searched(CLIENTS["demonstration"], mended, **{"from": at, "until": at})["starts"]
        assert again["ok"], (remedy["text"], again)


def test_fewest_reasons_come_first_where_no_start_is_ok() -> None:
    job = NONE_OK["late"]
    answer = searched(CLIENTS["demonstration"], job, **{"from": "2027-04-06T07:00", "until": "2027-04-08T07:00"})
    counts = {one["start"]: len(one["because"]) for one in answer["starts"]}
    assert counts[answer["remedies_at"]] == min(counts.values())
    assert answer["reasons"][0]["text"]
    assert {one["code"]: one["starts"] for one in answer["reasons"]} == {
        code: sum(code in one["because"] for one in answer["starts"])
        for code in {code for one in answer["starts"] for code in one["because"]}
    }


@pytest.mark.parametrize("name", STARTS)
def test_the_example_is_answered_as_the_description_says(name: str) -> None:
    asked = STARTS[name]["value"]  # type: ignore[index]
    response = CLIENTS["demonstration"].post("/v1/start-search", json=asked)
    assert response.status_code == 200
    schema = description()["paths"]["/v1/start-search"]["post"]["responses"]["200"]["content"]["application/json"]
    validator = Draft202012Validator({**description(), **schema["schema"]})
    assert [error.message[:200] for error in validator.iter_errors(response.get_json())] == []
    assert response.get_json()["best"]


def test_readings_that_end_before_the_work_are_told_with_the_first_start_that_they_fail() -> None:
    job = STARTS["forecast"]["value"]["job"]  # type: ignore[index]
    answer = searched(CLIENTS["demonstration"], job, **{"from": "2027-03-12T05:00", "until": "2027-03-12T07:00"},
                      step="1 h")  # fmt: skip
    told = [one for one in answer["cautions"] if one["code"] == "starts-outlast-readings"]
    assert [one["pointer"] for one in told] == ["/work/temperatures/readings", "/air/readings"]
    assert "2027-03-12 06:00" in told[0]["text"]
    assert "2027-03-12 05:00" in told[0]["text"]


def test_the_own_start_of_the_job_is_left_aside() -> None:
    said = {"from": "2027-04-06T07:00", "until": "2027-04-06T09:00"}
    with_start, without = (
        searched(CLIENTS["demonstration"], job, **said)
        for job in (put(wave_job(), "/work/start", "2027-03-14T02:30"), wave_job())
    )
    assert with_start == without


SOUND = {"from": "2027-04-06T07:00", "until": "2027-04-07T07:00"}


@pytest.mark.parametrize(
    ("search", "pointer", "code"),
    [
        ({"until": "2027-04-07T07:00"}, "/search/from", "required"),
        ({"from": "2027-04-07T07:00"}, "/search/until", "required"),
        (SOUND | {"until": "2027-04-06T06:59"}, "/search/until", "ends-first"),
        (SOUND | {"until": "2027-04-06T11:59Z"}, "/search/until", "ends-first"),
        (SOUND | {"until": "2027-04-20T07:00"}, "/search/step", "too-many-starts"),
        (SOUND | {"step": "4 min"}, "/search/step", "measure-out-of-range"),
        (SOUND | {"step": "0 min"}, "/search/step", "measure-out-of-range"),
        (SOUND | {"step": 15}, "/search/step", "no-unit"),
        (SOUND | {"step": "7.5 min"}, "/search/step", "not-whole-minutes"),
        (SOUND | {"step": "15 ft"}, "/search/step", "wrong-dimension"),
        (SOUND | {"from": "2027-04-06T07:00:30"}, "/search/from", "not-whole-minutes"),
        (SOUND | {"from": "2027-04-06"}, "/search/from", "not-a-moment"),
        (SOUND | {"from": "2027-03-14T02:30"}, "/search/from", "no-such-local-time"),
        (SOUND | {"until": "2027-03-14T02:30"}, "/search/until", "no-such-local-time"),
        (SOUND | {"keep": 0}, "/search/keep", "number-out-of-range"),
        (SOUND | {"keep": 101}, "/search/keep", "number-out-of-range"),
        (SOUND | {"untill": "2027-04-07T07:00"}, "/search/untill", "unknown-field"),
    ],
)  # fmt: skip
def test_a_fault_of_the_search_points_into_the_request(search: Document, pointer: str, code: str) -> None:
    response = CLIENTS["demonstration"].post("/v1/start-search", json={"job": wave_job(), "search": search})
    assert response.status_code == 422
    errors = response.get_json()["errors"]
    assert [(one["pointer"], one["code"]) for one in errors] == [(pointer, code)]
    assert errors[0]["hint"]


@pytest.mark.parametrize(
    ("change", "pointer", "code"),
    [
        ({"system": "level-cleer"}, "/job/system", "unknown-name"),
        ({"thickness": "3 in"}, "/job/thickness", "out-of-range"),
        ({"slab": {"poured": "2027-04-30"}}, "/job/slab/poured", "too-late"),
        ({"slab": {"poured": "2027-03-01", "age": "36 d"}}, "/job/slab/age", "age-of-one-start"),
        ({"order": {"price_book": "nobody"}}, "/job/order/price_book", "unknown-name"),
        ({"rooms": [measured("12")]}, "/job/rooms/0/shape/measured/area", "no-unit"),
    ],
)
def test_a_fault_of_the_job_points_into_the_request(change: Document, pointer: str, code: str) -> None:
    """The slab of 1 March is 36 days old on 6 April and 44 on the last day that is asked for."""
    body = {"job": wave_job() | change, "search": SOUND | {"until": "2027-04-14T07:00"}}
    response = CLIENTS["demonstration"].post("/v1/start-search", json=body)
    assert response.status_code == 422
    assert (pointer, code) in [(one["pointer"], one["code"]) for one in response.get_json()["errors"]]


def test_the_shortest_step_is_told_as_it_is() -> None:
    body = {"job": wave_job(), "search": SOUND | {"step": "4 min"}}
    (error,) = CLIENTS["demonstration"].post("/v1/start-search", json=body).get_json()["errors"]
    assert error["hint"] == "Write a measure from 5 min to 168 h."


@pytest.mark.parametrize("age", ["36 d", "40 d", "44 d"])
def test_an_age_of_one_start_is_told_with_what_to_leave_out(age: str) -> None:
    """Poured on 1 March: 31 − 1 + 6 = 36 days on 6 April and 31 − 1 + 14 = 44 on 14 April. Without it all is good."""
    body = {"job": wave_job(), "search": SOUND | {"until": "2027-04-14T07:00", "step": "6 h"}}
    slab = {"poured": "2027-03-01"}
    body["job"]["slab"] = {**slab, "age": age}
    response = CLIENTS["demonstration"].post("/v1/start-search", json=body)
    assert response.status_code == 422
    (error,) = response.get_json()["errors"]
    assert error["pointer"] == "/job/slab/age"
    assert error["detail"] == (
        "This is the age at one start alone: by poured it is 36 d at the first and 44 d at the last."
    )
    assert error["hint"] == "Leave this out: poured tells the age at every start."
    hold_search("demonstration", {**body["job"], "slab": slab}, **body["search"])


def test_an_age_that_holds_at_every_start_is_no_fault() -> None:
    job = wave_job()
    job["slab"] = {"poured": "2027-03-01", "age": "36 d"}
    hold_search("demonstration", job, **{"from": "2027-04-06T07:00", "until": "2027-04-06T19:00"}, step="6 h")
