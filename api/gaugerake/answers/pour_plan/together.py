"""Combined remedies of a pour: the fewest changes that make its edges hold together, and the least of each.

`return_times.least` tells how they are found. A cooler floor goes no further than it breaks nothing by itself, such as
the deadline or the spread above the dew point.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from gaugerake.answers.pour_plan.change import AnyRemedy, PourRemedy, Try, together
from gaugerake.answers.pour_plan.new_edges import with_new_edges
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.return_times.least import Levels, fewest, first_true, least, taken
from gaugerake.floor.job import Work

MOST_ASKED = 200
"""How often the timetable may be run again for changes that go together."""
FEWEST_ASKED = 30
"""With fewer runs the search could not end, so none is made: a job of very many rooms on a changing floor."""

Steps = tuple[Try, ...]


def together_with(search: Search, bases: Iterable[Try], changes: Sequence[Steps]) -> AnyRemedy | None:
    """The first of ``bases`` with which some of ``changes`` free the pour, and the least of these that do."""
    trials = _Trials(search)
    return next((found for base in bases if (found := _least(trials, (base,), changes)) is not None), None)


def together_alone(search: Search, changes: Sequence[Steps]) -> AnyRemedy | None:
    """The fewest of ``changes`` that free the pour together, and the least of these that do."""
    return _least(_Trials(search), (), changes)


def kept_steps(search: Search, steps: Iterable[Try]) -> Steps:
    """The steps before the first that breaks something beside the edge; each breaks no less than the one before it."""
    listed = tuple(steps)

    def breaks(level: int) -> bool:
        return level == len(listed) or not search.keeps(listed[level].change(search.work))

    return listed[: first_true(breaks, len(listed))] if listed and breaks(len(listed) - 1) else listed


class _Trials:
    """Tries works, as often as it may."""

    def __init__(self, search: Search) -> None:
        left = search.asks(MOST_ASKED)
        self._search, self._left = search, left if search.steady or left >= FEWEST_ASKED else 0
        self._timeless = search.steady and not search.depends_on_time

    def frees(self, tries: Iterable[Try]) -> bool:
        """Whether no edge is lost with all of these; False where that may no longer be asked.

        On a floor of one temperature the hours do not matter, and without a deadline the timetable need not be run.
        """
        work = reduce(_applied, tries, self._search.work)
        if not self._search.budget.allows() or not self._search.could_hold(work):
            return False
        return self._timeless or self._asked(work)

    def confirms(self, tries: Iterable[Try]) -> bool:
        """Whether the timetable has hours for what was found, and it is the least: nothing was left unasked."""
        return self._asked(reduce(_applied, tries, self._search.work))

    def finished(self, parts: Iterable[Try]) -> list[PourRemedy]:
        """What was found, with all that is said of it."""
        return [with_new_edges(self._search, part.remedy) for part in parts]

    def _asked(self, work: Work) -> bool:
        if self._left == 0:
            self._search.left_unasked = True
            return False
        self._left -= 1
        return self._search.holds(work)


def _applied(work: Work, attempt: Try) -> Work:
    return attempt.change(work)


def _least(trials: _Trials, base: tuple[Try, ...], changes: Sequence[Steps]) -> AnyRemedy | None:
    changes = [steps for steps in changes if steps]

    def frees(levels: Levels) -> bool:
        return trials.frees((*base, *taken(changes, levels)))

    utmost = tuple(len(steps) for steps in changes)
    chosen = fewest(frees, utmost) if frees(utmost) else None
    if chosen is None:
        return None
    parts = (*base, *taken(changes, least(frees, chosen)))
    if not trials.confirms(parts):  # False too where the search ended, and what was found may not be the least
        return None
    remedies = trials.finished(parts)
    return remedies[0] if len(remedies) == 1 else together(remedies)
