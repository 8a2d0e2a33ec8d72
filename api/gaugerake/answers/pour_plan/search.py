"""Asks about a pour again with the work changed, and no more often than a request should.

How often is counted, not timed: runs of the timetable for each kind of remedy, and steps for all kinds together. Where
either ends before the search does, the answer says so.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence

from gaugerake.answers.job.resolve import asked_work, with_work
from gaugerake.answers.job.resolve_crew import resolve_crew
from gaugerake.answers.job.resolved import ResolvedCrew, ResolvedJob
from gaugerake.answers.pour_plan.change import PourRemedy, Try
from gaugerake.answers.return_times.kept import Kept
from gaugerake.answers.return_times.plan import Timetable, likely_runner, make_plan
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer, JudgedPart, PourSite, edge_of, holds, room_pour
from gaugerake.answers.wet_edge.site import crew_on, pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.timetable import Plan, Run
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.job import Crew, Work
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.edge import Pace, WetEdge

MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""And how many rooms that may be in all: a job of very many rooms is asked again less often."""
MOST_STEPS = 30_000
"""Of the clock's and of the judgement of edges, for all kinds together."""


class Search:
    """Asks about a pour that fails again with the work changed, and counts how often.

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
        self._hardest_first = [_hardest_first(timetable.takeoff, layer) for layer in judged.layers]

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
            changed = self.changed(attempt.change(base or self.work))
            if not self.could_hold(changed):
                continue  # not even at the lowest temperature there is: no need to run the timetable
            if asked == 0:
                self.left_unasked = True
                return None
            asked -= 1
            if self.holds(changed):
                return attempt.remedy
        return None

    def first_risen(self, tries: Sequence[Try], *, base: Work | None = None) -> PourRemedy | None:
        """The same of tries that change the crew alone, each that could hold followed by others: found by halving."""

        def could_hold(at: int) -> bool:
            return self.budget.allows() and self._could_hold_with(tries[at].change(base or self.work).crew)

        if not tries or not could_hold(len(tries) - 1):
            return None
        return self.first(tries[bisect_left(range(len(tries)), True, key=could_hold) :], base=base)

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of those that leave the timetable as it is, and with it what is never poured."""
        for attempt in tries if self._all_poured else ():
            if not self.budget.allows():
                return None
            if self.lost_edge(self.changed(attempt.change(self.work))) is None:
                return attempt.remedy
        return None

    def changed(self, work: Work) -> ResolvedJob:
        """The job with other work."""
        return with_work(self.resolved, work)

    def holds(self, changed: ResolvedJob) -> bool:
        """Whether no edge is lost in the hours that the timetable then gives, nor anything else that holds now.

        False where that may not be asked.
        """
        if not self.budget.allows():
            return False
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

    def keeps(self, changed: ResolvedJob) -> bool:
        """Whether all but the edge that holds now still does; False where that may not be asked."""
        return self.budget.allows() and self.kept.kept_by(changed, self.budget)

    def could_hold(self, changed: ResolvedJob) -> bool:
        """Whether no edge would be lost on a floor that is as cold all day as it ever gets."""
        coldest_k, _warmest_k = changed.work.course.value.span_k
        return self.lost_edge(changed, floor_k=coldest_k) is None

    def _could_hold_with(self, crew: Crew) -> bool:
        """The same with another crew: nothing else of the job need be resolved again."""
        work = self.resolved.work
        resolved = resolve_crew(crew, self.resolved.system, known=(self.work.crew, work.crew))
        coldest_k, _warmest_k = work.course.value.span_k
        return self._lost_edge(resolved, work.material_temperature_k.value, coldest_k) is None

    def holds_always(self, changed: ResolvedJob) -> bool:
        """Whether no edge would be lost on a floor that is as warm all day as it ever gets."""
        _coldest_k, warmest_k = changed.work.course.value.span_k
        return self.lost_edge(changed, floor_k=warmest_k) is None

    def lost_edge(self, changed: ResolvedJob, *, floor_k: float | None = None) -> WetEdge | None:
        """An edge that is lost in the hours as they are, or at one temperature of the floor; None when none is."""
        return self._lost_edge(changed.work.crew, changed.work.material_temperature_k.value, floor_k)

    def _lost_edge(self, resolved: ResolvedCrew, material_k: float, floor_k: float | None) -> WetEdge | None:
        for layer, parts in zip(self.site.layers, self._hardest_first, strict=True):
            crew, paces = crew_on(resolved, layer.layer.product), dict[float | None, Pace]()
            for part in parts:
                self.budget.spend(1)
                pour = room_pour(self.takeoff.rooms[part.part.pour.room], 1.0, layer.pour, crew, paces)
                at_k = part.hottest_floor_k if floor_k is None else floor_k
                edge = edge_of(layer.layer.product, pour, floor_k=at_k, material_k=material_k)
                if edge.holds is False:
                    return edge
        return None


def _poured_before_any_window(plan: Plan, site: PourSite) -> bool:
    """Whether nothing up to the last body has a recoat window: then bodies are poured as soon as can be, and a run that
    lays nothing late gives their hours at a fraction of the cost."""
    poured = {layer.layer.id for layer in site.layers}
    last = max(at for at, work in enumerate(plan.layers) if work.layer in poured)
    return all(work.recoat_closes is None for work in plan.layers[: last + 1])


def _hardest_first(takeoff: Takeoff, layer: JudgedLayer) -> list[JudgedPart]:
    """The parts by the share of their open time that they need: what is lost, is lost at the first look.

    A part that is no wider, on a floor no hotter, than another of the same thickness holds wherever that one does.
    """

    def share(part: JudgedPart) -> float:
        return part.edge.needed_s / (part.edge.open_time_s or math.inf)

    def width_m(part: JudgedPart) -> float:
        return takeoff.rooms[part.part.pour.room].shorter_side_m

    hottest_k: dict[float | None, float] = {}
    kept = []
    for part in sorted(layer.parts, key=lambda part: (width_m(part), part.hottest_floor_k), reverse=True):
        thickness_m = takeoff.rooms[part.part.pour.room].thickness_m
        if part.hottest_floor_k > hottest_k.get(thickness_m, -math.inf):
            hottest_k[thickness_m] = part.hottest_floor_k
            kept.append(part)
    return sorted(kept, key=share, reverse=True)
