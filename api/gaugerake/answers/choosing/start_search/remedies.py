"""What would make a start ok that is not: every remedy mends all that is against it, and breaks nothing that holds.

Where only edges are lost or people too few, the remedies are those of the pour plan. Where it is only late, they are
those of the deadline. Otherwise a warmer floor, more hours, further days and more stations are tried one by one against
all that must hold, and then hours and warmth together.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from gaugerake.answers.choosing.start_search.judged import Because
from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolve import asked_work
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.cautions import remedy_remarks
from gaugerake.answers.pour_plan.change import CombinedPourRemedy, PourRemedy
from gaugerake.answers.pour_plan.people import manned
from gaugerake.answers.pour_plan.remedies import free
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.return_times.change import CombinedRemedy, Remedy, Try, as_remedy, heats
from gaugerake.answers.return_times.kept import counted, kept_and_mended
from gaugerake.answers.return_times.plan import Timetable, likely_run, make_plan
from gaugerake.answers.return_times.remedies import MOST_REMEDY_STEPS, remedies_of
from gaugerake.answers.return_times.steps import (
    another_shift,
    extra_days,
    longer_shifts,
    more_hours,
    round_the_clock,
    stations,
    warmer,
)
from gaugerake.answers.wet_edge.judge import judge
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import in_time
from gaugerake.floor.clock.timetable import Plan
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say

StartRemedy = Remedy | CombinedRemedy | PourRemedy | CombinedPourRemedy

_OF_THE_POUR = frozenset({Because.EDGE_LOST, Because.SHORT_HANDED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """The remedies of a start, and what is said beside them."""

    remedies: tuple[StartRemedy, ...]
    remarks: tuple[Remark, ...]


def mend(timetable: Timetable, because: Sequence[Because]) -> Mended:
    """Look for what makes the start of a timetable ok."""
    if set(because) <= _OF_THE_POUR:
        return _pour_mended(timetable)
    budget = Budget(MOST_REMEDY_STEPS)
    found = _late_mended(timetable, budget) if set(because) == {Because.LATE} else _all_mended(timetable, budget)
    return Mended(remedies=found, remarks=tuple(_remarks(found, budget, because)))


def _pour_mended(timetable: Timetable) -> Mended:
    resolved, takeoff = timetable.resolved, timetable.takeoff
    site = pour_site(resolved, takeoff, timetable.runs.likely)
    judged = judge(takeoff, site)
    freed = None
    if judged.worst is not None:
        freed = free(Search(timetable, site, judged))
    return Mended(
        remedies=manned(resolved, takeoff, judged, () if freed is None else freed.remedies),
        remarks=() if freed is None else tuple(remedy_remarks(resolved, freed)),
    )


def _late_mended(timetable: Timetable, budget: Budget) -> tuple[StartRemedy, ...]:
    traffic, by_s = timetable.resolved.work.traffic.value, _by_s(timetable)
    assert traffic is not None  # what is late is some traffic's return
    found = remedies_of(timetable, traffic=traffic, by_s=by_s, budget=budget, explained=False)
    return tuple(one.remedy for one in found)


def _all_mended(timetable: Timetable, budget: Budget) -> tuple[StartRemedy, ...]:
    if timetable.resolved.work.traffic.value is None or timetable.basis.start_s >= _by_s(timetable):
        return ()
    search = _Search(timetable, budget)
    return search.alone() or search.together()


def _remarks(found: Sequence[StartRemedy], budget: Budget, because: Sequence[Because]) -> Iterable[Remark]:
    if heats(found):
        yield caution("indirect-heat")
    if budget.ended:
        yield caution("remedy-search-ended", "/work/reopen_by")
    elif not found:
        yield caution("start-without-remedy", "/work", otherwise=_otherwise(because))


def _otherwise(because: Sequence[Because]) -> Say:
    """What is left to do, by what is against the start: dry air is none of the changes that are tried."""
    damp = "-damp" if Because.TOO_DAMP in because else ""
    late = "-late" if Because.LATE in because else ""
    return Say(code=f"start-otherwise{damp}{late}")


def _by_s(timetable: Timetable) -> float:
    """The deadline [s], or the end of what is looked at."""
    reopen_by = timetable.resolved.work.reopen_by.value
    return timetable.basis.start_s + NEVER_S if reopen_by is None else reopen_by.timestamp()


class _Search:
    """Tries changes of a job against all that makes its start ok."""

    def __init__(self, timetable: Timetable, budget: Budget) -> None:
        self._job, self._takeoff, self._budget = timetable.resolved, timetable.takeoff, budget
        self._kept, self._by_s = kept_and_mended(timetable), _by_s(timetable)
        traffic = timetable.resolved.work.traffic.value
        assert traffic is not None  # asked before
        self._traffic, self._plan = traffic, counted(timetable.plan, traffic)
        self._warmth = warmer(self._job, plan=self._plan, until_s=self._by_s)

    def alone(self) -> tuple[Remedy | CombinedRemedy, ...]:
        """The first of each kind that does it."""
        job = self._job
        more = self._first(longer_shifts(job)) or self._first(another_shift(job))
        found = [self._first(self._warmth), more, days := self._first(extra_days(job)), self._first(stations(job))]
        if more is None and days is None:
            found.append(self._first(round_the_clock(job)))
        return tuple(as_remedy([step.change()]) for step in found if step is not None)

    def together(self) -> tuple[Remedy | CombinedRemedy, ...]:
        """The fewest hours more that do it with a warmer floor, and the least warmth that does it with them."""
        for hours in more_hours(self._job):
            for warmth in self._warmth:
                if self._does((hours, warmth)):
                    return (as_remedy([hours.change(), warmth.change()]),)
        return ()

    def _first(self, tries: Iterable[Try]) -> Try | None:
        return next((step for step in tries if self._does((step,))), None)

    def _does(self, steps: Sequence[Try]) -> bool:
        """Whether all holds, a shade colder and a shade warmer than the figure shown; False where none may be asked."""
        colder = reduce(lambda job, step: step.late(job), steps, self._job)
        hotter = reduce(lambda job, step: step.hard(job), steps, self._job)
        return self._holds(colder) and (hotter == colder or self._holds(hotter)) and not self._budget.ended

    def _holds(self, changed: ResolvedJob) -> bool:
        if not self._budget.allows():
            return False
        basis, plan = changed.work.basis.value, self._planned(changed)
        return in_time(
            plan, hours=basis.hours, course=basis.course, start_s=basis.start_s, by_s=self._by_s, budget=self._budget
        ) and self._kept.keeps(changed, plan, likely_run(plan, basis, self._budget), self._budget)

    def _planned(self, changed: ResolvedJob) -> Plan:
        if asked_work(changed).crew == asked_work(self._job).crew:
            return self._plan
        return counted(make_plan(changed, self._takeoff), self._traffic)
