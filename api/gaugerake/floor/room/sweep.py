"""The floor behind a straight edge that goes through a room: its area, and the keyways that lie in it.

Between two corners of the drawing the area behind the edge is a square function of its place and the length of the
keyways a straight one, so both are exact. A keyway that runs along the edge is met all at once.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable

from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """A room cut where its drawing has corners, from the side that the edge begins at.

    ``at_m`` are the cuts, from 0 to the length of the room. ``area_m2`` is what lies behind each; the edge is
    ``width_m`` long just after it, ``next_width_m`` just before the next. ``groove_m`` is the keyway behind each,
    without what lies in the cut itself and with it. ``loose_groove_m`` is the keyway that has no place.
    """

    at_m: tuple[float, ...]
    area_m2: tuple[float, ...]
    width_m: tuple[float, ...]
    next_width_m: tuple[float, ...]
    groove_m: tuple[tuple[float, float], ...]
    loose_groove_m: float

    @property
    def run_m(self) -> float:
        """The length of the room along the way [m]."""
        return self.at_m[-1]

    @property
    def total_area_m2(self) -> float:
        """The net floor [m²]."""
        return self.area_m2[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """What lies behind the edge: the net floor [m²] and the keyways [m]."""

    area_m2: float
    groove_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """What the floor takes: a depth over its area [m], and a section along its keyways [m²]."""

    depth_m: float
    section_m2: float

    def of(self, behind: Behind) -> float:
        """The volume [m³]."""
        return self.depth_m * behind.area_m2 + self.section_m2 * behind.groove_m


def behind(*, swept: Sweep, at_m: float) -> Behind:
    """Give what lies behind the edge.

    Parameters
    ----------
    swept : Sweep
        The room.
    at_m : float [m]
        Where the edge stands, from the side that it began at; held within the room.

    Returns
    -------
    Behind
        The net floor and the keyways, those that lie along the edge with it.

    Examples
    --------
    >>> strip = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(4.0, 0.0), next_width_m=(4.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=20.0)
    >>> behind(swept=strip, at_m=2.5)
    Behind(area_m2=10.0, groove_m=5.0)
    """
    at_m = min(max(at_m, 0.0), swept.run_m)
    return _within(swept, bisect_right(swept.at_m, at_m) - 1, at_m)


def edge_length(*, swept: Sweep, at_m: float) -> float:
    """Give the length of the edge at a place.

    Parameters
    ----------
    swept : Sweep
        The room.
    at_m : float [m]
        Where the edge stands, from the side that it began at.

    Returns
    -------
    float [m]
        From wall to wall, without what is cut out; just after the place where the room has a corner there.

    Examples
    --------
    >>> wedge = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(8.0, 0.0), next_width_m=(0.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=0.0)
    >>> edge_length(swept=wedge, at_m=2.5)
    6.0
    """
    cut = min(max(bisect_right(swept.at_m, at_m) - 1, 0), len(swept.at_m) - 2)
    share = (at_m - swept.at_m[cut]) / (swept.at_m[cut + 1] - swept.at_m[cut])
    return swept.width_m[cut] + (swept.next_width_m[cut] - swept.width_m[cut]) * share


def reached(*, swept: Sweep, fill: Fill, volume_m3: float) -> float:
    """Say how far the floor stands when a volume is placed.

    Parameters
    ----------
    swept : Sweep
        The room.
    fill : Fill
        What the floor takes of it.
    volume_m3 : float [m³]
        What is placed.

    Returns
    -------
    float [m]
        The least place of the edge behind which the floor takes so much; the length of the room where it takes less.

    Notes
    -----
    Where a keyway lies along the edge, all of it is filled before the floor goes on: the edge stands there for a while.

    Examples
    --------
    >>> strip = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(4.0, 0.0), next_width_m=(4.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=0.0)
    >>> reached(swept=strip, fill=Fill(depth_m=0.005, section_m2=0.0), volume_m3=0.1)
    5.0
    """
    return _Filling(swept, fill).reached(volume_m3)


def each_reached(*, swept: Sweep, fill: Fill, volumes_m3: Iterable[float]) -> list[float]:
    """Say how far the floor stands when each of some volumes is placed.

    Parameters
    ----------
    swept : Sweep
        The room.
    fill : Fill
        What the floor takes of it.
    volumes_m3 : iterable of float [m³]
        What is placed.

    Returns
    -------
    list of float [m]
        As :func:`reached` says of each.

    Examples
    --------
    >>> strip = Sweep(at_m=(0.0, 10.0), area_m2=(0.0, 40.0), width_m=(4.0, 0.0), next_width_m=(4.0, 0.0),
    ...               groove_m=((0.0, 0.0), (0.0, 0.0)), loose_groove_m=0.0)
    >>> each_reached(swept=strip, fill=Fill(depth_m=0.005, section_m2=0.0), volumes_m3=[0.05, 0.1, 0.3])
    [2.5, 5.0, 10.0]
    """
    filling = _Filling(swept, fill)
    return [filling.reached(volume_m3) for volume_m3 in volumes_m3]


class _Filling:
    """The volumes at the cuts of a room, each before and after what lies in the cut, in rising order."""

    def __init__(self, swept: Sweep, fill: Fill) -> None:
        self._swept, self._fill = swept, fill
        self._steps = [
            fill.of(Behind(area_m2=area, groove_m=groove + _loose(swept, area)))
            for area, pair in zip(swept.area_m2, swept.groove_m, strict=True)
            for groove in pair
        ]

    def reached(self, volume_m3: float) -> float:
        """The least place of the edge with so much behind it."""
        step = bisect_left(self._steps, volume_m3)
        if step >= len(self._steps):
            return self._swept.run_m
        cut, in_cut = divmod(step, 2)
        if in_cut or cut == 0:
            return self._swept.at_m[cut]
        return self._between(cut - 1, volume_m3 - self._steps[step - 1])

    def _between(self, cut: int, more_m3: float) -> float:
        """The place after a cut at which so much more is taken: volume = first·x + second·x², taken the steady way."""
        swept, fill = self._swept, self._fill
        length = swept.at_m[cut + 1] - swept.at_m[cut]
        loose = swept.loose_groove_m / swept.total_area_m2
        by_area = fill.depth_m + fill.section_m2 * loose
        grooves = (swept.groove_m[cut + 1][0] - swept.groove_m[cut][1]) / length
        first = by_area * swept.width_m[cut] + fill.section_m2 * grooves
        second = by_area * (swept.next_width_m[cut] - swept.width_m[cut]) / (2 * length)
        root = math.sqrt(max(0.0, first**2 + 4 * second * more_m3))
        went = 2 * more_m3 / (first + root) if first + root > 0 else length
        return swept.at_m[cut] + min(went, length)


def _within(swept: Sweep, cut: int, at_m: float) -> Behind:
    went = at_m - swept.at_m[cut]
    area, groove = swept.area_m2[cut], swept.groove_m[cut][1]
    if went > 0:
        length = swept.at_m[cut + 1] - swept.at_m[cut]
        width = swept.width_m[cut] + (swept.next_width_m[cut] - swept.width_m[cut]) * went / length / 2
        area = min(area + width * went, swept.area_m2[cut + 1])
        groove += (swept.groove_m[cut + 1][0] - groove) * went / length
    return Behind(area_m2=area, groove_m=groove + _loose(swept, area))


def _loose(swept: Sweep, area_m2: float) -> float:
    return swept.loose_groove_m * area_m2 / swept.total_area_m2
