"""What would bring traffic back in time: each the least of its kind that does it alone, found by running the clock.

A remedy is a change of the job: put ``value`` at ``pointer``. One step less of it (half a kelvin, an hour, a shift, a
day, a station) has been run too, and is late. The search has a budget of steps; where it ends, what was being looked
for is not given, nor what would have been next, and the answer says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, time
from itertools import combinations
from typing import Annotated, Literal

from gaugerake.answers.return_times.plan import Timetable, make_plan
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.latest import in_time
from gaugerake.floor.clock.shifts import MOST_SHIFTS_A_DAY, OpenHours
from gaugerake.floor.clock.timetable import Plan
from gaugerake.floor.cure.course import Course, DailyCourse, LoggedCourse
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say

WARMTH_STEP_K = 0.5
WARMTH_COARSE_STEPS = 4  # tried first: 2 K
WARMTH_STEPS = 40
MOST_WARMTH_K = WARMTH_STEPS * WARMTH_STEP_K  # more than indirect heat gives a floor
ROUNDING_K = 1e-4  # what six digits may take off a temperature
MORE_STATIONS = 8
MORE_CREWS = 3
MOST_STATIONS = 50
DAY_MINUTES = 24 * 60
MOST_REMEDY_STEPS = 30_000
"""Of the clock's, for all kinds together."""
LONGEST_SHIFT_MINUTES = 12 * 60
"""No crew is asked to work longer than this; beyond it another one is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SteadyValue:
    """A floor temperature held throughout."""

    steady: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class DailyWave:
    """A daily wave of the floor's temperature."""

    low: Figure
    high: Figure
    coldest_at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DailyValue:
    """A daily wave of the floor's temperature."""

    daily: DailyWave


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingValue:
    """The floor's temperature at a time."""

    at: datetime
    temperature: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsValue:
    """The floor's temperature by readings."""

    readings: tuple[ReadingValue, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShiftValue:
    """Open hours on some weekdays."""

    days: tuple[Weekday, ...]
    from_: str
    to: str


RemedyKind = Literal["warmer-floor", "longer-shifts", "another-shift", "extra-days", "mixing-stations"]
RemedyValue = SteadyValue | DailyValue | ReadingsValue | tuple[ShiftValue, ...] | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A change of the job that alone brings traffic back in time."""

    kind: RemedyKind
    text: Say
    pointer: Annotated[str, "RFC 6901 pointer into the job: put `value` there, making the objects on the way."]
    value: RemedyValue
    by: Annotated[
        Figure, "How much: a difference of temperatures, hours a shift, or a count of shifts, days or stations."
    ]


def remedies_of(timetable: Timetable, *, traffic: str, by_s: float, budget: Budget) -> tuple[Remedy, ...]:
    """One remedy of each kind that does it; none where the start is not before the deadline."""
    if timetable.basis.start_s >= by_s:
        return ()
    search = _Search(timetable, traffic, by_s, budget)
    found = (
        search.warmer(),
        search.longer_shifts() or search.another_shift(),
        search.extra_days(),
        search.stations(),
    )
    return tuple(remedy for remedy in found if remedy is not None)


class _Search:
    """Runs changed jobs against the deadline."""

    def __init__(self, timetable: Timetable, traffic: str, by_s: float, budget: Budget) -> None:
        self._timetable, self._basis, self._traffic, self._by_s = timetable, timetable.basis, traffic, by_s
        self._plan, self._budget = _counted(timetable.plan, traffic), budget

    def _meets(self, *, plan: Plan | None = None, hours: OpenHours | None = None, course: Course | None = None) -> bool:
        """Whether traffic is back in time; False, and the budget ended, where that may no longer be asked."""
        return self._budget.allows() and in_time(
            plan or self._plan,
            hours=hours or self._basis.hours,
            course=course or self._basis.course,
            start_s=self._basis.start_s,
            by_s=self._by_s,
            budget=self._budget,
        )

    def warmer(self) -> Remedy | None:
        """A warmer floor, to half a kelvin."""
        steps = self._least_warmth()
        if steps is None:
            return None
        difference_k = steps * WARMTH_STEP_K
        by = Figure(difference_k, Kind.TEMPERATURE_DIFFERENCE)
        return Remedy(
            kind="warmer-floor",
            text=Say(code="remedy-warmer-floor", params={"by": by}),
            pointer="/work/temperatures",
            value=self._temperatures(self._basis.course.warmer_by(difference_k)),
            by=by,
        )

    def _least_warmth(self) -> int | None:
        """The least steps of warmth that do it, by coarse steps and then by single ones."""

        def warm_enough(steps: int) -> bool:
            return self._meets(course=self._basis.course.warmer_by(steps * WARMTH_STEP_K - ROUNDING_K))

        most = self._most_warmth()
        for below in range(0, most, WARMTH_COARSE_STEPS):
            coarse = min(below + WARMTH_COARSE_STEPS, most)
            if warm_enough(coarse):
                least = next((steps for steps in range(below + 1, coarse) if warm_enough(steps)), coarse)
                return None if self._budget.ended else least
        return None

    def _most_warmth(self) -> int:
        """The steps that leave the floor, until the deadline, no warmer than every product may be placed on."""
        highs_k = [work.limits_k.high for work in self._plan.layers if work.limits_k.high is not None]
        warmest_k = self._basis.course.reached_k(self._basis.start_s, self._by_s)[1]
        room_k = min([MOST_WARMTH_K, *(high_k - warmest_k for high_k in highs_k)])
        return max(0, math.floor((room_k + ROUNDING_K) / WARMTH_STEP_K))

    def _temperatures(self, course: Course) -> SteadyValue | DailyValue | ReadingsValue:
        low_k, high_k = (Figure(end_k, Kind.TEMPERATURE) for end_k in course.span_k)
        if isinstance(course, DailyCourse):
            coldest = self._timetable.resolved.work.coldest_at.value.isoformat(timespec="minutes")
            return DailyValue(daily=DailyWave(low=low_k, high=high_k, coldest_at=coldest))
        if isinstance(course, LoggedCourse):
            zone = self._timetable.zone
            rows = zip(course.instants_s, course.temperatures_k, strict=True)
            return ReadingsValue(
                readings=tuple(
                    ReadingValue(at=zone.datetime_at(at_s), temperature=Figure(at_k, Kind.TEMPERATURE))
                    for at_s, at_k in rows
                )
            )
        return SteadyValue(steady=low_k)

    def longer_shifts(self) -> Remedy | None:
        """Every shift longer, by whole hours at its end, up to 12 hours in all."""
        shifts = self._timetable.resolved.work.listed_shifts.value
        if shifts is None:
            return None
        room = LONGEST_SHIFT_MINUTES - max(_length_minutes(shift) for shift in shifts)
        for hours in range(1, room // 60 + 1):
            longer = tuple(replace(shift, ends=_later(shift.ends, hours * 60)) for shift in shifts)
            if self._meets(hours=self._timetable.hours_of(longer)):
                by = Figure(hours * 3600.0, Kind.DURATION)
                return self._shifts("longer-shifts", longer, by, Say(code="remedy-longer-shifts", params={"by": by}))
        return None

    def another_shift(self) -> Remedy | None:
        """Another crew that takes over where the longest shift ends, or more of them until the day is full."""
        shifts = self._timetable.resolved.work.listed_shifts.value
        if shifts is None:
            return None
        model = max(shifts, key=_length_minutes)
        length = _length_minutes(model)
        more = shifts
        fullest = max(sum(day in shift.days for shift in shifts) for day in model.days)
        most = min(MORE_CREWS, math.ceil(DAY_MINUTES / length) - 1, MOST_SHIFTS_A_DAY - fullest)
        for count in range(1, most + 1):
            begins = _later(model.ends, (count - 1) * length)
            ends = _later(begins, min(length, DAY_MINUTES - count * length))
            more = (*more, replace(model, starts=begins, ends=ends))
            if self._meets(hours=self._timetable.hours_of(more)):
                text = Say(code="remedy-another-shift", params={"count": count, "hours": _written(more[-1])})
                return self._shifts("another-shift", more, Figure(count, Kind.COUNT), text)
        return None

    def extra_days(self) -> Remedy | None:
        """The longest shift on further weekdays: the fewest that do it."""
        shifts = self._timetable.resolved.work.listed_shifts.value
        if shifts is None:
            return None
        model = max(shifts, key=_length_minutes)
        for days in _extra_days(shifts):
            more = (*shifts, replace(model, days=days))
            if self._meets(hours=self._timetable.hours_of(more)):
                text = Say(code="remedy-extra-days", params={"days": _named(days), "hours": _written(model)})
                return self._shifts("extra-days", more, Figure(len(days), Kind.COUNT), text)
        return None

    def _shifts(self, kind: RemedyKind, shifts: tuple[Shift, ...], by: Figure, text: Say) -> Remedy:
        value = tuple(
            ShiftValue(days=shift.days, from_=_clock(shift.starts), to=_clock(shift.ends)) for shift in shifts
        )
        return Remedy(kind=kind, text=text, pointer="/work/shifts", value=value, by=by)

    def stations(self) -> Remedy | None:
        """More mixing stations, as long as each one more changes the work."""
        own, plan = self._timetable.resolved.work.crew.mixing_stations.value, self._plan
        for count in range(own + 1, min(own + MORE_STATIONS, MOST_STATIONS) + 1):
            if not self._budget.allows():
                return None
            with_more = make_plan(self._timetable.resolved, self._timetable.takeoff, station_count=count)
            faster = _counted(with_more, self._traffic)
            if faster == plan:
                return None
            plan = faster
            if self._meets(plan=plan):
                by = Figure(count - own, Kind.COUNT)
                text = Say(code="remedy-mixing-stations", params={"count": count})
                pointer = "/work/crew/mixing_stations"
                return Remedy(kind="mixing-stations", text=text, pointer=pointer, value=count, by=by)
        return None


def _counted(plan: Plan, traffic: str) -> Plan:
    """The plan with the one return that the deadline is for."""
    return replace(plan, returns=tuple(one for one in plan.returns if one.traffic == traffic))


def _minutes(at: time) -> int:
    return at.hour * 60 + at.minute


def _length_minutes(shift: Shift) -> int:
    return (_minutes(shift.ends) - _minutes(shift.starts) - 1) % DAY_MINUTES + 1


def _later(at: time, minutes: int) -> time:
    later = (_minutes(at) + minutes) % DAY_MINUTES
    return time(later // 60, later % 60, at.second)


def _clock(at: time) -> str:
    return at.isoformat(timespec="seconds" if at.second else "minutes")


def _named(days: tuple[Weekday, ...]) -> Say:
    """The weekdays in words."""
    first = Say(code=f"weekday-{days[0].value}")
    return first if len(days) == 1 else Say(code="weekday-list", params={"first": first, "rest": _named(days[1:])})


def _written(shift: Shift) -> str:
    return f"{_clock(shift.starts)}–{_clock(shift.ends)}"


def _extra_days(shifts: tuple[Shift, ...]) -> Iterator[tuple[Weekday, ...]]:
    """The weekdays without a shift: one of them, then two, and so on."""
    covered = {day for shift in shifts for day in shift.days}
    bare = [day for day in Weekday if day not in covered]
    for count in range(1, len(bare) + 1):
        yield from combinations(bare, count)
