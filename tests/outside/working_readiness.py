"""The rules of a readiness's working, written from their words: each makes its result again from what went in."""

import math
from collections.abc import Callable, Iterator
from datetime import timedelta
from typing import Any

import numpy as np
from scipy.optimize import brentq
from tests.outside.working_floor import floor_at
from tests.outside.working_values import DAY, FOOT, Given, numbered

# Saturation pressure over ice and water [Pa], Hyland and Wexler (1983), in ASHRAE Handbook, Fundamentals, 2017, ch. 1,
# eq. 5 and 6; its constants from memory, held by CoolProp's dew points in test_air.
ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
THOUSAND_FEET = 1000 * FOOT**2
MINUTE = 60.0


def saturated(kelvin: float) -> float:
    first, second, third, fourth, fifth, sixth, logs = WATER if kelvin > 273.16 else ICE
    series = second + third * kelvin + fourth * kelvin**2 + fifth * kelvin**3 + sixth * kelvin**4
    return math.exp(first / kelvin + series + logs * math.log(kelvin))


def dew_point(given: Given) -> float:
    pressure = given["humidity"] * saturated(given["temperature"])
    return float(brentq(lambda kelvin: saturated(kelvin) - pressure, 200.0, given["temperature"] + 0.01))


def test_count(area: float) -> int:
    return 3 + max(0, math.ceil(area / THOUSAND_FEET * (1 - 1e-6)) - 1)


test_count.__test__ = False  # type: ignore[attr-defined]  # a count of tests is none


def other_suffices(given: Given) -> int:
    needed = test_count(given["area"])
    only = given["readings"] == 0 and given["readings_of_the_other"] > 0
    full = given["given_of_the_other"] >= needed > given["given"]
    return 0 if only or full else needed


def days_to_go(given: Given) -> int:
    return max(0, math.ceil((given["asked"] - given["age"]) / DAY * (1 - 1e-6) - 1e-9))


def share(age: float) -> float:
    """Of the strength at 28 days: ACI 209R, eq. 2-1."""
    return age / DAY / (4 + 0.85 * age / DAY)


def readings(given: Given) -> Iterator[tuple[float, bool]]:
    """Each reading and whether it counts."""
    for name, value in given.items():
        if name.startswith("reading_") and not name.endswith("_counts"):
            yield value, given.get(f"{name}_counts", True)


def wettest(given: Given) -> float:
    found = list(readings(given))
    over = [value for value, _ in found if value > given["limit"] * (1 + 1e-6)]
    return max(over or [value for value, counts in found if counts] or [value for value, _ in found])


def out_of(given: Given, value: float) -> float:
    """How far a figure is out of the limits; six digits of it are none."""
    ends = [(given.get("low"), -1.0), (given.get("high"), 1.0)]
    out = [sign * (value - end) for end, sign in ends if end is not None and abs(value - end) > 1e-5 * abs(end)]
    return max([*out, 0.0])


def first_out(given: Given) -> float:
    values = [value for value, _ in readings(given)]
    return next((value for value in values if out_of(given, value) > 0), values[0])


def damp_span(given: Given) -> tuple[float, float, float]:
    """The first span after an instant in which the floor is under dew point and spread, second by second."""
    begins, least, level = math.nan, math.inf, given["dew_point"] + given["asked"]
    for midnight in np.arange(given["after"], given["work_ends"], DAY):
        instants = np.arange(midnight, min(midnight + DAY, given["work_ends"]) + 1.0)
        floor = floor_at(given, instants)
        damp = floor < level
        if math.isnan(begins) and not damp.any():
            continue
        first = int(damp.argmax()) if math.isnan(begins) else 0
        begins = float(instants[first]) if math.isnan(begins) else begins
        dry = np.flatnonzero(~damp[first:])
        last = first + int(dry[0]) if len(dry) else len(instants) - 1
        least = min(least, float(floor[first : last + 1].min()))
        if len(dry):
            return begins, float(instants[last]), least - given["dew_point"]
    return begins, given["work_ends"], least - given["dew_point"]


def span_from(given: Given) -> float:
    begins = damp_span(given)[0]
    return given["after"] if begins - given["after"] < MINUTE else math.floor((begins - 0.5) / MINUTE) * MINUTE


def span_until(given: Given) -> float:
    return min(math.ceil((damp_span(given)[1] - 0.5) / MINUTE) * MINUTE, given["work_ends"])


def air_at(given: Given, name: str, instants: Any) -> Any:
    """The air's temperature or humidity at instants, straight between its readings and held at both ends."""
    return np.interp(instants, numbered(given, "air_#_at"), numbered(given, f"air_#_{name}"))


