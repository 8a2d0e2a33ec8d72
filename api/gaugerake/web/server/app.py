"""The app: resources, problems, headers and logs put together."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from flask import Flask, Response, request

from gaugerake.web.api import access, language, page, tokens
from gaugerake.web.api.compression import pack
from gaugerake.web.api.page import CLIENT
from gaugerake.web.api.resources import KEYLESS, RESOURCES
from gaugerake.web.api.tokens import Secrets
from gaugerake.web.describe import docs
from gaugerake.web.errors import problems
from gaugerake.web.errors.refusal import MOST_BYTES
from gaugerake.web.observe import metrics, traces
from gaugerake.web.server import edge, limits
from gaugerake.web.snapshots import EXTENSION, SnapshotSource

SECURITY = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "X-Frame-Options": "DENY",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Cache-Control": "no-store",
}
_OF_CALCULATIONS = {**SECURITY, "Accept-Query": "application/json"}
# a script or a style sheet cannot be framed; the page has two dozen of them
_OF_DOCUMENTS = {"x-frame-options"}
_PARTS = {"text/javascript", "text/css"}


class App(Flask):
    """A Flask app whose views and hooks are plain functions, all of them."""

    def ensure_sync(self, func: Callable[..., Any]) -> Callable[..., Any]:
        """The function itself: Flask looks anew at each one, for every request, whether it is a coroutine's."""
        return func


def create_app(
    source: SnapshotSource,
    *,
    secrets: Secrets | None = None,
    address: str | None = None,
    client: Path = CLIENT,
    counts: Path | None = None,
) -> Flask:
    """An app that answers from the source's catalogue.

    ``secrets`` gives the secrets that sign tokens, newest first, when they are first wanted; without them quotes have
    no token. ``address`` is where people reach the service, when the requests themselves do not say it. ``counts`` is
    the file in which the workers of this machine count requests together.
    """
    app = App("gaugerake", static_folder=None)
    # one more than is read: a body without a length is cut there, and is then seen to be too long
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES + 1
    app.extensions[EXTENSION] = source
    app.extensions[tokens.EXTENSION] = None if secrets is None else tokens.Keyring(secrets)
    app.config["ADDRESS"] = address
    app.url_map.strict_slashes = False
    app.url_map.merge_slashes = False
    app.register_error_handler(Exception, problems.respond)
    app.after_request(_secure)
    app.after_request(pack)
    edge.trust(app, os.environ)
    language.negotiate(app)
    metrics.measure(app)
    traces.trace(app)
    access_settings = limits.access_settings(os.environ)
    access.guard(app, keyless=KEYLESS, origins=access_settings.origins)
    limits.limit(app, access_settings, counts=counts)
    app.before_request(access.admit)
    for resource in RESOURCES:
        app.register_blueprint(resource)
    docs.add_docs(app)
    page.add_page(app, client)
    return app


def _secure(response: Response) -> Response:
    """The headers that every answer has, unless it has its own."""
    has = {name.lower() for name, _ in response.headers}
    if response.mimetype in _PARTS:
        has |= _OF_DOCUMENTS
    rule = request.url_rule
    queried = rule is not None and rule.methods is not None and "QUERY" in rule.methods
    given = _OF_CALCULATIONS if queried else SECURITY
    response.headers.extend([(name, value) for name, value in given.items() if name.lower() not in has])
    if allowed := response.headers.get("Allow"):
        # a description of OpenAPI 3.1 cannot say QUERY, and tools hold what is allowed against it
        response.headers["Allow"] = ", ".join(sorted(set(allowed.split(", ")) - {"QUERY"}))
    return response
