"""A deadline: whether it is met, and what would meet it."""

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

import pytest
from tests.answers.return_times.jobs import START, WORK, answer, codes, context
from tests.asked import return_times
from tests.builders import HOUR, fahrenheit

from gaugerake.answers.return_times.change import Remedy
from gaugerake.answers.return_times.remedies import _Search
from gaugerake.floor.job import Daily, Readings, Shift, Steady, TemperatureReading, Weekday, Work
from gaugerake.floor.values.figure import Figure


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


@pytest.mark.parametrize("earlier_h", [0, 3, 9, 24, 72])
@pytest.mark.parametrize("work", [work for work, _ in DEADLINES])
def test_remedies_are_the_same_whether_the_warmest_floor_is_asked_first_or_not(
    work: Work, earlier_h: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert work.reopen_by is not None
    sooner = replace(work, reopen_by=work.reopen_by - timedelta(hours=earlier_h))
    found = answer(sooner).deadline
    monkeypatch.setattr(_Search, "_could_meet", lambda *_of: True)
    assert answer(sooner).deadline == found
