"""One start tried: the clock run from it, and its pour judged."""

from __future__ import annotations

import math
from datetime import datetime

from gaugerake.answers.job.resolve import with_instant
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.return_times.plan import Runs, last_of_all, make_plan, run_end_s, runs_of
from gaugerake.answers.wet_edge.judge import Judged, JudgedPart, judge, judging_steps
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.cure.course import Course
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What comes of a start.

    ``edge_lost`` is whether some edge surely does not hold, ``laid`` whether every body gets down.
    ``margin_s`` is the least of open time less what is needed. ``warms_k`` and ``cools_k`` are the most by which the
    floor is above and under its temperature at the beginning of a pour; None where nothing is poured. ``back_s`` is the
    latest return of the traffic asked for, None where there is none. ``ends_s`` is the end of the last cure of the
    likely run. Any start up to ``first_work_s`` comes to the same.
    """

    course: Course
    edge_lost: bool
    laid: bool
    margin_s: float | None
    warms_k: float | None
    cools_k: float | None
    back_s: float | None
    ends_s: float
    first_work_s: float


class Trials:
    """Tries starts of one job, in their order; its steps are counted in ``budget``."""

    def __init__(self, resolved: ResolvedJob, takeoff: Takeoff, budget: Budget) -> None:
        self._resolved, self._takeoff, self._budget = resolved, takeoff, budget
        self._plan = make_plan(resolved, takeoff)
        self._traffic = resolved.work.traffic.value
        self._judging_steps = judging_steps(takeoff)
        self._last: Outcome | None = None

    def outcome(self, start: datetime) -> Outcome:
        """What comes of a start."""
        resolved = with_instant(self._resolved, start)
        basis, last = resolved.work.basis.value, self._last
        if last is None or basis.start_s > last.first_work_s or basis.course != last.course:
            runs = runs_of(self._plan, basis, self._budget)
            self._budget.spend(self._judging_steps)
            judged = judge(self._takeoff, pour_site(resolved, self._takeoff, runs.likely))
            last = self._last = _outcome(basis.course, runs, judged, self._traffic)
        return last


def _outcome(course: Course, runs: Runs, judged: Judged, traffic: str | None) -> Outcome:
    parts = [part for _, part in judged.parts()]
    margins = [part.edge.open_time_s - part.edge.needed_s for part in parts if part.edge.open_time_s is not None]
    return Outcome(
        course=course,
        edge_lost=any(part.edge.holds is False for part in parts),
        laid=all(layer.parts for layer in judged.layers),
        margin_s=min(margins, default=None),
        warms_k=max((part.warms_k for part in parts), default=None),
        cools_k=max((_cools_k(course, part) for part in parts), default=None),
        back_s=_back_s(runs, traffic),
        ends_s=run_end_s(runs.likely),
        first_work_s=_first_work_s(runs),
    )


def _cools_k(course: Course, judged: JudgedPart) -> float:
    return judged.floor_k - course.reached_k(judged.part.begins_s, judged.part.ends_s)[0]


def _back_s(runs: Runs, traffic: str | None) -> float | None:
    return next((one.at_s for _, one in runs.last_returns if one.traffic == traffic), None)


def _first_work_s(runs: Runs) -> float:
    """The instant at which any run begins to work [s]: every start up to it gives the same runs.

    −∞ where that is not sure: some run is not complete within its year, or its first step is held back for later ones.
    """
    found = []
    for run in (runs.earliest, runs.likely, runs.latest):
        step = run.steps[0] if run.steps else None
        if step is None or step.placed is None or step.held_s is not None or not run.complete:
            return -math.inf
        found.append(step.placed.from_s)
    ended = all(last_of_all(one) < math.inf for run in (runs.earliest, runs.likely, runs.latest) for one in run.returns)
    return min(found) if ended else -math.inf
