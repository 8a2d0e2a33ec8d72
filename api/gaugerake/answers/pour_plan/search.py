"""Judges a pour again with its work changed, as often as one request may.

The bounds are counted, not timed: runs of the timetable for each kind of remedy, steps for all kinds together. Where
one of them is reached before the search ends, the answer says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from functools import cached_property

from gaugerake.answers.job.resolve import asked_work, with_work
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.change import PourRemedy, Rising, Try
from gaugerake.answers.pour_plan.edges import Crews, Edges
from gaugerake.answers.return_times.kept import Kept, due_of, kept_beside_the_pour
from gaugerake.answers.return_times.least import nearest_true
from gaugerake.answers.return_times.plan import Timetable, likely_runner, make_plan
from gaugerake.answers.wet_edge.judge import Judged, PourSite, holds, judging_steps
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.ending import surely_ends
from gaugerake.floor.clock.timetable import Plan, Run
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.job import Steady, Work
from gaugerake.floor.pour.edge import WetEdge
from gaugerake.floor.values.frozen import replace

MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""How many rooms these runs may have in all: a job of very many rooms is run again less often."""
MOST_STEPS = 20_000
"""Steps of the clock and of judging edges, for all kinds of remedy together."""


class Search:
    """Judges a failing pour again with its work changed, and counts how often.

    A step changes stations, placing, casting or lanes of the crew, the temperature of the material, the floor to a
    steady one, or the start. Only what the timetable needs is resolved again.

    ``left_unasked`` tells whether some kind of remedy had more to try than the runs of the timetable that it may have,
    ``depends_on_time`` whether a deadline must be kept.
    """

    def __init__(self, timetable: Timetable, site: PourSite, judged: Judged) -> None:
        self.resolved, self.takeoff, self.site, self._timetable = timetable.resolved, timetable.takeoff, site, timetable
        self.work = asked_work(timetable.resolved)
        self.crew = site.layers[0].crew
        self.parts = [part for _, part in judged.parts()]
        self.budget = Budget(MOST_STEPS)
        self.left_unasked = False
        self.depends_on_time = due_of(timetable) is not None
        self._ending: dict[tuple[float, float], bool] = {}
        self._all_poured = all(layer.parts for layer in judged.layers)
        self._poured_first = _poured_before_any_window(timetable.plan, site)
        self._edges = Edges(timetable.takeoff, site, judged, self.budget)

    @cached_property
    def kept(self) -> Kept:
        """What a remedy must keep; a pour of which no edge is lost needs none."""
        return kept_beside_the_pour(self._timetable)

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
        """The first try that holds, of tries that raise one rate: if one could hold, so could each after it."""
        crews = None if base is None else self._edges.crews(base.crew)

        def could_hold(at: int) -> bool:
            return self.budget.allows() and self.could_hold_with(tries.rate(at), crews)

        if not tries or not could_hold(len(tries) - 1):
            return None
        at = nearest_true(could_hold, len(tries) - 1)
        if self.budget.allows() and self._hours_do_not_matter(self.work):
            return tries[at].remedy  # what could hold does
        return self.first(tries[at:], base=base)

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of tries that leave the timetable as it is; None where a layer is never poured."""
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
        if self._hours_do_not_matter(work):
            return self.could_hold(work) and self._keeps_at_any_hour(work)
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
        self.budget.spend(judging_steps(self.takeoff))
        return holds(self.takeoff, pour_site(changed, self.takeoff, likely))

    def keeps(self, work: Work) -> bool:
        """Whether all but the edge that holds now still does; False where that may not be asked."""
        if not self.budget.allows():
            return False
        if self._hours_do_not_matter(work):
            return self._keeps_at_any_hour(work)
        return self.kept.kept_by(self.changed(work), self.budget)

    def surely_ends(self, *, station_count: int) -> bool:
        """Whether all work surely ends with so many stations, seen without the clock."""
        if station_count >= self.crew.mixing_stations:
            return self._surely_ends_on(self.span_k(self.work))  # it takes no longer than now
        plan = make_plan(self.resolved, self.takeoff, station_count=station_count)
        return self._ends(plan, self.span_k(self.work))

    def _surely_ends_on(self, span_k: tuple[float, float]) -> bool:
        """Whether the work as it is, and so any that takes no longer, surely ends on a floor of such temperatures."""
        known = self._ending.get(span_k)
        if known is None:
            known = self._ending[span_k] = self._ends(self._timetable.plan, span_k)
        return known

    def _ends(self, plan: Plan, span_k: tuple[float, float]) -> bool:
        hours = self._timetable.basis.hours
        return surely_ends(plan=plan, hours=hours, span_k=span_k, column="likely", within_s=NEVER_S)

    def _hours_do_not_matter(self, work: Work) -> bool:
        """Whether all that is asked of changed work is the same at whatever hours it is done.

        So it is on a steady floor under air that stays as it is, without a deadline, if all surely ends; the changed
        crew is a faster one. Then the run that there is stands for that of the changed work.
        """
        coldest_k, warmest_k = self.span_k(work)
        stays = coldest_k == warmest_k and self.resolved.air.course is None
        return self._all_poured and stays and not self.depends_on_time and self._surely_ends_on((coldest_k, warmest_k))

    def _keeps_at_any_hour(self, work: Work) -> bool:
        """Whether what holds now still does, where hours do not matter: a change of the crew alone breaks nothing."""
        if (
            work.temperatures is self.work.temperatures
            and work.material_temperature_k == self.work.material_temperature_k
        ):
            return True
        plan, likely = self._timetable.plan, self._timetable.runs.likely
        return self.kept.keeps(self.changed(work), plan, likely, self.budget)

    def changed(self, work: Work) -> ResolvedJob:
        """The job with other work."""
        return with_work(self.resolved, work)

    def could_hold(self, work: Work) -> bool:
        """Whether no edge would be lost on a floor that is as cold all day as it ever gets."""
        return self.lost_edge(work, floor_k=self.span_k(work)[0]) is None

    def could_hold_with(self, rate: Mapping[str, float], crews: Crews | None = None) -> bool:
        """Whether no edge would be lost on that coldest floor by these crews, else the pour's own, at another rate."""
        now = [layer.crew for layer in self.site.layers] if crews is None else crews
        changed = [replace(crew, **rate) for crew in now]  # type: ignore[arg-type]
        coldest_k, material_k = self.span_k(self.work)[0], self.site.material_k
        return self._edges.lost(changed, material_k=material_k, floor_k=coldest_k) is None

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
