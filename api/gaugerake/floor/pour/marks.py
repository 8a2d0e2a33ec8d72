"""Marks along the way of a pour: how far the floor stands when each mix is placed.

Decisions:

* A mark has no waste: so many mixes at the yield. Of a mix that two rooms share, the room that comes first takes what
  its need leaves of it, waste included, and the next one gets the rest. Low and high begin anew in each room.
* A mark beyond the end of the room stands at its end: there the last mixes are what waste allows for.
"""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.floor.pour.windows import Part
from gaugerake.floor.room.sweep import Fill, Sweep, each_reached
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How far the floor stands when a mix is placed [m], at the low, likely and high yield."""

    mix: int
    low_m: float
    likely_m: float
    high_m: float


def marks(
    *, swept: Sweep, fill: Fill, yield_m3: Triple, part: Part, before_mixes: float, most: int
) -> tuple[Mark, ...]:
    """Give the marks of what is poured of a room without a stop.

    Parameters
    ----------
    swept : Sweep
        The room.
    fill : Fill
        What the floor takes of the layer there.
    yield_m3 : Triple [m³]
        The volume that one mix makes.
    part : Part
        What is poured.
    before_mixes : float
        Mixes that the room has taken in earlier parts.
    most : int
        How many marks to give at most, the first ones.

    Returns
    -------
    tuple of Mark
        One for each mix that reaches the room, in order.

    Examples
    --------
    A room 4 m wide at 5 mm takes 20 L on each metre; mixes of 19, 20 and 22 L, the first half used up elsewhere.

    >>> from gaugerake.floor.pour.edge import Lane, Pace
    >>> from gaugerake.floor.pour.windows import RoomPour
    >>> strip = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(4.0, 0.0), next_width_m=(4.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=0.0)
    >>> room = RoomPour(room=1, need_mixes=1.5, pace=Pace(mix_area_m2=4.0, mixing_s=120, placing_s=90),
    ...                 lane=Lane(width_m=4.0, depth_m=1.0))
    >>> part = Part(pour=room, first_mix=3, last_mix=4, begins_s=0, ends_s=240, shares_first=True, used_mixes=2.5,
    ...             takes_mixes=1.5)
    >>> found = marks(swept=strip, fill=Fill(depth_m=0.005, section_m2=0.0), part=part, before_mixes=0.0, most=9,
    ...               yield_m3=Triple(low=0.019, likely=0.020, high=0.022))
    >>> [(mark.mix, mark.low_m, mark.likely_m, mark.high_m) for mark in found]
    [(3, 0.475, 0.5, 0.55), (4, 1.425, 1.5, 1.65)]
    """
    numbers = range(part.first_mix, part.last_mix + 1)[:most]
    poured = [before_mixes + min(number - part.used_mixes, part.takes_mixes) for number in numbers]
    low, likely, high = (
        _reached(swept, fill, poured, yield_of_mix_m3)
        for yield_of_mix_m3 in (yield_m3.low, yield_m3.likely, yield_m3.high)
    )
    return tuple(
        Mark(mix=number, low_m=low_m, likely_m=likely_m, high_m=high_m)
        for number, low_m, likely_m, high_m in zip(numbers, low, likely, high, strict=True)
    )


def _reached(swept: Sweep, fill: Fill, mixes: Sequence[float], yield_m3: float) -> list[float]:
    return each_reached(swept=swept, fill=fill, volumes_m3=(count * yield_m3 for count in mixes))
