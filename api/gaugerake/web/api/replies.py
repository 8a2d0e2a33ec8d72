"""Bodies that leave: JSON with its cache rules, and named resources with a strong ETag and 304."""

from __future__ import annotations

from hashlib import sha256

import orjson
from flask import Response, request

from gaugerake.web.api.compression import SUFFIX

NO_STORE = "no-store"
ASK_AGAIN = "no-cache"


def json_reply(body: object) -> Response:
    """An answer that is worked out for one asker: nobody keeps it."""
    response = Response(orjson.dumps(body), content_type="application/json")
    response.headers["Cache-Control"] = NO_STORE
    return response


def named_reply(body: bytes, media_type: str, *, cache: str = ASK_AGAIN, etag: str | None = None) -> Response:
    """A resource with a name: its strong ETag, and 304 without a body to those who have it already."""
    tag = etag or sha256(body).hexdigest()[:32]
    tags = [name for name in (tag, tag + SUFFIX) if request.if_none_match.contains_weak(name)]
    response = Response(b"" if tags else body, 304 if tags else 200, content_type=media_type)
    if tags:
        del response.headers["Content-Type"]
    response.set_etag(tags[0] if tags else tag)
    response.headers["Cache-Control"] = cache
    return response
