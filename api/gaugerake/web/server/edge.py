"""The settings of what stands in front: trusted hosts, proxies, the page's address; and browsers kept on TLS.

``GAUGERAKE_TRUSTED_HOSTS`` are the names by which people reach the service, with commas; a leading dot takes the names
below. Loopback names are always among them, for those who look whether it lives. Without it every name is answered.

``GAUGERAKE_PROXY_HOPS`` is the number of our own proxies in front, 0 unless given. So many addresses at the end of
``X-Forwarded-For`` are believed, and the nearest one's ``X-Forwarded-Proto``; nothing else that is forwarded.

``GAUGERAKE_ADDRESS`` is where people reach the page, which a quote's QR code holds.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from flask import Flask, Response, request
from werkzeug.middleware.proxy_fix import ProxyFix

HOSTS, HOPS, ADDRESS = "GAUGERAKE_TRUSTED_HOSTS", "GAUGERAKE_PROXY_HOPS", "GAUGERAKE_ADDRESS"
_PAGE = re.compile(r"https?://[^\s/?#]+(?:/[^\s?#]*)?")
MOST_HOPS = 10
LOOPBACK = ("localhost", "127.0.0.1", "[::1]")
STRICT_TRANSPORT = "max-age=31536000"


class BadSetting(ValueError):
    """A setting of the environment that cannot be read; the text says what to write."""


def trust(app: Flask, environment: Mapping[str, str]) -> None:
    """Trust the hosts and proxies that the environment names, and keep browsers on TLS.

    Raises
    ------
    BadSetting
    """
    app.config["TRUSTED_HOSTS"] = trusted_hosts(environment)
    app.config["PROXY_HOPS"] = hops = proxy_hops(environment)
    if hops:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=1, x_host=0)  # type: ignore[method-assign]
    app.after_request(_stay_encrypted)


def trusted_hosts(environment: Mapping[str, str]) -> list[str] | None:
    """The hosts that are answered; None for all.

    >>> trusted_hosts({"GAUGERAKE_TRUSTED_HOSTS": "floors.example, .shop.example"})
    ['floors.example', '.shop.example', 'localhost', '127.0.0.1', '[::1]']
    """
    named = [host for part in environment.get(HOSTS, "").split(",") if (host := part.strip().lower())]
    return [*named, *LOOPBACK] if named else None


def proxy_hops(environment: Mapping[str, str]) -> int:
    """How many proxies in front are ours.

    >>> proxy_hops({"GAUGERAKE_PROXY_HOPS": "1"})
    1

    Raises
    ------
    BadSetting
    """
    text = environment.get(HOPS, "").strip() or "0"
    if not (text.isascii() and text.isdecimal()) or int(text) > MOST_HOPS:
        raise BadSetting(f"{HOPS} is the number of proxies in front, 0 to {MOST_HOPS}; it is {text[:20]!r}")
    return int(text)


def page_address(environment: Mapping[str, str]) -> str | None:
    """Where people reach the page; None for the address that was asked.

    >>> page_address({"GAUGERAKE_ADDRESS": "https://floors.example"})
    'https://floors.example'

    Raises
    ------
    BadSetting
    """
    text = environment.get(ADDRESS, "").strip()
    if text and not _PAGE.fullmatch(text):
        raise BadSetting(
            f"{ADDRESS} is where people reach the page, such as https://floors.example; it is {text[:60]!r}"
        )
    return text or None


def _stay_encrypted(response: Response) -> Response:
    """Behind TLS, a browser is to come back by TLS alone."""
    if request.is_secure:
        response.headers.setdefault("Strict-Transport-Security", STRICT_TRANSPORT)
    return response
