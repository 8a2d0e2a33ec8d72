"""Lays layers with a recoat window late, where that spares abrading them and delays no return.

A layer that is laid as soon as possible may stand longer than its window before the next one is down, and is then
abraded. Laid later, its window is still open. So where a run abrades a layer, this module searches for the last minute
at which that layer can begin without delaying a return and is not abraded, and lays it then. Returns are held
against those of a run in which the window never closes; where no begin is as good as that, against those of the run
that abrades.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import NamedTuple, Protocol, TypeVar

from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.schedule import SAME_INSTANT_S
from gaugerake.floor.clock.timetable import Returned, Step, StepKind
from gaugerake.floor.values.local_time import DAY_S

Held = Mapping[str, float]
"""When the work on a layer may begin at the soonest [s], by its id."""
Windows = frozenset[str]
"""Layers, by their ids, whose recoat window is taken as if it never closed."""


class Trial(Protocol):
    """What is read of a run: its steps (which may be made only when they are read), and its returns of traffic."""

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step in the order of the work."""

    @property
    def returns(self) -> tuple[Returned, ...]:
        """Every return."""


R = TypeVar("R", bound=Trial)
Forward = Callable[[Held, Windows], R]
"""A run with some layers held back, and some windows open."""
Begun = Callable[[int], Trial]
"""A run with a layer held back to a minute and its window open."""
Guess = Callable[[str, Trial], float | None]
"""About when a layer may begin at the latest [s] with no return later than in a run; None where there is no guess."""


class NextLayer(NamedTuple):
    """When the layer after one begins [s], infinite where it never does, and whether its work ``stands`` still.

    It does where the next layer waits for a shift or for warmth when the one under it has cured, or isn't laid in one
    go.
    """

    begins_s: float
    stands: bool


Following = Callable[[Held, Windows, str], NextLayer]
"""The layer after one, with some layers held back and some windows open."""
Opened = Callable[[float], float]
"""When the shift opened in which an instant lies [s]; before all time around the clock."""
MOST_SHIFTS_EARLIER = 4
"""How many shifts of the next layer are tried, the last one first."""
MOST_LATE_STEPS = 4_000
"""Of the clock's, for one run. Where they end, the layer is laid as soon as it can be, and abraded."""
FARTHEST_S = 14 * DAY_S
"""How far a layer is held back where the next one has no hours yet."""


def laid_late(*, forward: Forward[R], guess: Guess, following: Following, opened: Opened, budget: Budget) -> R:
    """The run of a plan, with as few layers abraded as cost no return.

    Parameters
    ----------
    forward : callable
        Runs the plan with layers held back and windows open; counts its steps in ``budget``.
    guess : callable
        Guesses the last begin of a layer, which is tried first. None where a layer may freeze, as a later begin may
        then be the better one.
    following : callable
        Runs the plan as far as the layer after one; counts its steps too.
    opened : callable
        Tells when the shift of an instant opened.
    budget : Budget
        The steps that may be taken.

    Returns
    -------
    Trial
        The run in which every layer begins as soon as it can, except those held back to spare abrading them.

    Notes
    -----
    Only by sparing abrading can a later begin make a return sooner, so the last begin is found by halving. It is found
    at once where the guess delays no return and a minute later does although nothing is abraded then: abrading only
    delays, so no still later begin can be in time. Where the layer is abraded even then, as a night or a day without a
    shift parts it from the next layer, it is tried a shift of the next layer earlier, and so on.

    Examples
    --------
    A run that abrades nothing is left as it is.

    >>> from gaugerake.floor.clock.timetable import Run
    >>> soonest = Run(column="likely", start_s=0.0, steps=(), returns=())
    >>> laid_late(forward=lambda held, open_windows: soonest, guess=lambda layer, run: None,
    ...           following=lambda held, open_windows, layer: NextLayer(0.0, stands=False),
    ...           opened=lambda at_s: 0.0, budget=Budget(MOST_LATE_STEPS)) == soonest
    True
    """
    held: dict[str, float] = {}
    tried: set[str] = set()
    found = forward({}, frozenset())
    while (layer := next((name for name in _abraded(found) if name not in tried), None)) and budget.allows():
        tried.add(layer)
        later = _later(forward, guess, following, opened, found, layer, held, budget)
        if later is not None:
            found, held = later
    return found


def _abraded(found: Trial) -> list[str]:
    """The layers that are abraded, in the order of the work."""
    abrading = (step for step in found.steps if step.kind is StepKind.ABRADE and step.placed is not None)
    return [step.layer for step in abrading if step.layer is not None]


