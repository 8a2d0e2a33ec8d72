"""Asks about a pour again with the work changed, and no more often than a request should.

How often is counted, not timed: runs of the timetable for each kind of remedy, and steps for all kinds together. Where
either ends before the search does, the answer says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import course_of, material_temperature_of
from gaugerake.answers.pour_plan.change import PourRemedy, Try
from gaugerake.answers.pour_plan.judge import Judged, JudgedLayer, JudgedPart, PourSite, edge_of, holds, room_pour
from gaugerake.answers.pour_plan.site import hands_of, pour_site, pour_site_alone
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.job import Work
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.edge import Pace, WetEdge

MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""And how many rooms that may be in all: a job of very many rooms is asked again less often."""

MOST_STEPS = 40_000
"""Of the clock's and of the judgement of edges, for all kinds together."""
STEPS_A_ROOM = 3
"""What planning, pouring and judging a room of a layer takes beside finding its hours."""


class Search:
    """Asks again with the work changed."""

    def __init__(self, context: Context, judged: Judged) -> None:
        self.context = context
        self.takeoff = context.shared(take_off)
        self.site: PourSite = context.shared(pour_site)
        self.work = context.job.work
        self.budget = Budget(MOST_STEPS)
        self.left_unasked = False  # the runs of the timetable that one kind may have were too few
        self.hands = self.site.layers[0].hands
        self.parts = [part for _, part in judged.parts()]
        self._hardest_first = [_hardest_first(self.takeoff, layer) for layer in judged.layers]

    @property
    def steady(self) -> bool:
        """Whether the floor's temperature is the same at all hours."""
        return isinstance(self.site.course, SteadyCourse)

    @property
    def ended_early(self) -> bool:
        """Whether there was more to look at than one answer may."""
        return self.left_unasked or self.budget.ended

    def asks(self, most: int) -> int:
        """How often the timetable may be run again for a job of so many rooms."""
        return min(most, math.ceil(MOST_ROOMS_ASKED / len(self.takeoff.rooms)))

    def first(self, tries: Iterable[Try], *, base: Work | None = None, asked: int = MOST_ASKED) -> PourRemedy | None:
        """The first try that holds, within so many runs of the timetable."""
        asked = self.asks(asked)
        for attempt in tries:
            if not self.budget.allows():
                return None
            changed = self.changed(attempt.change(base or self.work))
            if not self.could_hold(changed):
                continue  # not even at the lowest temperature there is: no need to run the timetable
            if asked == 0:
                self.left_unasked = True
                return None
            asked -= 1
            if self.holds(changed):
                return attempt.remedy
        return None

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of those that leave the timetable as it is."""
        for attempt in tries:
            if not self.budget.allows():
                return None
            changed = self.context.with_work(attempt.change(self.work), keep=(take_off, course_of))
            if self.lost_edge(changed) is None:
                return attempt.remedy
        return None

    def changed(self, work: Work) -> Context:
        """The job with other work; a floor that is not changed is not read again, as a log is long."""
        same_floor = work.temperatures is self.work.temperatures
        return self.context.with_work(work, keep=(take_off, course_of) if same_floor else (take_off,))

    def holds(self, changed: Context) -> bool:
        """Whether no edge is lost in the hours that the timetable then gives; False where that may not be asked."""
        if not self.budget.allows():
            return False
        self.budget.spend(STEPS_A_ROOM * len(self.takeoff.rooms) * len(self.site.layers))
        return holds(self.takeoff, pour_site_alone(changed, self.budget))

    def could_hold(self, changed: Context) -> bool:
        """Whether no edge would be lost on a floor that is as cold all day as it ever gets."""
        coldest_k, _warmest_k = changed.shared(course_of).span_k
        return self.lost_edge(changed, floor_k=coldest_k) is None

    def lost_edge(self, changed: Context, *, floor_k: float | None = None) -> WetEdge | None:
        """An edge that is lost in the hours as they are, or at one temperature of the floor; None when none is."""
        material_k = changed.shared(material_temperature_of)
        for layer, parts in zip(self.site.layers, self._hardest_first, strict=True):
            hands, paces = hands_of(changed, layer.layer.product), dict[float | None, Pace]()
            for part in parts:
                self.budget.spend(1)
                pour = room_pour(self.takeoff.rooms[part.part.pour.room], 1.0, layer.pour, hands, paces)
                at_k = part.hottest_floor_k if floor_k is None else floor_k
                edge = edge_of(layer.layer.product, pour, floor_k=at_k, material_k=material_k)
                if edge.holds is False:
                    return edge
        return None


def _hardest_first(takeoff: Takeoff, layer: JudgedLayer) -> list[JudgedPart]:
    """The parts by the share of their open time that they need: what is lost, is lost at the first look.

    A part that is no wider, on a floor no hotter, than another of the same thickness holds wherever that one does.
    """

    def share(part: JudgedPart) -> float:
        return part.edge.needed_s / (part.edge.open_time_s or math.inf)

    def width_m(part: JudgedPart) -> float:
        return takeoff.rooms[part.part.pour.room].shorter_side_m

    hottest_k: dict[float | None, float] = {}
    kept = []
    for part in sorted(layer.parts, key=lambda part: (width_m(part), part.hottest_floor_k), reverse=True):
        thickness_m = takeoff.rooms[part.part.pour.room].thickness_m
        if part.hottest_floor_k > hottest_k.get(thickness_m, -math.inf):
            hottest_k[thickness_m] = part.hottest_floor_k
            kept.append(part)
    return sorted(kept, key=share, reverse=True)
