"""What can be changed about a pour, step by step, each a little more than the one before it.

The steps are those in which people give such figures: a whole station, 50 ft²/h, half a foot, a whole degree
Fahrenheit, a whole hour.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from gaugerake.answers.pour_plan.change import PourRemedy, PourRemedyKind, Rising, Try, with_crew
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.return_times.change import SteadyValue
from gaugerake.answers.wet_edge.judge import MOST_CAST_RATE_KG_S, MOST_PLACING_RATE_M2_S, MOST_STATIONS
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.job import Steady
from gaugerake.floor.pour.edge import GUARD
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say, Value

PLACING_STEP_M2_S = 50 * 0.3048**2 / 3600
CASTING_STEP_KG_S = 100 * 0.45359237 / 3600
WIDTH_STEP_M = 0.1524
DEGREE_K = 5 / 9
LOWEST_K = 277.6
"""40 °F [K]: the lowest temperature that a remedy asks for where the product states no low limit."""
HOUR_STEP_S = 3600.0
SHOWN = 5e-6
"""A figure is shown to six digits: what it is rounded by at most must not lose the edge again (see ``EDGE_GUARD``)."""


def stations(search: Search) -> Rising:
    """Mixing stations, one more at each step."""
    now = search.crew.mixing_stations

    def remedy(count: int) -> PourRemedy:
        text = Say(code="pour-remedy-mixing-stations", params={"stations": count, "now": now})
        return PourRemedy(kind="mixing-stations", text=text, pointer="/work/crew/mixing_stations", value=count)

    return Rising("mixing_stations", range(now + 1, MOST_STATIONS + 1), value=lambda count: count, remedy=remedy)


def placing(search: Search) -> Rising:
    """Rates of placing, 50 ft²/h more at each step."""
    now = Figure(search.crew.placing_rate_m2_s, Kind.AREA_RATE)

    def remedy(count: int) -> PourRemedy:
        shown = Figure(count * PLACING_STEP_M2_S, Kind.AREA_RATE)
        text = Say(code="pour-remedy-placing", params={"rate": shown, "now": now})
        return PourRemedy(kind="placing", text=text, pointer="/work/crew/placing_rate", value=shown)

    return Rising(
        "placing_rate_m2_s",
        _counts_up(now.value, PLACING_STEP_M2_S, MOST_PLACING_RATE_M2_S),
        value=lambda count: count * PLACING_STEP_M2_S * (1 - SHOWN),
        remedy=remedy,
    )


def casting(search: Search) -> Rising:
    """Rates of casting, 100 lb/h more at each step; none where no aggregate is cast."""
    now = Figure(search.crew.cast_rate_kg_s, Kind.MASS_RATE)

    def remedy(count: int) -> PourRemedy:
        shown = Figure(count * CASTING_STEP_KG_S, Kind.MASS_RATE)
        text = Say(code="pour-remedy-casting", params={"rate": shown, "now": now})
        return PourRemedy(kind="casting", text=text, pointer="/work/crew/cast_rate", value=shown)

    cast = any(layer.pour.cast_kg_m2 for layer in search.site.layers)
    return Rising(
        "cast_rate_kg_s",
        _counts_up(now.value, CASTING_STEP_KG_S, MOST_CAST_RATE_KG_S) if cast else (),
        value=lambda count: count * CASTING_STEP_KG_S * (1 - SHOWN),
        remedy=remedy,
    )


def narrower(search: Search) -> Iterator[Try]:
    """Lanes, half a foot narrower at each step, down to one as wide as it is deep."""
    widest = search.widest_lane_m
    for width in _steps_down(widest, WIDTH_STEP_M, max(search.crew.lane_depth_m, WIDTH_STEP_M)):
        shown, told = Figure(width, Kind.LENGTH), Told(width, Kind.LENGTH, Telling.DOWN)
        text = Say(code="pour-remedy-narrower-pour", params={"width": told, "now": Figure(widest, Kind.LENGTH)})
        remedy = PourRemedy(kind="narrower-pour", text=text, pointer="/work/crew/lane_width", value=shown)
        yield Try(remedy=remedy, change=partial(with_crew, lane_width_m=width * (1 + SHOWN)))


def cooler_material(search: Search, *, least_k: float) -> Iterator[Try]:
    """Temperatures of the material, a degree Fahrenheit less at each step."""
    for temperature in _degrees_down(search.site.material_k, least_k):
        shown, now = Figure(temperature, Kind.TEMPERATURE), Figure(search.site.material_k, Kind.TEMPERATURE)
        text = Say(code="pour-remedy-cooler-material", params={"temperature": shown, "now": now})
        remedy = PourRemedy(kind="cooler-material", text=text, pointer="/work/material_temperature", value=shown)
        yield Try(remedy=remedy, change=partial(replace, material_temperature_k=temperature + SHOWN))


def cooler_floor(search: Search, *, least_k: float) -> Iterator[Try]:
    """Temperatures of a steady floor, a degree Fahrenheit less at each step."""
    if not isinstance(search.site.course, SteadyCourse):
        return
    now_k = search.site.course.temperature_k
    for temperature in _degrees_down(now_k, least_k):
        shown = Figure(temperature, Kind.TEMPERATURE)
        params = {"temperature": shown, "now": Figure(now_k, Kind.TEMPERATURE)}
        text = Say(code="pour-remedy-cooler-floor", params=params)
        value = SteadyValue(steady=shown)
        remedy = PourRemedy(kind="cooler-floor", text=text, pointer="/work/temperatures", value=value)
        yield Try(remedy=remedy, change=partial(replace, temperatures=Steady(temperature_k=temperature + SHOWN)))


def another_hour(search: Search, direction: int, most_hours: int) -> Iterator[Try]:
    """Starts, an hour later (or earlier) at each step; none where the floor's temperature is the same at all hours."""
    start, zone = search.resolved.work.start.value, search.resolved.work.zone.value
    if start is None or isinstance(search.site.course, SteadyCourse):
        return
    for hours in range(1, most_hours + 1):
        other = zone.datetime_at(start.timestamp() + direction * hours * HOUR_STEP_S)
        params: dict[str, Value] = {
            "hours": Figure(hours * HOUR_STEP_S, Kind.DURATION),
            "start": f"{other:%Y-%m-%d %H:%M}",
        }
        kind: PourRemedyKind = "later-start" if direction > 0 else "earlier-start"
        text = Say(code=f"pour-remedy-{kind}", params=params)
        remedy = PourRemedy(kind=kind, text=text, pointer="/work/start", value=other)
        yield Try(remedy=remedy, change=partial(replace, start=other))


