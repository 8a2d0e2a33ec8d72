"""Counting up: whole mixes, pieces and batches, with a guard against float noise."""

from __future__ import annotations

import math

GUARD = 1e-9
"""The relative float noise that no verdict and no pack may depend on."""


def whole(count: float) -> int:
    """Round a need up to whole mixes, pieces or batches.

    Parameters
    ----------
    count : float
        What is needed, 0 or more.

    Returns
    -------
    int
        The least whole number that is not less, after a relative guard of 1e-9: float noise buys nothing.

    Examples
    --------
    >>> whole(9.000000000000002), whole(9.001), whole(0.0)
    (9, 10, 0)
    """
    return math.ceil(count * (1 - GUARD))
