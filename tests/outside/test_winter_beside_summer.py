"""The same room in a winter (41–58 °F a day) and in a summer (78–97 °F): every hour of difference, by its reason.

The answers are taken apart into pieces: work, waits for a shift, waits for a floor at which the product may be placed,
cures and what traffic waits for at last. Each piece is worked out again here from the catalogue's own text, by the
rules of the design and with other tools: numpy for the curves (ln t straight in 1/T through every row, beyond the ends
with the least-squares slope of the likely column) and for ageing, one second at a time; scipy for the instant at which
the floor comes within limits; zoneinfo for the wall clock. Nothing of the service is asked. Volumes are by hand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from datetime import time as clock_time
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest
import yaml
from scipy.optimize import brentq
from tests.builders import client_of, rectangle

from gaugerake.catalogue.store.demo import demo_snapshot

CATALOGUE = Path(__file__).parents[2] / "api" / "gaugerake" / "catalogue" / "store" / "demo.yaml"
ZONE = ZoneInfo("America/Chicago")
OPENS, CLOSES, COLDEST = clock_time(7), clock_time(15, 30), 5.0
SECONDS = {"h": 3600.0, "min": 60.0}
DAYS_AHEAD = 12

Pieces = dict[tuple[str, str], float]
"""Hours by what is done and what they went to, in the order in which they went by."""


@dataclass(frozen=True)
class Season:
    """A daily wave of the floor's temperature [°F], and when the work may begin."""

    low: float
    high: float
    start: str

    def floor(self, instant: Any) -> Any:
        """The floor's temperature [°F] at POSIX instants [s]."""
        local = datetime.fromtimestamp(float(np.min(instant)), ZONE).utcoffset()
        assert local is not None
        hour = (np.asarray(instant) + local.total_seconds()) % 86400 / 3600
        mean, amplitude = (self.high + self.low) / 2, (self.high - self.low) / 2
        return mean - amplitude * np.cos(2 * np.pi * (hour - COLDEST) / 24)

    @property
    def begins(self) -> float:
        return datetime.fromisoformat(self.start).replace(tzinfo=ZONE).timestamp()


WINTER = Season(41, 58, "2027-02-01T06:00")
SUMMER = Season(78, 97, "2027-08-02T06:00")
SEASONS = {"winter": WINTER, "summer": SUMMER}


def job(season: Season) -> dict[str, Any]:
    return {
        "system": "level-clear",
        "thickness": "1/4 in",
        "rooms": [rectangle("40 ft", "30 ft", name="Bakery", joints=[], profile_csp=4)],
        "work": {
            "start": season.start,
            "zone": "America/Chicago",
            "temperatures": {
                "daily": {"low": f"{season.low} degF", "high": f"{season.high} degF", "coldest_at": "05:00"}
            },
            "shifts": [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "07:00", "to": "15:30"}],
            "preparation": "220 min",
            "crew": {
                "saw_rate": "410 ft/h",
                "mixing_stations": 1,
                "minutes_per_mix": 4,
                "placing_rate": "600 ft2/h",
                "coating_rate": "1000 ft2/h",
                "clearing_rate": "2000 ft2/h",
            },
        },
        "order": {"waste_percent": 0},
    }


# What the service says


@cache
def answer(name: str) -> Any:
    client = client_of(demo_snapshot())
    return client.post("/v1/return-times?working=true", json=job(SEASONS[name])).get_json()


def told(name: str) -> tuple[Pieces, float]:
    """The pieces that the answer tells of, up to the likely return of vehicles, and that return."""
    found: Pieces = {}
    season, found_answer = SEASONS[name], answer(name)
    here = season.begins

    def spend(what: str, cause: str, until: str) -> None:
        nonlocal here
        instant = datetime.fromisoformat(until).timestamp()
        if instant > here:
            found[what, cause] = (instant - here) / 3600
        here = max(here, instant)

    for step in found_answer["steps"]:
        name_of = f"{step['step']} {step['layer'] or 'slab'}"
        if step["layer"] == "broadcast" and step["step"] == "apply":
            spend(name_of, "sand", step["until"])
        else:
            for wait in step["waits_for"]:
                if wait["cause"] in ("shift", "temperature"):
                    spend(name_of, wait["cause"], wait["until"])
            spend(name_of, "work", step["until"])
        if step["cured"] is not None and step["layer"] not in ("body", "coat-2"):
            spend(name_of, "cure", step["cured"])
    vehicle = next(one for one in found_answer["returns"] if one["traffic"] == "vehicle")["likely"]
    spend("vehicle", "cure", vehicle)
    return found, datetime.fromisoformat(vehicle).timestamp()


