"""The work of a job on its days: what of each layer, and which rooms."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import accumulate

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.wet_edge.judge import Judged, JudgedLayer, JudgedPart, PourSite, judge
from gaugerake.answers.wet_edge.site import pour_site
from gaugerake.floor.clock.days import DayPart, WorkDay, work_days
from gaugerake.floor.clock.timetable import Step, StepKind
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import LayerNeed, Takeoff
from gaugerake.floor.pour.windows import SAME_S
from gaugerake.floor.room.takeoff import RoomTakeoff
from gaugerake.floor.values.errors import UndatedWork
from gaugerake.floor.values.frozen import dataclass

Shares = Mapping[date, float]
"""How much of something falls on each date; what is never reached is on none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredOn:
    """The mixes of one part of a pour that are begun on one day; ``index`` is the part's place in the pour plan."""

    index: int
    layer: JudgedLayer
    judged: JudgedPart
    first_mix: int
    last_mix: int

    @property
    def from_s(self) -> float:
        """When the first of them is begun [s]."""
        return _begun_s(self.judged, self.first_mix)

    @property
    def until_s(self) -> float:
        """When the mix after the last would be begun [s]."""
        last = self.last_mix == self.judged.part.last_mix
        return self.judged.part.ends_s if last else _begun_s(self.judged, self.last_mix + 1)

    @property
    def taken_mixes(self) -> float:
        """What the room takes of them, waste included."""
        part = self.judged.part
        return part.takes_mixes * (self.last_mix - self.first_mix + 1) / part.mix_count


def _begun_s(judged: JudgedPart, mix: int) -> float:
    part = judged.part
    return part.begins_s + (mix - part.first_mix) * part.pour.pace.cadence_s


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedWork:
    """The likely run of a job, its pour, and the days of both.

    ``poured`` are the pours of each date, ``begins_s`` is when each layer is begun on each date [s]; ``ways`` are the
    rooms that each step goes through.
    """

    timetable: Timetable
    site: PourSite
    judged: Judged
    days: tuple[WorkDay, ...]
    poured: Mapping[date, tuple[PouredOn, ...]]
    begins_s: Mapping[tuple[date, str], float]
    ways: tuple[Way, ...]

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of the likely run."""
        return self.timetable.runs.likely.steps

    @property
    def takeoff(self) -> Takeoff:
        """What is laid."""
        return self.timetable.takeoff

    def day(self, on: date) -> WorkDay:
        """The day of a date that has one."""
        return self.days[bisect_left(self.days, on, key=lambda day: day.date)]

    def layer_days(self, need: LayerNeed) -> Shares:
        """How much of a layer falls on each date, by its mixes or its hours; what is cast, as what it is cast into."""
        under = self._under(need) if need.layer.laid is Laid.INTO else need
        if under.layer.pour is not None:
            return self._mixes(under.layer.id)
        return self._hours(under.layer.id)

    def _under(self, need: LayerNeed) -> LayerNeed:
        layers = self.takeoff.layers
        place = layers.index(need)
        return next((one for one in reversed(layers[:place]) if one.layer.laid is Laid.ON), need)

    def _mixes(self, layer: str) -> Shares:
        found: dict[date, float] = {}
        for day, pours in self.poured.items():
            taken = math.fsum(pour.taken_mixes for pour in pours if pour.layer.site.layer.id == layer)
            if taken:
                found[day] = taken
        return found

    def _hours(self, layer: str) -> Shares:
        found: dict[date, float] = {}
        for day in self.days:
            for part in day.parts:
                if (self.steps[part.step].kind, self.steps[part.step].layer) == (StepKind.APPLY, layer):
                    found[day.date] = found.get(day.date, 0.0) + part.lasts_s
        return found if math.fsum(found.values()) > 0 else dict.fromkeys(list(found)[:1], 1.0)

    def rooms(self, day: WorkDay, part: DayPart) -> tuple[RoomTakeoff, ...]:
        """The rooms that a step is worked in during some hours of a day."""
        step = self.steps[part.step]
        poured = self._poured_under(step)
        if poured is None:
            return self._passed(step, part)
        rooms = self.takeoff.rooms
        here = [one for one in self.poured.get(day.date, ()) if one.layer.site.layer.id == poured]
        within = [one for one in here if _overlaps(one, part)] if step.layer == poured else here
        places = dict.fromkeys(one.judged.part.pour.room for one in within or here)
        return tuple(rooms[place] for place in places) or rooms[-1:]

    def _poured_under(self, step: Step) -> str | None:
        """The body that a step pours or casts into; None of any other step."""
        if step.kind is not StepKind.APPLY:
            return None
        need = _need(self.takeoff, step)
        under = self._under(need) if need.layer.laid is Laid.INTO else need
        return under.layer.id if under.layer.pour is not None else None

    def _passed(self, step: Step, part: DayPart) -> tuple[RoomTakeoff, ...]:
        """The rooms that are passed, at an even pace, in some hours of a step."""
        way = self.ways[part.step]
        whole_s, noise = max(step.work_s, SAME_S), 1e-6 * way.ends[-1]
        first, last = (at_s / whole_s * way.ends[-1] for at_s in (part.done_s, part.done_s + part.lasts_s))
        begin = min(bisect_right(way.ends, first + noise), len(way.rooms) - 1)
        end = bisect_left(way.ends, last - noise)
        return way.rooms[begin : max(begin, end) + 1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The rooms that a step has work in, in its order, and how much of it lies behind the end of each."""

    rooms: tuple[RoomTakeoff, ...]
    ends: tuple[float, ...]


