"""Over the wire: a remedy is true as a whole, and is put back just as it says."""

from __future__ import annotations

from typing import Any

import requests
from tests.builders import rectangle
from tests.changes import kind_of, parts, put, with_remedy
from tests.outside.posted_back import WEEK, Job, lost

NIGHTS = [{"days": WEEK, "from": "21:00", "to": "05:00"}]


def job(floor: str, start: str, reopen_by: str, traffic: str = "foot", **work: Any) -> Job:
    """A room of 40 by 26 ft, two stations at 4 min unless said."""
    said = {
        "start": start,
        "zone": "America/Chicago",
        "temperatures": {"steady": floor},
        "material_temperature": "58 degF",
        "preparation": "4 h",
        "crew": {"mixing_stations": 2, "minutes_per_mix": 4, "placing_rate": "900 ft2/h"},
        "reopen_by": reopen_by,
        "traffic": traffic,
    }
    crew = {"saw_rate": "5000 ft/h", "cast_rate": "90000 lb/h"} | dict(work.pop("crew", said["crew"]))
    work["crew"] = crew
    return {
        "system": "level-clear",
        "rooms": [rectangle("40 ft", "26 ft", name="Kitchen", joints=[])],
        "work": said | work,
    }


def quote(http: requests.Session, document: Job) -> Any:
    response = http.post(f"{http.base}/v1/quotes", json=document, timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200, response.text
    return response.json()


def remedies(answer: Any) -> list[Job]:
    found: list[Job] = answer["return_times"]["deadline"]["remedies"]
    return found


def kinds(remedy: Job) -> list[str]:
    return [kind_of(part) for part in parts(remedy)]


def test_a_warmer_floor_that_would_lose_the_wet_edge_goes_with_more_stations(http: requests.Session) -> None:
    """Eight minutes a mix: warm enough for Monday at six, the material is open for less than the lane takes."""
    crew = {"mixing_stations": 2, "minutes_per_mix": 8, "placing_rate": "900 ft2/h"}
    hard = {"crew": crew, "round_the_clock": True, "preparation": "0 h"}
    document = job("58 degF", "2027-03-12T06:00", "2027-03-15T06:00", "vehicle", **hard)
    asked = quote(http, document)
    assert lost(asked) == {"deadline"}
    [remedy] = remedies(asked)
    assert kinds(remedy) == ["warmer-floor", "mixing-stations"]
    assert lost(quote(http, with_remedy(document, remedy))) == set()
    warmer, stations = parts(remedy)
    alone = quote(http, put(document, warmer["pointer"], warmer["value"]))
    assert "wet edge" in lost(alone)
    assert "deadline" in lost(quote(http, put(document, stations["pointer"], stations["value"])))


def test_a_kitchen_by_night_opens_on_monday_with_more_hours_and_a_warmer_floor(http: requests.Session) -> None:
    document = job("55 degF", "2027-03-12T21:00", "2027-03-15T06:00", shifts=NIGHTS)
    asked = quote(http, document)
    assert lost(asked) == {"deadline"}
    remedy, around = remedies(asked)
    hours, warmer = parts(remedy)
    assert kinds(remedy) == ["longer-shifts", "warmer-floor"]
    assert kinds(around) == ["round-the-clock", "round-the-clock", "warmer-floor"]
    assert lost(quote(http, with_remedy(document, around))) == set()
    assert lost(quote(http, with_remedy(document, remedy))) == set()
    for alone in (hours, warmer):
        assert lost(quote(http, put(document, alone["pointer"], alone["value"]))) == {"deadline"}
    cooler = {"steady": warmer["value"]["steady"] | {"value": warmer["value"]["steady"]["value"] - 0.9}}
    less = put(with_remedy(document, remedy), warmer["pointer"], cooler)
    assert lost(quote(http, less)) == {"deadline"}


def test_work_around_the_clock_takes_the_shifts_away(http: requests.Session) -> None:
    """Begun on Friday evening, with mornings from Monday on: neither longer days nor a weekend are enough."""
    mornings = [{"days": WEEK[:5], "from": "07:00", "to": "12:00"}]
    document = job("66 degF", "2027-03-12T18:00", "2027-03-15T12:00", shifts=mornings, preparation="0 h")
    [remedy] = remedies(quote(http, document))
    assert [(part["pointer"], part["value"]) for part in parts(remedy)] == [
        ("/work/round_the_clock", True),
        ("/work/shifts", None),
    ]
    assert remedy["text"] == "Work around the clock, on every day that is not closed."
    whole = with_remedy(document, remedy)
    assert "shifts" not in whole["work"]
    assert lost(quote(http, whole)) == set()


def test_where_the_job_lists_no_shifts_there_are_none_to_take_away(http: requests.Session) -> None:
    document = job("66 degF", "2027-03-12T18:00", "2027-03-15T12:00", preparation="0 h")
    [remedy] = remedies(quote(http, document))
    assert [(part["pointer"], part["value"]) for part in parts(remedy)] == [("/work/round_the_clock", True)]
    assert remedy["kind"] == "round-the-clock"
    assert lost(quote(http, with_remedy(document, remedy))) == set()


def test_where_one_edge_is_lost_a_warmer_floor_may_not_lose_another(http: requests.Session) -> None:
    """At 79 °F the deadline is met, and the small room, whose edge holds at 61 °F, loses it: that is no remedy.

    A lane of the 20 ft room is 60 ft², of the other one 81 ft²: both are poured at 4 min a mix and 775 ft²/h.
    """
    crew = {"mixing_stations": 1, "minutes_per_mix": 4, "placing_rate": "775 ft2/h"}
    hall = job("61 degF", "2027-03-11T06:00", "2027-03-15T06:00", "vehicle", crew=crew, material_temperature="66 degF")
    rooms = [rectangle("39 ft", "20 ft", name="Small", joints=[]), rectangle("53 ft", "27 ft", name="Wide", joints=[])]
    hall |= {"thickness": "5/16 in", "rooms": rooms}
    asked = quote(http, hall)
    assert lost(asked) == {"wet edge", "edge of body in Wide", "deadline"}
    warm = quote(http, put(hall, "/work/temperatures", {"steady": "79 degF"}))
    assert "edge of body in Small" in lost(warm)
    for remedy in remedies(asked):
        assert lost(quote(http, with_remedy(hall, remedy))) <= {"wet edge", "edge of body in Wide"}


def test_more_people_are_no_remedy_for_a_pour_that_finds_no_hours(http: requests.Session) -> None:
    """A floor of 45 °F, where the body is placed from 48 °F on: nobody pours it, whether two people come or four."""
    cold = job("45 degF", "2027-03-11T06:00", "2027-03-15T06:00", crew={"people": 2})
    for document in (cold, put(cold, "/work/crew/people", 4)):
        plan = quote(http, document)["pour_plan"]
        assert (plan["feasible"], plan["remedies"], plan["pours"]) == (False, [], [])