def lowest_material_k(search: Search) -> float:
    """The lowest temperature at which every body may be placed."""
    return _highest_low_k([site.layer.product.temperature_k.low for site in search.site.layers])


def lowest_floor_k(search: Search) -> float:
    """The lowest temperature of a floor at which every layer may be placed: all of them wait for it."""
    return _highest_low_k([need.layer.product.temperature_k.low for need in search.takeoff.layers])


def _highest_low_k(lows_k: list[float | None]) -> float:
    return max((low_k for low_k in lows_k if low_k is not None), default=LOWEST_K)


def _counts_up(above: float, step: float, most: float) -> range:
    """How many whole steps there are above a figure, up to the most."""
    first = math.floor(above / step * (1 + GUARD)) + 1
    return range(first, math.floor(most / step * (1 + GUARD)) + 1)


def _steps_down(below: float, step: float, least: float) -> Iterator[float]:
    first = math.ceil(below / step * (1 - GUARD)) - 1
    return (count * step for count in range(first, math.ceil(least / step * (1 - GUARD)) - 1, -1))


def _degrees_down(below_k: float, least_k: float) -> Iterator[float]:
    """Whole degrees Fahrenheit under one temperature, down to another."""
    zero_k = 273.15 - 32 * DEGREE_K
    return (zero_k + above_zero_k for above_zero_k in _steps_down(below_k - zero_k, DEGREE_K, least_k - zero_k))
