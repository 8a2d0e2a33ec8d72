"""How the figures of a pour under way came about."""

from __future__ import annotations

import math
from collections.abc import Iterator

from gaugerake.answers.job.sources import CLOCK, GEOMETRY, JOB, PRACTICE, product_source
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.pour_progress.figures import ProgressFigures
from gaugerake.floor.clock.ongoing import Ending
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value

Inputs = dict[str, Value]


def explain_progress(found: ProgressFigures) -> Iterator[Working]:
    """The working of every figure."""
    yield from _floor(found)
    yield from _mix(found)
    yield from _need(found)
    yield from _stock(found)
    yield from _end(found)
    yield from _pace(found)


def _floor(found: ProgressFigures) -> Iterator[Working]:
    edge, sizes = found.edge, found.volumes
    here, before = found.rooms[edge.room], found.rooms[: edge.room]
    placed: Inputs = {
        "complete rooms": _area(math.fsum(room.area_m2 for room in before)),
        "here": _area(edge.behind.area_m2),
    }
    yield working("/placed/area", "rule-progress-placed-area", placed, _area(sizes.placed_m2), GEOMETRY)
    if edge.to_m is not None:
        yield working("/placed/to", "rule-progress-edge", placed, _length(edge.to_m), GEOMETRY)
    depths: Inputs = {
        "complete rooms": _volume(math.fsum(room.volume_m3 for room in before)),
        "here": _area(edge.behind.area_m2),
        "thickness": Figure(here.thickness_m, Kind.SMALL_LENGTH),
        "share": here.share_fraction,
        "profile depth": Figure(here.fill.depth_m - here.thickness_m * here.share_fraction, Kind.FILM),
        "keyway": _length(edge.behind.groove_m),
        "keyway section": Figure(here.fill.section_m2, Kind.SMALL_AREA),
    }
    yield working("/placed/volume", "rule-progress-placed-volume", depths, _volume(sizes.placed_m3), GEOMETRY)
    rest: Inputs = {"whole": _area(math.fsum(room.area_m2 for room in found.rooms)), "placed": _area(sizes.placed_m2)}
    yield working("/rest/area", "rule-progress-rest", rest, _area(sizes.rest_m2), GEOMETRY)
    rest = {"whole": _volume(math.fsum(room.volume_m3 for room in found.rooms)), "placed": _volume(sizes.placed_m3)}
    yield working("/rest/volume", "rule-progress-rest", rest, _volume(sizes.rest_m3), GEOMETRY)


def _mix(found: ProgressFigures) -> Iterator[Working]:
    sizes, sheet = found.volumes, product_source(found.need.layer.product.code)
    mixes = Figure(found.mix_count, Kind.MIX)
    seen: Inputs = {"placed": _area(sizes.placed_m2), "mixes": mixes}
    yield working("/coverage/seen", "rule-progress-by-mix", seen, _area(found.coverage_m2), PRACTICE)
    likely = _volume(found.yield_m3.likely)
    planned: Inputs = {"placed": _area(sizes.placed_m2), "likely yield": likely, "volume": _volume(sizes.placed_m3)}
    yield working("/coverage/planned", "rule-progress-planned", planned, _area(found.planned_coverage_m2), sheet)
    seen = {"placed": _volume(sizes.placed_m3), "mixes": mixes}
    yield working("/yield/seen", "rule-progress-by-mix", seen, _volume(found.yield_seen_m3), PRACTICE)
    for column in ("low", "likely", "high"):
        stated = _volume(found.yield_m3.column(column))
        yield working(f"/yield/{column}", "rule-progress-stated", {"stated": stated}, stated, sheet)


def _need(found: ProgressFigures) -> Iterator[Working]:
    sizes, needed = found.volumes, found.needed
    columns = (("low", needed.low, -0.5), ("likely", needed.likely, 0.0), ("high", needed.high, 0.5))
    for column, count, miscount in columns:
        inputs: Inputs = {
            "rest": _volume(sizes.rest_m3),
            "placed": _volume(sizes.placed_m3),
            "mixes": Figure(found.mix_count, Kind.MIX),
            "miscount": miscount,
        }
        yield working(f"/mixes_needed/{column}", "rule-progress-needed", inputs, Figure(count, Kind.MIX), PRACTICE)


