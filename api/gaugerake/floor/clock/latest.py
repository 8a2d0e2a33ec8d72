"""Backwards from the hour when the doors must open: the last minute from which the work can begin."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import chain, takewhile

from gaugerake.floor.clock.backward import about_latest_start
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.late import Windows
from gaugerake.floor.clock.runner import Runner
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import LayerWork, Plan, Returned
from gaugerake.floor.cure.accrual import FREEZING_K
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.local_time import DAY_S

LOOK_BACK_S = 60 * DAY_S
FINE_STEP_S = 3600.0
GUESS_MARGIN_S = 7 * DAY_S
"""How much later than the look back a guess must be, so that its shift began within it."""
LAST_FIRST: tuple[Column, ...] = ("high", "likely", "low")
"""The columns of the makers' times, that of the run that is mostly the last before the others."""
PAST_DEADLINE_S = 60.0
"""How far past a deadline a run that is held against it looks, so that a return on the minute is seen."""


def latest_start(
    plan: Plan, *, hours: OpenHours, course: Course, traffic: str, by_s: float, budget: Budget | None = None
) -> float | None:
    """The last minute from which the latest return of a class of traffic still meets a deadline.

    Parameters
    ----------
    plan : Plan
        The work.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature, before the job's own start too.
    traffic : str
        Whose return.
    by_s : float [s]
        When it must be back.
    budget : Budget, optional
        The steps that may be taken.

    Returns
    -------
    float or None
        The instant, a whole minute [s]; None when there is none in the 60 days before ``by_s``, or none was found
        before the budget ended.

    Notes
    -----
    A later start gives no earlier return, except where it spares abrading or a frost. So a minute that meets the
    deadline before one that does not is the last; working back from the deadline mostly finds it at once. Otherwise
    the starts of shifts are halved until one meets the deadline whose next does not, and then the minutes between the
    two. Abrading only ever delays: the last minute without it is the last that need be tried with it, and from there
    on, as with frost, every hour of the shifts is tried instead of their starts alone.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.clock.timetable import Return
    >>> from gaugerake.floor.clock.timetable import LayerWork
    >>> after = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> plan = Plan(preparation_s=0.0, layers=(LayerWork(layer="coat", parts_s=(7200.0,)),),
    ...             returns=(Return(traffic="foot", after=after),), returns_from=0)
    >>> at = latest_start(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), traffic="foot",
    ...                   by_s=360000.0)
    >>> (360000.0 - at) / 3600
    12.0
    """

    counted = replace(plan, returns=tuple(one for one in plan.returns if one.traffic == traffic))
    search = _Search(hours, course, by_s, budget or Budget())
    after_s = math.floor(by_s / 60) * 60.0 + 60.0
    if course.span_k[0] < FREEZING_K:
        return search.last(counted, after_s)
    at_best = unabraded(counted)
    found_s = search.guess(counted, after_s)
    sure = found_s is not None and not search.meets(at_best, found_s + 60.0)
    if found_s is not None and sure and search.meets(counted, found_s):
        return found_s
    if found_s is None or not sure or not search.meets(at_best, found_s):
        found_s = search.last_start(at_best, after_s)
    if found_s is None or search.meets(counted, found_s):
        return found_s
    return search.last(counted, found_s)


def in_time(
    plan: Plan,
    *,
    hours: OpenHours,
    course: Course,
    start_s: float,
    by_s: float,
    budget: Budget | None = None,
    columns: Sequence[Column] = LAST_FIRST,
    expected: bool = False,
) -> bool:
    """Whether traffic is back by a deadline in every run.

    Parameters
    ----------
    plan : Plan
        The work, with the one return that the deadline is for.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    start_s : float [s]
        When the work begins.
    by_s : float [s]
        When the traffic must be back.
    budget : Budget, optional
        Where the steps are counted.
    columns : sequence of {"low", "likely", "high"}
        The runs that are asked about, by their columns: all three, unless some are known already.
    expected : bool
        Whether it probably is. Then fewer runs show that it is, and more that it is not.

    Returns
    -------
    bool
        True when the return is at the deadline or before it in the earliest, the likely and the latest run.

    Notes
    -----
    The latest run is mostly the last. Only where a recoat window may close can a run that is ahead be overtaken: it
    waits for a shift, abrades, and ends later than one that came when the shift began.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> plan = Plan(preparation_s=3600.0, layers=(), returns=(), returns_from=None)
    >>> in_time(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), start_s=0.0, by_s=7200.0)
    False
    """
    closing = frozenset(work.layer for work in plan.layers if work.recoat_closes is not None)
    until_s = min(by_s + PAST_DEADLINE_S, start_s + NEVER_S)
    trial = partial(Runner, hours=hours, course=course, start_s=start_s, until_s=until_s, budget=budget)
    if not closing:  # none can be overtaken
        last = LAST_FIRST[0]
        return last not in columns or _by(trial(column=last).returns(plan, late=False), by_s)
    runners = (trial(column=column) for column in columns)
    return all(_column_in_time(plan, closing, by_s, runner, expected=expected) for runner in runners)


