"""When work that is under way ends, within the hours that people work."""

from __future__ import annotations

from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import DAY_S

FARTHEST_S = 366 * DAY_S
"""Nothing further ahead is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """When work ends [s]; ``shift_ends_s`` is the end of the shift that it would not be done in, None where it is."""

    at_s: float
    shift_ends_s: float | None


def work_ending(*, hours: OpenHours, from_s: float, work_s: float) -> Ending | None:
    """Say when work that goes on at an instant ends.

    Parameters
    ----------
    hours : OpenHours
        When people work.
    from_s : float [s]
        The instant at which it goes on.
    work_s : float [s]
        How much of it is left.

    Returns
    -------
    Ending or None
        Where the instant lies outside of the hours, the crew stays until the work is done. None more than a year ahead.

    Examples
    --------
    >>> from gaugerake.floor.clock.shifts import RoundTheClock
    >>> work_ending(hours=RoundTheClock(), from_s=1000.0, work_s=500.0)
    Ending(at_s=1500.0, shift_ends_s=None)
    """
    shift_ends_s: float | None = None
    for begins_s, ends_s in hours.since(from_s):
        if begins_s > from_s and shift_ends_s is None:
            return Ending(at_s=from_s + work_s, shift_ends_s=None) if work_s <= FARTHEST_S else None
        done_s = max(begins_s, from_s) + work_s
        if done_s > from_s + FARTHEST_S:
            return None
        if done_s <= ends_s:
            return Ending(at_s=done_s, shift_ends_s=shift_ends_s)
        shift_ends_s = ends_s if shift_ends_s is None else shift_ends_s
        work_s = done_s - ends_s
    return None
