"""What an answer varies with: the ``Vary`` of HTTP, to which several hooks add theirs."""

from __future__ import annotations

from flask import Response


def vary(response: Response, *names: str) -> None:
    """Add these request headers to the ``Vary`` of an answer, behind those that it names already.

    Werkzeug's own set takes the header apart and writes it again for each name.

    >>> response = Response()
    >>> vary(response, "Accept")
    >>> vary(response, "Origin", "Accept")
    >>> response.headers["Vary"]
    'Accept, Origin'
    """
    said = response.headers.get("Vary")
    known = said.split(", ") if said else ()
    response.headers["Vary"] = ", ".join(dict.fromkeys((*known, *names)))
