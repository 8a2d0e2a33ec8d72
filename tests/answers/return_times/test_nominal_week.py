"""A job without a start: its hours count in a week of no date, and round the clock only where the job says so.

Worked by hand for 1,200 ft² at 70 °F: 50 mixes of 24 ft², 4 min each, are 3 1/3 h, and the last sand is cast 15 min
later, at 3 h 35 min. Sand cures in √(12·15) = 13.4164 h. Clearing takes 1,200/2,000 = 0.6 h, a coat 1.2 h, and a coat
cures in √(5·6) = 5.4772 h.
"""

from dataclasses import replace
from datetime import date, datetime, time
from math import sqrt

import pytest
from tests.answers.return_times.jobs import START, WORK, answer, context
from tests.asked import return_times
from tests.builders import HOUR

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.clock.timetable import StepKind
from gaugerake.floor.job import Daily, Readings, Shift, TemperatureReading, Weekday, Work
from gaugerake.floor.values.errors import NoStart

COUNTER = replace(WORK, start=None, zone=None)
SAND, COAT = sqrt(12 * 15), sqrt(5 * 6)


def begins(found: ReturnTimes) -> dict[str, float]:
    """What each step is, and the hours until it begins."""
    rows = {}
    for step in found.steps:
        assert step.after is not None
        name = step.layer if step.step is StepKind.APPLY else step.step.value
        rows[str(name)] = step.after.value / HOUR
    return rows


def test_the_crew_goes_home_at_night() -> None:
    """Sand has cured by midnight, and is cleared when the shift of Tuesday opens, 24 h after that of Monday.

    The first coat has cured at 24 + 0.6 + 1.2 + 5.4772 = 31.2772 h, 14:16:38 on Tuesday: the 1.2 h of the second end
    at 15:28:38, in time for 15:30.
    """
    assert 3 + 35 / 60 + SAND < 24
    assert begins(answer(COUNTER)) == pytest.approx(
        {"body": 0, "broadcast": 0.2, "clear": 24, "coat-1": 24.6, "coat-2": 24.6 + 1.2 + COAT}
    )


def test_round_the_clock_nobody_goes_home() -> None:
    cured = 3 + 35 / 60 + SAND
    coats = {"coat-1": cured + 0.6, "coat-2": cured + 0.6 + 1.2 + COAT}
    expected = {"body": 0, "broadcast": 0.2, "clear": cured, **coats}
    assert begins(answer(replace(COUNTER, shifts=None, round_the_clock=True))) == pytest.approx(expected)


def test_unsaid_shifts_are_those_of_an_ordinary_week() -> None:
    """Monday to Friday 07:00 to 15:30, as with a start; and that is told."""
    asked = context(replace(COUNTER, shifts=None))
    assert begins(return_times(asked)) == pytest.approx(begins(answer(COUNTER)))
    assert {"shifts-usual", "nominal-monday"} <= {note.code for note in asked.record.assumptions}


def test_closed_days_are_left_out() -> None:
    assert answer(replace(COUNTER, closed=(date(1970, 1, 6),))) == answer(COUNTER)


@pytest.mark.parametrize(
    ("shifts", "told"),
    [
        ((Shift(days=(Weekday.MON,), starts=time(9), ends=time(17)),), "Monday at 09:00"),
        (
            (
                Shift(days=(Weekday.TUE, Weekday.MON), starts=time(22), ends=time(6)),
                Shift(days=(Weekday.MON,), starts=time(12, 30), ends=time(20)),
            ),
            "Monday at 12:30",
        ),
        ((Shift(days=(Weekday.SUN, Weekday.SAT), starts=time(6), ends=time(18)),), "Saturday at 06:00"),
    ],
)
def test_hours_count_from_the_earliest_beginning_of_a_shift_on_monday(shifts: tuple[Shift, ...], told: str) -> None:
    asked = context(replace(COUNTER, shifts=shifts))
    assert begins(return_times(asked))["body"] == 0
    text = next(
        note["text"] for note in render(asked.record.assumptions, US_READER) if note["code"] == "nominal-monday"
    )
    assert told in text


def test_a_daily_wave_goes_by_the_wall_clock_of_that_week() -> None:
    """As on a Monday with a date: the same hours, counted from 07:00."""
    wave = Daily(low_k=285.0, high_k=300.0)
    dated = replace(WORK, temperatures=wave, start=datetime.fromisoformat("2027-03-01T07:00"))
    assert begins(answer(replace(COUNTER, temperatures=wave))) == pytest.approx(begins(answer(dated)))


@pytest.mark.parametrize("work", [COUNTER, replace(COUNTER, shifts=None)])
def test_readings_need_a_start(work: Work) -> None:
    readings = Readings(readings=(TemperatureReading(at=START, temperature_k=291.0),))
    with pytest.raises(Refused) as refused:
        answer(replace(work, temperatures=readings))
    assert [(fault.pointer, type(fault.error)) for fault in refused.value.faults] == [("/work/start", NoStart)]
    answer(replace(work, temperatures=readings, start=START))
    answer(replace(work, temperatures=readings, shifts=None, round_the_clock=True))
