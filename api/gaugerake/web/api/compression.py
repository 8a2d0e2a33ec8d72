"""Long answers sent packed to those who take them so: a quote is four times as long as it need be on a phone."""

from __future__ import annotations

import gzip

from flask import Response, request

from gaugerake.web.api.vary import vary

LEAST_BYTES = 1400
"""What fits one packet gains nothing."""

LEVEL, LEVEL_NAMED = 6, 9
"""What has a name is kept by those who have it, so it is packed seldom and may take longer."""

SUFFIX = "-gz"
"""What the tag of a packed answer ends with: it is not the same bytes, so it has a tag of its own."""

_TEXTS = {"application/json", "application/problem+json", "image/svg+xml", "text/csv", "application/xml"}


def pack(response: Response) -> Response:
    """Pack a long answer for a client that asks for it; what comes in a stream goes as it is."""
    if response.mimetype not in _TEXTS or response.is_streamed or response.headers.get("Content-Encoding"):
        return response
    vary(response, "Accept-Encoding")
    body = response.get_data()
    if request.method == "HEAD" or len(body) < LEAST_BYTES or not request.accept_encodings.quality("gzip") > 0:
        return response
    etag, weak = response.get_etag()
    response.set_data(gzip.compress(body, LEVEL_NAMED if etag else LEVEL, mtime=0))
    response.headers["Content-Encoding"] = "gzip"
    if etag is not None:
        response.set_etag(etag + SUFFIX, weak=bool(weak))
    return response
