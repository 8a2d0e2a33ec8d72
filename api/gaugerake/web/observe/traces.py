"""Request ids, trace contexts and access logs: one JSON object a line on standard output, never a body in it."""

from __future__ import annotations

import logging
import re
import time
import traceback
from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

import orjson
from flask import Flask, Response, g, request

from gaugerake.web import watched

_ID = re.compile(r"[A-Za-z0-9._-]{1,64}")
_TRACE = re.compile(r"[0-9a-f]{2}-(?!0{32})[0-9a-f]{32}-(?!0{16})[0-9a-f]{16}-[0-9a-f]{2}")
_OWN = frozenset({"request_id", "traceparent", "method", "route", "status", "milliseconds", "bytes", "pid"})

access = logging.getLogger("gaugerake.access")


class JsonLines(logging.Formatter):
    """A log record as one line of JSON."""

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        line: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
        }
        line |= {name: value for name, value in vars(record).items() if name in _OWN}
        if record.exc_info:
            line["exception"] = outline(record.exc_info[1])
        return orjson.dumps(line, default=str).decode()


def outline(error: BaseException | None) -> list[str]:
    """The classes and places of an error and of what led to it, the first cause last.

    Never their texts: what a client sent, or a secret, may be in them.
    """
    lines: list[str] = []
    seen: set[int] = set()
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        lines.append(type(error).__name__)
        lines += [
            f"{frame.filename}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(error.__traceback__)
        ]
        error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    return lines


def trace(app: Flask) -> None:
    """Give every request an id, carry its trace context, and log it when it is answered."""
    app.before_request(_begin)
    app.after_request(_end)


def _begin() -> None:
    g.began = time.perf_counter()
    given = request.headers.get("X-Request-Id", "")
    g.request_id = given if _ID.fullmatch(given) else uuid4().hex
    parent = request.headers.get("traceparent", "")
    row = request.environ.get(watched.ROW)
    if row is not None:
        row.begin(g.request_id, request.method, _route())
    g.traceparent = parent if _TRACE.fullmatch(parent) and not parent.startswith("ff") else None


def _end(response: Response) -> Response:
    response.headers["X-Request-Id"] = g.request_id
    if g.traceparent:
        response.headers["traceparent"] = g.traceparent
    said = {
        "request_id": g.request_id,
        "traceparent": g.traceparent,
        "method": request.method,
        "route": _route(),
        "status": response.status_code,
        "milliseconds": round((time.perf_counter() - g.began) * 1000, 2),
        "bytes": response.content_length,
    }
    access.info("answered", extra=said)
    return response


def _route() -> str | None:
    """The route and not the path, which may hold a token."""
    rule = request.url_rule
    return rule.rule if rule else None
