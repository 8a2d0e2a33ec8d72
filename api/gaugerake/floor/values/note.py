"""Notes beside a figure: what was assumed, what to beware of, what is missing.

A note is a code and figures; its sentence is made from a template when it is shown, in the reader's units, so that a
second language is a file and not a rewrite.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from enum import StrEnum

from gaugerake.floor.values.figure import Bound, Figure, Rate, Told
from gaugerake.floor.values.frozen import dataclass, maker


@dataclass(frozen=True, slots=True, kw_only=True)
class Say:
    """A sentence inside an answer, or a phrase inside a sentence: the code of its template and the figures in it."""

    code: str
    params: Mapping[str, Value] = field(default_factory=dict)


Value = Figure | Bound | Told | Rate | Say | str | int | float | bool | None
Words = str | Say
"""A name as the job has it, or a phrase of ours where the job gives none."""

_make_say = maker(Say)


def listed(*, code: str, phrases: Sequence[Words]) -> Words:
    """Make one phrase of several.

    Parameters
    ----------
    code : str
        The template that sets the ``first`` of them before the ``rest``.
    phrases : sequence of str or Say
        At least one.

    Returns
    -------
    str or Say
        All of them in their order; one alone stays as it is.

    Examples
    --------
    >>> listed(code="weekday-list", phrases=["Monday", "Friday"])
    Say(code='weekday-list', params={'first': 'Monday', 'rest': 'Friday'})
    """
    first, *rest = phrases
    if not rest:
        return first
    return _make_say(code=code, params={"first": first, "rest": listed(code=code, phrases=rest)})


class OpenWord(StrEnum):
    """A word of a list to which later versions may add: a client that does not know it shows the text beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A coded remark. ``pointer`` is the RFC 6901 place in the job that it is about; ``value`` the figure assumed."""

    code: str
    pointer: str | None = None
    value: Value = None
    params: Mapping[str, Value] = field(default_factory=dict)
