"""What a check finds: readings against what the system asks."""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated

from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.note import Say, Value, Words
from gaugerake.floor.values.range import Limits

Measured = Figure | str | bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """An inclusive range; an end that is null is open."""

    low: Annotated[Figure | None, "The least that the system allows; null where there is no least."]
    high: Annotated[Figure | None, "The most that the system allows; null where there is no most."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One of the readings that a check rests on, judged alone."""

    pointer: Annotated[str, "RFC 6901 pointer into the job."]
    measured: Annotated[Measured, "As it was given."]
    verdict: Annotated[
        Verdict,
        "`go`: within the limit; `untested`: no figure to judge by; `fix`: can be mended on site; `stop`: cannot.",
    ]
    because: Annotated[Say, "Why, in a sentence."]
    do: Annotated[Say | None, "What mends it, or how to test; null when nothing is to be done."]
    room: Annotated[Words | None, "The room that it was taken in, where that is said."] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """The reading that decides a check, what the system asks, and each reading where there may be several."""

    decisive: Reading
    limit: Limit | None = None
    readings: tuple[Reading, ...] = ()


make_finding = maker(Finding)


def limit_of(limits: Limits, kind: Kind) -> Limit:
    """A system's range as an answer shows it."""
    return _limit(limits.low, limits.high, kind)


@lru_cache(maxsize=1024)
def _limit(low: float | None, high: float | None, kind: Kind) -> Limit:
    """Made once for each range of the catalogue, as every reading shows it."""
    return Limit(
        low=None if low is None else Figure(low, kind),
        high=None if high is None else Figure(high, kind),
    )


def say(code: str, **params: Value) -> Say:
    """A sentence with its figures."""
    return Say(code=code, params=params)
