"""A pour, judged: each room in its hours, and whether its wet edge holds at the temperatures of those hours."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from gaugerake.floor.cure.course import Course
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.pour import BodyPour
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.pour.edge import GUARD, Pace, WetEdge, lane, mix_area_m2, pace, wet_edge
from gaugerake.floor.pour.mixes import Handling, open_time_s
from gaugerake.floor.pour.windows import Part, RoomPour, Stop, Stretch, Window, pour_in_shifts
from gaugerake.floor.product import Product
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.frozen import dataclass

MOST_STATIONS = 50
"""The most stations that a job can have."""
MOST_PLACING_RATE_M2_S = 20_000 * 0.3048**2 / 3600
"""The fastest placing that is ever considered: 20,000 ft²/h, some twenty crews."""

MOST_CAST_RATE_KG_S = 40_000 * 0.45359237 / 3600
"""The fastest casting that is ever considered: 40,000 lb/h, some forty hands."""
_STEPS_A_ROOM = 3
"""What pouring and judging a room of a layer takes beside finding its hours, as a budget of the clock's counts it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PourCrew:
    """The crew as it works on one product: a station's ``mix_cycle_s`` from one mix to its next."""

    mixing_stations: int
    mix_cycle_s: float
    placing_rate_m2_s: float
    cast_rate_kg_s: float
    lane_depth_m: float
    widest_lane_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerSite:
    """How, by whom and when one layer is poured: no ``windows`` is never, or not within the year looked at.

    ``mixing_s`` is how long a mix is mixed [s].
    """

    need: LayerNeed
    layer: Layer
    pour: BodyPour
    crew: PourCrew
    mixing_s: float
    windows: tuple[Window, ...]
    longest_shift_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PourSite:
    """What the pour of a job depends on: its layers in the order of the work, its temperatures."""

    layers: tuple[LayerSite, ...]
    course: Course
    material_k: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedPart:
    """One part and its wet edge; ``stop`` where a stretch ends."""

    part: Part
    edge: WetEdge
    floor_k: float
    hottest_floor_k: float
    material_k: float
    stop: Stop | None

    @property
    def hotter_k(self) -> float:
        """The hotter of floor and material, at which its open time is read [K]."""
        return max(self.hottest_floor_k, self.material_k)

    @property
    def warms_k(self) -> float:
        """By how much the floor warms from its beginning [K]."""
        return self.hottest_floor_k - self.floor_k


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedLayer:
    """One body layer: its rooms, its stretches, its parts; no parts when it is never poured."""

    site: LayerSite
    pours: tuple[RoomPour, ...]
    stretches: tuple[Stretch, ...]
    parts: tuple[JudgedPart, ...]

    @property
    def mix_count(self) -> int:
        """How many mixes the layer takes."""
        return self.parts[-1].part.last_mix if self.parts else 0

    @property
    def lost_mixes(self) -> int:
        """The mixes that stops between rooms cost, as the rest of a mix is lost there: the order does not hold them."""
        ordered = math.ceil(math.fsum(self.site.need.room_likely) * (1 - GUARD))
        return max(0, self.mix_count - ordered)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """The whole pour."""

    layers: tuple[JudgedLayer, ...]

    def parts(self) -> Iterator[tuple[JudgedLayer, JudgedPart]]:
        """Every part in the order of the work."""
        for layer in self.layers:
            for part in layer.parts:
                yield layer, part

    @property
    def feasible(self) -> bool | None:
        """Whether every edge holds and every layer gets down; None when an open time is not stated."""
        holds = [part.edge.holds for _, part in self.parts()]
        if False in holds or not all(layer.parts for layer in self.layers):
            return False
        return None if None in holds else True

    @property
    def slowest_s(self) -> float | None:
        """The longest cadence of any room [s]; None without a poured body."""
        return max((pour.pace.cadence_s for layer in self.layers for pour in layer.pours), default=None)

    @property
    def mix_count(self) -> int:
        """How many mixes all layers take."""
        return sum(layer.mix_count for layer in self.layers)

    @property
    def worst(self) -> tuple[JudgedLayer, JudgedPart] | None:
        """The part whose edge fails by most, in the share of its open time."""
        failing = [pair for pair in self.parts() if pair[1].edge.holds is False]
        return max(failing, key=lambda pair: pair[1].edge.needed_s / (pair[1].edge.open_time_s or 1.0), default=None)


