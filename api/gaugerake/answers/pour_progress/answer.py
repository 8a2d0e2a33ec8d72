"""Progress of a pour: what a mix really covers, how many more it takes, where the material ends, where to stop."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_progress.advice import advise, progress_remarks
from gaugerake.answers.pour_progress.explain import explain_progress
from gaugerake.answers.pour_progress.figures import ProgressFigures, progress_figures
from gaugerake.answers.pour_progress.place import StopKind
from gaugerake.answers.quantities.lines import OrderLine
from gaugerake.answers.quote.faults import job_faults, refusing_all
from gaugerake.answers.takeoff.measure import measure_job
from gaugerake.answers.takeoff.survey import survey_rooms
from gaugerake.floor.clock.ongoing import Ending
from gaugerake.floor.pour.under_way import Progress
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note, Words


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedFloor:
    """What is placed, and where its edge stands."""

    room: Annotated[Words, "The room in which the edge stands, as the job names it or by its number."]
    to: Annotated[Figure | None, "From the side that the pour began at; null where the room's way is not said."]
    area: Annotated[Figure, "Net floor that is placed, in all rooms."]
    volume: Annotated[Figure, "What that floor takes, with profile and keyways."]


@dataclass(frozen=True, slots=True, kw_only=True)
class RestOfFloor:
    """What is not placed yet."""

    area: Annotated[Figure, "Net floor of all rooms, less what is placed."]
    volume: Annotated[Figure, "What that floor takes, without waste."]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixCoverage:
    """Floor by mix."""

    seen: Annotated[Figure, "The floor that is placed, by the mixes that made it."]
    planned: Annotated[Figure, "What the likely yield would cover of the floor that is placed."]


@dataclass(frozen=True, slots=True, kw_only=True)
class YieldSeen:
    """What a mix makes, beside what its maker states."""

    seen: Annotated[Figure, "The volume of the floor that is placed, by the mixes that made it."]
    low: Annotated[Figure, "The least that a mix makes by its maker."]
    likely: Annotated[Figure, "What a mix most likely makes by its maker."]
    high: Annotated[Figure, "The most that a mix makes by its maker."]
    within: Annotated[bool, "Whether the yield seen is from low to high."]


@dataclass(frozen=True, slots=True, kw_only=True)
class MoreMixes:
    """Mixes that the rest takes at the yield seen, unrounded; low and high with half a mix less and more counted."""

    low: Annotated[Figure, "If half a mix less than was counted made what is placed."]
    likely: Annotated[Figure, "If what is placed took the mixes that were counted."]
    high: Annotated[Figure, "If half a mix more than was counted made what is placed."]


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialEnd:
    """Where the material runs out at the yield seen."""

    room: Annotated[Words, "The room in which the last mix ends, as the job names it or by its number."]
    to: Annotated[Figure | None, "From the side that the pour began at; null where the room's way is not said."]
    at: Annotated[datetime | None, "When, at the pace seen or else planned; null without `at`."]


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPlace:
    """The last place to stop at before the material runs out."""

    room: Annotated[Words, "The room to stop in, as the job names it or by its number."]
    to: Annotated[Figure | None, "From the side that the pour began at; null where the room's way is not said."]
    what: Annotated[StopKind, "A joint that lies along the edge, or the room's end."]


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchedFloor:
    """How thin the rest of the floor may be placed."""

    thickness: Annotated[
        Figure, "Of the whole floor, in the thinnest room of the rest: with it the rest just suffices."
    ]
    allowed: Annotated[bool, "Whether the system may be placed so thin."]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPace:
    """From one mix to the next."""

    seen: Annotated[Figure | None, "Null without `began` and `at`."]
    planned: Annotated[Figure, "By the crew's rates, in the room where the edge stands."]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourProgress:
    """How far a pour has come, and what to do."""

    layer: Annotated[str, "The id of the body layer."]
    placed: Annotated[PlacedFloor, "The floor that is done."]
    rest: Annotated[RestOfFloor, "The floor that is still to be placed."]
    coverage: Annotated[MixCoverage, "The floor that one mix covers."]
    yield_: Annotated[YieldSeen, "The volume that one mix makes."]
    mixes_needed: Annotated[MoreMixes, "How many more mixes the rest of the floor takes."]
    mixes_left: Annotated[int, "As said, or what the order holds for the layer less what is poured."]
    over: Annotated[int, "Mixes left less the likely need, rounded up; negative when it runs short."]
    ends: Annotated[MaterialEnd | None, "Null when it suffices."]
    stop_at: Annotated[StopPlace | None, "Null when it suffices, or there is none."]
    stretch: Annotated[StretchedFloor | None, "Null when it suffices, or nothing is left for the floor."]
    buy: Annotated[tuple[OrderLine, ...], "The cheapest packs that cover the high need, with what is left."]
    cadence: Annotated[MixPace, "The time from one mix to the next."]
    finish: Annotated[datetime | None, "When the likely need is placed, within working hours; null without `at`."]
    edge_holds: Annotated[bool | None, "Whether the wet edge holds at the pace seen; null where nobody can say."]
    advice: Annotated[tuple[Note, ...], "What is true now and what to do, worst first."]


@refusing_all(job_faults)
def pour_progress(resolved: ResolvedJob, progress: Progress, *, explained: bool = False) -> Answer[PourProgress]:
    """How far a pour has come.

    Raises
    ------
    Refused
        When the job or what is said of its progress means something that cannot be.
    """
    measured = measure_job(resolved, survey_rooms(resolved.rooms))
    found = progress_figures(resolved, measured.takeoff, progress)
    remarks = (*measured.remarks, *progress_remarks(found))
    working = tuple(explain_progress(found)) if explained else ()
    return Answer(body=_body(found), remarks=remarks, working=working)


def _body(found: ProgressFigures) -> PourProgress:
    return PourProgress(
        layer=found.need.layer.id,
        placed=_placed(found),
        rest=_rest(found),
        coverage=_coverage(found),
        yield_=_yield(found),
        mixes_needed=_mixes_needed(found),
        mixes_left=found.stock.left_count,
        over=found.over_count,
        ends=_ends(found),
        stop_at=_stop(found),
        stretch=_stretched(found),
        buy=found.bought.lines,
        cadence=_cadence(found),
        finish=_instant(found, found.finish),
        edge_holds=None if found.pace.edge is None else found.pace.edge.holds,
        advice=tuple(advise(found)),
    )


def _placed(found: ProgressFigures) -> PlacedFloor:
    edge, volumes = found.edge, found.volumes
    area, volume = Figure(volumes.placed_m2, Kind.AREA), Figure(volumes.placed_m3, Kind.VOLUME)
    return PlacedFloor(room=found.name_of(edge.room), to=_length(edge.to_m), area=area, volume=volume)


def _rest(found: ProgressFigures) -> RestOfFloor:
    volumes = found.volumes
    return RestOfFloor(area=Figure(volumes.rest_m2, Kind.AREA), volume=Figure(volumes.rest_m3, Kind.VOLUME))


def _coverage(found: ProgressFigures) -> MixCoverage:
    seen, planned = Figure(found.coverage_m2, Kind.AREA), Figure(found.planned_coverage_m2, Kind.AREA)
    return MixCoverage(seen=seen, planned=planned)


def _yield(found: ProgressFigures) -> YieldSeen:
    stated = found.yield_m3
    return YieldSeen(
        seen=Figure(found.yield_seen_m3, Kind.VOLUME),
        low=Figure(stated.low, Kind.VOLUME),
        likely=Figure(stated.likely, Kind.VOLUME),
        high=Figure(stated.high, Kind.VOLUME),
        within=found.within,
    )


def _mixes_needed(found: ProgressFigures) -> MoreMixes:
    low, likely, high = (
        Figure(count, Kind.MIX) for count in (found.needed.low, found.needed.likely, found.needed.high)
    )
    return MoreMixes(low=low, likely=likely, high=high)


def _stretched(found: ProgressFigures) -> StretchedFloor | None:
    if found.stretched_m is None:
        return None
    return StretchedFloor(thickness=Figure(found.stretched_m, Kind.SMALL_LENGTH), allowed=found.stretch_allowed)


def _cadence(found: ProgressFigures) -> MixPace:
    seen_s, planned_s = found.pace.seen_s, found.pace.planned.pace.cadence_s
    seen = None if seen_s is None else Figure(seen_s, Kind.MINUTES)
    return MixPace(seen=seen, planned=Figure(planned_s, Kind.MINUTES))


def _ends(found: ProgressFigures) -> MaterialEnd | None:
    if found.end is None:
        return None
    return MaterialEnd(
        room=found.name_of(found.end.room), to=_length(found.end.to_m), at=_instant(found, found.end_of_material)
    )


def _stop(found: ProgressFigures) -> StopPlace | None:
    stop = found.stop
    return None if stop is None else StopPlace(room=found.name_of(stop.room), to=_length(stop.to_m), what=stop.what)


def _length(at_m: float | None) -> Figure | None:
    return None if at_m is None else Figure(at_m, Kind.LENGTH)


def _instant(found: ProgressFigures, ending: Ending | None) -> datetime | None:
    return None if ending is None else found.zone.datetime_at(ending.at_s)
