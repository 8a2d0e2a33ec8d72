"""How maturity accrues on each piece of a log along which some is lost: all pieces at once, as arrays."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from gaugerake.floor.cure.accrual import FREEZING_K, Bounds, Mode
from gaugerake.floor.cure.course import SAME_TEMPERATURE_K

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]


class Hindered:
    """The modes of a log's pieces, of which the first and the last are without end.

    ``temperatures_k`` is a temperature within each piece [K], and ``bounds_s`` where one ends and the next begins [s].
    """

    __slots__ = ("_ends_s", "_frozen_ends_s", "_frozen_starts_s", "_modes")

    def __init__(self, bounds: Bounds, temperatures_k: Floats, bounds_s: Floats) -> None:
        self._modes = modes_of(bounds=bounds, temperatures_k=temperatures_k)
        self._ends_s = np.concatenate(([-math.inf], bounds_s, [math.inf]))
        frozen = self._modes == Mode.FROZEN.value
        self._frozen_starts_s, self._frozen_ends_s = self._ends_s[:-1][frozen], self._ends_s[1:][frozen]

    def among(self, *modes: Mode) -> Flags:
        """Which pieces between the first and the last are in some modes."""
        inner = self._modes[1:-1]
        found: Flags = np.logical_or.reduce([inner == mode.value for mode in modes])
        return found

    def spent_in(self, mode: Mode, from_s: float, until_s: float) -> float:
        """How long maturity accrues in one way between two instants [s]."""
        first, last = int(self._ends_s.searchsorted(from_s, "right")) - 1, int(self._ends_s.searchsorted(until_s))
        spent_s = np.minimum(self._ends_s[first + 1 : last + 1], until_s) - np.maximum(self._ends_s[first:last], from_s)
        return math.fsum(spent_s[self._modes[first:last] == mode.value].tolist())

    def frost(self, instant_s: float) -> float:
        """The first instant not before this one at which the floor is frozen; infinite when it never is."""
        index = int(self._frozen_ends_s.searchsorted(instant_s, "right"))
        return max(float(self._frozen_starts_s[index]), instant_s) if index < len(self._frozen_ends_s) else math.inf


def modes_of(*, bounds: Bounds, temperatures_k: Floats) -> np.ndarray[Any, np.dtype[np.int8]]:
    """The mode in which maturity accrues at each temperature: what ``Bounds.mode`` says, one after the other.

    Parameters
    ----------
    bounds : Bounds
        A product's limits.
    temperatures_k : numpy.ndarray [K]
        Temperatures of the floor.

    Returns
    -------
    numpy.ndarray
        The value of each ``Mode``.

    Examples
    --------
    >>> modes = modes_of(
    ...     bounds=Bounds(low_k=283.15, high_k=303.15), temperatures_k=np.array([270.0, 280.0, 290.0, 310.0])
    ... )
    >>> [Mode(value).name for value in modes.tolist()]
    ['FROZEN', 'STOPPED', 'ACCRUING', 'CAPPED']
    """
    found = np.full(len(temperatures_k), Mode.ACCRUING.value, dtype=np.int8)
    if bounds.high_k is not None:
        found[temperatures_k > bounds.high_k + SAME_TEMPERATURE_K] = Mode.CAPPED.value
    if bounds.low_k is not None:
        found[temperatures_k < bounds.low_k - SAME_TEMPERATURE_K] = Mode.STOPPED.value
    found[temperatures_k < FREEZING_K - SAME_TEMPERATURE_K] = Mode.FROZEN.value
    return found
