"""The limit of a kind of moisture: as the system states it, or as a primer raises it.

Decisions:

* The limit that holds is the highest of the system's own and of those to which the layers that take part raise it.
* A reading over it is ``fix``, not ``stop``, where an optional layer that does not take part goes up to it: of several
  the first in the order of the work is named, and the order stays one that may be placed.
* Where a layer of the system raises a limit, the limits depend on ``order.optional_layers``: a name in it that means
  nothing is refused.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import RaisedLimits
from gaugerake.floor.slab.verdict import at_most
from gaugerake.floor.values.frozen import dataclass

LimitOf = Callable[[RaisedLimits], float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Raise:
    """A layer, and the limit to which it raises the system's [kg/(m²·s) or %]."""

    layer: Layer
    to: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureLimit:
    """What the system ``listed`` of a kind of moisture, and what becomes of it [kg/(m²·s) or %].

    ``raised`` is what raises it in this job; ``offers`` are the optional layers that would raise it further.
    """

    listed: float
    raised: Raise | None
    offers: tuple[Raise, ...]

    @property
    def holds(self) -> float:
        """The limit of this job."""
        return self.listed if self.raised is None else self.raised.to

    def offer_for(self, value: float) -> Raise | None:
        """The first optional layer with which the system goes up to ``value``."""
        return next((offer for offer in self.offers if at_most(value=value, high=offer.to)), None)


def moisture_limit(resolved: ResolvedJob, listed: float | None, limit_of: LimitOf) -> MoistureLimit | None:
    """The limit of a kind of moisture; None where the system states none.

    Raises
    ------
    Refused
        When it depends on the layers that take part, and the job names one that is not there.
    """
    if listed is None:
        return None
    raises = tuple(_raises(resolved, limit_of))
    if not raises:
        return MoistureLimit(listed=listed, raised=None, offers=())
    taken = {layer.id for layer in resolved.layers.value}
    raised = max((one for one in raises if one.layer.id in taken), key=lambda one: one.to, default=None)
    holds = listed if raised is None else raised.to
    offers = tuple(one for one in raises if one.layer.id not in taken and one.to > holds)
    return MoistureLimit(listed=listed, raised=raised, offers=offers)


def _raises(resolved: ResolvedJob, limit_of: LimitOf) -> Iterator[Raise]:
    for layer in resolved.system.layers:
        to = None if layer.raises is None else limit_of(layer.raises)
        if to is not None:
            yield Raise(layer=layer, to=to)
