"""Return times over the wire: a remedy is a change of the document that can be posted as it stands."""

import json
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import measured, rectangle
from tests.changes import put, with_remedy

from gaugerake.catalogue.store.demo import demo_catalogue
from gaugerake.web.api.parameters import MOST_EXPLAINED

ROOMS = [rectangle("60 ft", "30 ft", name="Dock", joints=[])]
TEMPERATURES: dict[str, Any] = {
    "steady": {"steady": "66 degF"},
    "daily": {"daily": {"low": "58 degF", "high": "69 degF", "coldest_at": "04:30"}},
    "readings": {
        "readings": [
            {"at": "2027-03-12T06:00", "temperature": "61 degF"},
            {"at": "2027-03-13T15:00", "temperature": "68 degF"},
            {"at": "2027-03-15T06:00", "temperature": "63.5 degF"},
        ]
    },
    "unsaid": None,
}


def job(system: str, temperatures: str, reopen_by: str) -> dict[str, Any]:
    work: dict[str, Any] = {
        "start": "2027-03-12T12:30",
        "zone": "America/Chicago",
        "temperatures": TEMPERATURES[temperatures],
        "reopen_by": reopen_by,
        "traffic": "foot",
    }
    return {"system": system, "rooms": ROOMS, "work": {key: value for key, value in work.items() if value is not None}}


def posted(client: FlaskClient, document: dict[str, Any], units: str = "us") -> dict[str, Any]:
    working = "true" if len(document["rooms"]) <= MOST_EXPLAINED else "false"
    response = client.post(f"/v1/return-times?units={units}&echo=true&working={working}", json=document)
    assert response.status_code == 200, response.data
    found: dict[str, Any] = response.get_json()
    return found


@pytest.mark.parametrize("system", sorted(demo_catalogue().systems))
@pytest.mark.parametrize("temperatures", TEMPERATURES)
def test_a_remedy_put_where_it_points_meets_the_deadline(client: FlaskClient, system: str, temperatures: str) -> None:
    tried = 0
    for reopen_by in ("2027-03-15T18:00", "2027-03-17T06:00", "2027-03-18T20:00"):
        document = job(system, temperatures, reopen_by)
        for units in ("us", "si"):
            deadline = posted(client, document, units)["deadline"]
            for remedy in deadline["remedies"]:
                again = posted(client, with_remedy(document, remedy), units)
                assert again["deadline"]["met"] is True, remedy
                assert remedy["text"]
                tried += 1
    assert tried > 0


@pytest.mark.parametrize("temperatures", TEMPERATURES)
def test_half_a_kelvin_less_than_a_warmer_floor_is_late(client: FlaskClient, temperatures: str) -> None:
    found = (
        (job("level-clear", temperatures, f"2027-03-{day}T{hour}:00"), one)
        for day in range(15, 19)
        for hour in ("06", "14", "22")
        for one in posted(client, job("level-clear", temperatures, f"2027-03-{day}T{hour}:00"), "si")["deadline"][
            "remedies"
        ]
        if one["kind"] == "warmer-floor"
    )
    document, remedy = next(found)
    assert remedy["by"]["unit"] == "delta_degC"

    def colder(value: Any) -> Any:
        if isinstance(value, dict) and value.get("unit") == "degC":
            return {"value": value["value"] - 0.5, "unit": "degC"}
        if isinstance(value, dict):
            return {key: colder(one) for key, one in value.items()}
        return [colder(one) for one in value] if isinstance(value, list) else value

    less = posted(client, put(document, remedy["pointer"], colder(remedy["value"])), "si")
    assert less["deadline"]["met"] is False


def test_the_latest_start_put_as_the_start_meets_and_a_minute_later_does_not(client: FlaskClient) -> None:
    document = job("level-clear", "daily", "2027-03-25T06:00")
    latest = posted(client, document)["deadline"]["latest_start"]
    assert posted(client, put(document, "/work/start", latest))["deadline"]["met"] is True
    hour, minute = int(latest[11:13]), int(latest[14:16]) + 1
    later = f"{latest[:11]}{hour + minute // 60:02d}:{minute % 60:02d}{latest[16:]}"
    assert posted(client, put(document, "/work/start", later))["deadline"]["met"] is False


@pytest.mark.parametrize("path", ["/v1/return-times", "/v1/quotes"])
def test_the_same_job_has_the_same_bytes(client: FlaskClient, path: str) -> None:
    document = job("double-quartz", "daily", "2027-03-18T20:00")
    first, second = (client.post(path, json=document).data for _ in range(2))
    assert first == second


