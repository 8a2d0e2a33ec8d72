"""The floor's temperature, the age of a layer and the hours of work, from nothing but what a working gives.

Age is summed in steps of ten seconds, the first hour with a floor within limits looked for second by second: slower
than any formula, and with nothing in common with one. An instant is in seconds, as ``working_values`` reads it.
"""

import math
from collections.abc import Iterator
from datetime import UTC, datetime, time, timedelta
from itertools import count
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray
from tests.outside.working_values import DAY, Given, numbered

Numbers = NDArray[np.float64]
GAS_CONSTANT = 8.314462618  # CODATA 2018, J/(mol K)
FREEZING = 273.15
SAME_K = 5e-5  # six digits of a temperature
STEP, LONGEST = 10.0, 370


def floor_at(given: Given, instants: Numbers) -> Numbers:
    """The floor at instants [K]: held, a wave of the wall clock, or in straight lines between readings."""
    if "floor" in given:
        return np.full_like(instants, given["floor"])
    if "floor_low" in given:
        mean, height = (given["floor_low"] + given["floor_high"]) / 2, (given["floor_high"] - given["floor_low"]) / 2
        return mean - height * np.cos(2 * np.pi * since_coldest(given, instants) / DAY)
    rows = list(zip(numbered(given, "reading_#_at"), numbered(given, "reading_#"), strict=True))
    found: Numbers = np.interp(instants, [row[0] for row in rows], [row[1] for row in rows])
    return found


def since_coldest(given: Given, instants: Numbers) -> Numbers:
    """How long it is since the coldest hour of the wall clock [s]; without a zone hours count from it."""
    if "zone" not in given:
        return instants - given["coldest_at"]
    coldest = time.fromisoformat(given["coldest_at"])
    offsets = np.array([offset(given["zone"], at) for at in instants[:: max(1, len(instants) - 1)]])
    if len(set(offsets)) > 1:  # the clocks are changed within
        offsets = np.array([offset(given["zone"], at) for at in instants])
    return instants + offsets[0 if len(set(offsets)) == 1 else slice(None)] - coldest.hour * 3600 - coldest.minute * 60


def offset(zone: str, at: float) -> float:
    """How far the wall clock is ahead of UTC [s]."""
    ahead = datetime.fromtimestamp(at, ZoneInfo(zone)).utcoffset()
    assert ahead is not None
    return ahead.total_seconds()


def takes(given: Given, kelvin: Numbers) -> Numbers:
    """What the table says at temperatures [s]: ln t straight in 1/T, beyond its ends on by the activation energy."""
    rows = sorted(zip(numbered(given, "row_#_at"), numbered(given, "row_#_takes"), strict=True))
    inverse, logs = np.array([1 / row[0] for row in rows]), np.log([row[1] for row in rows])
    slope = given["activation_energy_kj_mol"] * 1000 / GAS_CONSTANT
    found = np.interp(1 / kelvin, inverse[::-1], logs[::-1])
    found += slope * (np.maximum(1 / kelvin - inverse[0], 0) + np.minimum(1 / kelvin - inverse[-1], 0))
    whole: Numbers = np.exp(found)
    return whole


def aged(given: Given, name: str = "work_ends") -> tuple[float, float, float]:
    """When age reaches 1, counted from an instant, and how long it stood still and was capped till then [s]."""
    start = given[name]
    if "floor" in given and not stands(given, given["floor"]):
        held = min(given["floor"], given.get("product_high", math.inf))
        lasts = float(takes(given, np.array([held]))[0])
        return start + lasts, 0.0, lasts if held < given["floor"] - SAME_K else 0.0
    age = stood = capped = 0.0
    for day in range(LONGEST):
        instants = start + day * DAY + np.arange(0, DAY + STEP, STEP)
        floor = floor_at(given, instants)
        low, high = given.get("product_low", 0.0) - SAME_K, given.get("product_high", math.inf)
        counts, held = above(floor, low), np.minimum(floor, high)
        gained = STEP * counts / takes(given, (held[1:] + held[:-1]) / 2)
        so_far = age + np.concatenate([[0.0], np.cumsum(gained)])
        last = len(gained) if so_far[-1] < 1 else int(np.searchsorted(so_far, 1.0))
        assert (floor[:last] > FREEZING - SAME_K).all(), "a layer that froze has no such hour"
        stood += STEP * float((1 - counts[:last]).sum())
        capped += STEP * float(above(floor, high + SAME_K)[:last].sum())
        if so_far[-1] >= 1:
            return float(np.interp(1.0, so_far, instants)), stood, capped
        age = float(so_far[-1])
    raise AssertionError(f"not within a year: {given}")


