"""Over the wire: a remedy put into the job brings traffic back in time, and one step less of it does not.

What a step less is stands here in terms of the job alone: half a kelvin colder, each shift an hour shorter, a crew, a
day or a station fewer. Nothing of the service is asked what a step is.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from math import ceil
from typing import Any

import pytest
import requests
from tests.builders import rectangle
from tests.changes import put
from tests.outside.test_winter_beside_summer import ZONE, Season, aged, layers

Job = dict[str, Any]
TEMPERATURES: dict[str, Job] = {
    "steady": {"steady": "66 degF"},
    "daily": {"daily": {"low": "58 degF", "high": "69 degF", "coldest_at": "04:30"}},
    "readings": {
        "readings": [
            {"at": "2027-03-12T06:00", "temperature": "61 degF"},
            {"at": "2027-03-13T15:00", "temperature": "68 degF"},
            {"at": "2027-03-15T06:00", "temperature": "63.5 degF"},
        ]
    },
}
QUICK = {"saw_rate": "5000 ft/h", "cast_rate": "90000 lb/h"}
"""Sawing and casting that take next to no time."""
SLOW = {"mixing_stations": 1, "minutes_per_mix": 6}
NIGHTS = [{"days": ["mon", "tue", "wed", "thu"], "from": "20:00", "to": "04:00"}]

FULL = [
    {"days": ["mon", "tue", "wed", "thu", "fri"], "from": "07:00", "to": end}
    for end in ("15:30", "07:05", "07:10", "07:15", "07:20", "07:25", "07:30", "07:35")
]


def job(length: str, temperatures: str, reopen_by: str, **work: Any) -> Job:
    """A dock of that length, begun on a Friday at noon; people must be back on it by then."""
    room = rectangle(length, "30 ft", name="Dock", joints=[])
    said = {
        "start": "2027-03-12T12:30",
        "zone": "America/Chicago",
        "temperatures": TEMPERATURES[temperatures],
        "reopen_by": reopen_by,
        "traffic": "foot",
        "preparation": "0 h",  # what these jobs are about is told from the first layer on
    }
    crew = QUICK | work.pop("crew", {})
    return {"system": "level-clear", "rooms": [room], "work": said | work | {"crew": crew}}


CASES: dict[str, tuple[Job, set[str]]] = {
    "a day short": (job("60 ft", "steady", "2027-03-18T00:00"), {"warmer-floor", "longer-shifts", "extra-days"}),
    "two days short": (job("60 ft", "steady", "2027-03-16T18:00"), {"another-shift", "extra-days"}),
    "three crews": (job("110 ft", "steady", "2027-03-16T18:00"), {"another-shift", "extra-days"}),
    "a slow station": (
        job("110 ft", "steady", "2027-03-19T00:00", crew=SLOW),
        {"warmer-floor", "longer-shifts", "extra-days", "mixing-stations"},
    ),
    "day and night": (job("60 ft", "daily", "2027-03-17T20:00"), {"warmer-floor", "longer-shifts", "extra-days"}),
    "a log": (job("60 ft", "readings", "2027-03-18T00:00"), {"warmer-floor", "longer-shifts", "extra-days"}),
    "at night": (
        job("60 ft", "daily", "2027-03-18T12:00", shifts=NIGHTS),
        {"warmer-floor", "another-shift", "extra-days"},
    ),
    "as many shifts as a day may have": (job("110 ft", "steady", "2027-03-16T18:00", shifts=FULL), {"extra-days"}),
    "every night": (job("60 ft", "daily", "2027-03-16T12:00", shifts=NIGHTS), {"extra-days"}),
}


def answer(http: requests.Session, document: Job, units: str) -> Any:
    response = http.post(f"{http.base}/v1/return-times?units={units}", json=document, timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200, response.text
    return response.json()


def deadline(http: requests.Session, document: Job, units: str) -> Any:
    return answer(http, document, units)["deadline"]


def colder(value: Any) -> Any:
    """Half a kelvin less of every temperature."""
    if isinstance(value, dict) and value.get("unit") in ("degF", "degC"):
        return value | {"value": value["value"] - (0.9 if value["unit"] == "degF" else 0.5)}
    if isinstance(value, dict):
        return {key: colder(one) for key, one in value.items()}
    return [colder(one) for one in value] if isinstance(value, list) else value


def shorter(shift: Job) -> Job:
    """An hour less at its end."""
    hour, rest = shift["to"].split(":", 1)
    return shift | {"to": f"{(int(hour) - 1) % 24:02d}:{rest}"}


def steps_less(kind: str, value: Any) -> Iterator[Any]:
    """What stands one step before a remedy's value, in every way that there is."""
    if kind == "warmer-floor":
        yield colder(value)
    elif kind == "longer-shifts":
        yield [shorter(shift) for shift in value]
    elif kind == "another-shift":
        yield value[:-1]
    elif kind == "mixing-stations":
        yield value - 1
    else:
        assert kind == "extra-days"
        for day in value[-1]["days"]:
            left = [one for one in value[-1]["days"] if one != day]
            yield [*value[:-1], value[-1] | {"days": left}] if left else value[:-1]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", CASES)
