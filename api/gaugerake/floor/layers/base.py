"""What every kind of layer says of itself. A kind is one file beside this one, listed in ``kinds.py``.

A kind that leaves out a statement or a method does not import. So no kind drops out of the order, the clock or the
working without a word: nothing outside asks a layer of which kind it is.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from inspect import get_annotations
from typing import Any, ClassVar, NamedTuple

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import TaskWork
from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.layers.facts import Asked, Laid, RaisedLimits
from gaugerake.floor.layers.keys import Entry, Form, Key
from gaugerake.floor.layers.need import Conversion, Demand, Quantity
from gaugerake.floor.layers.pour import BodyPour
from gaugerake.floor.layers.takeoff import NO_EXTRAS, BuildUp, Extras, LayerNeed, Takeoff
from gaugerake.floor.layers.trace import COLUMNS, Inputs, StatedBy, Trace
from gaugerake.floor.product import CountedIn, Product
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.range import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class PerMix:
    """So many of a layer's product for each whole mix of another product."""

    product: str
    count: float


class Stated(NamedTuple):
    """A value that the catalogue states of a layer, and the form in which it is shown."""

    value: Any
    form: Form


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer(ABC):
    """One layer of a system, in the order of the work.

    ``id`` is the kind, numbered when the kind repeats, unless the catalogue gives one. ``cure`` is the time until the
    next layer may go on, from the end of this one's work; ``recoat_closes`` the time after which it must be abraded
    first.

    A kind states: ``kind``, its word in the catalogue and the answers; ``counted_in``, how its product is counted;
    ``keys``, its own keys in the catalogue; ``laid``, how it gets into the floor; ``does``, what it does that a job can
    ask for; ``covers_floor``, whether it covers all of the floor; ``bonds``, whether the next layer is bonded to it;
    ``holds_aggregate``, whether a broadcast can be cast into it; ``leaves_voids``, whether the next liquid fills its
    voids before it makes a film; ``returns_count``, whether traffic's return counts from the last of its kind;
    ``rates``, those of the crew that its time of work depends on.
    """

    kind: ClassVar[str]
    counted_in: ClassVar[CountedIn]
    keys: ClassVar[tuple[Key, ...]]
    laid: ClassVar[Laid]
    does: ClassVar[frozenset[Asked]]
    covers_floor: ClassVar[bool]
    bonds: ClassVar[bool]
    holds_aggregate: ClassVar[bool]
    leaves_voids: ClassVar[bool]
    returns_count: ClassVar[bool]
    rates: ClassVar[tuple[RateKind, ...]]
    may_be_optional: ClassVar[bool] = True
    follows_cove: ClassVar[bool] = False
    """Whether a cove must be made before it, as it climbs the cove."""
    time_rule: ClassVar[str] = "rule-clock-apply"
    """The sentence that explains its time of work."""
    cast_time_rule: ClassVar[str] = "rule-clock-apply"
    """The sentence that explains its time of work where aggregate is cast into it."""
    time_stated_by: ClassVar[StatedBy] = StatedBy.CREW
    """Who states the rate that it is worked at."""

    id: str
    name: Named
    product: Product
    optional: bool = False
    cure: TimeCurve | None = None
    recoat_closes: TimeCurve | None = None

    def __init_subclass__(cls) -> None:
        """Refuse a kind that leaves something out; a class with ABC among its bases is no kind.

        Raises
        ------
        TypeError
            Naming what is missing.
        """
        if ABC in cls.__bases__:
            return
        missing = [name for name in _statements(cls) if not hasattr(cls, name)]
        missing += [name for name in dir(cls) if getattr(getattr(cls, name, None), "__isabstractmethod__", False)]
        if missing:
            raise TypeError(f"{cls.__name__} is a kind of layer and must say what these are: {', '.join(missing)}")

    @property
    def raises(self) -> RaisedLimits | None:
        """Up to which moisture the system goes with this layer; None where it changes nothing."""
        return None

    # ---- in the catalogue ----

    @classmethod
    def read(cls, entry: Entry) -> dict[str, Any]:
        """The kind's own fields, from its place in the file; what the file leaves out keeps its default."""
        return {key.field: entry.read(key) for key in cls.keys if key.required or key.name in entry}

    def faults(self) -> Iterator[tuple[str, str]]:
        """What the kind's own values contradict: the key, and what is wrong with it."""
        yield from ()

    def shown(self) -> Mapping[str, Stated]:
        """What GET /v1/systems shows of the kind's own values, by its fields."""
        return {key.shown: Stated(getattr(self, key.field), key.form) for key in self.keys if key.shown}

    # ---- its need ----

    @property
    @abstractmethod
    def quantity_kind(self) -> Kind:
        """The kind of figure that it covers or holds: area, volume, length or mix."""

    @abstractmethod
    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """What it covers [m² or m] or holds [m³] in each room, without waste; empty where rooms don't count."""

    @property
    @abstractmethod
    def conversion(self) -> Conversion | None:
        """How a quantity becomes a need; None where the quantity is what is needed."""

    @property
    def step(self) -> float | None:
        """The least that is used up at once, in the base quantity; None where the product is measured out."""
        return 1.0 if self.product.counted_in is CountedIn.MIX else self.product.smallest_batch

    def need(self, build: BuildUp, before: Sequence[LayerNeed]) -> LayerNeed | None:
        """What it needs of its product; None where the job gives it nothing to do.

        ``before`` is what the layers need that are laid; only what is used up beside them looks at it.
        """
        parts = self.measure(build)
        demand = Demand.of(parts, waste_fraction=build.waste_fraction, conversion=self.conversion, step=self.step)
        if demand.quantity <= 0:
            return None
        factor = 1 + build.waste_fraction
        return LayerNeed.of_demand(self, demand, parts, factor=factor, extras=self.extras(build))

    def extras(self, build: BuildUp) -> Extras:
        """Its film, and what stays of its aggregate."""
        return NO_EXTRAS

    @property
    def film_rate(self) -> Triple | None:
        """The spreading rate [m²/m³] of a liquid that is rolled; None for all else."""
        return None

    @property
    def per_mix(self) -> PerMix | None:
        """Whether it goes by the whole mixes of another product, and by which."""
        return None

    # ---- the working of its need ----

    @abstractmethod
    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """The rule by which its quantity is measured, and the numbers that went in."""

    def extra_traces(self, need: LayerNeed) -> Iterator[Trace]:
        """How each of its extras came about."""
        yield from ()

    def traces(self, need: LayerNeed, takeoff: Takeoff) -> Iterator[Trace]:
        """How each figure of its need came about."""
        rule, inputs = self.quantity_inputs(takeoff.build)
        yield Trace("quantity", rule, inputs, need.quantity_figure)
        for column in COLUMNS:
            yield self._need_trace(need, column, takeoff.build.waste_fraction)
            yield self.used_trace(need, column)
        yield from self.extra_traces(need)

    def _need_trace(self, need: LayerNeed, column: str, waste_fraction: float) -> Trace:
        inputs: Inputs = {"quantity": need.quantity_figure, "waste": Figure(waste_fraction * 100, Kind.PERCENT)}
        conversion, result = self.conversion, need.figure(column)
        if conversion is None:
            return Trace(f"need/{column}", "rule-need-volume", inputs, result, StatedBy.JOB)
        inputs[conversion.name] = Figure(conversion.rate_for(column), conversion.figure)
        return Trace(f"need/{column}", conversion.rule, inputs, result, conversion.stated_by)

    @property
    def used_rule(self) -> str:
        """The rule by which its need is rounded up to what is used up."""
        return "rule-used-mixes" if self.product.counted_in is CountedIn.MIX else "rule-used-batches"

    def used_trace(self, need: LayerNeed, column: str) -> Trace:
        """How what is used up came about, of one column of its need."""
        inputs: Inputs = {"need": need.figure(column)}
        step = need.demand.step if need.demand else None
        rule = "rule-used-measured-out" if step is None else self.used_rule
        if step is not None:
            inputs["smallest"] = Figure(step, self.product.counted_in.figure_kind)
        return Trace(f"used/{column}", rule, inputs, need.used_figure(column), StatedBy.PRODUCT)

    # ---- its work ----

    @abstractmethod
    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """Its time of work [s], by rooms where the work may stop between them."""

    @abstractmethod
    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """The numbers that its time of work comes from."""

    @abstractmethod
    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """What hands do in its step; empty where it takes no hands of its own."""

    def clear_s(self, crew: CrewOnSite) -> float:
        """How long what is loose of it is cleared away [s]."""
        return 0.0

    def cast_kg_m2(self, waste_fraction: float) -> float:
        """The aggregate that it casts into the layer under it, at the likely rate and with waste [kg/m²]."""
        return 0.0

    @property
    def pour(self) -> BodyPour | None:
        """How it is poured; None for what is not."""
        return None


def _statements(cls: type[Layer]) -> list[str]:
    """The names that a kind must state: the class variables of its bases."""
    stated = [get_annotations(base) for base in cls.__mro__]
    return [name for each in stated for name, kind in each.items() if str(kind).startswith("ClassVar")]
