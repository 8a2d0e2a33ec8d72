"""How the hours of a run came about, step by step: where its work fits, when it is done, when it has cured."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import islice

from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.job.resolved import Basis
from gaugerake.answers.job.sources import JOB, MATURITY
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.return_times.explain_cure import (
    cure_inputs,
    curve_inputs,
    limit_inputs,
    maturity_inputs,
    said,
)
from gaugerake.answers.return_times.explain_work import work_inputs, work_rule
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.floor.clock.schedule import SAME_INSTANT_S, Placed, Stops, joined
from gaugerake.floor.clock.shifts import RoundTheClock, Stretch
from gaugerake.floor.clock.timetable import LayerWork, Run, Step, StepKind
from gaugerake.floor.cure.course import SteadyCourse
from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.cure.maturity import milestone
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Value, Words
from gaugerake.floor.values.range import Limits

SHIFTS = JOB
MOST_PARTS_EXPLAINED = 100
"""The parts of a step that are explained, the first ones: all come about alike, and a step may have 2,920 in a year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """One stretch of a step: from when it could be worked on, what must fit its shift, and what is left of it [s]."""

    ready_s: float
    must_fit_s: float | None
    left_s: float
    from_s: float
    until_s: float


class StepsWorking:
    """Records how the steps of one run came about; ``at`` is where they stand, or what they lead to."""

    def __init__(self, timetable: Timetable, run: Run, at: str) -> None:
        self._timetable, self._run, self._at = timetable, run, at
        self._basis: Basis = timetable.basis
        works = timetable.plan.layers
        self._works = {work.layer: work for work in works} | {work.broadcast: work for work in works if work.broadcast}

    def record(self, *, lasts: bool) -> Iterator[Working]:
        """The working of every step that is reached; ``lasts`` for how long each one takes, too."""
        for index, step in enumerate(self._run.steps):
            if step.placed is None:
                continue
            work = self._works.get(step.layer or "")
            if lasts:
                yield from self._lasts(index, step)
            if work is not None and step.kind is StepKind.APPLY and step.layer == work.broadcast != work.layer:
                yield from self._cast(index, step, work)
            elif step.placed.stops is Stops.NOWHERE:
                yield from self._whole(index, step)
                yield from self._window(index, step)
            else:
                yield from self._split(index, step, work)
            if work is not None and step.kind is StepKind.APPLY:
                yield from self._cured(index, step, work)

    def said(self, instant_s: float | None) -> Value:
        """An instant as it stands in a working: on the wall clock, or as hours from the start."""
        return said(self._timetable, instant_s)

    def _explained(self, figure: str, rule: str, inputs: Inputs, result: Value, source: Words) -> Iterator[Working]:
        yield working(f"{self._at}/{figure}", rule, inputs, result, source)

    def _lasts(self, index: int, step: Step) -> Iterator[Working]:
        assert step.placed is not None
        worked = math.fsum(until_s - from_s for from_s, until_s in step.placed.stretches)
        begins_s, ends_s = step.placed.from_s, step.placed.until_s
        inputs: Inputs = {"ready": self.said(step.free_s), "work": Figure(worked, Kind.DURATION)}
        inputs |= {"begins": self.said(begins_s), "ends": self.said(ends_s), **work_inputs(self._timetable, step)}
        lasts = Figure(ends_s - begins_s, Kind.DURATION)
        rule, source = work_rule(self._timetable, step)
        yield from self._explained(f"{index}/lasts", rule, inputs, lasts, source)

    def _whole(self, index: int, step: Step) -> Iterator[Working]:
        """A step within one shift."""
        assert step.placed is not None and step.free_s is not None
        begins_s, ends_s = step.placed.from_s, step.placed.until_s
        work = Figure(step.work_s, Kind.DURATION)
        inputs: Inputs = {"ready": self.said(step.free_s), "work": work}
        inputs |= self.fits(step.free_s, begins_s, step.limits_k)
        yield from self._explained(f"{index}/from", "rule-clock-begins", inputs, self.said(begins_s), SHIFTS)
        ends: Inputs = {"begins": self.said(begins_s), "work": work}
        yield from self._explained(f"{index}/until", "rule-clock-ends", ends, self.said(ends_s), SHIFTS)

    def _window(self, index: int, step: Step) -> Iterator[Working]:
        """Why a layer is abraded: when its recoat window closed, counted from the first foot of it that was placed."""
        if step.kind is not StepKind.ABRADE:
            return
        under = self._works[step.layer or ""]
        began = next(one for one in self._run.steps if one.kind is StepKind.APPLY and one.layer == under.layer)
        assert began.placed is not None and under.recoat_closes is not None
        from_s, curve, limits_k = began.placed.from_s, under.recoat_closes, under.limits_k
        ends = milestone(
            curve=curve,
            column="low",
            course=self._basis.course,
            from_s=from_s,
            low_k=limits_k.low,
            high_k=limits_k.high,
        )
        inputs = cure_inputs(self._timetable, from_s, curve, "low", ends, limits_k)
        yield from self._explained(
            f"{index}/from/window_closes", "rule-clock-window", inputs, self.said(ends.at_s), MATURITY
        )

    def _split(self, index: int, step: Step, work: LayerWork | None) -> Iterator[Working]:
        """A step that is too long for any shift: its parts, and so its begin and its end."""
        assert step.placed is not None and step.ready_s is not None
        parts_s = work.parts_s if work is not None and step.kind is StepKind.APPLY else (step.work_s,)
        longest = Figure(self._basis.hours.longest_s, Kind.DURATION)
        for number, part in enumerate(islice(self._parts(step, parts_s), MOST_PARTS_EXPLAINED)):
            at = f"{index}/parts/{number}"
            begins: Inputs = {"ready": self.said(part.ready_s), "longest_shift": longest}
            begins["work"] = Figure(part.left_s if part.must_fit_s is None else part.must_fit_s, Kind.DURATION)
            begins |= self.fits(part.ready_s, part.from_s, step.limits_k)
            rule = "rule-clock-part-begins-split" if part.must_fit_s is None else "rule-clock-begins"
            yield from self._explained(f"{at}/from", rule, begins, self.said(part.from_s), SHIFTS)
            ends: Inputs = {"begins": self.said(part.from_s), "work": Figure(part.left_s, Kind.DURATION)}
            ends["closes"] = self.said(self._closes_s(part.from_s))
            yield from self._explained(f"{at}/until", "rule-clock-part-ends", ends, self.said(part.until_s), SHIFTS)
        yield from self._ends(index, step.placed)

    def _ends(self, index: int, placed: Placed) -> Iterator[Working]:
        """When a step that is split begins and ends: with its first and its last part."""
        first, last = self.said(placed.from_s), self.said(placed.until_s)
        yield from self._explained(f"{index}/from", "rule-clock-first-part", {"first_part": first}, first, SHIFTS)
        yield from self._explained(f"{index}/until", "rule-clock-last-part", {"last_part": last}, last, SHIFTS)

    def _parts(self, step: Step, parts_s: tuple[float, ...]) -> Iterator[_Part]:
        assert step.placed is not None and step.free_s is not None
        stretches, ready_s = iter(step.placed.stretches), step.free_s
        for part_s in parts_s:
            whole = part_s <= self._basis.hours.longest_s + SAME_INSTANT_S
            left_s = part_s
            while True:
                from_s, until_s = next(stretches)
                must_fit_s = part_s if whole else None
                yield _Part(ready_s=ready_s, must_fit_s=must_fit_s, left_s=left_s, from_s=from_s, until_s=until_s)
                left_s, ready_s = left_s - (until_s - from_s), until_s
                if left_s < SAME_INSTANT_S:
                    break

    def _closes_s(self, at_s: float) -> float:
        return next(self._basis.hours.since(at_s))[1]

    def fits(self, ready_s: float, begins_s: float, limits_k: Limits) -> Inputs:
        """The shifts from one instant to that at which work begins, and what the floor is against the limits."""
        return self.shifts(ready_s, begins_s) | self._floor(ready_s, begins_s, limits_k)

    def shifts(self, ready_s: float, until_s: float) -> Inputs:
        """The shifts from one instant to the one that is open at another; none when work runs around the clock."""
        inputs: Inputs = {}
        if isinstance(self._basis.hours, RoundTheClock):
            return inputs
        for number, (open_s, close_s) in enumerate(self._basis.hours.since(ready_s), 1):
            inputs[f"shift_{number}_opens"] = self.said(open_s)
            inputs[f"shift_{number}_closes"] = self.said(close_s)
            if close_s > until_s:
                break
        return inputs

    def _floor(self, ready_s: float, begins_s: float, limits_k: Limits) -> Inputs:
        """The limits and the floor: its coldest and warmest where they are within the limits, else its course."""
        inputs = limit_inputs(limits_k)
        if not inputs:
            return {}
        course = self._basis.course
        coldest_k, warmest_k = course.span_k
        within = (limits_k.low or 0.0) <= coldest_k and warmest_k <= (limits_k.high or warmest_k)
        if within and not isinstance(course, SteadyCourse):
            coldest, warmest = Figure(coldest_k, Kind.TEMPERATURE), Figure(warmest_k, Kind.TEMPERATURE)
            return {**inputs, "floor_coldest": coldest, "floor_warmest": warmest}
        return inputs | course_inputs(course, self._timetable.coldest_at, self.said, ready_s, begins_s)

    def _cast(self, index: int, step: Step, work: LayerWork) -> Iterator[Working]:
        """Aggregate cast into the layer before it, part by part where that was stopped."""
        pour = self._run.steps[index - 1].placed
        assert step.placed is not None
        assert pour is not None
        if work.broadcast_wait is None:
            yield from self._cast_with(index, step.placed)
            return
        casts = step.placed.stretches
        both = zip(joined(pour.stretches), casts, strict=True)
        for number, (poured, cast) in enumerate(islice(both, MOST_PARTS_EXPLAINED)):
            at = f"{index}/parts/{number}" if len(casts) > 1 else f"{index}"
            yield from self._cast_part(at, poured, cast, work.broadcast_wait, work.limits_k)
        if len(casts) > 1:
            yield from self._ends(index, step.placed)

    def _cast_with(self, index: int, placed: Placed) -> Iterator[Working]:
        """Aggregate cast as the layer under it is placed."""
        parts = placed.stretches[:MOST_PARTS_EXPLAINED] if len(placed.stretches) > 1 else ()
        ends = {f"parts/{number}": stretch for number, stretch in enumerate(parts)}
        for at, (from_s, until_s) in ({"": (placed.from_s, placed.until_s)} | ends).items():
            for end, at_s in (("from", from_s), ("until", until_s)):
                pour: Inputs = {"pour": self.said(at_s)}
                figure = f"{index}/{at}/{end}" if at else f"{index}/{end}"
                yield from self._explained(figure, "rule-clock-cast-with", pour, self.said(at_s), MATURITY)

    def _cast_part(
        self, at: str, poured: Stretch, cast: Stretch, wait: TimeCurve, limits_k: Limits
    ) -> Iterator[Working]:
        """From the lowest wait after the first mix, at the floor of that moment, to the highest wait after the last."""
        floor = Figure(self._basis.course.at(poured[0]), Kind.TEMPERATURE)
        first: Inputs = {"pour_begins": self.said(poured[0]), "floor_then": floor, "cast_ends": self.said(cast[1])}
        first |= curve_inputs(wait, "low")
        yield from self._explained(f"{at}/from", "rule-clock-cast-begins", first, self.said(cast[0]), MATURITY)
        last = maturity_inputs(self._timetable, poured[1], wait, "high", cast[1], limits_k)
        cold = self._basis.course.reached_k(poured[1], cast[1])[0] < (limits_k.low or 0.0)
        rule = "rule-clock-cast-ends-cold" if cold else "rule-clock-cast-ends"
        yield from self._explained(f"{at}/until", rule, last, self.said(cast[1]), MATURITY)

    def _cured(self, index: int, step: Step, work: LayerWork) -> Iterator[Working]:
        worked_s = self._worked_s(index, work)
        if worked_s is None:
            return
        if work.cure is None or step.cure is None:
            ends: Inputs = {"work_ends": self.said(worked_s)}
            yield from self._explained(f"{index}/cured", "rule-clock-no-cure", ends, self.said(step.cured_s), MATURITY)
            return
        inputs = cure_inputs(self._timetable, worked_s, work.cure, self._run.column, step.cure, work.limits_k)
        yield from self._explained(f"{index}/cured", "rule-clock-age", inputs, self.said(step.cured_s), MATURITY)

    def _worked_s(self, index: int, work: LayerWork) -> float | None:
        """When the work on a layer ends, with what is cast into it."""
        steps = self._run.steps
        cast = work.broadcast is not None and steps[index].layer == work.layer
        placed = steps[index + 1 if cast else index].placed
        return None if placed is None else placed.until_s
