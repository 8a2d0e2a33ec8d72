"""Rate limits of requests: each key at its own rate, each address at that of ``GAUGERAKE_RATE``, if that is given.

Flask-Limiter counts for all workers together: in a SQLite file that those of one machine share (`counter`), or in the
Redis of ``GAUGERAKE_LIMITS``, which replicas share too.

Decisions:

* A key's rate is for all who use the key together. ``GAUGERAKE_RATE`` is for addresses without a key, and for pages,
  where one visitor would use up the rate of all.
* The library ``limits`` has no store in a file, and those of other libraries do not fit it, so `counter` is one. SQLite
  sees to locks and to workers that are killed.
* While Redis is away or does not answer, each worker counts for itself, and nobody is refused because of it. It is
  waited for half a second (its own client would wait half a minute), by one request now and then.
* Each job of a batch counts. One that comes when the rate is used up is refused in its line with the seconds to wait:
  a batch that waited would hold a thread for minutes, and look stuck.
"""

from __future__ import annotations

import importlib.util
import logging
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from flask import Flask, Response, g, request
from flask_limiter import Limit, Limiter, RequestLimit
from limits.errors import ConfigurationError
from limits.storage import storage_from_string

from gaugerake.catalogue.errors import BadKeyDetail
from gaugerake.catalogue.keys.key import origins_of, rate_of
from gaugerake.floor.values.frozen import dataclass
from gaugerake.web.api import rates
from gaugerake.web.api.access import ANY, GUARDED
from gaugerake.web.server import counter
from gaugerake.web.server.client_address import counted_as
from gaugerake.web.server.edge import BadSetting

ORIGINS, RATE, STORAGE = "GAUGERAKE_ORIGINS", "GAUGERAKE_RATE", "GAUGERAKE_LIMITS"
MEMORY = "memory://"
REDIS = ("redis://", "rediss://", "redis+unix://")
PATIENCE_SECONDS = 0.5
logger = logging.getLogger("gaugerake.web")


@dataclass(frozen=True, slots=True, kw_only=True)
class AccessSettings:
    """The environment's settings of access: origins of an open service, the rate of an address, the store of counts."""

    origins: frozenset[str] = frozenset()
    rate: str | None = None
    storage: str = MEMORY


def access_settings(environment: Mapping[str, str]) -> AccessSettings:
    """Read the settings of access from the environment.

    >>> access_settings({"GAUGERAKE_ORIGINS": "https://shop.example", "GAUGERAKE_RATE": "60/minute"}).rate
    '60/minute'

    Raises
    ------
    BadSetting
    """
    written = [text for part in environment.get(ORIGINS, "").split(",") if (text := part.strip())]
    rate = environment.get(RATE, "").strip()
    storage = environment.get(STORAGE, "").strip() or MEMORY
    try:
        origins = frozenset([ANY] if written == [ANY] else origins_of(written))
    except BadKeyDetail as error:
        raise BadSetting(f"{ORIGINS}: {error}") from None
    try:
        return AccessSettings(origins=origins, rate=rate_of(rate) if rate else None, storage=_storage(storage))
    except BadKeyDetail as error:
        raise BadSetting(f"{RATE}: {error}") from None


def _storage(address: str) -> str:
    if address == MEMORY:
        return address
    if not address.startswith(REDIS):
        raise BadSetting(f"{STORAGE} is the address of a Redis: redis://host:6379/0")
    if importlib.util.find_spec("redis") is None:
        raise BadSetting(f"{STORAGE} names a Redis, and its client is not installed: pip install 'gaugerake[redis]'")
    try:
        storage_from_string(address)  # connects to nothing yet
    except (ConfigurationError, ValueError) as error:
        raise BadSetting(f"{STORAGE} cannot be used: {error}") from None
    return address


def _options(storage: str) -> dict[str, Any]:
    """How long a Redis is waited for: once and briefly, as its client would ask on for half a minute."""
    if not storage.startswith(REDIS):
        return {}
    from redis.backoff import NoBackoff  # only where one is named: it takes 0.1 s to import
    from redis.retry import Retry

    once = Retry(NoBackoff(), 0)
    return {"socket_connect_timeout": PATIENCE_SECONDS, "socket_timeout": PATIENCE_SECONDS, "retry": once}


def limit(app: Flask, given: AccessSettings, *, counts: Path | None = None) -> None:
    """Count the requests under ``/v1``, before they are admitted: in the file, where the environment names no Redis.

    Without a file either, the app counts for itself.
    """
    storage = counter.address_of(counts) if counts and given.storage == MEMORY else given.storage
    limiter = Limiter(
        lambda: counted_as(request.remote_addr),
        default_limits=[*_limits(given)],
        storage_uri=storage,
        storage_options=_options(storage),
        in_memory_fallback_enabled=True,
        swallow_errors=True,
    )
    limiter.request_filter(lambda: request.method == "OPTIONS" or not request.path.startswith(GUARDED))
    limiter.request_filter(lambda: g.key is None and given.rate is None)  # nothing to count
    limiter.init_app(app)
    app.extensions[rates.LIMITER] = limiter
    app.after_request(lambda response: _tell(response, limiter.current_limit))


def _limits(given: AccessSettings) -> list[Limit]:
    """Two limits: by key at the key's rate, and by address where the service has a rate.

    The address does not count for a request with a key that no page makes: a page's has an ``Origin``.
    """
    by_key = Limit(
        lambda: "1/second" if g.key is None else str(g.key.rate),
        key_function=lambda: str(g.key.prefix),
        scope="key",
        shared=True,
        exempt_when=lambda: g.key is None,
    )
    if given.rate is None:
        return [by_key]
    by_address = Limit(
        given.rate,
        key_function=lambda: counted_as(request.remote_addr),
        scope="address",
        shared=True,
        exempt_when=lambda: g.key is not None and "Origin" not in request.headers,
    )
    return [by_key, by_address]


def _tell(response: Response, held: RequestLimit | None) -> Response:
    """Say what is left, in the fields of the IETF's draft, and after a breach when to come again."""
    if held is None:
        return response
    try:
        ends, remaining = held.reset_at, held.remaining
    except Exception:  # noqa: BLE001 - it went after it had counted: the answer goes out without what is left
        logger.warning("what is left of a rate is not told: where counts are kept cannot be reached")
        if response.status_code == 429:
            response.headers["Retry-After"] = str(held.limit.get_expiry())
        return response
    wait = min(max(0, ends - int(time.time())), held.limit.get_expiry())
    name = held.request_args[-1]
    response.headers["RateLimit-Policy"] = f'"{name}";q={held.limit.amount};w={held.limit.get_expiry()}'
    response.headers["RateLimit"] = f'"{name}";r={remaining};t={wait}'
    if response.status_code == 429:
        response.headers["Retry-After"] = str(max(1, wait))
    return response
