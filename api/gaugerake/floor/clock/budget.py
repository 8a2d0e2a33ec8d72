"""How many steps a search may take: counted and not timed, so that an answer depends on its job alone."""

from __future__ import annotations

import math


class Budget:
    """The steps that are left to a search, each about as much work as finding the hours of one room.

    A step is one stretch of open hours looked at, or one room's wet edge judged. Ordinary jobs take some thousands.
    ``ended`` tells whether a search wanted to go on when no steps were left; its answer then says so. What is ``spent``
    of a budget ``within`` another is spent of that one too.

    Examples
    --------
    >>> budget = Budget(2)
    >>> budget.allows(), budget.ended
    (True, False)
    >>> budget.spend(3)
    >>> budget.allows(), budget.ended
    (False, True)
    """

    __slots__ = ("_most", "_within", "ended", "spent")

    def __init__(self, most: float = math.inf, *, within: Budget | None = None) -> None:
        self._most, self._within = most, within
        self.spent = 0
        self.ended = False

    def spend(self, steps: int) -> None:
        """Count steps that were taken."""
        self.spent += steps
        if self._within is not None:
            self._within.spend(steps)

    def allows(self) -> bool:
        """Whether the search may go on."""
        self.ended |= self.spent >= self._most
        return not self.ended
