"""The clock of a job: which layer is worked when, when it has cured, when traffic returns.

A run goes forward from a start. Work waits for what is under it to cure, for a shift that it fits, and for a floor
within its product's temperatures. Cures run always, in real hours. Earliest, likely and latest are three whole runs,
each on its own column of the makers' tables.
"""

from __future__ import annotations

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.runner import Runner
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import Plan, Run
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.cure.maturity import NEVER_S


def run(
    plan: Plan,
    *,
    hours: OpenHours,
    course: Course,
    column: Column,
    start_s: float,
    until_s: float | None = None,
    budget: Budget | None = None,
    late: bool = True,
) -> Run:
    """Run the clock forward, by the rules of `gaugerake.floor.clock`.

    Parameters
    ----------
    plan : Plan
        The work.
    hours : OpenHours
        When the crew works.
    course : Course
        The floor's temperature.
    column : {"low", "likely", "high"}
        Which of the makers' times: the earliest, the likely or the latest run.
    start_s : float [s]
        The instant from which work may begin.
    until_s : float [s], optional
        Where to stop looking; 365 days after ``start_s`` unless given, and never later.
    budget : Budget, optional
        Where the steps of the run are counted; they do not stop it.
    late : bool
        False lays every layer as soon as it can be, and abrades it where that is too soon.

    Returns
    -------
    Run
        Every step and every return; what is not reached has no instant.

    Notes
    -----
    The aggregate of a broadcast is cast by the crew that has poured, even where its wait runs past the shift or the
    floor goes under the product's low limit meanwhile. A recoat window is read at its lowest time in all three runs;
    a layer that would be abraded is laid later where that spares it and costs no return (`gaugerake.floor.clock.late`).
    Traffic returns no earlier than loose aggregate is cleared.

    Examples
    --------
    >>> from gaugerake.floor.cure.course import SteadyCourse
    >>> from gaugerake.floor.cure.curve import time_curve, time_point
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.clock.timetable import LayerWork, Return
    >>> overnight = time_curve([time_point(temperature_k=293.15, likely_s=36000.0)])
    >>> coat = LayerWork(layer="coat", parts_s=(7200.0,), cure=overnight)
    >>> plan = Plan(preparation_s=3600.0, layers=(coat,), returns=(Return(traffic="foot", after=overnight),),
    ...             returns_from=0)
    >>> done = run(plan, hours=RoundTheClock(), course=SteadyCourse(temperature_k=293.15), column="likely", start_s=0.0)
    >>> done.returns[0].at_s / 3600
    13.0
    """
    end_s = start_s + NEVER_S
    runner = Runner(
        hours=hours,
        course=course,
        column=column,
        start_s=start_s,
        until_s=end_s if until_s is None else min(until_s, end_s),
        budget=budget,
    )
    return runner.run(plan, late=late)
