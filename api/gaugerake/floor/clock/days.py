"""The days of the work: which hours of each step lie on which date.

Decisions:

* A day is that of the shift: work of a night shift stands on the date on which the shift starts, and hours that meet
  are one shift. Where they are open for longer than a day, as round the clock, the days are cut at midnight.
* What runs past its shift (aggregate that waits, the rest of a pour) stays on the day on which it began.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from gaugerake.floor.clock.schedule import SAME_INSTANT_S, Placed, joined
from gaugerake.floor.clock.shifts import CLOCK_CHANGE_S, OpenHours, Stretch
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import DAY_S, Zone


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPart:
    """Hours of one step on one day [s]; ``step`` is its place among the steps, from 0.

    ``done_s`` is how long the step has been worked at before them [s].
    """

    step: int
    from_s: float
    until_s: float
    done_s: float

    @property
    def lasts_s(self) -> float:
        """How long it is worked at in them [s]."""
        return self.until_s - self.from_s


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDay:
    """One day of work: its date, and what is done on it, in the order in which it begins."""

    date: date
    parts: tuple[DayPart, ...]

    @property
    def from_s(self) -> float:
        """When its work begins [s]."""
        return self.parts[0].from_s

    @property
    def until_s(self) -> float:
        """When its work ends [s]."""
        return max(part.until_s for part in self.parts)


def work_days(*, steps: Sequence[Placed | None], hours: OpenHours, zone: Zone) -> tuple[WorkDay, ...]:
    """Divide the hours of steps over the days.

    Parameters
    ----------
    steps : sequence of Placed or None
        The hours of each step, in the order of the work; None has no hours, and stands on no day.
    hours : OpenHours
        When the crew works.
    zone : Zone
        Whose wall clock it is.

    Returns
    -------
    tuple of WorkDay
        The days on which something is done, in order.

    Examples
    --------
    Two steps round the clock, the second past midnight:

    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> from gaugerake.floor.values.local_time import zone_named
    >>> steps = [Placed(stretches=((0.0, 72000.0),)), Placed(stretches=((72000.0, 90000.0),))]
    >>> found = work_days(steps=steps, hours=RoundTheClock(), zone=zone_named("UTC"))
    >>> [(day.date.isoformat(), [(part.step, part.from_s, part.until_s) for part in day.parts]) for day in found]
    [('1970-01-01', [(0, 0.0, 72000.0), (1, 72000.0, 86400.0)]), ('1970-01-02', [(1, 86400.0, 90000.0)])]
    """
    found: dict[date, list[DayPart]] = {}
    for step, placed in enumerate(steps):
        done_s = 0.0
        for stretch in joined(placed.stretches if placed else ()):
            for day, from_s, until_s in _divided(stretch, hours, zone):
                part = DayPart(step=step, from_s=from_s, until_s=until_s, done_s=done_s)
                found.setdefault(day, []).append(part)
                done_s += part.lasts_s
    return tuple(
        WorkDay(date=day, parts=tuple(sorted(found[day], key=lambda part: (part.from_s, part.step))))
        for day in sorted(found)
    )


def _divided(stretch: Stretch, hours: OpenHours, zone: Zone) -> Iterator[tuple[date, float, float]]:
    """Hours of work by date."""
    at_s, until_s = stretch
    while True:
        opened_s, ends_s = _shift_day(at_s, hours, zone)
        day = zone.datetime_at(opened_s).date()
        if until_s <= ends_s + SAME_INSTANT_S:
            yield day, at_s, until_s
            return
        yield day, at_s, ends_s
        at_s = ends_s


def _shift_day(at_s: float, hours: OpenHours, zone: Zone) -> Stretch:
    """An instant of the date that work at ``at_s`` belongs to, and until when work goes on on that date [s]."""
    open_s, close_s = next(hours.since(at_s + SAME_INSTANT_S))
    if close_s - open_s > DAY_S + CLOCK_CHANGE_S:
        wall_day = (zone.wall_s(at_s + SAME_INSTANT_S)) // DAY_S
        return at_s + SAME_INSTANT_S, zone.instant_s((wall_day + 1) * DAY_S)
    if open_s > at_s + SAME_INSTANT_S:  # outside of the shifts: what is left of the one before
        open_s = next(hours.before(at_s))[0]
    return open_s, at_s + DAY_S
