"""Steps of a timetable, by hand."""

from dataclasses import replace

from tests.floor.clock_work import BODY, DAY_SHIFT, FIRST, HOUR, PLAN, SECOND, STEADY, at, curve, daily, reads, shifts

from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.schedule import Stops, minute_up
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Run
from gaugerake.floor.cure.course import Course, SteadyCourse, logged_course
from gaugerake.floor.cure.curve import Column, time_curve, time_point
from gaugerake.floor.job import Shift


def forward(plan: Plan, start: str, *listed: Shift, course: Course = STEADY, column: Column = "likely") -> Run:
    return run(plan, hours=shifts(*(listed or (DAY_SHIFT,))), course=course, column=column, start_s=at(start))


def table(done: Run) -> list[tuple[str, str | None, str | None, str | None]]:
    return [
        (step.kind.value, step.layer, reads(step.placed.from_s), reads(step.placed.until_s))
        for step in done.steps
        if step.placed is not None
    ]


def test_a_week_of_work_reads_like_a_timetable() -> None:
    """All at 20 °C, a row of each table: body 10 h, coats 4 h, foot 8 h, vehicle 70 h; broadcast 10.8 to 14.4 min."""
    done = forward(PLAN, "2027-03-04T06:00")
    assert table(done) == [
        ("prepare", None, "Thu 04 07:00", "Thu 04 13:00"),
        ("apply", "body", "Fri 05 07:00", "Fri 05 10:30"),
        ("apply", "broadcast", "Fri 05 07:10", "Fri 05 10:44"),
        ("clear", "broadcast", "Mon 08 07:00", "Mon 08 07:45"),
        ("apply", "coat-1", "Mon 08 07:45", "Mon 08 08:57"),
        ("apply", "coat-2", "Mon 08 12:57", "Mon 08 14:09"),
    ]
    assert reads(done.steps[2].cured_s) == "Fri 05 20:44"
    assert reads(done.returns[0].at_s) == "Mon 08 22:09"
    assert reads(done.returns[1].at_s) == "Thu 11 12:09"


def test_each_step_says_what_it_waited_for() -> None:
    done = forward(PLAN, "2027-03-04T06:00")
    assert [(step.cause, step.awaited) for step in done.steps] == [
        (Cause.START, None),
        (Cause.WORK, None),
        (Cause.WORK, "body"),
        (Cause.CURE, "broadcast"),
        (Cause.WORK, "broadcast"),
        (Cause.CURE, "coat-1"),
    ]


def test_a_step_that_does_not_fit_today_waits_for_tomorrow() -> None:
    plan = Plan(preparation_s=0.0, layers=(replace(BODY, clear_s=0.0),), returns=(), returns_from=None)
    assert table(forward(plan, "2027-03-04T12:00"))[0][2] == "Thu 04 12:00"
    assert table(forward(plan, "2027-03-04T12:01"))[0][2] == "Fri 05 07:00"


def test_a_step_begins_only_while_the_floor_is_within_limits() -> None:
    plan = Plan(preparation_s=0.0, layers=(FIRST,), returns=(), returns_from=None)
    course = daily(2, 12)  # 7 °C at 05:00 + acos(0)·24/2π = 11:00
    done = forward(plan, "2027-03-04T06:00", course=course)
    assert table(done)[0][2] == "Thu 04 11:00"


def test_work_longer_than_a_shift_stops_between_rooms_where_it_can() -> None:
    rooms = replace(BODY, parts_s=(5 * HOUR, 4 * HOUR, 3 * HOUR), clear_s=0.0)
    done = forward(Plan(preparation_s=0.0, layers=(rooms,), returns=(), returns_from=None), "2027-03-04T06:00")
    placed = done.steps[0].placed
    assert placed is not None
    assert placed.stops is Stops.BETWEEN_ROOMS
    assert [(reads(a), reads(b)) for a, b in placed.stretches] == [
        ("Thu 04 07:00", "Thu 04 12:00"),
        ("Fri 05 07:00", "Fri 05 11:00"),
        ("Fri 05 11:00", "Fri 05 14:00"),
    ]


def test_a_room_longer_than_a_shift_stops_at_its_end() -> None:
    hall = replace(BODY, parts_s=(20 * HOUR,), clear_s=0.0)
    done = forward(Plan(preparation_s=0.0, layers=(hall,), returns=(), returns_from=None), "2027-03-04T09:00")
    placed = done.steps[0].placed
    assert placed is not None
    assert placed.stops is Stops.AT_SHIFT_END
    assert [(reads(a), reads(b)) for a, b in placed.stretches] == [
        ("Thu 04 09:00", "Thu 04 15:30"),
        ("Fri 05 07:00", "Fri 05 15:30"),
        ("Mon 08 07:00", "Mon 08 12:00"),
    ]


