"""Who does the work and how fast, and what is taken for a rate that nobody states (common practice, no source).

What is taken when nobody says is the same for every job, so it is made once, with its remark.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from gaugerake.answers.job.remarks import assumption, caution
from gaugerake.answers.job.resolved import ResolvedCrew
from gaugerake.answers.job.taken import Origin, Taken, asked, assumed, from_catalogue
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task
from gaugerake.floor.job import Crew
from gaugerake.floor.product import Product
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD

CHANGE_S = 90.0  # from the end of one mix to the start of the next
UNSTATED_MIXING_S = 180.0
_FT_H = 0.3048 / 3600  # 1 ft/h in m/s
_FT2_H = 0.3048**2 / 3600  # 1 ft²/h in m²/s
_LB_H = 0.45359237 / 3600  # 1 lb/h in kg/s


def _usual(code: str, value: float, kind: Kind) -> Taken[float]:
    """What is usual, told by its code at its field of the job."""
    field = code.removeprefix("crew-").replace("-", "_")
    return assumed(value, assumption(code, f"/work/crew/{field}", Figure(value, kind)))


STATIONS: Taken[int] = assumed(1, assumption("crew-stations", "/work/crew/mixing_stations", Figure(1, Kind.COUNT)))
PREPARE_RATE = _usual("crew-prepare-rate", 300 * _FT2_H, Kind.AREA_RATE)
SAW_RATE = _usual("crew-saw-rate", 60 * _FT_H, Kind.LENGTH_RATE)
CHASE_RATE = _usual("crew-chase-rate", 30 * _FT_H, Kind.LENGTH_RATE)
PATCH_RATE = _usual("crew-patch-rate", 20 * _FT2_H, Kind.AREA_RATE)
COVE_RATE = _usual("crew-cove-rate", 20 * _FT_H, Kind.LENGTH_RATE)
PLACING_RATE = _usual("crew-placing-rate", 600 * _FT2_H, Kind.AREA_RATE)
CAST_RATE = _usual("crew-cast-rate", 900 * _LB_H, Kind.MASS_RATE)
COATING_RATE = _usual("crew-coating-rate", 1000 * _FT2_H, Kind.AREA_RATE)
CLEARING_RATE = _usual("crew-clearing-rate", 2000 * _FT2_H, Kind.AREA_RATE)
SEAL_RATE = _usual("crew-seal-rate", 60 * _FT_H, Kind.LENGTH_RATE)
LANE_DEPTH = _usual("crew-lane-depth", 3 * 0.3048, Kind.LENGTH)  # 3 ft
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
"""The usual hands of each task; those of ``mix`` work at each station."""
_TASK_NAMES = tuple((task.value, task) for task in Task)
T = TypeVar("T")
Times = Mapping[str, Taken[float]]
Known = tuple[Crew, ResolvedCrew]
"""Another crew on the same system, and what it resolved to."""


def resolve_crew(crew: Crew, system: System, *, known: Known | None = None) -> ResolvedCrew:
    """The job's crew with every rate present; what depends on nothing that differs is taken from the ``known`` one."""
    mixing_s, cycle_s = _times(crew, system, known)
    same_hands = known is not None and known[0].hands == crew.hands
    hands, unsaid = (known[1].hands, known[1].hands_unsaid) if known is not None and same_hands else _hands(crew)
    return ResolvedCrew(
        mixing_stations=_said(crew.mixing_stations, STATIONS),
        prepare_rate_m2_s=_said(crew.prepare_rate_m2_s, PREPARE_RATE),
        saw_rate_m_s=_said(crew.saw_rate_m_s, SAW_RATE),
        chase_rate_m_s=_said(crew.chase_rate_m_s, CHASE_RATE),
        patch_rate_m2_s=_said(crew.patch_rate_m2_s, PATCH_RATE),
        cove_rate_m_s=_said(crew.cove_rate_m_s, COVE_RATE),
        placing_rate_m2_s=_said(crew.placing_rate_m2_s, PLACING_RATE),
        cast_rate_kg_s=_said(crew.cast_rate_kg_s, CAST_RATE),
        coating_rate_m2_s=_said(crew.coating_rate_m2_s, COATING_RATE),
        clearing_rate_m2_s=_said(crew.clearing_rate_m2_s, CLEARING_RATE),
        seal_rate_m_s=_said(crew.seal_rate_m_s, SEAL_RATE),
        lane_depth_m=_said(crew.lane_depth_m, LANE_DEPTH),
        lane_width_m=crew.lane_width_m,
        hands=hands,
        hands_unsaid=unsaid,
        people=crew.people,
        hourly_cost=crew.hourly_cost,
        mixing_s=mixing_s,
        cycle_s=cycle_s,
    )


def _said(given: T | None, usual: Taken[T]) -> Taken[T]:
    """A value that the job states, else the usual one."""
    return usual if given is None else asked(given)


def _times(crew: Crew, system: System, known: Known | None) -> tuple[Times, Times]:
    """Two times [s] of each product that a layer mixes: of mixing, and from one mix of a station to its next."""
    if known is not None and known[0].minutes_per_mix == crew.minutes_per_mix:
        return known[1].mixing_s, known[1].cycle_s
    products = {layer.product.code: layer.product for layer in system.layers if RateKind.CYCLE in layer.rates}
    mixing_s = {code: _mixing(product) for code, product in products.items()}
    cycle_s = {code: _cycle(crew.minutes_per_mix, product, mixing_s[code]) for code, product in products.items()}
    return mixing_s, cycle_s


def _hands(crew: Crew) -> tuple[Taken[Mapping[Task, int]], frozenset[Task]]:
    """The hands of each task, as the job says, else as is usual; and the tasks of which it does not say.

    What is usual is told with the labour.
    """
    counts = {task: getattr(crew.hands, name) for name, task in _TASK_NAMES}
    said = {task: count for task, count in counts.items() if count is not None}
    origin = Origin.ASKED if len(said) == len(counts) else Origin.ASSUMED
    return Taken({**USUAL_HANDS, **said}, origin), frozenset(counts.keys() - said.keys())


def _mixing(product: Product) -> Taken[float]:
    """How long a mix is mixed [s]; its assumption stands with the time from one mix to the next."""
    return assumed(UNSTATED_MIXING_S) if product.mixing_s is None else from_catalogue(product.mixing_s)


def _cycle(minutes_per_mix: float | None, product: Product, mixing_s: Taken[float]) -> Taken[float]:
    """The time from one mix of a station to its next [s]: the crew's, else the mixing time plus a minute and a half."""
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
    mixing = Told(product.mixing_s, Kind.MINUTES, Telling.UP)
    cycle = Told(cycle_s, Kind.MINUTES, Telling.DOWN)
    return asked(cycle_s, caution("mixing-cut-short", pointer, product=product.name, mixing=mixing, cycle=cycle))
