"""The clock of every mix: when to mix, by when to pour, place, roll and broadcast."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from gaugerake.floor.cure.curve import TimeCurve, time_at
from gaugerake.floor.pour.edge import Pace
from gaugerake.floor.pour.windows import Part, Stretch
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """How a body product wants to be handled.

    ``mixing_s`` in the mixer, ``pour_within_s`` from then to the pour, ``roll_within_s`` from placing to the spiked
    roller [s]; ``open_time`` how long it can be worked; ``broadcast_wait`` from placing to the broadcast, low and high
    as the window's ends, None where nothing is broadcast into it.
    """

    mixing_s: float
    pour_within_s: float
    roll_within_s: float
    open_time: TimeCurve | None = None
    broadcast_wait: TimeCurve | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MixClock:
    """The instants of one mix [s].

    ``room`` is where it begins, ``last_room`` where it runs on to (the same, unless it is shared at a boundary).
    ``wet_until_s`` is how long its edge may wait for the next lane.
    """

    number: int
    room: int
    last_room: int
    mix_at_s: float
    pour_by_s: float
    placed_s: float
    roll_by_s: float
    wet_until_s: float | None
    broadcast_from_s: float | None
    broadcast_by_s: float | None


def open_time_s(*, curve: TimeCurve | None, floor_k: float, material_k: float) -> float | None:
    """How long a body can surely be worked: the low figure at the hotter of floor and material.

    Parameters
    ----------
    curve : TimeCurve or None
        The product's open time; None when its maker states none.
    floor_k : float [K]
        Temperature of the floor.
    material_k : float [K]
        Temperature of the material as mixed.

    Returns
    -------
    float or None [s]
        The open time, None without a curve.

    Examples
    --------
    >>> from gaugerake.floor.cure.curve import TimePoint
    >>> curve = TimeCurve(points=(TimePoint(temperature_k=295, low_s=600, likely_s=700, high_s=800),))
    >>> round(open_time_s(curve=curve, floor_k=295, material_k=290))
    600
    >>> open_time_s(curve=curve, floor_k=295, material_k=300) < 600
    True
    """
    return None if curve is None else time_at(curve, temperature_k=max(floor_k, material_k), column="low")


@dataclass(frozen=True, slots=True, kw_only=True)
class CastWindow:
    """When aggregate is cast into a mix, counted from the end of mixing [s].

    ``soonest_s`` and ``waited_s`` are when the shortest and the longest wait are over, ``sets_s`` the likely end of the
    open time, None where its maker states none.
    """

    soonest_s: float
    waited_s: float
    sets_s: float | None

    @property
    def late(self) -> bool:
        """Whether the longest wait ends after the body has likely set."""
        return self.sets_s is not None and self.waited_s > self.sets_s

    @property
    def from_s(self) -> float:
        """When casting may begin: after the shortest wait, and no later than it must be done [s]."""
        return min(self.soonest_s, self.until_s)

    @property
    def until_s(self) -> float:
        """When casting must be done: with the wait, and with the open time where that ends first [s]."""
        return self.waited_s if self.sets_s is None else min(self.waited_s, self.sets_s)


def cast_window(*, handling: Handling, placing_s: float, floor_k: float, material_k: float) -> CastWindow | None:
    """When aggregate is cast into a mix.

    Parameters
    ----------
    handling : Handling
        The product's own times.
    placing_s : float [s]
        How long placing one mix takes.
    floor_k : float [K]
        Temperature of the floor when the mix is placed.
    material_k : float [K]
        Temperature of the material as mixed.

    Returns
    -------
    CastWindow or None
        Counted from the end of mixing; None where nothing is cast into it.

    Notes
    -----
    A wait counts from placing, the open time from the end of mixing. The open time is its likely figure here: the wet
    edge is judged by the low one. Where even the shortest wait ends after it, the window is its last instant alone.

    Examples
    --------
    Placed 216 s after mixing, a wait of 10 to 14 min, open for 17 min: 216 + 840 = 1,056 s is after 1,020 s.

    >>> from gaugerake.floor.cure.curve import TimePoint
    >>> stays = TimeCurve(points=(TimePoint(temperature_k=295, low_s=900, likely_s=1020, high_s=1200),))
    >>> wait = TimeCurve(points=(TimePoint(temperature_k=295, low_s=600, likely_s=720, high_s=840),))
    >>> handling = Handling(mixing_s=150, pour_within_s=120, roll_within_s=300, open_time=stays, broadcast_wait=wait)
    >>> window = cast_window(handling=handling, placing_s=96, floor_k=295, material_k=295)
    >>> round(window.from_s), round(window.waited_s), round(window.until_s), window.late
    (816, 1056, 1020, True)
    """
    wait = handling.broadcast_wait
    if wait is None:
        return None
    placed_s, stays, hotter_k = handling.pour_within_s + placing_s, handling.open_time, max(floor_k, material_k)
    return CastWindow(
        soonest_s=placed_s + time_at(wait, temperature_k=floor_k, column="low"),
        waited_s=placed_s + time_at(wait, temperature_k=floor_k, column="high"),
        sets_s=None if stays is None else time_at(stays, temperature_k=hotter_k, column="likely"),
    )


def clock_of_mix(
    *,
    number: int,
    room: int,
    last_room: int,
    mix_at_s: float,
    pace: Pace,
    handling: Handling,
    floor_k: Callable[[float], float],
    material_k: float,
) -> MixClock:
    """The instants of one mix from when it is started.

    Parameters
    ----------
    number : int
        Its number in the layer, from 1.
    room, last_room : int
        Where it begins, and where it runs on to.
    mix_at_s : float [s]
        When it is started.
    pace : Pace
        The pace of the room where it begins.
    handling : Handling
        The product's own times.
    floor_k : callable [K]
        The floor's temperature at an instant.
    material_k : float [K]
        Temperature of the material as mixed.

    Returns
    -------
    MixClock
        Mixed, poured, placed, rolled and broadcast, one after the other.

    Notes
    -----
    The edge stays wet for the open time counted from the end of mixing. The broadcast window is read at the floor's
    temperature when the mix is placed: the film takes the floor's heat within minutes. The window ends at the latest
    when the body has likely set (`cast_window`), as a set body holds no aggregate.

    Examples
    --------
    Mixed in 2½ minutes, poured within 2, placed in 1 min 36 s, rolled within 5.

    >>> pace = Pace(mix_area_m2=2.2, mixing_s=120, placing_s=96)
    >>> handling = Handling(mixing_s=150, pour_within_s=120, roll_within_s=300)
    >>> mix = clock_of_mix(number=1, room=0, last_room=0, mix_at_s=0, pace=pace, handling=handling,
    ...                    floor_k=lambda _: 295.0, material_k=295.0)
    >>> mix.pour_by_s, mix.placed_s, mix.roll_by_s
    (270, 366, 666)
    """
    mixed = mix_at_s + handling.mixing_s
    pour_by = mixed + handling.pour_within_s
    placed = pour_by + pace.placing_s
    temperature = floor_k(placed)
    wet = open_time_s(curve=handling.open_time, floor_k=temperature, material_k=material_k)
    cast = cast_window(handling=handling, placing_s=pace.placing_s, floor_k=temperature, material_k=material_k)
    return MixClock(
        number=number,
        room=room,
        last_room=last_room,
        mix_at_s=mix_at_s,
        pour_by_s=pour_by,
        placed_s=placed,
        roll_by_s=placed + handling.roll_within_s,
        wet_until_s=None if wet is None else mixed + wet,
        broadcast_from_s=None if cast is None else mixed + cast.from_s,
        broadcast_by_s=None if cast is None else mixed + cast.until_s,
    )


def mixes_of(
    *, stretches: Sequence[Stretch], handling: Handling, floor_k: Callable[[float], float], material_k: float
) -> Iterator[MixClock]:
    """Every mix of a layer in turn.

    Parameters
    ----------
    stretches : sequence of Stretch
        The layer's pour.
    handling : Handling
        The product's own times.
    floor_k : callable [K]
        The floor's temperature at an instant.
    material_k : float [K]
        Temperature of the material as mixed.

    Returns
    -------
    iterator of MixClock
        Made one at a time, so that a caller may stop where it likes.

    Examples
    --------
    >>> from gaugerake.floor.pour.edge import Lane
    >>> from gaugerake.floor.pour.windows import RoomPour, Stop
    >>> pace = Pace(mix_area_m2=2.2, mixing_s=120, placing_s=96)
    >>> pour = RoomPour(room=0, need_mixes=2.5, pace=pace, lane=Lane(width_m=6, depth_m=1))
    >>> part = Part(pour=pour, first_mix=1, last_mix=3, begins_s=0, ends_s=360, shares_first=False, used_mixes=0,
    ...             takes_mixes=2.5)
    >>> found = mixes_of(stretches=[Stretch(parts=(part,), stop=Stop.END)], material_k=295.0,
    ...                  handling=Handling(mixing_s=150, pour_within_s=120, roll_within_s=300), floor_k=lambda _: 295.0)
    >>> [mix.mix_at_s for mix in found]
    [0, 120, 240]
    """
    for stretch in stretches:
        for index, part in enumerate(stretch.parts):
            begun = part.first_mix + 1 if part.shares_first else part.first_mix
            at_s = stretch.parts[index - 1].ends_s if part.shares_first else part.begins_s
            cadence = part.pour.pace.cadence_s
            for number in range(begun, part.last_mix + 1):
                yield clock_of_mix(
                    number=number,
                    room=part.pour.room,
                    last_room=_runs_on_to(stretch.parts, index, number),
                    mix_at_s=at_s + (number - begun) * cadence,
                    pace=part.pour.pace,
                    handling=handling,
                    floor_k=floor_k,
                    material_k=material_k,
                )


def _runs_on_to(parts: Sequence[Part], index: int, number: int) -> int:
    """The last room that a mix reaches."""
    last = index
    if number == parts[index].last_mix:
        while last + 1 < len(parts) and parts[last + 1].first_mix <= number:
            last += 1
    return parts[last].pour.room
