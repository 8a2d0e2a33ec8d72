"""What a timetable assumes, and what it refuses."""

from dataclasses import replace
from datetime import datetime

import pytest
from tests.answers.return_times.jobs import CREW, ROOM, START, SYSTEM, WORK, answer, codes, context
from tests.asked import return_times, work_span
from tests.builders import FT, HOUR, MINUTE, fahrenheit

from gaugerake.answers.job.errors import Refused
from gaugerake.answers.show.reader import SI_READER, US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.clock.timetable import Cause
from gaugerake.floor.job import Air, Daily, Joint, Order, Readings, Slab, Steady, TemperatureReading, Work
from gaugerake.floor.values.errors import Contradiction, NeverOpen, NoSuchLocalTime, OutOfOrder, UnknownName
from gaugerake.floor.values.figure import Figure, Kind


def test_the_least_job_has_every_assumption_with_its_place() -> None:
    asked = context(Work(start=START), system=replace(SYSTEM, layers=SYSTEM.layers[1:]))
    return_times(asked)
    assumed = {
        note.pointer: note.value for note in asked.record.assumptions if (note.pointer or "").startswith("/work")
    }
    assert assumed == {
        "/work/zone": "UTC",
        "/work/temperatures": Figure(fahrenheit(70), Kind.TEMPERATURE),
        "/work/shifts": None,
        "/work/crew/prepare_rate": Figure(300 * 0.3048**2 / 3600, Kind.AREA_RATE),
        "/work/crew/cast_rate": Figure(900 * 0.45359237 / 3600, Kind.MASS_RATE),
        "/work/crew/hands": None,
        "/work/crew/mixing_stations": Figure(1, Kind.COUNT),
        "/work/crew/minutes_per_mix": Figure(240.0, Kind.MINUTES),
        "/work/crew/placing_rate": Figure(600 * 0.3048**2 / 3600, Kind.AREA_RATE),
        "/work/crew/coating_rate": Figure(1000 * 0.3048**2 / 3600, Kind.AREA_RATE),
        "/work/crew/clearing_rate": Figure(2000 * 0.3048**2 / 3600, Kind.AREA_RATE),
    }


@pytest.mark.parametrize(
    ("job", "code", "kelvin"),
    [
        ({"slab": Slab(temperature_k=285.0), "air": Air(temperature_k=290.0)}, "floor-as-slab", 285.0),
        ({"air": Air(temperature_k=290.0)}, "floor-as-air", 290.0),
        ({}, "floor-at-reference", fahrenheit(70)),
    ],
)
def test_an_unsaid_floor_is_the_slab_then_the_air_then_the_reference(
    job: dict[str, object], code: str, kelvin: float
) -> None:
    asked = context(replace(WORK, temperatures=None), **job)  # type: ignore[arg-type]
    return_times(asked)
    found = next(note for note in asked.record.assumptions if note.pointer == "/work/temperatures")
    assert (found.code, found.value) == (code, Figure(kelvin, Kind.TEMPERATURE))
    assert "floor-temperatures-unsaid" in codes(asked.record.missing)


def test_what_the_job_says_is_not_assumed() -> None:
    asked = context()
    return_times(asked)
    assert {note.pointer for note in asked.record.assumptions} <= {
        "/order/optional_layers",
        "/thickness",
        "/work/material_temperature",
        "/work/crew/hands",
    }


@pytest.mark.parametrize(
    "temperatures",
    [
        Steady(temperature_k=290.0),
        Daily(low_k=280.0, high_k=295.0),
    ],
)
def test_without_a_start_hours_count_from_it_and_nothing_has_an_instant(
    temperatures: Steady | Daily,
) -> None:
    asked = context(Work(temperatures=temperatures, crew=CREW, preparation_s=2 * HOUR))
    found = return_times(asked)
    shown = render(found, SI_READER)
    assert found.open_hours == ()
    assert work_span(asked) is None
    for step in shown["steps"]:
        assert (step["from"], step["until"], step["cured"]) == (None, None, None)
        assert step["after"]["value"] >= 0
    assert shown["steps"][0]["lasts"] == {"value": 2.0, "unit": "h"}
    for one in shown["returns"]:
        assert (one["earliest"], one["likely"], one["latest"]) == (None, None, None)
        assert one["after"]["value"] > 0
    assert "start-unsaid" in codes(asked.record.missing)


