"""Lengths of time as people say them: hours and minutes, days and hours, minutes to a tenth.

Decisions:

* Hours are said to the minute, none too early, and from two days on in days and hours: so the page does, too.
* Hours of work are never days: a working day is no 24 hours, and people are paid by the hour.
* Minutes stand to a tenth, under one minute in two digits. Where two are held against each other, what is needed is
  rounded up and what there is down, so the one that is too long never reads as short as the other.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

from gaugerake.floor.values.figure import Telling

Part = tuple[int, str]
_DAYS_FROM_MINUTES = 48 * 60
_NOISE_MINUTES = 1e-3
_ROUNDED: Mapping[Telling | None, str] = {Telling.UP: ROUND_CEILING, Telling.DOWN: ROUND_FLOOR}


def clock_parts(duration_s: float, *, work: bool = False) -> tuple[Part, ...]:
    """Days, hours and minutes with their units, those that are none left out; of ``work`` no days.

    >>> clock_parts(146.1 * 3600), clock_parts(1.521 * 3600), clock_parts(0.0)
    (((6, 'd'), (2, 'h'), (6, 'min')), ((1, 'h'), (32, 'min')), ((0, 'min'),))
    >>> clock_parts(95.25 * 3600, work=True)
    ((95, 'h'), (15, 'min'))
    """
    minutes = math.ceil(duration_s / 60 - _NOISE_MINUTES)
    days, left = divmod(minutes, 1440) if minutes >= _DAYS_FROM_MINUTES and not work else (0, minutes)
    parts = ((days, "d"), (left // 60, "h"), (left % 60, "min"))
    return tuple(part for part in parts if part[0]) or ((0, "min"),)


def has_days(duration_s: float) -> bool:
    """Whether it is said in days, which is a word and no sign.

    >>> has_days(47.5 * 3600), has_days(48.0 * 3600)
    (False, True)
    """
    return clock_parts(duration_s)[0][1] == "d"


def tenths(minutes: float, how: Telling | None = None) -> float:
    """Minutes to a tenth; less than one in two digits.

    >>> [tenths(15.58), tenths(15.58, Telling.DOWN), tenths(15.03, Telling.UP), tenths(0.04583), tenths(4.0)]
    [15.6, 15.5, 15.1, 0.046, 4.0]
    """
    exact = Decimal(f"{minutes:.6g}")
    step = Decimal("0.1") if abs(exact) >= 1 else Decimal(1).scaleb(exact.adjusted() - 1)
    return float(exact.quantize(step, _ROUNDED.get(how, ROUND_HALF_EVEN))) if exact else 0.0
