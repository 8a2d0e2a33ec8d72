"""The hours that shifts leave open."""

from __future__ import annotations

from datetime import date, time
from functools import lru_cache

from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock, Shifts
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.local_time import Zone

ALL_HOURS = (Shift(days=tuple(Weekday), starts=time(0, 0), ends=time(0, 0)),)


def hours_open(shifts: tuple[Shift, ...] | None, closed: tuple[date, ...], zone: Zone) -> OpenHours:
    """The hours that ``shifts`` (None: round the clock) leave open in ``zone``, but for the ``closed`` dates.

    Raises
    ------
    FloorError
        When the shifts never open.
    """
    if shifts is None and not closed:
        return RoundTheClock()
    return _kept_shifts(ALL_HOURS if shifts is None else shifts, closed, zone)


@lru_cache(maxsize=64)
def _kept_shifts(shifts: tuple[Shift, ...], closed: tuple[date, ...], zone: Zone) -> Shifts:
    """Shifts, cached with the days they have looked up: a form asks about the same shifts again and again."""
    return Shifts(shifts=shifts, closed=closed, zone=zone)