def above(floor: Numbers, limit: float) -> Numbers:
    """The share of each step in which the floor is above a limit."""
    highest, rise = np.maximum(floor[1:], floor[:-1]), np.abs(np.diff(floor))
    share: Numbers = np.clip((highest - limit) / np.maximum(rise, 1e-9), 0.0, 1.0)
    return share


def stands(given: Given, kelvin: float) -> bool:
    """Whether age stands still at a temperature."""
    return bool(kelvin < given.get("product_low", 0.0) - SAME_K)


def shifts_of(given: Given) -> Iterator[tuple[float, float]]:
    """The shifts that a working lists; without any, all hours."""
    opens, closes = numbered(given, "shift_#_opens"), numbered(given, "shift_#_closes")
    yield from zip(opens, closes, strict=True) if opens else [(given["ready"], math.inf)]


def fits(given: Given, *, work: float) -> float:
    """The first instant at which work may begin, as the shifts and the floor are; a second is noise."""
    for opens, closes in shifts_of(given):
        earliest, latest = max(opens, given["ready"]), closes - work
        if latest < earliest - 1.0 - 5e-6 * work or closes <= given["ready"]:
            continue
        begins = first_within(given, earliest, latest)
        if begins is not None:
            return begins
    raise AssertionError(f"none of the shifts holds it: {given}")


def first_within(given: Given, earliest: float, latest: float) -> float | None:
    """The first instant of a span at which the floor is within the product's limits."""
    low, high = given.get("product_low", 0.0) - SAME_K, given.get("product_high", math.inf) + SAME_K
    if "floor_coldest" in given:
        assert low <= given["floor_coldest"] <= given["floor_warmest"] <= high
    if "floor_coldest" in given or not {"product_low", "product_high"} & set(given):
        return earliest
    for begun in count(earliest, DAY):
        if begun > max(latest, earliest):
            return None
        instants = np.arange(begun, min(begun + DAY, max(latest, earliest)) + 1.0)
        floor = floor_at(given, instants)
        within = np.flatnonzero((floor >= low) & (floor <= high))
        if len(within):
            return float(instants[within[0]])
    return None


def open_hours(given: Given) -> list[tuple[float, float]]:
    """The job's shifts on the calendar, from its start until all is done; those that meet are one."""
    zone, start, end = ZoneInfo(given["zone"]), given["start"], given["all_done"]
    closed = set(numbered(given, "closed_#"))
    days, froms, tos = (numbered(given, f"shift_#_{name}") for name in ("days", "from", "to"))
    shifts = list(zip(days, froms, tos, strict=True)) or [("mon tue wed thu fri sat sun", "00:00", "00:00")]
    first = datetime.fromtimestamp(start, zone).date() - timedelta(days=2)
    stretches = []
    for day in (first + timedelta(days=ahead) for ahead in range(int((end - start) / DAY) + 6)):
        for names, opens, closes in shifts:
            if day not in closed and day.strftime("%a").lower() in names.split():
                begins, ends = time.fromisoformat(opens), time.fromisoformat(closes)
                last = day + timedelta(days=ends <= begins)
                stretches.append(tuple(instant(datetime.combine(*at), zone) for at in ((day, begins), (last, ends))))
    open_now = sorted(stretch for stretch in stretches if stretch[1] > start)
    return [(a, min(b, max(end, a + DAY))) for a, b in united(open_now) if a < end]


def instant(wall: datetime, zone: ZoneInfo) -> float:
    """The instant of a time of the wall clock; one that is skipped is that of the change."""
    at = wall.replace(tzinfo=zone).astimezone(UTC)
    assert at.astimezone(zone).replace(tzinfo=None) == wall, "none of the jobs works in a skipped hour"
    return at.timestamp()


def united(stretches: list[tuple[float, ...]]) -> list[tuple[float, float]]:
    """Stretches in the order of their starts, those that meet made one."""
    found: list[tuple[float, float]] = []
    for begins, ends in stretches:
        if found and begins <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], ends))
        else:
            found.append((begins, ends))
    return found


def rooms_of(given: Given) -> Iterator[tuple[float, float]]:
    """The mixes and the thickness of each room of a body."""
    yield from zip(numbered(given, "room_#_mixes"), numbered(given, "room_#_thickness"), strict=True)
