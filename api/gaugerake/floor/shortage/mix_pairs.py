"""The pairs of a layer and a whole number that count its mixes: where each stops to count."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from gaugerake.floor.shortage.triangular import Floats
from gaugerake.floor.values.range import Triple


class Pairs:
    """The pairs (layer, m) of one product that may or may not count: (v·f + c) / y > m.

    ``base`` pairs count at every yield and factor; ``count`` more may.
    """

    def __init__(
        self, *, varying: Sequence[float], fixed: Sequence[float], yields: Triple, reach_fraction: float
    ) -> None:
        self.varying, self.fixed, self.yields = np.array(varying), np.array(fixed), yields
        self._reach_fraction = reach_fraction
        sizes = list(zip(varying, fixed, strict=True))
        least = [(v * (1 - reach_fraction) + c) / yields.high for v, c in sizes]
        most = [(v * (1 + reach_fraction) + c) / yields.low for v, c in sizes]
        self.first = [max(1, math.floor(mixes)) for mixes in least]
        self.spans = [max(1, math.ceil(mixes) - low + 1) for low, mixes in zip(self.first, most, strict=True)]
        self.base, self.count = sum(self.first), sum(self.spans)

    def jumps(self, most: int) -> list[float]:
        """The yields at which a layer takes a mix more or less; of more than ``most`` in a layer, some.

        Where its volume varies with the thickness, the jump moves with it: there these are the yields of the thinnest,
        the mean and the thickest floor. Those of the layer that varies most are left out: there the thickness smooths
        them away.
        """
        smoothed = int(self.varying.argmax())
        found: list[float] = []
        for place, (first, span) in enumerate(zip(self.first, self.spans, strict=True)):
            if place != smoothed:
                step = max(1, span * (len(self.spans) - 1) // most)
                counts = np.arange(first, first + span, step)
                found += [jump for size in self._sizes(place) for jump in (size / counts).tolist()]
        return found

    def _sizes(self, place: int) -> list[float]:
        """The volume of a layer on the thinnest, the mean and the thickest floor; one where it does not vary."""
        varying, fixed = float(self.varying[place]), float(self.fixed[place])
        factors = (1 - self._reach_fraction, 1.0, 1 + self._reach_fraction) if varying else (1.0,)
        return [varying * factor + fixed for factor in factors]

    def _columns(self) -> tuple[Floats, Floats, Floats]:
        """Each pair's m and its layer's two volumes."""
        m = [np.arange(low, low + span, dtype=float) for low, span in zip(self.first, self.spans, strict=True)]
        return np.concatenate(m), np.repeat(self.varying, self.spans), np.repeat(self.fixed, self.spans)

    def first_yields(self, factors: Floats) -> Floats:
        """The yield up to which each pair counts, a row for each factor."""
        m, v, c = self._columns()
        ends: Floats = (v * factors[:, None] + c) / m
        return ends

    def last_factors(self, yields: Floats) -> Floats:
        """The factor beyond which each pair counts, a row for each yield; ±∞ in a layer without thickness."""
        m, v, c = self._columns()
        return _ends(m * yields[:, None] - c, v)

    def in_turn(self, chances: Floats) -> Floats:
        """The pairs of each row in the order in which they stop to count; those of one layer are so already."""
        return chances if len(self.first) == 1 else np.sort(chances, axis=1)

    def first_yield(self, count: int, factors: Floats) -> Floats:
        """The yield from which on ``count`` mixes suffice, at each factor."""
        sizes = self.varying * factors[:, None] + self.fixed
        layers = len(self.first)
        at_most = sizes.sum(axis=1) / max(count - layers, 0.5)  # with this yield the mixes are sure to suffice
        start = np.floor(sizes / at_most[:, None])
        m = start[:, :, None] + np.arange(layers + 3)
        ends = sizes[:, :, None] / np.maximum(m, 1e-9)
        descending = -np.sort(-ends.reshape(len(factors), -1), axis=1)
        return _picked(descending, count - start.sum(axis=1))

    def last_factor(self, count: int, yields: Floats) -> Floats:
        """The factor up to which ``count`` mixes suffice, at each yield."""
        layers = len(self.first)
        sure = np.maximum(((count - layers) * yields - self.fixed.sum()) / self.varying.sum(), 0.0)
        start = np.floor((self.varying * sure[:, None] + self.fixed) / yields[:, None])
        m = start[:, :, None] + np.arange(layers + 3)
        ends = _ends(m * yields[:, None, None] - self.fixed[:, None], np.broadcast_to(self.varying[:, None], m.shape))
        return _picked(np.sort(ends.reshape(len(yields), -1), axis=1), count - start.sum(axis=1))


def _ends(room: Floats, v: Floats) -> Floats:
    flat = v == 0
    if not flat.any():
        return room / v
    return np.where(flat, np.where(room >= 0, math.inf, -math.inf), room / np.where(flat, 1.0, v))


def _picked(ordered: Floats, place: Floats) -> Floats:
    """The value of each row at a place of its own; −∞ for a place before the first."""
    index = place.astype(np.int64)
    found: Floats = np.take_along_axis(ordered, np.maximum(index, 0)[:, None], axis=1)[:, 0]
    return np.where(index < 0, -math.inf, found)
