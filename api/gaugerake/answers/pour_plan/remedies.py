"""The least changes that make a pour hold, each found by asking again with the change made.

A remedy is the first step of its kind that holds, and it breaks nothing else that holds now (``kept``). With one step
less of it some edge needs more than its open time, or something else is broken. (What is shown to six digits and sent
back must hold too, so a step is judged a shade less favourably than its figure; see ``SHOWN``. So the step before may
hold by that shade alone.) Where floor and material are both too hot, or where no change alone does it, the least of
several together is looked for.
"""

from __future__ import annotations

from dataclasses import asdict
from itertools import chain
from typing import cast

from gaugerake.answers.pour_plan.change import AnyRemedy, PourRemedy, with_crew
from gaugerake.answers.pour_plan.new_edges import with_new_edges
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.pour_plan.steps import (
    DEGREE_K,
    another_hour,
    casting,
    cooler_floor,
    cooler_material,
    lowest_floor_k,
    lowest_material_k,
    narrower,
    placing,
    stations,
)
from gaugerake.answers.pour_plan.together import kept_steps, together_alone, together_with
from gaugerake.answers.pour_plan.utmost import Utmost, at_utmost
from gaugerake.answers.wet_edge.judge import MOST_PLACING_RATE_M2_S
from gaugerake.floor.job import Crew
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say

MOST_HOURS_LATER = 72
MOST_HOURS_EARLIER = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Freed:
    """What frees a pour that fails: one remedy of each kind that does.

    Where none does, ``utmost`` is the pour with everything at its utmost. ``ended_early`` says that the search had more
    to look at than one answer may.
    """

    remedies: tuple[AnyRemedy, ...]
    utmost: Utmost | None
    ended_early: bool


def free(search: Search) -> Freed:
    """Look for what frees a pour that fails."""
    strips = search.first_here(narrower(search))
    strips = None if strips is None else with_new_edges(search, strips)
    alone = [*_crew(search), strips, *_cooler(search)]
    found = tuple(remedy for remedy in alone if remedy is not None) or _several(search)
    return Freed(remedies=found, ended_early=search.ended_early, utmost=None if found else at_utmost(search))


def _crew(search: Search) -> list[AnyRemedy | None]:
    """More stations, faster placing, faster casting; else stations and placing, or the fewest of the three."""
    alone = [search.first_risen(kind(search)) for kind in (stations, placing, casting)]
    if alone != [None, None, None]:
        return [*alone]
    return [_both(search) or _with_casting(search)]


def _with_casting(search: Search) -> AnyRemedy | None:
    """Faster casting with more stations, faster placing or both; None where no aggregate is cast."""
    faster = tuple(casting(search))
    return together_alone(search, (tuple(stations(search)), tuple(placing(search)), faster)) if faster else None


def _both(search: Search) -> PourRemedy | None:
    """The fewest stations with which some rate of placing holds, and the least such rate."""
    endless = with_crew(search.work, placing_rate_m2_s=MOST_PLACING_RATE_M2_S)
    more = search.first_risen(stations(search), base=endless)
    if more is None:
        return None
    work = with_crew(search.work, mixing_stations=cast(int, more.value))
    faster = search.first_risen(placing(search), base=work)
    if faster is None:
        return None
    rate = cast(Figure, faster.value)
    text = Say(code="pour-remedy-stations-and-placing", params={"stations": more.value, "rate": rate})  # type: ignore[dict-item]
    value = _crew_value(with_crew(work, placing_rate_m2_s=rate.value).crew)
    return PourRemedy(kind="stations-and-placing", text=text, pointer="/work/crew", value=value)


