"""The wall clock of a place, and the instants behind it.

Inside the floor's arithmetic an instant is POSIX seconds (UTC, a float): cures run in real hours, whatever the wall
clock does. Shifts, closed dates, the daily wave of temperature and what people write are on the wall clock; this
module is the edge between the two. The rules of the zones are those of the tzdata package, so that every replica has
the same ones.
"""

from __future__ import annotations

import time
from bisect import bisect_right
from datetime import UTC, datetime, timedelta
from functools import cache, lru_cache
from importlib.resources import files
from zoneinfo import ZoneInfo

from gaugerake.floor.values.errors import NoSuchLocalTime, UnknownName
from gaugerake.floor.values.frozen import dataclass

DAY_S = 86_400.0


@cache
def zone_names() -> frozenset[str]:
    """Every IANA zone that is known."""
    return frozenset(files("tzdata").joinpath("zones").read_text("utf-8").split())


@lru_cache(maxsize=64)
def zone_named(name: str) -> Zone:
    """The zone of an IANA name.

    Parameters
    ----------
    name : str
        As in the IANA time zone database.

    Returns
    -------
    Zone
        The zone, made once.

    Raises
    ------
    UnknownName
        When there is no such zone.

    Notes
    -----
    The name is looked up in a closed list before any file is opened.

    Examples
    --------
    >>> zone_named("America/Chicago").name
    'America/Chicago'

    References
    ----------
    IANA Time Zone Database, through the tzdata package.
    """
    if name not in zone_names():
        raise UnknownName("zone", seen=name, known=sorted(zone_names()))
    with files("tzdata").joinpath("zoneinfo", *name.split("/")).open("rb") as file:
        return Zone(name, ZoneInfo.from_file(file, key=name))


class Zone:
    """A zone of the IANA database: offsets by instant, and instants by wall clock."""

    __slots__ = ("_lately", "_years", "info", "name")

    def __init__(self, name: str, info: ZoneInfo) -> None:
        self.name = name
        self.info = info
        self._years: dict[int, tuple[tuple[float, ...], tuple[float, ...]]] = {}
        self._lately = (0.0, 0.0, 0.0)  # a stretch of instants and the offset in it, as one question follows another

    def offset_s(self, instant_s: float) -> float:
        """How far the wall clock is ahead of UTC at an instant [s]."""
        return self._stretch(instant_s)[2]

    def same_until_s(self, instant_s: float) -> float:
        """An instant after this one until which the wall clock runs on: the next change, or the end of the year."""
        return self._stretch(instant_s)[1]

    def _stretch(self, instant_s: float) -> tuple[float, float, float]:
        lately = self._lately
        if lately[0] <= instant_s < lately[1]:
            return lately
        year = time.gmtime(instant_s).tm_year
        instants, offsets = self._year(year)
        index = bisect_right(instants, instant_s)
        until_s = instants[index] if index < len(instants) else _year_start_s(year + 1)
        found = self._lately = (instants[index - 1], until_s, offsets[index - 1])
        return found

    def wall_s(self, instant_s: float) -> float:
        """The wall clock at an instant, as seconds since 1970-01-01T00:00 on it."""
        return instant_s + self._stretch(instant_s)[2]

    def changes_s(self, from_s: float, until_s: float) -> list[float]:
        """The instants after ``from_s`` and before ``until_s`` at which the wall clock is changed, in order."""
        first, last = time.gmtime(from_s).tm_year, time.gmtime(until_s).tm_year
        found: list[float] = []
        for year in range(first, last + 1):
            found += [at_s for at_s in self._year(year)[0][1:] if from_s < at_s < until_s]
        return found

    def instants_s(self, wall_s: float) -> tuple[float, ...]:
        """The instants at which the wall clock shows ``wall_s``: one, two (clocks set back) or none (set forward)."""
        before, after = self.offset_s(wall_s - DAY_S), self.offset_s(wall_s + DAY_S)
        if before == after:
            return (wall_s - before,)
        return tuple(wall_s - offset for offset in (before, after) if self.offset_s(wall_s - offset) == offset)

    def instant_s(self, wall_s: float) -> float:
        """The first instant at which the wall clock shows ``wall_s``, or the change that skips it."""
        instants = self.instants_s(wall_s)
        return instants[0] if instants else self.changes_s(wall_s - DAY_S, wall_s + DAY_S)[0]

    def datetime_at(self, instant_s: float) -> datetime:
        """An instant as people read it, to the nearest second."""
        return datetime.fromtimestamp(round(instant_s), tz=self.info)

    def _year(self, year: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """The instants of the year from which an offset holds, its own start first, and those offsets."""
        known = self._years.get(year)
        if known is None:
            known = self._years[year] = _offsets(self.info, year)
        return known


def _year_start_s(year: int) -> float:
    return datetime(year, 1, 1, tzinfo=UTC).timestamp()


def _offset(info: ZoneInfo, instant_s: float) -> float:
    offset = datetime.fromtimestamp(instant_s, tz=info).utcoffset() or timedelta(0)
    return offset.total_seconds()


def _offsets(info: ZoneInfo, year: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    start_s = _year_start_s(year)
    instants, offsets = [start_s], [_offset(info, start_s)]
    for day in range(round((_year_start_s(year + 1) - start_s) / DAY_S)):
        early_s, late_s = start_s + day * DAY_S, start_s + (day + 1) * DAY_S
        offset = _offset(info, late_s)
        if offset != offsets[-1]:
            instants.append(_change(info, early_s, late_s))
            offsets.append(offset)
    return tuple(instants), tuple(offsets)


def _change(info: ZoneInfo, early_s: float, late_s: float) -> float:
    """The whole second between the two at which the offset becomes that of ``late_s``."""
    after = _offset(info, late_s)
    while late_s - early_s > 1:
        middle_s = (early_s + late_s) // 2
        if _offset(info, middle_s) == after:
            late_s = middle_s
        else:
            early_s = middle_s
    return late_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Instant:
    """An instant [s] and whether the wall clock shows its local time twice (then it is the first)."""

    at_s: float
    twice: bool = False


def instant_of(local: datetime, *, zone: Zone, parameter: str = "local") -> Instant:
    """The instant of a local time.

    Parameters
    ----------
    local : datetime
        With an offset: that instant. Without one: the time on the wall clock of ``zone``.
    zone : Zone
        Whose wall clock it is.
    parameter : str
        How the error calls the time.

    Returns
    -------
    Instant
        The instant [s since 1970 UTC]; the first one, flagged, where the clock shows the time twice.

    Raises
    ------
    NoSuchLocalTime
        When the clocks are set forward over it; ``nearest`` is the first time on the clock after the change.

    Notes
    -----
    Real hours, not hours of the clock, lie between two instants.

    Examples
    --------
    >>> york = zone_named("America/New_York")
    >>> evening = instant_of(datetime(2026, 3, 7, 22, 0), zone=york)
    >>> york.datetime_at(evening.at_s + 8 * 3600).isoformat()
    '2026-03-08T07:00:00-04:00'

    References
    ----------
    IANA Time Zone Database; PEP 495 on times that the clock shows twice.
    """
    if local.tzinfo is not None:
        return Instant(at_s=local.timestamp())
    wall_s = local.replace(tzinfo=UTC).timestamp()
    instants = zone.instants_s(wall_s)
    if not instants:
        nearest_s = zone.wall_s(zone.instant_s(wall_s))
        nearest = datetime.fromtimestamp(nearest_s, tz=UTC).replace(tzinfo=None)
        raise NoSuchLocalTime(parameter, seen=local, nearest=nearest)
    return Instant(at_s=instants[0], twice=len(instants) > 1)