# The same from the catalogue's text


@cache
def layers() -> dict[str, Any]:
    whole = yaml.safe_load(CATALOGUE.read_text("utf-8"))
    system = next(one for one in whole["systems"] if one["code"] == "level-clear")
    products = {one["code"]: one for one in whole["products"]}
    body, sand = (next(one for one in system["layers"] if one["layer"] == kind) for kind in ("body", "broadcast"))
    first, second = (one for one in system["layers"] if one["layer"] == "coat")
    foot, vehicle = (
        next(one for one in system["returns"] if one["traffic"] == traffic) for traffic in ("foot", "vehicle")
    )
    return {
        "sand wait": body["broadcast_wait"],
        "sand cure": sand["cure"],
        "coat-1 cure": first["cure"],
        "coat-1 closes": first["recoat_closes"],
        "coat-2 cure": second["cure"],
        "foot": foot["after"],
        "vehicle": vehicle["after"],
        "body limits": limits(products["levelling-body"]),
        "coat limits": limits(products["clear-coat"]),
    }


def limits(product: Any) -> tuple[float, float]:
    low, high = (float(product["temperatures"][end].split()[0]) for end in ("low", "high"))
    return low, high


def seconds(said: str) -> float:
    value, unit = said.split()
    return float(value) * SECONDS[unit]


def kelvin(fahrenheit: Any) -> Any:
    return (np.asarray(fahrenheit) + 459.67) / 1.8


def rate(rows: Any, column: str, fahrenheit: Any) -> Any:
    """Age by the second at temperatures [°F], from the rows of a table."""
    inverse = np.array([1 / kelvin(float(row["at"].split()[0])) for row in rows])
    likely = np.log([time_of(row, "likely") for row in rows])
    own = np.log([time_of(row, column) for row in rows])
    slope = np.polyfit(inverse, likely, 1)[0]
    at = 1 / kelvin(fahrenheit)
    between = np.interp(at, inverse[::-1], own[::-1])
    beyond = np.where(at > inverse[0], own[0] + slope * (at - inverse[0]), own[-1] + slope * (at - inverse[-1]))
    return np.exp(-np.where((at > inverse[0]) | (at < inverse[-1]), beyond, between))


def time_of(row: Any, column: str) -> float:
    if column in row:
        return seconds(row[column])
    return float(np.sqrt(seconds(row["low"]) * seconds(row["high"]))) if "low" in row else seconds(row["likely"])


@dataclass(frozen=True)
class Aged:
    """When something is done [s], and for how long its floor was under and over the product's limits."""

    at: float
    under: float
    over: float


def aged(season: Season, rows: Any, column: str, begun: float, between: tuple[float, float]) -> Aged:
    """Ageing one second at a time: not at all under the low limit, as at the high one over it."""
    middles = begun + np.arange(DAYS_AHEAD * 86400) + 0.5
    floor = season.floor(middles)
    steps = np.where(floor < between[0], 0.0, rate(rows, column, np.minimum(floor, between[1])))
    ages = np.cumsum(steps)
    last = int(np.argmax(ages >= 1))
    assert ages[last] >= 1
    over = float(np.sum(floor[:last] > between[1]))
    return Aged(
        at=begun + last + 1 - (ages[last] - 1) / steps[last], under=float(np.sum(floor[:last] < between[0])), over=over
    )


def shifts(ready: float) -> Iterator[tuple[float, float]]:
    """Monday to Friday, on the wall clock."""
    first = datetime.fromtimestamp(ready, ZONE).date()
    for day in (first + timedelta(days=ahead) for ahead in count()):
        if day.weekday() < 5:
            opens, closes = (datetime.combine(day, at, ZONE).timestamp() for at in (OPENS, CLOSES))
            yield max(opens, ready), closes