EXTREMES: dict[str, dict[str, Any]] = {
    "a floor that hardly cures": {"temperatures": {"daily": {"low": "33 degF", "high": "56.1 degF"}}},
    "a floor that freezes": {"temperatures": {"steady": "-40 degF"}},
    "a floor that is hot": {"temperatures": {"steady": "80 degC"}},
    "a floor from cold to hot": {"temperatures": {"daily": {"low": "-40 degC", "high": "80 degC"}}},
    "a crew that hardly moves": {
        "crew": {
            "minutes_per_mix": 120,
            "placing_rate": "0.1 m2/h",
            "coating_rate": "0.1 m2/h",
            "clearing_rate": "0.1 m2/h",
        }
    },
    "a minute a week": {"shifts": [{"days": ["wed"], "from": "02:30", "to": "02:31"}]},
    "all hours as shifts": {
        "shifts": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "00:00", "to": "24:00"}],
        "closed": ["2027-03-14"],
    },
    "round the clock, a day closed": {"round_the_clock": True, "closed": ["2027-03-13"]},
    "a year of preparation": {"preparation": "2000 h"},
    "the first of all years": {"start": "2000-01-01T00:00", "reopen_by": "2000-01-01T00:00"},
    "the last of all years": {"start": "2199-12-31T23:59", "reopen_by": "2199-12-31T23:59"},
    "a deadline in another century": {"reopen_by": "2199-01-01T00:00"},
    "a start in another century": {"start": "2190-01-01T00:00"},
}


@pytest.mark.parametrize("name", EXTREMES)
@pytest.mark.parametrize("rooms", ["a room", "an airport"])
def test_extremes_are_answered(client: FlaskClient, name: str, rooms: str) -> None:
    document = job("level-clear", "steady", "2027-04-01T06:00")
    document["work"] |= EXTREMES[name]
    if rooms == "an airport":
        document["rooms"] = [measured("99 m2")] * 2000
    answer = posted(client, document)
    assert json.dumps(answer)
    assert len(answer["open_hours"]) <= 400
    for one in answer["returns"]:
        assert (one["latest"] is None) == (one["after"] is None)


def test_three_thousand_readings_are_answered(client: FlaskClient) -> None:
    readings = [
        {
            "at": f"2027-03-{12 + index // 1440:02d}T{index // 60 % 24:02d}:{index % 60:02d}:00Z",
            "temperature": f"{60 + index % 7} degF",
        }
        for index in range(3000)
    ]
    document = job("level-clear", "steady", "2027-03-17T06:00")
    document["work"]["temperatures"] = {"readings": readings}
    assert posted(client, document)["returns"]


def test_the_latest_return_is_the_last_of_all_runs(client: FlaskClient) -> None:
    """Between odd shifts the run with the shortest cures abrades a primer, and ends after the others."""
    job = {
        "system": "trowelled-mortar",
        "thickness": "15/32 in",
        "rooms": [
            {"shape": {"circle": {"diameter": "28 m"}}, "joints": [{"line": [["5 m", "6 m"], ["23 m", "6 m"]]}]},
            {"shape": {"rectangle": {"length": "2 m", "width": "2 m"}}},
        ],
        "work": {
            "start": "2030-10-22T23:15",
            "shifts": [
                {"from": "03:30", "to": "22:45", "days": ["sat", "mon", "tue"]},
                {"from": "08:45", "to": "20:15", "days": ["mon", "thu", "fri", "sat"]},
                {"from": "15:15", "to": "23:15", "days": ["wed", "mon", "sun", "sat"]},
            ],
            "temperatures": {"daily": {"low": "73 degF", "high": "80 degF", "coldest_at": "23:30"}},
        },
    }
    answer = client.post("/v1/return-times?working=true", json=job).get_json()
    for back in answer["returns"]:
        assert back["earliest"] <= back["likely"] <= back["latest"]
    worked = {one["figure"]: one["result"] for one in answer["working"]}
    for index, back in enumerate(answer["returns"]):
        assert worked[f"/returns/{index}/latest"] == back["latest"]


def test_the_open_hours_reach_to_the_last_step_of_any_run(client: FlaskClient) -> None:
    """As the floor cools, the latest run comes too late for the primer; the likely one still lays it."""
    job = {
        "system": "double-quartz",
        "rooms": [
            {
                "shape": {"polygon": {"points": [[614, 0], [0, 1226], [-478, 0]], "unit": "cm"}},
                "spalls": [{"depth": "1 in", "area": "4.25 ft2"}],
            }
        ],
        "work": {
            "start": "2026-06-09T21:00",
            "zone": "Europe/Berlin",
            "preparation": "10 h",
            "shifts": [
                {"from": "02:00", "to": "13:00", "days": ["wed"]},
                {"from": "08:45", "to": "11:15", "days": ["thu"]},
                {"from": "15:00", "to": "16:00", "days": ["thu"]},
            ],
            "temperatures": {
                "readings": [
                    {"at": "2026-06-09T17:00Z", "temperature": "63 degF"},
                    {"at": "2026-06-11T09:00Z", "temperature": "52 degF"},
                ]
            },
        },
    }
    answer = client.post("/v1/return-times", json=job).get_json()
    begun = [step["from"] for step in answer["steps"] if step["from"]]
    assert len(begun) == 3
    assert begun[-1] < answer["open_hours"][-1]["until"]
