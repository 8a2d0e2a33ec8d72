"""A figure: an SI number together with what kind of thing it measures, ready to be shown in the reader's units."""

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
