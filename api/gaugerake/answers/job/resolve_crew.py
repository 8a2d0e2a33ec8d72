"""Who does the work and how fast, and what is taken for a rate that nobody states (common practice, no source)."""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.answers.job.remarks import assumption, caution
from gaugerake.answers.job.resolved import ResolvedCrew
from gaugerake.answers.job.taken import Origin, Taken, asked, assumed, from_catalogue
from gaugerake.floor.crew.tasks import Task
from gaugerake.floor.job import Crew
from gaugerake.floor.product import Product
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD

STATION_COUNT = 1
CHANGE_S = 90.0  # from the end of one mix to the start of the next
UNSTATED_MIXING_S = 180.0
_FT_H = 0.3048 / 3600  # 1 ft/h in m/s
_FT2_H = 0.3048**2 / 3600  # 1 ft²/h in m²/s
_LB_H = 0.45359237 / 3600  # 1 lb/h in kg/s
PREPARE_RATE_M2_S = 300 * _FT2_H
SAW_RATE_M_S = 60 * _FT_H
CHASE_RATE_M_S = 30 * _FT_H
PATCH_RATE_M2_S = 20 * _FT2_H
COVE_RATE_M_S = 20 * _FT_H
PLACING_RATE_M2_S = 600 * _FT2_H
CAST_RATE_KG_S = 900 * _LB_H
COATING_RATE_M2_S = 1000 * _FT2_H
CLEARING_RATE_M2_S = 2000 * _FT2_H
SEAL_RATE_M_S = 60 * _FT_H
USUAL_HANDS: Mapping[Task, int] = {
    Task.PREPARE: 2,
    Task.SAW: 1,
    Task.CHASE: 1,
    Task.PATCH: 1,
    Task.COVE: 2,
    Task.MIX: 1,
    Task.PLACE: 1,
    Task.ROLL: 1,
    Task.CAST: 1,
    Task.CLEAR: 2,
    Task.COAT: 2,
    Task.ABRADE: 2,
    Task.SEAL: 1,
}
"""Of ``mix``, at each station."""
LANE_DEPTH_M = 3 * 0.3048  # 3 ft


def resolve_crew(crew: Crew, system: System) -> ResolvedCrew:
    """The job's crew with every rate present."""
    products = {layer.product.code: layer.product for layer in system.layers}
    mixing_s = {code: _mixing(product) for code, product in products.items()}
    return ResolvedCrew(
        mixing_stations=_stations(crew.mixing_stations),
        prepare_rate_m2_s=_area_rate(crew.prepare_rate_m2_s, PREPARE_RATE_M2_S, "crew-prepare-rate"),
        saw_rate_m_s=_length_rate(crew.saw_rate_m_s, SAW_RATE_M_S, "crew-saw-rate"),
        chase_rate_m_s=_length_rate(crew.chase_rate_m_s, CHASE_RATE_M_S, "crew-chase-rate"),
        patch_rate_m2_s=_area_rate(crew.patch_rate_m2_s, PATCH_RATE_M2_S, "crew-patch-rate"),
        cove_rate_m_s=_length_rate(crew.cove_rate_m_s, COVE_RATE_M_S, "crew-cove-rate"),
        placing_rate_m2_s=_area_rate(crew.placing_rate_m2_s, PLACING_RATE_M2_S, "crew-placing-rate"),
        cast_rate_kg_s=_rate(crew.cast_rate_kg_s, Figure(CAST_RATE_KG_S, Kind.MASS_RATE), "crew-cast-rate"),
        coating_rate_m2_s=_area_rate(crew.coating_rate_m2_s, COATING_RATE_M2_S, "crew-coating-rate"),
        clearing_rate_m2_s=_area_rate(crew.clearing_rate_m2_s, CLEARING_RATE_M2_S, "crew-clearing-rate"),
        seal_rate_m_s=_length_rate(crew.seal_rate_m_s, SEAL_RATE_M_S, "crew-seal-rate"),
        lane_depth_m=_lane_depth(crew.lane_depth_m),
        lane_width_m=crew.lane_width_m,
        hands=_hands(crew),
        hands_unsaid=frozenset(Task) - set(_said_hands(crew)),
        people=crew.people,
        hourly_cost=crew.hourly_cost,
        mixing_s=mixing_s,
        cycle_s={code: _cycle(crew.minutes_per_mix, product, mixing_s[code]) for code, product in products.items()},
    )


