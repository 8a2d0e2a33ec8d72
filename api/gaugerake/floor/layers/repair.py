"""The repair of the slab: cracks, bridged joints and spalls, filled."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.job import JointKind
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key
from gaugerake.floor.layers.mixed import MixedLayer
from gaugerake.floor.layers.need import Quantity
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed
from gaugerake.floor.layers.trace import Inputs, groove_inputs, joint_inputs
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLayer(MixedLayer):
    """Fills cracks, bridged joints and spalls; its product is counted in mixes.

    The hands open and fill cracks first and patch spalls then, while others mix for them.
    """

    kind: ClassVar[str] = "repair"
    keys: ClassVar[tuple[Key, ...]] = ()
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset({Asked.CRACKS, Asked.SPALLS, Asked.FILLED_JOINTS})
    covers_floor: ClassVar[bool] = False
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
    time_rule: ClassVar[str] = "rule-clock-repair"
    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.CHASING, RateKind.PATCHING, RateKind.CYCLE, RateKind.STATIONS)

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The volume of cracks, bridged joints and spalls in each room [m³]."""
        return [Quantity(0.0, room.repair_volume_m3) for room in build.rooms]

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """Each crack as stated, spall and bridged joint, and the least that cracks are opened to."""
        inputs: Inputs = {}
        for room in build.rooms:
            inputs |= _filled(room, f"room {room.index + 1}")
            inputs |= joint_inputs(name=f"room {room.index + 1}", joints=room.joints, kind=JointKind.CONTRACTION)
        if build.crack_chase is None or not any(room.cracks for room in build.rooms):
            return "rule-quantity-repair", inputs
        inputs["chase width"] = Figure(build.crack_chase.width_m, Kind.SMALL_LENGTH)
        inputs["chase depth"] = Figure(build.crack_chase.depth_m, Kind.SMALL_LENGTH)
        return "rule-quantity-repair-chased", inputs

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """The chasing and the patching, or the mixing where that is longer [s]."""
        return (max(crew.chasing_s() + crew.patching_s(), crew.mixing_s(self.product, need.likely)),)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """Chasing and patching in turns, and the mixing for them."""
        chasing_s, patching_s = crew.chasing_s(), crew.patching_s()
        whole_s = chasing_s + patching_s
        length, area = Figure(crew.filled_m, Kind.LENGTH), Figure(crew.spall_m2, Kind.AREA)
        rates = crew.rates
        hands = (
            (Task.CHASE, length, Figure(rates.chase_rate_m_s, Kind.LENGTH_RATE), chasing_s),
            (Task.PATCH, area, Figure(rates.patch_rate_m2_s, Kind.AREA_RATE), patching_s),
        )
        found = (
            make_task_work(task=task, quantity=quantity, rate=rate, share_fraction=work_s / whole_s)
            for task, quantity, rate, work_s in hands
            if work_s > 0
        )
        return (*found, self.mixing_task(need))

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """The lengths and areas and their rates, and the mixes."""
        return {
            "length": Figure(crew.filled_m, Kind.LENGTH),
            "chase_rate": Figure(crew.rates.chase_rate_m_s, Kind.LENGTH_RATE),
            "area": Figure(crew.spall_m2, Kind.AREA),
            "patch_rate": Figure(crew.rates.patch_rate_m2_s, Kind.AREA_RATE),
            **self.mix_inputs(need, crew),
        }


def _filled(room: RoomTakeoff, name: str) -> Inputs:
    found: Inputs = {}
    for number, crack in enumerate(room.cracks, 1):
        found |= groove_inputs(
            name=f"{name} crack {number}", length_m=crack.length_m, width_m=crack.width_m, depth_m=crack.depth_m
        )
    for number, spall in enumerate(room.spalls, 1):
        found[f"{name} spall {number} area"] = Figure(spall.area_m2, Kind.AREA)
        found[f"{name} spall {number} depth"] = Figure(spall.depth_m, Kind.SMALL_LENGTH)
    return found
