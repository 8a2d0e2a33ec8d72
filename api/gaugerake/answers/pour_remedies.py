"""The least changes that make a pour hold, each found by asking again with the change made.

The steps are those in which people give such figures: a whole station, 50 ft²/h, half a foot, a whole degree
Fahrenheit, a whole hour. A remedy is the first step that holds; the one before it does not.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime
from typing import Annotated, Literal, cast

from gaugerake.answers.clock_remedies import SteadyValue
from gaugerake.answers.context import Context
from gaugerake.answers.pour_judge import (
    MOST_PLACING_RATE_M2_S,
    MOST_STATIONS,
    Judged,
    JudgedLayer,
    JudgedPart,
    PourSite,
    edge_of,
    holds,
    room_pour,
)
from gaugerake.answers.pour_site import hands_of, pour_site, pour_site_alone
from gaugerake.answers.takeoff import take_off
from gaugerake.answers.times import course_of, material_temperature_of, start_of, zone_of
from gaugerake.floor.caution import Say, Value
from gaugerake.floor.course import SteadyCourse
from gaugerake.floor.figure import Figure
from gaugerake.floor.job import Crew, Steady, Work
from gaugerake.floor.pour import GUARD
from gaugerake.floor.value import dataclass

PLACING_STEP_M2_S = 50 * 0.3048**2 / 3600
WIDTH_STEP_M = 0.1524
DEGREE_K = 5 / 9
LOWEST_K = 277.6
"""Where the product states no low limit, nobody is told to go below 40 °F."""
HOUR_STEP_S = 3600.0
MOST_HOURS_LATER = 72
MOST_HOURS_EARLIER = 24
MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""And how many rooms that may be in all: a job of very many rooms is asked again less often."""
SHOWN = 5e-6
"""A figure is shown to six digits: what it is rounded by at most must not lose the edge again (see ``EDGE_GUARD``)."""

Kind = Literal[
    "mixing-stations",
    "placing",
    "stations-and-placing",
    "narrower-pour",
    "cooler-material",
    "cooler-floor",
    "later-start",
    "earlier-start",
]
RemedyValue = int | Figure | datetime | SteadyValue | dict[str, int | float | Figure]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourRemedy:
    """One change to the job with which every wet edge holds; one step less of it does not do."""

    kind: Kind
    text: Say
    pointer: Annotated[str, "RFC 6901 pointer into the job: put `value` there, making the objects on the way."]
    value: RemedyValue


@dataclass(frozen=True, slots=True, kw_only=True)
class Try:
    """A remedy and the work as it would be, a shade less favourable than the figure shown."""

    remedy: PourRemedy
    work: Work


def remedies(context: Context, judged: Judged) -> tuple[PourRemedy, ...]:
    """One remedy of each kind that frees the pour; none when it holds or when nobody can say."""
    if judged.worst is None:
        return ()
    search = Search(context, judged)
    crew = [search.first(_stations(search, search.crew)), search.first(_placing(search, search.crew))]
    if crew == [None, None]:
        crew = [_both(search)]
    found = [
        *crew,
        search.first_here(_narrower(search)),
        search.first_here(_cooler_material(search)),
        search.first(_cooler_floor(search)),
        search.first(_another_hour(search, 1, MOST_HOURS_LATER), asked=MOST_HOURS_LATER),
        search.first(_another_hour(search, -1, MOST_HOURS_EARLIER), asked=MOST_HOURS_EARLIER),
    ]
    return tuple(remedy for remedy in found if remedy is not None)


