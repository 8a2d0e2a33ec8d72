"""Over the wire: a remedy put into the job makes the pour hold, and one step less of any of its changes does not.

What a step less is stands here in terms of the job alone: a station, 50 ft²/h of placing or an hour fewer, a lane half
a foot wider, floor or material a degree Fahrenheit warmer. Nothing of the service is asked what a step is.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

import pytest
import requests
from tests.builders import rectangle
from tests.changes import kind_of, parts, put, with_remedy

Job = dict[str, Any]
STEP = {"ft2/h": 50.0, "m2/h": 50 * 0.3048**2, "ft": 0.5, "m": 0.1524, "degF": 1.0, "degC": 5 / 9}
# casting is quick enough never to matter: it has cases of its own
CREW = {
    "mixing_stations": 2,
    "minutes_per_mix": 4,
    "placing_rate": "1000 ft2/h",
    "cast_rate": "9000 lb/h",
    "saw_rate": "9000 ft/h",
    "lane_depth": "3 ft",
}
WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def job(*, floor: Any = "68 degF", material: str = "68 degF", start: str = "06:00", **crew: Any) -> Job:
    """A hall of 60 by 40 ft in a summer week."""
    return {
        "system": "level-clear",
        "rooms": [rectangle("60 ft", "40 ft", name="Hall", joints=[])],
        "work": {
            "start": f"2027-07-05T{start}",
            "zone": "America/Chicago",
            "temperatures": {"steady": floor} if isinstance(floor, str) else floor,
            "material_temperature": material,
            "preparation": "0 h",
            "shifts": [{"days": WEEK, "from": "06:00", "to": "16:00"}],
            "crew": CREW | crew,
        },
    }


HOT_DAY = {"daily": {"low": "60 degF", "high": "85 degF", "coldest_at": "05:00"}}
BOTH_COOLER = ("cooler-floor", "cooler-material")
CASES: dict[str, tuple[Job, set[Any]]] = {
    "one station": (job(mixing_stations=1, minutes_per_mix=5), {"mixing-stations", "narrower-pour"}),
    "few hands": (job(placing_rate="500 ft2/h"), {"placing", "narrower-pour"}),
    "one station and few hands": (
        job(mixing_stations=1, minutes_per_mix=5, placing_rate="450 ft2/h"),
        {"stations-and-placing", "narrower-pour"},
    ),
    "hot material": (job(material="86 degF"), {"stations-and-placing", "narrower-pour", "cooler-material"}),
    "a hot floor": (job(floor="84 degF"), {"stations-and-placing", "narrower-pour", "cooler-floor"}),
    "a hot day": (
        job(floor=HOT_DAY, start="11:00"),
        {"stations-and-placing", "narrower-pour", "later-start", "earlier-start"},
    ),
    "floor and material hot": (
        job(floor="84 degF", material="86 degF"),
        {"stations-and-placing", "narrower-pour", BOTH_COOLER},
    ),
    "a hot day and hot material": (
        job(floor=HOT_DAY, start="11:00", material="85 degF"),
        {
            "stations-and-placing",
            "narrower-pour",
            ("later-start", "cooler-material"),
            ("earlier-start", "cooler-material"),
        },
    ),
}


def answer(http: requests.Session, document: Job, units: str = "us") -> Any:
    response = http.post(f"{http.base}/v1/pour-plan?units={units}", json=document, timeout=30)  # type: ignore[attr-defined]
    assert response.status_code == 200, response.text
    return response.json()


def by_a_step(value: Any, direction: int) -> Any:
    return value | {"value": value["value"] + direction * STEP[value["unit"]]}


def hours_on(instant: str, hours: int) -> str:
    return (datetime.fromisoformat(instant) + timedelta(hours=hours)).isoformat()


def steps_less(kind: str, value: Any) -> Iterator[Any]:
    """What stands one step before a value, in every way that there is."""
    match kind:
        case "mixing-stations":
            yield value - 1
        case "placing":
            yield by_a_step(value, -1)
        case "stations-and-placing":
            yield value | {"mixing_stations": value["mixing_stations"] - 1}
            yield value | {"placing_rate": by_a_step(value["placing_rate"], -1)}
        case "narrower-pour" | "cooler-material":
            yield by_a_step(value, 1)
        case "cooler-floor":
            yield {"steady": by_a_step(value["steady"], 1)}
        case "later-start":
            yield hours_on(value, -1)
        case "earlier-start":
            yield hours_on(value, 1)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", CASES)
def test_a_remedy_frees_the_pour_and_a_step_less_does_not(http: requests.Session, name: str, units: str) -> None:
    document, kinds = CASES[name]
    found = answer(http, document, units)
    assert found["feasible"] is False
    together = [tuple(map(kind_of, parts(remedy))) for remedy in found["remedies"]]
    assert {each[0] if len(each) == 1 else each for each in together} == kinds
    for remedy in found["remedies"]:
        whole = answer(http, with_remedy(document, remedy), units)
        assert (whole["feasible"], whole["bottleneck"], whole["remedies"]) == (True, None, [])
        for part in parts(remedy):
            tried = 0
            for less in steps_less(kind_of(part), part["value"]):
                again = put(with_remedy(document, remedy), part["pointer"], less)
                assert answer(http, again, units)["feasible"] is False, (kind_of(part), less)
                tried += 1
            assert tried > 0, kind_of(part)


def test_every_kind_of_remedy_is_tried() -> None:
    kinds = set.union(*(kinds for _, kinds in CASES.values()))
    assert {kind for kind in kinds if isinstance(kind, str)} == {
        "mixing-stations",
        "placing",
        "stations-and-placing",
        "narrower-pour",
        "cooler-material",
        "cooler-floor",
        "later-start",
        "earlier-start",
    }
    assert len([kind for kind in kinds if isinstance(kind, tuple)]) == 3


def test_what_goes_together_is_said_with_every_figure(http: requests.Session) -> None:
    document, _ = CASES["floor and material hot"]
    [remedy] = [one for one in answer(http, document)["remedies"] if one["kind"] == "combined"]
    floor, material = (part["value"] for part in parts(remedy))
    assert remedy["text"] == (
        "All of these together, as none is enough alone: "
        f"Pour when the floor is no warmer than {floor['steady']['value']:g} °F instead of 84 °F. "
        f"Keep the material at {material['value']:g} °F instead of 86 °F before mixing."
    )


def test_where_nothing_helps_the_answer_says_so_and_why(http: requests.Session) -> None:
    """A lane 30 m deep across 40 ft takes 130 mixes: at 2 h a mix no crew, lane or cold makes that hold."""
    found = answer(http, job(minutes_per_mix=120, lane_depth="30 m"))
    assert (found["feasible"], found["bottleneck"], found["remedies"]) == (False, "open-time", [])
    said = {note["code"]: note["text"] for note in found["cautions"]}
    assert "Even with 50 stations, a crew that places 20,000 sq ft/h" in said["pour-beyond-remedy"]


def test_a_floor_too_cold_to_be_poured_on_is_never_and_says_why(http: requests.Session) -> None:
    """Under 48 °F the body is not placed: its floor is never within limits."""
    found = answer(http, job(floor="44 degF"))
    assert (found["feasible"], found["bottleneck"], found["remedies"], found["pours"]) == (False, None, [], [])
    said = {note["code"]: note["text"] for note in found["cautions"]}
    assert "pour-never" in said
    assert "48 °F to 86 °F" in said["never-within-limits"]
