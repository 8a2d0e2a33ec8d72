"""One stage of a run: the slab made ready, or a layer with what goes before and after it, from a state to the next.

A stage depends on nothing but its work, the state that it is begun in, and the site; so it may be kept and repeated.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from gaugerake.floor.clock.schedule import ANY_TEMPERATURE, SAME_INSTANT_S, Placed, Site, joined
from gaugerake.floor.clock.timetable import Cause, LayerWork, Plan, Step, StepKind
from gaugerake.floor.cure.curve import Column, TimeCurve, time_at
from gaugerake.floor.cure.maturity import Milestone, milestone
from gaugerake.floor.values.frozen import dataclass, maker, replace
from gaugerake.floor.values.range import Limits

STEPS_OF_A_CURE = 3
"""What it takes to find when one ends, beside the hours of a room."""

_make_step = maker(Step)


@dataclass(frozen=True, slots=True)
class Ready:
    """When the next step may begin [s] (None: never), and what it waits for until then, of which layer."""

    at_s: float | None
    cause: Cause
    awaited: str | None


@dataclass(frozen=True, slots=True)
class State:
    """What the rest of a run depends on.

    ``under`` is the layer that the next one bonds to and when its work began [s]. Returns count from
    ``counted_from_s``, the end of the work that they count from, and none is before ``cleared_s``, when the last loose
    aggregate is cleared (infinite: never). ``ruined`` tells whether a layer froze.
    """

    ready: Ready
    under: tuple[LayerWork, float] | None = None
    counted_from_s: float | None = None
    cleared_s: float = -math.inf
    ruined: bool = False


Listing = Callable[[], tuple[Step, ...]]
"""Makes steps of work that has its hours."""


class Worked:
    """A stage that was worked: its steps, made when they are first read, and the state after it.

    Steps are made late because most runs of a search are read only for their returns of traffic. ``window_asked`` tells
    whether the stage might be too late for the recoat window of the layer under it; if not, it is the same stage
    whether that window can close or not.
    """

    __slots__ = ("_listings", "_steps", "state", "window_asked")

    def __init__(self, listings: Sequence[Listing], state: State, *, window_asked: bool = False) -> None:
        self._listings, self.state, self.window_asked = listings, state, window_asked
        self._steps: tuple[Step, ...] | None = None

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps in the order of the work."""
        if self._steps is None:
            self._steps = tuple([step for listing in self._listings for step in listing()])
        return self._steps


