"""Finds the smallest set of changes that reaches a goal together, where no single change does.

Each change is a ladder of steps, and a level says how many of them are taken. The search has three parts:

1. Take each change to its last step, and find the fewest changes that reach the goal (``fewest``).
2. Take all of these to the smallest common share of their ladders that still reaches it.
3. Lower one change after the other, until one step less of any of them would miss the goal (``least``).

The caller's ``does`` says whether levels reach the goal, and keeps count of how often it may be asked.
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


def fewest(does: Does, utmost: Levels) -> Levels | None:
    """The fewest changes that reach the goal at their last steps; None when all of them together do not.

    Of sets of the same size it is the first in the order of the changes.

    >>> fewest(lambda levels: levels[0] + levels[2] > 5, (4, 9, 3))
    (4, 0, 3)
    """
    for size in range(1, len(utmost) + 1):
        for chosen in combinations(range(len(utmost)), size):
            levels = tuple(most if index in chosen else 0 for index, most in enumerate(utmost))
            if does(levels):
                return levels
    return None


def least(does: Does, utmost: Levels) -> Levels:
    """Levels that reach the goal, where one step less of any would miss it; ``utmost`` must reach it.

    Of 4 and 9 steps, six sixteenths are 2 and 4 whole steps. That is the first share whose sum is over 5:

    >>> least(lambda levels: levels[0] + levels[1] > 5, (4, 9))
    (2, 4)
    """
    return _eased(does, _share(does, utmost))


def first_true(holds: Callable[[int], bool], most: int) -> int:
    """A level from 0 to ``most`` that holds and whose lower neighbour does not, found by halving.

    ``most`` must hold; it is not asked.

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


def nearest_true(holds: Callable[[int], bool], most: int) -> int:
    """The lowest level from 0 to ``most`` that holds, where every level above one that holds does too.

    ``most`` must hold; it is not asked. What is looked for is mostly low, so ever longer strides go up from 0, and the
    last of them is halved: fewer levels are asked than by halving them all.

    >>> asked = []
    >>> nearest_true(lambda level: asked.append(level) or level >= 2, 400), asked
    (2, [0, 1, 3, 2])
    """
    fails, found = -1, 0
    while found < most and not holds(found):
        fails, found = found, 2 * found + 1
    return fails + 1 + first_true(lambda above: holds(fails + 1 + above), min(found, most) - fails - 1)


def taken(ladders: Sequence[Sequence[T]], levels: Levels) -> list[T]:
    """The step of each change at its level; a change at level 0 has none.

    >>> taken(("ab", "xyz"), (0, 2))
    ['y']
    """
    return [steps[level - 1] for steps, level in zip(ladders, levels, strict=True) if level > 0]


def with_level(levels: Levels, index: int, level: int) -> Levels:
    """The levels with one of them changed."""
    return (*levels[:index], level, *levels[index + 1 :])


def _share(does: Does, utmost: Levels) -> Levels:
    """All changes at the smallest common share of their ladders that reaches the goal."""

    def at(share: int) -> Levels:
        return tuple(-(-most * share // SHARES) for most in utmost)

    return at(first_true(lambda share: does(at(share)), SHARES))


def _eased(does: Does, levels: Levels) -> Levels:
    """Lower each change as far as the goal allows, then step by step until no change can be lowered.

    One pass is not enough: lowering a later change can make room to lower an earlier one.
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
