"""What frees a pour: changes of the job, one alone or several together, and a step on the way to one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Annotated, Literal, overload

from gaugerake.answers.return_times.change import SteadyValue
from gaugerake.floor.job import Work
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.note import Say, listed

PourRemedyKind = Literal[
    "mixing-stations",
    "placing",
    "casting",
    "stations-and-placing",
    "narrower-pour",
    "cooler-material",
    "cooler-floor",
    "later-start",
    "earlier-start",
    "people",
]
RemedyValue = int | Figure | datetime | SteadyValue | dict[str, int | float | str | Figure | dict[str, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourRemedy:
    """One change to the job with which every wet edge holds; one step less of it does not do."""

    kind: Annotated[PourRemedyKind, "Which sort of change it is, as a word for programs."]
    text: Annotated[Say, "What to change, and to what, in a sentence for people."]
    pointer: Annotated[str, "RFC 6901 pointer into the job: put `value` there, making the objects on the way."]
    value: Annotated[RemedyValue, "What to put at `pointer`."]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourChange:
    """A change to the job that goes with another."""

    kind: Annotated[PourRemedyKind, "Which sort of change it is, as a word for programs."]
    pointer: Annotated[str, "RFC 6901 pointer into the job: put `value` there, making the objects on the way."]
    value: Annotated[RemedyValue, "What to put at `pointer`."]


@dataclass(frozen=True, slots=True, kw_only=True)
class CombinedPourRemedy:
    """Changes to the job with which every wet edge holds, all of them together; one step less of any does not do."""

    kind: Annotated[Literal["combined"], "Several changes, of which none is enough alone."]
    text: Annotated[Say, "What to change, and to what, in a sentence for people."]
    pointer: Annotated[str, "RFC 6901 pointer into the job: put `value` there, making the objects on the way."]
    value: Annotated[RemedyValue, "What to put at `pointer`."]
    first: Annotated[PourRemedyKind, "The kind of the change that `pointer` and `value` are."]
    also: Annotated[tuple[PourChange, ...], "What has to be changed as well: none of these is enough alone."]


AnyRemedy = PourRemedy | CombinedPourRemedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Try:
    """A remedy, and the change of the work that it is, a shade less favourable than the figure shown."""

    remedy: PourRemedy
    change: Callable[[Work], Work]


def with_crew(work: Work, **changes: float) -> Work:
    """The work with the crew changed."""
    return replace(work, crew=replace(work.crew, **changes))  # type: ignore[arg-type]


class Rising(Sequence[Try]):
    """Tries that raise one rate of the crew, in rising order: an edge that holds at one of them holds at all after it.

    ``field`` names the rate, ``value`` gives what a step makes of it. A try is made when it is read, as hundreds may
    never be.
    """

    def __init__(
        self, field: str, steps: Sequence[int], *, value: Callable[[int], float], remedy: Callable[[int], PourRemedy]
    ) -> None:
        self._field, self._steps, self._value, self._remedy = field, steps, value, remedy

    def __len__(self) -> int:
        return len(self._steps)

    @overload
    def __getitem__(self, at: int) -> Try: ...

    @overload
    def __getitem__(self, at: slice) -> Rising: ...

    def __getitem__(self, at: int | slice) -> Try | Rising:
        if isinstance(at, slice):
            return Rising(self._field, self._steps[at], value=self._value, remedy=self._remedy)
        rate = self.rate(at)
        return Try(remedy=self._remedy(self._steps[at]), change=lambda work: with_crew(work, **rate))

    def rate(self, at: int) -> dict[str, float]:
        """The field of the crew that a step changes, and its value."""
        return {self._field: self._value(self._steps[at])}


def together(parts: list[PourRemedy]) -> CombinedPourRemedy:
    """Several changes as one remedy."""
    first, *rest = parts
    changes = listed(code="pour-remedy-list", phrases=[one.text for one in parts])
    return CombinedPourRemedy(
        kind="combined",
        text=Say(code="pour-remedy-together", params={"changes": changes}),
        pointer=first.pointer,
        value=first.value,
        first=first.kind,
        also=tuple(PourChange(kind=one.kind, pointer=one.pointer, value=one.value) for one in rest),
    )
