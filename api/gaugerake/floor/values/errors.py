"""What the trade refuses. The tree, which holds data and no status codes::

FloorError
├── OutOfRange            a figure outside what the system or physics allows
├── NoSuchName
│   ├── UnknownName       a code, colour, layer or sku that the catalogue does not have
│   └── UnknownRoom       a room that the job does not have
├── ShapeError
│   ├── CrossingOutline   a polygon whose sides cross or touch
│   ├── DegenerateOutline fewer than three corners, or no area
│   ├── ImpossiblePerimeter  shorter than a circle's round the same area
│   ├── NoPlace           something placed that is known by its area alone
│   ├── OutsideRoom       something placed that is not inside its room
│   ├── Overlapping       two placed things that share floor
│   ├── NoRun             a way through a room of which nobody says how long it is
│   ├── NoSide            a way through a drawn room that begins at no side of it
│   ├── RunOfDrawing      a length said of a room whose drawing says it
│   └── NothingLeft       cutouts and drains leave no floor
├── TimeError
│   ├── TooLate           a date after one that it must not be after
│   ├── NoSuchLocalTime   skipped by a clock change
│   ├── BeforeBegan       a time at which what is told had not begun
│   ├── EndsFirst         an end before its beginning
│   ├── TooManyStarts     more hours to begin at than one search tries
│   ├── OutOfOrder        readings unsorted or doubled
│   ├── NeverOpen         shifts in which no hour of the week is open
│   ├── NoStart           readings, which have instants, of work that has none
│   └── UndatedWork       days asked of work that has no start
├── CurveError
│   ├── NoTimeStated      a row of a table without a time, or a table without a row
│   ├── DoubledTemperature  two rows at one temperature
│   └── FasterWhenColder  a time that falls with the temperature
├── NotHeld               a broadcast without the layer that it is cast into
├── ProgressError
│   ├── NothingPlaced     a pour of which nothing is placed
│   ├── NotPoured         a system that has no body
│   ├── WayUnsaid         an edge in a room that does not say the way of its pour
│   ├── SharedName        a room by a name that several have
│   └── MoreThanOrdered   more mixes placed than the order holds
├── Contradiction         two statements of the job that cannot both hold
└── AgeOfOneStart         a slab's age where its date of pour makes it another at other starts
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from functools import cached_property
from itertools import islice

from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Words
from gaugerake.nearest import nearest_name

MOST_COMPARED = 200
_BEGINNING = 3


class FloorError(ValueError):
    """Something that cannot be; ``parameter`` names it in the words of the function that refused it."""

    def __init__(self, parameter: str) -> None:
        self.parameter = parameter
        super().__init__(parameter)


class OutOfRange(FloorError):
    """``value`` is not within ``low`` to ``high``."""

    def __init__(self, parameter: str, *, value: Figure, low: Figure | None, high: Figure | None) -> None:
        super().__init__(parameter)
        self.value, self.low, self.high = value, low, high


class NoSuchName(FloorError):
    """``seen`` is none of ``known``; ``nearest`` is the one that is near enough to be meant, if one is."""

    def __init__(self, parameter: str, *, seen: str, known: Iterable[str]) -> None:
        super().__init__(parameter)
        self.seen, self.known = seen, tuple(known)

    @cached_property
    def nearest(self) -> str | None:
        """The known name near enough to the one seen; computed on first use, as it is slow."""
        known = self.known
        if len(known) > MOST_COMPARED:  # a comparison takes some 20 µs, and a catalogue may have 50,000 skus
            begun = self.seen[:_BEGINNING].lower()
            known = tuple(islice((name for name in known if name[:_BEGINNING].lower() == begun), MOST_COMPARED))
        return nearest_name(self.seen, known)


class UnknownName(NoSuchName):
    """``seen`` is no name of the catalogue."""


class UnknownRoom(NoSuchName):
    """``seen`` is the name of none of the job's rooms."""


class ShapeError(FloorError):
    """A shape that no floor can have."""


class CrossingOutline(ShapeError):
    """The outline crosses or touches itself at ``x_m``, ``y_m``."""

    def __init__(self, parameter: str, *, x_m: float, y_m: float) -> None:
        super().__init__(parameter)
        self.x_m, self.y_m = x_m, y_m


class DegenerateOutline(ShapeError):
    """The outline encloses nothing."""


class ImpossiblePerimeter(ShapeError):
    """``perimeter_m`` cannot enclose the area: a circle needs ``least_m``."""

    def __init__(self, parameter: str, *, perimeter_m: float, least_m: float) -> None:
        super().__init__(parameter)
        self.perimeter_m, self.least_m = perimeter_m, least_m


class NoPlace(ShapeError):
    """What was placed has an area and no shape."""


class OutsideRoom(ShapeError):
    """What was placed does not lie inside the room."""


