"""Whether work on a floor that never leaves its products' limits surely ends in time, without running the clock.

On such a floor no cure takes longer than its table says for the coldest hour, and work waits only for a shift that
holds it. In an ordinary week the next such shift begins within ``Shifts.longest_wait_s``. So the longest waits, the
work and the cures of a plan add up to an upper bound of its end. Less work never raises the bound, so what holds of a
plan holds of a faster crew as well.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import LayerWork, Plan
from gaugerake.floor.cure.accrual import FREEZING_K
from gaugerake.floor.cure.curve import Column, time_at
from gaugerake.floor.values.local_time import DAY_S

MOST_CLOCK_CHANGES = 8
"""In a year: more than the clocks of any place are changed. Each may spoil hours, as a closed date does."""


def surely_ends(*, plan: Plan, hours: OpenHours, span_k: tuple[float, float], column: Column, within_s: float) -> bool:
    """Whether every step of a plan surely has its hours and every cure ends within a time, whatever the start.

    Parameters
    ----------
    plan : Plan
        The work. What is said holds of every plan too whose parts take no longer than those of this one.
    hours : OpenHours
        When the crew works.
    span_k : tuple of float [K]
        The floor's lowest and highest temperature.
    column : {"low", "likely", "high"}
        Which of the makers' times.
    within_s : float [s]
        The time from the start.

    Returns
    -------
    bool
        True only if a run of the plan is complete, be layers laid late in it or not; False where that is not sure.

    Notes
    -----
    A layer with a recoat window may be laid late once, when the next one would have begun at the latest: from there all
    that follows takes no longer than the whole plan does at most. A closed date or a change of the clocks spoils hours
    that begin within a day, and the one that it falls into: three waits, or days, of the whole year at most.

    Examples
    --------
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> plan = Plan(preparation_s=3600.0, layers=(), returns=(), returns_from=None)
    >>> floor = {"hours": RoundTheClock(), "span_k": (283.15, 293.15)}
    >>> two = [surely_ends(plan=plan, **floor, column="likely", within_s=within_s) for within_s in (3600.0, 3599.0)]
    >>> two
    [True, False]
    """
    if not all(_placeable(work, span_k) for work in plan.layers):
        return False
    coldest_k, _ = span_k
    longest_s, wait_s = hours.longest_s, hours.longest_wait_s
    pieces_s = list(_pieces_s(plan, longest_s))
    waits_s = wait_s * sum(max(1, math.ceil(piece_s / longest_s)) for piece_s in pieces_s) if wait_s else 0.0
    cures_s = math.fsum(_cured_s(work, coldest_k, column) for work in plan.layers)
    times = 1 + sum(work.recoat_closes is not None for work in plan.layers)
    spoilt_s = 3 * max(wait_s, DAY_S) * (hours.closed_days + MOST_CLOCK_CHANGES) if wait_s else 0.0
    return times * (waits_s + math.fsum(pieces_s) + cures_s) + spoilt_s <= within_s


def _placeable(work: LayerWork, span_k: tuple[float, float]) -> bool:
    """Whether a layer may always be placed on the floor, and always cures there as its table says."""
    (coldest_k, warmest_k), low_k, high_k = span_k, work.limits_k.low, work.limits_k.high
    return coldest_k >= max(FREEZING_K, low_k or 0.0) and (high_k is None or warmest_k <= high_k)


def _pieces_s(plan: Plan, longest_s: float) -> Iterator[float]:
    """The most work that a plan can have [s], in the pieces for which hours are searched."""
    yield from (work_s for work_s in (plan.preparation_s, plan.sawing_s) if work_s > 0)
    for work in plan.layers:
        whole_s = math.fsum(work.parts_s)
        yield from (whole_s,) if whole_s <= longest_s else work.parts_s
        yield from (work.abrade_s,) if work.recoat_closes is not None else ()
        yield from (work.clear_s,) if work.clear_s > 0 else ()


def _cured_s(work: LayerWork, temperature_k: float, column: Column) -> float:
    """The longest time from the end of a layer's work to that of its cure [s], with the wait for its broadcast."""
    wait_s = (
        0.0 if work.broadcast_wait is None else time_at(work.broadcast_wait, temperature_k=temperature_k, column="high")
    )
    return wait_s + (0.0 if work.cure is None else time_at(work.cure, temperature_k=temperature_k, column=column))
