"""The fewest of several changes that do together what none does alone, and the least of each.

Each change is a ladder of steps; how far each is taken are the levels. The fewest that do it, each as far as it may
go, are brought to the least share of their way that does, and each is eased in turn until one step less of any no
longer does. What does it is asked of the caller, as often as its budget allows.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from typing import TypeVar

SHARES = 16
T = TypeVar("T")

Levels = tuple[int, ...]
"""How many steps of each change are taken."""
Does = Callable[[Levels], bool]


def fewest(does: Does, utmost: Levels, *, at_least: int = 1) -> Levels | None:
    """The fewest changes, each as far as it goes, that do it; of as many, the first in their order.

    >>> fewest(lambda levels: levels[0] + levels[2] > 5, (4, 9, 3))
    (4, 0, 3)
    """
    for size in range(at_least, len(utmost) + 1):
        for chosen in combinations(range(len(utmost)), size):
            levels = tuple(most if index in chosen else 0 for index, most in enumerate(utmost))
            if does(levels):
                return levels
    return None


def least(does: Does, utmost: Levels) -> Levels:
    """The least levels that do it, where ``utmost`` does: one step less of any does not.

    Six sixteenths of 4 and of 9 steps are 2 and 4 whole ones, and the first share whose sum is over 5:

    >>> least(lambda levels: levels[0] + levels[1] > 5, (4, 9))
    (2, 4)
    """
    return _eased(does, _share(does, utmost))


def first_true(holds: Callable[[int], bool], most: int) -> int:
    """A level from 0 to ``most`` that holds while the one before it does not, by halving; ``most`` is known to.

    >>> first_true(lambda level: level >= 7, 40)
    7
    """
    fails, found = -1, most
    while found - fails > 1:
        middle = (fails + found) // 2
        if holds(middle):
            found = middle
        else:
            fails = middle
    return found


def taken(ladders: Sequence[Sequence[T]], levels: Levels) -> list[T]:
    """The step of each change at its level; none of one that is not taken.

    >>> taken(("ab", "xyz"), (0, 2))
    ['y']
    """
    return [steps[level - 1] for steps, level in zip(ladders, levels, strict=True) if level > 0]


def with_level(levels: Levels, index: int, level: int) -> Levels:
    """The levels with one of them changed."""
    return (*levels[:index], level, *levels[index + 1 :])


def _share(does: Does, utmost: Levels) -> Levels:
    """All of them at the least share of their way that does it."""

    def at(share: int) -> Levels:
        return tuple(-(-most * share // SHARES) for most in utmost)

    return at(first_true(lambda share: does(at(share)), SHARES))


def _eased(does: Does, levels: Levels) -> Levels:
    """Each one in turn at its least, again and again until a step less of any does not do it.

    One pass is not enough where what is eased last makes room for what was eased first.
    """
    for index in range(len(levels)):
        levels = with_level(levels, index, first_true(_on_its_own(does, levels, index), levels[index]))
    while (less := _one_step_less(does, levels)) is not None:
        levels = less
    return levels


def _one_step_less(does: Does, levels: Levels) -> Levels | None:
    for index, level in enumerate(levels):
        if level > 0 and does(less := with_level(levels, index, level - 1)):
            return less
    return None


def _on_its_own(does: Does, levels: Levels, index: int) -> Callable[[int], bool]:
    return lambda level: does(with_level(levels, index, level))
