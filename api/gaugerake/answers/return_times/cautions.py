"""What the timetable says beside its hours: what held a cure up, what never ends, where work is split or abraded."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import NamedTuple

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.traffic import traffic_words
from gaugerake.answers.return_times.plan import Timetable
from gaugerake.answers.return_times.run_remarks import (
    SAID_FROM_S,
    TEMPERATURES,
    air_log_remarks,
    endless_remark,
    first_stop_remarks,
    layer_name,
    log_remarks,
    stop_place,
)
from gaugerake.floor.clock.schedule import Stops
from gaugerake.floor.clock.timetable import Cause, LayerWork, Returned, Step, StepKind
from gaugerake.floor.cure.curve import ASSUMED_ENERGY_J_MOL, TimeCurve
from gaugerake.floor.cure.maturity import Milestone
from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Say, Value, listed
from gaugerake.floor.values.range import Limits

SAME_ROW_K = 0.05
"""A floor this close to a row of a table is at it."""


def run_remarks(timetable: Timetable) -> Iterator[Remark]:
    """Note what the runs of the timetable's job tell."""
    runs = timetable.runs
    works = {work.broadcast or work.layer: work for work in timetable.plan.layers}
    yield from first_stop_remarks(timetable.resolved, runs.likely if not runs.likely.complete else runs.latest)
    for step in runs.likely.steps:
        yield from _work_remarks(timetable, step)
        if step.cure is not None and step.layer in works:
            yield from _cure_remarks(timetable, step, step.cure, works[step.layer])
    for _, one in runs.last_returns:
        yield from _return_remarks(timetable, one)
    yield from _table_remarks(chain(_cures_left(timetable, works), _returns_left(timetable)))
    if any(one.cut_short for one in (runs.earliest, runs.likely, runs.latest)):
        yield caution("laying-late-search-ended", "/work")
    never = any(one.at_s is None for _, one in runs.last_returns)
    ends_s = math.inf if never else runs.end_s
    yield from log_remarks(timetable.resolved, runs.latest.start_s, ends_s)
    yield from air_log_remarks(timetable.resolved, ends_s)
    yield caution("floor-warmer-or-colder", TEMPERATURES)
    yield caution("engines-indoors")


def _return_remarks(timetable: Timetable, one: Returned) -> Iterator[Remark]:
    if one.at_s is None and one.cure is not None and one.from_s is not None:
        what = Say(code="return-of", params={"traffic": traffic_words(one.traffic)})
        yield endless_remark(timetable.resolved, one.cure, what)


def _split(job: ResolvedJob, stops: Stops, layer_id: str | None) -> Iterator[Remark]:
    """Work that no shift is long enough for: only what is poured is stopped at a joint or an edge.

    Aggregate stops with what it is cast into, of which that is said.
    """
    layer = next(layer for layer in job.system.layers if layer.id == layer_id)
    name = layer_name(job, layer_id)
    if layer.laid is Laid.INTO:
        return
    if stops is Stops.BETWEEN_ROOMS:
        yield caution("split-between-rooms", "/work/shifts", layer=name)
    elif layer.pour is None:
        yield caution("split-over-shifts", "/work/shifts", layer=name)
    else:
        yield caution("split-at-shift-end", "/work/shifts", layer=name, where=stop_place(job.system))


def _work_remarks(timetable: Timetable, step: Step) -> Iterator[Remark]:
    """Splits and abrading; dust."""
    job = timetable.resolved
    if step.kind is StepKind.APPLY and step.placed is not None and step.placed.stops is not Stops.NOWHERE:
        yield from _split(job, step.placed.stops, step.layer)
    if step.held_s is not None and step.ready_s is not None:
        later = Figure(step.held_s - step.ready_s, Kind.DURATION)
        yield caution("laid-late", None, layer=layer_name(job, step.layer), later=later)
    if step.kind is StepKind.ABRADE:
        yield caution("abrade-first", None, layer=layer_name(job, step.layer))
    if step.kind in (StepKind.ABRADE, StepKind.CLEAR):
        yield caution("loose-dust")
    if step.kind is StepKind.APPLY and step.cause is Cause.WORK and step.placed is not None:
        yield from _past_shift_remarks(timetable, step)


def _past_shift_remarks(timetable: Timetable, step: Step) -> Iterator[Remark]:
    """A broadcast that ends when its shift is over: by how much at most."""
    if step.placed is None or step.placed.until_s == step.placed.from_s:
        return
    over_s = max(until_s - _closes(timetable, from_s) for from_s, until_s in step.placed.stretches)
    if over_s > SAID_FROM_S:
        over = Told(over_s, Kind.MINUTES, Telling.UP)
        yield caution(
            "broadcast-past-shift", "/work/shifts", layer=layer_name(timetable.resolved, step.layer), over=over
        )


