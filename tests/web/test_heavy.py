"""No request costs more than 250 least quotes of processor time, whatever it holds; and a search that ends says so."""

from __future__ import annotations

import json
import random
import re
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import example
from tests.weighing import MOST_ANSWER_BYTES, MOST_LEAST_QUOTES, Asked, weigh

from gaugerake.answers.return_times.answer import MOST_PARTS
from gaugerake.answers.return_times.explain_steps import MOST_PARTS_EXPLAINED

DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WORK: dict[str, Any] = {
    "zone": "America/Chicago",
    "start": "2027-01-05T06:00",
    "crew": {"mixing_stations": 2, "placing_rate": "400 ft2/h"},
}
_FIVE = (("00:00", "04:47"), ("04:48", "09:35"), ("09:36", "14:23"), ("14:24", "19:11"), ("19:12", "23:59"))
FIVE_A_DAY = [{"days": DAYS, "from": begin, "to": end} for begin, end in _FIVE]
A_DAY_A_WEEK = [{"days": ["mon"], "from": "06:00", "to": "14:00"}]


def rooms(count: int, length_ft: tuple[int, int] = (9, 15), width: str = "9 ft") -> list[dict[str, Any]]:
    """Rooms of which no two are alike."""
    draw = random.Random(count)
    shortest, longest = (100 * length for length in length_ft)
    sides = ({"length": f"{draw.randint(shortest, longest) / 100} ft", "width": width} for _ in range(count))
    return [{"name": f"Room {index}", "shape": {"rectangle": side}} for index, side in enumerate(sides)]


def eight_a_day(minutes: int) -> list[dict[str, Any]]:
    """The most shifts that there may be, each so long."""
    return [{"days": DAYS, "from": f"{hour:02d}:00", "to": f"{hour:02d}:{minutes:02d}"} for hour in range(0, 24, 3)]


def log(count: int, low_degf: float, high_degf: float, *, minutes: int = 60) -> dict[str, Any]:
    """Readings without rhyme or reason, so many minutes apart."""
    draw, begun = random.Random(count), datetime(2027, 1, 1, tzinfo=UTC)
    return {
        "readings": [
            {
                "at": (begun + timedelta(minutes=minutes * place)).isoformat(timespec="minutes"),
                "temperature": f"{draw.uniform(low_degf, high_degf):.1f} degF",
            }
            for place in range(count)
        ]
    }


def job(count: int, system: str = "double-quartz", **work: Any) -> dict[str, Any]:
    return {"system": system, "rooms": rooms(count), "work": WORK | work}


FROM_COLD_TO_WARM = {"daily": {"low": "50 degF", "high": "70 degF"}}
NIGHTS_OF_FROST = {"daily": {"low": "30 degF", "high": "75 degF"}}
DEADLINES: dict[str, dict[str, Any]] = {
    "every set of further days is tried with 1,999 rooms": job(
        1999, shifts=A_DAY_A_WEEK, temperatures=FROM_COLD_TO_WARM, reopen_by="2027-12-20T05:00"
    ),
    "every hour of two months may freeze 1,999 rooms": job(
        1999, "level-clear", shifts=eight_a_day(45), temperatures=NIGHTS_OF_FROST, reopen_by="2027-12-20T05:00"
    ),
    "every hour of two months may freeze one, by a log": job(
        1, "level-clear", shifts=eight_a_day(45), temperatures=log(1500, 20, 95), reopen_by="2027-01-12T05:00"
    ),
    "every remedy of a floor that 3,000 readings say is cold": example("full")
    | {
        "work": example("full")["work"]
        | {
            "start": "2027-10-11T16:00",
            "reopen_by": "2027-11-05T16:00",
            "preparation": "50 h",
            "shifts": [{"days": DAYS, "from": "00:00", "to": "00:05"}],
            "temperatures": log(3000, 30, 40, minutes=1),
        },
        "slab": {},
    },
}


@pytest.mark.parametrize("name", DEADLINES)
def test_a_deadline_costs_no_more_than_a_request_may(client: FlaskClient, name: str) -> None:
    weighed = weigh(client, Asked("/v1/return-times", json.dumps(DEADLINES[name]).encode()))
    assert weighed.status == 200
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


POURS: dict[str, dict[str, Any]] = {
    "1,999 rooms on a day that warms": {
        "system": "double-quartz",
        "rooms": rooms(1999, (10, 11)),
        "work": WORK
        | {
            "start": "2027-06-05T06:00",
            "temperatures": {"daily": {"low": "62 degF", "high": "88 degF"}},
            "material_temperature": "70 degF",
            "crew": {"lane_depth": "20 ft"},
        },
    },
    "500 hot, slow rooms": {
        "system": "double-quartz",
        "rooms": rooms(500, (20, 22), "15 ft"),
        "work": WORK
        | {
            "start": "2027-06-05T06:00",
            "temperatures": {"daily": {"low": "62 degF", "high": "88 degF"}},
            "material_temperature": "85 degF",
            "crew": {"lane_depth": "20 ft"},
        },
    },
    "1,999 rooms that are in time by far, in shifts of hours too hot to pour": {
        "system": "double-quartz",
        "rooms": rooms(1999, (10, 11)),
        "work": WORK
        | {
            "start": "2027-07-01T01:00",
            "shifts": FIVE_A_DAY,
            "temperatures": {"daily": {"low": "62 degF", "high": "107 degF"}},
            "material_temperature": "70 degF",
            "crew": {"mixing_stations": 1, "lane_depth": "0.1 m", "minutes_per_mix": 3, "coating_rate": "150 m2/h"},
            "reopen_by": "2028-05-29T09:00",
        },
    },
}


