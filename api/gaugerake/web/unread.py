"""What is left of a body that its answer does not wait for: read to the end within bounds, or the connection closes.

A refusal by its headers alone (401, 404, 405, 413, 415, 429) is made before the body was read. On a connection that is
kept, what is left of it would stand where the next request begins. So a small rest is read and thrown away before the
answer goes, and after a large or a slow one the answer says ``Connection: close``.
"""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIEnvironment

STREAMS = "gaugerake.streams"
"""The mark in the environ of a request whose body is read while it is answered: it is left alone here."""
MOST_BYTES = 1 << 20
MOST_SECONDS = 2.0


def is_all_read(parser: Any, environ: WSGIEnvironment) -> bool:
    """Whether the body of gunicorn's parser is read to its end, as it is or after what is read here."""
    if environ.get(STREAMS):
        return True
    if int(environ.get("CONTENT_LENGTH") or 0) > MOST_BYTES:
        return _is_at_end(parser)
    return bool(parser.finish_body(deadline=time.monotonic() + MOST_SECONDS, max_bytes=MOST_BYTES))


def _is_at_end(parser: Any) -> bool:
    """Whether nothing of a body of stated length is left."""
    return getattr(parser.mesg.body.reader, "length", 1) == 0
