"""The timetable of a room, worked by hand at 70 °F."""

from dataclasses import replace
from datetime import datetime

from tests.answers.return_times.jobs import CREW, START, WORK, answer, clock, context
from tests.asked import work_span

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.values.figure import Figure


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
    shown = render(answer(), US_READER)
    assert shown["steps"][0]["from"] == "2027-03-05T07:00:00-06:00"
    assert shown["returns"][1]["latest"] == "2027-03-12T08:12:00-06:00"


def test_more_stations_place_faster_until_the_hands_are_the_slower() -> None:
    """50 mixes at 2 min by mixing, 2.4 min by placing: 2 h."""
    two = answer(replace(WORK, crew=replace(CREW, mixing_stations=2)))
    assert clock(two.steps[0].until) == "Fri 05 09:00"
