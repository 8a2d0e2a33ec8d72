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
from typing import Any, NoReturn

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
    doubled: list[_Doubled] = []
    value = _values(text, doubled)
    if doubled:
        raise DoubledField(*islice(_where_doubled(value), MOST_ERRORS))
    return value


def _refusal(data: bytes, text: str, refused: orjson.JSONDecodeError) -> Unreadable:
    """What is wrong with text that the gate refused; the other parser takes a lone surrogate, which is left then."""
    try:
        _values(text, [])
    except Unreadable as error:
        return error
    if not _is_shallow(data):
        return TooDeep(most=MOST_DEPTH)
    what = "json-half" if "surrogate" in refused.msg else "json-otherwise"
    return NotJson(line=refused.lineno, column=refused.colno, what=Say(code=what))


def _values(text: str, doubled: list[_Doubled]) -> Any:
    """The values that JSON text stands for; objects that say a member twice are noted.

    Raises
    ------
    NotJson, BadNumber, TooDeep
    """
    try:
        return json.loads(
            text,
            object_pairs_hook=lambda pairs: _object(pairs, doubled),
            parse_int=_integer,
            parse_float=_decimal,
            parse_constant=_constant,
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


def _object(pairs: list[tuple[str, Any]], doubled: list[_Doubled]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) == len(pairs):
        return members
    marked = _Doubled(members)
    names: set[str] = set()
    marked.name = next(name for name, _ in pairs if name in names or names.add(name))  # type: ignore[func-returns-value]
    doubled.append(marked)
    return marked


def _where_doubled(value: Any, *segments: str | int) -> Iterator[LocatedFinding]:
    if isinstance(value, _Doubled):
        yield LocatedFinding(pointer(*segments, value.name), Finding("doubled-field", value.name))
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for segment, part in inner:
        yield from _where_doubled(part, *segments, segment)


def _integer(text: str) -> int:
    if len(text) > MOST_NUMBER_CHARACTERS:
        raise BadNumber(seen=text[:MOST_NUMBER_CHARACTERS] + "…")
    return int(text)


def _decimal(text: str) -> float:
    value = float(text) if len(text) <= MOST_NUMBER_CHARACTERS else math.inf
    if not math.isfinite(value):
        raise BadNumber(seen=text[:MOST_NUMBER_CHARACTERS])
    return value


def _constant(name: str) -> NoReturn:
    raise BadNumber(seen=name)