@pytest.mark.parametrize("name", POURS)
@pytest.mark.parametrize("path", ["/v1/pour-plan", "/v1/quotes"])
def test_a_pour_costs_no_more_than_a_request_may(client: FlaskClient, path: str, name: str) -> None:
    weighed = weigh(client, Asked(path, json.dumps(POURS[name]).encode()))
    assert weighed.status == 200
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


def test_marks_of_the_most_rooms_cost_no_more_than_a_request_may(client: FlaskClient) -> None:
    most = POURS["1,999 rooms on a day that warms"]
    document = most | {"rooms": [room | {"pour": {"from": "left"}} for room in most["rooms"]]}
    weighed = weigh(client, Asked("/v1/pour-plan", json.dumps(document).encode()))
    assert weighed.status == 200
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


def bays(count: int) -> list[dict[str, Any]]:
    """Rooms of as many corners as there may be, no two of them as far from the side that the pour begins at."""
    draw = random.Random(count)
    eaves = [[98 - index, 20 + draw.randint(0, 9999) / 1000] for index in range(99)]
    return [{"shape": {"polygon": {"points": [[98, 0], *eaves[1:], [0, 0]], "unit": "ft"}}} for _ in range(count)]


PROGRESS: dict[str, list[dict[str, Any]]] = {
    "1,999 rooms": rooms(1999),
    "100 rooms of 100 corners": bays(100),
}


@pytest.mark.parametrize("name", PROGRESS)
def test_progress_costs_no_more_than_a_request_may(client: FlaskClient, name: str) -> None:
    said = [room | {"pour": {"from": "bottom"}} for room in PROGRESS[name]]
    document = {
        "job": {"system": "level-clear", "rooms": said, "work": WORK},
        "progress": {"mixes": 9, "placed": {"area": "300 ft2"}},
    }
    weighed = weigh(client, Asked("/v1/pour-progress", json.dumps(document).encode()))
    assert weighed.status == 200
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


COMPARED: dict[str, tuple[dict[str, Any], list[dict[str, Any]]]] = {
    "a long log and a deadline, 24 starts": (
        job(1, "level-clear", shifts=eight_a_day(45), temperatures=log(1500, 20, 95), reopen_by="2027-03-12T05:00"),
        [{"work": {"start": f"2027-01-{day:02d}T06:00"}} for day in range(5, 29)],
    ),
    "as many rooms as are compared, 24 thicknesses": (
        job(124, "level-clear", temperatures=NIGHTS_OF_FROST, reopen_by="2027-12-20T05:00"),
        [{"thickness": f"{0.1875 + index * 0.005:.4f} in"} for index in range(24)],
    ),
}


@pytest.mark.parametrize("name", COMPARED)
def test_a_comparison_costs_no_more_than_a_request_may(client: FlaskClient, name: str) -> None:
    compared, changes = COMPARED[name]
    choices = [{"name": str(index), "change": change} for index, change in enumerate(changes)]
    weighed = weigh(client, Asked("/v1/comparisons", json.dumps({"job": compared, "choices": choices}).encode()))
    assert weighed.status == 200
    assert "problem" not in json.loads(weighed.body)["choices"][0]
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


def air_log(count: int, minutes: int) -> dict[str, Any]:
    """Readings of the air without rhyme or reason, at instants of UTC."""
    draw, begun = random.Random(count), datetime(2027, 3, 1, tzinfo=UTC)
    return {
        "readings": [
            {
                "at": (begun + timedelta(minutes=minutes * index)).isoformat(timespec="minutes"),
                "temperature": f"{draw.uniform(50, 75):.1f} degF",
                "humidity_percent": draw.randint(30, 90),
            }
            for index in range(count)
        ]
    }