def test_a_recoat_window_counts_from_the_first_foot_to_the_end_of_the_next_layer() -> None:
    """Coat 1 from 07:00 to 08:12, cured 12:12, coat 2 until 13:24: 6.4 h after the first foot was placed."""

    def plan(closes_h: float) -> Plan:
        closes = time_curve([time_point(temperature_k=293.15, likely_s=closes_h * HOUR)])
        layers = (replace(FIRST, recoat_closes=closes), SECOND)
        return Plan(preparation_s=0.0, layers=layers, returns=(), returns_from=None)

    open_still, just_closed = (table(forward(plan(hours), "2027-03-04T07:00")) for hours in (6.4001, 6.3999))
    assert [row[0] for row in open_still] == ["apply", "apply"]
    assert just_closed[1:] == [
        ("abrade", "coat-1", "Thu 04 12:12", "Thu 04 13:24"),
        ("apply", "coat-2", "Thu 04 13:24", "Thu 04 14:36"),
    ]


def test_sealant_takes_no_time_and_is_nothing_to_recoat() -> None:
    closes = time_curve([time_point(temperature_k=293.15, likely_s=6 * HOUR)])
    joint = LayerWork(layer="joint", parts_s=(0.0,), surface=False)
    layers = (replace(FIRST, recoat_closes=closes), joint, SECOND)
    done = forward(Plan(preparation_s=0.0, layers=layers, returns=(), returns_from=None), "2027-03-04T07:00")
    assert [row[0:2] for row in table(done)] == [
        ("apply", "coat-1"),
        ("apply", "joint"),
        ("abrade", "coat-1"),
        ("apply", "coat-2"),
    ]


def test_traffic_waits_for_loose_aggregate_to_be_cleared() -> None:
    plan = Plan(preparation_s=0.0, layers=(BODY,), returns=PLAN.returns, returns_from=0)
    done = forward(plan, "2027-03-05T06:00")
    assert [row[0] for row in table(done)] == ["apply", "apply", "clear"]
    assert reads(done.returns[0].at_s) == "Mon 08 07:45"  # its own age was reached on Friday evening


def test_frost_leaves_everything_after_it_without_an_hour() -> None:
    freezing = logged_course(
        [(at("2027-03-04T12:00"), 288.0), (at("2027-03-05T15:00"), 288.0), (at("2027-03-05T18:00"), 270.0)]
    )
    done = forward(PLAN, "2027-03-04T06:00", course=freezing)
    assert [step.placed is None for step in done.steps] == [False, False, False, True, True, True]
    assert done.steps[1].cured_s is None
    assert [one.at_s for one in done.returns] == [None, None]
    assert not done.complete


def test_frost_in_the_cure_of_the_last_coat_leaves_no_return_even_to_what_came_before() -> None:
    plan = Plan(
        preparation_s=0.0,
        layers=(replace(FIRST, cure=curve((20, 24), (30, 12))),),
        returns=PLAN.returns,
        returns_from=0,
    )
    freezing = logged_course([(at("2027-03-05T01:00"), 293.15), (at("2027-03-05T02:00"), 270.0)])
    assert [one.at_s for one in forward(plan, "2027-03-04T07:00", course=freezing).returns] == [None, None]


def test_a_floor_that_is_never_warm_enough_never_begins() -> None:
    done = forward(PLAN, "2027-03-04T06:00", course=SteadyCourse(temperature_k=277.0))
    assert [step.placed is not None for step in done.steps] == [True, False, False, False, False, False]


def test_a_cure_of_more_than_a_year_never_ends() -> None:
    slow = replace(FIRST, cure=curve((10, 24 * 400), (25, 24 * 380)))
    done = forward(
        Plan(preparation_s=0.0, layers=(slow, SECOND), returns=PLAN.returns, returns_from=1), "2027-03-04T06:00"
    )
    assert done.steps[0].cured_s is None
    assert done.steps[1].placed is None


def test_returns_are_rounded_up_to_the_minute() -> None:
    assert [minute_up(instant_s=s) for s in (120.0, 120.0005, 120.5, 179.999)] == [120.0, 120.0, 180.0, 180.0]