class Stages:
    """Works the stages of runs at one site, on one column of the makers' times."""

    def __init__(self, *, site: Site, column: Column) -> None:
        self._site, self._column = site, column

    def slab(self, state: State, plan: Plan) -> Worked:
        """Prepare the slab and saw its keyways."""
        listings: list[Listing] = []
        ready = state.ready
        for kind, work_s in ((StepKind.PREPARE, plan.preparation_s), (StepKind.SAW, plan.sawing_s)):
            if work_s > 0:
                listing, ready = self._rework(ready, kind, None, work_s)
                listings.append(listing)
        return Worked(listings, replace(state, ready=ready))

    def layer(
        self, state: State, work: LayerWork, *, held_s: float | None, window_closes: bool, counts: bool
    ) -> Worked:
        """Work a layer and what is cast into it.

        ``held_s`` is when it may begin at the soonest [s]. ``window_closes`` is False to take the window of what is
        under it as if it never closed. ``counts`` tells whether returns count from it.
        """
        listings: list[Listing] = []
        ready, asked = state.ready, False
        placed = self._hours(work, ready, held_s)
        if placed is not None and self._window_may_close(state, placed):
            asked = True
            if window_closes and self._window_closed(state, placed):
                abrading, ready = self._abrade(state, ready)
                listings.append(abrading)
                placed = self._hours(work, ready, held_s)
        cast = placed if placed is None or work.broadcast is None else self._broadcast(work, placed)
        worked_s = None if cast is None else cast.until_s
        cure = None if work.cure is None or worked_s is None else self.cured(work.cure, worked_s, work.limits_k)
        cured_s = worked_s if cure is None else cure.at_s
        listings.append(partial(_laid, work, ready, placed, cast, cured_s, cure, held_s))
        ready = Ready(cured_s, Cause.WORK if work.cure is None else Cause.CURE, work.broadcast or work.layer)
        cleared_s = state.cleared_s
        if work.clear_s > 0:
            clearing, ready = self._rework(ready, StepKind.CLEAR, work.broadcast, work.clear_s)
            listings.append(clearing)
            cleared_s = math.inf if ready.at_s is None else ready.at_s
        after = State(
            ready,
            (work, placed.from_s) if placed is not None and work.surface else state.under,
            worked_s if counts else state.counted_from_s,
            cleared_s,
            state.ruined or (cure is not None and cure.frozen_s is not None),
        )
        return Worked(listings, after, window_asked=asked)

    def cured(self, curve: TimeCurve, from_s: float, limits_k: Limits, column: Column | None = None) -> Milestone:
        """When what is done at an instant has cured, on the column of the run unless another is asked for."""
        self._site.budget.spent += STEPS_OF_A_CURE
        return milestone(
            curve=curve,
            column=column or self._column,
            course=self._site.course,
            from_s=from_s,
            until_s=self._site.until_s,
            low_k=limits_k.low,
            high_k=limits_k.high,
        )

    def _rework(self, ready: Ready, kind: StepKind, layer: str | None, work_s: float) -> tuple[Listing, Ready]:
        """A step that lays nothing: prepare, saw, abrade, clear."""
        placed = None if ready.at_s is None else self._site.place(ready.at_s, (work_s,))
        after = Ready(None if placed is None else placed.until_s, Cause.WORK, layer)
        return partial(_reworked, ready, kind, layer, work_s, placed), after

    def _abrade(self, state: State, ready: Ready) -> tuple[Listing, Ready]:
        assert state.under is not None  # its window has closed
        under, _ = state.under
        return self._rework(ready, StepKind.ABRADE, under.layer, under.abrade_s)

    def _hours(self, work: LayerWork, ready: Ready, held_s: float | None) -> Placed | None:
        if ready.at_s is None:
            return None
        free_s = ready.at_s if held_s is None else max(ready.at_s, held_s)
        return self._site.place(free_s, work.parts_s, work.limits_k)

    def _window_may_close(self, state: State, placed: Placed) -> bool:
        """Whether this work ends so late that what is under it, were the floor as warm as it ever is, stood too long.

        It stands from its own first square foot on.
        """
        if state.under is None:
            return False
        under, began_s = state.under
        return under.recoat_closes is not None and placed.until_s - began_s > self._soonest(
            under.recoat_closes, under.limits_k
        )

    def _window_closed(self, state: State, placed: Placed) -> bool:
        """Whether what is under this work has stood too long by its end."""
        assert state.under is not None
        under, began_s = state.under
        assert under.recoat_closes is not None  # it may close
        closes_s = self.cured(under.recoat_closes, began_s, under.limits_k, "low").at_s
        return closes_s is not None and placed.until_s > closes_s + SAME_INSTANT_S

    def _soonest(self, curve: TimeCurve, limits_k: Limits) -> float:
        """The least time that a window can take on this course: were it always as warm as it ever is [s]."""
        warmest_k = self._site.span_k[1]
        if limits_k.high is not None:
            warmest_k = min(warmest_k, limits_k.high)
        return time_at(curve, temperature_k=warmest_k, column="low") - SAME_INSTANT_S

    def _broadcast(self, work: LayerWork, placed: Placed) -> Placed | None:
        if work.broadcast_wait is None:
            return placed
        stretches = tuple(self._cast(work.broadcast_wait, work.wait_limits_k, *one) for one in joined(placed.stretches))
        kept = tuple((from_s, until_s) for from_s, until_s in stretches if until_s is not None)
        return Placed(stretches=kept) if len(kept) == len(stretches) else None

    def _cast(
        self, wait: TimeCurve, limits_k: Limits, poured_from_s: float, poured_until_s: float
    ) -> tuple[float, float | None]:
        """When aggregate is cast into what is poured without a stop."""
        until_s = self.cured(wait, poured_until_s, limits_k, "high").at_s
        first_s = poured_from_s + time_at(wait, temperature_k=self._site.course.at(poured_from_s), column="low")
        return first_s if until_s is None else min(first_s, until_s), until_s


def _reworked(
    ready: Ready, kind: StepKind, layer: str | None, work_s: float, placed: Placed | None
) -> tuple[Step, ...]:
    """The step of what lays nothing."""
    step = _make_step(
        kind=kind,
        layer=layer,
        placed=placed,
        work_s=work_s,
        ready_s=ready.at_s,
        cause=ready.cause,
        awaited=ready.awaited,
        limits_k=ANY_TEMPERATURE,
    )
    return (step,)


def _laid(
    work: LayerWork,
    ready: Ready,
    placed: Placed | None,
    cast: Placed | None,
    cured_s: float | None,
    cure: Milestone | None,
    held_s: float | None,
) -> tuple[Step, ...]:
    """The steps of a layer and of what is cast into it, whose cure is that of the layer too."""
    laid = _make_step(
        kind=StepKind.APPLY,
        layer=work.layer,
        placed=placed,
        work_s=math.fsum(work.parts_s),
        ready_s=ready.at_s,
        cause=ready.cause,
        awaited=ready.awaited,
        held_s=held_s,
        cured_s=cured_s,
        cure=cure,
        limits_k=work.limits_k,
    )
    if work.broadcast is None:
        return (laid,)
    casting = _make_step(
        kind=StepKind.APPLY,
        layer=work.broadcast,
        placed=cast,
        work_s=0.0,
        ready_s=None if cast is None else cast.from_s,
        cause=Cause.WORK,
        awaited=work.layer,
        cured_s=cured_s,
        cure=cure,
        limits_k=work.limits_k,
    )
    return laid, casting
