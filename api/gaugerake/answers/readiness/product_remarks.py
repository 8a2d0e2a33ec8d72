"""Cautions on products that will be placed or cure outside their own limits."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.readiness.ahead import PlannedSpan, floor_range, products_depend_on_plan, products_of
from gaugerake.answers.readiness.air import air_pointer
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import limit_of
from gaugerake.floor.product import Product
from gaugerake.floor.slab.verdict import RangeSide, side
from gaugerake.floor.values.figure import Figure, Kind


def product_remarks(facts: Facts, planned: PlannedSpan) -> Iterator[Remark]:
    """First the humidity of the air, then the floor's temperature over the planned work and what that rests on."""
    resolved, products = facts.resolved, products_of(facts.resolved)
    yield from _humidity(facts.resolved, products)
    if facts.floor is None:
        return
    if resolved.work.floor_varies:
        yield from resolved.work.course.remarks
    if products_depend_on_plan(resolved, facts.floor):
        yield from planned.remarks
    pointer = "/work/temperatures" if resolved.work.course.stated else "/slab/temperature"
    ends_k = floor_range(facts, facts.floor, planned)
    for product in products:
        yield from _temperature(product, pointer, ends_k)


def _humidity(resolved: ResolvedJob, products: tuple[Product, ...]) -> Iterator[Remark]:
    humidity, pointer = resolved.air.humidity_percent.value, air_pointer(resolved, "humidity_percent")
    for product in products if humidity is not None else ():
        limits = product.humidity_percent
        where = side(value=humidity or 0.0, limits=limits)
        if where is not RangeSide.WITHIN:
            shown = limit_of(limits, Kind.PERCENT)
            yield caution(
                f"product-humidity-{where}",
                pointer,
                product=product.name,
                measured=Figure(humidity or 0.0, Kind.PERCENT),
                low=shown.low,
                high=shown.high,
            )


def _temperature(product: Product, pointer: str, ends_k: tuple[float, float]) -> Iterator[Remark]:
    limits = product.temperature_k
    for value, where in zip(ends_k, (RangeSide.BELOW, RangeSide.ABOVE), strict=True):
        if side(value=value, limits=limits) is where:
            end = limits.low if where is RangeSide.BELOW else limits.high
            yield caution(
                f"product-temperature-{where}",
                pointer,
                product=product.name,
                measured=Figure(value, Kind.TEMPERATURE),
                limit=Figure(end or 0.0, Kind.TEMPERATURE),
            )
