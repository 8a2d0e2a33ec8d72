"""The need of a layer from what it covers or holds: likely, and at either end of its product's range."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from gaugerake.floor.layers.trace import StatedBy
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import whole

_OPPOSITE = {"low": "high", "likely": "likely", "high": "low"}


class Quantity(NamedTuple):
    """What a layer covers [m² or m] or holds [m³] in one room, without waste.

    ``varying`` is the part that the job's thickness factor touches, ``fixed`` the rest.
    """

    varying: float
    fixed: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion:
    """How a quantity becomes a need: divided by ``rate``, or multiplied with it where it ``multiplies``.

    ``name`` and ``figure`` are the rate's name and kind of figure in the working, ``rule`` the code of its sentence.
    """

    rate: Triple
    name: str
    figure: Kind
    rule: str
    stated_by: StatedBy
    multiplies: bool = False

    def rate_for(self, column: str) -> float:
        """The rate that gives a column of the need: where it divides, the high one gives the low need."""
        return self.rate.column(column if self.multiplies else _OPPOSITE[column])


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What makes a layer's need uncertain: ``(varying · f + fixed) / divisor · multiplier``, rounded up to ``step``.

    ``varying`` and ``fixed`` are in the unit that the layer is measured in (m³ of what it holds or m² of what it
    covers), waste included; ``f`` is the job's one thickness factor: it multiplies area × thickness of a body, and not
    its keyways and profile.
    ``divisor`` is a mix's yield [m³] or a spreading rate [m²/m³], ``multiplier`` a broadcast rate [kg/m²]; None is 1.
    ``step`` is 1 for whole mixes, the smallest batch, or None where it is measured out.
    """

    varying: float
    fixed: float
    divisor: Triple | None = None
    multiplier: Triple | None = None
    step: float | None = None

    @staticmethod
    def of(
        parts: Sequence[Quantity], *, waste_fraction: float, conversion: Conversion | None, step: float | None
    ) -> Demand:
        """The demand of what a layer covers or holds in each room."""
        rate = None if conversion is None else conversion.rate
        multiplies = conversion is not None and conversion.multiplies
        return _make_demand(
            varying=math.fsum([part.varying for part in parts]) * (1 + waste_fraction),
            fixed=math.fsum([part.fixed for part in parts]) * (1 + waste_fraction),
            divisor=None if multiplies else rate,
            multiplier=rate if multiplies else None,
            step=step,
        )

    @property
    def quantity(self) -> float:
        """What is covered or held, waste included."""
        return self.varying + self.fixed


_make_demand = maker(Demand)


_ONE = Triple(low=1.0, likely=1.0, high=1.0)
_make_triple = maker(Triple)


def needed(demand: Demand) -> Triple:
    """Give the need that a demand makes, thickness as asked.

    Parameters
    ----------
    demand : Demand
        Quantity with waste, its divisor (a mix's yield, a spreading rate) and multiplier (a broadcast's rate).

    Returns
    -------
    Triple
        In the product's base quantity, not rounded: low with the high yield, high with the low one.

    Examples
    --------
    >>> yields = Triple(low=0.01, likely=0.0125, high=0.02)
    >>> needed(Demand(varying=0.9, fixed=0.1, divisor=yields, step=1))
    Triple(low=50.0, likely=80.0, high=100.0)
    """
    quantity = demand.varying + demand.fixed
    divisor, multiplier = demand.divisor or _ONE, demand.multiplier or _ONE
    return _make_triple(
        low=quantity / divisor.high * multiplier.low,
        likely=quantity / divisor.likely * multiplier.likely,
        high=quantity / divisor.low * multiplier.high,
    )


def rounded(*, need: float, step: float | None) -> float:
    """Round a need up to what is used up when mixes or smallest batches are never split.

    Parameters
    ----------
    need : float
        In the product's base quantity.
    step : float or None
        1 for whole mixes, the smallest batch, or None where it is measured out.

    Returns
    -------
    float
        The least multiple of the step that is not less (after a relative guard of 1e-9).

    Examples
    --------
    >>> rounded(need=6.1, step=2.0), rounded(need=6.1, step=None)
    (8.0, 6.1)
    """
    return need if step is None else whole(need / step) * step
