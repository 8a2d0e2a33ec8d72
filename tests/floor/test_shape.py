"""Areas, perimeters, shorter sides and outlines; what no floor can be."""

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.job import Circle, Measured, Point, Polygon, Rectangle
from gaugerake.floor.room.shape import footprint, least_perimeter
from gaugerake.floor.values.errors import CrossingOutline, DegenerateOutline, ImpossiblePerimeter

sides = st.floats(0.01, 10_000)
ELL = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (4.0, 4.0), (4.0, 9.0), (0.0, 9.0))


def star(corner_count: int, radii: list[float]) -> tuple[Point, ...]:
    """A polygon seen whole from one point, so that its sides never cross."""
    turns = [2 * math.pi * corner / corner_count for corner in range(corner_count)]
    return tuple((r * math.cos(turn), r * math.sin(turn)) for r, turn in zip(radii, turns, strict=True))


stars = st.integers(5, 12).flatmap(
    lambda count: st.lists(st.floats(1, 9), min_size=count, max_size=count).map(lambda radii: star(count, radii))
)


def shoelace(points: tuple[Point, ...]) -> float:
    return sum(x * v - u * y for (x, y), (u, v) in zip(points, points[1:] + points[:1], strict=True)) / 2


def refused_at(*points: Point) -> Point:
    with pytest.raises(CrossingOutline) as caught:
        footprint(shape=Polygon(points_m=points))
    return caught.value.x_m, caught.value.y_m


class TestPolygons:
    @given(stars)
    def test_area_and_perimeter_are_the_shoelace_and_the_sides(self, points: tuple[Point, ...]) -> None:
        found = footprint(shape=Polygon(points_m=points))
        sides_m = [math.dist(*ends) for ends in zip(points, points[1:] + points[:1], strict=True)]
        assert found.area_m2 == pytest.approx(shoelace(points), rel=1e-12)
        assert found.perimeter_m == pytest.approx(math.fsum(sides_m), rel=1e-12)

    @given(stars, st.integers(0, 11), st.booleans())
    def test_neither_winding_nor_first_corner_matters(self, points: tuple[Point, ...], turn: int, back: bool) -> None:
        turned = points[turn % len(points) :] + points[: turn % len(points)]
        one, other = (
            footprint(shape=Polygon(points_m=points)),
            footprint(shape=Polygon(points_m=turned[:: -1 if back else 1])),
        )
        assert other.area_m2 == pytest.approx(one.area_m2, rel=1e-12)
        assert other.shorter_side_m == pytest.approx(one.shorter_side_m, rel=1e-9)
        assert sorted(other.outline_m) == sorted(one.outline_m)

    @given(stars)
    def test_the_outline_runs_counter_clockwise_from_a_box_at_the_origin(self, points: tuple[Point, ...]) -> None:
        outline = footprint(shape=Polygon(points_m=points)).outline_m
        assert shoelace(outline) > 0
        assert (min(x for x, _ in outline), min(y for _, y in outline)) == (0.0, 0.0)

    @settings(max_examples=60)
    @given(stars)
    def test_the_shorter_side_is_that_of_the_least_rectangle_along_any_side_of_the_hull(
        self, points: tuple[Point, ...]
    ) -> None:
        hull = shapely.get_coordinates(shapely.MultiPoint(points).convex_hull)
        boxes = []
        for east, north in np.diff(hull, axis=0):
            along = np.array([east, north]) / math.hypot(east, north)
            boxes.append((np.ptp(hull @ along), np.ptp(hull @ np.array([-along[1], along[0]]))))
        least = min(length * width for length, width in boxes)
        shorter = [min(box) for box in boxes if box[0] * box[1] <= least * (1 + 1e-9)]
        assert any(footprint(shape=Polygon(points_m=points)).shorter_side_m == pytest.approx(side) for side in shorter)

    def test_a_corner_said_twice_in_turn_is_one_corner(self) -> None:
        assert (
            footprint(shape=Polygon(points_m=(*ELL, ELL[-1]))).outline_m
            == footprint(shape=Polygon(points_m=ELL)).outline_m
        )

    def test_a_room_drawn_on_a_slant_has_its_own_shorter_side(self) -> None:
        c, s = math.cos(0.3), math.sin(0.3)
        slanted = tuple((x * c - y * s, x * s + y * c) for x, y in ((0, 0), (8, 0), (8, 3), (0, 3)))
        assert footprint(shape=Polygon(points_m=slanted)).shorter_side_m == pytest.approx(3.0)


