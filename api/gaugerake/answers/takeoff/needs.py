"""What each layer of a system needs for the rooms as measured."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from gaugerake.floor.layers.aggregate import cast_mass, cleared_mass
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.film import coated_area, dry_film, wet_film
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.need import Demand, needed, rounded
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.layers.volumes import allowance_at, body_volume, cove_volume, profile_volume
from gaugerake.floor.product import CountedIn
from gaugerake.floor.room.keyway import keyway_volume
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.system import System
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import whole


class Quantity(NamedTuple):
    """What a layer covers or holds in one room, without waste: the part that the thickness factor touches, the rest."""

    varying: float
    fixed: float


class Site(NamedTuple):
    """The rooms as measured, the layers that take part, and the waste."""

    system: System
    rooms: Sequence[RoomTakeoff]
    layers: Sequence[Layer]
    waste_fraction: float

    @property
    def coved(self) -> bool:
        """Whether a cove is made where the job asks for one."""
        return any(isinstance(layer, CoveLayer) for layer in self.layers)


def layer_needs(site: Site) -> tuple[LayerNeed, ...]:
    """The layers that the job gives something for, in the order of the work."""
    needs = {id(layer): _need(site, layer) for layer in site.layers if not isinstance(layer, SundryLayer)}
    made = [need for need in needs.values() if need is not None]
    for layer in site.layers:
        if isinstance(layer, SundryLayer):
            needs[id(layer)] = _sundry(site, layer, made)
    return tuple(need for layer in site.layers if (need := needs[id(layer)]) is not None)


def measurer(site: Site, layer: Layer) -> Callable[[RoomTakeoff], Quantity]:
    """What measures how much ``layer`` covers [m²] or holds [m³] in a room, without waste."""
    if isinstance(layer, RepairLayer):
        return lambda room: Quantity(0.0, room.repair_volume_m3)
    if isinstance(layer, CoveLayer):
        return lambda room: Quantity(0.0, _cove(layer, room))
    if isinstance(layer, BodyLayer):
        first = next(body for body in site.layers if isinstance(body, BodyLayer))
        system = site.system if layer is first else None
        return lambda room: Quantity(_above(layer, room), _below(system, room) if system else 0.0)
    if isinstance(layer, JointLayer):
        return lambda room: Quantity(0.0, room.sealant_volume_m3)
    if isinstance(layer, PrimerLayer | CoatLayer) and site.coved:
        return lambda room: Quantity(0.0, _coated(room))
    return lambda room: Quantity(0.0, room.area_m2)


def films(site: Site, layer: Layer) -> bool:
    """Whether a liquid layer leaves a film of one thickness: all do but the one directly over a broadcast."""
    if not isinstance(layer, PrimerLayer | CoatLayer):
        return False
    surfaces = [one for one in site.layers if isinstance(one, PrimerLayer | BodyLayer | BroadcastLayer | CoatLayer)]
    place = next(place for place, one in enumerate(surfaces) if one is layer)
    return place == 0 or not isinstance(surfaces[place - 1], BroadcastLayer)


def _cove(layer: CoveLayer, room: RoomTakeoff) -> float:
    return cove_volume(
        length_m=room.cove_length_m,
        height_m=room.cove_height_m,
        thickness_m=layer.thickness_m,
        radius_m=layer.radius_m,
    )


def _coated(room: RoomTakeoff) -> float:
    return coated_area(area_m2=room.area_m2, cove_length_m=room.cove_length_m, cove_height_m=room.cove_height_m)


def _above(layer: BodyLayer, room: RoomTakeoff) -> float:
    return body_volume(area_m2=room.area_m2, thickness_m=room.thickness_m or 0.0, share_fraction=layer.share_fraction)


def _below(system: System, room: RoomTakeoff) -> float:
    """What the slab takes under the first body: its texture and the keyways."""
    volume = 0.0
    allowance = None if room.csp is None else allowance_at(csp=room.csp, allowances=system.profile_allowance)
    if allowance is not None:
        volume += profile_volume(area_m2=room.area_m2, depth_m=allowance.depth_m)
    if system.keyway is not None:
        volume += keyway_volume(
            length_m=room.keyway_length_m, ratio=system.keyway.ratio, thickness_m=room.thickness_m or 0.0
        )
    return volume


def _need(site: Site, layer: Layer) -> LayerNeed | None:
    measure = measurer(site, layer)
    parts = [measure(room) for room in site.rooms]
    factor = 1 + site.waste_fraction
    demand = Demand(
        varying=math.fsum(part.varying for part in parts) * factor,
        fixed=math.fsum(part.fixed for part in parts) * factor,
        divisor=_divisor(layer),
        multiplier=layer.rate_kg_m2 if isinstance(layer, BroadcastLayer) else None,
        step=1.0 if layer.product.counted_in is CountedIn.MIX else layer.product.smallest_batch,
    )
    if demand.varying + demand.fixed <= 0:
        return None
    need = needed(demand)
    each = need.likely / (demand.varying + demand.fixed) * factor
    film = wet_film(spreading_rate_m2_m3=demand.divisor.likely) if films(site, layer) and demand.divisor else None
    solids = layer.product.volume_solids_fraction
    retained, cleared = _aggregate(site, layer)
    return LayerNeed(
        layer=layer,
        demand=demand,
        low=need.low,
        likely=need.likely,
        high=need.high,
        rounded_low=rounded(need=need.low, step=demand.step),
        rounded_likely=rounded(need=need.likely, step=demand.step),
        rounded_high=rounded(need=need.high, step=demand.step),
        quantity=(demand.varying + demand.fixed) / factor,
        room_likely=tuple((part.varying + part.fixed) * each for part in parts),
        wet_film_m=film,
        dry_film_m=None if film is None or solids is None else dry_film(wet_film_m=film, volume_solids_fraction=solids),
        retained_kg=retained,
        cleared_away_kg=cleared,
    )


def _divisor(layer: Layer) -> Triple | None:
    if isinstance(layer, PrimerLayer | CoatLayer):
        return layer.spreading_rate_m2_m3
    return layer.product.yield_m3 if layer.product.counted_in is CountedIn.MIX else None


def _aggregate(site: Site, layer: Layer) -> tuple[float | None, float | None]:
    if not isinstance(layer, BroadcastLayer) or layer.retained_kg_m2 is None:
        return None, None
    area = math.fsum(room.area_m2 for room in site.rooms)
    cast = cast_mass(area_m2=area, rate_kg_m2=layer.rate_kg_m2.likely)
    cleared = cleared_mass(area_m2=area, rate_kg_m2=layer.rate_kg_m2.likely, retained_kg_m2=layer.retained_kg_m2)
    return cast - cleared, cleared


def sundry_quantity(site: Site, basis: SundryBasis) -> float:
    """What a sundry is counted by [m² or m], over all rooms."""
    rooms = site.rooms
    if basis is SundryBasis.COVE:
        return math.fsum(room.cove_length_m for room in rooms) if site.coved else 0.0
    if basis is SundryBasis.WALLS:
        return math.fsum(room.perimeter_m for room in rooms)
    if basis is SundryBasis.JOINTS:
        return math.fsum(room.moving_joint_length_m for room in rooms)
    return math.fsum(room.area_m2 for room in rooms)


def _sundry(site: Site, layer: SundryLayer, made: Iterable[LayerNeed]) -> LayerNeed | None:
    """By a product: by the whole mixes needed of it; the order counts those that it buys."""
    if layer.basis is SundryBasis.PRODUCT:
        mixes = _mixes([need for need in made if need.layer.product.code == layer.per_product])
        quantity, count = mixes.likely, layer.count or 0.0
        need = Triple(low=count * mixes.low, likely=count * mixes.likely, high=count * mixes.high)
    else:
        quantity = sundry_quantity(site, layer.basis)
        pieces = float(whole(quantity / (layer.covers or math.inf)))
        need = Triple(low=pieces, likely=pieces, high=pieces)
    if need.high <= 0:
        return None
    return LayerNeed(
        layer=layer,
        demand=None,
        low=need.low,
        likely=need.likely,
        high=need.high,
        rounded_low=need.low,
        rounded_likely=need.likely,
        rounded_high=need.high,
        quantity=quantity,
    )


def _mixes(needs: Sequence[LayerNeed]) -> Triple:
    return Triple(
        low=math.fsum(need.rounded_low for need in needs),
        likely=math.fsum(need.rounded_likely for need in needs),
        high=math.fsum(need.rounded_high for need in needs),
    )
