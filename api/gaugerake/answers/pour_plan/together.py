"""Changes of a pour that free it together where none does alone: the fewest, and the least of each.

What is changed is tried at its utmost first: if that does not free the pour, nothing does. Then the fewest changes are
kept that still free it, taken as far as they must be if all go the same share of their way, and each is eased in turn
until one step less of it would lose an edge.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import reduce
from itertools import combinations

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.change import AnyRemedy, Try, together
from gaugerake.answers.pour_plan.search import Search
from gaugerake.floor.job import Work

MOST_ASKED = 200
"""How often the timetable may be run again for changes that go together."""
FEWEST_ASKED = 30
"""With fewer, nothing would come of it: a job of very many rooms on a floor that warms and cools is not asked about."""
SHARES = 16

Steps = tuple[Try, ...]
Levels = tuple[int, ...]
"""How many steps of each change are taken."""


def together_with(search: Search, bases: Iterable[Try], changes: Sequence[Steps]) -> AnyRemedy | None:
    """The first of ``bases`` with which some of ``changes`` free the pour, and the least of these that do."""
    trials = _Trials(search)
    return next((found for base in bases if (found := _least(trials, (base,), changes)) is not None), None)


def together_alone(search: Search, changes: Sequence[Steps]) -> AnyRemedy | None:
    """The fewest of ``changes`` that free the pour together, and the least of these that do."""
    return _least(_Trials(search), (), changes)


class _Trials:
    """Tries works, as often as it may."""

    def __init__(self, search: Search) -> None:
        left = search.asks(MOST_ASKED)
        self._search, self._left = search, left if search.steady or left >= FEWEST_ASKED else 0

    def frees(self, tries: Iterable[Try]) -> bool:
        """Whether no edge is lost with all of these; False where that may no longer be asked.

        On a floor of one temperature the hours do not matter, and the timetable need not be run.
        """
        changed = self._search.changed(reduce(_applied, tries, self._search.work))
        if not self._search.budget.allows() or not self._search.could_hold(changed):
            return False
        return self._search.steady or self._asked(changed)

    def confirms(self, tries: Iterable[Try]) -> bool:
        """Whether the timetable has hours for what was found, and it is the least: nothing was left unasked."""
        return self._asked(self._search.changed(reduce(_applied, tries, self._search.work)))

    def _asked(self, changed: ResolvedJob) -> bool:
        if self._left == 0:
            self._search.left_unasked = True
            return False
        self._left -= 1
        return self._search.holds(changed)


def _applied(work: Work, attempt: Try) -> Work:
    return attempt.change(work)


def _least(trials: _Trials, base: tuple[Try, ...], changes: Sequence[Steps]) -> AnyRemedy | None:
    changes = [steps for steps in changes if steps]

    def frees(levels: Levels) -> bool:
        return trials.frees((*base, *_taken(changes, levels)))

    utmost = tuple(len(steps) for steps in changes)
    if not frees(utmost):
        return None
    parts = (*base, *_taken(changes, _eased(frees, _share(frees, _fewest(frees, utmost)))))
    if not trials.confirms(parts):  # False too where the search ended, and what was found may not be the least
        return None
    return parts[0].remedy if len(parts) == 1 else together([part.remedy for part in parts])


def _taken(changes: Sequence[Steps], levels: Levels) -> list[Try]:
    return [steps[level - 1] for steps, level in zip(changes, levels, strict=True) if level > 0]


def _fewest(frees: Callable[[Levels], bool], utmost: Levels) -> Levels:
    """The fewest changes at their utmost that free the pour; of as many, the first in their order."""
    for size in range(1, len(utmost)):
        for chosen in combinations(range(len(utmost)), size):
            levels = tuple(most if index in chosen else 0 for index, most in enumerate(utmost))
            if frees(levels):
                return levels
    return utmost


def _share(frees: Callable[[Levels], bool], utmost: Levels) -> Levels:
    """All of them at the least share of their way that frees the pour."""

    def at(share: int) -> Levels:
        return tuple(-(-most * share // SHARES) for most in utmost)

    return at(_first_true(lambda share: frees(at(share)), SHARES))


def _eased(frees: Callable[[Levels], bool], levels: Levels) -> Levels:
    """Each one in turn at its least, until a step less of any would lose an edge."""
    for index in range(len(levels)):
        levels = _with(levels, index, _first_true(_on_its_own(frees, levels, index), levels[index]))
    for index in range(len(levels)):
        while levels[index] > 0 and frees(less := _with(levels, index, levels[index] - 1)):
            levels = less
    return levels


def _on_its_own(frees: Callable[[Levels], bool], levels: Levels, index: int) -> Callable[[int], bool]:
    return lambda level: frees(_with(levels, index, level))


def _with(levels: Levels, index: int, level: int) -> Levels:
    return (*levels[:index], level, *levels[index + 1 :])


def _first_true(holds: Callable[[int], bool], most: int) -> int:
    """A level from 0 to ``most`` that holds while the one before it does not, by halving; ``most`` is known to."""
    fails, found = -1, most
    while found - fails > 1:
        middle = (fails + found) // 2
        if holds(middle):
            found = middle
        else:
            fails = middle
    return found
