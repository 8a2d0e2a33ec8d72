"""The pace of a pour, its lanes, and whether the wet edge holds.

A self-levelling body is placed in lanes across the room, all in the same direction. Each lane lies open at its edge
until the next one meets it. If that takes longer than the material stays open, the two do not flow together: a ridge,
a colour change, a cold joint. So the crew's cadence and the lane decide together whether a room can be poured at all.
"""

from __future__ import annotations

import math
from enum import StrEnum

from gaugerake.floor.values.frozen import dataclass, maker

GUARD = 1e-9  # relative; float noise neither makes a strip nor takes one more mix
EDGE_GUARD = 1e-5
"""Relative: a figure that was shown to six digits and comes back loses no edge (it is 7 ms in 12 min)."""


class PaceTerm(StrEnum):
    """What sets the cadence of a pour."""

    MIXING = "mixing"
    PLACING = "placing"
    CASTING = "casting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How often a mix reaches the floor: the slowest of mixing, placing and casting.

    ``mix_area_m2`` is the floor that one mix covers [m²], ``mixing_s`` the time from one mix to the next that the
    stations allow [s], ``placing_s`` the time that placing one mix takes [s], ``casting_s`` the time that casting the
    aggregate for one mix takes [s], 0 where nothing is cast.
    """

    mix_area_m2: float
    mixing_s: float
    placing_s: float
    casting_s: float = 0.0

    @property
    def cadence_s(self) -> float:
        """The time from one mix to the next [s]."""
        return max(self.mixing_s, self.placing_s, self.casting_s)

    @property
    def slower(self) -> PaceTerm:
        """The largest term; of level ones mixing, then placing."""
        terms = {
            PaceTerm.MIXING: self.mixing_s,
            PaceTerm.PLACING: self.placing_s,
            PaceTerm.CASTING: self.casting_s,
        }
        return max(terms, key=terms.__getitem__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """A lane across a room: ``width_m`` along its edge, ``depth_m`` forward [m].

    A room wider than the widest lane is poured in ``strip_count`` strips, none wider than ``width_m``, each stopped at
    a joint or a keyway.
    """

    width_m: float
    depth_m: float
    strip_count: int = 1

    @property
    def area_m2(self) -> float:
        """The floor of one lane [m²]."""
        return self.width_m * self.depth_m


@dataclass(frozen=True, slots=True, kw_only=True)
class WetEdge:
    """Whether a lane's edge is still open when the next lane meets it [s].

    ``overtaken_after_s`` is from the first mix of the lane to the one beside it; ``needed_s`` adds the time to the
    pour and the placing of one mix; ``open_time_s`` is what the product gives, None where its maker states none.
    """

    overtaken_after_s: float
    needed_s: float
    open_time_s: float | None

    @property
    def holds(self) -> bool | None:
        """Whether the edge is met in time; None when nobody can say."""
        if self.open_time_s is None:
            return None
        return self.needed_s <= self.open_time_s * (1 + EDGE_GUARD)


_make_pace, _make_lane, _make_wet_edge = maker(Pace), maker(Lane), maker(WetEdge)


def mix_area_m2(*, yield_m3: float, thickness_m: float) -> float:
    """The floor that one mix covers.

    Parameters
    ----------
    yield_m3 : float [m³]
        Volume that one mix makes.
    thickness_m : float [m]
        Thickness placed wet: the system's, times the layer's share of it.

    Returns
    -------
    float [m²]
        Area at that thickness.

    Notes
    -----
    What keyways, profile and waste take is not in it: this is the floor that the crew sees a mix cover in the field.

    Examples
    --------
    0.38 ft³ at 3/16 in:

    >>> round(mix_area_m2(yield_m3=0.010760, thickness_m=0.0047625), 4)
    2.2593
    """
    return yield_m3 / thickness_m


def pace(
    *,
    mix_cycle_s: float,
    station_count: int,
    placing_rate_m2_s: float,
    mix_area_m2: float,
    cast_kg_m2: float = 0.0,
    cast_rate_kg_s: float = math.inf,
) -> Pace:
    """How often a mix reaches the floor.

    Parameters
    ----------
    mix_cycle_s : float [s]
        One station's time from one mix to its next: batching, mixing, carrying, cleaning.
    station_count : int
        Mixing stations that work side by side.
    placing_rate_m2_s : float [m²/s]
        What the hands pour, rake and roll.
    mix_area_m2 : float [m²]
        Floor that one mix covers.
    cast_kg_m2 : float [kg/m²]
        Aggregate that is cast into it, at the likely rate and with waste; 0: none.
    cast_rate_kg_s : float [kg/s]
        What the hands that cast it cast in a time.

    Returns
    -------
    Pace
        Its terms; its cadence is the largest of them.

    Examples
    --------
    Two stations of four minutes, 24 ft² to a mix, 900 ft² an hour: a mix every two minutes, and mixing sets it.

    >>> found = pace(mix_cycle_s=240, station_count=2, placing_rate_m2_s=900 / 3600, mix_area_m2=24)
    >>> found.cadence_s, found.placing_s, found.slower.value
    (120.0, 96.0, 'mixing')

    With 0.5 lb/ft² to cast at 300 lb an hour, 24 ft² take 144 s: casting sets it.

    >>> found = pace(mix_cycle_s=240, station_count=2, placing_rate_m2_s=900 / 3600, mix_area_m2=24,
    ...              cast_kg_m2=0.5, cast_rate_kg_s=300 / 3600)
    >>> found.cadence_s, found.slower.value
    (144.0, 'casting')
    """
    return _make_pace(
        mix_area_m2=mix_area_m2,
        mixing_s=mix_cycle_s / station_count,
        placing_s=mix_area_m2 / placing_rate_m2_s,
        casting_s=mix_area_m2 * cast_kg_m2 / cast_rate_kg_s,
    )


def lane(*, shorter_side_m: float, depth_m: float, widest_m: float | None = None) -> Lane:
    """The lane of a room.

    Parameters
    ----------
    shorter_side_m : float [m]
        The room's shorter side, which lanes run along.
    depth_m : float [m]
        How far forward one lane reaches.
    widest_m : float or None [m]
        The widest lane that is poured; a wider room is divided into strips. None: no such limit.

    Returns
    -------
    Lane
        Its width (that of the widest strip), depth and the number of strips.

    Examples
    --------
    >>> lane(shorter_side_m=8.7, depth_m=0.9)
    Lane(width_m=8.7, depth_m=0.9, strip_count=1)
    >>> lane(shorter_side_m=9.0, depth_m=0.9, widest_m=4.0)
    Lane(width_m=4.0, depth_m=0.9, strip_count=3)
    """
    if widest_m is None or shorter_side_m <= widest_m * (1 + GUARD):
        return _make_lane(width_m=shorter_side_m, depth_m=depth_m)
    strips = math.ceil(shorter_side_m / widest_m * (1 - GUARD))
    return _make_lane(width_m=widest_m, depth_m=depth_m, strip_count=strips)


def wet_edge(*, lane: Lane, pace: Pace, pour_within_s: float, open_time_s: float | None) -> WetEdge:
    """Whether a lane's edge is met while it is open.

    Parameters
    ----------
    lane : Lane
        The lane.
    pace : Pace
        The pace of the room.
    pour_within_s : float [s]
        From the end of mixing to the pour, at the latest.
    open_time_s : float or None [s]
        How long the material can be worked, the low figure at the hotter of floor and material; None: not stated.

    Returns
    -------
    WetEdge
        The edge is overtaken after max(1, lane area / mix area) cadences, and it holds when that, the wait to the pour
        and the placing of one mix are within the open time.

    Examples
    --------
    A lane of 120 ft² takes five mixes of 24 ft²: ten minutes at one every two minutes.

    >>> steps = pace(mix_cycle_s=240, station_count=2, placing_rate_m2_s=900 / 3600, mix_area_m2=24)
    >>> edge = wet_edge(lane=Lane(width_m=40, depth_m=3), pace=steps, pour_within_s=120, open_time_s=900)
    >>> edge.overtaken_after_s, edge.needed_s, edge.holds
    (600.0, 816.0, True)
    """
    mixes = lane.area_m2 / pace.mix_area_m2
    overtaken = (mixes if mixes > 1.0 else 1.0) * pace.cadence_s
    needed = overtaken + pour_within_s + pace.placing_s
    return _make_wet_edge(overtaken_after_s=overtaken, needed_s=needed, open_time_s=open_time_s)
