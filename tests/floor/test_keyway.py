"""Where keyways run: along walls, round what is cut out, and what happens where a room is too narrow for them."""

import math

import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from gaugerake.floor.job import Circle, Measured, Polygon, Rectangle, RoundDrain, Shape, TrenchDrain
from gaugerake.floor.room.keyway import Inset, inset, keyway_volume, surround_length
from gaugerake.floor.room.shape import footprint

sides = st.floats(0.01, 1_000)
offsets = st.floats(0.01, 1)
ELL = Polygon(points_m=((0, 0), (10, 0), (10, 4), (4, 4), (4, 9), (0, 9)))


def along_walls(shape: Shape, offset_m: float) -> Inset:
    return inset(footprint=footprint(shape=shape), offset_m=offset_m)


class TestAlongWalls:
    @given(sides, sides, offsets)
    @example(2.0, 2.0, 0.9999)
    def test_a_rectangle_is_what_shapely_makes_of_it(self, length: float, width: float, offset: float) -> None:
        """But for a sliver of less than a ten-thousandth of the offset, which GEOS drops."""
        assume(not 0 < min(length, width) - 2 * offset < 1e-4 * offset)
        shrunk = shapely.box(0, 0, length, width).buffer(-offset, join_style="mitre", mitre_limit=5)
        found = along_walls(Rectangle(length_m=length, width_m=width), offset)
        assert found.length_m == pytest.approx(shrunk.length, rel=1e-9, abs=1e-6)

    def test_an_ell_has_square_corners_only(self) -> None:
        found = along_walls(ELL, 0.25)
        assert found.length_m == pytest.approx(38.0 - 8 * 0.25)
        assert found.whole
        assert len(found.rings_m) == 1

    def test_the_inset_corner_of_an_ell_is_mitred_not_rounded(self) -> None:
        (ring,) = along_walls(ELL, 0.25).rings_m
        corners = {(round(x, 9), round(y, 9)) for x, y in ring}
        assert corners == {(0.25, 0.25), (9.75, 0.25), (9.75, 3.75), (3.75, 3.75), (3.75, 8.75), (0.25, 8.75)}

    def test_a_regular_hexagon_keeps_its_form(self) -> None:
        corners = tuple((6 * math.cos(math.pi * k / 3), 6 * math.sin(math.pi * k / 3)) for k in range(6))
        shorter = 1 / math.cos(math.pi / 6)  # its inner circle is side · cos 30°, which shrinks by the offset
        assert along_walls(Polygon(points_m=corners), 1.0).length_m == pytest.approx(6 * (6 - shorter))

    @given(st.floats(0.5, 100), st.floats(0.01, 0.2))
    def test_a_circle_is_exact_and_the_polygon_drawn_of_it_a_polygons(self, diameter: float, offset: float) -> None:
        round_room = footprint(shape=Circle(diameter_m=diameter))
        exact = inset(footprint=round_room, offset_m=offset).length_m
        assert exact == pytest.approx(math.pi * (diameter - 2 * offset))
        drawn = along_walls(Polygon(points_m=round_room.outline_m), offset).length_m
        half = math.pi / 64  # a regular 64-gon of inner radius r is 2·64·tan(half)·r round
        assert drawn == pytest.approx(128 * math.tan(half) * (diameter / 2 * math.cos(half) - offset), rel=1e-6)

    def test_a_measured_room_has_a_rectangles(self) -> None:
        assert along_walls(Measured(area_m2=50.0), 0.1) == Inset(length_m=30.0 - 0.8, rings_m=(), whole=True)

    @given(st.floats(1, 9), st.floats(1, 9), st.floats(0.01, 0.49))
    def test_a_longer_room_has_more_of_it_where_nothing_vanishes(self, length: float, more: float, off: float) -> None:
        one = along_walls(Rectangle(length_m=length, width_m=1.0), off)
        assert along_walls(Rectangle(length_m=length + more, width_m=1.0), off).length_m > one.length_m


