"""The figures of a pour under way, from which its answer, its advice and its working are made."""

from __future__ import annotations

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_progress.pace import SeenPace, ending, paced
from gaugerake.answers.pour_progress.place import Rooms, StopAt, edge_said, last_stop, poured_rooms
from gaugerake.answers.pour_progress.resolve import ResolvedProgress, resolve_progress
from gaugerake.answers.pour_progress.stock import MixesLeft, Purchase, bought, product_order, stock_of
from gaugerake.answers.quantities.offered import Offers
from gaugerake.answers.quantities.order import order_of
from gaugerake.floor.clock.ongoing import Ending
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.pour.progress import (
    PourEdge,
    Volumes,
    edge_at_volume,
    mixes_needed,
    stretched_fraction,
    volumes,
)
from gaugerake.floor.pour.under_way import Progress
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import Zone
from gaugerake.floor.values.note import Words
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD, whole

FAR_FRACTION = 0.25
"""A yield that is farther outside the maker's range is taken for a miscount."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgressFigures:
    """A pour under way, worked out. ``end``, ``stop`` and ``fraction`` are None where the material suffices."""

    resolved: ResolvedJob
    progress: ResolvedProgress
    takeoff: Takeoff
    need: LayerNeed
    rooms: Rooms
    edge: PourEdge
    volumes: Volumes
    needed: Triple
    stock: MixesLeft
    offers: Offers
    bought: Purchase
    end: PourEdge | None
    stop: StopAt | None
    fraction: float | None
    pace: SeenPace
    finish: Ending | None
    end_of_material: Ending | None

    @property
    def mix_count(self) -> int:
        """The mixes that are placed."""
        return self.progress.mix_count

    @property
    def yield_m3(self) -> Triple:
        """What a mix makes, by its maker [m³]."""
        assert self.need.layer.pour is not None, "progress is of a layer that is poured"
        return self.need.layer.pour.yield_m3

    @property
    def yield_seen_m3(self) -> float:
        """What a mix has made so far [m³]."""
        return self.volumes.placed_m3 / self.mix_count

    @property
    def within(self) -> bool:
        """Whether that is what its maker states."""
        return self._within(0.0)

    @property
    def doubtful(self) -> bool:
        """Whether it is so far from that, that the count is to be looked at first."""
        return not self._within(FAR_FRACTION)

    def _within(self, beyond_fraction: float) -> bool:
        low, high = self.yield_m3.low * (1 - beyond_fraction), self.yield_m3.high * (1 + beyond_fraction)
        return low * (1 - GUARD) <= self.yield_seen_m3 <= high * (1 + GUARD)

    @property
    def coverage_m2(self) -> float:
        """The floor that a mix has covered so far [m²]."""
        return self.volumes.placed_m2 / self.mix_count

    @property
    def planned_coverage_m2(self) -> float:
        """The floor that a mix of the likely yield would have covered there [m²]."""
        return self.volumes.placed_m2 * self.yield_m3.likely / self.volumes.placed_m3

    @property
    def likely_count(self) -> int:
        """The likely need of the rest in whole mixes."""
        return whole(self.needed.likely)

    @property
    def over_count(self) -> int:
        """The mixes that are left over; negative when they do not suffice."""
        return self.stock.left_count - self.likely_count

    @property
    def tight_count(self) -> int:
        """The mixes that lack at the high need."""
        return max(0, whole(self.needed.high) - self.stock.left_count)

    @property
    def thinnest_m(self) -> float:
        """The least thickness of any room that is not complete [m]."""
        begun = self.edge.room
        left = [room.thickness_m for room in self.rooms[begun + 1 :]]
        here = self.rooms[begun]
        return min([*left, here.thickness_m] if self.edge.behind.area_m2 < here.area_m2 * (1 - GUARD) else left)

    @property
    def stretched_m(self) -> float | None:
        """The thickness at which the rest just suffices [m]."""
        return None if self.fraction is None else self.fraction * self.thinnest_m

    @property
    def stretch_allowed(self) -> bool:
        """Whether the system may be placed so thin."""
        low_m = self.lowest_m
        return self.stretched_m is not None and low_m is not None and self.stretched_m >= low_m * (1 - GUARD)

    @property
    def lowest_m(self) -> float | None:
        """The least thickness of the system [m]."""
        thickness = self.resolved.system.thickness
        return None if thickness is None else thickness.low_m

    @property
    def zone(self) -> Zone:
        """The zone of the job's instants."""
        return self.resolved.work.zone.value

    def name_of(self, room: int) -> Words:
        """What a room is called."""
        return self.takeoff.rooms[room].name


def progress_figures(resolved: ResolvedJob, takeoff: Takeoff, said: Progress) -> ProgressFigures:
    """Work out the figures of a pour under way.

    Raises
    ------
    Refused
        When what is said of it cannot be.
    """
    progress = resolve_progress(resolved, said)
    need = next(one for one in takeoff.layers if one.layer.id == progress.layer.value.id)
    rooms = poured_rooms(resolved, takeoff, need.layer)
    edge = edge_said(progress, rooms)
    seen = volumes(rooms=rooms, edge=edge)
    needed = mixes_needed(placed_m3=seen.placed_m3, rest_m3=seen.rest_m3, mix_count=said.mixes)
    order = order_of(resolved, takeoff)
    product = product_order(order, need)
    stock = stock_of(progress, product, need)
    left_m3 = stock.left_count * seen.placed_m3 / said.mixes
    short = stock.left_count < whole(needed.likely)
    end = edge_at_volume(rooms=rooms, volume_m3=seen.placed_m3 + left_m3) if short else None
    pace = paced(resolved, progress, takeoff, need, edge.room, seen.placed_m2 / said.mixes)
    return ProgressFigures(
        resolved=resolved,
        progress=progress,
        takeoff=takeoff,
        need=need,
        rooms=rooms,
        edge=edge,
        volumes=seen,
        needed=needed,
        stock=stock,
        offers=order.offers,
        bought=bought(resolved, product, need, needed, stock),
        end=end,
        stop=None if end is None else last_stop(resolved, takeoff, rooms, edge, end),
        fraction=stretched_fraction(rest=seen, left_m3=left_m3) if short else None,
        pace=pace,
        finish=ending(resolved, pace, whole(needed.likely)),
        end_of_material=ending(resolved, pace, stock.left_count),
    )