def _way(takeoff: Takeoff, step: Step) -> Way:
    weights = _weights(takeoff, step)
    worked = [(room, weight) for room, weight in zip(takeoff.rooms, weights, strict=True) if weight > 0]
    return Way(rooms=tuple(room for room, _ in worked), ends=tuple(accumulate(weight for _, weight in worked)))


def _weights(takeoff: Takeoff, step: Step) -> Sequence[float]:
    """What there is to do in each room."""
    if step.kind is StepKind.SAW:
        return [room.keyway_length_m for room in takeoff.rooms]
    if step.kind is StepKind.APPLY and math.fsum(likely := _need(takeoff, step).room_likely) > 0:
        return likely
    return [room.gross_area_m2 if step.kind is StepKind.PREPARE else room.area_m2 for room in takeoff.rooms]


def _need(takeoff: Takeoff, step: Step) -> LayerNeed:
    return next(need for need in takeoff.layers if need.layer.id == step.layer)


def _overlaps(pour: PouredOn, part: DayPart) -> bool:
    return pour.from_s < part.until_s - SAME_S and pour.until_s > part.from_s + SAME_S


def dated_work(timetable: Timetable) -> DatedWork:
    """The work of a job on its days.

    Raises
    ------
    Refused
        When the job has no start.
    """
    basis, steps = timetable.basis, timetable.runs.likely.steps
    if not basis.timed:
        raise Refused(Fault("/work/start", UndatedWork("start")))
    days = work_days(steps=[step.placed for step in steps], hours=basis.hours, zone=timetable.zone)
    site = pour_site(timetable.resolved, timetable.takeoff, timetable.runs.likely)
    judged = judge(timetable.takeoff, site)
    starts = _starts(steps, days)
    poured: dict[date, list[PouredOn]] = {}
    for index, (layer, part) in enumerate(judged.parts()):
        for day, pour in _cut(index, layer, part, starts[layer.site.layer.id]):
            poured.setdefault(day, []).append(pour)
    begins_s: dict[tuple[date, str], float] = {}
    for layer_id, each in starts.items():
        for from_s, day in each:
            begins_s.setdefault((day, layer_id), from_s)
    return DatedWork(
        timetable=timetable,
        site=site,
        judged=judged,
        days=days,
        poured={day: tuple(pours) for day, pours in poured.items()},
        begins_s=begins_s,
        ways=tuple(_way(timetable.takeoff, step) for step in steps),
    )


def _starts(steps: Sequence[Step], days: Sequence[WorkDay]) -> Mapping[str, list[tuple[float, date]]]:
    """When each layer's work is begun or taken up again [s], and the day of it."""
    found: dict[str, list[tuple[float, date]]] = {}
    for day in days:
        for part in day.parts:
            step = steps[part.step]
            if step.kind is StepKind.APPLY and step.layer is not None:
                found.setdefault(step.layer, []).append((part.from_s, day.date))
    return found


def _cut(
    index: int, layer: JudgedLayer, judged: JudgedPart, starts: Sequence[tuple[float, date]]
) -> Iterator[tuple[date, PouredOn]]:
    part, begins_s = judged.part, [from_s for from_s, _ in starts]
    first = part.first_mix
    while first <= part.last_mix:
        place = max(0, bisect_right(begins_s, _begun_s(judged, first) + SAME_S) - 1)
        last = part.last_mix
        if place + 1 < len(starts):
            before = math.ceil((begins_s[place + 1] - SAME_S - part.begins_s) / part.pour.pace.cadence_s)
            last = max(first, min(last, part.first_mix + before - 1))
        yield starts[place][1], PouredOn(index=index, layer=layer, judged=judged, first_mix=first, last_mix=last)
        first = last + 1
