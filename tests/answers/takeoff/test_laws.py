"""What may never change a need, and what must."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers.takeoff.jobs import taken

from gaugerake.floor.job import Cove, Crack, Joint, JointKind, Order, Rectangle, Room
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read

sizes = st.floats(1.0, 60.0)
rooms = st.builds(
    lambda length, width, thick, joint, cove: Room(
        shape=Rectangle(length_m=length, width_m=width),
        joints=(Joint(length_m=joint, kind=JointKind.MOVING, width_m=0.01, depth_m=0.01),),
        cove=Cove(length_m=cove, height_m=0.1),
        thickness_m=thick,
        cracks=(Crack(length_m=joint, width_m=0.01, depth_m=0.02),),
    ),
    sizes,
    sizes,
    st.floats(0.004, 0.009),
    sizes,
    sizes,
)


def likely(takeoff: Takeoff) -> dict[str, float]:
    return {need.layer.id: need.likely for need in takeoff.layers}


def rounded(takeoff: Takeoff) -> dict[str, tuple[float, float, float]]:
    return {need.layer.id: (need.rounded_low, need.rounded_likely, need.rounded_high) for need in takeoff.layers}


class TestLaws:
    """In rooms of a metre and more a keyway of 0.1 m vanishes nowhere, which is what these laws ask."""

    @settings(max_examples=40)
    @given(st.lists(rooms, min_size=1, max_size=4), st.randoms(use_true_random=False))
    def test_the_order_of_rooms_changes_nothing(self, job: list[Room], chance: object) -> None:
        shuffled = list(job)
        chance.shuffle(shuffled)  # type: ignore[attr-defined]
        assert likely(taken(*job)) == likely(taken(*shuffled))

    @settings(max_examples=40)
    @given(st.lists(rooms, min_size=1, max_size=3), st.lists(rooms, min_size=1, max_size=3))
    def test_needs_of_two_jobs_add(self, one: list[Room], other: list[Room]) -> None:
        apart = [likely(taken(*one)), likely(taken(*other))]
        together = likely(taken(*one, *other))
        assert together == pytest.approx({name: apart[0][name] + apart[1][name] for name in together}, rel=1e-12)

    @settings(max_examples=40)
    @given(rooms, st.floats(1.0, 2.0), st.sampled_from(["length", "width", "thickness", "waste"]))
    def test_more_of_anything_never_needs_less(self, room: Room, factor: float, grown: str) -> None:
        assert isinstance(room.shape, Rectangle)
        assert room.thickness_m is not None
        shape, waste = room.shape, 5.0
        if grown == "length":
            shape = replace(shape, length_m=shape.length_m * factor)
        elif grown == "width":
            shape = replace(shape, width_m=shape.width_m * factor)
        thick = min(0.009, room.thickness_m * factor) if grown == "thickness" else room.thickness_m
        order = Order(waste_percent=waste * factor if grown == "waste" else waste)
        less = taken(room, order=Order(waste_percent=waste))
        more = taken(replace(room, shape=shape, thickness_m=thick), order=order)
        for name, need in likely(less).items():
            assert likely(more)[name] >= need * (1 - 1e-12)
        for name, needs in rounded(less).items():
            assert all(new >= old for new, old in zip(rounded(more)[name], needs, strict=True))

    @settings(max_examples=60)
    @given(st.integers(2, 200), st.integers(2, 200), st.integers(11, 22), st.integers(1, 120))
    def test_a_job_written_in_feet_is_the_job_written_in_metres(
        self, length: int, width: int, sixty_fourths: int, joint: int
    ) -> None:
        """Both as people write them: a foot is 0.3048 m and 1/64 in is 0.396875 mm, to the last decimal."""

        def feet(count: int) -> str:
            return f"{count} ft"

        def metres(count: int) -> str:
            return f"{count * Decimal('0.3048')} m"

        def written(side: Callable[[int], str], thick: str) -> Room:
            sides_m = [read(side(count), Dimension.LENGTH) for count in (length, width, joint)]
            return Room(
                shape=Rectangle(length_m=sides_m[0], width_m=sides_m[1]),
                joints=(Joint(length_m=sides_m[2], kind=JointKind.MOVING, width_m=0.01, depth_m=0.01),),
                thickness_m=read(thick, Dimension.LENGTH),
            )

        us = taken(written(feet, f"{sixty_fourths}/64 in"))
        si = taken(written(metres, f"{sixty_fourths * Decimal('0.396875')} mm"))
        assert rounded(us) == rounded(si)