class Search:
    """Asks again with the work changed."""

    def __init__(self, context: Context, judged: Judged) -> None:
        self.context = context
        self.takeoff = context.shared(take_off)
        self.site: PourSite = context.shared(pour_site)
        self.work = context.job.work
        self.crew = self.work.crew
        self.hands = self.site.layers[0].hands
        self.parts = [part for _, part in judged.parts()]
        self._hardest_first = [_hardest_first(layer) for layer in judged.layers]

    def first(self, tries: Iterable[Try], *, asked: int = MOST_ASKED) -> PourRemedy | None:
        """The first try that holds, within so many runs of the timetable."""
        asked = min(asked, math.ceil(MOST_ROOMS_ASKED / len(self.takeoff.rooms)))
        for attempt in tries:
            changed = self.context.with_work(attempt.work, keep=(take_off,))
            coldest_k, _warmest_k = changed.shared(course_of).span_k
            if not self._holds(changed, floor_k=coldest_k):
                continue  # not even at the lowest temperature there is: no need to run the timetable
            if holds(self.takeoff, pour_site_alone(changed)):
                return attempt.remedy
            asked -= 1
            if asked == 0:
                return None
        return None

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of those that leave the timetable as it is."""
        for attempt in tries:
            changed = self.context.with_work(attempt.work, keep=(take_off, course_of))
            if self._holds(changed):
                return attempt.remedy
        return None

    def _holds(self, changed: Context, *, floor_k: float | None = None) -> bool:
        """Whether no edge is lost in the hours as they are, or at one temperature of the floor."""
        material_k = changed.shared(material_temperature_of)
        for layer, parts in zip(self.site.layers, self._hardest_first, strict=True):
            hands = hands_of(changed, layer.layer.product)
            for part in parts:
                pour = room_pour(self.takeoff.rooms[part.part.pour.room], 1.0, layer.layer, hands)
                at_k = part.hottest_floor_k if floor_k is None else floor_k
                if edge_of(layer.layer.product, pour, floor_k=at_k, material_k=material_k).holds is False:
                    return False
        return True


def _hardest_first(layer: JudgedLayer) -> list[JudgedPart]:
    """The parts by the share of their open time that they need: what is lost, is lost at the first look."""

    def share(part: JudgedPart) -> float:
        return part.edge.needed_s / (part.edge.open_time_s or math.inf)

    return sorted(layer.parts, key=share, reverse=True)


def _stations(search: Search, crew: Crew) -> Iterator[Try]:
    for count in range(search.hands.station_count + 1, MOST_STATIONS + 1):
        text = Say(code="pour-remedy-mixing-stations", params={"stations": count, "now": search.hands.station_count})
        remedy = PourRemedy(kind="mixing-stations", text=text, pointer="/work/crew/mixing_stations", value=count)
        yield Try(remedy=remedy, work=replace(search.work, crew=replace(crew, mixing_stations=count)))


def _placing(search: Search, crew: Crew) -> Iterator[Try]:
    for rate in _steps_up(search.hands.placing_rate_m2_s, PLACING_STEP_M2_S, MOST_PLACING_RATE_M2_S):
        shown, now = Figure(rate, "area-rate"), Figure(search.hands.placing_rate_m2_s, "area-rate")
        text = Say(code="pour-remedy-placing", params={"rate": shown, "now": now})
        remedy = PourRemedy(kind="placing", text=text, pointer="/work/crew/placing_rate", value=shown)
        changed = replace(crew, placing_rate_m2_s=rate * (1 - SHOWN))
        yield Try(remedy=remedy, work=replace(search.work, crew=changed))


def _both(search: Search) -> PourRemedy | None:
    """The fewest stations with which some rate of placing holds, and the least such rate."""
    endless = replace(search.crew, placing_rate_m2_s=MOST_PLACING_RATE_M2_S)
    stations = search.first(_stations(search, endless))
    if stations is None:
        return None
    count = cast(int, stations.value)
    crew = replace(search.crew, mixing_stations=count)
    placing = search.first(_placing(search, crew))
    if placing is None:
        return None
    rate = cast(Figure, placing.value)
    text = Say(code="pour-remedy-stations-and-placing", params={"stations": count, "rate": rate})
    value = _crew_value(replace(crew, placing_rate_m2_s=rate.value))
    return PourRemedy(kind="stations-and-placing", text=text, pointer="/work/crew", value=value)


def _crew_value(crew: Crew) -> dict[str, int | float | Figure]:
    """The crew as the job document writes it, less what is not said."""
    kinds = {
        "mixing_stations": crew.mixing_stations,
        "minutes_per_mix": crew.minutes_per_mix,
        "placing_rate": _figure(crew.placing_rate_m2_s, "area-rate"),
        "lane_depth": _figure(crew.lane_depth_m, "length"),
        "lane_width": _figure(crew.lane_width_m, "length"),
        "coating_rate": _figure(crew.coating_rate_m2_s, "area-rate"),
        "clearing_rate": _figure(crew.clearing_rate_m2_s, "area-rate"),
    }
    return {name: value for name, value in kinds.items() if value is not None}


def _figure(value: float | None, kind: str) -> Figure | None:
    return None if value is None else Figure(value, kind)


def _narrower(search: Search) -> Iterator[Try]:
    """Half a foot narrower and narrower, to a lane as wide as it is deep."""
    widest = max(part.part.pour.lane.width_m for part in search.parts)
    for width in _steps_down(widest, WIDTH_STEP_M, max(search.hands.lane_depth_m, WIDTH_STEP_M)):
        shown = Figure(width, "length")
        text = Say(code="pour-remedy-narrower-pour", params={"width": shown, "now": Figure(widest, "length")})
        remedy = PourRemedy(kind="narrower-pour", text=text, pointer="/work/crew/lane_width", value=shown)
        changed = replace(search.crew, lane_width_m=width * (1 + SHOWN))
        yield Try(remedy=remedy, work=replace(search.work, crew=changed))


def _cooler_material(search: Search) -> Iterator[Try]:
    """A degree less and less, while the material is the hotter, to what the product may be placed at."""
    floors = min(part.hottest_floor_k for part in search.parts)
    for temperature in _degrees_down(search.site.material_k, max(floors - DEGREE_K, _lowest_k(search))):
        shown, now = Figure(temperature, "temperature"), Figure(search.site.material_k, "temperature")
        text = Say(code="pour-remedy-cooler-material", params={"temperature": shown, "now": now})
        remedy = PourRemedy(kind="cooler-material", text=text, pointer="/work/material_temperature", value=shown)
        yield Try(remedy=remedy, work=replace(search.work, material_temperature_k=temperature + SHOWN))


def _cooler_floor(search: Search) -> Iterator[Try]:
    """A degree less and less of a steady floor, while it is the hotter."""
    if not isinstance(search.site.course, SteadyCourse):
        return
    now_k = search.site.course.temperature_k
    lowest = max(search.site.material_k - DEGREE_K, _lowest_k(search))
    for temperature in _degrees_down(now_k, lowest):
        shown = Figure(temperature, "temperature")
        params = {"temperature": shown, "now": Figure(now_k, "temperature")}
        text = Say(code="pour-remedy-cooler-floor", params=params)
        remedy = PourRemedy(
            kind="cooler-floor", text=text, pointer="/work/temperatures", value=SteadyValue(steady=shown)
        )
        yield Try(remedy=remedy, work=replace(search.work, temperatures=Steady(temperature_k=temperature + SHOWN)))


def _another_hour(search: Search, direction: int, most_hours: int) -> Iterator[Try]:
    """An hour later and later (or earlier), where the floor's temperature changes with the hour."""
    start, zone = search.context.shared(start_of), search.context.shared(zone_of)
    if start is None or isinstance(search.site.course, SteadyCourse):
        return
    for hours in range(1, most_hours + 1):
        other = zone.datetime_at(start.timestamp() + direction * hours * HOUR_STEP_S)
        params: dict[str, Value] = {
            "hours": Figure(hours * HOUR_STEP_S, "duration"),
            "start": f"{other:%Y-%m-%d %H:%M}",
        }
        kind: Kind = "later-start" if direction > 0 else "earlier-start"
        text = Say(code=f"pour-remedy-{kind}", params=params)
        remedy = PourRemedy(kind=kind, text=text, pointer="/work/start", value=other)
        yield Try(remedy=remedy, work=replace(search.work, start=other))


def _lowest_k(search: Search) -> float:
    """The lowest temperature that every body may be placed at."""
    lows = [site.layer.product.temperature_k.low for site in search.site.layers]
    return max((low for low in lows if low is not None), default=LOWEST_K)


def _steps_up(above: float, step: float, most: float) -> Iterator[float]:
    first = math.floor(above / step * (1 + GUARD)) + 1
    return (count * step for count in range(first, math.floor(most / step * (1 + GUARD)) + 1))


def _steps_down(below: float, step: float, least: float) -> Iterator[float]:
    first = math.ceil(below / step * (1 - GUARD)) - 1
    return (count * step for count in range(first, math.ceil(least / step * (1 - GUARD)) - 1, -1))


def _degrees_down(below_k: float, least_k: float) -> Iterator[float]:
    """Whole degrees Fahrenheit under one temperature, down to another."""
    zero_k = 273.15 - 32 * DEGREE_K
    return (zero_k + above_zero_k for above_zero_k in _steps_down(below_k - zero_k, DEGREE_K, least_k - zero_k))