class Overlapping(ShapeError):
    """What was placed shares floor with ``other``, the index of an earlier one."""

    def __init__(self, parameter: str, *, other: str) -> None:
        super().__init__(parameter)
        self.other = other


class NoRun(ShapeError):
    """The room is known by its area alone, and its length that way is not said."""


class NoSide(ShapeError):
    """The room is drawn, and the side that the way begins at is not said."""


class RunOfDrawing(ShapeError):
    """The room is drawn, and its length that way is said beside the drawing."""


class NothingLeft(ShapeError):
    """Cutouts and drains take ``taken_m2`` of ``gross_m2``."""

    def __init__(self, parameter: str, *, taken_m2: float, gross_m2: float) -> None:
        super().__init__(parameter)
        self.taken_m2, self.gross_m2 = taken_m2, gross_m2


class TimeError(FloorError):
    """A time that cannot be."""


class TooLate(TimeError):
    """A date after ``latest``, the date of ``other``."""

    def __init__(self, parameter: str, *, other: str, latest: date) -> None:
        super().__init__(parameter)
        self.other, self.latest = other, latest


class NoSuchLocalTime(TimeError):
    """The clocks skip ``seen``; ``nearest`` is the first local time that exists after it."""

    def __init__(self, parameter: str, *, seen: datetime, nearest: datetime) -> None:
        super().__init__(parameter)
        self.seen, self.nearest = seen, nearest


class BeforeBegan(TimeError):
    """The time is not later than that at which the work began."""


class EndsFirst(TimeError):
    """It is before its beginning."""


class TooManyStarts(TimeError):
    """There are ``count`` of them, and no more than ``most`` are tried."""

    def __init__(self, parameter: str, *, count: int, most: int) -> None:
        super().__init__(parameter)
        self.count, self.most = count, most


class OutOfOrder(TimeError):
    """``index`` is not later than the one before it."""

    def __init__(self, parameter: str, *, index: int) -> None:
        super().__init__(parameter)
        self.index = index


class NeverOpen(TimeError):
    """No hour of the week is in a shift."""


class NoStart(TimeError):
    """What the job says has instants, and its work has none."""


class UndatedWork(TimeError):
    """What is asked for has dates, and the work has none."""


class CurveError(FloorError):
    """A table of times that no product can have."""


class NoTimeStated(CurveError):
    """No time is stated at ``temperature_k`` (None: no row at all)."""

    def __init__(self, parameter: str, *, temperature_k: float | None) -> None:
        super().__init__(parameter)
        self.temperature_k = temperature_k


class DoubledTemperature(CurveError):
    """Two rows hold at ``temperature_k``."""

    def __init__(self, parameter: str, *, temperature_k: float) -> None:
        super().__init__(parameter)
        self.temperature_k = temperature_k


class FasterWhenColder(CurveError):
    """At ``colder_k`` the time of ``column`` is ``time_s``, less than at the next warmer row."""

    def __init__(self, parameter: str, *, column: str, colder_k: float, time_s: float) -> None:
        super().__init__(parameter)
        self.column, self.colder_k, self.time_s = column, colder_k, time_s


class NotHeld(FloorError):
    """``layer`` is cast into ``holder``, which does not take part."""

    def __init__(self, parameter: str, *, layer: str, holder: str) -> None:
        super().__init__(parameter)
        self.layer, self.holder = layer, holder


class ProgressError(FloorError):
    """A pour that cannot be told about."""


class NothingPlaced(ProgressError):
    """Nothing is placed yet."""


class NotPoured(ProgressError):
    """The system has no body that is poured."""


class WayUnsaid(ProgressError):
    """The room does not say the way of its pour."""


class SharedName(ProgressError):
    """Several rooms are called so; ``numbers`` are theirs, from 1."""

    def __init__(self, parameter: str, *, numbers: Iterable[int]) -> None:
        super().__init__(parameter)
        self.numbers = tuple(numbers)


class MoreThanOrdered(ProgressError):
    """The order holds ``held`` mixes for the layer."""

    def __init__(self, parameter: str, *, held: int) -> None:
        super().__init__(parameter)
        self.held = held


class Contradiction(FloorError):
    """``parameter`` says one thing and ``other`` another; ``expected`` is what ``other`` would make it."""

    def __init__(self, parameter: str, *, other: str, expected: Words) -> None:
        super().__init__(parameter)
        self.other, self.expected = other, expected


class AgeOfOneStart(FloorError):
    """The slab's age at one start: by ``other`` it is from ``youngest`` to ``oldest`` at those that are asked for."""

    def __init__(self, parameter: str, *, other: str, youngest: str, oldest: str) -> None:
        super().__init__(parameter)
        self.other, self.youngest, self.oldest = other, youngest, oldest
