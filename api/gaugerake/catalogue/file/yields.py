"""Reading the yield of a mix: a volume, or the area that a mix covers at a thickness, as data sheets write it."""

from __future__ import annotations

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.examples import EXAMPLES
from gaugerake.catalogue.file.nodes import Entries, Node
from gaugerake.catalogue.file.read import NAN, Table, measure, range_of
from gaugerake.floor.values.range import Triple

_COVERED = ("area", "at")
_EXAMPLES = {**EXAMPLES, "at": "at: 1/8 in (the thickness at which a mix covers that area)"}
_volume = measure(ranges.YIELD)
_area = measure(ranges.COVERED)
_thickness = measure(ranges.FLOOR)


def mix_yield(node: Node) -> Triple:
    """A range, or one value that stands for all three; each a volume or ``{area, at}`` [m³]."""
    if isinstance(node, Entries) and not any(key in node.entries for key in _COVERED):
        return range_of(_one)(node)
    value = _one(node)
    return Triple(low=value, likely=value, high=value)


def _one(node: Node) -> float:
    """A volume, or an area times a thickness [m³]."""
    if not isinstance(node, Entries):
        return _volume(node)
    table = Table(node, required=_COVERED, examples=_EXAMPLES)
    volume_m3 = table.read("area", _area, NAN) * table.read("at", _thickness, NAN)
    if volume_m3 < ranges.YIELD.low or volume_m3 > ranges.YIELD.high:
        span = ranges.YIELD
        node.fault(f"area times thickness (at) is not from {span.low_text} to {span.high_text}: are the units right?")
    return volume_m3
