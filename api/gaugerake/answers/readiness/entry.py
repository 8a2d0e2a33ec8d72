"""One check of the slab or the air: what the registry holds of it, and how a figure against a range is judged."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import lru_cache

from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.readiness.derivation import Derivation, as_listed, as_stated, as_stated_reading
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, Reading, limit_of, make_finding
from gaugerake.floor.slab.verdict import RangeSide, Verdict, side
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.note import Say, Value, Words
from gaugerake.floor.values.range import Limits

_make_reading, _make_say = maker(Reading), maker(Say)
IN_ROOM = "-in-room"
"""Ends the code of a sentence that names its room."""


def roomed(*endings: str) -> tuple[str, ...]:
    """The endings of sentences that are there twice: plain, and with the room that a reading was taken in.

    >>> roomed("within", "above")
    ('within', 'above', 'within-in-room', 'above-in-room')
    """
    return (*endings, *(f"{ending}{IN_ROOM}" for ending in endings))


def in_room(room: Words | None) -> dict[str, Value]:
    """The figure that makes a sentence name a reading's room; none where that is not said."""
    return {} if room is None else {"in_room": room}


def _room_of(figures: Mapping[str, Value]) -> Words | None:
    room = figures.get("in_room")
    return room if isinstance(room, str | Say) else None


@lru_cache(maxsize=256)
def _untested(name: str, pointer: str) -> Reading:
    """The finding where nothing was measured, without figures: the same in every answer, so it is made once."""
    return _make_reading(
        pointer=pointer,
        measured=None,
        verdict=Verdict.UNTESTED,
        because=Say(code=f"check-{name}-untested"),
        do=Say(code=f"do-{name}-untested"),
    )


def no_remarks(_facts: Facts) -> Iterable[Remark]:
    """No remarks: the default of a check that has none."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckEntry:
    """One check of the slab: its name, source, function and sentences.

    Attributes
    ----------
    name
        Its word in an answer.
    source
        Where limit and method come from.
    judge
        What it finds; None where the system asks nothing of the kind.
    because, do
        The endings of its sentences, ``check-<name>-…`` and ``do-<name>-…``, in the order of the sentence file. A
        finding with an ``in_room`` among its figures has sentences of its own (see ``roomed``).
    stops
        Whether it can stop the work; the summary then says so in a sentence of its own.
    ground
        Whether its remedy takes concrete off, and so makes dust.
    warmed
        The endings of ``because`` whose remedy is heat.
    remarks
        What is said beside it.
    measured_from, reading_from, limit_from
        How its figures are explained, unless they are as the job states and the catalogue lists them.
    """

    name: str
    source: Words
    judge: Callable[[CheckEntry, Facts], Finding | None]
    because: tuple[str, ...]
    do: tuple[str, ...]
    stops: bool = False
    ground: bool = False
    warmed: tuple[str, ...] = ()
    remarks: Callable[[Facts], Iterable[Remark]] = no_remarks
    measured_from: Callable[[Facts, Finding], Derivation] = as_stated
    reading_from: Callable[[Facts, Finding, int], Derivation | None] = as_stated_reading
    limit_from: Callable[[Facts, Figure], Derivation] = as_listed

    @property
    def codes(self) -> Iterator[str]:
        """The codes of all its sentences."""
        yield f"name-{self.name}"
        yield from (f"check-{self.name}-{ending}" for ending in self.because)
        yield from (f"do-{self.name}-{ending}" for ending in self.do)
        if self.stops:
            yield f"summary-stop-{self.name}"
            if any(ending.endswith(IN_ROOM) for ending in self.because):
                yield f"summary-stop-{self.name}{IN_ROOM}"

    def why(self, ending: str, **figures: Value) -> Say:
        """The sentence of ``because`` with this ending, which names the room ``in_room`` where that is a figure."""
        place = IN_ROOM if figures.get("in_room") is not None else ""
        return _make_say(code=f"check-{self.name}-{ending}{place}", params=figures)

    def remedy(self, ending: str, **figures: Value) -> Say:
        """The sentence of ``do`` with this ending."""
        return _make_say(code=f"do-{self.name}-{ending}", params=figures)

    def untested(self, pointer: str, **figures: Value) -> Reading:
        """The finding where nothing was measured; its remedy says how to measure."""
        if not figures:
            return _untested(self.name, pointer)
        # both sentences share the figures
        because = self.why("untested", **figures)
        return _make_reading(
            pointer=pointer,
            measured=None,
            verdict=Verdict.UNTESTED,
            because=because,
            do=Say(code=f"do-{self.name}-untested", params=because.params),
            room=_room_of(figures),
        )

    def number(
        self,
        *,
        value: float | None,
        kind: Kind,
        limits: Limits,
        pointer: str,
        bad: Verdict = Verdict.FIX,
        do: Say | None = None,
        taken_in: Words | None = None,
        **figures: Value,
    ) -> Reading:
        """A figure against a range; out of it is ``bad``, and ``do`` (or the remedy for that side) mends it.

        ``taken_in`` is the room of the reading, which the sentence then names.
        """
        figures |= in_room(taken_in)
        if value is None:
            return self.untested(pointer, **figures)
        where = side(value=value, limits=limits)
        shown = limit_of(limits, kind)
        shared: dict[str, Value] = {"measured": Figure(value, kind), "low": shown.low, "high": shown.high, **figures}
        inside = where is RangeSide.WITHIN
        because = self.why(where, **shared)
        return _make_reading(
            pointer=pointer,
            measured=Figure(value, kind),
            verdict=Verdict.GO if inside else bad,
            because=because,
            # both sentences share the figures
            do=None if inside else do or _make_say(code=f"do-{self.name}-{where}", params=because.params),
            room=taken_in,
        )

    def yes_or_no(self, *, seen: bool | None, good: bool, pointer: str) -> Finding:
        """A thing that is seen or not."""
        if seen is None:
            return make_finding(decisive=self.untested(pointer))
        fine = seen is good
        word = "yes" if seen else "no"
        reading = _make_reading(
            pointer=pointer,
            measured=seen,
            verdict=Verdict.GO if fine else Verdict.FIX,
            because=self.why(word),
            do=None if fine else self.remedy(word),
        )
        return make_finding(decisive=reading)
