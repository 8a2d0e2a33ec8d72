"""Shifts as stretches of instants, and the wall clock behind them."""

from datetime import date, datetime, time, timedelta, timezone
from itertools import islice, pairwise, takewhile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.clock.shifts import RoundTheClock, Shifts
from gaugerake.floor.job import Shift, Weekday
from gaugerake.floor.values.errors import NeverOpen, NoSuchLocalTime, UnknownName
from gaugerake.floor.values.local_time import Zone, instant_of, zone_named

HOUR = 3600.0
DAY = 24 * HOUR
WEEKDAYS = tuple(Weekday)[:5]
CHICAGO = zone_named("America/Chicago")


def shift(starts: str, ends: str, *days: Weekday) -> Shift:
    return Shift(days=days or WEEKDAYS, starts=time.fromisoformat(starts), ends=time.fromisoformat(ends))


def local(zone: Zone, text: str) -> float:
    return instant_of(datetime.fromisoformat(text), zone=zone).at_s


def listed(hours: Shifts, from_text: str, until_text: str, zone: Zone = CHICAGO) -> list[tuple[str, str]]:
    until_s = local(zone, until_text)
    stretches = takewhile(lambda stretch: stretch[0] < until_s, hours.since(local(zone, from_text)))
    return [tuple(zone.datetime_at(end).strftime("%a %d %H:%M") for end in stretch) for stretch in stretches]


def test_weekday_shifts_skip_the_weekend_and_closed_dates() -> None:
    hours = Shifts(shifts=[shift("07:00", "15:30")], closed=[date(2027, 3, 8)], zone=CHICAGO)
    assert listed(hours, "2027-03-05T16:00", "2027-03-11T00:00") == [
        ("Tue 09 07:00", "Tue 09 15:30"),
        ("Wed 10 07:00", "Wed 10 15:30"),
    ]


def test_a_stretch_that_is_open_already_is_told() -> None:
    hours = Shifts(shifts=[shift("07:00", "15:30")], closed=[], zone=CHICAGO)
    assert listed(hours, "2027-03-05T15:00", "2027-03-06T00:00") == [("Fri 05 07:00", "Fri 05 15:30")]


def test_overlapping_shifts_are_one_stretch() -> None:
    hours = Shifts(
        shifts=[shift("07:00", "15:30"), shift("14:00", "22:00"), shift("22:00", "23:00")], closed=[], zone=CHICAGO
    )
    assert listed(hours, "2027-03-04T00:00", "2027-03-05T00:00") == [("Thu 04 07:00", "Thu 04 23:00")]
    assert hours.longest_s == 16 * HOUR


def test_a_shift_over_midnight_belongs_to_the_day_of_its_start() -> None:
    hours = Shifts(shifts=[shift("22:00", "06:00", Weekday.FRI)], closed=[], zone=CHICAGO)
    assert listed(hours, "2027-03-01T00:00", "2027-03-10T00:00") == [("Fri 05 22:00", "Sat 06 06:00")]
    closed = Shifts(shifts=[shift("22:00", "06:00", Weekday.FRI)], closed=[date(2027, 3, 6)], zone=CHICAGO)
    assert listed(closed, "2027-03-01T00:00", "2027-03-10T00:00") == [("Fri 05 22:00", "Sat 06 06:00")]


@pytest.mark.parametrize(("night", "hours"), [("2027-03-13", 7), ("2027-11-06", 9), ("2027-06-05", 8)])
def test_a_night_shift_is_as_long_as_the_clocks_make_it(night: str, hours: float) -> None:
    shifts = Shifts(shifts=[shift("22:00", "06:00", *Weekday)], closed=[], zone=CHICAGO)
    from_s, until_s = next(shifts.since(local(CHICAGO, f"{night}T22:00")))
    assert (until_s - from_s) / HOUR == hours
    assert shifts.longest_s == 8 * HOUR


def test_a_shift_that_begins_in_a_skipped_hour_begins_at_the_change() -> None:
    shifts = Shifts(shifts=[shift("02:30", "06:00", Weekday.SUN)], closed=[], zone=CHICAGO)
    assert listed(shifts, "2027-03-14T00:00", "2027-03-15T00:00") == [("Sun 14 03:00", "Sun 14 06:00")]


def test_days_of_24_hours_that_touch_have_no_longest_stretch() -> None:
    week = Shifts(shifts=[shift("00:00", "00:00", *Weekday)], closed=[], zone=CHICAGO)
    assert week.longest_s == float("inf")
    weekdays = Shifts(shifts=[shift("00:00", "00:00")], closed=[], zone=CHICAGO)
    assert weekdays.longest_s == 5 * DAY


def test_shifts_that_never_open_are_refused() -> None:
    with pytest.raises(NeverOpen):
        Shifts(shifts=[], closed=[], zone=CHICAGO)
    with pytest.raises(NeverOpen):
        Shifts(shifts=[Shift(days=(), starts=time(7), ends=time(8))], closed=[], zone=CHICAGO)


def test_backwards_they_are_the_same_shifts() -> None:
    hours = Shifts(
        shifts=[shift("07:00", "15:30"), shift("22:00", "06:00", Weekday.FRI)], closed=[date(2027, 3, 9)], zone=CHICAGO
    )
    from_s, until_s = local(CHICAGO, "2027-02-20T00:00"), local(CHICAGO, "2027-03-20T00:00")
    forward = [s for s in takewhile(lambda s: s[0] < until_s, hours.since(from_s)) if s[0] >= from_s]
    back = list(takewhile(lambda s: s[0] >= from_s, hours.before(until_s)))
    assert list(reversed(back)) == forward