class TestNarrowRooms:
    @pytest.mark.parametrize(
        "shape",
        [
            Rectangle(length_m=9.0, width_m=0.2),
            Rectangle(length_m=0.15, width_m=9.0),
            Circle(diameter_m=0.2),
            Measured(area_m2=0.01),
            Polygon(points_m=((0, 0), (9, 0), (9, 0.19), (0, 0.19))),
        ],
    )
    def test_there_is_none_where_no_groove_fits(self, shape: Shape) -> None:
        found = along_walls(shape, 0.1)
        assert (found.length_m, found.rings_m, found.whole) == (0.0, (), False)

    def test_float_noise_of_units_makes_no_sliver_of_a_groove(self) -> None:
        width = 8 * 0.0254  # 8 in, twice an offset of 4 in
        assert along_walls(Rectangle(length_m=9.0, width_m=width), 4 * 0.0254).length_m == 0.0

    def test_two_rooms_joined_by_a_narrow_passage_fall_apart(self) -> None:
        bell = Polygon(
            points_m=(
                (0, 0),
                (3, 0),
                (3, 1.4),
                (6, 1.4),
                (6, 0),
                (9, 0),
                (9, 3),
                (6, 3),
                (6, 1.6),
                (3, 1.6),
                (3, 3),
                (0, 3),
            )
        )
        found = along_walls(bell, 0.25)
        assert len(found.rings_m) == 2
        assert found.length_m == pytest.approx(2 * 4 * 2.5)
        assert not found.whole

    def test_a_narrow_alcove_is_told_though_the_ring_stays_one(self) -> None:
        alcove = Polygon(points_m=((0, 0), (6, 0), (6, 4), (3.2, 4), (3.2, 5), (3, 5), (3, 4), (0, 4)))
        found = along_walls(alcove, 0.25)
        assert found.length_m == pytest.approx(2 * (5.5 + 3.5))
        assert (len(found.rings_m), found.whole) == (1, False)

    def test_a_jog_in_the_wall_or_a_cut_corner_shorter_than_the_offset_is_followed(self) -> None:
        jog = Polygon(points_m=((0, 0), (6, 0), (6, 4), (3, 4), (3, 4.05), (0, 4.05)))
        cut = Polygon(points_m=((0, 0), (6, 0), (6, 3.95), (5.95, 4), (0, 4)))
        assert along_walls(jog, 0.25).whole
        assert along_walls(cut, 0.25).whole

    @settings(max_examples=60)
    @given(st.lists(st.floats(2, 9), min_size=6, max_size=10), st.floats(0.01, 0.1))
    def test_a_wide_star_shaped_room_is_followed_all_round(self, radii: list[float], offset: float) -> None:
        turns = [2 * math.pi * k / len(radii) for k in range(len(radii))]
        corners = tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turns, strict=True))
        assert along_walls(Polygon(points_m=corners), offset).whole


class TestRoundWhatIsCutOut:
    def test_sharp_corners_are_mitred(self) -> None:
        """3 : 4 : 5 has an inner circle of radius 1, and grows with it: 12 round, 15 a quarter of it farther out."""
        triangle = Polygon(points_m=((0, 0), (4, 0), (0, 3)))
        assert surround_length(shape=triangle, offset_m=0.25) == pytest.approx(15.0)

    def test_a_needle_is_cut_off_five_offsets_out(self) -> None:
        """A needle 5 long and 1 wide: without a limit its tip would be 10 offsets out."""
        half, offset = math.atan(0.1), 0.1
        base = math.pi / 2 - half
        whole = 2 * math.hypot(5, 0.5) + 1 + 2 * offset * (1 / math.tan(half) + 2 / math.tan(base / 2))
        beyond = offset / math.sin(half) - 5 * offset
        cut = 2 * beyond / math.cos(half) - 2 * beyond * math.tan(half)
        needle = Polygon(points_m=((0, 0), (5, 0.5), (5, -0.5)))
        assert surround_length(shape=needle, offset_m=offset) == pytest.approx(whole - cut)

    def test_a_rectangle_grows_by_an_offset_on_every_side(self) -> None:
        assert surround_length(shape=Rectangle(length_m=2.0, width_m=1.0), offset_m=0.1) == pytest.approx(6.8)

    def test_a_trench_is_its_rectangle(self) -> None:
        assert surround_length(shape=TrenchDrain(length_m=2.0, width_m=1.0), offset_m=0.1) == pytest.approx(6.8)

    def test_round_ones_are_exact(self) -> None:
        for shape in (Circle(diameter_m=0.5), RoundDrain(diameter_m=0.5)):
            assert surround_length(shape=shape, offset_m=0.1) == pytest.approx(math.pi * 0.7)

    def test_a_measured_one_has_a_rectangles(self) -> None:
        assert surround_length(shape=Measured(area_m2=2.0, perimeter_m=7.0), offset_m=0.1) == pytest.approx(7.8)

    @given(sides, sides, offsets)
    def test_a_rectangle_is_the_polygon_of_its_corners(self, length: float, width: float, offset: float) -> None:
        drawn = Polygon(points_m=((0, 0), (length, 0), (length, width), (0, width)))
        plain = surround_length(shape=Rectangle(length_m=length, width_m=width), offset_m=offset)
        assert surround_length(shape=drawn, offset_m=offset) == pytest.approx(plain, rel=1e-9)

    def test_the_groove_inside_a_ring_that_closes_is_counted(self) -> None:
        # a C, 3 by 3 with walls of 1, its gap 0.1 wide: grown by 0.1 the gap closes and leaves a hole of 0.8 by 0.8
        c = Polygon(
            points_m=(
                (0, 0),
                (3, 0),
                (3, 1.45),
                (2, 1.45),
                (2, 1),
                (1, 1),
                (1, 2),
                (2, 2),
                (2, 1.55),
                (3, 1.55),
                (3, 3),
                (0, 3),
            )
        )
        assert surround_length(shape=c, offset_m=0.1) == pytest.approx(4 * 3.2 + 4 * 0.8)


@given(st.floats(0, 1e4), st.floats(0.1, 5), st.floats(1e-4, 0.05))
def test_a_groove_is_as_deep_as_wide(length: float, ratio: float, thickness: float) -> None:
    volume = keyway_volume(length_m=length, ratio=ratio, thickness_m=thickness)
    assert volume == pytest.approx(length * ratio * thickness * ratio * thickness)
