"""The floor behind an edge: closed forms by hand, Shapely as the slow oracle, and what holds of every room."""

import math
from functools import partial

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.builders import FT

from gaugerake.floor.job import Advance, Circle, Measured, Point, Polygon, Rectangle, Shape, Side
from gaugerake.floor.room.cutting import sweep
from gaugerake.floor.room.keyway import beside_line, inset, surround_ring
from gaugerake.floor.room.placing import piece
from gaugerake.floor.room.shape import footprint
from gaugerake.floor.room.sweep import Fill, Sweep, behind, each_reached, reached
from gaugerake.floor.room.takeoff import RoomTakeoff

SIDES = list(Side)
OFFSET_M = 0.15
ELL = Polygon(points_m=tuple((x * FT, y * FT) for x, y in ((0, 0), (40, 0), (40, 32), (12, 32), (12, 18), (0, 18))))
COMB = Polygon(
    points_m=((0, 0), (10, 0), (10, 6), (8, 6), (7, 1), (6, 6), (5, 6), (5, 1), (4, 1), (4, 6), (2, 4), (0, 6))
)


def room(
    shape: Shape,
    *,
    holes: tuple[tuple[Shape, Point], ...] = (),
    joints: tuple[tuple[Point, Point], ...] = (),
    keyed: bool = True,
    loose_m: float = 0.0,
    loose_m2: float = 0.0,
) -> RoomTakeoff:
    """A room measured, with keyways at its walls, round its holes and beside its joints, and some without a place."""
    found = footprint(shape=shape)
    walls = inset(footprint=found, offset_m=OFFSET_M)
    pieces = [(footprint(shape=hole), at) for hole, at in holes]
    rings = tuple(piece(footprint=hole, at_m=at).ring_m for hole, at in pieces)
    grooves = [
        tuple((x + at[0], y + at[1]) for x, y in surround_ring(ring_m=hole.outline_m, offset_m=OFFSET_M))
        for hole, at in pieces
    ]
    grooves += [line for joint in joints for line in beside_line(line_m=joint, offset_m=OFFSET_M)]
    wall_m = walls.length_m if keyed else 0.0
    beside_m = sum(shapely.LineString(line).length for line in grooves) if keyed else 0.0
    cut_m2 = sum(hole.area_m2 for hole, _ in pieces) + loose_m2
    return RoomTakeoff(
        index=0,
        name="Hall",
        gross_area_m2=found.area_m2,
        area_m2=found.area_m2 - cut_m2,
        perimeter_m=found.perimeter_m,
        shorter_side_m=found.shorter_side_m,
        thickness_m=0.006,
        csp=None,
        keyway_length_m=wall_m + beside_m + loose_m,
        moving_joint_length_m=0.0,
        sealant_volume_m3=0.0,
        repair_volume_m3=0.0,
        cove_length_m=0.0,
        cove_height_m=0.0,
        outline_m=found.outline_m,
        inset_m=walls.rings_m if keyed else (),
        holes_m=rings,
        grooves_m=tuple(grooves) if keyed else (),
        cut_out_m2=cut_m2,
        wall_keyway_m=wall_m,
    )


def swept(shape: Shape, side: Side, **said: object) -> Sweep:
    return sweep(shape=shape, room=room(shape, **said), advance=Advance(side=side))  # type: ignore[arg-type]


def half_plane(found: RoomTakeoff, side: Side, at_m: float) -> shapely.Polygon:
    """All that lies behind the edge, as a box that is more than the room."""
    east, north = (max(point[axis] for point in found.outline_m) for axis in (0, 1))
    far = 1e3
    return {
        Side.LEFT: shapely.box(-far, -far, at_m, far),
        Side.RIGHT: shapely.box(east - at_m, -far, far, far),
        Side.BOTTOM: shapely.box(-far, -far, far, at_m),
        Side.TOP: shapely.box(-far, north - at_m, far, far),
    }[side]


