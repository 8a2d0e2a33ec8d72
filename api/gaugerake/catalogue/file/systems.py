"""Reading floor systems: thickness, keyway, limits, layers and returns."""

from __future__ import annotations

import math
from itertools import pairwise

from gaugerake.catalogue.file import ranges
from gaugerake.catalogue.file.curves import hours
from gaugerake.catalogue.file.known import KnownProducts
from gaugerake.catalogue.file.layers import LayerEntry, read_layers
from gaugerake.catalogue.file.nodes import Entries, Node
from gaugerake.catalogue.file.read import (
    NAN,
    Table,
    code,
    description,
    integer,
    items,
    limits,
    measure,
    name_of,
    number,
)
from gaugerake.catalogue.file.rules import check_layers, check_raises, check_thickness
from gaugerake.floor.clock.timetable import Return
from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.layers.facts import Asked
from gaugerake.floor.layers.volumes import CrackChase, ProfileAllowance
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import AirLimits, SlabLimits, System, Thickness
from gaugerake.floor.values.range import Limits

_REQUIRED = ("code", "name", "reference_temperature", "layers")
_OPTIONAL = (
    "description",
    "thickness",
    "thickness_sd_percent",
    "keyway",
    "profile_allowance",
    "crack_chase",
    "slab_limits",
    "air_limits",
    "returns",
)
_AGE, _STRENGTH, _EMISSION = measure(ranges.AGE), measure(ranges.STRENGTH), measure(ranges.EMISSION)
_PERCENT = number(0, 100)
_TEMPERATURES = limits(measure(ranges.TEMPERATURE))
_CSP = integer(1, 10)


def read_systems(node: Node, products: KnownProducts) -> dict[str, System]:
    """All systems of a catalogue, by code."""
    systems: dict[str, System] = {}
    for item in items(node):
        table = Table(item, required=_REQUIRED, optional=_OPTIONAL)
        system = _system(table, products)
        if system.code in systems:
            table.fault("code", f'there is a system "{system.code}" before this one: each needs a code of its own')
        systems.setdefault(system.code, system)
    return systems


def _system(table: Table, products: KnownProducts) -> System:
    placed, complete = table.read("layers", lambda node: read_layers(node, products), ([], False))
    thickness = table.read("thickness", _thickness, None)
    keyway = table.read("keyway", _keyway, None)
    if complete:
        check_layers(placed)
        check_thickness(table.node, placed, thickness, keyway=keyway is not None)
    if "returns" not in table:
        table.node.caution("no returns: nobody can be told when traffic may come back")
    slab_limits = table.read("slab_limits", _slab_limits, SlabLimits())
    check_raises(placed, slab_limits)
    reference_k = table.read("reference_temperature", measure(ranges.TEMPERATURE), NAN)
    _reference_suits(table, reference_k, placed)
    return System(
        code=table.read("code", code, ""),
        name=table.read("name", name_of, ""),
        description=table.read("description", description, ""),
        layers=tuple(entry.layer for entry in placed),
        reference_temperature_k=reference_k,
        thickness=thickness,
        thickness_sd_fraction=table.read("thickness_sd_percent", number(0, 30), 3.0) / 100,
        keyway=keyway,
        profile_allowance=table.read("profile_allowance", _profile_allowance, ()),
        slab_limits=slab_limits,
        crack_chase=_crack_chase(table, placed),
        air_limits=table.read("air_limits", _air_limits, AirLimits()),
        returns=table.read("returns", _returns, ()),
    )


def _reference_suits(table: Table, reference_k: float, placed: list[LayerEntry]) -> None:
    """Tell when a job that says no temperature is taken to be at one that its products cannot be worked at."""
    limits_of = {entry.layer.product.code: entry.layer.product.temperature_k for entry in placed}
    outside = [
        name
        for name, bounds in limits_of.items()
        if (bounds.low is not None and reference_k < bounds.low)
        or (bounds.high is not None and reference_k > bounds.high)
    ]
    if outside:
        table.caution(
            "reference_temperature",
            f"outside the temperatures at which {', '.join(outside)} can be worked: is that meant?",
        )


def _thickness(node: Node) -> Thickness:
    table = Table(node, required=("low", "usual", "high"))
    low, usual, high = (table.read(key, measure(ranges.FLOOR), NAN) for key in ("low", "usual", "high"))
    if low > high:
        node.fault("low is above high")
    elif usual < low or usual > high:
        table.fault("usual", "the usual thickness is outside low to high")
    return Thickness(low_m=low, usual_m=usual, high_m=high)


