"""The days of the work: a shift's own date, midnight where there is no shift, and what runs past its shift."""

from datetime import UTC, date, datetime, time

import pytest
from tests.builders import DAY, HOUR

from gaugerake.floor.clock.days import WorkDay, work_days
from gaugerake.floor.clock.schedule import Placed
from gaugerake.floor.clock.shifts import OpenHours, RoundTheClock, Shifts
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.local_time import zone_named

MIDNIGHT_S = datetime(2027, 3, 1, tzinfo=UTC).timestamp()
GREENWICH, CHICAGO = zone_named("UTC"), zone_named("America/Chicago")


def at(hours: float) -> float:
    """So many hours after the Monday's first, in Greenwich."""
    return MIDNIGHT_S + hours * HOUR


def placed(*spans: tuple[float, float]) -> Placed:
    return Placed(stretches=tuple((at(begin), at(end)) for begin, end in spans))


def shifts(*spans: tuple[int, int], closed: tuple[date, ...] = ()) -> Shifts:
    each = [Shift(days=tuple(Weekday), starts=time(begin), ends=time(end)) for begin, end in spans]
    return Shifts(shifts=each, closed=closed, zone=GREENWICH)


def told(days: tuple[WorkDay, ...]) -> list[tuple[int, int, float, float, float]]:
    """Day of the month, step, hours of begin and end from Monday's midnight, hours done before."""
    return [
        (day.date.day, one.step, *((x - MIDNIGHT_S) / HOUR for x in (one.from_s, one.until_s)), one.done_s / HOUR)
        for day in days
        for one in day.parts
    ]


def test_a_night_shift_is_of_the_day_on_which_it_starts() -> None:
    found = work_days(steps=[placed((22, 25)), placed((25, 30), (46, 47))], hours=shifts((22, 6)), zone=GREENWICH)
    assert told(found) == [(1, 0, 22, 25, 0), (1, 1, 25, 30, 0), (2, 1, 46, 47, 5)]


def test_round_the_clock_a_day_ends_at_midnight() -> None:
    found = work_days(steps=[placed((20, 75))], hours=RoundTheClock(), zone=GREENWICH)
    assert told(found) == [(1, 0, 20, 24, 0), (2, 0, 24, 48, 4), (3, 0, 48, 72, 28), (4, 0, 72, 75, 52)]


@pytest.mark.parametrize("hours", [shifts((6, 14), (14, 22), (22, 6)), shifts((0, 0), closed=(date(2027, 4, 1),))])
def test_so_does_one_where_shifts_meet_all_day(hours: OpenHours) -> None:
    found = work_days(steps=[placed((20, 30))], hours=hours, zone=GREENWICH)
    assert told(found) == [(1, 0, 20, 24, 0), (2, 0, 24, 30, 4)]


def test_two_shifts_of_a_date_are_one_day() -> None:
    found = work_days(steps=[placed((7, 12), (13, 17))], hours=shifts((7, 12), (13, 17)), zone=GREENWICH)
    assert told(found) == [(1, 0, 7, 12, 0), (1, 0, 13, 17, 5)]


def test_what_runs_past_its_shift_stays_on_its_day() -> None:
    """Aggregate is cast until an hour after the shift; what begins after it is of that day too."""
    steps = [placed((7, 15)), placed((7.2, 16)), placed((15.5, 16))]
    found = work_days(steps=steps, hours=shifts((7, 15)), zone=GREENWICH)
    assert told(found) == [(1, 0, 7, 15, 0), (1, 1, 7.2, 16, 0), (1, 2, 15.5, 16, 0)]


def test_a_step_without_hours_stands_on_no_day() -> None:
    found = work_days(steps=[placed((7, 8)), None], hours=shifts((7, 15)), zone=GREENWICH)
    assert told(found) == [(1, 0, 7, 8, 0)]


def test_work_of_no_time_stands_on_its_day() -> None:
    found = work_days(steps=[placed((7, 7))], hours=shifts((7, 15)), zone=GREENWICH)
    assert told(found) == [(1, 0, 7, 7, 0)]


def test_the_day_of_a_clock_change_has_23_hours() -> None:
    """Chicago, 2027-03-14: clocks are set from 02:00 to 03:00, so midnight comes after 23 h."""
    begins_s = datetime.fromisoformat("2027-03-14T00:00:00-06:00").timestamp()
    step = Placed(stretches=((begins_s, begins_s + DAY),))
    first, second = work_days(steps=[step], hours=RoundTheClock(), zone=CHICAGO)
    assert (first.date, second.date) == (date(2027, 3, 14), date(2027, 3, 15))
    assert (first.until_s - first.from_s) / HOUR == 23