def _crew_value(crew: Crew) -> dict[str, int | float | str | Figure | dict[str, int]]:
    """The crew as the job document writes it, less what is not said."""
    hands = {name: count for name, count in asdict(crew.hands).items() if count is not None}
    kinds = {
        "people": crew.people,
        "hands": hands or None,
        "hourly_cost": None if crew.hourly_cost is None else format(crew.hourly_cost, "f"),
        "mixing_stations": crew.mixing_stations,
        "minutes_per_mix": crew.minutes_per_mix,
        "placing_rate": _figure(crew.placing_rate_m2_s, Kind.AREA_RATE),
        "lane_depth": _figure(crew.lane_depth_m, Kind.LENGTH),
        "lane_width": _figure(crew.lane_width_m, Kind.LENGTH),
        "coating_rate": _figure(crew.coating_rate_m2_s, Kind.AREA_RATE),
        "clearing_rate": _figure(crew.clearing_rate_m2_s, Kind.AREA_RATE),
        "prepare_rate": _figure(crew.prepare_rate_m2_s, Kind.AREA_RATE),
        "saw_rate": _figure(crew.saw_rate_m_s, Kind.LENGTH_RATE),
        "chase_rate": _figure(crew.chase_rate_m_s, Kind.LENGTH_RATE),
        "patch_rate": _figure(crew.patch_rate_m2_s, Kind.AREA_RATE),
        "cove_rate": _figure(crew.cove_rate_m_s, Kind.LENGTH_RATE),
        "cast_rate": _figure(crew.cast_rate_kg_s, Kind.MASS_RATE),
        "seal_rate": _figure(crew.seal_rate_m_s, Kind.LENGTH_RATE),
    }
    return {name: value for name, value in kinds.items() if value is not None}


def _figure(value: float | None, kind: Kind) -> Figure | None:
    return None if value is None else Figure(value, kind)


def _cooler(search: Search) -> list[AnyRemedy | None]:
    """Cooler material, a cooler floor or hour, each as far as the other lets it matter; else two of them together."""
    floor_k = min(part.hottest_floor_k for part in search.parts)
    material_least_k = max(floor_k - DEGREE_K, lowest_material_k(search))
    floor_least_k = max(search.site.material_k - DEGREE_K, lowest_floor_k(search))
    alone: list[AnyRemedy | None] = [
        search.first_here(cooler_material(search, least_k=material_least_k)),
        _cooler_floor(search, least_k=floor_least_k),
        *_another_hour(search),
    ]
    return alone if any(alone) else _both_cooler(search)


def _cooler_floor(search: Search, *, least_k: float) -> PourRemedy | None:
    """A cooler floor: as material on it stays open no shorter, none does where the coolest could not hold."""
    steps = tuple(cooler_floor(search, least_k=least_k))
    if not steps or not search.could_hold(steps[-1].change(search.work)):
        return None
    return search.first(kept_steps(search, steps))


def _another_hour(search: Search) -> list[PourRemedy | None]:
    """A later and an earlier start; neither does where an edge is lost even on the floor at its coldest."""
    if search.steady or not search.could_hold(search.work):
        return []
    return [
        search.first(another_hour(search, 1, MOST_HOURS_LATER), asked=MOST_HOURS_LATER),
        search.first(another_hour(search, -1, MOST_HOURS_EARLIER), asked=MOST_HOURS_EARLIER),
    ]


def _both_cooler(search: Search) -> list[AnyRemedy | None]:
    """A cooler material and floor together, or a cooler hour, where both are hotter than the reference temperature."""
    usual_k = search.resolved.system.reference_temperature_k
    if min(search.site.material_k, max(part.hottest_floor_k for part in search.parts)) <= usual_k:
        return []
    material = tuple(cooler_material(search, least_k=max(usual_k, lowest_material_k(search))))
    if search.steady:
        floor = kept_steps(search, cooler_floor(search, least_k=max(usual_k, lowest_floor_k(search))))
        return [together_alone(search, (floor, material))]
    return [
        together_with(search, another_hour(search, 1, MOST_HOURS_LATER), (material,)),
        together_with(search, another_hour(search, -1, MOST_HOURS_EARLIER), (material,)),
    ]


def _several(search: Search) -> tuple[AnyRemedy, ...]:
    """The fewest changes that free the pour together, at the nearest hour at which they do."""
    changes = (
        tuple(stations(search)),
        tuple(placing(search)),
        tuple(narrower(search)),
        tuple(cooler_material(search, least_k=lowest_material_k(search))),
        kept_steps(search, cooler_floor(search, least_k=lowest_floor_k(search))),
        tuple(casting(search)),  # last: of changes that are as few, those of the pour itself come first
    )
    found = together_alone(search, changes)
    if found is None:
        later, earlier = another_hour(search, 1, MOST_HOURS_LATER), another_hour(search, -1, MOST_HOURS_EARLIER)
        found = together_with(search, chain(later, earlier), changes)
    return () if found is None else (found,)
