"""What the trade refuses, as findings: one row for each leaf of the tree in ``floor/values/errors.py``."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from gaugerake.floor.values import errors as floor
from gaugerake.floor.values.figure import Figure, Kind, Telling, Told
from gaugerake.floor.values.note import Say, Value
from gaugerake.web.errors.finding import UNSEEN, Finding

MOST_NAMES = 60


def _range(error: floor.OutOfRange) -> dict[str, Value]:
    low, high = _side(error.low, Telling.UP), _side(error.high, Telling.DOWN)
    is_under = error.low is not None and error.value.value < error.low.value
    value = _side(error.value, Telling.DOWN if is_under else Telling.UP)
    params: dict[str, Value] = {"value": value, "low": low, "high": high}
    if error.low is None:
        params["sentence"] = "over-range"
    elif error.high is None:
        params["sentence"] = "under-range"
    return params


def _side(figure: Figure | None, how: Telling) -> Told | None:
    """An end of the range rounded into it, or what is outside rounded away from it."""
    return None if figure is None else Told(*figure, how)


def _name(error: floor.NoSuchName) -> dict[str, Value]:
    known: Value = ", ".join(error.known[:MOST_NAMES]) or Say(code="known-none")
    return {"seen": error.seen, "known": known, "nearest": error.nearest}


def _crossing(error: floor.CrossingOutline) -> dict[str, Value]:
    return {"x": Figure(error.x_m, Kind.LENGTH), "y": Figure(error.y_m, Kind.LENGTH)}


def _perimeter(error: floor.ImpossiblePerimeter) -> dict[str, Value]:
    return {"perimeter": Figure(error.perimeter_m, Kind.LENGTH), "least": Told(error.least_m, Kind.LENGTH, Telling.UP)}


def _nothing_left(error: floor.NothingLeft) -> dict[str, Value]:
    return {"taken": Figure(error.taken_m2, Kind.AREA), "gross": Figure(error.gross_m2, Kind.AREA)}


def _none(_error: floor.FloorError) -> dict[str, Value]:
    return {}


Params = Callable[[Any], dict[str, Value]]
TABLE: Mapping[type[floor.FloorError], tuple[str, Params]] = {
    floor.OutOfRange: ("out-of-range", _range),
    floor.UnknownName: ("unknown-name", _name),
    floor.UnknownRoom: ("unknown-room", _name),
    floor.CrossingOutline: ("crossing-outline", _crossing),
    floor.DegenerateOutline: ("degenerate-outline", _none),
    floor.ImpossiblePerimeter: ("impossible-perimeter", _perimeter),
    floor.NoPlace: ("no-place", _none),
    floor.OutsideRoom: ("outside-room", _none),
    floor.Overlapping: ("overlapping", lambda error: {"other": error.other}),
    floor.NoRun: ("no-run", _none),
    floor.NoSide: ("no-side", _none),
    floor.RunOfDrawing: ("run-of-drawing", _none),
    floor.NothingLeft: ("nothing-left", _nothing_left),
    floor.NoSuchLocalTime: ("no-such-local-time", lambda error: {"moment": error.nearest.isoformat("T", "minutes")}),
    floor.OutOfOrder: ("out-of-order", _none),
    floor.BeforeBegan: ("before-began", _none),
    floor.EndsFirst: ("ends-first", _none),
    floor.TooManyStarts: ("too-many-starts", lambda error: {"count": error.count, "most": error.most}),
    floor.NeverOpen: ("never-open", _none),
    floor.NoStart: ("no-start", _none),
    floor.UndatedWork: ("undated-work", _none),
    # of a catalogue's tables, which are checked when it is loaded
    floor.NoTimeStated: ("no-time-stated", _none),
    floor.DoubledTemperature: ("doubled-temperature", _none),
    floor.FasterWhenColder: ("faster-when-colder", _none),
    floor.NotHeld: ("not-held", lambda error: {"layer": error.layer, "holder": error.holder}),
    floor.NothingPlaced: ("nothing-placed", _none),
    floor.NotPoured: ("not-poured", _none),
    floor.WayUnsaid: ("way-unsaid", _none),
    floor.SharedName: ("shared-name", lambda error: {"numbers": ", ".join(map(str, error.numbers[:MOST_NAMES]))}),
    floor.MoreThanOrdered: ("more-than-ordered", lambda error: {"held": Figure(error.held, Kind.MIX)}),
    floor.Contradiction: ("contradiction", lambda error: {"other": error.other, "expected": error.expected}),
    floor.AgeOfOneStart: (
        "age-of-one-start",
        lambda error: {"other": error.other, "youngest": error.youngest, "oldest": error.oldest},
    ),
    floor.TooLate: ("too-late", lambda error: {"other": error.other, "latest": error.latest.isoformat()}),
    floor.FloorError: ("refused", _none),
}


def finding_of(error: floor.FloorError, seen: object = UNSEEN) -> Finding:
    """What an error of the trade says, with what was ``seen`` at its place in the document."""
    code, params = next(TABLE[above] for above in type(error).__mro__ if above in TABLE)
    return Finding(code, seen, params(error))
