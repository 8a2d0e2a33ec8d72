"""Estimates when work must begin so that traffic is back in time, in one pass from the deadline backwards.

It ignores recoat windows, frost and limits of temperature, and gives up where one pass is not enough. No answer is
made of an estimate: it only tells the searches that run forward which start to try first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import islice

from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import LayerWork, Plan
from gaugerake.floor.cure.accrual import Bounds
from gaugerake.floor.cure.course import LONGEST_PIECE_S, Course, DailyCourse, SteadyCourse
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.fast.daily import WaveDay
from gaugerake.floor.cure.fast.logged import LoggedMaturity
from gaugerake.floor.values.range import Limits

_MOST_SHIFTS = 102  # work that takes more is not guessed at


class _NoGuess(Exception):
    """Raised where one pass backwards gives no estimate."""


def about_latest_start(plan: Plan, *, hours: OpenHours, course: Course, by_s: float) -> float | None:
    """Estimate the last start from which every return of the plan's latest run comes by ``by_s``.

    Parameters
    ----------
    plan : Plan
        The work.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    by_s : float [s]
        When traffic must be back.

    Returns
    -------
    float or None
        The instant [s], a guess to be tried; None where there is no simple one.

    Notes
    -----
    Limits of temperature are not looked at, nor are changes of the clocks within a cure.

    Examples
    --------
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.clock.timetable import Return
    >>> after = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> plan = Plan(preparation_s=0.0, layers=(LayerWork(layer="coat", parts_s=(7200.0,)),),
    ...             returns=(Return(traffic="foot", after=after),), returns_from=0)
    >>> about_latest_start(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), by_s=50000.0)
    6800.0
    """
    try:
        return _Backward(hours, course, "high", [by_s] * len(plan.returns)).begin(plan)
    except _NoGuess:
        return None


def about_last_begin(
    plan: Plan, *, layer: str, hours: OpenHours, course: Course, column: Column, by_s: Sequence[float]
) -> float | None:
    """Estimate the last instant at which a layer may begin so that each return of one run comes by its own time.

    Parameters
    ----------
    plan : Plan
        The work.
    layer : str
        The id of a layer of it.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    column : {"low", "likely", "high"}
        Which of the makers' times.
    by_s : sequence of float [s]
        When each class of traffic must be back, in the order of the plan; infinite for one that need not be.

    Returns
    -------
    float or None
        The instant [s], a guess to be tried; None where there is no simple one.

    Notes
    -----
    Limits of temperature are not looked at, nor are changes of the clocks within a cure.

    Examples
    --------
    Foot traffic may come at any time, carts by 50,000 s: 10 h of cure and 2 h of work before that.

    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.clock.timetable import Return
    >>> after = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> plan = Plan(preparation_s=0.0, layers=(LayerWork(layer="coat", parts_s=(7200.0,)),),
    ...             returns=(Return(traffic="foot", after=after), Return(traffic="carts", after=after)), returns_from=0)
    >>> about_last_begin(plan, layer="coat", hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15),
    ...                  column="likely", by_s=[math.inf, 50000.0])
    6800.0
    """
    first = next(index for index, work in enumerate(plan.layers) if work.layer == layer)
    try:
        begin_s = _Backward(hours, course, column, by_s).layers(plan, first)
    except _NoGuess:
        return None
    return begin_s if math.isfinite(begin_s) else None


class _Backward:
    """A run on one column, from its end to its start."""

    def __init__(self, hours: OpenHours, course: Course, column: Column, by_s: Sequence[float]) -> None:
        self._hours, self._course, self._column, self._by_s = hours, course, column, by_s

    def begin(self, plan: Plan) -> float:
        """When the work must begin."""
        next_s = self.layers(plan, 0)
        if plan.sawing_s > 0:
            next_s = self._worked((plan.sawing_s,), next_s)
        if plan.preparation_s > 0:
            next_s = self._worked((plan.preparation_s,), next_s)
        if not math.isfinite(next_s):
            raise _NoGuess
        return next_s

    def layers(self, plan: Plan, first: int) -> float:
        """When the layers from the ``first`` on must begin."""
        next_s = math.inf
        for index in range(len(plan.layers) - 1, first - 1, -1):
            work, worked_by_s = plan.layers[index], math.inf
            if index == plan.returns_from:
                pairs = zip(plan.returns, self._by_s, strict=True)
                worked_by_s = min([self._cures_from(one.after, by_s, work.limits_k) for one, by_s in pairs])
            next_s = self._layer(work, next_s, worked_by_s)
        return next_s

    def _layer(self, work: LayerWork, next_s: float, worked_by_s: float) -> float:
        """When a layer must begin so that the next may, and its work is done by then."""
        if work.clear_s > 0:
            next_s = self._worked((work.clear_s,), min(next_s, *self._by_s))
        if work.cure is not None:
            next_s = self._cures_from(work.cure, next_s, work.limits_k)
        end_s = min(next_s, worked_by_s)
        if work.broadcast is not None and work.broadcast_wait is not None:
            end_s = self._cures_from(work.broadcast_wait, end_s, work.wait_limits_k, "high")
        return self._worked(work.parts_s, end_s)

    def _cures_from(self, curve: TimeCurve, by_s: float, limits_k: Limits, column: Column | None = None) -> float:
        """The latest instant from which a layer cures to its milestone by ``by_s``."""
        if by_s == math.inf:
            return by_s
        course, column = self._course, column or self._column
        if isinstance(course, SteadyCourse):
            return by_s - time_at(curve, temperature_k=course.temperature_k, column=column)
        bounds = Bounds(low_k=limits_k.low, high_k=limits_k.high)
        if not isinstance(course, DailyCourse):
            log = LoggedMaturity.of(course, curve=curve, column=column, bounds=bounds)
            if log is None or log.lossy:
                raise _NoGuess
            return log.instant(log.maturity(by_s) - 1.0)
        day = WaveDay.of(course, curve=curve, column=column, bounds=bounds, longest_piece_s=LONGEST_PIECE_S)
        if day.lossy:
            raise _NoGuess
        phase_s = course.phase_s(by_s)
        return by_s - phase_s + day.phase(day.maturity(phase_s) - 1.0)

    def _worked(self, parts_s: Sequence[float], by_s: float) -> float:
        """When work must begin to be done by then."""
        if by_s == math.inf or self._hours.longest_s == math.inf:
            return by_s - math.fsum(parts_s)
        whole_s = math.fsum(parts_s)
        if whole_s <= self._hours.longest_s:
            return self._part(whole_s, by_s)
        for part_s in reversed(parts_s):
            by_s = self._part(part_s, by_s)
        return by_s

    def _part(self, part_s: float, by_s: float) -> float:
        """When a part must begin: within one shift where it fits one, else over as many as it takes."""
        split = part_s > self._hours.longest_s
        for open_s, close_s in islice(self._hours.before(by_s), _MOST_SHIFTS):
            end_s = min(close_s, by_s)
            if end_s - open_s >= part_s:
                return end_s - part_s
            part_s -= end_s - open_s if split else 0.0
        raise _NoGuess