def test_a_remedy_meets_the_deadline_and_a_step_less_does_not(http: requests.Session, name: str, units: str) -> None:
    document, kinds = CASES[name]
    found = deadline(http, document, units)
    assert found["met"] is False
    assert {remedy["kind"] for remedy in found["remedies"]} == kinds
    for remedy in found["remedies"]:
        whole = deadline(http, put(document, remedy["pointer"], remedy["value"]), units)
        assert (whole["met"], whole["remedies"]) == (True, []), remedy["kind"]
        for less in steps_less(remedy["kind"], remedy["value"]):
            assert deadline(http, put(document, remedy["pointer"], less), units)["met"] is False, remedy["kind"]


def test_every_kind_of_remedy_is_tried() -> None:
    kinds = set.union(*(kinds for _, kinds in CASES.values()))
    assert kinds == {"warmer-floor", "longer-shifts", "another-shift", "extra-days", "mixing-stations"}


@pytest.mark.parametrize("name", CASES)
def test_the_last_start_meets_the_deadline_and_a_minute_later_does_not(http: requests.Session, name: str) -> None:
    document, _ = CASES[name]
    latest = deadline(http, document, "us")["latest_start"]
    assert deadline(http, put(document, "/work/start", latest), "us")["met"] is True
    minute = f"{int(latest[14:16]) + 1:02d}"
    assert minute != "60"
    later = deadline(http, put(document, "/work/start", f"{latest[:14]}{minute}{latest[16:]}"), "us")
    assert later["met"] is False


def back_by_hand(low: float, high: float) -> datetime:
    """When a dock of 40 ft is open at the latest, on a daily wave [°F], with other tools and the catalogue's own text.

    By the slowest cures the first coat is laid on Tuesday and cures overnight, and the second takes Wednesday from
    07:00 on: 1,200 ft² at 1,000 ft²/h are 72 min, to 08:12. From then on the time of foot traffic runs.
    """
    coated = datetime(2027, 8, 11, 8, 12, tzinfo=ZONE).timestamp()
    wave = Season(low, high, "2027-08-09T06:00")
    open_s = aged(wave, layers()["foot"], "high", coated, layers()["coat limits"]).at
    return datetime.fromtimestamp(ceil(open_s / 60) * 60, ZONE)


@pytest.mark.parametrize(
    ("low", "high", "minutes_late", "in_time", "allowed"),
    [
        (70, 84, 30, 85.8, True),
        (70, 84, 60, 87.6, False),
        (66, 80, 50, 82.7, True),
        (66, 80, 60, 83.6, True),
        (66, 80, 120, 86.3, False),
    ],
)
def test_nobody_is_told_to_warm_a_floor_beyond_what_its_products_allow(
    http: requests.Session, low: int, high: int, minutes_late: int, in_time: float, allowed: bool
) -> None:
    """A dock in August: the catalogue has the body placed at 86 °F and the coats at 88 °F, and no warmer."""
    wave = {"daily": {"low": f"{low} degF", "high": f"{high} degF"}}
    document = put(job("40 ft", "steady", "2027-08-20T00:00", start="2027-08-09T06:00"), "/work/temperatures", wave)
    back = datetime.fromisoformat(answer(http, document, "us")["returns"][0]["latest"])
    assert back == back_by_hand(low, high)
    by = back - timedelta(minutes=minutes_late)
    warmer = in_time - high
    assert back_by_hand(low + warmer, in_time) <= by < back_by_hand(low + warmer - 0.9, in_time - 0.9)

    document["work"]["reopen_by"] = by.isoformat()
    found = deadline(http, document, "us")
    assert found["met"] is False
    told = [remedy["value"]["daily"]["high"]["value"] for remedy in found["remedies"] if "warmer" in remedy["kind"]]
    assert told == ([in_time] if allowed else [])


@pytest.mark.parametrize(
    ("reopen_by", "code"), [("2027-03-13T00:00", "no-remedy-in-time"), ("2027-03-12T08:00", "deadline-before-start")]
)
def test_where_nothing_helps_the_answer_says_so(http: requests.Session, reopen_by: str, code: str) -> None:
    found = answer(http, job("60 ft", "steady", reopen_by), "us")
    assert (found["deadline"]["met"], found["deadline"]["remedies"]) == (False, [])
    assert [note["pointer"] for note in found["cautions"] if note["code"] == code] == ["/work/reopen_by"]
