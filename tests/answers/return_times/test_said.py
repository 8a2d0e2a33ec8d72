"""What has no end, and what is said beside a timetable."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest
from tests.answers.return_times.jobs import CLEAR, CREW, ROOM, SYSTEM, WORK, answer, clock, codes, context
from tests.asked import return_times
from tests.builders import FT, HOUR, curve, fahrenheit

from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.reader import SI_READER, US_READER
from gaugerake.answers.show.render import render
from gaugerake.answers.show.words import sentence
from gaugerake.floor.clock.timetable import Return
from gaugerake.floor.job import Daily, Measured, Room, Steady
from gaugerake.floor.values.range import Limits


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
    shown = render(found, US_READER)
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


def test_tables_of_one_row_are_said_once_with_all_that_they_are_for() -> None:
    """Foot and carts stand at 70 °F, vehicles at 68 °F."""
    rows = {"foot": (70, 8, 10), "carts": (70, 20, 24), "vehicle": (68, 60, 72)}
    one_row = replace(SYSTEM, returns=tuple(Return(traffic=name, after=curve(row)) for name, row in rows.items()))
    asked = context(replace(WORK, temperatures=Steady(temperature_k=fahrenheit(60))), system=one_row)
    return_times(asked)
    (said,) = [note for note in asked.record.cautions if note.code == "single-row-cure"]
    assert sentence(said.code, said.params, US_READER).startswith(
        "The maker states times at 70 °F alone for opening to foot traffic, opening to cart traffic, and at 68 °F alone"
        " for opening to vehicle traffic. At other temperatures they are worked out"
    )


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
    for reader in (US_READER, SI_READER):
        for value in (found, *record.assumptions, *record.cautions, *record.missing, *record.working):
            assert render(value, reader)


def test_the_answer_has_a_schema_with_the_documents_names() -> None:
    describer = Describer()
    describer.schema(ReturnTimes)
    step = describer.components["TimedStep"]["properties"]
    assert {"step", "layer", "from", "until", "after", "cured", "waits_for"} <= set(step)
    assert set(describer.components["ReturnTime"]["properties"]) == {"traffic", "earliest", "likely", "latest", "after"}
    assert {"met", "latest_start", "slack", "remedies"} <= set(describer.components["Deadline"]["properties"])
