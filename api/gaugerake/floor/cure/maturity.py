"""The maturity of a layer along a course of temperatures, and when it reaches the milestone of a table.

Maturity accrues as dt/t(T): a layer that needs ten hours at the temperature of the hour gains a tenth in that hour, and
the milestone is reached at maturity 1. Where one activation energy holds throughout, maturity is the equivalent age of
ASTM C1074, divided by the table's time at the reference temperature.
"""

from __future__ import annotations

import math

from gaugerake.floor.cure.accrual import FREEZING_K, Bounds, Mode, Segment
from gaugerake.floor.cure.course import LONGEST_PIECE_S, SAME_TEMPERATURE_K, Course, DailyCourse, SteadyCourse, pieces
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.fast.daily import WaveDay
from gaugerake.floor.cure.fast.logged import LoggedMaturity
from gaugerake.floor.values.frozen import dataclass, maker

NEVER_S = 365 * 86_400.0
"""A milestone that is further off than this is never reached."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """When a layer reaches maturity 1, and what held it up.

    ``at_s`` is the instant [s], None when it is not reached within the horizon or the layer froze at ``frozen_s`` [s].
    ``stopped_s`` is how long it stood below the product's low limit [s], ``capped_s`` how long it was above the high
    one [s].
    """

    at_s: float | None
    frozen_s: float | None = None
    stopped_s: float = 0.0
    capped_s: float = 0.0


_make_milestone = maker(Milestone)


def milestone(
    *,
    curve: TimeCurve,
    column: Column,
    course: Course,
    from_s: float,
    until_s: float | None = None,
    low_k: float | None = None,
    high_k: float | None = None,
    longest_piece_s: float = LONGEST_PIECE_S,
) -> Milestone:
    """When a layer that is finished at ``from_s`` reaches the milestone of ``curve``.

    Parameters
    ----------
    curve : TimeCurve
        The times of the milestone by temperature.
    column : {"low", "likely", "high"}
        Which of the maker's times.
    course : Course
        The floor's temperature.
    from_s : float [s]
        When maturity begins to accrue.
    until_s : float [s], optional
        Where to stop looking; 365 days after ``from_s`` unless given.
    low_k : float [K], optional
        The product's low limit: below it no maturity accrues.
    high_k : float [K], optional
        The product's high limit: above it maturity accrues as at it.
    longest_piece_s : float [s]
        The longest piece that is integrated at once.

    Returns
    -------
    Milestone
        The instant, and the hours that were lost on the way.

    Notes
    -----
    Gauss-Legendre quadrature on pieces in which the integrand is smooth and monotone (8 nodes, fewer where it hardly
    changes); a steady course is a closed form. Below 0 °C before the milestone the layer is ruined, whatever the
    product's limits are. Not included: heat of the reaction, humidity.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> curve = time_curve([time_point(temperature_k=293.15, likely_s=3600.0)])
    >>> milestone(curve=curve, column="likely", course=SteadyCourse(temperature_k=293.15), from_s=0.0).at_s
    3600.0

    References
    ----------
    ASTM C1074, Standard Practice for Estimating Concrete Strength by the Maturity Method, equivalent age.
    EN 1992-1-1:2004, annex B.1 (3), equation B.10, the same form.
    """
    until_s = from_s + NEVER_S if until_s is None else until_s
    if isinstance(course, SteadyCourse):
        return _steady(curve, column, course.temperature_k, (from_s, until_s), (low_k, high_k))
    limits = Bounds(low_k=low_k, high_k=high_k)
    if isinstance(course, DailyCourse):
        day = WaveDay.of(course, curve=curve, column=column, bounds=limits, longest_piece_s=longest_piece_s)
        return _daily(day, course, (from_s, until_s))
    log = (
        LoggedMaturity.of(course, curve=curve, column=column, bounds=limits)
        if longest_piece_s == LONGEST_PIECE_S
        else None
    )
    if log is not None:
        return _logged(log, (from_s, until_s))
    return _piecewise(curve, column, course, (from_s, until_s), limits, longest_piece_s)


def _steady(
    curve: TimeCurve,
    column: Column,
    temperature_k: float,
    span_s: tuple[float, float],
    limits_k: tuple[float | None, float | None],
) -> Milestone:
    """The milestone at one temperature: the table's time."""
    (from_s, until_s), (low_k, high_k) = span_s, limits_k
    if temperature_k < FREEZING_K - SAME_TEMPERATURE_K:
        return _make_milestone(at_s=None, frozen_s=from_s)
    if low_k is not None and temperature_k < low_k - SAME_TEMPERATURE_K:
        return _make_milestone(at_s=None, stopped_s=until_s - from_s)
    capped = high_k is not None and temperature_k > high_k + SAME_TEMPERATURE_K
    held_k = high_k if capped and high_k is not None else temperature_k
    at_s = from_s + time_at(curve, temperature_k=held_k, column=column)
    return _make_milestone(
        at_s=at_s if at_s <= until_s else None,
        capped_s=min(at_s, until_s) - from_s if capped else 0.0,
    )