def _hands(crew: Crew) -> Taken[Mapping[Task, int]]:
    """The hands of each task: as the job says, else as is usual; what is usual is told with the labour."""
    said = _said_hands(crew)
    return Taken({**USUAL_HANDS, **said}, Origin.ASKED if len(said) == len(Task) else Origin.ASSUMED)


def _said_hands(crew: Crew) -> dict[Task, int]:
    counts = {task: getattr(crew.hands, task.value) for task in Task}
    return {task: count for task, count in counts.items() if count is not None}


def _stations(given: int | None) -> Taken[int]:
    """How many mixes are made at once."""
    if given is not None:
        return asked(given)
    return assumed(
        STATION_COUNT, assumption("crew-stations", "/work/crew/mixing_stations", Figure(STATION_COUNT, Kind.COUNT))
    )


def _area_rate(given: float | None, usual: float, code: str) -> Taken[float]:
    return _rate(given, Figure(usual, Kind.AREA_RATE), code)


def _length_rate(given: float | None, usual: float, code: str) -> Taken[float]:
    return _rate(given, Figure(usual, Kind.LENGTH_RATE), code)


def _rate(given: float | None, usual: Figure, code: str) -> Taken[float]:
    """As the job says, else as is usual, told at its field: ``crew-saw-rate`` stands at ``saw_rate``."""
    if given is not None:
        return asked(given)
    field = code.removeprefix("crew-").replace("-", "_")
    return assumed(usual.value, assumption(code, f"/work/crew/{field}", usual))


def _lane_depth(given: float | None) -> Taken[float]:
    """How deep a lane of the pour is [m]."""
    if given is not None:
        return asked(given)
    return assumed(
        LANE_DEPTH_M, assumption("crew-lane-depth", "/work/crew/lane_depth", Figure(LANE_DEPTH_M, Kind.LENGTH))
    )


def _mixing(product: Product) -> Taken[float]:
    """How long a mix is mixed [s]; its assumption stands with the time from one mix to the next."""
    return assumed(UNSTATED_MIXING_S) if product.mixing_s is None else from_catalogue(product.mixing_s)


def _cycle(minutes_per_mix: float | None, product: Product, mixing_s: Taken[float]) -> Taken[float]:
    """From one mix of a station to its next [s]: as the crew says, else the mixing and a minute and a half."""
    pointer = "/work/crew/minutes_per_mix"
    if minutes_per_mix is not None:
        return _stated_cycle(product, minutes_per_mix * 60.0, pointer)
    stated = "unstated-mixing-time" if mixing_s.origin is Origin.ASSUMED else "product-mixing-time"
    mixing = Say(code=stated, params={"mixing": Figure(mixing_s.value, Kind.MINUTES), "product": product.name})
    cycle_s = mixing_s.value + CHANGE_S
    remark = assumption("crew-minutes-per-mix", pointer, Figure(cycle_s, Kind.MINUTES), mixing=mixing)
    return Taken(cycle_s, mixing_s.origin, (remark,))


def _stated_cycle(product: Product, cycle_s: float, pointer: str) -> Taken[float]:
    """The crew's own time, with a caution where the product is mixed for longer than that."""
    if product.mixing_s is None or cycle_s >= product.mixing_s * (1 - GUARD):
        return asked(cycle_s)
    mixing, cycle = Figure(product.mixing_s, Kind.MINUTES), Figure(cycle_s, Kind.MINUTES)
    return asked(cycle_s, caution("mixing-cut-short", pointer, product=product.name, mixing=mixing, cycle=cycle))