def test_without_a_start_a_deadline_still_has_a_latest_one() -> None:
    by = datetime.fromisoformat("2027-03-26T05:00")
    found = answer(replace(WORK, start=None, reopen_by=by, traffic="vehicle")).deadline
    assert found is not None
    assert (found.met, found.slack, found.remedies) == (None, None, ())
    assert found.latest_start is not None
    again = answer(replace(WORK, start=found.latest_start, reopen_by=by, traffic="vehicle")).deadline
    assert again is not None
    assert again.met is True


@pytest.mark.parametrize("hour", range(0, 24, 3))
@pytest.mark.parametrize("zone", ["America/Chicago", "Asia/Kolkata"])
def test_the_latest_start_is_the_same_without_a_start(zone: str, hour: int) -> None:
    """The days are those of the job's own clock, in whose small hours the floor is coldest."""
    by = datetime.fromisoformat(f"2027-03-26T{hour:02d}:00")
    work = replace(WORK, zone=zone, reopen_by=by, traffic="vehicle", temperatures=Daily(low_k=280.0, high_k=296.0))
    without, with_one = (answer(replace(work, start=start)).deadline for start in (None, START))
    assert without is not None
    assert with_one is not None
    assert without.latest_start == with_one.latest_start


def test_an_optional_layer_has_its_step_when_it_is_chosen() -> None:
    found = answer(order=Order(optional_layers=("primer",)))
    assert found.steps[0].layer == "primer"


def test_sealant_has_a_step_of_its_own_and_holds_no_traffic_back() -> None:
    """45 ft at 60 ft/h are 45 min (common practice, no source), after the cure of the coat before it."""
    joint = Joint(length_m=45 * FT, width_m=0.01, depth_m=0.012)
    with_joint = answer(rooms=(replace(ROOM, joints=(joint,)),))
    coat, sealing = with_joint.steps[-2:]
    assert sealing.layer == "joint"
    assert sealing.lasts is not None and sealing.lasts.value == pytest.approx(45 * MINUTE)
    assert sealing.waits_for[0].cause is Cause.CURE
    assert coat.cured is not None and sealing.from_ is not None and sealing.from_ >= coat.cured
    assert with_joint.returns == answer().returns


# What is refused


@pytest.mark.parametrize(
    ("work", "pointer", "error"),
    [
        (replace(WORK, zone="America/Chicagoo"), "/work/zone", UnknownName),
        (replace(WORK, start=datetime.fromisoformat("2027-03-14T02:30")), "/work/start", NoSuchLocalTime),
        (replace(WORK, reopen_by=datetime.fromisoformat("2027-03-14T02:00")), "/work/reopen_by", NoSuchLocalTime),
        (replace(WORK, traffic="vehicles"), "/work/traffic", UnknownName),
        (replace(WORK, shifts=()), "/work/shifts", NeverOpen),
        (replace(WORK, round_the_clock=True), "/work/round_the_clock", Contradiction),
        (
            replace(WORK, temperatures=Readings(readings=(TemperatureReading(at=START, temperature_k=290.0),) * 2)),
            "/work/temperatures/readings/1/at",
            OutOfOrder,
        ),
        (
            replace(
                WORK,
                temperatures=Readings(
                    readings=(
                        TemperatureReading(at=START, temperature_k=290.0),
                        TemperatureReading(at=datetime.fromisoformat("2027-03-14T02:15"), temperature_k=290.0),
                    )
                ),
            ),
            "/work/temperatures/readings/1/at",
            NoSuchLocalTime,
        ),
    ],
)
def test_a_job_that_means_nothing_is_refused_at_its_place(work: Work, pointer: str, error: type[Exception]) -> None:
    with pytest.raises(Refused) as refused:
        answer(work)
    assert [(fault.pointer, type(fault.error)) for fault in refused.value.faults] == [(pointer, error)]


def test_a_local_time_that_comes_twice_is_the_first_and_said() -> None:
    asked = context(replace(WORK, start=datetime.fromisoformat("2027-11-07T01:30")))
    return_times(asked)
    assert codes(asked.record.assumptions)["first-of-two-times"] == 1
    assert render(work_span(asked), US_READER)[0] == "2027-11-07T01:30:00-05:00"
