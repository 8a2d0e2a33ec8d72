"""The air and the floor's temperature: now, and over the planned work."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import Check, CheckName, check_of, limit_of, number, say, untested
from gaugerake.answers.readiness.planned import floor_course, planned_span, start_of_work
from gaugerake.floor.job import Steady
from gaugerake.floor.product import Product
from gaugerake.floor.slab.air import dew_point, spread
from gaugerake.floor.slab.condensation import condensation_spans, extremes, whole_range
from gaugerake.floor.slab.verdict import Side, Verdict, at_least, side, stated
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits

MINUTE_S = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class AirNow:
    """The air over the floor at the start; what cannot be known is null."""

    dew_point: Figure | None
    spread: Annotated[Figure | None, "The floor's temperature less the dew point."]
    floor_temperature: Annotated[Figure | None, "As measured, planned, or taken to be the air's."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Condensation:
    """A span of the planned work in which the floor is too near the dew point."""

    from_: datetime
    until: datetime
    least_spread: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorNow:
    """The floor's temperature at the start [K], where it was said, and whether it is only the air's."""

    temperature_k: float
    pointer: str
    assumed: bool


def floor_now(context: Context) -> FloorNow | None:
    """As measured; else as planned for the start; else as the air's."""
    job = context.job
    if job.slab.temperature_k is not None:
        return FloorNow(temperature_k=job.slab.temperature_k, pointer="/slab/temperature", assumed=False)
    planned, start = job.work.temperatures, start_of_work(context)
    if isinstance(planned, Steady):
        return FloorNow(temperature_k=planned.temperature_k, pointer="/work/temperatures/steady", assumed=False)
    if planned is not None and start is not None:
        temperature = floor_course(context).at(start.timestamp())
        return FloorNow(temperature_k=temperature, pointer="/work/temperatures", assumed=False)
    if planned is None and job.air.temperature_k is not None:
        return FloorNow(temperature_k=job.air.temperature_k, pointer="/slab/temperature", assumed=True)
    return None


def dew_point_now(context: Context) -> float | None:
    """The dew point of the air [K]; None when its temperature or humidity was not said."""
    air = context.job.air
    if air.temperature_k is None or air.humidity_percent is None:
        return None
    return dew_point(temperature_k=air.temperature_k, humidity_percent=air.humidity_percent)


def air_now(context: Context) -> AirNow:
    """Dew point, floor and the spread between them."""
    dew, floor = context.shared(dew_point_now), context.shared(floor_now)
    apart = None if dew is None or floor is None else spread(floor_temperature_k=floor.temperature_k, dew_point_k=dew)
    return AirNow(
        dew_point=None if dew is None else Figure(dew, "temperature"),
        spread=None if apart is None else Figure(apart, "temperature-difference"),
        floor_temperature=None if floor is None else Figure(floor.temperature_k, "temperature"),
    )


def slab_temperature_check(context: Context) -> Check | None:
    """The floor's temperature, measured or planned: the air's does not stand for it."""
    floor = context.shared(floor_now)
    known = floor is not None and not floor.assumed
    return _ranged(
        CheckName.SLAB_TEMPERATURE,
        floor.temperature_k if floor is not None and known else None,
        "temperature",
        context.system.slab_limits.temperature_k,
        floor.pointer if floor is not None and known else "/slab/temperature",
    )


def air_temperature_check(context: Context) -> Check | None:
    """The temperature of the air."""
    value, limits = context.job.air.temperature_k, context.system.air_limits.temperature_k
    return _ranged(CheckName.AIR_TEMPERATURE, value, "temperature", limits, "/air/temperature")


def air_humidity_check(context: Context) -> Check | None:
    """The humidity of the air."""
    value, limits = context.job.air.humidity_percent, context.system.air_limits.humidity_percent
    return _ranged(CheckName.AIR_HUMIDITY, value, "percent", limits, "/air/humidity_percent")


def _ranged(name: CheckName, value: float | None, kind: str, limits: Limits, pointer: str) -> Check | None:
    if not stated(limits):
        return None
    reading = number(name, value=value, kind=kind, limits=limits, pointer=pointer)
    return check_of(name, reading, limit=limit_of(limits, kind))


