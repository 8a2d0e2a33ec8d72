"""What narrower lanes add: the edges of their strips are new terminations, which the job's order does not hold yet."""

from __future__ import annotations

import math

from gaugerake.answers.pour_plan.change import PourRemedy
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.wet_edge.judge import edges_length_m
from gaugerake.floor.pour.edge import lane
from gaugerake.floor.room.keyway import keyway_volume
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.figure import Bound, Figure, Kind, Telling, Told
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.note import Say


def with_new_edges(search: Search, remedy: PourRemedy) -> PourRemedy:
    """A narrower pour with the length of its new edges, and the mixes that their keyways take; others as they are."""
    width = remedy.value
    if remedy.kind != "narrower-pour" or not isinstance(width, Figure):
        return remedy
    lengths_m = [_new_edges_m(search, room, width.value) for room in search.takeoff.rooms]
    if not any(lengths_m):
        return remedy  # the strips are as many as before, and only narrower
    length = Told(math.fsum(lengths_m), Kind.LENGTH, Telling.MARK)
    params = {**remedy.text.params, "length": length}
    keyway = search.resolved.system.keyway
    if keyway is None:
        return replace(remedy, text=Say(code="pour-remedy-narrower-with-edges", params=params))
    volume_m3 = math.fsum(
        keyway_volume(length_m=length_m, ratio=keyway.ratio, thickness_m=room.thickness_m or 0.0)
        for length_m, room in zip(lengths_m, search.takeoff.rooms, strict=True)
    )
    first = search.site.layers[0]
    waste = search.resolved.order.waste_fraction.value
    mixes = Bound(volume_m3 / first.pour.yield_m3.likely * (1 + waste), Kind.MIX, low=True)
    params |= {"mixes": mixes, "layer": first.layer.name}
    return replace(remedy, text=Say(code="pour-remedy-narrower-with-keyway", params=params))


def _new_edges_m(search: Search, room: RoomTakeoff, width_m: float) -> float:
    """The new edges between strips of a room [m]."""
    depth_m = search.crew.lane_depth_m
    now, then = (
        lane(shorter_side_m=room.shorter_side_m, depth_m=depth_m, widest_m=widest_m)
        for widest_m in (search.crew.widest_lane_m, width_m)
    )
    return edges_length_m(room, then.strip_count - now.strip_count)
