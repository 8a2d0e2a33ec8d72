"""The body: poured to thickness."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import ClassVar

from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork, make_task_work
from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key, Number, Times
from gaugerake.floor.layers.mixed import MixedLayer
from gaugerake.floor.layers.need import Quantity
from gaugerake.floor.layers.pour import BodyPour
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed
from gaugerake.floor.layers.trace import Inputs
from gaugerake.floor.layers.volumes import body_volume, profile_volume
from gaugerake.floor.pour.edge import mix_area_m2, pace
from gaugerake.floor.room.keyway import keyway_volume
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker

_make_pour = maker(BodyPour)


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyLayer(MixedLayer):
    """Poured to thickness; ``share_fraction`` of the system's thickness. Counted in mixes."""

    kind: ClassVar[str] = "body"
    keys: ClassVar[tuple[Key, ...]] = (
        Key(name="share", field="share_fraction", form=Number(low=0, high=1, above=True), shown="share"),
        Key(name="broadcast_wait", field="broadcast_wait", form=Times(figure=Kind.MINUTES), shown="broadcast_wait"),
    )
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset({Asked.THICKNESS})
    covers_floor: ClassVar[bool] = True
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = True
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = True
    rates: ClassVar[tuple[RateKind, ...]] = (RateKind.CYCLE, RateKind.STATIONS, RateKind.PLACING)
    may_be_optional: ClassVar[bool] = False

    share_fraction: float = 1.0
    broadcast_wait: TimeCurve | None = None

    @property
    def pour(self) -> BodyPour:
        """How it is poured."""
        return _make_pour(product=self.product, share_fraction=self.share_fraction, broadcast_wait=self.broadcast_wait)

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        """The volume in each room [m³]: above the slab by thickness, and of the first pour what the slab takes."""
        first = build.is_first_pour(self)
        return [Quantity(self._above(room), _below(build, room) if first else 0.0) for room in build.rooms]

    def _above(self, room: RoomTakeoff) -> float:
        return body_volume(
            area_m2=room.area_m2, thickness_m=room.thickness_m or 0.0, share_fraction=self.share_fraction
        )

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        """Its share, and each room's area and thickness; of the first pour the profiles and keyways too."""
        first = build.is_first_pour(self)
        inputs: Inputs = {"share": self.share_fraction}
        if first and build.keyway:
            inputs["ratio"] = build.keyway.ratio
        for room in build.rooms:
            inputs |= _poured(build, room, first=first)
        return ("rule-quantity-body" if first else "rule-quantity-body-further"), inputs

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        """The mixes of each room times its cadence [s]."""
        mix_cycle_s, station_count = crew.rates.seconds_per_mix(self.product), crew.mixing_stations
        placing_rate_m2_s, yield_m3 = crew.rates.placing_rate_m2_s, self.pour.yield_m3.likely
        found = []
        for mixes, room in zip(need.room_likely, crew.rooms, strict=True):
            thickness_m = (room.thickness_m or math.inf) * self.share_fraction
            one = pace(
                mix_cycle_s=mix_cycle_s,
                station_count=station_count,
                placing_rate_m2_s=placing_rate_m2_s,
                mix_area_m2=mix_area_m2(yield_m3=yield_m3, thickness_m=thickness_m),
                cast_kg_m2=crew.cast_kg_m2,
                cast_rate_kg_s=crew.rates.cast_rate_kg_s if crew.cast_kg_m2 else math.inf,
            )
            found.append(mixes * one.cadence_s)
        return tuple(found)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        """Mixing, placing and rolling, and the casting of what is cast into it."""
        area, rate = Figure(crew.area_m2, Kind.AREA), Figure(crew.rates.placing_rate_m2_s, Kind.AREA_RATE)
        placed = (make_task_work(task=task, quantity=area, rate=rate) for task in (Task.PLACE, Task.ROLL))
        return self.mixing_task(need), *placed, *crew.casting_tasks()

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        """What each room's cadence comes from, and its mixes."""
        inputs: Inputs = {
            **crew.mixing_inputs(self.product),
            "placing_rate": Figure(crew.rates.placing_rate_m2_s, Kind.AREA_RATE),
            "yield": Figure(self.pour.yield_m3.likely, Kind.VOLUME),
            "share": self.share_fraction,
        }
        for number, (room, mixes) in enumerate(zip(crew.rooms, need.room_likely, strict=True), 1):
            inputs[f"room_{number}_mixes"] = Figure(mixes, Kind.MIX)
            inputs[f"room_{number}_thickness"] = Figure(room.thickness_m or 0.0, Kind.SMALL_LENGTH)
        return inputs | crew.casting_inputs()


def _below(build: BuildUp, room: RoomTakeoff) -> float:
    """What the slab takes under the first body: its texture and the keyways [m³]."""
    volume = profile_volume(area_m2=room.area_m2, depth_m=build.profile_depth_m(room))
    if build.keyway is not None:
        volume += keyway_volume(
            length_m=room.keyway_length_m, ratio=build.keyway.ratio, thickness_m=room.thickness_m or 0.0
        )
    return volume


def _poured(build: BuildUp, room: RoomTakeoff, *, first: bool) -> Inputs:
    """What a body takes in a room; the first, of its keyways and profile too."""
    name = f"room {room.index + 1}"
    found: Inputs = {
        f"{name} area": Figure(room.area_m2, Kind.AREA),
        f"{name} thickness": Figure(room.thickness_m or 0.0, Kind.SMALL_LENGTH),
    }
    if first:
        found[f"{name} profile depth"] = Figure(build.profile_depth_m(room), Kind.FILM)
        if build.keyway is not None:
            found[f"{name} keyway"] = Figure(room.keyway_length_m, Kind.LENGTH)
    return found