def _closes(timetable: Timetable, at_s: float) -> float:
    """The end of the shift that holds an instant; between shifts, the end of the last one before it."""
    hours = timetable.basis.hours
    open_s, close_s = next(hours.since(at_s))
    return close_s if open_s <= at_s else next(hours.before(at_s))[1]


def _cure_remarks(timetable: Timetable, step: Step, cure: Milestone, work: LayerWork) -> Iterator[Remark]:
    """Hours that do not count; of aggregate, by the limits of what holds it, so that is what is named."""
    layer = layer_name(timetable.resolved, work.layer)
    if cure.stopped_s > SAID_FROM_S and work.limits_k.low is not None:
        limit = Figure(work.limits_k.low, Kind.TEMPERATURE)
        lost = Figure(cure.stopped_s, Kind.DURATION)
        yield caution("cure-stands-still", TEMPERATURES, layer=layer, limit=limit, lost=lost)
    if cure.capped_s > SAID_FROM_S and work.limits_k.high is not None:
        limit = Figure(work.limits_k.high, Kind.TEMPERATURE)
        hours = Figure(cure.capped_s, Kind.DURATION)
        yield caution("cure-capped", TEMPERATURES, layer=layer, limit=limit, hours=hours)


def _reached_k(timetable: Timetable, from_s: float, cure: Milestone, limits_k: Limits) -> tuple[float, float] | None:
    """The coldest and the warmest at which maturity accrued [K]; None when it did not to the end."""
    if cure.at_s is None:
        return None
    coldest_k, warmest_k = timetable.basis.course.reached_k(from_s, cure.at_s)
    return max(coldest_k, limits_k.low or coldest_k), min(warmest_k, limits_k.high or warmest_k)


class _Left(NamedTuple):
    """A maker's table of times that the floor leaves, and what it is for."""

    what: Say
    curve: TimeCurve


def _is_left(curve: TimeCurve, reached_k: tuple[float, float] | None) -> bool:
    """Whether the floor, between its coldest and its warmest, leaves a table: by its first row or by its last."""
    low_k, high_k = curve.temperatures_k[0], curve.temperatures_k[-1]
    return reached_k is not None and (reached_k[0] <= low_k - SAME_ROW_K or reached_k[1] >= high_k + SAME_ROW_K)


def _cures_left(timetable: Timetable, works: Mapping[str, LayerWork]) -> Iterator[_Left]:
    """The tables of the layers' cures that the floor leaves; aggregate cures as what holds it."""
    for step in timetable.runs.likely.steps:
        work = works.get(step.layer or "")
        if step.cure is None or step.placed is None or work is None or work.cure is None:
            continue
        if _is_left(work.cure, _reached_k(timetable, step.placed.until_s, step.cure, work.limits_k)):
            layer = layer_name(timetable.resolved, work.layer)
            yield _Left(Say(code="of-cure", params={"layer": layer}), work.cure)


def _returns_left(timetable: Timetable) -> Iterator[_Left]:
    """The tables of the returns of traffic that the floor leaves."""
    counted = timetable.plan.returns_from
    for (_, one), stated in zip(timetable.runs.last_returns, timetable.system.returns, strict=True):
        if one.cure is not None and one.from_s is not None and counted is not None:
            limits_k = timetable.plan.layers[counted].limits_k
            if _is_left(stated.after, _reached_k(timetable, one.from_s, one.cure, limits_k)):
                yield _Left(Say(code="of-return", params={"traffic": traffic_words(one.traffic)}), stated.after)


def _table_remarks(left: Iterable[_Left]) -> Iterator[Remark]:
    """Cautions that a floor leaves a maker's table: one for all tables of one row, one for each range of the others."""
    single: dict[float, list[Say]] = {}
    ranges: dict[tuple[float, float], list[Say]] = {}
    for what, curve in left:
        low_k, high_k = curve.temperatures_k[0], curve.temperatures_k[-1]
        told = single.setdefault(low_k, []) if curve.energy_assumed else ranges.setdefault((low_k, high_k), [])
        if what not in told:
            told.append(what)
    if single:
        energy = ASSUMED_ENERGY_J_MOL / 1000
        yield caution("single-row-cure", TEMPERATURES, **_single_rows(list(single.items())), energy=energy)
    for (low_k, high_k), told in ranges.items():
        low, high = Figure(low_k, Kind.TEMPERATURE), Figure(high_k, Kind.TEMPERATURE)
        yield caution("beyond-the-table", TEMPERATURES, what=_tables(told), low=low, high=high)


def _single_rows(rows: Sequence[tuple[float, Sequence[Say]]]) -> dict[str, Value]:
    """The first temperature and its tables, and what is said of the further ones."""
    (at_k, told), *further = rows
    more = Say(code="single-row-more", params=_single_rows(further)) if further else None
    return {"at": Figure(at_k, Kind.TEMPERATURE), "what": _tables(told), "more": more}


def _tables(told: Sequence[Say]) -> str | Say:
    return listed(code="table-list", phrases=told)