def margins(given: Given, instants: Any) -> Any:
    """The floor less the dew point of changing air, minute by minute."""
    temperature, humidity = air_at(given, "temperature", instants), air_at(given, "humidity", instants)
    pairs = zip(temperature, humidity, strict=True)
    dew = [dew_point({"temperature": float(kelvin), "humidity": float(share)}) for kelvin, share in pairs]
    return floor_at(given, instants) - np.array(dew)


def moist_span(given: Given) -> tuple[float, float, float]:
    """The first span after an instant in which the floor is under the dew point of changing air and the spread."""
    instants = np.arange(given["after"], given["work_ends"] + 1.0, MINUTE)
    margin = margins(given, instants)
    damp = margin < given["asked"]
    first = int(damp.argmax())
    dry = np.flatnonzero(~damp[first:])
    last = first + int(dry[0]) if len(dry) else len(instants) - 1
    begins = crossing(given, instants[first - 1], instants[first]) if first else float(instants[0])
    ends = crossing(given, instants[last - 1], instants[last]) if len(dry) else given["work_ends"]
    return begins, ends, float(margin[first : last + 1].min())


def crossing(given: Given, before: float, after: float) -> float:
    return float(brentq(lambda instant: margins(given, np.array([instant]))[0] - given["asked"], before, after))


def moist_from(given: Given) -> float:
    begins = moist_span(given)[0]
    return given["after"] if begins - given["after"] < MINUTE else math.floor((begins - 0.5) / MINUTE) * MINUTE


def moist_until(given: Given) -> float:
    return min(math.ceil((moist_span(given)[1] - 0.5) / MINUTE) * MINUTE, given["work_ends"])


READINESS: dict[str, Callable[[Given], Any]] = {
    "rule-as-stated": lambda given: given["stated"],
    "rule-listed": lambda given: given["listed"],
    "rule-dew-point": dew_point,
    "rule-spread": lambda given: given["floor"] - given["dew_point"],
    "rule-floor-as-air": lambda given: given["stated"],
    "rule-floor-at": lambda given: float(floor_at(given, np.array([given["at"]]))[0]),
    "rule-condensation-from": span_from,
    "rule-condensation-until": span_until,
    "rule-condensation-least-spread": lambda given: damp_span(given)[2],
    "rule-air-temperature-at": lambda given: float(air_at(given, "temperature", np.array([given["at"]]))[0]),
    "rule-air-humidity-at": lambda given: float(air_at(given, "humidity", np.array([given["at"]]))[0]),
    "rule-condensation-from-readings": moist_from,
    "rule-condensation-until-readings": moist_until,
    "rule-condensation-least-spread-readings": lambda given: moist_span(given)[2],
    "rule-ready-from-pour": lambda given: given["poured"] + timedelta(days=math.ceil(given["asked"] / DAY - 1e-6)),
    "rule-ready-from-start": lambda given: given["start"] + timedelta(days=given["days_to_go"]),
    "rule-days-to-go": days_to_go,
    "rule-expected-age": lambda given: given["asked"] if given["age"] < given.get("asked", 0.0) else 28 * DAY,
    "rule-strength-share": lambda given: share(given["later"]),
    "rule-expected-strength": lambda given: given["tested"] * share(given["later"]) / share(given["age"]),
    "rule-test-count": lambda given: test_count(given["area"]),
    "rule-test-count-other": other_suffices,
    "rule-pull-off-count": lambda given: given["needed"],
    "rule-tests-given": lambda given: sum(given.values()),
    "rule-tests-missing": lambda given: max(0, given["needed"] - given["given"]),
    "rule-most-tests": lambda given: max(given.values()),
    "rule-age-from-dates": lambda given: (given["start"] - given["poured"]).days * DAY,
    "rule-dish": lambda given: given["gain"] / given["exposure"] / given["area"],
    "rule-wettest": wettest,
    "rule-shallowest": lambda given: min(value for value, _ in readings(given)),
    "rule-probe-depth": lambda given: given["share"] * given["thickness"],
    "rule-contaminants-counted": len,
    "rule-limit-raised": lambda given: given["raised"],
    "rule-limit-none": lambda _given: 0,
    "rule-joints-counted": lambda given: sum(numbered(given, "room_#")),
    "rule-farthest-out": lambda given: max((value for value, _ in readings(given)), key=lambda one: out_of(given, one)),
    "rule-first-out": first_out,
    "rule-steepest": lambda given: max(value for value, _ in readings(given)),
    "rule-pull-off-mean": lambda given: math.fsum(numbered(given, "test_#")) / given["count"],
}
