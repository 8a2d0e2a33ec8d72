"""A job done another way resolves to what it resolves to from the start, whatever is changed of its work."""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any

import pytest
from tests.asked import resolved
from tests.builders import example, fahrenheit

from gaugerake.answers.job.resolve import resolve, with_course, with_shifts, with_work
from gaugerake.floor.job import Hands, Shift, Steady, Weekday

FULL = example("full")
CREW_CHANGES: dict[str, dict[str, Any]] = {
    "stations": {"mixing_stations": 7},
    "time per mix": {"minutes_per_mix": 11.0},
    "time per mix unsaid": {"minutes_per_mix": None},
    "placing": {"placing_rate_m2_s": 0.02},
    "preparing": {"prepare_rate_m2_s": 0.02},
    "lanes": {"lane_width_m": 2.0, "lane_depth_m": None},
    "hands": {"hands": Hands(place=3)},
    "people": {"people": 4},
}
WORK_CHANGES: dict[str, dict[str, Any]] = {
    "material": {"material_temperature_k": 300.0},
    "material unsaid": {"material_temperature_k": None},
    "floor": {"temperatures": Steady(temperature_k=300.0)},
    "start": {"start": datetime.fromisoformat("2027-03-09T07:00")},
    "no shifts": {"shifts": None, "round_the_clock": True},
    "preparation unsaid": {"preparation_s": None},
    "deadline": {"reopen_by": None},
    "zone": {"zone": "Europe/Vienna"},
}

NIGHT = (Shift(days=(Weekday.SAT,), starts=time(22), ends=time(6)),)


@pytest.mark.parametrize("name", [*CREW_CHANGES, *WORK_CHANGES])
def test_other_work_is_as_if_it_had_been_asked_for(name: str) -> None:
    job = resolved(FULL)
    work = job.asked.work
    crew = replace(work.crew, **CREW_CHANGES.get(name, {}))
    other = replace(work, crew=crew, **WORK_CHANGES.get(name, {}))
    anew = resolve(replace(job.asked, work=other), job.supply)
    assert anew.work != job.work
    assert with_work(job, other).work == anew.work


@pytest.mark.parametrize(("listed", "unsaid"), [(NIGHT, ()), (NIGHT, ("start", "reopen_by")), (None, ())])
def test_other_shifts_are_as_if_they_had_been_asked_for(
    listed: tuple[Shift, ...] | None, unsaid: tuple[str, ...]
) -> None:
    job = resolved({**FULL, "work": {name: said for name, said in FULL["work"].items() if name not in unsaid}})
    work = replace(job.asked.work, shifts=listed, round_the_clock=listed is None)
    anew = resolve(replace(job.asked, work=work), job.supply)
    found = with_shifts(job, listed)
    assert found.work != job.work
    assert (found.asked, found.work, found.age_s) == (anew.asked, anew.work, anew.age_s)


def test_a_floor_that_is_as_its_air_keeps_the_warmth_that_it_is_given() -> None:
    start = datetime.fromisoformat("2027-03-05T06:00")
    readings = [
        {"at": (start + timedelta(hours=at)).isoformat(), "temperature": f"{60 + at} degF", "humidity_percent": 50}
        for at in (0, 6)
    ]
    job = resolved({**FULL, "air": {"readings": readings}, "work": {"start": start.isoformat(), "zone": "UTC"}})
    warm = with_course(job, job.work.course.value.warmer_by(5.0))
    work = job.asked.work
    again = with_work(warm, replace(work, crew=replace(work.crew, mixing_stations=2)))
    assert again.work.course.value.span_k[0] == pytest.approx(fahrenheit(61.0) + 5.0)  # the slab's own 61 °F
