"""What brings traffic back in time: changes of the job, one alone or several together, and a step on the way to one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from typing import Annotated, Literal

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.floor.job import Weekday
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Say, listed


@dataclass(frozen=True, slots=True, kw_only=True)
class SteadyValue:
    """A floor temperature held throughout."""

    steady: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class DailyWave:
    """A daily wave of the floor's temperature."""

    low: Figure
    high: Figure
    coldest_at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DailyValue:
    """A daily wave of the floor's temperature."""

    daily: DailyWave


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingValue:
    """The floor's temperature at a time."""

    at: datetime
    temperature: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsValue:
    """The floor's temperature by readings."""

    readings: tuple[ReadingValue, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShiftValue:
    """Open hours on some weekdays."""

    days: tuple[Weekday, ...]
    from_: str
    to: str


RemedyKind = Literal[
    "warmer-floor", "longer-shifts", "another-shift", "extra-days", "round-the-clock", "mixing-stations"
]
RemedyValue = SteadyValue | DailyValue | ReadingsValue | tuple[ShiftValue, ...] | int | bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A change of the job that alone brings traffic back in time."""

    kind: Annotated[RemedyKind, "Which sort of change it is, as a word for programs."]
    text: Annotated[Say, "What to change, and to what, in a sentence for people."]
    pointer: Annotated[
        str, "RFC 6901 pointer into the job: put `value` there, making objects on the way; null takes it away."
    ]
    value: Annotated[RemedyValue, "What to put at `pointer`; null takes the field away."]
    by: Annotated[Figure | None, "How much: a difference of temperatures, hours a shift, or a count; null: no measure."]


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyChange:
    """A change of the job that goes with another."""

    kind: Annotated[RemedyKind, "Which sort of change it is, as a word for programs."]
    pointer: Annotated[
        str, "RFC 6901 pointer into the job: put `value` there, making objects on the way; null takes it away."
    ]
    value: Annotated[RemedyValue, "What to put at `pointer`; null takes the field away."]
    by: Annotated[Figure | None, "How much: a difference of temperatures, hours a shift, or a count; null: no measure."]


@dataclass(frozen=True, slots=True, kw_only=True)
class CombinedRemedy:
    """Changes of the job that bring traffic back in time, all of them together; one step less of any does not."""

    kind: Annotated[Literal["combined"], "Several changes, of which none is enough alone."]
    text: Annotated[Say, "What to change, and to what, in a sentence for people."]
    pointer: Annotated[
        str, "RFC 6901 pointer into the job: put `value` there, making objects on the way; null takes it away."
    ]
    value: Annotated[RemedyValue, "What to put at `pointer`; null takes the field away."]
    by: Annotated[Figure | None, "How much: a difference of temperatures, hours a shift, or a count; null: no measure."]
    first: Annotated[RemedyKind, "The kind of the change that `pointer` and `value` are."]
    also: Annotated[tuple[RemedyChange, ...], "What has to be changed as well."]


AnyRemedy = Remedy | CombinedRemedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One kind of change: its sentence, and what of the job it puts where.

    ``places`` has more than one field where a change needs it: work around the clock takes the shifts away.
    """

    text: Say
    places: tuple[RemedyChange, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Try:
    """A step of one kind of change.

    ``made`` changes the job. What is shown to six digits must do when it comes back, so a warmer floor is held against
    the deadline a shade colder (``late``) and against what it may break a shade warmer (``hard``). ``change`` is made
    only for what is found.
    """

    made: Callable[[ResolvedJob], ResolvedJob]
    change: Callable[[], Change]
    late: Callable[[ResolvedJob], ResolvedJob]
    hard: Callable[[ResolvedJob], ResolvedJob]


def plain_try(made: Callable[[ResolvedJob], ResolvedJob], change: Callable[[], Change]) -> Try:
    """A step whose figure is shown as it is."""
    return Try(made=made, change=change, late=made, hard=made)


def as_remedy(changes: Sequence[Change]) -> AnyRemedy:
    """What the changes are as one remedy."""
    first, *also = [place for change in changes for place in change.places]
    if not also:
        [change] = changes
        return Remedy(kind=first.kind, text=change.text, pointer=first.pointer, value=first.value, by=first.by)
    return CombinedRemedy(
        kind="combined",
        text=_together([change.text for change in changes]),
        pointer=first.pointer,
        value=first.value,
        by=first.by,
        first=first.kind,
        also=tuple(also),
    )


def places_of(remedy: AnyRemedy) -> Iterator[tuple[str, RemedyChange]]:
    """Every field that a remedy changes, and where in the remedy it stands ("" is the remedy itself)."""
    kind = remedy.first if isinstance(remedy, CombinedRemedy) else remedy.kind
    yield "", RemedyChange(kind=kind, pointer=remedy.pointer, value=remedy.value, by=remedy.by)
    if isinstance(remedy, CombinedRemedy):
        yield from ((f"/also/{index}", change) for index, change in enumerate(remedy.also))


def heats(remedies: Iterable[object]) -> bool:
    """Whether one of some remedies, of the work or of its pour, warms the floor."""
    own = (remedy for remedy in remedies if isinstance(remedy, Remedy | CombinedRemedy))
    return any(change.kind == "warmer-floor" for remedy in own for _, change in places_of(remedy))


def _together(texts: list[Say]) -> Say:
    if len(texts) == 1:
        return texts[0]
    return Say(code="remedy-together", params={"changes": listed(code="remedy-list", phrases=texts)})
