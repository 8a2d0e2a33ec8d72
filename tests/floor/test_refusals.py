"""What each function refuses says which of its parameters is meant, what was seen, and what would do."""

import math
import time
from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any

import pytest

from gaugerake.floor.clock.shifts import Shifts
from gaugerake.floor.cure.course import daily_course, logged_course
from gaugerake.floor.cure.curve import time_curve, time_point
from gaugerake.floor.job import Measured, Point, Polygon
from gaugerake.floor.room.shape import footprint
from gaugerake.floor.values.errors import (
    CrossingOutline,
    DegenerateOutline,
    DoubledTemperature,
    FasterWhenColder,
    FloorError,
    ImpossiblePerimeter,
    NeverOpen,
    NoSuchLocalTime,
    NoTimeStated,
    OutOfOrder,
    OutOfRange,
    UnknownName,
)
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.local_time import instant_of, zone_named

UTC_ZONE = zone_named("UTC")
YORK = zone_named("America/New_York")
SKIPPED = datetime.fromisoformat("2026-03-08T02:30")  # the clocks go from 2:00 to 3:00
THREE = datetime.fromisoformat("2026-03-08T03:00")


def seconds(value: float) -> Figure:
    return Figure(value, "duration")


def kelvin(value: float) -> Figure:
    return Figure(value, "temperature")


def outline(*points: Point) -> Callable[[], object]:
    return lambda: footprint(shape=Polygon(points_m=points))


REFUSED: list[tuple[Callable[[], object], type[FloorError], dict[str, Any]]] = [
    (
        lambda: daily_course(low_k=291.0, high_k=290.0, coldest_at_s=0.0, zone=UTC_ZONE),
        OutOfRange,
        {"parameter": "low_k", "value": kelvin(291.0), "low": None, "high": kelvin(290.0)},
    ),
    (lambda: logged_course([(0, 280), (5, 281), (5, 282)]), OutOfOrder, {"parameter": "readings", "index": 2}),
    (lambda: logged_course([(7, 280), (5, 281)]), OutOfOrder, {"parameter": "readings", "index": 1}),
    (lambda: time_point(temperature_k=290.0), NoTimeStated, {"parameter": "likely_s", "temperature_k": 290.0}),
    (
        lambda: time_point(temperature_k=0.0, likely_s=9.0),
        OutOfRange,
        {"parameter": "temperature_k", "value": kelvin(0.0), "low": None, "high": None},
    ),
    (
        lambda: time_point(temperature_k=290.0, low_s=0.0, high_s=9.0),
        OutOfRange,
        {"parameter": "low_s", "value": seconds(0.0), "low": seconds(0.0), "high": None},
    ),
    (
        lambda: time_point(temperature_k=290.0, likely_s=-1.0),
        OutOfRange,
        {"parameter": "likely_s", "value": seconds(-1.0), "low": seconds(0.0), "high": None},
    ),
    (
        lambda: time_point(temperature_k=290.0, likely_s=5.0, high_s=-2.0),
        OutOfRange,
        {"parameter": "high_s", "value": seconds(-2.0), "low": seconds(0.0), "high": None},
    ),
    (
        lambda: time_point(temperature_k=290.0, low_s=5.0, likely_s=4.0, high_s=9.0),
        OutOfRange,
        {"parameter": "likely_s", "value": seconds(4.0), "low": seconds(5.0), "high": seconds(9.0)},
    ),
    (
        lambda: time_point(temperature_k=290.0, low_s=5.0, likely_s=10.0, high_s=9.0),
        OutOfRange,
        {"parameter": "likely_s", "value": seconds(10.0), "low": seconds(5.0), "high": seconds(9.0)},
    ),
    (lambda: time_curve([]), NoTimeStated, {"parameter": "points", "temperature_k": None}),
    (
        lambda: time_curve([time_point(temperature_k=290.0, likely_s=each) for each in (5.0, 6.0)]),
        DoubledTemperature,
        {"parameter": "points", "temperature_k": 290.0},
    ),
    (
        lambda: time_curve(
            [
                time_point(temperature_k=295.0, low_s=4.0, likely_s=6.0, high_s=9.0),
                time_point(temperature_k=290.0, low_s=5.0, likely_s=6.0, high_s=8.0),
            ]
        ),
        FasterWhenColder,
        {"parameter": "points", "column": "high", "colder_k": 290.0, "time_s": 8.0},
    ),
    (
        lambda: zone_named("America/Chicag"),
        UnknownName,
        {"parameter": "zone", "seen": "America/Chicag", "nearest": "America/Chicago"},
    ),
    (lambda: zone_named("?"), UnknownName, {"parameter": "zone", "seen": "?", "nearest": None}),
    (
        lambda: instant_of(SKIPPED, zone=YORK, parameter="start"),
        NoSuchLocalTime,
        {"parameter": "start", "seen": SKIPPED, "nearest": THREE},
    ),
    (lambda: instant_of(SKIPPED, zone=YORK), NoSuchLocalTime, {"parameter": "local"}),
    (
        lambda: footprint(shape=Measured(area_m2=math.pi, perimeter_m=6.28)),
        ImpossiblePerimeter,
        {"parameter": "perimeter", "perimeter_m": 6.28, "least_m": pytest.approx(2 * math.pi)},
    ),
    (outline((0, 0), (4, 4), (4, 0), (0, 4)), CrossingOutline, {"parameter": "points", "x_m": 2.0, "y_m": 2.0}),
    (outline((0, 0), (4, 4)), DegenerateOutline, {"parameter": "points"}),
    (outline((0, 0), (4, 4), (9, 9)), DegenerateOutline, {"parameter": "points"}),
    (lambda: Shifts(shifts=[], closed=[], zone=UTC_ZONE), NeverOpen, {"parameter": "shifts"}),
]


@pytest.mark.parametrize("refused, error, told", REFUSED)
def test_what_is_refused_is_told(refused: Callable[[], object], error: type[FloorError], told: dict[str, Any]) -> None:
    with pytest.raises(error) as caught:
        refused()
    assert {name: getattr(caught.value, name) for name in told} == told
    assert str(caught.value) == told["parameter"]


@pytest.fixture
def machine_in_tokyo(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.usefixtures("machine_in_tokyo")
def test_the_machines_own_zone_changes_nothing() -> None:
    """2026-03-07 22:00 in New York is 03:00 UTC of the 8th, 1,772,938,800 s after 1970 (date -d … +%s)."""
    assert instant_of(datetime.fromisoformat("2026-03-07T22:00"), zone=YORK).at_s == 1_772_938_800
    with pytest.raises(NoSuchLocalTime) as caught:
        instant_of(SKIPPED, zone=YORK)
    assert caught.value.nearest == THREE


def test_a_second_is_a_time() -> None:
    assert time_point(temperature_k=290.0, likely_s=0.5).high_s == 0.5
    assert time_point(temperature_k=0.5, likely_s=1.0).likely_s == 1.0