ROOMS = {
    "an L": partial(room, ELL),
    "a comb with slanting teeth": partial(room, COMB),
    "a hall with a column, a pit and two joints": partial(
        room,
        Rectangle(length_m=14.0, width_m=9.0),
        holes=((Rectangle(length_m=0.6, width_m=0.6), (3.0, 4.0)), (Rectangle(length_m=2.0, width_m=1.1), (8.0, 2.0))),
        joints=(((6.0, 0.5), (6.0, 8.5)), ((1.0, 1.0), (5.0, 7.0))),
    ),
}
SHAPES = {"an L": ELL, "a comb with slanting teeth": COMB}
HALL = Rectangle(length_m=14.0, width_m=9.0)


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("name", ROOMS)
def test_what_lies_behind_the_edge_is_what_shapely_cuts_off(name: str, side: Side) -> None:
    found = ROOMS[name]()
    cut = sweep(shape=SHAPES.get(name, HALL), room=found, advance=Advance(side=side))
    floor = shapely.Polygon(found.outline_m, found.holes_m)
    lines = [shapely.LinearRing(ring) for ring in found.inset_m] + [
        shapely.LineString(line) for line in found.grooves_m
    ]
    for share in (0.013, 0.1, 0.27, 0.377, 0.5, 0.611, 0.83, 0.99):
        at_m = share * cut.run_m
        box = half_plane(found, side, at_m)
        here = behind(swept=cut, at_m=at_m)
        assert here.area_m2 == pytest.approx(floor.intersection(box).area, rel=1e-9)
        assert here.groove_m == pytest.approx(sum(line.intersection(box).length for line in lines), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("side", SIDES)
def test_a_circle_is_its_own_segment(side: Side) -> None:
    """Area r² (a - sin a cos a) and arc 2 r a behind the edge, where cos a = 1 - x/r: plane geometry."""
    radius = 4.0
    cut = swept(Circle(diameter_m=2 * radius), side)
    for at_m in (0.01, 0.4, 1.0, 2.9, 4.0, 6.6, 7.99):
        turn = math.acos(1 - at_m / radius)
        inner = radius - OFFSET_M
        turn_inner = math.acos(min(1.0, max(-1.0, (radius - at_m) / inner)))
        here = behind(swept=cut, at_m=at_m)
        assert here.area_m2 == pytest.approx(radius**2 * (turn - math.sin(turn) * math.cos(turn)), abs=2e-4)
        assert here.groove_m == pytest.approx(2 * inner * turn_inner, abs=2e-3)
    assert behind(swept=cut, at_m=8.0).area_m2 == pytest.approx(math.pi * radius**2, rel=1e-12)


def test_what_has_no_place_is_spread_by_area() -> None:
    """4 m of a 10 m hall, 40 % of its floor: of 38 m² net 15.2 m², of 20 m of terminations 8 m."""
    cut = swept(Rectangle(length_m=10.0, width_m=4.0), Side.LEFT, keyed=False, loose_m=20.0, loose_m2=2.0)
    here = behind(swept=cut, at_m=4.0)
    assert (here.area_m2, here.groove_m) == (pytest.approx(15.2), pytest.approx(8.0))


def test_a_keyway_along_the_edge_is_filled_before_the_floor_goes_on() -> None:
    """A hall 4 m wide at 5 mm, its first keyway 0.15 m in: 3.7 m of 20 x 20 mm hold 1.48 L on top of 3 L of floor.

    Beside them the two side walls' keyways have only begun, with no length yet. So from 3 L to 4.48 L the edge stands
    at 0.15 m, and 1 L later it is 1 L / (4 m x 5 mm + 2 x 400 mm²) = 48.08 mm on.
    """
    cut = swept(Rectangle(length_m=10.0, width_m=4.0), Side.LEFT)
    fill = Fill(depth_m=0.005, section_m2=0.0004)
    litres = [1.5, 3.0, 4.0, 4.48, 5.48]
    found = each_reached(swept=cut, fill=fill, volumes_m3=[litre / 1000 for litre in litres])
    assert found == pytest.approx([0.075, 0.15, 0.15, 0.15, 0.15 + 0.001 / (0.02 + 0.0008)], rel=1e-9)


def test_a_measured_room_is_as_wide_all_along() -> None:
    shape = Measured(area_m2=60.0, perimeter_m=32.0)
    cut = sweep(shape=shape, room=room(shape, keyed=False, loose_m=30.0), advance=Advance(run_m=12.0))
    here = behind(swept=cut, at_m=3.0)
    assert (cut.run_m, here.area_m2, here.groove_m) == (12.0, pytest.approx(15.0), pytest.approx(7.5))


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("name", ROOMS)
@given(share=st.floats(0.0, 1.0), depth=st.floats(1e-4, 0.1), section=st.floats(0.0, 1e-3))
def test_a_volume_is_reached_where_the_floor_takes_it(
    name: str, side: Side, share: float, depth: float, section: float
) -> None:
    found = ROOMS[name]()
    cut = sweep(shape=SHAPES.get(name, HALL), room=found, advance=Advance(side=side))
    fill = Fill(depth_m=depth, section_m2=section)
    whole = fill.of(behind(swept=cut, at_m=cut.run_m))
    assert whole == pytest.approx(depth * found.area_m2 + section * found.keyway_length_m, rel=1e-9)
    at_m = reached(swept=cut, fill=fill, volume_m3=share * whole)
    assert 0.0 <= at_m <= cut.run_m * (1 + 1e-9)
    assert fill.of(behind(swept=cut, at_m=at_m)) >= share * whole * (1 - 1e-9) - 1e-12
    before = fill.of(behind(swept=cut, at_m=at_m - 1e-6 * cut.run_m))
    assert before <= share * whole * (1 + 1e-9) + 1e-12


@given(volumes=st.lists(st.floats(0.0, 1.2), min_size=2, max_size=20))
def test_more_is_never_less_far(volumes: list[float]) -> None:
    cut = swept(COMB, Side.BOTTOM)
    fill = Fill(depth_m=0.006, section_m2=0.0002)
    rising = sorted(volumes)
    found = each_reached(swept=cut, fill=fill, volumes_m3=rising)
    assert found == sorted(found)
    assert max(found) <= cut.run_m
