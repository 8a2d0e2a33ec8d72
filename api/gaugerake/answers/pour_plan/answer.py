"""The pour plan: whether the wet edge holds, what would make it hold, and the clock of every mix."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Annotated, Literal

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_plan.cautions import hazard_remarks, never_remarks, pour_remarks, remedy_remarks
from gaugerake.answers.pour_plan.change import CombinedPourRemedy, PourRemedy
from gaugerake.answers.pour_plan.explain import explain_pours
from gaugerake.answers.pour_plan.explain_marks import explain_marks
from gaugerake.answers.pour_plan.least_crew import FoundCrew, LeastCrew, explain_least, least_crew, least_remarks
from gaugerake.answers.pour_plan.marks import MOST_MARKS, ListedMarks, MixMark, mark, mark_remarks
from gaugerake.answers.pour_plan.mix_clock import Mix, PourClock, mixes, pour_clock
from gaugerake.answers.pour_plan.people import manned, people_remarks
from gaugerake.answers.pour_plan.remedies import Freed, free
from gaugerake.answers.pour_plan.search import Search
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.wet_edge.hands import too_few
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer, JudgedPart, beyond_any_crew, judge
from gaugerake.answers.wet_edge.site import clock_zone, pour_site, site_remarks
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Words

Bottleneck = Literal["mixing", "placing", "casting", "open-time", "people"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourLane:
    """A lane across the room: its width along the wet edge, its depth forward, and the floor of one."""

    width: Annotated[Figure, "Along the wet edge, across the room or the strip."]
    depth: Annotated[Figure, "How far a lane goes forward, as `work.crew.lane_depth` says."]
    area: Annotated[Figure, "Width by depth: the floor that is placed before the edge is met again."]
    strips: Annotated[
        int, "Strips that the room is poured in, none wider than this, each stopped at a joint or keyway."
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """What is poured of one room without a stop."""

    layer: Annotated[str, "The id of the body layer."]
    room: Annotated[Words, "The room, as the job names it or by its number."]
    first_mix: Annotated[int, "The first mix that reaches the room; one begun for the room before counts too."]
    last_mix: Annotated[int, "The last mix that reaches the room; it may run on into the next one."]
    mixes: Annotated[int, "How many mixes reach the room."]
    from_: Annotated[datetime | None, "When the first of them is begun; null without `work.start`."]
    until: Annotated[datetime | None, "When the mix after the last would be begun."]
    after: Annotated[Figure, "From the first mix of the plan to the first of this pour."]
    mix_area: Annotated[Figure, "The floor that one mix covers."]
    cadence: Annotated[Figure, "From one mix to the next."]
    lane: Annotated[PourLane, "The lane that the crew places before it begins the next one."]
    overtaken_after: Annotated[Figure, "From the first mix of a lane to the one beside it in the next lane."]
    needed: Annotated[Figure, "That, the wait to the pour and the placing of one mix: what must fit in the open time."]
    open_time: Annotated[Figure | None, "How long the material surely stays open; null when its maker does not say."]
    temperature: Annotated[Figure, "The hotter of floor and material during the pour, at which the open time is read."]
    holds: Annotated[bool | None, "Whether the wet edge is met in time; null when nobody can say."]
    stops_at: Annotated[
        Literal["room", "joint", "end"] | None,
        "Where work stops after it: between rooms, at a joint or keyway within the room, at the end; null: it goes on.",
    ]
    marks: Annotated[
        tuple[MixMark, ...] | None,
        f"How far the floor stands after each mix, where the room's `pour` says its way: the first {MOST_MARKS:,} of an"
        " answer; null in a quote.",
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourPlan:
    """How to pour the body, room by room and mix by mix."""

    feasible: Annotated[
        bool | None, "Whether every wet edge holds and there are people enough; null when an open time is not stated."
    ]
    bottleneck: Annotated[
        Bottleneck | None,
        "What keeps it from holding; `open-time`: no crew could hold it; `people`: it takes more of them.",
    ]
    remedies: Annotated[
        tuple[PourRemedy | CombinedPourRemedy, ...],
        "What would make the pour feasible, each of them enough alone; empty where it is, or nothing would.",
    ]
    least_crew: Annotated[
        LeastCrew | None,
        "The smallest crew with which every edge holds; null where 50 stations do not, or nobody can say.",
    ]
    cadence: Annotated[Figure | None, "From one mix to the next in the slowest room; null without a poured body."]
    pours: Annotated[
        tuple[Pour, ...], "One for each stretch of a room that is poured without a stop, in the order of time."
    ]
    mixes: Annotated[tuple[Mix, ...] | None, "The clock of every mix; null in a quote."]


def pour_plan(timetable: Timetable, *, with_mixes: bool = True, explained: bool = False) -> Answer[PourPlan]:
    """How to pour the body of a job; a system without a poured body has nothing that could fail.

    A quote is ``with_mixes=False``: it lists no mixes, and its other parts tell of hazards and of work that never
    begins.

    Raises
    ------
    Refused
        When the job's times, temperatures or shifts mean something that cannot be.
    """
    resolved, takeoff = timetable.resolved, timetable.takeoff
    site = pour_site(resolved, takeoff, timetable.runs.likely)
    judged = judge(takeoff, site)
    search = Search(timetable, site, judged) if site.layers else None
    freed = None if search is None or judged.worst is None else free(search)
    least = FoundCrew(crew=None) if search is None else least_crew(search, judged)
    clock = pour_clock(judged, clock_zone(resolved))
    listed = mixes(takeoff, site, judged, clock) if with_mixes else None
    marked = mark(resolved, takeoff, judged) if with_mixes else None
    remarks = (
        *timetable.work_remarks,
        *site_remarks(resolved, site),
        *pour_remarks(resolved, takeoff, judged),
        *(() if marked is None else mark_remarks(marked)),
        *(_said_alone(timetable, judged) if with_mixes else ()),
        *(() if freed is None else remedy_remarks(resolved, freed)),
        *people_remarks(resolved, takeoff),
        *least_remarks(least),
    )
    working = (*explain_pours(takeoff, site, judged), *explain_least(timetable, least)) if explained else ()
    if explained and marked is not None:
        working += tuple(explain_marks(takeoff, judged, marked))
    return Answer(
        body=_body(resolved, takeoff, judged, clock, freed, least, listed, marked), remarks=remarks, working=working
    )


def _said_alone(timetable: Timetable, judged: Judged) -> Iterator[Remark]:
    """The remarks that other parts of a quote make, for a pour plan asked for alone."""
    yield from never_remarks(timetable.resolved, judged, timetable.runs.likely)
    yield from hazard_remarks(timetable.takeoff)


def _body(
    resolved: ResolvedJob,
    takeoff: Takeoff,
    judged: Judged,
    clock: PourClock,
    freed: Freed | None,
    least: FoundCrew,
    mixes: tuple[Mix, ...] | None,
    marked: ListedMarks | None,
) -> PourPlan:
    short = too_few(resolved, takeoff)
    return PourPlan(
        feasible=False if short else judged.feasible,
        bottleneck="people" if short else _bottleneck(judged),
        remedies=manned(resolved, takeoff, judged, () if freed is None else freed.remedies),
        least_crew=least.crew,
        cadence=None if judged.slowest_s is None else Figure(judged.slowest_s, Kind.MINUTES),
        pours=tuple(
            _pour(takeoff, clock, layer, part, None if marked is None else marked.shown(index))
            for index, (layer, part) in enumerate(judged.parts())
        ),
        mixes=mixes,
    )


def _bottleneck(judged: Judged) -> Bottleneck | None:
    """The larger term of the worst pour's cadence, unless no crew could hold it."""
    worst = judged.worst
    if worst is None:
        return None
    layer, part = worst
    if beyond_any_crew(layer.site, part):
        return "open-time"
    return part.part.pour.pace.slower.value