def _column_in_time(plan: Plan, closing: Windows, by_s: float, runner: Runner, *, expected: bool) -> bool:
    """Whether one run is in time.

    No return comes sooner than if no window closed, and laying a layer late only ever makes one sooner. So a later hour
    is looked for only where these two disagree. Most trials of a search are late even if no window closed.
    """
    if expected and _by(runner.returns(plan, late=False), by_s):
        return True
    soonest = _by(runner.returns(plan, late=False, never_closing=closing), by_s)
    return soonest and (_by(runner.returns(plan, late=False), by_s) or _by(runner.returns(plan), by_s))


def _by(returns: Iterable[Returned], by_s: float) -> bool:
    return any(one.at_s is not None and one.at_s <= by_s for one in returns)


def unabraded(plan: Plan) -> Plan:
    """Take a plan as if no recoat window ever closed.

    Parameters
    ----------
    plan : Plan
        The work.

    Returns
    -------
    Plan
        The same work, of which nothing is ever abraded.

    Examples
    --------
    >>> plan = Plan(preparation_s=0.0, layers=(LayerWork(layer="coat", parts_s=(7200.0,)),), returns=(),
    ...             returns_from=None)
    >>> unabraded(plan) == plan
    True
    """
    return replace(plan, layers=tuple(map(_never_closing, plan.layers)))


def _never_closing(work: LayerWork) -> LayerWork:
    return work if work.recoat_closes is None else replace(work, recoat_closes=None)


def _starts(open_s: float, close_s: float) -> Iterator[float]:
    """The start of a shift and every hour of it, the last first."""
    count = math.ceil((close_s - open_s) / FINE_STEP_S)
    yield from (open_s + index * FINE_STEP_S for index in range(count - 1, 0, -1))
    yield open_s


class _Search:
    """Tries starts against a deadline."""

    def __init__(self, hours: OpenHours, course: Course, by_s: float, budget: Budget) -> None:
        self._hours, self._course, self._by_s, self._budget = hours, course, by_s, budget

    def meets(self, plan: Plan, start_s: float) -> bool:
        """Whether the plan's one return is in time from this start."""
        return in_time(
            plan, hours=self._hours, course=self._course, start_s=start_s, by_s=self._by_s, budget=self._budget
        )

    def guess(self, plan: Plan, failing_s: float) -> float | None:
        """The minute, before one that does not meet, at which working back from the deadline comes out."""
        by_s = math.floor(self._by_s / 60) * 60.0
        guess_s = about_latest_start(plan, hours=self._hours, course=self._course, by_s=by_s)
        if guess_s is None or guess_s < self._by_s - LOOK_BACK_S + GUESS_MARGIN_S:
            return None
        return min(math.floor(guess_s / 60) * 60.0, failing_s - 60.0)

    def last_start(self, plan: Plan, failing_s: float) -> float | None:
        """The last minute that meets before one that does not, where nothing but time comes of starting earlier."""
        starts = list(self._minutes((open_s for open_s, _ in self._hours.before(failing_s)), failing_s))
        met = bisect_left(starts, True, key=lambda minute_s: self.meets(plan, minute_s))
        if met == len(starts):
            return None
        return self._last_minute(plan, starts[met], starts[met - 1] if met else failing_s)

    def last(self, plan: Plan, failing_s: float) -> float | None:
        """The last minute that meets before one that is known not to, of those after an hour that meets."""
        shifts = self._hours.before(failing_s)
        hours = chain.from_iterable(_starts(open_s, min(close_s, failing_s)) for open_s, close_s in shifts)
        for minute_s in self._minutes(hours, failing_s):
            if not self._budget.allows():
                return None
            if self.meets(plan, minute_s):
                return self._last_minute(plan, minute_s, failing_s)
            failing_s = minute_s
        return None

    def _minutes(self, starts: Iterator[float], before_s: float) -> Iterator[float]:
        """The whole minutes of starts to try, the last first, each before the one before it."""
        for start_s in takewhile(lambda begun_s: begun_s >= self._by_s - LOOK_BACK_S, starts):
            minute_s = math.floor(start_s / 60) * 60.0
            if minute_s < before_s:  # not where shifts overlap
                yield minute_s
                before_s = minute_s

    def _last_minute(self, plan: Plan, meeting_s: float, failing_s: float) -> float:
        """The last whole minute that meets, between one that does and one that does not."""
        while failing_s - meeting_s > 60:
            middle_s = meeting_s + (failing_s - meeting_s) // 120 * 60
            if self.meets(plan, middle_s):
                meeting_s = middle_s
            else:
                failing_s = middle_s
        return meeting_s
