"""One thing that is wrong with what a client sent: where, what was seen, and what to write instead.

Fields raise findings inside marshmallow's ``ValidationError``; its nested messages give each one its place. The words
stand in the sentence files, as ``problem-<code>`` and ``hint-<code>``, unless the finding brings its own.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple, NoReturn

from marshmallow import ValidationError

from gaugerake.floor.values.note import Say, Value

MOST_CHARACTERS = 80
MOST_ERRORS = 50
"""The most findings that a problem tells. Once so many are found, the rest of a document is not read."""

_POINTER_CHARACTERS = 200
_EXACT_INTEGER = 2**53
_COMPACT = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))


class Unseen:
    """Marks a finding that is about nothing that was written."""


UNSEEN = Unseen()


class Finding(NamedTuple):
    """What is wrong; ``params`` fill the sentence of ``code``, ``detail`` and ``hint`` replace it."""

    code: str
    seen: object = UNSEEN
    params: Mapping[str, Value] = {}
    detail: Say | None = None
    hint: Say | None = None


class LocatedFinding(NamedTuple):
    """A finding and its place: an RFC 6901 pointer into the body, or the name of a query parameter."""

    pointer: str | None
    finding: Finding
    parameter: str | None = None


def refuse(code: str, seen: object = UNSEEN, **params: Value) -> NoReturn:
    """Refuse what was seen.

    Raises
    ------
    ValidationError
    """
    raise ValidationError([Finding(code, seen, params)])


def pointer(*segments: str | int) -> str:
    """An RFC 6901 pointer, cut when a client's own names make it absurdly long.

    >>> pointer("rooms", 0, "a/b")
    '/rooms/0/a~1b'
    """
    short = (str(segment)[:_POINTER_CHARACTERS] for segment in segments)
    text = "".join("/" + segment.replace("~", "~0").replace("/", "~1") for segment in short)
    return text if len(text) <= _POINTER_CHARACTERS else text[:_POINTER_CHARACTERS] + "…"


def located(messages: Any, *segments: str | int) -> Iterator[LocatedFinding]:
    """Each finding in marshmallow's nested messages, with its place."""
    if isinstance(messages, Mapping):
        for segment, inner in messages.items():
            yield from located(inner, *segments, segment)
        return
    for finding in messages:
        yield LocatedFinding(pointer(*segments), finding)


def count(messages: Any) -> int:
    """How many findings marshmallow's nested messages hold.

    >>> count({"name": [Finding("required")], "rooms": {0: {"slope": [Finding("not-whole"), Finding("required")]}}})
    3
    """
    return sum(map(count, messages.values())) if isinstance(messages, Mapping) else len(messages)


def shown(seen: object) -> str | int | float | bool | None:
    """What was seen, as a problem shows it again: short, and in a form that every JSON reader takes.

    >>> shown("x" * 100) == "x" * 80 + "…", shown([1, {"a": None}]), shown((1.5, "a")), shown(10**30)
    (True, '[1,{"a":null}]', '[1.5,"a"]', '1000000000000000000000000000000')
    """
    if seen is None or isinstance(seen, bool | float):
        return seen
    if isinstance(seen, int):
        return seen if abs(seen) <= _EXACT_INTEGER else str(seen)
    if isinstance(seen, dict | list | tuple):
        seen = _beginning(seen)
    text = str(seen)
    return text if len(text) <= MOST_CHARACTERS else text[:MOST_CHARACTERS] + "…"


def _beginning(seen: object) -> str:
    """The JSON of what was seen, as far as it is shown; it may go on for the whole body."""
    text = ""
    for part in _COMPACT.iterencode(seen):
        text += part
        if len(text) > MOST_CHARACTERS:
            break
    return text
