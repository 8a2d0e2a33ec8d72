"""What is placed in a room: inside the walls or not, sharing floor or only touching."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerake.floor.job import Circle, Measured, Point, Polygon, Rectangle, Shape
from gaugerake.floor.room.placing import Piece, lies_inside, line_piece, overlaps, piece
from gaugerake.floor.room.shape import footprint

FOOT, INCH = 0.3048, 0.0254
ROOM = Rectangle(length_m=6.0, width_m=4.0)
ELL = Polygon(points_m=((0, 0), (10, 0), (10, 4), (4, 4), (4, 9), (0, 9)))
PIT = Rectangle(length_m=2.0, width_m=1.0)


def put(shape: Shape, x_m: float, y_m: float) -> Piece:
    return piece(footprint=footprint(shape=shape), at_m=(x_m, y_m))


def inside(room: Shape, placed: Piece) -> bool:
    return lies_inside(room=footprint(shape=room), piece=placed)


class TestInsideTheWalls:
    @pytest.mark.parametrize(
        ("at", "expected"), [((0, 0), True), ((4, 3), True), ((4.01, 3), False), ((4, 3.01), False)]
    )
    def test_a_pit_may_touch_the_walls(self, at: Point, expected: bool) -> None:
        assert inside(ROOM, put(PIT, *at)) is expected

    @given(st.integers(1, 400), st.integers(1, 400), st.integers(1, 11))
    def test_feet_added_to_inches_still_touch(self, length: int, left: int, inches: int) -> None:
        """In a room of length + left feet and some inches, a pit of that length at ``left`` feet ends at the wall."""
        room = Rectangle(length_m=(length + left) * FOOT + inches * INCH, width_m=9.0)
        pit = Rectangle(length_m=(length * 12 + inches) * INCH, width_m=1.0)
        assert inside(room, put(pit, left * FOOT, 0.0))

    def test_the_notch_of_an_ell_is_outside(self) -> None:
        assert inside(ELL, put(PIT, 1, 6))
        assert not inside(ELL, put(PIT, 6, 6))
        assert not inside(ELL, put(PIT, 3, 4))

    def test_a_polygon_room_is_placed_by_its_box_wherever_its_corners_lie(self) -> None:
        moved = Polygon(points_m=tuple((x + 700, y - 40) for x, y in ELL.points_m))
        assert inside(moved, put(PIT, 1, 6))

    @given(st.floats(0, 2 * math.pi), st.floats(0.05, 2), st.floats(1e-4, 0.1))
    def test_a_round_drain_in_a_round_room_is_exact(self, turn: float, radius: float, gap: float) -> None:
        reach = 3.0 - radius
        for far, expected in ((reach, True), (reach + gap, False)):
            x, y = 3 + far * math.cos(turn) - radius, 3 + far * math.sin(turn) - radius
            assert inside(Circle(diameter_m=6.0), put(Circle(diameter_m=2 * radius), x, y)) is expected

    def test_a_round_drain_touches_a_wall(self) -> None:
        assert inside(ELL, put(Circle(diameter_m=1.0), 3, 4))
        assert not inside(ELL, put(Circle(diameter_m=1.0), 3.01, 4))

    def test_a_pit_in_a_round_room_is_held_by_its_corners(self) -> None:
        square = Rectangle(length_m=6 / math.sqrt(2), width_m=6 / math.sqrt(2))
        corner = 3 - 3 / math.sqrt(2)
        assert inside(Circle(diameter_m=6.0), put(square, corner, corner))
        assert not inside(Circle(diameter_m=6.0), put(square, corner + 0.01, corner))

    @pytest.mark.parametrize(
        ("line", "expected"),
        [
            (((0, 2), (10, 2)), True),  # wall to wall
            (((4, 4), (10, 4)), True),  # along a wall
            (((1, 8), (9, 1)), False),  # across the notch
            (((1, 1), (11, 1)), False),
        ],
    )
    def test_a_joint_runs_from_wall_to_wall(self, line: tuple[Point, Point], expected: bool) -> None:
        assert inside(ELL, line_piece(line_m=line)) is expected

    def test_what_is_known_by_its_area_alone_has_no_place(self) -> None:
        with pytest.raises(ValueError, match="no outline"):
            put(Measured(area_m2=3.0), 0, 0)


class TestSharingFloor:
    def test_side_by_side_is_not_sharing(self) -> None:
        assert overlaps([put(PIT, 0, 0), put(PIT, 2, 0), put(PIT, 0, 1)]) == []

    def test_every_pair_that_shares_is_found_the_earlier_first(self) -> None:
        pits = [put(PIT, 0, 0), put(PIT, 5, 5), put(PIT, 1, 0.5), put(PIT, 1.5, 0.5)]
        assert overlaps(pits) == [(0, 2), (0, 3), (2, 3)]

    def test_one_inside_another_shares(self) -> None:
        assert overlaps([put(ROOM, 0, 0), put(PIT, 1, 1)]) == [(0, 1)]

    @given(st.floats(0, 2 * math.pi), st.floats(0.1, 1), st.floats(0.1, 1), st.floats(1e-4, 0.05))
    def test_round_ones_are_exact(self, turn: float, one: float, other: float, gap: float) -> None:
        for far, expected in ((one + other, []), (one + other - gap, [(0, 1)])):
            x, y = 5 + far * math.cos(turn), 5 + far * math.sin(turn)
            drains = [
                put(Circle(diameter_m=2 * one), 5 - one, 5 - one),
                put(Circle(diameter_m=2 * other), x - other, y - other),
            ]
            assert overlaps(drains) == expected

    def test_a_round_one_beside_a_pit(self) -> None:
        assert overlaps([put(PIT, 0, 0), put(Circle(diameter_m=1.0), 2.0, 0)]) == []
        assert overlaps([put(PIT, 0, 0), put(Circle(diameter_m=1.0), 1.9, 0)]) == [(0, 1)]
        # off the corner: the box of the drain overlaps the pit, the drain itself does not
        assert overlaps([put(PIT, 0, 0), put(Circle(diameter_m=1.0), 1.9, 0.9)]) == []

    def test_joints_cross_in_a_grid_but_do_not_lie_on_each_other(self) -> None:
        grid = [((0, 1), (6, 1)), ((0, 2), (6, 2)), ((1, 0), (1, 4)), ((2, 0), (2, 4)), ((0, 0), (6, 4))]
        assert overlaps([line_piece(line_m=line) for line in grid]) == []
        twice = [((0.0, 1.0), (6.0, 1.0)), ((8.0, 1.0), (5.0, 1.0)), ((6.0, 1.0), (4.0, 1.0))]
        assert overlaps([line_piece(line_m=line) for line in twice]) == [(0, 1), (0, 2), (1, 2)]

    @given(st.floats(-math.pi, math.pi), st.floats(1, 300))
    def test_a_joint_said_twice_is_found_whichever_way_it_is_written(self, turn: float, length: float) -> None:
        def along(part: float) -> Point:
            return 400 + part * length * math.cos(turn), 400 + part * length * math.sin(turn)

        first = line_piece(line_m=(along(0), along(0.7)))
        for again in ((along(0.4), along(1)), (along(1), along(0.4))):
            assert overlaps([first, line_piece(line_m=again)]) == [(0, 1)]

    def test_joints_end_to_end_only_touch(self) -> None:
        lines = [((0.0, 1.0), (3.0, 1.0)), ((3.0, 1.0), (6.0, 1.0)), ((3.0, 1.0), (3.0, 4.0))]
        assert overlaps([line_piece(line_m=line) for line in lines]) == []

    def test_a_joint_ends_at_a_drain_and_does_not_run_through_it(self) -> None:
        pit, drain = put(PIT, 2, 1), put(Circle(diameter_m=1.0), 2, 3)
        ends = [line_piece(line_m=((0, 1.5), (2, 1.5))), line_piece(line_m=((0, 3.5), (2, 3.5)))]
        through = [line_piece(line_m=((0, 1.5), (3, 1.5))), line_piece(line_m=((0, 3.5), (3, 3.5)))]
        assert overlaps([pit, drain, *ends]) == []
        assert overlaps([pit, drain, *through]) == [(0, 2), (1, 3)]
        assert overlaps([*through, pit, drain]) == [(0, 2), (1, 3)]

    def test_a_joint_along_the_side_of_a_pit_only_touches(self) -> None:
        assert overlaps([put(PIT, 2, 1), line_piece(line_m=((0, 1), (6, 1)))]) == []
