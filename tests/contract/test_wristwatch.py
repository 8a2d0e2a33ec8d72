"""A pour of sixty mixes that a foreman can follow with a wristwatch, over the wire; every time of it by hand.

At 68 °F the tables of the catalogue hold as they stand: mixed 3 min, poured within 1.5, open 15, rolled within 4, sand
6 to 9 min after placing. A quarter inch of a 0.55 ft³ mix covers 26.4 ft², which 792 ft²/h place in 2 min; two
stations of 5 min give a mix every 2½ min.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest
import requests

Job = dict[str, Any]
FIRST = datetime.fromisoformat("2027-03-05T06:00:00-06:00")
CADENCE = 2.5
AFTER = {  # minutes after mixing begins
    "mix_at": 0.0,
    "pour_by": 3 + 1.5,
    "placed": 3 + 1.5 + 2,
    "roll_by": 3 + 1.5 + 2 + 4,
    "wet_until": 3 + 15.0,
    "broadcast_from": 3 + 1.5 + 2 + 6,
    "broadcast_by": 3 + 1.5 + 2 + 9,
}
ROOMS = {"Proofing": (30, 32), "Oven hall": (16.5, 32)}


def job(*, until: str = "14:00", days: tuple[str, ...] = ("fri", "sat"), **work: Any) -> Job:
    rooms = [
        {
            "name": name,
            "shape": {"rectangle": {"length": f"{length} ft", "width": f"{width} ft"}},
            "joints": [],
            "profile_csp": 4,
        }
        for name, (length, width) in ROOMS.items()
    ]
    said = {
        "start": "2027-03-05T05:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "68 degF"},
        "shifts": [
            {"days": [days[0]], "from": "05:00", "to": "05:03"},  # to saw in
            {"days": list(days), "from": "06:00", "to": until},
        ],
        "crew": {"mixing_stations": 2, "minutes_per_mix": 5, "placing_rate": "792 ft2/h"},
        "preparation": "0 h",
    } | work
    # the keyway is sawn in 3 min, and casting never sets the pace
    keyway = sum(2 * (length + width - 4 * 5 / 12) for length, width in ROOMS.values())
    said["crew"] = {"saw_rate": f"{keyway * 20:.9g} ft/h", "cast_rate": "90000 lb/h"} | said["crew"]
    return {
        "system": "level-clear",
        "thickness": "1/4 in",
        "rooms": rooms,
        "work": said,
        "order": {"waste_percent": 0},
    }


def need(name: str) -> float:
    """Mixes: the floor, 13 mil of profile at CSP 4, a keyway 5 in inside the walls 1¾ times as deep and wide."""
    length, width = ROOMS[name]
    keyway = 2 * (length + width - 4 * 5 / 12) * (1.75 * 0.25 / 12) ** 2
    return float((length * width * (0.25 / 12 + 0.013 / 12) + keyway) / 0.55)


def planned(http: requests.Session, document: Job, path: str = "pour-plan") -> Any:
    response = http.post(f"{http.base}/v1/{path}", json=document, timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200, response.text
    return response.json()


def told(answer: Any, code: str) -> Any:
    [note] = [note for note in answer["cautions"] if note["code"] == code]
    return note


def test_sixty_mixes_run_by_the_clock(http: requests.Session) -> None:
    assert 59 < need("Proofing") + need("Oven hall") <= 60
    found = planned(http, job())
    assert (found["feasible"], found["cadence"]) == (True, {"value": CADENCE, "unit": "min"})
    assert [mix["number"] for mix in found["mixes"]] == list(range(1, 61))
    for index, mix in enumerate(found["mixes"]):
        for column, after in AFTER.items():
            minutes = index * CADENCE + after
            assert mix["minutes"][column] == pytest.approx(minutes, abs=1e-3), (mix["number"], column)
            assert datetime.fromisoformat(mix[column]) == FIRST + timedelta(minutes=minutes), (mix["number"], column)


def test_the_mix_at_the_boundary_is_shared_and_each_room_has_its_mixes(http: requests.Session) -> None:
    """38.6 mixes for the first room: the 39th runs on into the second."""
    found = planned(http, job())
    boundary = 39
    assert boundary - 1 < need("Proofing") < boundary
    assert [(pour["room"], pour["first_mix"], pour["last_mix"], pour["stops_at"]) for pour in found["pours"]] == [
        ("Proofing", 1, boundary, None),
        ("Oven hall", boundary, 60, "end"),
    ]
    rooms = [(mix["room"], mix["runs_on_to"]) for mix in found["mixes"]]
    assert rooms[: boundary - 1] == [("Proofing", None)] * (boundary - 1)
    assert rooms[boundary - 1] == ("Proofing", "Oven hall")
    assert rooms[boundary:] == [("Oven hall", None)] * (60 - boundary)
    first, second = found["pours"]
    assert datetime.fromisoformat(first["until"]) == FIRST + timedelta(minutes=39 * CADENCE)
    assert datetime.fromisoformat(second["from"]) == FIRST + timedelta(minutes=38 * CADENCE)


def in_order(mixes: Any) -> bool:
    """Each column goes forward from mix to mix, and each mix from mixing to sand."""
    for before, after in pairwise(mixes):
        assert all(before[column] < after[column] for column in AFTER), (before["number"], after["number"])
        assert all(before["minutes"][column] < after["minutes"][column] for column in AFTER)
    for mix in mixes:
        steps = [mix[column] for column in ("mix_at", "pour_by", "placed", "roll_by")]
        assert steps == sorted(set(steps))
        assert mix["placed"] < mix["broadcast_from"] < mix["broadcast_by"]
        assert mix["placed"] < mix["wet_until"]
    return True


@pytest.mark.parametrize(
    "work",
    [
        {"temperatures": {"daily": {"low": "58 degF", "high": "74 degF"}}},
        {"temperatures": {"daily": {"low": "58 degF", "high": "74 degF"}}, "start": "2027-03-05T11:47"},
        {"start": "2027-03-13T06:00", "until": "07:10", "days": ("sat", "sun", "mon")},  # the clocks go forward
        {"start": "2027-11-06T06:00", "until": "07:10", "days": ("sat", "sun", "mon")},  # and back
        {"until": "05:00", "start": "2027-03-05T23:10", "crew": {"mixing_stations": 1, "minutes_per_mix": 7.3}},
    ],
)
def test_whatever_the_day_the_clock_goes_forward(http: requests.Session, work: Job) -> None:
    document = job(**work)
    for system in ("level-clear", "double-quartz"):
        found = planned(http, document | {"system": system, "thickness": None})
        layers = dict.fromkeys(mix["layer"] for mix in found["mixes"])
        assert len(layers) == (1 if system == "level-clear" else 2)
        for layer in layers:
            own = [mix for mix in found["mixes"] if mix["layer"] == layer]
            assert [mix["number"] for mix in own] == list(range(1, len(own) + 1))
        assert in_order(found["mixes"])


def test_a_room_that_the_shift_no_longer_holds_waits_for_the_next_one(http: requests.Session) -> None:
    """2 h 20 min hold 56 mixes: the second room begins afresh on the next day, and the rest of a mix is lost."""
    found = planned(http, job(until="08:20"))
    assert [(pour["room"], pour["first_mix"], pour["last_mix"], pour["stops_at"]) for pour in found["pours"]] == [
        ("Proofing", 1, 39, "room"),
        ("Oven hall", 40, 61, "end"),
    ]
    assert found["mixes"][39]["mix_at"] == "2027-03-06T06:00:00-06:00"
    assert found["mixes"][39]["minutes"]["mix_at"] == 24 * 60
    assert "That takes 1 mix more" in told(found, "pour-stops-lose-mixes")["text"]


def test_a_room_that_no_shift_holds_stops_at_a_joint_which_is_a_new_termination(http: requests.Session) -> None:
    """1 h 10 min hold 28 mixes of the first room's 38.6, and all of the second room's, which has a day of its own.

    The stop is added to the job, and its keyway is counted.
    """
    document = job(until="07:10")
    found = planned(http, document)
    assert [(pour["room"], pour["first_mix"], pour["last_mix"], pour["stops_at"]) for pour in found["pours"]] == [
        ("Proofing", 1, 28, "joint"),
        ("Proofing", 29, 39, "room"),
        ("Oven hall", 40, 61, "end"),
    ]
    note = told(found, "pour-stops-at-joint")
    assert note["pointer"] == "/rooms/0/terminations"
    assert "Add the stop to the room's terminations, where the floor stops" in note["text"]
    length, width = (planned(http, document, "quantities")["rooms"][0]["keyway_length"]["value"], 32)
    document["rooms"][0]["terminations"] = [{"length": f"{width} ft"}]
    stopped = planned(http, document, "quantities")["rooms"][0]["keyway_length"]["value"]
    assert stopped == pytest.approx(length + width, abs=1e-3)


def test_sand_past_the_shift_is_of_the_shift_in_which_it_is_cast(http: requests.Session) -> None:
    """28 mixes fill the first hours to the minute: their sand falls up to 9 min after the shift, not a night later."""
    times = planned(http, job(until="07:10"), "return-times")
    assert "until 9 min after the shift ends" in told(times, "broadcast-past-shift")["text"]
    cast = next(step for step in times["steps"] if step["layer"] == "broadcast")
    days = [(part["from"][5:16], part["until"][5:16]) for part in cast["parts"]]
    assert days[0] == ("03-05T06:06", "03-05T07:19")
    assert [day[0] for day in days] == ["03-05T06:06", "03-06T06:06", "03-12T06:06"]


@pytest.mark.parametrize("path", ["pour-plan", "return-times", "quotes"])
def test_a_mix_is_not_hurried_below_its_own_mixing_time_without_a_word(http: requests.Session, path: str) -> None:
    """The catalogue has it mixed for 3 min: a station that begins a mix every 2.9 min cannot."""
    crew = {"mixing_stations": 2, "placing_rate": "900 ft2/h"}
    hurried = planned(http, job(crew={**crew, "minutes_per_mix": 2.9}), path)
    note = told(hurried, "mixing-cut-short")
    assert note["pointer"] == "/work/crew/minutes_per_mix"
    assert "mixed for 3 min, and a station has only 2.9 min" in note["text"]
    enough = planned(http, job(crew={**crew, "minutes_per_mix": 3}), path)
    assert "mixing-cut-short" not in {one["code"] for one in enough["cautions"]}
