"""Asks about a pour again with the work changed, and no more often than a request should.

How often is counted, not timed: runs of the timetable for each kind of remedy, and steps for all kinds together. Where
either ends before the search does, the answer says so.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import replace

from gaugerake.answers.job.resolve import asked_work, with_work
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.change import PourRemedy, Rising, Try
from gaugerake.answers.pour_plan.edges import Edges
from gaugerake.answers.return_times.kept import Kept
from gaugerake.answers.return_times.plan import Timetable, likely_runner, make_plan
from gaugerake.answers.wet_edge.judge import Judged, PourSite, holds
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.timetable import Plan, Run
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.job import Steady, Work
from gaugerake.floor.pour.edge import WetEdge

MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""And how many rooms that may be in all: a job of very many rooms is asked again less often."""
MOST_STEPS = 30_000
"""Of the clock's and of the judgement of edges, for all kinds together."""


class Search:
    """Asks about a pour that fails again with the work changed, and counts how often.

    The work is as the steps change it: stations, placing, casting and lanes of the crew, the temperature of the
    material, a steady floor, another start. Only what must be asked of the timetable is resolved again.

    ``left_unasked`` tells whether the runs of the timetable that one kind of remedy may have were too few.
    """

    def __init__(self, timetable: Timetable, site: PourSite, judged: Judged, kept: Kept) -> None:
        self.resolved, self.takeoff, self.site = timetable.resolved, timetable.takeoff, site
        self.work = asked_work(timetable.resolved)
        self.crew = site.layers[0].crew
        self.parts = [part for _, part in judged.parts()]
        self.budget = Budget(MOST_STEPS)
        self.left_unasked = False
        self.kept = kept
        self._all_poured = all(layer.parts for layer in judged.layers)
        self._poured_first = _poured_before_any_window(timetable.plan, site)
        self._edges = Edges(timetable.takeoff, site, judged, self.budget)

    @property
    def steady(self) -> bool:
        """Whether the floor's temperature is the same at all hours."""
        return isinstance(self.site.course, SteadyCourse)

    @property
    def ended_early(self) -> bool:
        """Whether there was more to look at than one answer may."""
        return self.left_unasked or self.budget.ended

    @property
    def widest_lane_m(self) -> float:
        """The widest lane of the pour [m]."""
        return max(part.part.pour.lane.width_m for part in self.parts)

    def asks(self, most: int) -> int:
        """How often the timetable may be run again for a job of so many rooms."""
        return min(most, math.ceil(MOST_ROOMS_ASKED / len(self.takeoff.rooms)))

    def first(self, tries: Iterable[Try], *, base: Work | None = None, asked: int = MOST_ASKED) -> PourRemedy | None:
        """The first try that holds, within so many runs of the timetable."""
        asked = self.asks(asked)
        for attempt in tries:
            if not self.budget.allows():
                return None
            work = attempt.change(base or self.work)
            if not self.could_hold(work):
                continue  # not even at the lowest temperature there is: no need to run the timetable
            if asked == 0:
                self.left_unasked = True
                return None
            asked -= 1
            if self.holds(work):
                return attempt.remedy
        return None

    def first_risen(self, tries: Rising, *, base: Work | None = None) -> PourRemedy | None:
        """The same of more and more of a rate, as each that could hold is followed by others: found by halving."""
        crews, coldest_k = self._edges.crews((base or self.work).crew), self.span_k(self.work)[0]

        def could_hold(at: int) -> bool:
            if not self.budget.allows():
                return False
            faster = [replace(crew, **tries.rate(at)) for crew in crews]  # type: ignore[arg-type]
            return self._edges.lost(faster, material_k=self.site.material_k, floor_k=coldest_k) is None

        if not tries or not could_hold(len(tries) - 1):
            return None
        return self.first(tries[bisect_left(range(len(tries)), True, key=could_hold) :], base=base)

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of those that leave the timetable as it is, and with it what is never poured."""
        for attempt in tries if self._all_poured else ():
            if not self.budget.allows():
                return None
            if self.lost_edge(attempt.change(self.work)) is None:
                return attempt.remedy
        return None

    def holds(self, work: Work) -> bool:
        """Whether no edge is lost in the hours that the timetable then gives, nor anything else that holds now.

        False where that may not be asked.
        """
        if not self.budget.allows():
            return False
        changed = self.changed(work)
        plan = make_plan(changed, self.takeoff)
        runner = likely_runner(changed.work.basis.value, self.budget)
        soonest = runner.run(plan, late=False) if self._poured_first else None
        if soonest is not None and not self._edges_hold(changed, soonest):
            return False
        likely = runner.run(plan)
        mended = (soonest is not None and soonest.steps == likely.steps) or self._edges_hold(changed, likely)
        return self.kept.keeps(changed, plan, likely, self.budget) and mended

    def _edges_hold(self, changed: ResolvedJob, likely: Run) -> bool:
        return holds(self.takeoff, pour_site(changed, self.takeoff, likely))

    def keeps(self, work: Work) -> bool:
        """Whether all but the edge that holds now still does; False where that may not be asked."""
        return self.budget.allows() and self.kept.kept_by(self.changed(work), self.budget)

    def changed(self, work: Work) -> ResolvedJob:
        """The job with other work."""
        return with_work(self.resolved, work)

    def could_hold(self, work: Work) -> bool:
        """Whether no edge would be lost on a floor that is as cold all day as it ever gets."""
        return self.lost_edge(work, floor_k=self.span_k(work)[0]) is None

    def holds_always(self, work: Work) -> bool:
        """Whether no edge would be lost on a floor that is as warm all day as it ever gets."""
        return self.lost_edge(work, floor_k=self.span_k(work)[1]) is None

    def lost_edge(self, work: Work, *, floor_k: float | None = None) -> WetEdge | None:
        """An edge that is lost in the hours as they are, or at one temperature of the floor; None when none is."""
        said_k = work.material_temperature_k
        material_k = self.site.material_k if said_k is None else said_k
        return self._edges.lost(self._edges.crews(work.crew), material_k=material_k, floor_k=floor_k)

    def span_k(self, work: Work) -> tuple[float, float]:
        """The lowest and the highest temperature of the floor [K]: a step changes it to a steady one, or not at all."""
        if isinstance(work.temperatures, Steady):
            return work.temperatures.temperature_k, work.temperatures.temperature_k
        return self.site.course.span_k


def _poured_before_any_window(plan: Plan, site: PourSite) -> bool:
    """Whether nothing up to the last body has a recoat window: then bodies are poured as soon as can be, and a run that
    lays nothing late gives their hours at a fraction of the cost."""
    poured = {layer.layer.id for layer in site.layers}
    last = max(at for at, work in enumerate(plan.layers) if work.layer in poured)
    return all(work.recoat_closes is None for work in plan.layers[: last + 1])
