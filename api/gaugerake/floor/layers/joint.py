"""The sealant in the moving joints."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.job import JointKind
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key
from gaugerake.floor.layers.need import Conversion, Quantity
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed
from gaugerake.floor.layers.trace import Inputs, joint_inputs
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLayer(Layer):
    """Sealant in the moving joints, by the joint's own width and depth."""

    kind: ClassVar[str] = "joint"
    counted_in: ClassVar[CountedIn] = CountedIn.LIQUID
    keys: ClassVar[tuple[Key, ...]] = ()
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset({Asked.JOINTS})
    covers_floor: ClassVar[bool] = False
    bonds: ClassVar[bool] = False
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
    time_rule: ClassVar[str] = "rule-clock-seal"
    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.SEALING,)

    @property
    def quantity_kind(self) -> Kind:
        """It holds a volume."""
        return Kind.VOLUME

    @property
    def conversion(self) -> Conversion | None:
        """None: the volume of the joints is what is needed."""
        return None

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The volume of the moving joints in each room [m³]."""
        return [Quantity(0.0, room.sealant_volume_m3) for room in build.rooms]

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """Each joint that is sealed."""
        inputs: Inputs = {}
        for room in build.rooms:
            inputs |= joint_inputs(name=f"room {room.index + 1}", joints=room.joints, kind=JointKind.MOVING)
        return "rule-quantity-joint", inputs

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """The length of the joints over the rate of sealing [s]."""
        return (crew.sealing_s(),)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """Sealing."""
        length, rate = Figure(crew.sealed_m, Kind.LENGTH), Figure(crew.rates.seal_rate_m_s, Kind.LENGTH_RATE)
        return (make_task_work(task=Task.SEAL, quantity=length, rate=rate),)

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """The length of the joints that are sealed, and the rate of sealing."""
        return {
            "length": Figure(crew.sealed_m, Kind.LENGTH),
            "seal_rate": Figure(crew.rates.seal_rate_m_s, Kind.LENGTH_RATE),
        }