class TestWhatNoFloorCanBe:
    def test_a_bow_tie_is_told_where_it_crosses(self) -> None:
        assert refused_at((0, 0), (4, 4), (4, 0), (0, 4)) == (2.0, 2.0)

    def test_of_many_crossings_the_first_is_found_and_no_other_looked_for(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        asked: list[Any] = []
        find = shapely.intersection
        monkeypatch.setattr(shapely, "intersection", lambda *sides: asked.append(sides) or find(*sides))
        turns = [2 * math.pi * 49 * corner / 99 for corner in range(99)]
        refused_at(*((math.cos(turn), math.sin(turn)) for turn in turns))
        assert len(asked) < 100  # of nearly 4,800 crossings

    def test_the_crossing_is_in_the_askers_own_coordinates(self) -> None:
        assert refused_at((100, 50), (104, 54), (104, 50), (100, 54)) == (102.0, 52.0)

    def test_a_corner_that_touches_a_side_is_told(self) -> None:
        assert refused_at((0, 0), (8, 0), (8, 6), (4, 0), (0, 6)) == (4.0, 0.0)

    def test_a_spike_that_runs_back_on_itself_is_told(self) -> None:
        x, y = refused_at((0, 0), (4, 0), (4, 3), (9, 3), (4, 3), (0, 3))
        assert y == 3.0
        assert 4.0 <= x <= 9.0

    def test_a_corner_used_twice_is_told(self) -> None:
        assert refused_at((0, 0), (4, 0), (2, 2), (4, 4), (0, 4), (2, 2)) == (2.0, 2.0)

    @pytest.mark.parametrize(
        "points",
        [
            (),
            ((0.0, 0.0),),
            ((0.0, 0.0), (4.0, 0.0)),
            ((0.0, 0.0), (4.0, 0.0), (4.0, 0.0)),
            ((0.0, 0.0), (4.0, 0.0), (9.0, 0.0)),
            ((0.0, 0.0), (3.0, 3.0), (1.0, 1.0)),
            ((0.0, 0.0), (5000.0, 0.0), (9000.0, 1e-7)),
        ],
    )
    def test_what_encloses_nothing_is_degenerate(self, points: tuple[Point, ...]) -> None:
        with pytest.raises(DegenerateOutline):
            footprint(shape=Polygon(points_m=points))

    @settings(max_examples=300)
    @given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=3, max_size=8))
    def test_every_list_of_corners_is_measured_or_refused(self, corners: list[tuple[int, int]]) -> None:
        points = tuple((x * 0.3048, y * 0.0254) for x, y in corners)
        try:
            found = footprint(shape=Polygon(points_m=points))
        except (CrossingOutline, DegenerateOutline):
            return
        assert found.area_m2 == pytest.approx(abs(shoelace(points)))

    def test_a_perimeter_shorter_than_a_circles_is_told_with_the_least(self) -> None:
        with pytest.raises(ImpossiblePerimeter) as caught:
            footprint(shape=Measured(area_m2=100.0, perimeter_m=35.4))
        assert caught.value.least_m == pytest.approx(20 * math.sqrt(math.pi))

    def test_a_circles_own_perimeter_is_enough_float_noise_or_not(self) -> None:
        just = least_perimeter(area_m2=73.0)
        assert footprint(shape=Measured(area_m2=73.0, perimeter_m=just * (1 - 1e-12))).perimeter_m < just


class TestPlainShapes:
    @given(sides, sides)
    def test_a_rectangle_is_the_polygon_of_its_corners(self, length: float, width: float) -> None:
        plain = footprint(shape=Rectangle(length_m=length, width_m=width))
        drawn = footprint(shape=Polygon(points_m=((0, 0), (0, width), (length, width), (length, 0))))
        assert plain.area_m2 == pytest.approx(drawn.area_m2, rel=1e-9)
        assert plain.perimeter_m == pytest.approx(drawn.perimeter_m, rel=1e-9)
        assert plain.shorter_side_m == pytest.approx(drawn.shorter_side_m, rel=1e-6)

    @given(sides)
    def test_a_circle_is_nearly_the_polygon_that_is_drawn_of_it(self, diameter: float) -> None:
        plain = footprint(shape=Circle(diameter_m=diameter))
        drawn = footprint(shape=Polygon(points_m=plain.outline_m))
        corner = 2 * math.pi / 64  # of a regular 64-gon in a circle: area n/2·r²·sin, perimeter 2n·r·sin(half)
        assert drawn.area_m2 / plain.area_m2 == pytest.approx(math.sin(corner) / corner)
        assert drawn.perimeter_m / plain.perimeter_m == pytest.approx(math.sin(corner / 2) / (corner / 2))

    @given(st.floats(0.01, 200_000))
    def test_an_area_alone_is_a_room_twice_as_long_as_wide(self, area: float) -> None:
        found = footprint(shape=Measured(area_m2=area))
        width = found.shorter_side_m
        assert 2 * width * width == pytest.approx(area)
        assert found.perimeter_m == pytest.approx(2 * (width + 2 * width))
        assert found.outline_m == ()