def _stock(found: ProgressFigures) -> Iterator[Working]:
    held, left = found.stock.held_count, found.stock.left_count
    if held is None:
        yield working("/mixes_left", "rule-progress-left-said", {"left": left}, left, JOB)
    else:
        inputs: Inputs = {"held": held, "mixes": found.mix_count}
        yield working("/mixes_left", "rule-progress-left", inputs, left, PRACTICE)
    over: Inputs = {"left": left, "likely": Figure(found.needed.likely, Kind.MIX)}
    yield working("/over", "rule-progress-over", over, found.over_count, PRACTICE)
    if found.bought.count > 0:
        bought: Inputs = {"high": Figure(found.needed.high, Kind.MIX), "left": left}
        yield working("/buy", "rule-progress-buy", bought, found.bought.count, PRACTICE)


def _end(found: ProgressFigures) -> Iterator[Working]:
    end, stop, left = found.end, found.stop, found.stock.left_count
    if end is None:
        return
    if end.to_m is not None:
        inputs: Inputs = {
            "placed": _volume(found.volumes.placed_m3),
            "left": left,
            "yield seen": _volume(found.yield_seen_m3),
        }
        yield working("/ends/to", "rule-progress-ends", inputs, _length(end.to_m), GEOMETRY)
        if stop is not None and stop.to_m is not None:
            place: Inputs = {"ends": _length(end.to_m), "what": stop.what}
            yield working("/stop_at/to", "rule-progress-stop", place, _length(stop.to_m), PRACTICE)
    yield from _stretch(found)


def _stretch(found: ProgressFigures) -> Iterator[Working]:
    if found.stretched_m is None:
        return
    sizes = found.volumes
    inputs: Inputs = {
        "left": found.stock.left_count,
        "yield seen": _volume(found.yield_seen_m3),
        "profile and keyways": _volume(sizes.rest_m3 - sizes.rest_above_m3),
        "floor": _volume(sizes.rest_above_m3),
        "thickness": Figure(found.thinnest_m, Kind.SMALL_LENGTH),
    }
    stretched = Figure(found.stretched_m, Kind.SMALL_LENGTH)
    yield working("/stretch/thickness", "rule-progress-stretch", inputs, stretched, GEOMETRY)


def _pace(found: ProgressFigures) -> Iterator[Working]:
    pace = found.pace
    planned = pace.planned.pace
    inputs: Inputs = {
        "mixing": _minutes(planned.mixing_s),
        "placing": _minutes(planned.placing_s),
        "casting": _minutes(planned.casting_s),
    }
    yield working("/cadence/planned", "rule-progress-cadence", inputs, _minutes(planned.cadence_s), PRACTICE)
    if pace.seen_s is not None and pace.at_s is not None and pace.began_s is not None:
        seen: Inputs = {"passed": _minutes(pace.at_s - pace.began_s), "mixes": Figure(found.mix_count, Kind.MIX)}
        yield working("/cadence/seen", "rule-progress-by-mix", seen, _minutes(pace.seen_s), PRACTICE)
    yield from _ending(found, "/finish", found.finish, found.likely_count)
    if found.end is not None:
        yield from _ending(found, "/ends/at", found.end_of_material, found.stock.left_count)


def _ending(found: ProgressFigures, figure: str, ending: Ending | None, mix_count: int) -> Iterator[Working]:
    if ending is None or found.pace.at_s is None:
        return
    inputs: Inputs = {
        "at": _told(found, found.pace.at_s),
        "mixes": Figure(mix_count, Kind.MIX),
        "cadence": _minutes(found.pace.cadence_s),
    }
    yield working(figure, "rule-progress-finish", inputs, _told(found, ending.at_s), CLOCK)


def _told(found: ProgressFigures, at_s: float) -> str:
    return found.zone.datetime_at(at_s).isoformat(timespec="seconds")


def _area(area_m2: float) -> Figure:
    return Figure(area_m2, Kind.AREA)


def _volume(volume_m3: float) -> Figure:
    return Figure(volume_m3, Kind.VOLUME)


def _length(length_m: float) -> Figure:
    return Figure(length_m, Kind.LENGTH)


def _minutes(time_s: float) -> Figure:
    return Figure(time_s, Kind.MINUTES)