def fits(ready: float, lasts: float) -> float:
    """When work may begin, whatever the floor's temperature."""
    return next(opens for opens, closes in shifts(ready) if opens + lasts <= closes)


def may_begin(season: Season, ready: float, lasts: float, between: tuple[float, float]) -> float:
    """When it may begin with the floor within limits too."""

    def within(instant: float) -> float:
        """Above zero within limits."""
        floor = float(season.floor(instant))
        return min(floor - between[0], between[1] - floor)

    for opens, closes in shifts(ready):
        latest = closes - lasts
        tries = np.append(np.arange(opens, latest, 60.0), latest) if latest >= opens else []
        for before, after in zip([None, *tries], tries, strict=False):
            if within(after) >= 0:
                return after if before is None else float(brentq(within, before, after, xtol=1e-6))
    raise AssertionError("unreachable")


@cache
def worked_out(season: Season) -> tuple[Pieces, float, dict[str, Aged]]:
    """The likely run: its pieces, the return of vehicles, and its cures."""
    found: Pieces = {}
    cures: dict[str, Aged] = {}
    table, here = layers(), season.begins
    anything = (-100.0, 200.0)

    def spend(what: str, cause: str, until: float) -> None:
        nonlocal here
        if until - here > 1e-3:
            found[what, cause] = (until - here) / 3600
        here = until

    def work(what: str, lasts: float, between: tuple[float, float] = anything) -> tuple[float, float]:
        ready = here
        begins = may_begin(season, ready, lasts, between)
        spend(what, "shift", min(fits(ready, lasts), begins))
        spend(what, "temperature", begins)
        spend(what, "work", begins + lasts)
        return begins, here

    def cure(what: str, rows: str, between: tuple[float, float]) -> None:
        cures[what] = aged(season, table[rows], "likely", here, between)
        spend(what, "cure", cures[what].at)

    area_by_hour = 1200.0 * 3600  # over so many ft² an hour: seconds
    work("prepare slab", 220 * 60.0)
    work("saw slab", KEYWAY / 410 * 3600)
    work("apply body", MIXES * 4 * 60, table["body limits"])
    spend(
        "apply broadcast",
        "sand",
        aged(season, table["sand wait"], "high", here, (anything[0], table["body limits"][1])).at,
    )
    cure("apply broadcast", "sand cure", table["body limits"])
    work("clear broadcast", area_by_hour / 2000)
    began, _ = work("apply coat-1", area_by_hour / 1000, table["coat limits"])
    cure("apply coat-1", "coat-1 cure", table["coat limits"])
    closes = aged(season, table["coat-1 closes"], "low", began, table["coat limits"]).at
    if may_begin(season, here, area_by_hour / 1000, table["coat limits"]) + area_by_hour / 1000 > closes:
        work("abrade coat-1", area_by_hour / 1000)
    work("apply coat-2", area_by_hour / 1000, table["coat limits"])
    cures["vehicle"] = aged(season, table["vehicle"], "likely", here, table["coat limits"])
    back = np.ceil(cures["vehicle"].at / 60 - 1e-6) * 60
    spend("vehicle", "cure", float(back))
    return found, float(back), cures


KEYWAY = 2 * (40 + 30 - 4 * 5 / 12)
"""Feet, 5 in inside the walls; sawn at 410 ft/h in 20 min."""
MIXES = (1200 * (1 / 4) / 12 + 1200 * 0.013 / 12 + KEYWAY * (1.75 * (1 / 4) / 12) ** 2) / 0.55
"""Floor, profile (13 mil at CSP 4) and a keyway 5 in inside the walls [ft³], 0.55 ft³ a mix."""


# Side by side


@pytest.mark.parametrize("name", SEASONS)
def test_every_piece_of_the_answer_is_what_the_catalogues_text_gives(name: str) -> None:
    pieces, back = told(name)
    expected, expected_back, _ = worked_out(SEASONS[name])
    assert list(pieces) == list(expected)
    for key, hours in pieces.items():
        assert hours * 3600 == pytest.approx(expected[key] * 3600, abs=2), key  # instants are told to the second
    assert back == expected_back


