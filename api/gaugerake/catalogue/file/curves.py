"""Reading times that depend on temperature: a maker's table of rows ``{at, low, likely, high}``."""

from __future__ import annotations

import math
from itertools import pairwise

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.nodes import Node
from gaugerake.catalogue.file.ranges import AllowedRange
from gaugerake.catalogue.file.read import NAN, Table, items, measure
from gaugerake.floor.cure.curve import COLUMNS, TimeCurve, TimePoint, time_curve, time_point


def hours(node: Node) -> TimeCurve | None:
    """A table of cure times; None when it has a fault."""
    return _curve(node, ranges.CURE)


def minutes(node: Node) -> TimeCurve | None:
    """A table of working times, two hours at most; None when it has a fault."""
    return _curve(node, ranges.MINUTES)


def _curve(node: Node, span: AllowedRange) -> TimeCurve | None:
    found = [(place, _row(place, span)) for place in items(node)]
    if any(point is None for _, point in found) or not found:
        return None
    rows = sorted(((place, point) for place, point in found if point), key=lambda row: row[1].temperature_k)
    sound = [_in_order(colder, warmer) for colder, warmer in pairwise(rows)]
    return time_curve(point for _, point in rows) if all(sound) else None


def _row(node: Node, span: AllowedRange) -> TimePoint | None:
    table = Table(node, required=("at",), optional=COLUMNS)
    at = table.read("at", measure(ranges.TEMPERATURE), NAN)
    given = {name: table.read(name, measure(span), NAN) for name in COLUMNS if name in table}
    if not given:
        node.fault("write how long it takes at this temperature: low, likely, high or all of them, such as likely: 9 h")
    values = list(given.values())
    if any(shorter > longer for shorter, longer in pairwise(values)):
        node.fault("low, likely and high must rise in this order")
        return None
    if not given or any(math.isnan(value) for value in (at, *values)):
        return None
    return time_point(temperature_k=at, **{f"{name}_s": value for name, value in given.items()})


def _in_order(colder: tuple[Node, TimePoint], warmer: tuple[Node, TimePoint]) -> bool:
    place, point = warmer
    if point.temperature_k == colder[1].temperature_k:
        place.fault("this temperature stands twice in the table: leave one row out")
        return False
    faster = [name for name in COLUMNS if getattr(colder[1], f"{name}_s") < getattr(point, f"{name}_s")]
    if faster:
        place.fault(
            f"it takes longer here than where it is colder (line {colder[0].line}; {', '.join(faster)}):"
            " a cure gets slower in the cold, so one of the two rows is wrong"
        )
    return not faster