def spread_check(context: Context) -> Check | None:
    """How far the floor is above the dew point; with a floor that is only the air's it can fail, but not pass."""
    name, asked = CheckName.DEW_POINT_SPREAD, context.system.air_limits.dew_point_spread_k
    if asked is None:
        return None
    limits, now = Limits(low=asked), context.shared(air_now)
    limit, floor = limit_of(limits, "temperature-difference"), context.shared(floor_now)
    if now.spread is None or floor is None:
        air = context.job.air
        unsaid = "/air/temperature" if air.temperature_k is None else "/air/humidity_percent"
        pointer = unsaid if now.dew_point is None else "/slab/temperature"
        return check_of(name, untested(name, pointer), limit=limit)
    reading = number(
        name,
        value=now.spread.value,
        kind="temperature-difference",
        limits=limits,
        pointer=floor.pointer,
        dew_point=now.dew_point,
        floor=now.floor_temperature,
    )
    if floor.assumed:
        floor_course(context)  # notes that the floor is taken to be as the air
        if reading.verdict is Verdict.GO:
            because = replace(reading.because, code="check-dew-point-spread-assumed")
            reading = replace(reading, verdict=Verdict.UNTESTED, because=because, do=say(f"do-{name}-untested"))
    return check_of(name, reading, limit=limit)


def condensation(context: Context) -> tuple[Condensation, ...]:
    """The spans of the planned work in which the floor is too near the dew point of this air."""
    asked, dew = context.system.air_limits.dew_point_spread_k, context.shared(dew_point_now)
    if asked is None or dew is None or start_of_work(context) is None:
        return ()
    course = floor_course(context)
    if at_least(value=whole_range(course)[0] - dew, low=asked):
        return ()  # at no hour: the work need not be planned to know it
    planned = context.shared(planned_span)
    if planned is None:
        return ()
    start, end = planned
    from_s, until_s = start.timestamp(), end.timestamp()
    spans = condensation_spans(course=course, dew_point_k=dew, spread_k=asked, from_s=from_s, until_s=until_s)
    return tuple(
        Condensation(
            # outwards to the whole minute, and no farther than the work
            from_=max(start, _at(math.floor(span.from_s / MINUTE_S), start)),
            until=min(end, _at(math.ceil(span.until_s / MINUTE_S), start)),
            least_spread=Figure(span.least_spread_k, "temperature-difference"),
        )
        for span in spans
    )


def _at(minute: int, like: datetime) -> datetime:
    return datetime.fromtimestamp(minute * MINUTE_S, tz=like.tzinfo)


def caution_products(context: Context) -> None:
    """Say which products will be placed or cure outside their own limits."""
    products = list(_products(context))
    _caution_humidities(context, products)
    floor = context.shared(floor_now)
    if floor is None:
        return
    low_k, high_k = _planned_range(context, floor, products)
    for product in products:
        _caution_temperature(context, product, low_k, high_k)


def _caution_humidities(context: Context, products: Iterable[Product]) -> None:
    humidity = context.job.air.humidity_percent
    for product in products:
        limits = product.humidity_percent
        where = Side.WITHIN if humidity is None else side(value=humidity, limits=limits)
        if humidity is not None and where is not Side.WITHIN:
            shown = limit_of(limits, "percent")
            context.record.caution(
                f"product-humidity-{where}",
                "/air/humidity_percent",
                product=product.name,
                measured=Figure(humidity, "percent"),
                low=shown.low,
                high=shown.high,
            )


def _planned_range(context: Context, floor: FloorNow, products: Iterable[Product]) -> tuple[float, float]:
    """The floor's lowest and highest temperature [K] over the planned work, or at its start where that is all."""
    planned = context.job.work.temperatures
    if planned is None or isinstance(planned, Steady):
        return floor.temperature_k, floor.temperature_k
    course = floor_course(context)
    low_k, high_k = whole_range(course)
    if all(_inside(product.temperature_k, low_k, high_k) for product in products):
        return low_k, high_k  # at any hour: the work need not be planned to know it
    span = context.shared(planned_span)
    if span is None:
        return floor.temperature_k, floor.temperature_k
    return extremes(course=course, from_s=span[0].timestamp(), until_s=span[1].timestamp())


def _inside(limits: Limits, low: float, high: float) -> bool:
    return side(value=low, limits=limits) is side(value=high, limits=limits) is Side.WITHIN


def _products(context: Context) -> Iterator[Product]:
    """Each product of the layers that take part, once."""
    chosen = context.job.order.optional_layers or ()
    layers = [
        layer for layer in context.system.layers if not layer.optional or layer.id in chosen or layer.kind in chosen
    ]
    yield from {layer.product.code: layer.product for layer in layers}.values()


def _caution_temperature(context: Context, product: Product, low_k: float, high_k: float) -> None:
    limits = product.temperature_k
    pointer = "/slab/temperature" if context.job.work.temperatures is None else "/work/temperatures"
    for value, where in ((low_k, Side.BELOW), (high_k, Side.ABOVE)):
        if side(value=value, limits=limits) is where:
            end = limits.low if where is Side.BELOW else limits.high
            context.record.caution(
                f"product-temperature-{where}",
                pointer,
                product=product.name,
                measured=Figure(value, "temperature"),
                limit=Figure(end or 0.0, "temperature"),
            )
