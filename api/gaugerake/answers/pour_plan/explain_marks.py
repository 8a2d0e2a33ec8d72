"""How the marks of a pour came about."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from gaugerake.answers.job.sources import GEOMETRY
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.pour_plan.explain import MOST_POURS_EXPLAINED
from gaugerake.answers.pour_plan.marks import ListedMarks
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer
from gaugerake.floor.layers.filling import fill_of
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.windows import Part
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value


def explain_marks(takeoff: Takeoff, judged: Judged, marked: ListedMarks) -> Iterator[Working]:
    """The working of the marks of every pour that has some; its result is the last of them."""
    for index, (layer, part) in enumerate(islice(judged.parts(), MOST_POURS_EXPLAINED)):
        found = marked.parts[index]
        if found:
            inputs = _inputs(takeoff, layer, part.part)
            last = Figure(found[-1].likely_m, Kind.LENGTH)
            yield working(f"/pours/{index}/marks", "rule-pour-marks", inputs, last, GEOMETRY)


def _inputs(takeoff: Takeoff, layer: JudgedLayer, part: Part) -> dict[str, Value]:
    room, pour = takeoff.rooms[part.pour.room], layer.site.pour
    fill = fill_of(build=takeoff.build, layer=layer.site.layer, room=room)
    thickness_m = room.thickness_m or 0.0
    return {
        "low yield": Figure(pour.yield_m3.low, Kind.VOLUME),
        "likely yield": Figure(pour.yield_m3.likely, Kind.VOLUME),
        "high yield": Figure(pour.yield_m3.high, Kind.VOLUME),
        "thickness": Figure(thickness_m, Kind.SMALL_LENGTH),
        "share": pour.share_fraction,
        "profile depth": Figure(fill.depth_m - thickness_m * pour.share_fraction, Kind.FILM),
        "keyway section": Figure(fill.section_m2, Kind.SMALL_AREA),
        "area": Figure(room.area_m2, Kind.AREA),
        "keyway": Figure(room.keyway_length_m, Kind.LENGTH),
        "used before": Figure(part.used_mixes, Kind.MIX),
        "room takes": Figure(part.takes_mixes, Kind.MIX),
    }
