"""The takeoff as an answer shows it: what was measured of each room, and what each layer needs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated

from gaugerake.floor.job import Point
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.note import Words

Place = Annotated[tuple[float, ...], "x and y from the lower left of the room's box, in metres."]
Ring = Annotated[tuple[Place, ...], "Corners in turn, not closed, in metres whatever the units of the answer."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """How far a room reaches along x and along y."""

    length: Annotated[Figure, "Along x, from the left of the drawing to its right."]
    width: Annotated[Figure, "Along y, from the bottom of the drawing to its top."]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomAnswer:
    """One room, measured."""

    name: Annotated[Words, "As the job has it, or else its number."]
    gross_area: Annotated[Figure, "The shape's own."]
    area: Annotated[Figure, "Net of cutouts and drains."]
    perimeter: Annotated[
        Figure,
        "Of the outline, without cutouts; where an area is all that is known, of a rectangle twice as long as wide.",
    ]
    thickness: Annotated[Figure | None, "Placed wet, before the broadcast; null where nothing is poured."]
    profile_csp: Annotated[
        Figure | None, "Concrete surface profile, as stated or assumed; null where nothing depends on it."
    ]
    keyway_length: Annotated[Figure | None, "Of all keyways; null where the system has none."]
    moving_joint_length: Annotated[Figure, "Of the joints that are carried through the floor, all together."]
    cove_length: Annotated[Figure, "Of wall that gets a cove; 0 where the job asks for none."]
    outline: Annotated[Ring, "The room as it is drawn; empty where only its area is known."]
    box: Annotated[Box | None, "The outline's extent; null where only the area is known."]
    inset: Annotated[tuple[Ring, ...], "The keyway along the walls."]
    holes: Annotated[tuple[Ring, ...], "Cutouts that were placed."]
    drains: Annotated[tuple[Ring, ...], "Drains that were placed."]
    joint_lines: Annotated[tuple[Ring, ...], "Joints that were placed."]
    grooves: Annotated[tuple[Ring, ...], "Lines of the keyways round and beside what was placed."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A need: the least, the likely and the most."""

    low: Annotated[Figure, "At the best yields or rates that the makers state."]
    likely: Annotated[Figure, "At the yields or rates that are most likely."]
    high: Annotated[Figure, "At the worst yields or rates that the makers state."]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerAnswer:
    """What one layer needs."""

    id: Annotated[str, "By which order lines and steps name it."]
    layer: Annotated[str, "Its kind."]
    name: Annotated[Named, "For people."]
    product: Annotated[str, "The code of its product."]
    quantity: Annotated[Figure, "What it covers or holds in all rooms, without waste."]
    need: Annotated[Range, "With waste, not rounded."]
    used: Annotated[Range, "With waste, in whole mixes or smallest batches, which are never split."]
    wet_film: Annotated[Figure | None, "At the likely spreading rate; null over a broadcast, whose voids it fills."]
    dry_film: Annotated[Figure | None, "What stays of it by the product's volume solids."]
    retained: Annotated[Figure | None, "Of a broadcast: what stays in the floor."]
    cleared_away: Annotated[Figure | None, "Of a broadcast: what is scraped and vacuumed away after the cure."]


_make_range = maker(Range)
_make_layer_answer = maker(LayerAnswer)


def room_answers(takeoff: Takeoff, *, keyed: bool) -> tuple[RoomAnswer, ...]:
    """The rooms as shown; ``keyed`` says whether the system has keyways."""
    return tuple(_room(room, keyed=keyed) for room in takeoff.rooms)


def layer_answers(takeoff: Takeoff) -> tuple[LayerAnswer, ...]:
    """The layers as shown, in the order of the work."""
    return tuple(_layer(need) for need in takeoff.layers)


def _room(room: RoomTakeoff, *, keyed: bool) -> RoomAnswer:
    return RoomAnswer(
        name=room.name,
        gross_area=Figure(room.gross_area_m2, Kind.AREA),
        area=Figure(room.area_m2, Kind.AREA),
        perimeter=Figure(room.perimeter_m, Kind.LENGTH),
        thickness=_figure(room.thickness_m, Kind.SMALL_LENGTH),
        profile_csp=_figure(room.csp, Kind.CSP),
        keyway_length=Figure(room.keyway_length_m, Kind.LENGTH) if keyed else None,
        moving_joint_length=Figure(room.moving_joint_length_m, Kind.LENGTH),
        cove_length=Figure(room.cove_length_m, Kind.LENGTH),
        outline=room.outline_m,
        box=_box(room.outline_m),
        inset=room.inset_m,
        holes=room.holes_m,
        drains=room.drains_m,
        joint_lines=_lines(room.joint_lines_m),
        grooves=room.grooves_m,
    )


def _box(outline: tuple[Point, ...]) -> Box | None:
    if not outline:
        return None
    length, width = (max(axis) - min(axis) for axis in zip(*outline, strict=True))
    return Box(length=Figure(length, Kind.LENGTH), width=Figure(width, Kind.LENGTH))


def _lines(lines: Iterable[tuple[Point, Point]]) -> tuple[tuple[Point, ...], ...]:
    return tuple(lines)


def _layer(need: LayerNeed) -> LayerAnswer:
    layer, kind = need.layer, need.layer.product.counted_in.figure_kind
    return _make_layer_answer(
        id=layer.id,
        layer=layer.kind,
        name=layer.name,
        product=layer.product.code,
        quantity=need.quantity_figure,
        need=_range(need.low, need.likely, need.high, kind),
        used=_range(need.rounded_low, need.rounded_likely, need.rounded_high, kind),
        wet_film=_figure(need.wet_film_m, Kind.FILM),
        dry_film=_figure(need.dry_film_m, Kind.FILM),
        retained=_figure(need.retained_kg, Kind.MASS),
        cleared_away=_figure(need.cleared_away_kg, Kind.MASS),
    )


def _range(low: float, likely: float, high: float, kind: Kind) -> Range:
    return _make_range(low=Figure(low, kind), likely=Figure(likely, kind), high=Figure(high, kind))


def _figure(value: float | None, kind: Kind) -> Figure | None:
    return None if value is None else Figure(value, kind)
