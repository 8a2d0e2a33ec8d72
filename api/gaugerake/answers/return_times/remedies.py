"""Remedies of a missed deadline: the least change of each kind that brings traffic back in time, by running the clock.

A remedy is a change of the job: put ``value`` at ``pointer``. It may break nothing that holds now (``kept``). One step
less of it (half a kelvin, an hour, a shift, a day, a station) has been run too, and is late or breaks something.

Where no change alone is enough, hours, warmth and stations are combined: the fewest of them, and the least of each.
Further days are not, as work around the clock includes them. Where listed hours are in the combination, work around
the clock is offered beside it, as it needs no list of shifts and often less heat.

The search has a budget of steps. Where it runs out, the remedy in hand and those after it are left out, and the answer
says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cache, cached_property, reduce
from itertools import combinations

from gaugerake.answers.job.resolve import asked_work
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.return_times.change import AnyRemedy, RemedyKind, Try, as_remedy
from gaugerake.answers.return_times.kept import counted, kept_of
from gaugerake.answers.return_times.least import Does, Levels, first_true, least, taken, with_level
from gaugerake.answers.return_times.plan import Timetable, last_of_all, likely_run, make_plan, runs_of
from gaugerake.answers.return_times.steps import (
    another_shift,
    extra_days,
    longer_shifts,
    more_hours,
    round_the_clock,
    stations,
    warmer,
)
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import LAST_FIRST, in_time, unabraded
from gaugerake.floor.clock.timetable import Plan
from gaugerake.floor.cure.course import Course, LoggedCourse
from gaugerake.floor.cure.curve import Column
from gaugerake.floor.values.frozen import dataclass

WARMTH_COARSE_STEPS = 4  # tried first: 2 K
MOST_REMEDY_STEPS = 20_000
"""Steps of the clock, for all kinds of remedy together."""
_WARMTH = 1
"""The index of the floor's ladder among those that go together: the one that breaks the more, the further it goes."""