def handling_of(site: LayerSite, *, broadcast: bool) -> Handling:
    """How the material must be handled."""
    product = site.pour.product
    return Handling(
        mixing_s=site.mixing_s,
        pour_within_s=product.pour_within_s,
        roll_within_s=product.roll_within_s,
        open_time=product.open_time,
        broadcast_wait=site.pour.broadcast_wait if broadcast else None,
    )


def room_pours(takeoff: Takeoff, need: LayerNeed, pour: BodyPour, crew: PourCrew) -> tuple[RoomPour, ...]:
    """The rooms of a layer in the job's order, each with its pace and its lane."""
    paces: dict[float | None, Pace] = {}  # most rooms are of one thickness
    pairs = zip(takeoff.rooms, need.room_likely, strict=True)
    return tuple(room_pour(room, mixes, pour, crew, paces) for room, mixes in pairs)


def room_pour(
    room: RoomTakeoff, mixes: float, pour: BodyPour, crew: PourCrew, paces: dict[float | None, Pace]
) -> RoomPour:
    """One room of a layer, its pace and its lane; ``paces`` keeps the pace of each thickness."""
    return RoomPour(
        room=room.index,
        need_mixes=mixes,
        pace=pace_in(room, pour, crew, paces),
        lane=lane(shorter_side_m=room.shorter_side_m, depth_m=crew.lane_depth_m, widest_m=crew.widest_lane_m),
    )


def pace_in(room: RoomTakeoff, pour: BodyPour, crew: PourCrew, paces: dict[float | None, Pace]) -> Pace:
    """The pace of a room; ``paces`` keeps that of each thickness."""
    known = paces.get(room.thickness_m)
    if known is None:
        known = paces[room.thickness_m] = _pace(pour, crew, room.thickness_m or 0.0)
    return known


def _pace(pour: BodyPour, crew: PourCrew, thickness_m: float) -> Pace:
    area = mix_area_m2(yield_m3=pour.yield_m3.likely, thickness_m=thickness_m * pour.share_fraction)
    return pace(
        mix_cycle_s=crew.mix_cycle_s,
        station_count=crew.mixing_stations,
        placing_rate_m2_s=crew.placing_rate_m2_s,
        mix_area_m2=area,
        cast_kg_m2=pour.cast_kg_m2,
        cast_rate_kg_s=crew.cast_rate_kg_s,
    )


def strips_length_m(takeoff: Takeoff, pours: Iterable[RoomPour]) -> float:
    """The edges between the strips of rooms [m]."""
    return math.fsum(edges_length_m(takeoff.rooms[pour.room], pour.lane.strip_count - 1) for pour in pours)


def edges_length_m(room: RoomTakeoff, edge_count: int) -> float:
    """The length of edges between strips [m]: each is as long as the room, taken as a rectangle."""
    return edge_count * room.area_m2 / room.shorter_side_m


def judge(takeoff: Takeoff, site: PourSite) -> Judged:
    """Divide every body layer over its shifts and judge its edges."""
    return Judged(layers=tuple(_judge_layer(takeoff, site, layer) for layer in site.layers))


def judging_steps(takeoff: Takeoff) -> int:
    """What pouring and judging all rooms of every body layer takes, in steps of a budget."""
    return _STEPS_A_ROOM * len(takeoff.rooms) * sum(need.layer.pour is not None for need in takeoff.layers)


