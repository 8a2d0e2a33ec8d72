"""What a check is, and how a figure against a range becomes one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Annotated

from gaugerake.floor.slab.verdict import Side, Verdict, side
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import OpenWord, Say, Value
from gaugerake.floor.values.range import Limits

Measured = Figure | str | bool | None


class CheckName(OpenWord):
    """Every check, in the order in which a person would do them, which is their order in an answer."""

    SUBSTRATE = "substrate"
    AGE = "age"
    STRENGTH = "strength"
    DAMP = "damp"
    MOISTURE_EMISSION = "moisture-emission"
    RELATIVE_HUMIDITY = "relative-humidity"
    PROBE_DEPTH = "probe-depth"
    TEST_COUNT = "test-count"
    CONTAMINANTS = "contaminants"
    ABSORPTION = "absorption"
    PH = "ph"
    PROFILE = "profile"
    PULL_OFF = "pull-off"
    SLOPE = "slope"
    JOINTS = "joints"
    THICKNESS = "thickness"
    SLAB_TEMPERATURE = "slab-temperature"
    AIR_TEMPERATURE = "air-temperature"
    AIR_HUMIDITY = "air-humidity"
    DEW_POINT_SPREAD = "dew-point-spread"


_SYSTEM = "the system's limits"
SOURCES: Mapping[CheckName, str] = {
    CheckName.SUBSTRATE: _SYSTEM,
    CheckName.AGE: _SYSTEM,
    CheckName.STRENGTH: f"{_SYSTEM}; ASTM C39 (cylinders) or C42 (cores)",
    CheckName.DAMP: "ASTM D4263",
    CheckName.MOISTURE_EMISSION: f"{_SYSTEM}; ASTM F1869",
    CheckName.RELATIVE_HUMIDITY: f"{_SYSTEM}; ASTM F2170",
    CheckName.PROBE_DEPTH: "ASTM F2170",
    CheckName.TEST_COUNT: "ASTM F1869; ASTM F2170",
    CheckName.CONTAMINANTS: "ASTM F710; common practice",
    CheckName.ABSORPTION: "ASTM F710; common practice",
    CheckName.PH: f"{_SYSTEM}; ASTM F710",
    CheckName.PROFILE: f"{_SYSTEM}; ICRI 310.2R",
    CheckName.PULL_OFF: f"{_SYSTEM}; ASTM C1583 or D7234",
    CheckName.SLOPE: _SYSTEM,
    CheckName.JOINTS: "common practice",
    CheckName.THICKNESS: _SYSTEM,
    CheckName.SLAB_TEMPERATURE: _SYSTEM,
    CheckName.AIR_TEMPERATURE: _SYSTEM,
    CheckName.AIR_HUMIDITY: _SYSTEM,
    CheckName.DEW_POINT_SPREAD: f"{_SYSTEM}; ISO 8502-4",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """An inclusive range; an end that is null is open."""

    low: Figure | None
    high: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One of the readings that a check rests on, judged alone."""

    pointer: Annotated[str, "RFC 6901 pointer into the job."]
    measured: Annotated[Measured, "As it was given."]
    verdict: Verdict
    because: Annotated[Say, "Why, in a sentence."]
    do: Annotated[Say | None, "What mends it, or how to test; null when nothing is to be done."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check of the slab or the air: what was found, what is asked, and what to do."""

    check: CheckName
    verdict: Verdict
    measured: Annotated[Measured, "A figure, a word, or yes or no; of several readings the one that decides."]
    limit: Annotated[Limit | None, "What the system asks; null where it asks no figure."]
    because: Annotated[Say, "Why, in a sentence."]
    do: Annotated[Say | None, "What mends it, or how to test; null when nothing is to be done."]
    source: Annotated[str, "Where the limit and the method come from."]
    pointer: Annotated[str, "RFC 6901 pointer of the field that it looks at."]
    readings: Annotated[tuple[Reading, ...], "Each one that it rests on, where there may be several."] = ()


def limit_of(limits: Limits, kind: str) -> Limit:
    """A system's range as an answer shows it."""
    return _limit(limits.low, limits.high, kind)


@lru_cache(maxsize=1024)
def _limit(low: float | None, high: float | None, kind: str) -> Limit:
    """Made once for each range of the catalogue, as every reading shows it."""
    return Limit(
        low=None if low is None else Figure(low, kind),
        high=None if high is None else Figure(high, kind),
    )


def say(code: str, **params: Value) -> Say:
    """A sentence with its figures."""
    return Say(code=code, params=params)


def untested(name: CheckName, pointer: str, **params: Value) -> Reading:
    """Nothing was measured: say how to."""
    return Reading(
        pointer=pointer,
        measured=None,
        verdict=Verdict.UNTESTED,
        because=say(f"check-{name}-untested", **params),
        do=say(f"do-{name}-untested", **params),
    )


def number(
    name: CheckName,
    *,
    value: float | None,
    kind: str,
    limits: Limits,
    pointer: str,
    bad: Verdict = Verdict.FIX,
    do: Say | None = None,
    **params: Value,
) -> Reading:
    """A figure against a range; out of it is ``bad``, and ``do`` (or the check's own remedy for that side) mends it."""
    if value is None:
        return untested(name, pointer, **params)
    where = side(value=value, limits=limits)
    shown = limit_of(limits, kind)
    figures: dict[str, Value] = {"measured": Figure(value, kind), "low": shown.low, "high": shown.high, **params}
    inside = where is Side.WITHIN
    return Reading(
        pointer=pointer,
        measured=Figure(value, kind),
        verdict=Verdict.GO if inside else bad,
        because=Say(code=f"check-{name}-{where}", params=figures),
        do=None if inside else do or Say(code=f"do-{name}-{where}", params=figures),
    )


def check_of(
    name: CheckName, reading: Reading, *, limit: Limit | None = None, readings: Sequence[Reading] = ()
) -> Check:
    """The check that one reading decides, with all of them beside it."""
    return Check(
        check=name,
        verdict=reading.verdict,
        measured=reading.measured,
        limit=limit,
        because=reading.because,
        do=reading.do,
        source=SOURCES[name],
        pointer=reading.pointer,
        readings=tuple(readings),
    )


def yes_or_no(name: CheckName, *, seen: bool | None, good: bool, pointer: str) -> Check:
    """A thing that is seen or not."""
    if seen is None:
        return check_of(name, untested(name, pointer))
    fine = seen is good
    word = "yes" if seen else "no"
    reading = Reading(
        pointer=pointer,
        measured=seen,
        verdict=Verdict.GO if fine else Verdict.FIX,
        because=say(f"check-{name}-{word}"),
        do=None if fine else say(f"do-{name}-{word}"),
    )
    return check_of(name, reading)
