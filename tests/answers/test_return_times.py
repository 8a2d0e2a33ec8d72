"""The timetable of a job: what it assumes, what it says, and a winter beside a summer."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest
from tests import builders
from tests.builders import FT, FT2, FT3, GALLON, HOUR, aggregate, curve, fahrenheit, liquid, mixes, triple

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.return_times.answer import ReturnTimes, return_times, work_span
from gaugerake.answers.return_times.remedies import Remedy
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.render import render
from gaugerake.floor.clock.timetable import Return
from gaugerake.floor.job import (
    Air,
    Crew,
    Daily,
    Job,
    Joint,
    Measured,
    Order,
    Readings,
    Room,
    Shift,
    Slab,
    Steady,
    TemperatureReading,
    Weekday,
    Work,
)
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.system import System, Thickness
from gaugerake.floor.values.errors import Contradiction, NeverOpen, NoSuchLocalTime, OutOfOrder, UnknownName
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Note
from gaugerake.floor.values.range import Limits, Triple
from gaugerake.measure.choice import SI, US


def spread(per_gallon: float) -> Triple:
    rate = per_gallon * FT2 / GALLON
    return triple(0.9 * rate, rate, 1.1 * rate)


BODY = mixes(
    yield_m3=triple(0.36 * FT3, 0.375 * FT3, 0.39 * FT3),
    mixing_s=150.0,
    temperature_k=Limits(low=fahrenheit(50), high=fahrenheit(90)),
)
SAND, SEALANT = aggregate(), liquid("sealant")
CLEAR = liquid(temperature_k=Limits(low=fahrenheit(50), high=fahrenheit(95)))
COAT = CoatLayer(
    id="coat-1",
    name="First coat",
    product=CLEAR,
    spreading_rate_m2_m3=spread(200),
    cure=curve((50, 12, 14), (70, 5, 6), (90, 3, 4)),
    recoat_closes=curve((50, 60, 60), (70, 36, 36), (90, 20, 20)),
)
SYSTEM = System(
    code="test",
    name="Test",
    description="",
    reference_temperature_k=fahrenheit(70),
    thickness=Thickness(low_m=0.003, usual_m=0.1875 / 12 * FT, high_m=0.01),
    layers=(
        PrimerLayer(
            id="primer",
            name="Primer",
            product=CLEAR,
            optional=True,
            spreading_rate_m2_m3=spread(250),
            cure=curve((70, 4, 5)),
        ),
        BodyLayer(
            id="body",
            name="Body coat",
            product=BODY,
            broadcast_wait=curve((50, 0.3, 0.4), (70, 0.2, 0.25), (90, 0.1, 0.15)),
        ),
        BroadcastLayer(
            id="broadcast",
            name="Sand",
            product=SAND,
            rate_kg_m2=Triple(low=2.0, likely=2.5, high=3.0),
            cure=curve((50, 24, 30), (70, 12, 15), (90, 8, 10)),
        ),
        COAT,
        replace(COAT, id="coat-2", name="Second coat", recoat_closes=None),
        JointLayer(id="joint", name="Sealant", product=SEALANT, cure=curve((70, 20, 24))),
    ),
    returns=(
        Return(traffic="foot", after=curve((50, 16, 20), (70, 8, 10), (90, 5, 6))),
        Return(traffic="vehicle", after=curve((50, 120, 140), (70, 60, 72), (90, 40, 48))),
    ),
)
ROOM = Room(shape=Measured(area_m2=1200 * FT * FT, perimeter_m=140 * FT))
START = datetime.fromisoformat("2027-03-05T06:00")
CREW = Crew(
    mixing_stations=1,
    minutes_per_mix=4,
    placing_rate_m2_s=600 * FT * FT / HOUR,
    coating_rate_m2_s=1000 * FT * FT / HOUR,
    clearing_rate_m2_s=2000 * FT * FT / HOUR,
)
WORK = Work(
    start=START,
    zone="America/Chicago",
    temperatures=Steady(temperature_k=fahrenheit(70)),
    shifts=(Shift(days=tuple(Weekday)[:5], starts=time(7), ends=time(15, 30)),),
    crew=CREW,
    preparation_s=0.0,
)


def context(work: Work = WORK, *, system: System = SYSTEM, working: bool = False, **job: object) -> Context:
    described: dict[str, object] = {"system": "test", "rooms": (ROOM,), "work": work, "order": Order(waste_percent=0.0)}
    return builders.context(Job(**(described | job)), system, working=working)  # type: ignore[arg-type]


def answer(work: Work = WORK, **job: object) -> ReturnTimes:
    return return_times(context(work, **job))  # type: ignore[arg-type]


def codes(notes: Iterable[Note]) -> Counter[str]:
    return Counter(note.code for note in notes)


def clock(instant: datetime | None) -> str | None:
    return None if instant is None else instant.strftime("%a %d %H:%M")


# By hand, at 70 °F


def test_the_timetable_of_a_room_worked_by_hand() -> None:
    """1200 ft² at 3/16 in is 18.75 ft³, 50 mixes of 0.375 ft³ at 4 min: 3 h 20 min (24 ft² a mix placed in 2.4 min).

    The last sand falls 15 min later. The body with it cures in √(12·15) = 13.416 h, a coat in √(5·6) = 5.477 h.
    1200 ft² are cleared in 36 min and coated in 72. Vehicles: 60 to 72 h after the second coat, likely √(60·72).
    """
    found = answer()
    rows = [
        (step.step.value, step.layer, clock(step.from_), clock(step.until), clock(step.cured)) for step in found.steps
    ]
    assert rows == [
        ("apply", "body", "Fri 05 07:00", "Fri 05 10:20", "Fri 05 23:59"),
        ("apply", "broadcast", "Fri 05 07:12", "Fri 05 10:35", "Fri 05 23:59"),
        ("clear", "broadcast", "Mon 08 07:00", "Mon 08 07:36", None),
        ("apply", "coat-1", "Mon 08 07:36", "Mon 08 08:48", "Mon 08 14:16"),
        ("apply", "coat-2", "Mon 08 14:16", "Mon 08 15:28", "Mon 08 20:57"),
    ]
    vehicle = found.returns[1]
    assert clock(vehicle.likely) == "Thu 11 09:13"  # 65 h 43 min 36 s after 15:28:38
    # the low run cures its coat at 13:48 and ends at 15:00; the high one at 14:48, which no longer fits: Tuesday
    assert clock(vehicle.earliest) == "Thu 11 03:00"
    assert clock(vehicle.latest) == "Fri 12 08:12"
    assert vehicle.after == Figure((datetime.fromisoformat("2027-03-12T08:12") - START).total_seconds(), "duration")


def test_each_step_tells_what_it_waits_for_until_when() -> None:
    clear = answer().steps[2]
    assert [(wait.cause.value, wait.layer, clock(wait.until)) for wait in clear.waits_for] == [
        ("cure", "broadcast", "Fri 05 23:59"),
        ("shift", None, "Mon 08 07:00"),
    ]


def test_the_shifts_are_told_as_instants_up_to_the_last_return() -> None:
    spans = answer().open_hours
    assert [(clock(span.from_), clock(span.until)) for span in spans][:2] == [
        ("Fri 05 07:00", "Fri 05 15:30"),
        ("Mon 08 07:00", "Mon 08 15:30"),
    ]
    assert clock(spans[-1].from_) == "Fri 12 07:00"


def test_the_span_of_the_work_ends_with_the_last_cure() -> None:
    assert [clock(end) for end in work_span(context()) or ()] == ["Fri 05 06:00", "Mon 08 20:57"]


def test_instants_are_written_with_the_offset_of_the_zone() -> None:
    shown = render(answer(), US)
    assert shown["steps"][0]["from"] == "2027-03-05T07:00:00-06:00"
    assert shown["returns"][1]["latest"] == "2027-03-12T08:12:00-06:00"


def test_more_stations_place_faster_until_the_hands_are_the_slower() -> None:
    """50 mixes at 2 min by mixing, 2.4 min by placing: 2 h."""
    two = answer(replace(WORK, crew=replace(CREW, mixing_stations=2)))
    assert clock(two.steps[0].until) == "Fri 05 09:00"


# What is assumed


def test_the_least_job_has_every_assumption_with_its_place() -> None:
    asked = context(Work(start=START), system=replace(SYSTEM, layers=SYSTEM.layers[1:]))
    return_times(asked)
    assumed = {
        note.pointer: note.value for note in asked.record.assumptions if (note.pointer or "").startswith("/work")
    }
    assert assumed == {
        "/work/zone": "UTC",
        "/work/temperatures": Figure(fahrenheit(70), "temperature"),
        "/work/shifts": None,
        "/work/preparation": Figure(0.0, "duration"),
        "/work/crew/mixing_stations": Figure(1, "count"),
        "/work/crew/minutes_per_mix": Figure(240.0, "minutes"),
        "/work/crew/placing_rate": Figure(600 * 0.3048**2 / 3600, "area-rate"),
        "/work/crew/coating_rate": Figure(1000 * 0.3048**2 / 3600, "area-rate"),
        "/work/crew/clearing_rate": Figure(2000 * 0.3048**2 / 3600, "area-rate"),
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
    assert (found.code, found.value) == (code, Figure(kelvin, "temperature"))
    assert "floor-temperatures-unsaid" in codes(asked.record.missing)


def test_what_the_job_says_is_not_assumed() -> None:
    asked = context()
    return_times(asked)
    assert {note.pointer for note in asked.record.assumptions} <= {
        "/order/optional_layers",
        "/thickness",
        "/work/material_temperature",
    }


@pytest.mark.parametrize(
    "temperatures",
    [
        Steady(temperature_k=290.0),
        Daily(low_k=280.0, high_k=295.0),
        Readings(readings=(TemperatureReading(at=START, temperature_k=291.0),)),
    ],
)
def test_without_a_start_hours_count_from_it_and_nothing_has_an_instant(
    temperatures: Steady | Daily | Readings,
) -> None:
    asked = context(Work(temperatures=temperatures, crew=CREW, preparation_s=2 * HOUR))
    found = return_times(asked)
    shown = render(found, SI)
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


def test_sealant_has_a_step_of_no_time_and_holds_no_traffic_back() -> None:
    joint = Joint(length_m=5.0, width_m=0.01, depth_m=0.012)
    with_joint = answer(rooms=(replace(ROOM, joints=(joint,)),))
    assert [step.layer for step in with_joint.steps][-1] == "joint"
    assert with_joint.steps[-1].lasts == Figure(0.0, "duration")
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
    assert render(work_span(asked), US)[0] == "2027-11-07T01:30:00-05:00"


# The deadline


def test_a_deadline_is_held_against_the_latest_return() -> None:
    by = datetime(2027, 3, 12, 8, 12, tzinfo=UTC) + timedelta(hours=6)
    for early, met, slack in ((0, True, 0.0), (1, False, -60.0)):
        asked = replace(WORK, reopen_by=by - timedelta(minutes=early), traffic="vehicle")
        found = answer(asked).deadline
        assert found is not None
        assert (found.met, found.slack) == (met, Figure(slack, "duration"))


def test_the_traffic_of_a_deadline_is_the_systems_last_unless_asked() -> None:
    asked = context(replace(WORK, reopen_by=datetime.fromisoformat("2027-03-20T05:00")))
    found = return_times(asked).deadline
    assert found is not None
    assert found.traffic == "vehicle"
    assert codes(asked.record.assumptions)["traffic-last"] == 1


def test_without_a_deadline_there_is_none() -> None:
    assert answer().deadline is None


DEADLINES = [
    (
        # a return on the very minute of the deadline is in time: an hour more lets the second coat end at 16:00
        replace(WORK, reopen_by=datetime.fromisoformat("2027-03-11T16:00"), traffic="vehicle"),
        {"warmer-floor", "longer-shifts", "extra-days"},
    ),
    (
        replace(WORK, reopen_by=datetime.fromisoformat("2027-03-11T12:00"), traffic="vehicle"),
        {"warmer-floor", "another-shift", "extra-days"},
    ),
    (
        replace(
            WORK,
            temperatures=Daily(low_k=fahrenheit(52), high_k=fahrenheit(63)),
            reopen_by=datetime.fromisoformat("2027-03-09T20:00"),
            traffic="foot",
        ),
        {"warmer-floor", "another-shift", "extra-days"},
    ),
    (
        replace(
            WORK,
            temperatures=Readings(
                readings=(
                    TemperatureReading(at=START, temperature_k=fahrenheit(56)),
                    TemperatureReading(at=START + timedelta(days=2), temperature_k=fahrenheit(66)),
                )
            ),
            reopen_by=datetime.fromisoformat("2027-03-09T05:00"),
            traffic="foot",
        ),
        {"warmer-floor", "longer-shifts", "extra-days"},
    ),
    (
        replace(
            WORK,
            start=datetime.fromisoformat("2027-03-08T13:00"),
            reopen_by=datetime.fromisoformat("2027-03-11T06:00"),
            traffic="foot",
        ),
        {"warmer-floor", "longer-shifts", "mixing-stations"},
    ),
]


def applied(work: Work, remedy: Remedy, *, less: bool = False) -> Work:
    """The remedy as a change of the job, whole or one step less of it."""
    if remedy.kind == "mixing-stations":
        assert isinstance(remedy.value, int)
        return replace(work, crew=replace(work.crew, mixing_stations=remedy.value - less))
    if remedy.kind == "warmer-floor":
        difference = remedy.by.value - (0.5 if less else 0)
        return replace(work, temperatures=warmer(work.temperatures, difference))
    assert work.shifts is not None
    [shift] = work.shifts
    count = round(remedy.by.value / (HOUR if remedy.kind == "longer-shifts" else 1)) - less
    if remedy.kind == "longer-shifts":
        return replace(work, shifts=(replace(shift, ends=time(shift.ends.hour + count, shift.ends.minute)),))
    if remedy.kind == "another-shift":  # as long as the one before it, until the day is full
        second = Shift(days=shift.days, starts=time(15, 30), ends=time(0, 0))
        third = Shift(days=shift.days, starts=time(0, 0), ends=time(7, 0))
        return replace(work, shifts=(shift, second, third)[: 1 + count])
    days = (Weekday.SAT, Weekday.SUN)[:count]
    return replace(work, shifts=(shift, replace(shift, days=days)) if days else work.shifts)


def warmer(asked: object, difference: float) -> Steady | Daily | Readings:
    if isinstance(asked, Steady):
        return Steady(temperature_k=asked.temperature_k + difference)
    if isinstance(asked, Daily):
        return replace(asked, low_k=asked.low_k + difference, high_k=asked.high_k + difference)
    assert isinstance(asked, Readings)
    return Readings(
        readings=tuple(replace(one, temperature_k=one.temperature_k + difference) for one in asked.readings)
    )


def met(work: Work) -> bool | None:
    found = answer(work).deadline
    assert found is not None
    return found.met


@pytest.mark.parametrize(("work", "kinds"), DEADLINES)
def test_each_remedy_meets_the_deadline_and_one_step_less_does_not(work: Work, kinds: set[str]) -> None:
    found = answer(work).deadline
    assert found is not None
    assert found.met is False
    assert kinds <= {remedy.kind for remedy in found.remedies}
    for remedy in found.remedies:
        assert met(applied(work, remedy)) is True, remedy
        assert met(applied(work, remedy, less=True)) is False, remedy


def test_warming_is_said_to_be_indirect() -> None:
    asked = context(DEADLINES[0][0])
    return_times(asked)
    assert "indirect-heat" in codes(asked.record.cautions)
    met_already = context(replace(WORK, reopen_by=datetime.fromisoformat("2027-04-20T05:00")))
    return_times(met_already)
    assert "indirect-heat" not in codes(met_already.record.cautions)


def test_a_deadline_before_the_start_has_no_remedy() -> None:
    found = answer(replace(WORK, reopen_by=datetime.fromisoformat("2027-03-04T05:00"))).deadline
    assert found is not None
    assert (found.met, found.remedies) == (False, ())
    assert found.latest_start is not None


# Never, and why


@pytest.mark.parametrize(
    ("temperatures", "code"),
    [
        (Steady(temperature_k=fahrenheit(45)), "never-within-limits"),
        (Daily(low_k=fahrenheit(30), high_k=fahrenheit(70)), "freezes"),
        (Steady(temperature_k=fahrenheit(91)), "never-within-limits"),
    ],
)
def test_what_never_ends_has_no_instant_and_a_reason(temperatures: Steady | Daily, code: str) -> None:
    asked = context(replace(WORK, temperatures=temperatures, reopen_by=datetime.fromisoformat("2027-06-01T00:00")))
    found = return_times(asked)
    shown = render(found, US)
    assert shown["returns"][1] == {
        "traffic": "vehicle",
        "earliest": None,
        "likely": None,
        "latest": None,
        "after": None,
    }
    assert found.deadline is not None
    assert (found.deadline.met, found.deadline.slack, found.deadline.latest_start) == (False, None, None)
    assert code in codes(asked.record.cautions)


def test_a_year_of_closed_days_is_never_and_says_so() -> None:
    closed = tuple(date(2027, 3, 1) + timedelta(days=day) for day in range(400))
    asked = context(replace(WORK, closed=closed))
    assert return_times(asked).steps[0].from_ is None
    assert "never-open" in codes(asked.record.cautions)


def test_work_of_more_than_a_year_is_never_and_says_so() -> None:
    slow = replace(CREW, minutes_per_mix=120)
    asked = context(replace(WORK, crew=slow), rooms=(Room(shape=Measured(area_m2=150_000.0)),))
    assert return_times(asked).steps[0].from_ is None
    assert "never-done" in codes(asked.record.cautions)


# What is said


def test_the_hours_below_and_above_the_products_limits_are_said() -> None:
    cold = context(replace(WORK, temperatures=Daily(low_k=fahrenheit(44), high_k=fahrenheit(60))))
    return_times(cold)
    assert {"cure-stands-still", "beyond-the-table"} & set(codes(cold.record.cautions)) == {"cure-stands-still"}
    hot = context(replace(WORK, temperatures=Daily(low_k=fahrenheit(75), high_k=fahrenheit(100))))
    return_times(hot)
    assert "cure-capped" in codes(hot.record.cautions)


def test_a_floor_outside_the_makers_table_is_said() -> None:
    open_ended = replace(CLEAR, temperature_k=Limits())
    layers = tuple(
        replace(layer, product=open_ended) if layer.id.startswith("coat") else layer for layer in SYSTEM.layers
    )
    asked = context(
        replace(WORK, temperatures=Daily(low_k=fahrenheit(44), high_k=fahrenheit(60))),
        system=replace(SYSTEM, layers=layers),
    )
    return_times(asked)
    assert "beyond-the-table" in codes(asked.record.cautions)


def test_a_table_of_one_row_is_said_where_the_floor_is_elsewhere() -> None:
    one_row = replace(SYSTEM, returns=(Return(traffic="foot", after=curve((70, 8, 10))),))
    at_the_row = context(system=one_row)
    return_times(at_the_row)
    assert "single-row-cure" not in codes(at_the_row.record.cautions)
    elsewhere = context(replace(WORK, temperatures=Steady(temperature_k=fahrenheit(60))), system=one_row)
    return_times(elsewhere)
    assert "single-row-cure" in codes(elsewhere.record.cautions)


def test_a_long_gap_is_abraded_and_said() -> None:
    """At 800 ft²/h the second coat no longer fits on Friday; by Monday the 36 hours of the first are over."""
    slow = replace(CREW, coating_rate_m2_s=800 * FT * FT / HOUR)
    asked = context(replace(WORK, start=datetime.fromisoformat("2027-03-04T06:00"), crew=slow))
    steps = [(step.step.value, step.layer) for step in return_times(asked).steps]
    assert steps[-2:] == [("abrade", "coat-1"), ("apply", "coat-2")]
    assert {"abrade-first", "loose-dust"} <= set(codes(asked.record.cautions))


def test_a_split_step_says_where_it_stops() -> None:
    slow = replace(WORK, crew=replace(CREW, minutes_per_mix=12))
    hall = context(slow)
    steps = return_times(hall).steps
    assert [clock(span.until) for span in steps[0].parts] == ["Fri 05 15:30", "Mon 08 08:30"]
    assert codes(hall.record.cautions)["split-at-shift-end"] == 1
    halves = replace(ROOM, shape=Measured(area_m2=600 * FT * FT, perimeter_m=100 * FT))
    rooms = context(slow, rooms=(halves, halves))
    steps = return_times(rooms).steps
    assert [clock(span.until) for span in steps[0].parts] == ["Fri 05 12:00", "Mon 08 12:00"]
    assert codes(rooms.record.cautions)["split-between-rooms"] == 1


def test_a_split_step_waits_for_a_shift_that_holds_its_first_room() -> None:
    halves = replace(ROOM, shape=Measured(area_m2=600 * FT * FT, perimeter_m=100 * FT))
    late = replace(WORK, crew=replace(CREW, minutes_per_mix=12), start=datetime.fromisoformat("2027-03-05T11:00"))
    body = answer(late, rooms=(halves, halves)).steps[0]
    # five hours of work, of which four and a half are left on Friday; the floor is warm enough at every hour
    assert [(wait.cause.value, clock(wait.until)) for wait in body.waits_for] == [
        ("start", "Fri 05 11:00"),
        ("shift", "Mon 08 07:00"),
    ]


def test_every_answer_warns_of_engines_and_of_colder_floors() -> None:
    asked = context()
    return_times(asked)
    assert {"engines-indoors", "floor-warmer-or-colder"} <= set(codes(asked.record.cautions))


@pytest.mark.parametrize(
    "temperatures", [Steady(temperature_k=290.0), Daily(low_k=278.0, high_k=300.0), Daily(low_k=268.0, high_k=290.0)]
)
def test_every_sentence_and_every_working_can_be_written(temperatures: Steady | Daily) -> None:
    asked = context(
        replace(WORK, temperatures=temperatures, reopen_by=datetime.fromisoformat("2027-03-09T05:00")), working=True
    )
    found = return_times(asked)
    record = asked.record
    assert record.working is not None
    assert {"/returns/1/latest", "/steps/0/lasts", "/steps/1/cured"} <= {
        one.figure for one in record.working
    } or temperatures.low_k < 270  # type: ignore[union-attr]
    for choice in (US, SI):
        for value in (found, *record.assumptions, *record.cautions, *record.missing, *record.working):
            assert render(value, choice)


def test_the_answer_has_a_schema_with_the_documents_names() -> None:
    describer = Describer()
    describer.schema(ReturnTimes)
    step = describer.components["TimedStep"]["properties"]
    assert {"step", "layer", "from", "until", "after", "cured", "waits_for"} <= set(step)
    assert set(describer.components["ReturnTime"]["properties"]) == {"traffic", "earliest", "likely", "latest", "after"}
    assert {"met", "latest_start", "slack", "remedies"} <= set(describer.components["Deadline"]["properties"])


# A winter beside a summer: the same room, the same crew


WINTER = replace(
    WORK,
    temperatures=Daily(low_k=fahrenheit(41), high_k=fahrenheit(58)),
    start=datetime.fromisoformat("2027-02-01T06:00"),
)
SUMMER = replace(
    WORK,
    temperatures=Daily(low_k=fahrenheit(78), high_k=fahrenheit(97)),
    start=datetime.fromisoformat("2027-08-02T06:00"),
)


def spent(found: ReturnTimes) -> Counter[str]:
    """Where every hour from the start to the likely return of vehicles went."""
    total, here = Counter[str](), 0.0
    for step in found.steps:
        if step.layer == "body":
            continue  # its broadcast, which ends later, stands for both
        assert step.after is not None
        assert step.lasts is not None
        for wait in (wait for wait in step.waits_for if step.layer != "broadcast" or step.step.value != "apply"):
            total[wait.cause.value] += (wait.after.value - here) / HOUR
            here = wait.after.value
        if step.layer == "broadcast" and step.step.value == "apply":
            for wait in found.steps[0].waits_for:
                total[wait.cause.value] += (wait.after.value - here) / HOUR
                here = wait.after.value
        end = step.after.value + step.lasts.value
        total["work"] += (end - here) / HOUR
        here = end
    vehicle = found.returns[-1].likely
    assert vehicle is not None
    start = found.steps[0].waits_for[0].until
    assert start is not None
    total["return"] = (vehicle - start).total_seconds() / HOUR - here / HOUR
    return total


def test_a_winter_and_a_summer_of_the_same_room_differ_for_reasons_that_add_up() -> None:
    asked = {"winter": context(WINTER), "summer": context(SUMMER)}
    found = {season: return_times(one) for season, one in asked.items()}
    went = {season: spent(one) for season, one in found.items()}
    total = {season: sum(hours.values()) for season, hours in went.items()}
    for season, one in found.items():
        likely, start = one.returns[-1].likely, one.steps[0].waits_for[0].until
        assert likely is not None
        assert start is not None
        assert total[season] == pytest.approx((likely - start).total_seconds() / HOUR, abs=1e-6)

    # 1. The work itself takes as long, but for the sand: it waits up to 0.25 h at 70 °F, less when hot, more when cold.
    assert 0 < went["winter"]["work"] - went["summer"]["work"] < 0.5
    # 2. In winter no floor is at the 50 °F of body and coats when the shift opens at 7: each of the three waits for the
    #    day to warm, until 11:13. In summer each begins in the cool of the day, under 90 °F, without waiting for it.
    assert went["winter"]["temperature"] == pytest.approx(3 * (4 + 13.5 / 60), abs=3 / 60)
    assert went["summer"]["temperature"] == 0
    # 3. Every cure takes longer, and in winter it stands still each night under 50 °F.
    assert went["winter"]["cure"] > 3 * went["summer"]["cure"]
    assert "cure-stands-still" in codes(asked["winter"].record.cautions)
    assert "cure-stands-still" not in codes(asked["summer"].record.cautions)
    assert "cure-capped" in codes(asked["summer"].record.cautions)
    # 4. So does what is counted from the last coat: vehicles.
    assert went["winter"]["return"] > 3 * went["summer"]["return"]
    # And nothing else: these, and the nights that the work waits out, are the whole difference.
    causes = {"start", "work", "cure", "shift", "temperature", "return"}
    assert set(went["winter"]) | set(went["summer"]) <= causes
    difference = {cause: went["winter"][cause] - went["summer"][cause] for cause in causes}
    assert sum(difference.values()) == pytest.approx(total["winter"] - total["summer"], abs=1e-6)
    assert total["winter"] > total["summer"] + 10 * 24
