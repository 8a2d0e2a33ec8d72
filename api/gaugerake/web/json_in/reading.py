"""Strict JSON: what may stand in a body, and nothing that a parser would let through by kindness.

UTF-8 without a byte order mark, at most 256 kB, 16 deep, no doubled member, no NaN, no number of more than 40
characters, no lone surrogate. What is read is plain dictionaries, lists, strings, numbers and truth values.

Two parsers read a body. orjson is the gate: it takes nothing but JSON, lone surrogates not, in one pass. The standard
library's then makes the values, since orjson keeps the last of two equal members and makes floats of long integers;
and where the gate refuses, it says what is wrong at which line and column. Each step is one pass over the body, or
`MOST_DEPTH` of them, and none is a regular expression, which would hold all threads of the worker while it backtracks.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from itertools import islice
from typing import Any, NamedTuple

import orjson
from flask import Request
from gunicorn.http.errors import ParseException  # type: ignore[import-untyped]
from werkzeug.exceptions import BadRequest

from gaugerake.floor.values.note import Say
from gaugerake.web.errors.finding import MOST_ERRORS, Finding, LocatedFinding, pointer
from gaugerake.web.errors.refusal import (
    MOST_BYTES,
    BadNumber,
    DoubledField,
    EmptyBody,
    EncodedBody,
    NotJson,
    NotUtf8,
    TooDeep,
    TooLarge,
    Unreadable,
    WrongMediaType,
)

MOST_DEPTH = 16
MOST_NUMBER_CHARACTERS = 40

PARSER_SAYS = {
    "Expecting value": "json-value",
    "Expecting property name enclosed in double quotes": "json-name",
    "Expecting ':' delimiter": "json-colon",
    "Expecting ',' delimiter": "json-comma",
    "Illegal trailing comma before end of object": "json-trailing-comma-object",  # since Python 3.13
    "Illegal trailing comma before end of array": "json-trailing-comma-list",  # since Python 3.13
    "Extra data": "json-extra",
    "Unterminated string starting at": "json-unended",
    "Invalid control character at": "json-control",
    "Invalid \\escape": "json-escape",
    "Invalid \\uXXXX escape": "json-escape-u",
}
"""What the standard library's parser says, and the code by which a reader is told the same in their language."""

_NOT_STRUCTURE = bytes(set(range(256)) - set(b'{}[]"'))
_ONE_KIND = bytes.maketrans(b"[]", b"{}")
_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")


def body(request: Request) -> Any:
    """The JSON value of a request's body.

    Raises
    ------
    Refusal, BadRequest
        When there is none, or it is not such JSON, or it ends before it is whole.
    """
    media_type = request.mimetype
    if media_type != "application/json" and not (
        media_type.startswith("application/") and media_type.endswith("+json")
    ):
        raise WrongMediaType(seen=media_type or Say(code="known-none"))
    if request.headers.get("Content-Encoding", "identity").strip().lower() != "identity":
        raise EncodedBody()
    if (request.content_length or 0) > MOST_BYTES:
        raise TooLarge(most=MOST_BYTES)
    return read(_whole(request))


def _whole(request: Request) -> bytes:
    """All bytes of the body; the half of a job may be a job, and is not answered."""
    try:
        data = request.get_data(cache=False)
    except (OSError, ParseException):
        raise BadRequest from None
    if len(data) < (request.content_length or 0):
        raise BadRequest
    return data


def read(data: bytes) -> Any:
    """The value of JSON text.

    >>> read(b'{"rooms": [{"slope_percent": 1.5}]}')
    {'rooms': [{'slope_percent': 1.5}]}
    >>> read(b'{"a": 1, "a": 2}')
    Traceback (most recent call last):
    gaugerake.web.errors.refusal.DoubledField: DoubledField

    Raises
    ------
    Unreadable, TooLarge
    """
    if len(data) > MOST_BYTES:
        raise TooLarge(most=MOST_BYTES)
    if not data.strip(b" \t\r\n"):
        raise EmptyBody()
    text = _decode(data)
    try:
        orjson.loads(data)
    except orjson.JSONDecodeError as error:
        raise _refusal(data, text, error) from None
    if not _is_shallow(data):
        raise TooDeep(most=MOST_DEPTH)
    odd = _Odd()
    value = _values(text, odd)
    if odd.numbers:
        raise _bad_number(value, odd)
    if odd.doubled:
        raise DoubledField(*islice(_where_odd(value, _Doubled), MOST_ERRORS))
    return value


