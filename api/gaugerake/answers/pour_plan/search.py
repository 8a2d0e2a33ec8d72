"""Asks about a pour again with the work changed, and no more often than a request should."""

from __future__ import annotations

import math
from collections.abc import Iterable

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import course_of, material_temperature_of
from gaugerake.answers.pour_plan.change import PourRemedy, Try
from gaugerake.answers.pour_plan.judge import Judged, JudgedLayer, JudgedPart, PourSite, edge_of, holds, room_pour
from gaugerake.answers.pour_plan.site import hands_of, pour_site, pour_site_alone
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.job import Work
from gaugerake.floor.pour.edge import WetEdge

MOST_ASKED = 24
"""How often one kind of remedy may run the whole timetable again."""
MOST_ROOMS_ASKED = 20_000
"""And how many rooms that may be in all: a job of very many rooms is asked again less often."""


class Search:
    """Asks again with the work changed."""

    def __init__(self, context: Context, judged: Judged) -> None:
        self.context = context
        self.takeoff = context.shared(take_off)
        self.site: PourSite = context.shared(pour_site)
        self.work = context.job.work
        self.hands = self.site.layers[0].hands
        self.parts = [part for _, part in judged.parts()]
        self._hardest_first = [_hardest_first(layer) for layer in judged.layers]

    @property
    def steady(self) -> bool:
        """Whether the floor's temperature is the same at all hours."""
        return isinstance(self.site.course, SteadyCourse)

    def asks(self, most: int) -> int:
        """How often the timetable may be run again for a job of so many rooms."""
        return min(most, math.ceil(MOST_ROOMS_ASKED / len(self.takeoff.rooms)))

    def first(self, tries: Iterable[Try], *, base: Work | None = None, asked: int = MOST_ASKED) -> PourRemedy | None:
        """The first try that holds, within so many runs of the timetable."""
        asked = self.asks(asked)
        for attempt in tries:
            changed = self.changed(attempt.change(base or self.work))
            if not self.could_hold(changed):
                continue  # not even at the lowest temperature there is: no need to run the timetable
            if self.holds(changed):
                return attempt.remedy
            asked -= 1
            if asked == 0:
                return None
        return None

    def first_here(self, tries: Iterable[Try]) -> PourRemedy | None:
        """The first try that holds, of those that leave the timetable as it is."""
        for attempt in tries:
            changed = self.context.with_work(attempt.change(self.work), keep=(take_off, course_of))
            if self.lost_edge(changed) is None:
                return attempt.remedy
        return None

    def changed(self, work: Work) -> Context:
        """The job with other work; a floor that is not changed is not read again, as a log is long."""
        same_floor = work.temperatures is self.work.temperatures
        return self.context.with_work(work, keep=(take_off, course_of) if same_floor else (take_off,))

    def holds(self, changed: Context) -> bool:
        """Whether no edge is lost in the hours that the timetable then gives."""
        return holds(self.takeoff, pour_site_alone(changed))

    def could_hold(self, changed: Context) -> bool:
        """Whether no edge would be lost on a floor that is as cold all day as it ever gets."""
        coldest_k, _warmest_k = changed.shared(course_of).span_k
        return self.lost_edge(changed, floor_k=coldest_k) is None

    def lost_edge(self, changed: Context, *, floor_k: float | None = None) -> WetEdge | None:
        """An edge that is lost in the hours as they are, or at one temperature of the floor; None when none is."""
        material_k = changed.shared(material_temperature_of)
        for layer, parts in zip(self.site.layers, self._hardest_first, strict=True):
            hands = hands_of(changed, layer.layer.product)
            for part in parts:
                pour = room_pour(self.takeoff.rooms[part.part.pour.room], 1.0, layer.pour, hands)
                at_k = part.hottest_floor_k if floor_k is None else floor_k
                edge = edge_of(layer.layer.product, pour, floor_k=at_k, material_k=material_k)
                if edge.holds is False:
                    return edge
        return None


def _hardest_first(layer: JudgedLayer) -> list[JudgedPart]:
    """The parts by the share of their open time that they need: what is lost, is lost at the first look."""

    def share(part: JudgedPart) -> float:
        return part.edge.needed_s / (part.edge.open_time_s or math.inf)

    return sorted(layer.parts, key=share, reverse=True)
