"""Keys of the API: who may ask, at whose prices, from which web pages and how often.

A key is ``gr_``, a prefix that may be told and logged, and a secret of 160 random bits. Only the SHA-256 of the whole
is kept, which is enough: nobody guesses 160 bits, so there is nothing to slow down.
"""

from __future__ import annotations

import re
import secrets
from base64 import b32encode
from collections.abc import Iterable, Mapping
from datetime import datetime
from hashlib import sha256
from hmac import compare_digest
from urllib.parse import urlsplit

from gaugerake.catalogue.errors import BadKeyDetail
from gaugerake.floor.values.frozen import dataclass

MARK = "gr"
USUAL_RATE = "600/minute"
LIVE_PER_HOLDER = 2
MOST_ORIGINS = 20
LONGEST_HOLDER = 80
_SECRET_BYTES = 20
_PREFIX_BYTES = 5
_KEY = re.compile(rf"{MARK}_([a-z2-7]{{8}})_[a-z2-7]{{32}}")
_RATE = re.compile(r"([1-9][0-9]{0,6})/(second|minute|hour)")
_HOST = re.compile(r"(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)*[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?|\[[0-9a-f:.]+\]")
_USUAL_PORTS = {"http": 80, "https": 443}
_NOBODY = sha256(b"").hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """What is kept of a key. ``book`` is the code of its price book, None for list prices."""

    prefix: str
    digest: str
    holder: str
    book: str | None = None
    origins: tuple[str, ...] = ()
    rate: str = USUAL_RATE


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedKey:
    """A key as it is listed."""

    key: Key
    created_at: datetime
    revoked_at: datetime | None


@dataclass(frozen=True, slots=True)
class Access:
    """The live keys of a service that asks for one, by prefix."""

    keys: Mapping[str, Key]
    origins: frozenset[str]

    @classmethod
    def of(cls, keys: Iterable[Key]) -> Access:
        """The access that these keys give."""
        by_prefix = {key.prefix: key for key in keys}
        return cls(by_prefix, frozenset(origin for key in by_prefix.values() for origin in key.origins))

    def holder_of(self, text: str) -> Key | None:
        """The key that a text is; None when it is none. As much is compared for a wrong one as for a right one.

        >>> text, prefix, digest = new_key()
        >>> access = Access.of([Key(prefix=prefix, digest=digest, holder="Shop")])
        >>> access.holder_of(text).holder, access.holder_of(text[:-1] + "2a")
        ('Shop', None)
        """
        found = _KEY.fullmatch(text)
        key = self.keys.get(found[1]) if found else None
        same = compare_digest(digest_of(text), key.digest if key else _NOBODY)
        return key if same else None


def new_key() -> tuple[str, str, str]:
    """A new key, its prefix, and the digest that is kept of it."""
    prefix, secret = _letters(_PREFIX_BYTES), _letters(_SECRET_BYTES)
    text = f"{MARK}_{prefix}_{secret}"
    return text, prefix, digest_of(text)


def digest_of(text: str) -> str:
    """What is kept of a key."""
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _letters(count: int) -> str:
    return b32encode(secrets.token_bytes(count)).decode("ascii").lower()


def holder_name(written: str) -> str:
    """The name of a holder, with single spaces.

    Raises
    ------
    BadKeyDetail
    """
    name = " ".join(written.split())
    if not name or len(name) > LONGEST_HOLDER or not name.isprintable():
        raise BadKeyDetail(f"a holder is called by 1 to {LONGEST_HOLDER} characters on one line, such as North branch")
    return name


def rate_of(written: str) -> str:
    """A rate, such as ``600/minute``.

    Raises
    ------
    BadKeyDetail
    """
    if not _RATE.fullmatch(written):
        raise BadKeyDetail(f'"{written[:40]}" is no rate: write such as {USUAL_RATE}, 20/second or 5000/hour')
    return written


def origins_of(written: Iterable[str]) -> tuple[str, ...]:
    """Origins as browsers write them, each once.

    Raises
    ------
    BadKeyDetail

    Examples
    --------
    >>> origins_of(["https://Shop.example:443/", "http://localhost:8081"])
    ('http://localhost:8081', 'https://shop.example')
    """
    origins = tuple(sorted({_origin(text.strip()) for text in written}))
    if len(origins) > MOST_ORIGINS:
        raise BadKeyDetail(f"at most {MOST_ORIGINS} origins")
    return origins


def _origin(text: str) -> str:
    wrong = BadKeyDetail(f'"{text[:80]}" is no origin: write such as https://shop.example, without a path')
    try:
        parts = urlsplit(text.lower())
        port = parts.port
    except ValueError:
        raise wrong from None
    host = parts.netloc.rpartition(":")[0] if port is not None else parts.netloc.removesuffix(":")
    rest = parts.path.strip("/") or parts.query or parts.fragment
    if parts.scheme not in _USUAL_PORTS or rest or not _HOST.fullmatch(host):
        raise wrong
    shown = "" if port in (None, _USUAL_PORTS[parts.scheme]) else f":{port}"
    return f"{parts.scheme}://{host}{shown}"
