"""Access: the keys that requests need, and the pages of other origins that may read answers.

A service for which no key was ever made answers everybody. Once there is one, every request under ``/v1`` needs a live
key (RFC 6750), except those that open a quote: its token is signed here and is permission enough, as the paper is that
it is printed on. What a key may do is read from the request's one snapshot, so nothing is asked of the database.

Pages of other origins are told that they may read an answer by the Fetch standard's CORS headers: in an open service
those of ``GAUGERAKE_ORIGINS``, else those of the key. A preflight has no key, so any key's origin passes it.

Decisions:

* A revoked key stays on record, so revoking the last one never opens the service; ``key open`` does.
* A key has its own book. Naming another in ``order.price_book`` is 403, whether that one exists or not. A book that a
  live key has cannot be dropped. ``GET /v1/systems`` shows the key's prices.
* A key used by a page of an origin that is not its own is refused (403), not only left without headers. Who sends no
  good key may read the refusal from any key's origin. A preflight is never counted.
"""

from __future__ import annotations

from collections.abc import Collection
from urllib.parse import urlsplit

from flask import Flask, Response, current_app, g, request

from gaugerake.catalogue.errors import UnknownBook
from gaugerake.catalogue.file.format import LIST
from gaugerake.catalogue.keys.key import Access, Key
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.web.api import headers
from gaugerake.web.api.vary import vary
from gaugerake.web.errors.refusal import KeyNeeded, KeyUnknown, OriginNotAllowed, Refusal
from gaugerake.web.snapshots import the_snapshot

GUARDED = "/v1/"
ANY = "*"
_METHODS = "GET, HEAD, POST, QUERY"
_TAKEN = "Authorization, Content-Type, If-None-Match, traceparent, X-Request-Id"
_SHOWN = "ETag, RateLimit, RateLimit-Policy, Retry-After, traceparent, X-Request-Id"
_PREFLIGHT_SECONDS = "600"


def guard(app: Flask, *, keyless: Collection[str], origins: Collection[str]) -> None:
    """Look at each request's key and origin; ``keyless`` endpoints need none, ``origins`` are an open service's.

    Who is refused is so by `admit`, so that what counts requests can come between.
    """
    app.config["KEYLESS"] = frozenset(keyless)
    app.config["ORIGINS"] = frozenset(origins)
    app.before_request(_look)
    app.after_request(_share)


def _look() -> Response | None:
    g.key = g.shared_with = None
    g.refusal = headers.bound(request.environ)
    g.pop("snapshot", None)
    if not request.path.startswith(GUARDED):
        return None
    access = the_snapshot().access
    origin = _foreign_origin()
    if request.method == "OPTIONS":
        g.shared_with = _if_allowed(origin, access)
        return _preflight() if "Access-Control-Request-Method" in request.headers else None
    if access is not None and request.endpoint not in current_app.config["KEYLESS"]:
        g.key, refusal = _key(access)
        g.refusal = g.refusal or refusal
    if origin is not None and g.key is not None:
        allowed = origin in g.key.origins
        g.shared_with = origin if allowed else None
        if not allowed:
            g.refusal = OriginNotAllowed(origin=origin[:80])
    else:
        g.shared_with = _if_allowed(origin, access)
    return None


def _key(access: Access) -> tuple[Key | None, Refusal | None]:
    given = request.authorization
    if given is None or given.type != "bearer" or not given.token:
        return None, KeyNeeded()
    key = access.holder_of(given.token)
    return key, None if key else KeyUnknown()


def admit() -> None:
    """Let the request in.

    Raises
    ------
    HeaderTooLong, KeyNeeded, KeyUnknown, OriginNotAllowed
    """
    if g.refusal is not None:
        raise g.refusal


def book_code(snapshot: Snapshot) -> str:
    """The code of the price book that the request's key has; that of the list prices without a key.

    Raises
    ------
    UnknownBook
    """
    code = LIST if g.get("key") is None else g.key.book or LIST
    if code not in snapshot.books:
        raise UnknownBook(code)
    return code


def _foreign_origin() -> str | None:
    """The origin of the page that asks, when it is not one of this service's own."""
    origin = request.headers.get("Origin")
    if origin is None:
        return None
    scheme, _, host = origin.partition("://")
    own = {request.host, urlsplit(current_app.config["ADDRESS"] or "").netloc}
    return None if scheme in ("http", "https") and host and host in own else origin


def _if_allowed(origin: str | None, access: Access | None) -> str | None:
    if origin is None:
        return None
    allowed = current_app.config["ORIGINS"] if access is None else access.origins
    return origin if origin in allowed else ANY if ANY in allowed else None


def _preflight() -> Response:
    response = Response(status=204)
    del response.headers["Content-Type"]
    if g.shared_with is not None:
        response.headers["Access-Control-Allow-Methods"] = _METHODS
        response.headers["Access-Control-Allow-Headers"] = _TAKEN
        response.headers["Access-Control-Max-Age"] = _PREFLIGHT_SECONDS
    vary(response, "Access-Control-Request-Method", "Access-Control-Request-Headers")
    return response


def _share(response: Response) -> Response:
    """Say which page may read the answer, and that others get other answers."""
    if not request.path.startswith(GUARDED):
        return response
    vary(response, "Origin", "Authorization")
    if g.get("key") is not None and not response.cache_control.no_store:
        response.cache_control.private = True
    if g.get("shared_with") is not None:
        response.headers["Access-Control-Allow-Origin"] = g.shared_with
        response.headers["Access-Control-Expose-Headers"] = _SHOWN
    return response
