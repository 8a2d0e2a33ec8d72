"""How the figures of an answer came about: the working, given when asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.note import Value, Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """A number that went into a figure; ``name`` as the rule's words call it."""

    name: str
    value: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """How one figure came about.

    ``figure`` is the RFC 6901 pointer of the figure in its answer; ``rule`` the code of the rule, whose words stand in
    the sentence file; ``source`` the standard or data that it rests on.
    """

    figure: str
    rule: str
    inputs: tuple[Input, ...]
    result: Value
    source: Words


def working(figure: str, rule: str, inputs: Mapping[str, Value], result: Value, source: Words) -> Working:
    """The working of one figure.

    >>> from gaugerake.floor.values.figure import Figure, Kind
    >>> one = working("/area", "area", {"length": Figure(4.0, Kind.LENGTH)}, Figure(16.0, Kind.AREA), "geometry")
    >>> one.inputs[0].name, one.result.value
    ('length', 16.0)
    """
    pairs = tuple(Input(name=name, value=value) for name, value in inputs.items())
    return Working(figure=figure, rule=rule, inputs=pairs, result=result, source=source)


def within(part: str, workings: Iterable[Working]) -> Iterator[Working]:
    """The working of one part of an answer: its figures stand one level deeper."""
    for one in workings:
        yield replace(one, figure=f"/{part}{one.figure}")