def _later(
    forward: Forward[R],
    guess: Guess,
    following: Following,
    opened: Opened,
    found: R,
    layer: str,
    held: dict[str, float],
    budget: Budget,
) -> tuple[R, dict[str, float]] | None:
    """The run with a layer laid as late as delays no return, and the layers held back in it.

    None where the layer is still abraded, or another one that is held back already. None too where the run that abrades
    is the sooner one, as abrading one layer may spare abrading the next.
    """

    def open_from(minute: int) -> R:
        return forward({**held, layer: minute * 60.0}, frozenset({layer}))

    def next_from(minute: int) -> NextLayer:
        return following({**held, layer: minute * 60.0}, frozenset({layer}), layer)

    unabraded = forward(held, frozenset({layer}))
    for no_later_than in (unabraded,) if _in_time(found, unabraded) else (unabraded, found):
        last_s = _last_begin(open_from, guess(layer, no_later_than), found, layer, no_later_than, budget)
        for _ in range(MOST_SHIFTS_EARLIER):
            if last_s is None:
                break
            late = {**held, layer: last_s}
            run = forward(late, frozenset())
            if late.keys().isdisjoint(_abraded(run)) and _in_time(run, no_later_than) and _in_time(run, found):
                return run, late
            last_s = _last_a_shift_earlier(next_from, opened, _begins(found, layer), last_s, budget)
    return None


def _last_a_shift_earlier(
    next_from: Callable[[int], NextLayer], opened: Opened, soonest_s: float, last_s: float, budget: Budget
) -> float | None:
    """The last whole minute before ``last_s`` from which the next layer begins in an earlier shift than from there.

    Within one shift of the next layer nothing earlier spares what ``last_s`` does not: the layer would stand as long or
    longer. Nor does an earlier shift where the next layer goes on as soon as this one has cured, and in one go.
    """
    last = math.floor(last_s / 60)
    begins_s, stands = next_from(last)
    opens_s = opened(begins_s)
    if not stands or opens_s <= soonest_s:
        return None
    fits, fails = math.floor(soonest_s / 60), last
    while fails - fits > 1:
        if not budget.allows():
            return None
        middle = (fits + fails) // 2
        if next_from(middle).begins_s < opens_s:
            fits = middle
        else:
            fails = middle
    return fits * 60.0 if fits * 60.0 > soonest_s else None


def _last_begin(
    begun: Begun, guess_s: float | None, found: Trial, layer: str, no_later_than: Trial, budget: Budget
) -> float | None:
    """The last whole minute to which a layer can be held back; None where the search ended first."""
    soonest_s = _begins(found, layer)
    returns_s = [one.at_s for one in no_later_than.returns if one.at_s is not None]
    fits, fails = math.floor(soonest_s / 60), math.ceil(max(returns_s, default=_next_begins(found, layer)) / 60)
    if not returns_s:  # nothing is later than never
        fits = fails - 1
    guess = None if guess_s is None else math.floor((guess_s + SAME_INSTANT_S) / 60)
    if guess is not None and fits < guess < fails and _is_last(begun, guess, no_later_than, budget):
        return guess * 60.0
    while fails - fits > 1:
        if not budget.allows():
            return None
        middle = (fits + fails) // 2
        if _in_time(begun(middle), no_later_than):
            fits = middle
        else:
            fails = middle
    return fits * 60.0 if fits * 60.0 > soonest_s else None


def _is_last(begun: Begun, minute: int, no_later_than: Trial, budget: Budget) -> bool:
    """Whether a minute is surely the last to begin at; False where two runs do not show it."""
    if not budget.allows():
        return False
    later = begun(minute + 1)
    if _in_time(later, no_later_than) or _abraded(later) or not budget.allows():
        return False
    return _in_time(begun(minute), no_later_than)


def _begins(found: Trial, layer: str) -> float:
    placed = next(step.placed for step in found.steps if step.kind is StepKind.APPLY and step.layer == layer)
    assert placed is not None  # what is abraded has been laid
    return placed.from_s


def _next_begins(found: Trial, layer: str) -> float:
    """When the layer after one that is abraded begins; where it has no hours, some days later."""
    at = next(at for at, step in enumerate(found.steps) if step.kind is StepKind.ABRADE and step.layer == layer)
    abrading, after = found.steps[at].placed, found.steps[at + 1].placed
    assert abrading is not None
    return abrading.until_s + FARTHEST_S if after is None else after.from_s


def _in_time(run: Trial, no_later_than: Trial) -> bool:
    """Whether no return of a run is later than the same of another."""
    pairs = zip(run.returns, no_later_than.returns, strict=True)
    return all(_at(one.at_s) <= _at(other.at_s) for one, other in pairs)


def _at(at_s: float | None) -> float:
    return math.inf if at_s is None else at_s
