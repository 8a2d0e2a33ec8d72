"""The values of the clock: the work of a job in its order, and the hours that a run gives it."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum

from gaugerake.floor.clock.schedule import ANY_TEMPERATURE, Placed
from gaugerake.floor.cure.curve import Column, TimeCurve
from gaugerake.floor.cure.maturity import Milestone
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.range import Limits

_make_limits = maker(Limits)


class StepKind(StrEnum):
    """What is done in a step."""

    PREPARE = "prepare"
    SAW = "saw"  # the keyways
    APPLY = "apply"
    CLEAR = "clear"  # loose aggregate scraped and vacuumed
    ABRADE = "abrade"  # because the recoat window has closed


class Cause(StrEnum):
    """What a step waits for."""

    START = "start"
    WORK = "work"
    CURE = "cure"
    SHIFT = "shift"
    TEMPERATURE = "temperature"
    WINDOW = "window"  # laid late, so that its recoat window is open when the next layer is down


@dataclass(frozen=True, slots=True, kw_only=True)
class Return:
    """When a class of traffic may come back, counted from the end of the last coat's (or body's) work."""

    traffic: str
    after: TimeCurve


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerWork:
    """One layer to be worked, with the aggregate cast into it.

    ``parts_s`` is the work [s], by rooms where it may be stopped between them; ``limits_k`` the product's temperatures;
    ``cure`` runs from the end of the work, ``recoat_closes`` from its start. ``broadcast`` is the layer that is cast
    into this one, its work ending ``broadcast_wait`` (high) after it; ``clear_s`` clears what is loose of it after the
    cure; ``abrade_s`` abrades this layer when the next comes too late [s]. ``surface`` is False for what the next
    layer is not bonded to (sealant in joints).
    """

    layer: str
    parts_s: tuple[float, ...]
    limits_k: Limits = ANY_TEMPERATURE
    cure: TimeCurve | None = None
    recoat_closes: TimeCurve | None = None
    broadcast: str | None = None
    broadcast_wait: TimeCurve | None = None
    clear_s: float = 0.0
    abrade_s: float = 0.0
    surface: bool = True

    @property
    def wait_limits_k(self) -> Limits:
        """What the wait of the aggregate keeps to: no low limit, as a body sets on a cold floor too."""
        return _make_limits(high=self.limits_k.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The work of a job in its order; returns count from the end of the work of ``layers[returns_from]``.

    The slab is prepared and its keyways are sawn before the first layer [s]; 0 is a step that there is not.
    """

    preparation_s: float
    sawing_s: float = 0.0
    layers: tuple[LayerWork, ...]
    returns: tuple[Return, ...]
    returns_from: int | None

    @property
    def curves(self) -> Iterator[TimeCurve]:
        """Every table of times that a run may ask for."""
        for work in self.layers:
            yield from (one for one in (work.cure, work.recoat_closes, work.broadcast_wait) if one is not None)
        yield from (one.after for one in self.returns)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: its hours (None: never), and when what it made has cured (None: never, or it makes nothing).

    ``work_s`` is how long it takes without the hours between shifts [s].
    ``ready_s`` is when nothing but a shift or the temperature held it up any more [s], ``cause`` and ``awaited`` what
    it waited for until then (of which layer). ``held_s`` is when a layer that is laid late may begin [s].
    """

    kind: StepKind
    layer: str | None
    placed: Placed | None
    work_s: float
    ready_s: float | None
    cause: Cause
    awaited: str | None = None
    held_s: float | None = None
    cured_s: float | None = None
    cure: Milestone | None = None
    limits_k: Limits = ANY_TEMPERATURE

    @property
    def free_s(self) -> float | None:
        """When nothing but a shift or the temperature holds it up, not even that it is laid late [s]."""
        return self.ready_s if self.ready_s is None or self.held_s is None else max(self.ready_s, self.held_s)


@dataclass(frozen=True, slots=True, kw_only=True)
class Returned:
    """When a class of traffic may return, to the minute [s] (None: never); ``from_s`` is what it counts from [s]."""

    traffic: str
    at_s: float | None
    from_s: float | None = None
    cure: Milestone | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One forward run; ``cut_short``: the search for a later begin that spares abrading ended before it was done."""

    column: Column
    start_s: float
    steps: tuple[Step, ...]
    returns: tuple[Returned, ...]
    cut_short: bool = False

    @property
    def complete(self) -> bool:
        """Whether every step has its hours and every cure ends."""
        return all(step.placed is not None and (step.cure is None or step.cured_s is not None) for step in self.steps)
