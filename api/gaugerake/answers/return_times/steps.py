"""What can be changed about the work so that traffic is back sooner, step by step, each more than the one before it.

The steps are half a kelvin of the floor, a whole hour of every shift, a crew, a day, a station. Another kind of change
is another ladder of ``Try``.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from datetime import time
from functools import lru_cache, partial
from itertools import combinations

from gaugerake.answers.job.resolve import asked_work, with_course, with_shifts, with_work
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.return_times.change import (
    Change,
    DailyValue,
    DailyWave,
    ReadingsValue,
    ReadingValue,
    RemedyChange,
    RemedyKind,
    RemedyValue,
    ShiftValue,
    SteadyValue,
    Try,
    plain_try,
)
from gaugerake.answers.wet_edge.judge import MOST_STATIONS
from gaugerake.floor.clock.shifts import MOST_SHIFTS_A_DAY
from gaugerake.floor.clock.timetable import Plan
from gaugerake.floor.cure.course import Course, LoggedCourse
from gaugerake.floor.cure.fast.daily import prepare
from gaugerake.floor.job import Daily, Shift, Weekday
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say, Words, listed
from gaugerake.floor.values.range import Limits

WARMTH_STEP_K = 0.5
WARMTH_STEPS = 40
MOST_WARMTH_K = WARMTH_STEPS * WARMTH_STEP_K  # more than indirect heat gives a floor
ROUNDING_K = 1e-4  # what six digits may take off a temperature
FLOORS_KEPT = 6
"""How many warmer floors are kept with their cures: those of a long log take megabytes each."""
MORE_STATIONS = 8
MORE_CREWS = 3
DAY_MINUTES = 24 * 60
LONGEST_SHIFT_MINUTES = 12 * 60
"""No crew is asked to work longer than this; beyond it another one is."""


def warmer(resolved: ResolvedJob, *, plan: Plan, until_s: float) -> tuple[Try, ...]:
    """Half a kelvin warmer and warmer, as long as the floor stays within the layers' limits (the high ones) until then.

    No other change is one of the floor. So whatever goes with it, the floor of a step is the same, and the last few are
    kept with what has been worked out along them.
    """
    course = resolved.work.basis.value.course

    @lru_cache(maxsize=FLOORS_KEPT)
    def warmed(difference_k: float) -> Course:
        found = course.warmer_by(difference_k)
        prepare(course=found, curves=plan.curves)
        return found

    return tuple(
        Try(
            made=partial(_warmer_by, warmed=warmed, difference_k=steps * WARMTH_STEP_K),
            late=partial(_warmer_by, warmed=warmed, difference_k=steps * WARMTH_STEP_K - ROUNDING_K),
            hard=partial(_warmer_by, warmed=warmed, difference_k=steps * WARMTH_STEP_K + ROUNDING_K),
            change=partial(_warmth, resolved, steps * WARMTH_STEP_K),
        )
        for steps in range(1, _most_warmth(resolved, [work.limits_k for work in plan.layers], until_s) + 1)
    )


def longer_shifts(resolved: ResolvedJob) -> Iterator[Try]:
    """Every shift longer, by whole hours at its end, up to 12 hours in all."""
    shifts = resolved.work.listed_shifts.value or ()
    room = LONGEST_SHIFT_MINUTES - max(map(length_minutes, shifts), default=DAY_MINUTES)
    for hours in range(1, room // 60 + 1):
        longer = tuple(replace(shift, ends=_later(shift.ends, hours * 60)) for shift in shifts)
        by = Figure(hours * 3600.0, Kind.DURATION)
        yield _shifts("longer-shifts", longer, by, Say(code="remedy-longer-shifts", params={"by": by}))


def another_shift(resolved: ResolvedJob) -> Iterator[Try]:
    """Another crew that takes over where the longest shift ends, or more of them until the day is full."""
    shifts = resolved.work.listed_shifts.value
    if shifts is None:
        return
    model = max(shifts, key=length_minutes)
    length = length_minutes(model)
    more = shifts
    fullest = max(sum(day in shift.days for shift in shifts) for day in model.days)
    most = min(MORE_CREWS, math.ceil(DAY_MINUTES / length) - 1, MOST_SHIFTS_A_DAY - fullest)
    for count in range(1, most + 1):
        begins = _later(model.ends, (count - 1) * length)
        ends = _later(begins, min(length, DAY_MINUTES - count * length))
        more = (*more, replace(model, starts=begins, ends=ends))
        full = (count + 1) * length >= DAY_MINUTES
        text = Say(code="remedy-crews-all-day", params={"count": count})
        if not full:
            text = Say(code="remedy-another-shift", params={"count": count, "hours": _written(more[-1])})
        yield _shifts("another-shift", more, Figure(count, Kind.COUNT), text)


def extra_days(resolved: ResolvedJob) -> Iterator[Try]:
    """The longest shift on further weekdays: one of them, then two, and so on."""
    shifts = resolved.work.listed_shifts.value
    if shifts is None:
        return
    model = max(shifts, key=length_minutes)
    for days in _bare_days(shifts):
        text = Say(code="remedy-extra-days", params={"days": _named(days), "hours": _written(model)})
        yield _shifts("extra-days", (*shifts, replace(model, days=days)), Figure(len(days), Kind.COUNT), text)


def round_the_clock(resolved: ResolvedJob) -> Iterator[Try]:
    """Work at every hour of every day but the closed ones; the shifts that the job lists are taken away."""
    if resolved.work.listed_shifts.value is None:
        return
    kind: RemedyKind = "round-the-clock"
    places = [RemedyChange(kind=kind, pointer="/work/round_the_clock", value=True, by=None)]
    if asked_work(resolved).shifts is not None:
        places.append(RemedyChange(kind=kind, pointer="/work/shifts", value=None, by=None))
    change = Change(text=Say(code="remedy-round-the-clock"), places=tuple(places))
    yield plain_try(partial(with_shifts, shifts=None), lambda: change)


def more_hours(resolved: ResolvedJob) -> tuple[Try, ...]:
    """Longer shifts, then more crews where they fill more of the day than that, at last around the clock."""
    shifts = resolved.work.listed_shifts.value or ()
    length = max(map(length_minutes, shifts), default=DAY_MINUTES)
    fuller = (step for count, step in enumerate(another_shift(resolved), 2) if count * length > LONGEST_SHIFT_MINUTES)
    return (*longer_shifts(resolved), *fuller, *round_the_clock(resolved))


def stations(resolved: ResolvedJob) -> Iterator[Try]:
    """One mixing station more and more."""
    own = resolved.work.crew.mixing_stations.value
    for count in range(own + 1, min(own + MORE_STATIONS, MOST_STATIONS) + 1):
        by, text = Figure(count - own, Kind.COUNT), Say(code="remedy-mixing-stations", params={"count": count})
        yield _put(
            "mixing-stations", "/work/crew/mixing_stations", count, by, text, partial(_with_stations, count=count)
        )


def length_minutes(shift: Shift) -> int:
    """How long a shift is [min]; one that ends as it begins is a whole day."""
    return (_minutes(shift.ends) - _minutes(shift.starts) - 1) % DAY_MINUTES + 1


def _warmer_by(resolved: ResolvedJob, *, warmed: Callable[[float], Course], difference_k: float) -> ResolvedJob:
    return with_course(resolved, warmed(difference_k))


def _most_warmth(resolved: ResolvedJob, limits_k: Iterable[Limits], until_s: float) -> int:
    basis = resolved.work.basis.value
    highs_k = [one.high for one in limits_k if one.high is not None]
    warmest_k = basis.course.reached_k(basis.start_s, until_s)[1]
    room_k = min([MOST_WARMTH_K, *(high_k - warmest_k for high_k in highs_k)])
    return max(0, math.floor((room_k + ROUNDING_K) / WARMTH_STEP_K))


def _warmth(resolved: ResolvedJob, difference_k: float) -> Change:
    by = Figure(difference_k, Kind.TEMPERATURE_DIFFERENCE)
    value = _temperatures(resolved, resolved.work.basis.value.course.warmer_by(difference_k))
    place = RemedyChange(kind="warmer-floor", pointer="/work/temperatures", value=value, by=by)
    return Change(text=Say(code="remedy-warmer-floor", params={"by": by}), places=(place,))


def _temperatures(resolved: ResolvedJob, course: Course) -> SteadyValue | DailyValue | ReadingsValue:
    low_k, high_k = (Figure(end_k, Kind.TEMPERATURE) for end_k in course.span_k)
    if isinstance(asked_work(resolved).temperatures, Daily):
        coldest = resolved.work.coldest_at.value.isoformat(timespec="minutes")
        return DailyValue(daily=DailyWave(low=low_k, high=high_k, coldest_at=coldest))
    if isinstance(course, LoggedCourse):
        zone = resolved.work.zone.value
        rows = zip(course.instants_s, course.temperatures_k, strict=True)
        return ReadingsValue(
            readings=tuple(
                ReadingValue(at=zone.datetime_at(at_s), temperature=Figure(at_k, Kind.TEMPERATURE))
                for at_s, at_k in rows
            )
        )
    return SteadyValue(steady=low_k)


def _shifts(kind: RemedyKind, shifts: tuple[Shift, ...], by: Figure, text: Say) -> Try:
    value = tuple(ShiftValue(days=shift.days, from_=_clock(shift.starts), to=_clock(shift.ends)) for shift in shifts)
    return _put(kind, "/work/shifts", value, by, text, partial(with_shifts, shifts=shifts))


def _put(
    kind: RemedyKind,
    pointer: str,
    value: RemedyValue,
    by: Figure,
    text: Say,
    made: Callable[[ResolvedJob], ResolvedJob],
) -> Try:
    change = Change(text=text, places=(RemedyChange(kind=kind, pointer=pointer, value=value, by=by),))
    return plain_try(made, lambda: change)


def _with_stations(resolved: ResolvedJob, count: int) -> ResolvedJob:
    work = asked_work(resolved)
    return with_work(resolved, replace(work, crew=replace(work.crew, mixing_stations=count)))


def _minutes(at: time) -> int:
    return at.hour * 60 + at.minute


def _later(at: time, minutes: int) -> time:
    later = (_minutes(at) + minutes) % DAY_MINUTES
    return time(later // 60, later % 60, at.second)


def _clock(at: time) -> str:
    return at.isoformat(timespec="seconds" if at.second else "minutes")


def _named(days: tuple[Weekday, ...]) -> Words:
    """The weekdays in words."""
    return listed(code="weekday-list", phrases=[Say(code=f"weekday-{day}") for day in days])


def _written(shift: Shift) -> str:
    return f"{_clock(shift.starts)}–{_clock(shift.ends)}"


def _bare_days(shifts: tuple[Shift, ...]) -> Iterator[tuple[Weekday, ...]]:
    """The weekdays without a shift: one of them, then two, and so on."""
    covered = {day for shift in shifts for day in shift.days}
    bare = [day for day in Weekday if day not in covered]
    for count in range(1, len(bare) + 1):
        yield from combinations(bare, count)