@pytest.mark.parametrize("name", SEASONS)
def test_the_pieces_are_all_the_time_there_is(name: str) -> None:
    pieces, back = told(name)
    assert sum(pieces.values()) * 3600 == pytest.approx(back - SEASONS[name].begins, abs=1e-3)


def reasons() -> Pieces:
    """Hours more in winter than in summer, by step and reason; a cure's own by what held it up and by its curve."""
    (winter, _), (summer, _) = told("winter"), told("summer")
    both = {key: winter.get(key, 0.0) - summer.get(key, 0.0) for key in (*winter, *summer)}
    stood = {season: worked_out(SEASONS[season])[2] for season in SEASONS}
    found: Pieces = {}
    for (what, cause), hours in both.items():
        if cause == "cure":
            still = (stood["winter"][what].under - stood["summer"][what].under) / 3600
            found[what, "too cold to cure"], found[what, "curve"] = still, hours - still
        else:
            found[what, cause] = hours
    return found


def test_the_reasons_add_up_to_the_whole_difference_to_the_minute() -> None:
    totals = {name: (told(name)[1] - season.begins) / 60 for name, season in SEASONS.items()}
    whole = totals["winter"] - totals["summer"]
    assert whole == round(whole)  # both starts and both returns are whole minutes
    assert sum(reasons().values()) * 60 == pytest.approx(whole, abs=1e-3)


def test_each_hour_of_difference_has_its_reason() -> None:
    """What must be so, whatever the figures: who waits for what, and why."""
    found = reasons()
    # the work itself is the same; only in summer is a coat abraded, as its window closes in the heat of one day
    assert {key for key, hours in found.items() if key[1] == "work" and abs(hours) > 2 / 3600} == {
        ("abrade coat-1", "work")
    }
    assert found["abrade coat-1", "work"] == pytest.approx(-1.2, abs=1 / 3600)
    # sand may be cast later on a cold floor
    assert found["apply broadcast", "sand"] > 0
    # no cure is faster in the cold, by its curve alone, and only in winter does any stand still
    for what in ("apply broadcast", "apply coat-1", "vehicle"):
        assert found[what, "curve"] > 0
        assert found[what, "too cold to cure"] > 0
    summer = worked_out(SUMMER)[2]
    assert all(cure.under == 0 for cure in summer.values())
    assert all(cure.over > 0 for cure in summer.values())  # and in summer each counts as at the product's high limit
    # in winter coats wait for the day to warm; in summer what no longer fits the cool morning waits for the next one
    winter = told("winter")[0]
    at_noon = [instant for what in ("apply coat-1", "apply coat-2") for instant in begun("winter", what)]
    assert all(11 < instant.hour < 13 for instant in at_noon)
    assert winter["apply coat-1", "temperature"] < 8.5
    for what in ("apply body", "apply coat-2"):
        assert [instant.hour for instant in begun("summer", what)] == [7]
        assert told("summer")[0][what, "temperature"] > 15.5


def begun(name: str, what: str) -> list[datetime]:
    kind, layer = what.split()
    return [
        datetime.fromisoformat(step["from"])
        for step in answer(name)["steps"]
        if (step["step"], step["layer"]) == (kind, layer)
    ]


def entry(name: str, figure: str, input_name: str) -> float:
    """What the working of a figure says of its cure [h]."""
    working = next(one for one in answer(name)["working"] if one["figure"] == figure)
    value: float = next(one for one in working["inputs"] if one["name"] == input_name)["value"]["value"]
    return value


@pytest.mark.parametrize("name", SEASONS)
@pytest.mark.parametrize("step", ["apply coat-1"])
def test_the_working_says_how_long_a_cure_stood_still_or_was_capped(name: str, step: str) -> None:
    steps = [f"{one['step']} {one['layer']}" for one in answer(name)["steps"]]
    figure = f"/steps/{steps.index(step)}/cured"
    cure = worked_out(SEASONS[name])[2][step]
    assert entry(name, figure, "stood_still") * 3600 == pytest.approx(cure.under, abs=3)
    assert entry(name, figure, "capped") * 3600 == pytest.approx(cure.over, abs=3)
