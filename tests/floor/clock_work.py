"""Layers, shifts and courses for the tests of the clock."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from gaugerake.floor.clock.shifts import Shifts
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return
from gaugerake.floor.cure.course import DailyCourse, SteadyCourse
from gaugerake.floor.cure.curve import TimeCurve, time_curve, time_point
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.local_time import zone_named
from gaugerake.floor.values.range import Limits

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")
WEEKDAYS = tuple(Weekday)[:5]


def curve(*rows: tuple[float, float]) -> TimeCurve:
    """(°C, likely hours), with a tenth less and a fifth more as low and high."""
    return time_curve(
        time_point(
            temperature_k=at + 273.15, low_s=hours * 0.9 * HOUR, likely_s=hours * HOUR, high_s=hours * 1.2 * HOUR
        )
        for at, hours in rows
    )


BODY = LayerWork(
    layer="body",
    parts_s=(2 * HOUR, 1.5 * HOUR),
    limits_k=Limits(low=278.15, high=303.15),
    cure=curve((10, 20), (20, 10), (30, 6)),
    broadcast="broadcast",
    broadcast_wait=curve((10, 0.25), (20, 0.2), (30, 0.1)),
    clear_s=0.75 * HOUR,
)
FIRST = LayerWork(
    layer="coat-1",
    parts_s=(1.2 * HOUR,),
    limits_k=Limits(low=280.15, high=303.15),
    cure=curve((10, 7), (20, 4)),
    abrade_s=1.2 * HOUR,
)
SECOND = replace(FIRST, layer="coat-2")
PLAN = Plan(
    preparation_s=6 * HOUR,
    layers=(BODY, FIRST, SECOND),
    returns=(
        Return(traffic="foot", after=curve((10, 16), (20, 8))),
        Return(traffic="vehicle", after=curve((10, 130), (20, 70))),
    ),
    returns_from=2,
)
DAY_SHIFT = Shift(days=WEEKDAYS, starts=time(7, 0), ends=time(15, 30))
NIGHT_SHIFT = Shift(days=WEEKDAYS, starts=time(22, 0), ends=time(6, 0))


def shifts(*listed: Shift, closed: tuple[date, ...] = ()) -> Shifts:
    return Shifts(shifts=listed, closed=closed, zone=CHICAGO)


def at(text: str) -> float:
    return datetime.fromisoformat(text).replace(tzinfo=CHICAGO.info).timestamp()


def reads(instant_s: float | None) -> str | None:
    return None if instant_s is None else CHICAGO.datetime_at(instant_s).strftime("%a %d %H:%M")


def wave(low_c: float, high_c: float, coldest_at: float) -> Callable[[float], float]:
    def kelvin(instant_s: float) -> float:
        wall = datetime.fromtimestamp(instant_s, tz=ZoneInfo("America/Chicago"))
        hour = wall.hour + wall.minute / 60 + wall.second / 3600
        mean, height = (low_c + high_c) / 2, (high_c - low_c) / 2
        return 273.15 + mean - height * math.cos(2 * math.pi * (hour - coldest_at) / 24)

    return kelvin


def daily(low_c: float, high_c: float, coldest_at: float = 5.0) -> DailyCourse:
    return DailyCourse(low_k=low_c + 273.15, high_k=high_c + 273.15, coldest_at_s=coldest_at * HOUR, zone=CHICAGO)


CLOSING = replace(PLAN, layers=(BODY, replace(FIRST, recoat_closes=curve((10, 30), (25, 20))), SECOND))
LONG_GAP = replace(PLAN, layers=(BODY, replace(FIRST, recoat_closes=curve((10, 12), (25, 6))), SECOND))
CASES = {
    "steady, day shifts": (PLAN, (DAY_SHIFT,), (), daily(15, 15.001), wave(15, 15.001, 5), "2027-03-04T06:00"),
    "a cold wave and a weekend": (PLAN, (DAY_SHIFT,), (), daily(4, 14), wave(4, 14, 5), "2027-03-04T06:00"),
    "a hot wave": (PLAN, (DAY_SHIFT,), (), daily(22, 37), wave(22, 37, 5), "2027-07-08T06:00"),
    "over the change of the clocks": (PLAN, (DAY_SHIFT,), (), daily(6, 16), wave(6, 16, 5), "2027-03-12T07:00"),
    "back again in autumn": (PLAN, (DAY_SHIFT,), (), daily(6, 16), wave(6, 16, 5), "2027-11-05T07:00"),
    "nights": (PLAN, (NIGHT_SHIFT,), (), daily(10, 18), wave(10, 18, 5), "2027-03-10T12:00"),
    "a closed day": (
        PLAN,
        (DAY_SHIFT,),
        (date(2027, 3, 8), date(2027, 3, 9)),
        daily(8, 16),
        wave(8, 16, 5),
        "2027-03-05T06:00",
    ),
    "round the clock": (PLAN, None, (), daily(6, 13), wave(6, 13, 5), "2027-03-05T06:00"),
    "a window that closes over the weekend": (
        CLOSING,
        (DAY_SHIFT,),
        (),
        daily(10, 18),
        wave(10, 18, 5),
        "2027-03-03T06:00",
    ),
    "a window that is short": (LONG_GAP, (DAY_SHIFT,), (), daily(10, 18), wave(10, 18, 5), "2027-03-04T06:00"),
}


# Steps, by hand

STEADY = SteadyCourse(temperature_k=293.15)
