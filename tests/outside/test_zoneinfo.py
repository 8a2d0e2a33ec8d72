"""Real hours across the changes of the clocks, by the IANA rules and by dates that anybody can look up."""

from datetime import datetime

import pytest

from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.cure.curve import time_curve, time_point
from gaugerake.floor.cure.maturity import milestone
from gaugerake.floor.values.errors import NoSuchLocalTime
from gaugerake.floor.values.local_time import instant_of, zone_named

HOUR = 3600.0

# Zone, local time at the start, real hours, local time at the end. The United States change on the second Sunday of
# March and the first of November at 02:00, the European Union on the last Sundays of March and October at 01:00 UTC.
CASES = [
    ("America/New_York", "2026-03-07T22:00", 8, "2026-03-08T07:00:00-04:00"),
    ("America/New_York", "2026-10-31T22:00", 8, "2026-11-01T05:00:00-05:00"),
    ("America/Chicago", "2027-03-13T20:00", 24, "2027-03-14T21:00:00-05:00"),
    ("America/Phoenix", "2026-03-07T22:00", 8, "2026-03-08T06:00:00-07:00"),  # keeps standard time
    ("Europe/Berlin", "2027-03-27T23:00", 8, "2027-03-28T08:00:00+02:00"),
    ("Europe/Berlin", "2027-10-30T23:00", 8, "2027-10-31T06:00:00+01:00"),
    ("Australia/Sydney", "2026-10-03T22:00", 8, "2026-10-04T07:00:00+11:00"),
    ("Asia/Kolkata", "2026-03-07T22:00", 8, "2026-03-08T06:00:00+05:30"),
]


@pytest.mark.parametrize(("name", "start", "hours", "end"), CASES)
def test_a_cure_runs_in_real_hours_over_the_night_of_a_change(name: str, start: str, hours: int, end: str) -> None:
    zone = zone_named(name)
    curve = time_curve([time_point(temperature_k=293.15, likely_s=hours * HOUR)])
    from_s = instant_of(datetime.fromisoformat(start), zone=zone).at_s
    course = SteadyCourse(temperature_k=293.15)
    found = milestone(curve=curve, column="likely", course=course, from_s=from_s).at_s
    assert found is not None
    assert zone.datetime_at(found).isoformat() == end


@pytest.mark.parametrize(
    ("name", "skipped"), [("America/New_York", "2026-03-08T02:59"), ("Europe/Berlin", "2027-03-28T02:00")]
)
def test_an_hour_that_the_clocks_skip_does_not_exist(name: str, skipped: str) -> None:
    with pytest.raises(NoSuchLocalTime) as refused:
        instant_of(datetime.fromisoformat(skipped), zone=zone_named(name))
    assert refused.value.nearest == datetime.fromisoformat(f"{skipped[:11]}03:00")
