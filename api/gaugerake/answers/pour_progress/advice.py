"""What is true of a pour under way and what to do, worst first; and what is said beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gaugerake.answers.job.remarks import Remark, caution
from gaugerake.answers.pour_plan.cautions import hazard_remarks
from gaugerake.answers.pour_progress.figures import ProgressFigures
from gaugerake.answers.pour_progress.pace import pace_remarks
from gaugerake.answers.pour_progress.place import StopKind
from gaugerake.answers.quantities.offered import offer_remarks
from gaugerake.answers.wet_edge.judge import is_broadcast
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Note, Say, Value

NO_FLOOR = 0.1
"""Of the system's least thickness: what is thinner is no floor, and its figure only puzzles. A bound of our own."""
LONGEST_POUR_S = 86_400.0
"""A pour that goes on for longer has a wrong date, most likely (common practice, no source)."""

_STOPS: Mapping[StopKind, str] = {
    "moving": "progress-stop-moving",
    "contraction": "progress-stop-contraction",
    "room": "progress-stop-room",
}


def advise(found: ProgressFigures) -> Iterator[Note]:
    """What is true now and what to do, worst first."""
    if found.doubtful:
        yield _note("progress-count-doubtful", **_yields(found))
    yield from _lost_edge(found)
    if found.over_count < 0:
        yield from _short(found)
    elif found.tight_count > 0:
        yield _note("progress-tight", short=_mixes(found.tight_count))
        yield from _buy(found)
    if not found.within and not found.doubtful:
        yield _note("progress-yield-outside", **_yields(found))
    yield from _past_shift(found)
    if found.needed.likely == 0:
        yield _note("progress-done")
    elif found.over_count > 0:
        yield _note("progress-suffices", over=_mixes(found.over_count))
    elif found.over_count == 0:
        yield _note("progress-just-suffices")


def progress_remarks(found: ProgressFigures) -> Iterator[Remark]:
    """What the answer rests on, and what to beware of."""
    resolved, money = found.resolved, found.resolved.order
    yield from found.progress.remarks
    yield from pace_remarks(resolved, found.progress, found.takeoff, found.need)
    yield from offer_remarks(money, found.offers, resolved.supply.catalogue)
    if found.stock.held_count is not None:
        yield from money.confidence.remarks
    if found.doubtful:
        yield caution("progress-yield-doubtful", "/progress/mixes", **_yields(found))
    yield from _long(found)
    if found.stretch_allowed:
        yield caution("progress-thinner")
    if found.needed.likely > 0 and is_broadcast(found.takeoff, found.need.layer):
        yield caution("cast-wet-edge-last")
    if found.need.layer.product.open_time is None:
        yield caution("pour-open-time-unstated", product=found.need.layer.product.name)
    yield from hazard_remarks(found.takeoff)


def _short(found: ProgressFigures) -> Iterator[Note]:
    """Where the material ends, where to stop, what to buy, how thin to go."""
    end, stop = found.end, found.stop
    if end is not None:
        said: dict[str, Value] = {"room": found.name_of(end.room), "short": _mixes(-found.over_count)}
        if end.to_m is None:
            yield _note("progress-short-in-room", **said)
        else:
            yield _note("progress-short", to=Told(end.to_m, Kind.LENGTH, Telling.MARK), **said)
    if stop is not None:
        to_m = 0.0 if stop.to_m is None else stop.to_m  # the end of a room is said without a figure
        yield _note(_STOPS[stop.what], room=found.name_of(stop.room), to=Told(to_m, Kind.LENGTH, Telling.MARK))
    yield from _buy(found)
    yield from _stretch(found)


def _buy(found: ProgressFigures) -> Iterator[Note]:
    if found.bought.lacking > 0:
        lacking = Figure(found.bought.lacking, Kind.MIX)
        yield _note("progress-buy-lacking", more=_mixes(found.bought.count), lacking=lacking)
    elif found.bought.count > 0:
        yield _note("progress-buy", more=_mixes(found.bought.count))


def _stretch(found: ProgressFigures) -> Iterator[Note]:
    if found.stretched_m is None or found.lowest_m is None:
        return
    thickness, low = Figure(found.stretched_m, Kind.SMALL_LENGTH), Figure(found.lowest_m, Kind.SMALL_LENGTH)
    if found.stretch_allowed:
        yield _note("progress-stretch", thickness=thickness)
    elif found.stretched_m < found.lowest_m * NO_FLOOR:
        yield _note("progress-no-stretch", thickness=Say(code="progress-next-to-nothing"), low=low)
    else:
        yield _note("progress-no-stretch", thickness=thickness, low=low)


def _lost_edge(found: ProgressFigures) -> Iterator[Note]:
    edge = found.pace.edge
    if edge is None or edge.holds is not False or found.needed.likely == 0:
        return
    needed = Told(edge.needed_s, Kind.MINUTES, Telling.UP)
    stays = Told(edge.open_time_s or 0.0, Kind.MINUTES, Telling.DOWN)
    yield _note("progress-edge-lost", needed=needed, open=stays)


def _past_shift(found: ProgressFigures) -> Iterator[Note]:
    finish = found.finish
    if finish is not None and finish.shift_ends_s is not None:
        ends = found.zone.datetime_at(finish.shift_ends_s)
        yield _note("progress-past-shift", ends=f"{ends:%Y-%m-%d %H:%M}")


def _note(code: str, **said: Value) -> Note:
    return Note(code=code, params=said)


def _long(found: ProgressFigures) -> Iterator[Remark]:
    """A caution where the two instants lie too far apart for a pour."""
    began_s, at_s = found.pace.began_s, found.pace.at_s
    if began_s is not None and at_s is not None and at_s - began_s > LONGEST_POUR_S:
        yield caution("progress-long", "/progress/at", lasts=Figure(at_s - began_s, Kind.DAYS))


def _yields(found: ProgressFigures) -> dict[str, Value]:
    return {
        "seen": Figure(found.yield_seen_m3, Kind.VOLUME),
        "low": Figure(found.yield_m3.low, Kind.VOLUME),
        "high": Figure(found.yield_m3.high, Kind.VOLUME),
    }


def _mixes(count: int) -> Figure:
    return Figure(count, Kind.MIX)
