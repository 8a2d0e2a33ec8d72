"""How the cost of a call grows with what it is given: twice as much may cost twice as much, and never four times."""

import gc
from collections.abc import Callable
from statistics import median
from time import process_time_ns

MOST_RATIO = 3.0
"""Between 2, of what is linear, and 4, of what is quadratic."""

ROUNDS = 7
_NOISE_NS = 200_000
"""Added to both times, so that what takes no time to speak of has no ratio. Quadratic backtracking over 4,000
characters takes a hundred times as long."""

Call = Callable[[], object]


def ratio(once: Call, twice: Call) -> float:
    """What ``twice`` costs over what ``once`` does; the median of several where the first look is not good enough."""
    found = _ratio(once, twice)
    return found if found < MOST_RATIO else median(_ratio(once, twice) for _ in range(ROUNDS))


def _ratio(once: Call, twice: Call) -> float:
    first, second = _cost_ns(once), _cost_ns(twice)
    return (second + _NOISE_NS) / (first + _NOISE_NS)


def _cost_ns(call: Call) -> int:
    """Processor time, as other processes run beside; without collections of garbage, which come by chance."""
    gc.disable()
    try:
        began = process_time_ns()
        call()
        return process_time_ns() - began
    finally:
        gc.enable()