Made = Callable[[ResolvedJob], ResolvedJob]


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """When traffic is back with a remedy, and with one step less of it [s]; None is never.

    ``stepped`` tells whether there is a single step less. Of several days, and of several changes, there is none.
    """

    at_s: float | None
    stepped: bool
    less_s: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A remedy; ``back`` is its effect, made only where the working is asked for."""

    remedy: AnyRemedy
    back: Back | None


def remedies_of(
    timetable: Timetable, *, traffic: str, by_s: float, budget: Budget, explained: bool
) -> tuple[Found, ...]:
    """One remedy of each kind that is enough alone, else of several changes; none where the start is too late."""
    if timetable.basis.start_s >= by_s:
        return ()
    search = _Search(timetable, traffic, by_s, budget, explained=explained)
    return search.alone() or search.together()


class _Search:
    """Runs changed jobs against the deadline."""

    def __init__(self, timetable: Timetable, traffic: str, by_s: float, budget: Budget, *, explained: bool) -> None:
        self._job, self._takeoff, self._kept = timetable.resolved, timetable.takeoff, kept_of(timetable)
        self._plan, self._traffic, self._by_s = counted(timetable.plan, traffic), traffic, by_s
        self._budget, self._explained = budget, explained

    def alone(self) -> tuple[Found, ...]:
        """One of each kind."""
        job = self._job
        more = self._first(longer_shifts(job)) or self._first(another_shift(job))
        found = [self._warmer(), more, days := self._days(), self._stations()]
        if more is None and days is None:
            found.append(self._first(round_the_clock(job)))
        return tuple(one for one in found if one is not None)

    def together(self) -> tuple[Found, ...]:
        """The fewest changes of several kinds, and the least of each; then, if it differs, work around the clock."""
        warmth, more_stations, around = self._warmth, tuple(stations(self._job)), tuple(round_the_clock(self._job))
        chosen = self._least_of((more_hours(self._job), warmth, more_stations))
        if not chosen:
            return ()
        found = [self._found(chosen, None)]
        others = self._least_of((around, warmth, more_stations)) if _hours_listed(chosen) else []
        if others and not self._budget.ended and _kinds_of(others[:1]) == {"round-the-clock"}:
            found.append(self._found(others, None))
        return tuple(found)

    def _least_of(self, ladders: Sequence[Sequence[Try]]) -> list[Try]:
        """The fewest changes that meet the deadline together, and the least of each; empty where none are found."""
        trials = _Together(ladders, could_meet=self._could_meet, meets=self._meets, keeps=self._keeps)
        for utmost in trials.utmost():
            levels = trials.least_within(utmost)
            if levels is not None:
                return [] if self._budget.ended else taken(ladders, levels)
        return []

    def _first(self, tries: Iterable[Try]) -> Found | None:
        """The first step that meets the deadline, of steps that each include the one before."""
        before: Try | None = None
        for step in tries:
            if self._does(step):
                return self._found((step,), (before,))
            before = step
        return None

    def _days(self) -> Found | None:
        """The fewest further days. Of several days there is no single step less."""
        step = next((step for step in extra_days(self._job) if self._does(step)), None)
        if step is None:
            return None
        [place] = step.change().places
        return self._found((step,), (None,) if place.by is not None and place.by.value == 1 else None)

    def _does(self, step: Try) -> bool:
        return self._meets([step.late]) and self._keeps([step.hard])

    @cached_property
    def _warmth(self) -> tuple[Try, ...]:
        """The steps of a warmer floor, alone and with others: they keep what is worked out along their floors."""
        return warmer(self._job, plan=self._plan, until_s=self._by_s)

    def _warmer(self) -> Found | None:
        """A warmer floor, to half a kelvin: by coarse steps, then by single ones. A warmer one yet breaks no less."""
        steps = self._warmth
        for below in range(0, len(steps), WARMTH_COARSE_STEPS):
            coarse = steps[below : below + WARMTH_COARSE_STEPS]
            if below == WARMTH_COARSE_STEPS and not self._could_meet([steps[-1].late]):
                return None
            if self._meets([coarse[-1].late]):
                at = next((at for at, step in enumerate(coarse[:-1]) if self._meets([step.late])), len(coarse) - 1)
                if self._budget.ended or not self._keeps([coarse[at].hard]):
                    return None
                return self._found((coarse[at],), (steps[below + at - 1] if below + at else None,))
        return None

    def _could_meet(self, warmest: Iterable[Made]) -> bool:
        """Whether traffic could be back in time on this floor, or on a cooler one with the same changes beside it.

        On a warmer floor every cure ends sooner, and all that waits for it begins no later. It may be late all the same
        by a recoat window that closes sooner and has a layer abraded. So windows are taken never to close: what is late
        even then, is late on every cooler floor.
        """
        return self._meets(warmest, abrading=False)

    def _stations(self) -> Found | None:
        """More mixing stations, as long as each one more changes the work."""
        plan, before = self._plan, None
        for step in stations(self._job):
            if not self._budget.allows():
                return None
            faster = self._planned(step.late(self._job))
            if faster == plan:
                return None
            plan = faster
            if self._does(step):
                return self._found((step,), (before,))
            before = step
        return None

    def _found(self, steps: Sequence[Try], less: tuple[Try | None] | None) -> Found:
        remedy = as_remedy([step.change() for step in steps])
        if not self._explained:
            return Found(remedy=remedy, back=None)
        at_s = self._back_s(_made(self._job, [step.made for step in steps]))
        if less is None:
            return Found(remedy=remedy, back=Back(at_s=at_s, stepped=False, less_s=None))
        smaller = _made(self._job, [step.made for step in less if step is not None])
        return Found(remedy=remedy, back=Back(at_s=at_s, stepped=True, less_s=self._back_s(smaller)))

    def _back_s(self, changed: ResolvedJob) -> float | None:
        """The latest return in a changed job [s], its runs taken to their ends."""
        returns = runs_of(self._planned(changed), changed.work.basis.value).last_returns
        return max((one for _, one in returns), key=last_of_all).at_s

    def _planned(self, changed: ResolvedJob) -> Plan:
        """The work of a changed job, which depends on its crew alone."""
        if asked_work(changed).crew == asked_work(self._job).crew:
            return self._plan
        return counted(make_plan(changed, self._takeoff), self._traffic)

    def _meets(self, made: Iterable[Made], columns: Sequence[Column] = LAST_FIRST, *, abrading: bool = True) -> bool:
        """Whether traffic is back in time in some runs; False, and the budget ended, where it may not be asked."""
        if not self._budget.allows():
            return False
        changed = _made(self._job, made)
        basis = changed.work.basis.value
        plan = self._planned(changed)
        if LAST_FIRST[0] in columns:  # what the other runs take of a log is worked out already
            self._budget.spend(_readings_steps(basis.course))
        return in_time(
            plan if abrading else unabraded(plan),
            hours=basis.hours,
            course=basis.course,
            start_s=basis.start_s,
            by_s=self._by_s,
            budget=self._budget,
            columns=columns,
        )

    def _keeps(self, made: Iterable[Made]) -> bool:
        """Whether nothing that holds is lost; False where that may no longer be asked."""
        if not self._budget.allows():
            return False
        changed = _made(self._job, made)
        plan = self._planned(changed)
        self._budget.spend(_readings_steps(changed.work.basis.value.course))
        likely = likely_run(plan, changed.work.basis.value, self._budget)
        return self._kept.keeps(changed, plan, likely, self._budget)


class _Together:
    """Steps of several kinds tried together, by how many of each ladder are taken.

    Nothing is asked twice of the same levels.
    """

    def __init__(
        self,
        ladders: Sequence[Sequence[Try]],
        *,
        could_meet: Callable[[Iterable[Made]], bool],
        meets: Callable[[Iterable[Made], Sequence[Column]], bool],
        keeps: Callable[[Iterable[Made]], bool],
    ) -> None:
        def late(levels: Levels) -> list[Made]:
            return [step.late for step in taken(ladders, levels)]

        self._ladders = ladders
        self._could_meet: Does = cache(lambda levels: could_meet(late(levels)))
        self._last_meets: Does = cache(lambda levels: meets(late(levels), LAST_FIRST[:1]))
        self._others_meet: Does = cache(lambda levels: meets(late(levels), LAST_FIRST[1:]))
        self._keeps: Does = cache(lambda levels: keeps([step.hard for step in taken(ladders, levels)]))

    def utmost(self) -> Iterable[Levels]:
        """Pairs of ladders, then all, each taken to its last step; without those that would be late on any floor."""
        for size in range(2, len(self._ladders) + 1):
            for chosen in combinations(range(len(self._ladders)), size):
                levels = tuple(len(steps) if index in chosen else 0 for index, steps in enumerate(self._ladders))
                if all(levels[index] for index in chosen) and self._could_meet(levels):
                    yield levels

    def least_within(self, utmost: Levels) -> Levels | None:
        """The least of each that meets the deadline together; None where none is found.

        Where the warmest floor breaks nothing, the run on the makers' longest times is mostly the one that decides. So
        the least is first searched with that run alone. Where the result is late in another run, or the warmest floor
        breaks something, every trial asks everything, on the warmest floor that breaks nothing.
        """
        cooled = self._cooled(utmost)
        if cooled == utmost and self._perhaps(utmost) and self._does(levels := least(self._perhaps, utmost)):
            return levels
        return least(self._does, cooled) if self._does(cooled) else None

    def _perhaps(self, levels: Levels) -> bool:
        """Whether traffic is back in time in the run that is mostly the last.

        What is late on the warmest floor even if no recoat window closed, is late on this one without being run.
        """
        warmest = with_level(levels, _WARMTH, len(self._ladders[_WARMTH])) if levels[_WARMTH] else levels
        return self._could_meet(warmest) and self._last_meets(levels)

    def _does(self, levels: Levels) -> bool:
        """Whether these steps bring traffic back in time, and nothing is lost."""
        return self._perhaps(levels) and self._others_meet(levels) and self._keeps(levels)

    def _cooled(self, levels: Levels) -> Levels:
        """The levels with the warmest floor that breaks nothing: mostly those given, which are tried first."""

        def breaks_nothing(less: int) -> bool:
            return less == levels[_WARMTH] or self._keeps(with_level(levels, _WARMTH, levels[_WARMTH] - less))

        if breaks_nothing(0):
            return levels
        return with_level(levels, _WARMTH, levels[_WARMTH] - first_true(breaks_nothing, levels[_WARMTH]))


def _readings_steps(course: Course) -> int:
    """What cures along a log of another warmth take beside the clock's own steps: a step for eight readings."""
    return len(course.instants_s) // 8 if isinstance(course, LoggedCourse) else 0


def _hours_listed(steps: Sequence[Try]) -> bool:
    """Whether listed hours are among some steps: longer shifts, or more of them."""
    return bool(_kinds_of(steps) & {"longer-shifts", "another-shift"})


def _kinds_of(steps: Sequence[Try]) -> set[RemedyKind]:
    return {place.kind for step in steps for place in step.change().places}


def _made(job: ResolvedJob, made: Iterable[Made]) -> ResolvedJob:
    return reduce(lambda changed, change: change(changed), made, job)
