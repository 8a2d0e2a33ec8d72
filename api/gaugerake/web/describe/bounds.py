"""What every schema and every response of the description has in common: bounds, formats and headers.

Those who generate programs from a description, or look for what could exhaust one, ask that each text, list and whole
number has an upper bound. The fields of a job state their own; what is here holds for all others.
"""

from __future__ import annotations

from typing import Any

from gaugerake.answers.show.reader import LANGUAGES

Form = dict[str, Any]

LONGEST_TEXT = 10_000
LONGEST_INSTANT = 40
LONGEST_BODY = 2_000_000_000
MOST_ITEMS = 1_000_000
LEAST_NUMBER, GREATEST_NUMBER = -(2**31), 2**31 - 1
_INSTANTS = {"date", "date-time"}

HEADERS: dict[str, Form] = {
    "RateLimit": {
        "description": "Where one's requests are counted: how many are left, and the seconds until all are again"
        " (draft-ietf-httpapi-ratelimit-headers).",
        "schema": {"type": "string", "maxLength": 200, "examples": ['"key";r=599;t=42']},
    },
    "Access-Control-Allow-Origin": {
        "description": "For pages of other origins that may read this: theirs.",
        "schema": {"type": "string", "maxLength": 300},
    },
    "X-Request-Id": {
        "description": "The request's own, or one that it was given; logs and problems have it too.",
        "schema": {"type": "string", "maxLength": 64},
    },
    "Retry-After": {
        "description": "In how many seconds to ask again.",
        "schema": {"type": "integer", "format": "int32", "minimum": 1, "maximum": 3600},
    },
    "Content-Language": {
        "description": "The language of the sentences and names in it (RFC 9110).",
        "schema": {"type": "string", "enum": list(LANGUAGES)},
    },
    "ETag": {
        "description": "The name of this form of it.",
        "schema": {"type": "string", "maxLength": 80},
    },
    "WWW-Authenticate": {
        "description": "How to send a key (RFC 6750).",
        "schema": {"type": "string", "maxLength": 200},
    },
}
COMMON = ("RateLimit", "Access-Control-Allow-Origin", "X-Request-Id")


def headers(*names: str) -> Form:
    """References to the headers that each response has, and to these."""
    return {name: {"$ref": f"#/components/headers/{name}"} for name in (*COMMON, *names)}


def bounded(form: Any, *, longest: int = LONGEST_TEXT) -> Any:
    """A form with a bound to each text, list and whole number in it, where it states none.

    >>> bounded({"type": "array", "items": {"type": "string"}})
    {'type': 'array', 'items': {'type': 'string', 'maxLength': 10000}, 'maxItems': 1000000}
    """
    if isinstance(form, list):
        return [bounded(item, longest=longest) for item in form]
    if not isinstance(form, dict):
        return form
    inner = {name: bounded(value, longest=longest) for name, value in form.items()}
    kinds = form.get("type")
    kinds = kinds if isinstance(kinds, list) else [kinds]
    for kind in kinds:
        if isinstance(kind, str) and kind in _BOUNDS and "enum" not in form and "const" not in form:
            inner = _BOUNDS[kind](form, longest) | inner
            inner = {name: inner[name] for name in (*form, *(name for name in inner if name not in form))}
    return inner


def _text(form: Form, longest: int) -> Form:
    return {"maxLength": LONGEST_INSTANT if form.get("format") in _INSTANTS else longest}


def _list(_form: Form, _longest: int) -> Form:
    return {"maxItems": MOST_ITEMS}


def _whole(form: Form, _longest: int) -> Form:
    bounds: Form = {"format": "int32"}
    if "exclusiveMinimum" not in form:
        bounds["minimum"] = LEAST_NUMBER
    if "exclusiveMaximum" not in form:
        bounds["maximum"] = GREATEST_NUMBER
    return bounds


_BOUNDS = {"string": _text, "array": _list, "integer": _whole}