def _keyway(node: Node) -> Keyway:
    table = Table(node, required=("offset", "ratio"))
    return Keyway(
        offset_m=table.read("offset", measure(ranges.KEYWAY_OFFSET), NAN),
        ratio=table.read("ratio", number(0, 10, above=True), NAN),
    )


def _crack_chase(table: Table, placed: list[LayerEntry]) -> CrackChase | None:
    """The least that cracks are opened to; it asks for a layer that fills them."""
    chase = table.read("crack_chase", _chase, None)
    if chase is not None and not any(Asked.CRACKS in entry.layer.does for entry in placed):
        table.caution("crack_chase", "no layer of this system fills cracks: is a repair layer missing?")
    return chase


def _chase(node: Node) -> CrackChase:
    table = Table(node, required=("width", "depth"))
    width, depth = (table.read(key, measure(ranges.CHASE), NAN) for key in ("width", "depth"))
    return CrackChase(width_m=width, depth_m=depth)


def _profile_allowance(node: Node) -> tuple[ProfileAllowance, ...]:
    """By CSP, rising."""
    if not isinstance(node, Entries) or not node.entries:
        node.fault(
            "write the mean depth to fill for each surface profile (CSP 1 to 10), such as {3: 0.2 mm, 4: 0.3 mm}"
        )
        return ()
    known = {str(csp): csp for csp in range(1, 11)}
    for key in node.entries.keys() - known.keys():
        node.entries[key].fault(f'"{key[:40]}" is no surface profile: they go from CSP 1 to 10')
    depth = measure(ranges.PROFILE_DEPTH)
    found = sorted((known[key], place) for key, place in node.entries.items() if key in known)
    made = tuple(ProfileAllowance(csp=csp, depth_m=depth(place)) for csp, place in found)
    if any(rougher.depth_m < smoother.depth_m for smoother, rougher in pairwise(made)):
        node.caution("a rougher profile takes less here than a smoother one: is that meant?")
    return made


def _csp(node: Node) -> float:
    value = _CSP(node)
    return NAN if value is None else float(value)


def _slab_limits(node: Node) -> SlabLimits:
    table = Table(
        node,
        optional=(
            "age",
            "compressive_strength",
            "pull_off",
            "profile_csp",
            "moisture_emission",
            "relative_humidity",
            "ph",
            "slope_percent",
            "temperature",
        ),
    )
    return SlabLimits(
        age_s=table.read("age", _AGE, None),
        compressive_strength_pa=table.read("compressive_strength", _STRENGTH, None),
        pull_off_pa=table.read("pull_off", _STRENGTH, None),
        profile_csp=table.read("profile_csp", limits(_csp), Limits()),
        moisture_emission_kg_m2_s=table.read("moisture_emission", _EMISSION, None),
        relative_humidity_percent=table.read("relative_humidity", _PERCENT, None),
        ph=table.read("ph", limits(number(0, 14)), Limits()),
        slope_percent=table.read("slope_percent", _PERCENT, None),
        temperature_k=table.read("temperature", _TEMPERATURES, Limits()),
    )


def _air_limits(node: Node) -> AirLimits:
    table = Table(node, optional=("temperature", "humidity", "dew_point_spread"))
    return AirLimits(
        temperature_k=table.read("temperature", _TEMPERATURES, Limits()),
        humidity_percent=table.read("humidity", _humidity, Limits()),
        dew_point_spread_k=table.read("dew_point_spread", measure(ranges.SPREAD), None),
    )


def _humidity(node: Node) -> Limits:
    """A highest humidity alone, or ``{low, high}``."""
    return limits(_PERCENT)(node) if isinstance(node, Entries) else Limits(high=_PERCENT(node))


def _returns(node: Node) -> tuple[Return, ...]:
    made: list[Return] = []
    slowest = -math.inf
    for item in items(node):
        table = Table(item, required=("traffic", "after"))
        traffic = table.read("traffic", code, "")
        after = table.read("after", hours, None)
        if any(earlier.traffic == traffic for earlier in made):
            table.fault("traffic", f'"{traffic}" stands before: say each class of traffic once')
        if after is None:
            continue
        slowest = _heavier(table, after, slowest)
        made.append(Return(traffic=traffic, after=after))
    return tuple(made)


def _heavier(table: Table, after: TimeCurve, slowest_s: float) -> float:
    """Tell when a later class of traffic comes back sooner; the longest likely time so far, at the warmest row."""
    likely_s = after.points[-1].likely_s
    if likely_s < slowest_s:
        table.caution("after", "this traffic comes back sooner than one before it: write them from light to heavy")
    return max(likely_s, slowest_s)
