"""How much of each layer: what it covers or holds, what it needs of its product, and what is used up."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from gaugerake.answers.job import assume
from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities.measured import need_kind, quantity_kind
from gaugerake.floor.job import Joint, JointKind, Room
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryBasis, SundryLayer
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.layers.volumes import allowance_at
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value
from gaugerake.floor.values.range import Triple

Inputs = dict[str, Value]
Pairs = Iterator[tuple[str, Value]]
_COLUMNS = ("low", "likely", "high")
_OPPOSITE = {"low": "high", "likely": "likely", "high": "low"}


def work_layers(context: Context, takeoff: Takeoff) -> None:
    """Record the working of every layer."""
    for index, need in enumerate(takeoff.layers):
        _LayerWorking(context, takeoff, index, need).record()


class _LayerWorking:
    """The working of one layer."""

    def __init__(self, context: Context, takeoff: Takeoff, index: int, need: LayerNeed) -> None:
        self.context, self.takeoff, self.need, self.layer = context, takeoff, need, need.layer
        self.at = f"/layers/{index}"
        self.kind = need_kind(need.layer)
        self.quantity = Figure(need.quantity, quantity_kind(need.layer))
        self.product = f"catalogue: product {need.layer.product.code}"
        self.system = f"catalogue: system {context.system.code}"

    def record(self) -> None:
        if isinstance(self.layer, SundryLayer):
            self._sundry(self.layer)
            return
        rule, inputs = self._quantity()
        self._work("quantity", rule, inputs, self.quantity, self.system)
        for column in _COLUMNS:
            self._needed(column)
            self._used(column)
        self._film()
        self._aggregate()

    def _work(self, figure: str, rule: str, inputs: Inputs, result: Figure, source: str) -> None:
        self.context.record.work(f"{self.at}/{figure}", rule, inputs, result, source)

    def _quantity(self) -> tuple[str, Inputs]:
        layer, rooms, job = self.layer, self.takeoff.rooms, self.context.job.rooms
        if isinstance(layer, BodyLayer):
            return self._body(layer)
        if isinstance(layer, CoveLayer):
            return "rule-quantity-cove-volume", {
                "thickness": Figure(layer.thickness_m, "small-length"),
                "radius": Figure(layer.radius_m, "small-length"),
                **dict(_coves(rooms)),
            }
        if isinstance(layer, RepairLayer):
            return "rule-quantity-repair", dict(_filled(job))
        if isinstance(layer, JointLayer):
            return "rule-quantity-joint", dict(_sealed(job))
        if isinstance(layer, PrimerLayer | CoatLayer) and self._coved():
            return "rule-quantity-coated", {**dict(_areas(rooms)), **dict(_coves(rooms))}
        return "rule-quantity-area", dict(_areas(rooms))

    def _coved(self) -> bool:
        return any(isinstance(need.layer, CoveLayer) for need in self.takeoff.layers)

    def _body(self, layer: BodyLayer) -> tuple[str, Inputs]:
        bodies = [need.layer for need in self.takeoff.layers if isinstance(need.layer, BodyLayer)]
        system = self.context.system if layer is bodies[0] else None
        inputs: Inputs = {"share": layer.share_fraction}
        if system and system.keyway:
            inputs["ratio"] = system.keyway.ratio
        for room in self.takeoff.rooms:
            inputs.update(_poured(room, system))
        return ("rule-quantity-body" if system else "rule-quantity-body-further"), inputs

    def _needed(self, column: str) -> None:
        demand = self.need.demand
        assert demand is not None
        waste = Figure(assume.waste_fraction(self.context) * 100, "percent")
        inputs: Inputs = {"quantity": self.quantity, "waste": waste}
        rule, source = "rule-need-volume", "the job"
        if demand.divisor is not None:
            liquid = isinstance(self.layer, PrimerLayer | CoatLayer)
            name, kind = ("spreading rate", "spreading-rate") if liquid else ("yield", "volume")
            inputs[name] = Figure(_column(demand.divisor, _OPPOSITE[column]), kind)
            rule, source = ("rule-need-spreading", self.system) if liquid else ("rule-need-mixes", self.product)
        elif demand.multiplier is not None:
            inputs["rate"] = Figure(_column(demand.multiplier, column), "areal-mass")
            rule, source = "rule-need-broadcast", self.system
        self._work(f"need/{column}", rule, inputs, self._need(column), source)

    def _need(self, column: str) -> Figure:
        return Figure(getattr(self.need, column), self.kind)

    def _used(self, column: str) -> None:
        step = self.need.demand.step if self.need.demand else None
        inputs: Inputs = {"need": self._need(column)}
        if step is None:
            rule = "rule-used-measured-out"
        else:
            rule = "rule-used-mixes" if self.kind == "mix" else "rule-used-batches"
            inputs["smallest"] = Figure(step, self.kind)
        used = Figure(getattr(self.need, f"rounded_{column}"), self.kind)
        self._work(f"used/{column}", rule, inputs, used, self.product)

    def _film(self) -> None:
        wet, dry, layer = self.need.wet_film_m, self.need.dry_film_m, self.layer
        if wet is None or not isinstance(layer, PrimerLayer | CoatLayer):
            return
        film, rate = Figure(wet, "film"), Figure(layer.spreading_rate_m2_m3.likely, "spreading-rate")
        self._work("wet_film", "rule-wet-film", {"spreading rate": rate}, film, self.system)
        solids = layer.product.volume_solids_fraction
        if dry is not None and solids is not None:
            inputs: Inputs = {"wet film": film, "volume solids": Figure(solids * 100, "percent")}
            self._work("dry_film", "rule-dry-film", inputs, Figure(dry, "film"), self.product)

    def _aggregate(self) -> None:
        retained, cleared, layer = self.need.retained_kg, self.need.cleared_away_kg, self.layer
        if not isinstance(layer, BroadcastLayer) or layer.retained_kg_m2 is None:
            return
        if retained is None or cleared is None:
            return
        inputs: Inputs = {
            "quantity": self.quantity,
            "rate": Figure(layer.rate_kg_m2.likely, "areal-mass"),
            "retained": Figure(layer.retained_kg_m2, "areal-mass"),
        }
        self._work("retained", "rule-retained", inputs, Figure(retained, "mass"), self.system)
        self._work("cleared_away", "rule-cleared-away", inputs, Figure(cleared, "mass"), self.system)

    def _sundry(self, layer: SundryLayer) -> None:
        if layer.basis is SundryBasis.PRODUCT:
            self._per_product(layer)
            return
        self._work("quantity", f"rule-quantity-{layer.basis}", self._basis(layer.basis), self.quantity, self.system)
        covers = Figure(layer.covers or math.inf, quantity_kind(layer))
        for column in _COLUMNS:
            inputs: Inputs = {"quantity": self.quantity, "covers": covers}
            self._work(f"need/{column}", "rule-need-covers", inputs, self._need(column), self.system)
            self._used(column)

    def _basis(self, basis: SundryBasis) -> Inputs:
        rooms = self.takeoff.rooms
        if basis is SundryBasis.AREA:
            return dict(_areas(rooms))
        name, field = {
            SundryBasis.COVE: ("cove length", "cove_length_m"),
            SundryBasis.WALLS: ("perimeter", "perimeter_m"),
            SundryBasis.JOINTS: ("moving joints", "moving_joint_length_m"),
        }[basis]
        return {f"room {room.index + 1} {name}": Figure(getattr(room, field), "length") for room in rooms}

    def _per_product(self, layer: SundryLayer) -> None:
        made = [need for need in self.takeoff.layers if need.demand and need.layer.product.code == layer.per_product]
        for column in _COLUMNS:
            used = [Figure(getattr(need, f"rounded_{column}"), "mix") for need in made]
            mixes: Inputs = {f"mixes {number}": figure for number, figure in enumerate(used, 1)}
            if column == "likely":
                self._work("quantity", "rule-quantity-product", mixes, self.quantity, self.system)
            inputs: Inputs = {"count": layer.count, **mixes}
            self._work(f"need/{column}", "rule-need-per-mix", inputs, self._need(column), self.system)
            self._used(column)


def _column(triple: Triple, column: str) -> float:
    return {"low": triple.low, "likely": triple.likely, "high": triple.high}[column]


def _areas(rooms: tuple[RoomTakeoff, ...]) -> Pairs:
    for room in rooms:
        yield f"room {room.index + 1} area", Figure(room.area_m2, "area")


def _coves(rooms: tuple[RoomTakeoff, ...]) -> Pairs:
    for room in rooms:
        if room.cove_length_m > 0:
            yield f"room {room.index + 1} cove length", Figure(room.cove_length_m, "length")
            yield f"room {room.index + 1} cove height", Figure(room.cove_height_m, "small-length")


def _poured(room: RoomTakeoff, system: System | None) -> Pairs:
    """What a body takes in a room; with the system, of its keyways and profile too."""
    name = f"room {room.index + 1}"
    yield f"{name} area", Figure(room.area_m2, "area")
    yield f"{name} thickness", Figure(room.thickness_m or 0.0, "small-length")
    if system is None:
        return
    listed = None if room.csp is None else allowance_at(csp=room.csp, allowances=system.profile_allowance)
    yield f"{name} profile depth", Figure(listed.depth_m if listed else 0.0, "film")
    if system.keyway is not None:
        yield f"{name} keyway", Figure(room.keyway_length_m, "length")


def _filled(rooms: tuple[Room, ...]) -> Pairs:
    for index, room in enumerate(rooms, 1):
        for number, crack in enumerate(room.cracks, 1):
            yield from _groove(f"room {index} crack {number}", crack.length_m, crack.width_m, crack.depth_m)
        for number, spall in enumerate(room.spalls, 1):
            yield f"room {index} spall {number} area", Figure(spall.area_m2, "area")
            yield f"room {index} spall {number} depth", Figure(spall.depth_m, "small-length")
        yield from _joints(f"room {index}", room, lambda joint: joint.kind is JointKind.CONTRACTION)


def _sealed(rooms: tuple[Room, ...]) -> Pairs:
    for index, room in enumerate(rooms, 1):
        yield from _joints(f"room {index}", room, lambda joint: joint.kind is not JointKind.CONTRACTION)


def _joints(name: str, room: Room, concerned: Callable[[Joint], bool]) -> Pairs:
    for number, joint in enumerate(room.joints or (), 1):
        if concerned(joint) and joint.width_m is not None and joint.depth_m is not None:
            length = math.dist(*joint.line_m) if joint.line_m else joint.length_m or 0.0
            yield from _groove(f"{name} joint {number}", length, joint.width_m, joint.depth_m)


def _groove(name: str, length_m: float, width_m: float, depth_m: float) -> Pairs:
    yield f"{name} length", Figure(length_m, "length")
    yield f"{name} width", Figure(width_m, "small-length")
    yield f"{name} depth", Figure(depth_m, "small-length")
