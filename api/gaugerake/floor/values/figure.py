"""A figure: an SI number together with what kind of thing it measures, ready to be shown in the reader's units."""

from decimal import Decimal
from typing import NamedTuple


class Figure(NamedTuple):
    """A number in SI and its kind.

    The kind chooses the unit in which people see it: ``length`` (ft or m), ``small-length`` (in or mm), ``film``
    (mil or um), ``area``, ``small-area``, ``volume`` (ft3 or L), ``liquid`` (gal or L), ``mass``, ``small-mass``,
    ``pressure``, ``temperature``, ``temperature-difference``, ``duration`` (h), ``minutes``, ``days``,
    ``spreading-rate``, ``areal-mass``, ``moisture-emission``, ``area-rate``, ``mix``, ``piece``, ``percent``,
    ``csp``, ``ph``, ``count``. The base units are m, m², m³, kg, Pa, K, s and what is made of them (a spreading rate
    is m²/m³, an emission kg/(m²·s)); percent, CSP, pH and counts are plain numbers.

    Examples
    --------
    >>> Figure(0.0047625, "small-length")
    Figure(value=0.0047625, kind='small-length')
    """

    value: float
    kind: str


class Rate(NamedTuple):
    """Money for each square metre, with its currency and the digits of its minor unit; shown by the reader's area.

    Examples
    --------
    >>> Rate(Decimal("34.5"), "USD", 2)
    Rate(amount_m2=Decimal('34.5'), currency='USD', digits=2)
    """

    amount_m2: Decimal
    currency: str
    digits: int