QUICK_CREW: dict[str, Any] = {"mixing_stations": 4, "placing_rate": "1500 ft2/h"}
SEARCHED: dict[str, dict[str, Any]] = {
    "1,999 rooms that may freeze": job(
        1999, "level-clear", shifts=eight_a_day(45), temperatures=NIGHTS_OF_FROST, reopen_by="2027-12-20T05:00"
    ),
    "124 rooms round the clock": job(
        124, "level-clear", round_the_clock=True, temperatures=FROM_COLD_TO_WARM, reopen_by="2027-12-20T05:00"
    ),
    "long logs of the floor and the air": job(
        1, "level-clear", shifts=eight_a_day(45), temperatures=log(1500, 20, 95), reopen_by="2027-03-20T05:00"
    )
    | {"air": air_log(1300, 15)},
    "a floor as the air is, round the clock": {
        "system": "double-quartz",
        "rooms": rooms(1),
        "air": air_log(1300, 15),
        "work": {"zone": "America/Chicago", "round_the_clock": True, "crew": QUICK_CREW},
    },
    "a wave round the clock under a long log of the air, and nothing mends it": job(
        1,
        round_the_clock=True,
        crew=QUICK_CREW,
        temperatures=FROM_COLD_TO_WARM,
        reopen_by="2027-03-10T05:00",
    )
    | {"air": air_log(2900, 10)},
    "short shifts under a long log of the air": job(
        1, "level-clear", shifts=eight_a_day(45), crew=QUICK_CREW, temperatures={"steady": "52 degF"}
    )
    | {"air": air_log(2900, 10)},
    "none ok, and nothing mends it": job(
        20, round_the_clock=True, temperatures={"steady": "60 degF"}, reopen_by="2027-03-16T05:00"
    )
    | {"air": {"temperature": "62 degF", "humidity_percent": 99}},
}


@pytest.mark.parametrize("name", SEARCHED)
def test_a_search_of_the_most_starts_costs_no_more_than_a_request_may(client: FlaskClient, name: str) -> None:
    said = {"from": "2027-03-01T00:00", "until": "2027-03-14T23:45"}
    weighed = weigh(client, Asked("/v1/start-search", json.dumps({"job": SEARCHED[name], "search": said}).encode()))
    assert weighed.status == 200, weighed.body[:500]
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


def test_a_search_that_ends_early_says_after_which_start(client: FlaskClient) -> None:
    document = {
        "job": SEARCHED["124 rooms round the clock"],
        "search": {"from": "2027-03-01T00:00", "until": "2027-03-14T23:45"},
    }
    answer = client.post("/v1/start-search", json=document).get_json()
    told = {one["code"]: one["text"] for one in answer["cautions"]}["start-search-ended"]
    last = answer["starts"][-1]["start"]
    assert last[:16].replace("T", " ") in told
    assert f"{1340 - len(answer['starts'])} starts" in told  # an hour of the last night is skipped


def test_a_year_of_short_shifts_with_working_costs_no_more_than_a_request_may(client: FlaskClient) -> None:
    document = {
        "system": "double-quartz",
        "rooms": [{"name": "a", "shape": {"measured": {"area": "30 m2"}}}] * 100,
        "work": {
            "start": "2027-03-05T06:00",
            "shifts": eight_a_day(20),
            "temperatures": {"daily": {"low": "40 degF", "high": "60 degF"}},
            "reopen_by": "2027-09-16T05:00",
        },
    }
    weighed = weigh(client, Asked("/v1/quotes?echo=true&working=true", json.dumps(document).encode()))
    assert weighed.status == 200
    assert weighed.least_quotes <= MOST_LEAST_QUOTES
    assert len(weighed.body) <= MOST_ANSWER_BYTES


def test_no_more_parts_are_listed_or_told_than_the_description_says(client: FlaskClient) -> None:
    work = WORK | {"shifts": eight_a_day(1), "temperatures": {"steady": "66 degF"}}
    document = {"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "900 m2"}}}], "work": work}
    answer = client.post("/v1/return-times?working=true", json=document).get_json()
    assert max(len(step["parts"]) for step in answer["steps"]) == MOST_PARTS
    told = [one["figure"] for one in answer["working"] if re.fullmatch(r"/steps/0/parts/\d+/from", one["figure"])]
    assert len(told) == MOST_PARTS_EXPLAINED


def cautions(client: FlaskClient, path: str, document: Any) -> dict[str, str]:
    answer = client.post(path, json=document).get_json()
    return {one["code"]: one["text"] for one in answer["cautions"]}


def test_a_search_for_remedies_that_ends_early_says_so_and_gives_no_half_searched_one(client: FlaskClient) -> None:
    found = cautions(client, "/v1/return-times", DEADLINES["every set of further days is tried with 1,999 rooms"])
    assert "ended early" in found["remedy-search-ended"]
    assert "no-remedy-in-time" not in found


def test_a_search_for_the_latest_start_that_ends_early_says_so(client: FlaskClient) -> None:
    document = DEADLINES["every hour of two months may freeze 1,999 rooms"]
    assert "ended early" in cautions(client, "/v1/return-times", document)["latest-start-search-ended"]


def test_a_search_for_what_frees_a_pour_that_ends_early_says_so(client: FlaskClient) -> None:
    found = cautions(client, "/v1/pour-plan", POURS["1,999 rooms on a day that warms"])
    assert "ended early" in found["pour-remedy-search-ended"]


def test_a_job_of_a_hundred_rooms_is_searched_to_the_end(client: FlaskClient) -> None:
    document = job(100, shifts=A_DAY_A_WEEK, temperatures=FROM_COLD_TO_WARM, reopen_by="2027-03-20T05:00")
    assert not {"remedy-search-ended", "latest-start-search-ended"} & set(
        cautions(client, "/v1/return-times", document)
    )
