"""The planned work ahead: whether the plan is needed, and when the floor is too near the dew point during it."""

from __future__ import annotations

import math
from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.readiness.air import FloorNow, dew_point_now, floor_now
from gaugerake.answers.readiness.facts import Facts, asked_thicknesses
from gaugerake.answers.takeoff.remarks import wanted_of_layers
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.product import Product
from gaugerake.floor.slab.condensation import DampSpan, condensation_spans
from gaugerake.floor.slab.damp_spans import damp_spans
from gaugerake.floor.slab.verdict import RangeSide, at_least, side
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits

MINUTE_S = 60
Span = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedSpan:
    """The span from the start of the work to the end of its last cure, and the assumptions that it rests on.

    ``span`` is None without a start, and where no plan is needed. With ``faults`` the work cannot be planned.
    """

    span: Span | None = None
    remarks: Remarks = ()
    faults: tuple[Fault, ...] = ()

    def checked(self) -> Span | None:
        """The span.

        Raises
        ------
        Refused
            When the work cannot be planned.
        """
        if self.faults:
            raise Refused(*self.faults)
        return self.span


NO_PLAN = PlannedSpan()


@dataclass(frozen=True, slots=True, kw_only=True)
class Condensation:
    """A span of the planned work in which the floor is too near the dew point."""

    from_: Annotated[datetime, "When the floor comes too near the dew point, or the start of the work."]
    until: Annotated[datetime, "When it is far enough from it again, or the end of the last cure."]
    least_spread: Annotated[Figure, "Floor less dew point at its least in the span; under 0, water condenses."]


def needs_plan(resolved: ResolvedJob) -> bool:
    """Whether anything said of the slab depends on when the work is done.

    False too for a job whose start or temperatures cannot be: that is refused before the plan is looked at.
    """
    work = resolved.work
    if work.start.faults or work.course.faults or resolved.air.temperature_k.faults:
        return False
    if not _can_be_planned(resolved):
        return False
    return condensation_depends_on_plan(resolved, dew_point_now(resolved)) or products_depend_on_plan(
        resolved, floor_now(resolved)
    )


def _can_be_planned(resolved: ResolvedJob) -> bool:
    """Whether the work can be planned: it has rooms, and thicknesses that the system can be placed at.

    The checks themselves tell of a job without them.
    """
    thickness = resolved.system.thickness
    if not resolved.rooms or thickness is None:
        return bool(resolved.rooms)
    limits = Limits(low=thickness.low_m, high=thickness.high_m)
    return all(side(value=value, limits=limits) is RangeSide.WITHIN for _, value in asked_thicknesses(resolved))


def spread_foreseen(resolved: ResolvedJob, dew_point_k: float | None) -> tuple[float, float] | None:
    """The dew point and the spread asked [K] where the planned work is judged by them; else None."""
    asked_k = resolved.system.air_limits.dew_point_spread_k
    if asked_k is None or dew_point_k is None or resolved.work.start.value is None:
        return None
    return dew_point_k, asked_k


def condensation_depends_on_plan(resolved: ResolvedJob, dew_point_k: float | None) -> bool:
    """Whether the floor is too near the dew point at some hour, so that it matters when the work is done."""
    foreseen = spread_foreseen(resolved, dew_point_k)
    if foreseen is None:
        return False
    dew_k, asked_k = foreseen
    air = resolved.air.course
    if air is not None:
        dew_k = air.value.highest_dew_point_k()
    return not at_least(value=resolved.work.course.value.span_k[0] - dew_k, low=asked_k)


def products_depend_on_plan(resolved: ResolvedJob, floor: FloorNow | None) -> bool:
    """Whether the floor is beyond a product's limits at some hour, so that it matters when the work is done."""
    if floor is None or not resolved.work.floor_varies:
        return False
    ends_k = resolved.work.course.value.span_k
    return not all(_within(product.temperature_k, ends_k) for product in products_of(resolved))


def products_of(resolved: ResolvedJob) -> tuple[Product, ...]:
    """Each product of the layers that take part, once; a layer named wrongly is refused where the work is planned.

    One that coves, fills or seals takes part where a room asks for that; without rooms it may yet.
    """
    wanted = wanted_of_layers(resolved) if resolved.rooms else set(Asked)
    layers = (layer for layer in resolved.layers.found or () if not layer.does or layer.does & wanted)
    return tuple({layer.product.code: layer.product for layer in layers}.values())


def floor_range(facts: Facts, floor: FloorNow, planned: PlannedSpan) -> tuple[float, float]:
    """The floor's lowest and highest temperature [K]: over the planned work where anything depends on that.

    Raises
    ------
    Refused
        When the work cannot be planned, or its temperatures cannot be.
    """
    resolved = facts.resolved
    course = resolved.work.course.value
    if not resolved.work.floor_varies:
        return course.span_k
    if not products_depend_on_plan(resolved, floor):
        return course.span_k
    span = planned.checked()
    if span is None:
        return floor.temperature_k, floor.temperature_k
    return course.reached_k(span[0].timestamp(), span[1].timestamp())


def _within(limits: Limits, ends: tuple[float, float]) -> bool:
    low, high = ends
    within = RangeSide.WITHIN
    return side(value=low, limits=limits) is within and side(value=high, limits=limits) is within


def condensation(facts: Facts, planned: PlannedSpan) -> tuple[Condensation, ...]:
    """The spans of the planned work in which the floor is too near the dew point of this air.

    Raises
    ------
    Refused
        When the work cannot be planned, or its temperatures cannot be.
    """
    resolved = facts.resolved
    foreseen = spread_foreseen(resolved, facts.dew_point_k)
    if foreseen is None or not condensation_depends_on_plan(resolved, facts.dew_point_k):
        return ()
    span = planned.checked()
    if span is None:
        return ()
    start, end = span
    found = _damp_spans(resolved, foreseen, start.timestamp(), end.timestamp())
    return tuple(
        Condensation(
            # outwards to the whole minute, and no farther than the work
            from_=max(start, _at(math.floor(span.from_s / MINUTE_S), start)),
            until=min(end, _at(math.ceil(span.until_s / MINUTE_S), start)),
            least_spread=Figure(span.least_spread_k, Kind.TEMPERATURE_DIFFERENCE),
        )
        for span in found
    )


def _damp_spans(
    resolved: ResolvedJob, foreseen: tuple[float, float], from_s: float, until_s: float
) -> tuple[DampSpan, ...]:
    (dew_point_k, spread_k), course, air = foreseen, resolved.work.course.value, resolved.air.course
    if air is not None:
        return damp_spans(course=course, air=air.value, spread_k=spread_k, from_s=from_s, until_s=until_s)
    return condensation_spans(course=course, dew_point_k=dew_point_k, spread_k=spread_k, from_s=from_s, until_s=until_s)


def _at(minute: int, like: datetime) -> datetime:
    return datetime.fromtimestamp(minute * MINUTE_S, tz=like.tzinfo)
