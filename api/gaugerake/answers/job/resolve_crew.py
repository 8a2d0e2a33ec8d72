"""Who does the work and how fast, and what is taken for a rate that nobody states (common practice, no source)."""

from __future__ import annotations

from gaugerake.answers.job.remarks import assumption, caution
from gaugerake.answers.job.resolved import ResolvedCrew
from gaugerake.answers.job.taken import Origin, Taken, asked, assumed, from_catalogue
from gaugerake.floor.job import Crew
from gaugerake.floor.product import Product
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Say
from gaugerake.floor.values.rounding import GUARD

STATION_COUNT = 1
CHANGE_S = 90.0  # from the end of one mix to the start of the next
UNSTATED_MIXING_S = 180.0
PLACING_RATE_M2_S = 600 * 0.3048**2 / 3600  # 600 ft²/h
COATING_RATE_M2_S = 1000 * 0.3048**2 / 3600  # 1000 ft²/h
CLEARING_RATE_M2_S = 2000 * 0.3048**2 / 3600  # 2000 ft²/h
LANE_DEPTH_M = 3 * 0.3048  # 3 ft


def resolve_crew(crew: Crew, system: System) -> ResolvedCrew:
    """The job's crew with every rate present."""
    products = {layer.product.code: layer.product for layer in system.layers}
    mixing_s = {code: _mixing(product) for code, product in products.items()}
    return ResolvedCrew(
        mixing_stations=_stations(crew.mixing_stations),
        placing_rate_m2_s=_rate(crew.placing_rate_m2_s, PLACING_RATE_M2_S, "crew-placing-rate", "placing_rate"),
        coating_rate_m2_s=_rate(crew.coating_rate_m2_s, COATING_RATE_M2_S, "crew-coating-rate", "coating_rate"),
        clearing_rate_m2_s=_rate(crew.clearing_rate_m2_s, CLEARING_RATE_M2_S, "crew-clearing-rate", "clearing_rate"),
        lane_depth_m=_lane_depth(crew.lane_depth_m),
        lane_width_m=crew.lane_width_m,
        mixing_s=mixing_s,
        cycle_s={code: _cycle(crew.minutes_per_mix, product, mixing_s[code]) for code, product in products.items()},
    )


def _stations(given: int | None) -> Taken[int]:
    """How many mixes are made at once."""
    if given is not None:
        return asked(given)
    return assumed(
        STATION_COUNT, assumption("crew-stations", "/work/crew/mixing_stations", Figure(STATION_COUNT, Kind.COUNT))
    )


def _rate(given: float | None, usual: float, code: str, field: str) -> Taken[float]:
    if given is not None:
        return asked(given)
    return assumed(usual, assumption(code, f"/work/crew/{field}", Figure(usual, Kind.AREA_RATE)))


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
    """What the crew says, with a word where the product is mixed for longer: no station can keep that up."""
    if product.mixing_s is None or cycle_s >= product.mixing_s * (1 - GUARD):
        return asked(cycle_s)
    mixing, cycle = Figure(product.mixing_s, Kind.MINUTES), Figure(cycle_s, Kind.MINUTES)
    return asked(cycle_s, caution("mixing-cut-short", pointer, product=product.name, mixing=mixing, cycle=cycle))