SOME_SHIFTS = st.lists(
    st.builds(
        lambda days, first, lasts: Shift(days=tuple(days), starts=time(first), ends=time((first + lasts) % 24)),
        st.lists(st.sampled_from(Weekday), min_size=1, max_size=7, unique=True),
        st.integers(0, 23),
        st.integers(1, 24),
    ),
    min_size=1,
    max_size=5,
)
FIRST_DAY, DAYS = date(2027, 6, 7), 21


def open_hours_counted(rows: list[Shift], closed: set[date]) -> set[int]:
    """The hours from the first midnight on in which some shift is open, each looked up by itself."""
    found: set[int] = set()
    for day in range(-1, DAYS):
        begins = FIRST_DAY + timedelta(days=day)
        for row in [] if begins in closed else rows:
            if list(Weekday)[begins.weekday()] in row.days:
                lasts = (row.ends.hour - row.starts.hour) % 24 or 24
                found |= {24 * day + row.starts.hour + hour for hour in range(lasts)}
    return {hour for hour in found if 0 <= hour < 24 * DAYS}


@settings(deadline=None)
@given(rows=SOME_SHIFTS, off=st.sets(st.integers(0, DAYS - 1), max_size=4))
def test_stretches_are_the_hours_that_some_shift_is_open_and_never_meet(rows: list[Shift], off: set[int]) -> None:
    closed = {FIRST_DAY + timedelta(days=day) for day in off}
    midnight_s = local(zone_named("UTC"), f"{FIRST_DAY}T00:00")
    found = Shifts(shifts=rows, closed=closed, zone=zone_named("UTC")).since(midnight_s)
    stretches = list(takewhile(lambda stretch: stretch[0] < midnight_s + DAYS * DAY, found))
    hours = [(int(open_s - midnight_s) // 3600, int(close_s - midnight_s) // 3600) for open_s, close_s in stretches]
    assert {hour for a, b in hours for hour in range(max(a, 0), min(b, 24 * DAYS))} == open_hours_counted(rows, closed)
    assert all(before[1] < after[0] for before, after in pairwise(hours))


def test_round_the_clock_is_always_open() -> None:
    assert next(RoundTheClock().since(5.0)) == (5.0, float("inf"))
    assert list(islice(RoundTheClock().before(DAY), 2)) == [(0.0, DAY), (-DAY, 0.0)]


# The wall clock

ZONES = [
    "America/Chicago",
    "Europe/London",
    "Australia/Lord_Howe",
    "Asia/Kathmandu",
    "Pacific/Apia",
    "Africa/Casablanca",
]


@given(st.sampled_from(ZONES), st.integers(946_684_800, 4_102_444_800))
@settings(max_examples=300, deadline=None)
def test_offsets_and_instants_are_those_of_zoneinfo(name: str, instant: int) -> None:
    zone = zone_named(name)  # its info is zoneinfo's own, of the tzdata package; the system's may be another edition
    moment = datetime.fromtimestamp(instant, tz=zone.info)
    offset = moment.utcoffset()
    assert offset is not None
    assert zone.offset_s(instant) == offset.total_seconds()
    first, second = (moment.replace(fold=fold) for fold in (0, 1))
    found = instant_of(first.replace(tzinfo=None), zone=zone)
    assert (found.at_s, found.twice) == (first.timestamp(), first.utcoffset() != second.utcoffset())


@pytest.mark.parametrize(
    ("name", "seen", "nearest"),
    [
        ("America/New_York", "2026-03-08T02:30", "2026-03-08T03:00"),
        ("Europe/London", "2027-03-28T01:00", "2027-03-28T02:00"),
        ("Australia/Lord_Howe", "2026-10-04T02:15", "2026-10-04T02:30"),
        ("Pacific/Apia", "2011-12-30T12:00", "2011-12-31T00:00"),  # a whole day was skipped
    ],
)
def test_a_skipped_time_is_refused_with_the_next_that_exists(name: str, seen: str, nearest: str) -> None:
    with pytest.raises(NoSuchLocalTime) as refused:
        instant_of(datetime.fromisoformat(seen), zone=zone_named(name))
    assert refused.value.nearest == datetime.fromisoformat(nearest)


def test_a_time_that_comes_twice_is_the_first_and_says_so() -> None:
    found = instant_of(datetime.fromisoformat("2026-11-01T01:30"), zone=zone_named("America/New_York"))
    assert (found.at_s, found.twice) == (
        datetime(2026, 11, 1, 1, 30, tzinfo=timezone(timedelta(hours=-4))).timestamp(),
        True,
    )


def test_a_time_with_an_offset_is_taken_at_its_word() -> None:
    there = datetime(2026, 3, 8, 2, 30, tzinfo=timezone(timedelta(hours=-5)))
    found = instant_of(there, zone=zone_named("America/New_York"))
    assert (found.at_s, found.twice) == (there.timestamp(), False)


@pytest.mark.parametrize("name", ["America/Chicagoo", "../../etc/passwd", "America", "", "/UTC", "utc"])
def test_a_zone_that_does_not_exist_is_refused(name: str) -> None:
    with pytest.raises(UnknownName):
        zone_named(name)
