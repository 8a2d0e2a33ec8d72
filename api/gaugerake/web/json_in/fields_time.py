"""Days and times of the wall clock, in the forms of ISO 8601 that people and their programs write."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta, timezone
from functools import cache
from itertools import pairwise
from typing import Any, Protocol, TypeVar
from zoneinfo import available_timezones

from marshmallow import ValidationError

from gaugerake.measure.choice import UnitChoice
from gaugerake.nearest import nearest_name
from gaugerake.web.errors.finding import Finding, refuse
from gaugerake.web.json_in.fields import Form, Strict

T = TypeVar("T", bound=date)
FIRST_YEAR, LAST_YEAR = 2000, 2199

_DAY = r"(\d{4})-(\d{2})-(\d{2})"
_CLOCK = r"(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,6}))?)?"
_DATE = re.compile(_DAY, re.ASCII)
_TIME = re.compile(_CLOCK, re.ASCII)
_INSTANT = re.compile(rf"{_DAY}[T ]{_CLOCK}(?:(Z)|([+-])(\d{{2}}):(\d{{2}}))?", re.ASCII)


class Day(Strict):
    """A date of the calendar from ``first`` on."""

    def __init__(self, *, first: int = FIRST_YEAR, **options: Any) -> None:
        super().__init__(**options)
        self.first = first

    def read(self, value: Any) -> date:
        """The date."""
        match = _DATE.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            refuse("not-a-date", value)
        try:
            day = date(*map(int, match.groups()))
        except ValueError:
            refuse("no-such-date", value)
        return _within_years(day, value, self.first)

    def write(self, value: Any, choice: UnitChoice) -> str:
        """The date in ISO 8601."""
        return str(value.isoformat())

    def form(self) -> Form:
        """A date, as a pattern: of a format some generators make an instant, and send that."""
        return {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$", "examples": ["2027-03-05"]}


class Clock(Strict):
    """A time of the day, HH:MM; with ``midnight_ends``, 24:00 as well, which is the 00:00 that follows."""

    def __init__(self, *, midnight_ends: bool = False, **options: Any) -> None:
        super().__init__(**options)
        self.midnight_ends = midnight_ends

    def read(self, value: Any) -> time:
        """The time."""
        if self.midnight_ends and value == "24:00":
            return time(0)
        match = _TIME.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            refuse("not-a-time", value)
        try:
            return time(*_clock(match.groups()))
        except ValueError:
            refuse("no-such-time", value)

    def write(self, value: Any, choice: UnitChoice) -> str:
        """The time, without seconds that are none."""
        return str(value.isoformat(timespec="minutes" if value.second == value.microsecond == 0 else "auto"))

    def form(self) -> Form:
        """A string."""
        hours = "([01]\\d|2[0-3]):[0-5]\\d(:[0-5]\\d(\\.\\d{1,6})?)?"
        return {
            "type": "string",
            "pattern": f"^({hours}|24:00)$" if self.midnight_ends else f"^{hours}$",
            "examples": ["06:00"],
        }


class Moment(Strict):
    """A date and a time; without an offset it is local to the job's zone."""

    def read(self, value: Any) -> datetime:
        """The moment, aware when an offset was written."""
        match = _INSTANT.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            refuse("not-a-moment", value)
        parts = match.groups()
        try:
            day = date(*map(int, parts[:3]))
            moment = datetime.combine(day, time(*_clock(parts[3:7]), tzinfo=_offset(*parts[7:])))
        except ValueError:
            refuse("no-such-moment", value)
        return _within_years(moment, value, FIRST_YEAR)

    def write(self, value: Any, choice: UnitChoice) -> str:
        """The moment in ISO 8601."""
        return str(value.isoformat(timespec="minutes" if value.second == value.microsecond == 0 else "auto"))

    def form(self) -> Form:
        """A string."""
        pattern = (
            "^2[01]\\d{2}-(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])[T ]([01]\\d|2[0-3]):[0-5]\\d(:[0-5]\\d(\\.\\d{1,6})?)?"
            "(Z|[+-](0\\d|1[0-4]):[0-5]\\d)?$"
        )
        return {"type": "string", "pattern": pattern, "examples": ["2027-03-05T06:00", "2027-03-05T06:00:00-06:00"]}


class Zone(Strict):
    """A time zone by its IANA name."""

    def read(self, value: Any) -> str:
        """The name."""
        if not isinstance(value, str):
            refuse("not-text", value)
        if value not in zones():
            refuse("unknown-zone", value, nearest=nearest_name(value, zones()))
        return value

    def form(self) -> Form:
        """A string."""
        return {
            "type": "string",
            "format": "iana-zone",
            "minLength": 1,
            "maxLength": 64,
            "examples": ["America/Chicago", "Europe/Berlin"],
        }


@cache
def zones() -> frozenset[str]:
    """The names of all zones, less those that mean something else on each machine."""
    return frozenset(available_timezones() - {"localtime", "Factory", "posixrules"})


def _clock(parts: tuple[str | None, ...]) -> tuple[int, int, int, int]:
    hour, minute, second, fraction = parts
    return int(hour or 0), int(minute or 0), int(second or 0), int((fraction or "0").ljust(6, "0"))


def _offset(utc: str | None, sign: str | None, hours: str | None, minutes: str | None) -> timezone | None:
    if utc:
        return UTC
    if sign is None:
        return None
    if int(hours or 0) > 14 or int(minutes or 0) > 59:
        raise ValueError("no such offset")
    offset = timedelta(hours=int(hours or 0), minutes=int(minutes or 0))
    return timezone(offset if sign == "+" else -offset)


def _within_years(moment: T, value: Any, first: int) -> T:
    if not first <= moment.year <= LAST_YEAR:
        refuse("year-out-of-range", value, low=str(first), high=str(LAST_YEAR))
    return moment


class _Read(Protocol):
    """A reading at a time."""

    @property
    def at(self) -> datetime:
        """The time."""


def hold_order(readings: Sequence[_Read]) -> None:
    """Refuse a reading that is not later than the one before; times of two kinds are compared by the clock's rules."""
    for index, (before, after) in enumerate(pairwise(readings), start=1):
        if (before.at.tzinfo is None) == (after.at.tzinfo is None) and after.at <= before.at:
            finding = Finding("reading-out-of-order", after.at.isoformat(), {"before": before.at.isoformat()})
            raise ValidationError({"readings": {index: {"at": [finding]}}})