def _pour(
    takeoff: Takeoff,
    clock: PourClock,
    layer: JudgedLayer,
    judged: JudgedPart,
    marks: tuple[MixMark, ...] | None,
) -> Pour:
    part, edge = judged.part, judged.edge
    pour = part.pour
    return Pour(
        layer=layer.site.layer.id,
        room=takeoff.rooms[pour.room].name,
        first_mix=part.first_mix,
        last_mix=part.last_mix,
        mixes=part.mix_count,
        from_=clock.instant(part.begins_s),
        until=clock.instant(part.ends_s),
        after=Figure(part.begins_s - clock.first_s, Kind.MINUTES),
        mix_area=Figure(pour.pace.mix_area_m2, Kind.AREA),
        cadence=Figure(pour.pace.cadence_s, Kind.MINUTES),
        lane=PourLane(
            width=Figure(pour.lane.width_m, Kind.LENGTH),
            depth=Figure(pour.lane.depth_m, Kind.LENGTH),
            area=Figure(pour.lane.area_m2, Kind.AREA),
            strips=pour.lane.strip_count,
        ),
        overtaken_after=Figure(edge.overtaken_after_s, Kind.MINUTES),
        needed=Figure(edge.needed_s, Kind.MINUTES),
        open_time=None if edge.open_time_s is None else Figure(edge.open_time_s, Kind.MINUTES),
        temperature=Figure(judged.hotter_k, Kind.TEMPERATURE),
        holds=edge.holds,
        stops_at=None if judged.stop is None else judged.stop.value,
        marks=marks,
    )
