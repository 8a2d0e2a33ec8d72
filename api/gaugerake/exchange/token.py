"""Quote tokens: all that a quote is a function of, compressed and signed, so that the service need keep nothing.

A token is ``payload.signature``, in URL-safe base64. The payload is deflated JSON: the job document as it was posted,
in its own words, with the units, the catalogue revision, the price list and the engine of the quote, and its language
where that was asked for. No name of our code stands in it, so the code may change without breaking a token. Nothing in
it is secret, and nobody can change it: what none of our keys signed is no token.

A price list is named by its content and not by its branch, so last spring's prices come back. A token has no age, for
the service has no clock; ``valid_until`` of the quote says how long its prices hold. Whatever is unsigned, foreign or
malformed is refused in the same way. Secrets come from ``GAUGERAKE_SECRETS``, or else from the database: whoever moves
from one to the other lists the old secret too, or old links end.
"""

from __future__ import annotations

import hashlib
import re
import zlib
from collections.abc import Iterable
from typing import Any, get_args

import orjson
from itsdangerous import BadData, Signer
from itsdangerous.encoding import base64_decode, base64_encode

from gaugerake.answers.show.reader import LANGUAGES, Language
from gaugerake.exchange.dictionary import DICTIONARY
from gaugerake.exchange.errors import NotAToken, WeakSecret
from gaugerake.floor.values.frozen import dataclass
from gaugerake.measure.choice import ChoiceName

MOST_CHARACTERS = 4000
LEAST_SECRET = 16
_MOST_BYTES = 1 << 20  # what a payload may inflate to
_FORM = re.compile(r"[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+")
_SALT = b"gaugerake.quote.2"  # changes with the form of the payload: a token of another form is none


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealed:
    """What a token holds.

    ``document`` is the job as it was posted, which the job's schema reads again. ``book`` names the content of a
    branch's price list; None is the catalogue's own prices. Without a ``lang`` each reader has their own.
    """

    document: dict[str, Any]
    units: ChoiceName
    revision: str
    book: str | None = None
    engine: str
    lang: Language | None = None


class Keys:
    """The secrets that sign tokens: the newest signs, every one of them is good to read with."""

    def __init__(self, newest_first: Iterable[str]) -> None:
        """Take the secrets.

        Raises
        ------
        WeakSecret
            When there is none, or one is too short to be a secret.
        """
        secrets = tuple(newest_first)
        if not secrets or any(len(secret) < LEAST_SECRET for secret in secrets):
            raise WeakSecret(LEAST_SECRET)
        self._signer = Signer(secrets[::-1], salt=_SALT, digest_method=hashlib.sha256, key_derivation="hmac")

    def seal(self, sealed: Sealed) -> str | None:
        """The token, or None when it would have more than 4,000 characters."""
        payload = base64_encode(_deflate(_written(sealed)))
        token = self._signer.sign(payload).decode()
        return token if len(token) <= MOST_CHARACTERS else None

    def open(self, token: str) -> Sealed:
        """What the token holds.

        Raises
        ------
        NotAToken
            When none of the keys signed it, or what was signed is no quote.
        """
        if len(token) > MOST_CHARACTERS or not _FORM.fullmatch(token):
            raise NotAToken
        try:
            payload = self._signer.unsign(token)
            _hold_canonical(token.rpartition(".")[2])
            return _read(_inflate(base64_decode(payload)))
        except (BadData, zlib.error, LookupError, TypeError, ValueError):
            raise NotAToken from None


def _written(sealed: Sealed) -> bytes:
    """The payload. Members are sorted, so that one document gives one token however its members are ordered."""
    payload = {"job": sealed.document, "units": sealed.units, "revision": sealed.revision}
    if sealed.book is not None:
        payload["book"] = sealed.book
    if sealed.lang is not None:
        payload["lang"] = sealed.lang
    return orjson.dumps(payload | {"engine": sealed.engine}, option=orjson.OPT_SORT_KEYS)


def _read(payload: bytes) -> Sealed:
    """What was written.

    Raises
    ------
    LookupError, TypeError, ValueError
        When the payload is none that we write.
    """
    held = orjson.loads(payload)
    document = held.pop("job")
    if not isinstance(document, dict) or held["units"] not in get_args(ChoiceName):
        raise TypeError("neither a job nor units of ours")
    if held.get("lang", LANGUAGES[0]) not in LANGUAGES:
        raise TypeError("no language of ours")
    if not all(isinstance(name, str) for name in held.values()):
        raise TypeError("a revision, a price list and an engine have names")
    return Sealed(document=document, **held)


def _hold_canonical(signature: str) -> None:
    """Refuse a signature that is not written in the one way in which it is made: its last character has spare bits.

    Raises
    ------
    ValueError
    """
    if base64_encode(base64_decode(signature)).decode() != signature:
        raise ValueError("another spelling of the signature")


def _deflate(data: bytes) -> bytes:
    packer = zlib.compressobj(
        9, zlib.DEFLATED, -zlib.MAX_WBITS, zlib.DEF_MEM_LEVEL, zlib.Z_DEFAULT_STRATEGY, DICTIONARY
    )
    return packer.compress(data) + packer.flush()


def _inflate(data: bytes) -> bytes:
    """The bytes that were deflated.

    Raises
    ------
    ValueError
        When they are more than any job has.
    """
    unpacker = zlib.decompressobj(-zlib.MAX_WBITS, DICTIONARY)
    found = unpacker.decompress(data, _MOST_BYTES)
    if not unpacker.eof:
        raise ValueError("no payload of ours")
    return found