def _piecewise(
    curve: TimeCurve,
    column: Column,
    course: Course,
    span_s: tuple[float, float],
    bounds: Bounds,
    longest_piece_s: float,
) -> Milestone:
    """The milestone on any course, piece by piece."""
    (from_s, until_s), maturity = span_s, 0.0
    spent = dict.fromkeys(Mode, 0.0)
    at_s = frozen_s = None
    for start_s, end_s in pieces(course, from_s=from_s, levels_k=bounds.levels_k(curve), longest_s=longest_piece_s):
        if start_s >= until_s:
            break
        piece = Segment(curve, column, bounds, course.within(start_s), min(end_s, until_s) - start_s)
        if piece.mode is Mode.FROZEN:
            frozen_s = start_s
            break
        reached = maturity + piece.gained >= 1.0
        spent_s = piece.until(1.0 - maturity) if reached else piece.length_s
        spent[piece.mode] += spent_s
        maturity += piece.gained
        if reached:
            at_s = start_s + spent_s
            break
    return _make_milestone(at_s=at_s, frozen_s=frozen_s, stopped_s=spent[Mode.STOPPED], capped_s=spent[Mode.CAPPED])


def _logged(log: LoggedMaturity, span_s: tuple[float, float]) -> Milestone:
    """The milestone on a log, by its table."""
    from_s, until_s = span_s
    reached_s = max(log.instant(log.maturity(from_s) + 1.0), from_s)
    if not log.lossy:
        return _make_milestone(at_s=reached_s if reached_s <= until_s else None)
    frost_s = log.frost(from_s)
    last_s = min(reached_s, frost_s, until_s)
    return _make_milestone(
        at_s=reached_s if reached_s <= min(frost_s, until_s) else None,
        frozen_s=frost_s if frost_s < min(reached_s, until_s) else None,
        stopped_s=log.spent_in(Mode.STOPPED, from_s, last_s),
        capped_s=log.spent_in(Mode.CAPPED, from_s, last_s),
    )


def _daily(day: WaveDay, course: DailyCourse, span_s: tuple[float, float]) -> Milestone:
    """The milestone on a daily wave, by whole days, from one change of the clocks to the next."""
    (here_s, until_s), maturity = span_s, 0.0
    stopped_s = capped_s = 0.0
    at_s = frozen_s = None
    while here_s < until_s:
        next_s = min(course.zone.same_until_s(here_s), until_s)
        phase_s = course.phase_s(here_s)
        begun = day.maturity(phase_s)
        reached_s = max(here_s + day.phase(begun + 1.0 - maturity) - phase_s, here_s)
        frost_s = math.inf
        if day.lossy:
            frost_s = here_s + day.frost(phase_s) - phase_s
            last_s = phase_s + min(reached_s, frost_s, next_s) - here_s
            stopped_s += day.spent_in(Mode.STOPPED, phase_s, last_s)
            capped_s += day.spent_in(Mode.CAPPED, phase_s, last_s)
        if reached_s <= min(frost_s, next_s):
            at_s = reached_s
            break
        if frost_s <= next_s:
            frozen_s = frost_s
            break
        maturity += day.maturity(phase_s + next_s - here_s) - begun
        here_s = next_s
    return _make_milestone(at_s=at_s, frozen_s=frozen_s, stopped_s=stopped_s, capped_s=capped_s)
