"""The keyways as they are drawn run where the counted ones do."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerake.floor.job import Rectangle, RoundDrain
from gaugerake.floor.room.keyway import beside_line, surround_length, surround_ring
from gaugerake.floor.room.shape import drain_shape, footprint

OFFSETS = st.floats(0.02, 0.5)


def length(line: tuple[tuple[float, float], ...]) -> float:
    return math.fsum(math.dist(a, b) for a, b in pairwise(line))


@given(st.floats(0.05, 20), st.floats(0.05, 20), OFFSETS)
def test_a_groove_round_a_cutout_is_as_long_as_it_is_counted(long: float, wide: float, offset: float) -> None:
    cutout = Rectangle(length_m=long, width_m=wide)
    drawn = surround_ring(ring_m=footprint(shape=cutout).outline_m, offset_m=offset)
    assert length(drawn) == pytest.approx(surround_length(shape=cutout, offset_m=offset), rel=1e-9)
    assert drawn[0] == drawn[-1]


@given(st.floats(0.05, 2), OFFSETS)
def test_a_groove_round_a_drain_is_the_circle_within_what_64_corners_can_show(diameter: float, offset: float) -> None:
    drain = RoundDrain(diameter_m=diameter)
    drawn = surround_ring(ring_m=footprint(shape=drain_shape(drain=drain)).outline_m, offset_m=offset)
    # a 64-gon's perimeter is short of its circle's by π²/(6·64²), four parts in ten thousand
    assert length(drawn) == pytest.approx(surround_length(shape=drain, offset_m=offset), rel=1e-3)


@given(*[st.floats(-50, 50) for _ in range(4)], OFFSETS)
def test_grooves_beside_a_joint_are_parallel_to_it(x1: float, y1: float, x2: float, y2: float, offset: float) -> None:
    joint = ((x1, y1), (x2, y2))
    if math.dist(*joint) < 0.01:
        return
    for groove in beside_line(line_m=joint, offset_m=offset):
        assert math.dist(*groove) == pytest.approx(math.dist(*joint), rel=1e-9)
        assert math.dist(groove[0], joint[0]) == pytest.approx(offset, rel=1e-9)
        assert math.dist(groove[1], joint[1]) == pytest.approx(offset, rel=1e-9)