def _refusal(data: bytes, text: str, refused: orjson.JSONDecodeError) -> Unreadable:
    """What is wrong with text that the gate refused; the other parser takes a lone surrogate, which is left then."""
    odd = _Odd()
    try:
        value = _values(text, odd)
    except Unreadable as error:
        return error
    if not _is_shallow(data):
        return TooDeep(most=MOST_DEPTH)
    if odd.numbers:
        return _bad_number(value, odd)
    what = "json-half" if "surrogate" in refused.msg else "json-otherwise"
    return NotJson(line=refused.lineno, column=refused.colno, what=Say(code=what))


def _bad_number(value: Any, odd: _Odd) -> BadNumber:
    return BadNumber(*islice(_where_odd(value, _BadNumber), MOST_ERRORS), seen=odd.numbers[0].seen)


def _values(text: str, odd: _Odd) -> Any:
    """The values that JSON text stands for; what cannot stay as it is, is noted with the place it has in them.

    Raises
    ------
    NotJson, TooDeep
    """
    try:
        return json.loads(
            text,
            object_pairs_hook=odd.members,
            parse_int=odd.integer,
            parse_float=odd.decimal,
            parse_constant=odd.constant,
        )
    except json.JSONDecodeError as error:
        what = PARSER_SAYS.get(error.msg.rstrip(": "), "json-otherwise")
        raise NotJson(line=error.lineno, column=error.colno, what=Say(code=what)) from None
    except RecursionError:
        raise TooDeep(most=MOST_DEPTH) from None


def _decode(data: bytes) -> str:
    if data.startswith(_MARKS):
        raise NotUtf8()
    try:
        text = data.decode()
    except UnicodeDecodeError:
        raise NotUtf8() from None
    if "\x00" in text[:4]:
        raise NotUtf8()
    return text


def _is_shallow(data: bytes) -> bool:
    """Whether JSON nests no deeper than is read, found without a parser that would itself nest.

    What is not structure is taken away: escaped quotes, everything but brackets and quotes, then each second piece
    between quotes, which is a string. Then brackets go in pairs, a level at a time.
    """
    rest = data.replace(b"\\\\", b"").replace(b'\\"', b"").translate(None, _NOT_STRUCTURE).replace(b'""', b"")
    rest = b"".join(rest.split(b'"')[::2]).translate(_ONE_KIND)
    for _ in range(MOST_DEPTH):
        if not rest:
            return True
        rest = rest.replace(b"{}", b"")
    return not rest


class _Doubled(dict[str, Any]):
    """An object in which ``name`` stood twice."""

    name: str


class _BadNumber(NamedTuple):
    """What stands for a number that is not read."""

    seen: str


class _Odd:
    """What the parser meets that is not read: it goes on, so that each can be told with its place."""

    def __init__(self) -> None:
        self.doubled: list[_Doubled] = []
        self.numbers: list[_BadNumber] = []

    def members(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        """An object; one that says a member twice is noted."""
        members = dict(pairs)
        if len(members) == len(pairs):
            return members
        marked = _Doubled(members)
        names: set[str] = set()
        marked.name = next(name for name, _ in pairs if name in names or names.add(name))  # type: ignore[func-returns-value]
        self.doubled.append(marked)
        return marked

    def integer(self, text: str) -> int | _BadNumber:
        """A whole number, unless it is too long."""
        return int(text) if len(text) <= MOST_NUMBER_CHARACTERS else self.constant(text)

    def decimal(self, text: str) -> float | _BadNumber:
        """A number, unless it is too long or beyond what a float holds."""
        value = float(text) if len(text) <= MOST_NUMBER_CHARACTERS else math.inf
        return value if math.isfinite(value) else self.constant(text)

    def constant(self, text: str) -> _BadNumber:
        """NaN, an infinity, or another number that is not read."""
        found = _BadNumber(text[:MOST_NUMBER_CHARACTERS] + "…" if len(text) > MOST_NUMBER_CHARACTERS else text)
        self.numbers.append(found)
        return found


def _where_odd(value: Any, kind: type[_Doubled | _BadNumber], *segments: str | int) -> Iterator[LocatedFinding]:
    if isinstance(value, kind):
        yield _told(value, *segments)
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for segment, part in inner:
        yield from _where_odd(part, kind, *segments, segment)


def _told(odd: _Doubled | _BadNumber, *segments: str | int) -> LocatedFinding:
    if isinstance(odd, _Doubled):
        return LocatedFinding(pointer(*segments, odd.name), Finding("doubled-field", odd.name))
    return LocatedFinding(pointer(*segments), Finding("bad-number", odd.seen, {"most": MOST_NUMBER_CHARACTERS}))