def holds(takeoff: Takeoff, site: PourSite) -> bool:
    """Whether a pour is feasible or cannot be judged; it stops at the first lost edge."""
    for layer in site.layers:
        stretches = _stretches(layer, room_pours(takeoff, layer.need, layer.pour, layer.crew))
        parts = (part for stretch in stretches for part in stretch.parts)
        if not stretches or any(_edge(site, layer, part).holds is False for part in parts):
            return False
    return True


def lost_edges(takeoff: Takeoff, site: PourSite) -> Iterator[tuple[str, int]]:
    """The rooms whose wet edge is lost, each with its layer's id; all rooms of a layer that is never poured."""
    for layer in site.layers:
        stretches = _stretches(layer, room_pours(takeoff, layer.need, layer.pour, layer.crew))
        if not stretches:
            yield from ((layer.layer.id, room.index) for room in takeoff.rooms)
        parts = (part for stretch in stretches for part in stretch.parts)
        yield from ((layer.layer.id, part.pour.room) for part in parts if _edge(site, layer, part).holds is False)


def _stretches(layer: LayerSite, pours: tuple[RoomPour, ...]) -> tuple[Stretch, ...]:
    return pour_in_shifts(pours=pours, windows=layer.windows, longest_shift_s=layer.longest_shift_s)


def _edge(site: PourSite, layer: LayerSite, part: Part) -> WetEdge:
    hottest = hottest_k(site.course, part.begins_s, part.ends_s)
    return edge_of(layer.layer.product, part.pour, floor_k=hottest, material_k=site.material_k)


def _judge_layer(takeoff: Takeoff, site: PourSite, layer: LayerSite) -> JudgedLayer:
    pours = room_pours(takeoff, layer.need, layer.pour, layer.crew)
    stretches = _stretches(layer, pours)
    parts = tuple(
        _judge_part(site, layer.layer.product, part, stretch.stop if part is stretch.parts[-1] else None)
        for stretch in stretches
        for part in stretch.parts
    )
    return JudgedLayer(site=layer, pours=pours, stretches=stretches, parts=parts)


def _judge_part(site: PourSite, product: Product, part: Part, stop: Stop | None) -> JudgedPart:
    hottest = hottest_k(site.course, part.begins_s, part.ends_s)
    return JudgedPart(
        part=part,
        edge=edge_of(product, part.pour, floor_k=hottest, material_k=site.material_k),
        floor_k=site.course.at(part.begins_s),
        hottest_floor_k=hottest,
        material_k=site.material_k,
        stop=stop,
    )


def edge_of(product: Product, pour: RoomPour, *, floor_k: float, material_k: float) -> WetEdge:
    """The wet edge of a room with the floor and the material at such temperatures."""
    stays_s = open_time_s(curve=product.open_time, floor_k=floor_k, material_k=material_k)
    return wet_edge(lane=pour.lane, pace=pour.pace, pour_within_s=product.pour_within_s, open_time_s=stays_s)


def beyond_any_crew(layer: LayerSite, judged: JudgedPart) -> bool:
    """Whether even the most stations and the fastest placing would lose this edge."""
    quickest = pace(
        mix_cycle_s=layer.crew.mix_cycle_s,
        station_count=MOST_STATIONS,
        placing_rate_m2_s=max(MOST_PLACING_RATE_M2_S, layer.crew.placing_rate_m2_s),
        mix_area_m2=judged.part.pour.pace.mix_area_m2,
    )
    edge = wet_edge(
        lane=judged.part.pour.lane,
        pace=quickest,
        pour_within_s=layer.layer.product.pour_within_s,
        open_time_s=judged.edge.open_time_s,
    )
    return edge.holds is False


def hottest_k(course: Course, from_s: float, until_s: float) -> float:
    """The highest temperature of a course between two instants: at an end, or where it bends."""
    return course.reached_k(from_s, until_s)[1]


def is_broadcast(takeoff: Takeoff, layer: Layer) -> bool:
    """Whether aggregate is cast into a layer: the next layer of the job is cast into it."""
    layers = [need.layer for need in takeoff.layers]
    at = layers.index(layer)
    return at + 1 < len(layers) and layers[at + 1].laid is Laid.INTO
