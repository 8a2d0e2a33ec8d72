"""A start judged: whether it is ok, and what is against it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Annotated, Literal

from gaugerake.answers.choosing.start_search.trial import Outcome
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.cautions import WARMS_K
from gaugerake.answers.wet_edge.hands import too_few
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.slab.air import dew_point
from gaugerake.floor.slab.least_spread import Span, least_spreads, least_spreads_in_still_air
from gaugerake.floor.slab.verdict import at_least
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import Zone
from gaugerake.floor.values.note import OpenWord


class Because(OpenWord):
    """What is against a start."""

    EDGE_LOST = "edge-lost"
    SHORT_HANDED = "short-handed"
    NEVER_DONE = "never-done"
    TOO_DAMP = "too-damp"
    LATE = "late"


Trend = Literal["warms", "cools", "steady"]


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedStart:
    """A start, as the job posted with it would come out."""

    start: Annotated[datetime, "When the work would begin, with the offset of the job's zone."]
    ok: Annotated[
        bool,
        "Whether every wet edge holds, with people enough, the spread is kept to the last cure, traffic returns, and by"
        " the deadline where there is one. What nobody knows decides nothing.",
    ]
    because: Annotated[tuple[Because, ...], "What is against it; empty exactly where it is ok."]
    edge_margin: Annotated[
        Figure | None, "The least of open time less what is needed, of all rooms; null where no open time is known."
    ]
    least_spread: Annotated[
        Figure | None, "The floor above the dew point at its least, to the end of the last cure; null without the air."
    ]
    trend: Annotated[
        Trend | None, "How the floor's temperature runs during the pour, `steady` under 0.1 K; null: nothing is poured."
    ]
    return_: Annotated[datetime | None, "The latest return of the traffic asked for; null: never, or none is stated."]
    slack: Annotated[Figure | None, "Hours from that to the deadline, negative when it is late; null without one."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """What a start is held against: the spread that the system asks for [K] and the deadline [s], where there are.

    ``returns`` tells whether the system states the return of a traffic at all.
    """

    zone: Zone
    spread_k: float | None
    by_s: float | None
    returns: bool
    short_handed: bool


def bar_of(resolved: ResolvedJob, takeoff: Takeoff, zone: Zone) -> Bar:
    """What the starts of a job are held against."""
    work = resolved.work
    reopen_by, traffic = work.reopen_by.value, work.traffic.value
    return Bar(
        zone=zone,
        spread_k=resolved.system.air_limits.dew_point_spread_k,
        by_s=None if reopen_by is None or traffic is None else reopen_by.timestamp(),
        returns=traffic is not None,
        short_handed=too_few(resolved, takeoff),
    )


def judge_start(start_s: float, outcome: Outcome, spread_k: float | None, bar: Bar) -> JudgedStart:
    """Hold what comes of a start against the bar."""
    because = tuple(_against(outcome, spread_k, bar))
    slack_s = None if bar.by_s is None or outcome.back_s is None else bar.by_s - outcome.back_s
    return JudgedStart(
        start=bar.zone.datetime_at(start_s),
        ok=not because,
        because=because,
        edge_margin=None if outcome.margin_s is None else Figure(outcome.margin_s, Kind.MINUTES),
        least_spread=None if spread_k is None else Figure(spread_k, Kind.TEMPERATURE_DIFFERENCE),
        trend=_trend(outcome),
        return_=None if outcome.back_s is None else bar.zone.datetime_at(outcome.back_s),
        slack=None if slack_s is None else Figure(slack_s, Kind.DURATION),
    )


def spreads_of(
    resolved: ResolvedJob, starts_s: Sequence[float], outcomes: Sequence[Outcome]
) -> tuple[float | None, ...]:
    """The least spread of each start [K]; None without the air."""
    spans: list[Span] = [(start_s, one.ends_s) for start_s, one in zip(starts_s, outcomes, strict=True)]
    air, first = resolved.air, outcomes[0].course
    if air.course is not None:
        # a floor taken to be as the air is at the start is steady in each, and another in each
        warmer_k = [_steady_k(one) - _steady_k(outcomes[0]) for one in outcomes]
        found = least_spreads(course=first, air=air.course.value, spans=spans)
        return tuple(spread_k + by_k for spread_k, by_k in zip(found, warmer_k, strict=True))
    temperature_k, humidity = air.temperature_k.value, air.humidity_percent.value
    if temperature_k is None or humidity is None:
        return (None,) * len(spans)
    dew_k = dew_point(temperature_k=temperature_k, humidity_percent=humidity)
    return least_spreads_in_still_air(course=first, dew_point_k=dew_k, spans=spans)


def _steady_k(outcome: Outcome) -> float:
    return outcome.course.temperature_k if isinstance(outcome.course, SteadyCourse) else 0.0


def ranked(starts: Sequence[JudgedStart]) -> list[JudgedStart]:
    """The starts by the earliest return, then the larger edge margin, then the earlier start."""
    return sorted(starts, key=_rank)


def nearest_ok(starts: Sequence[JudgedStart]) -> JudgedStart:
    """The start with the fewest reasons against it, of starts of which none is ok; of several the first as `ranked`."""
    return min(starts, key=lambda one: (len(one.because), *_rank(one)))


def _rank(one: JudgedStart) -> tuple[float, float, datetime]:
    return_s = math.inf if one.return_ is None else one.return_.timestamp()
    return return_s, 0.0 if one.edge_margin is None else -one.edge_margin.value, one.start


def _against(outcome: Outcome, spread_k: float | None, bar: Bar) -> Iterator[Because]:
    if outcome.edge_lost:
        yield Because.EDGE_LOST
    if bar.short_handed:
        yield Because.SHORT_HANDED
    if not outcome.laid or (bar.returns and outcome.back_s is None):
        yield Because.NEVER_DONE
    if spread_k is not None and bar.spread_k is not None and not at_least(value=spread_k, low=bar.spread_k):
        yield Because.TOO_DAMP
    if bar.by_s is not None and outcome.back_s is not None and outcome.back_s > bar.by_s:
        yield Because.LATE


def _trend(outcome: Outcome) -> Trend | None:
    if outcome.warms_k is None or outcome.cools_k is None:
        return None
    if outcome.warms_k > WARMS_K:
        return "warms"
    return "cools" if outcome.cools_k > WARMS_K else "steady"
