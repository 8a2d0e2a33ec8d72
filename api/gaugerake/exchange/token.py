"""Quote tokens: all that a quote is a function of, packed, compressed and signed, so that nothing need be kept.

A token is ``payload.signature``, in URL-safe base64. The payload is deflated JSON of the job in full precision, the
units, the catalogue revision, the price list and the engine that made the quote. Nothing in it is secret and nothing in
it can be changed: what none of our keys signed is no token. It has no age, for the service has no clock; the quote
itself says how long its prices hold.
"""

from __future__ import annotations

import hashlib
import re
import zlib
from collections.abc import Iterable

import orjson
from itsdangerous import BadData, Signer
from itsdangerous.encoding import base64_decode, base64_encode

from gaugerake.exchange.dictionary import DICTIONARY
from gaugerake.exchange.errors import NotAToken, WeakSecret
from gaugerake.exchange.packing import pack, unpack
from gaugerake.floor.job import Job
from gaugerake.floor.values.frozen import dataclass
from gaugerake.measure.choice import ChoiceName

MOST_CHARACTERS = 4000
LEAST_SECRET = 16
_MOST_BYTES = 1 << 20  # what a payload may inflate to
_FORM = re.compile(r"[A-Za-z0-9_-]+\.[A-Za-z0-9_-]+")
_SALT = b"gaugerake.quote.1"  # changes with the form of the payload: a token of another form is none


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealed:
    """What a token holds. ``book`` names the content of a branch's price list, None the catalogue's own prices."""

    job: Job
    units: ChoiceName
    revision: str
    book: str | None = None
    engine: str


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
        payload = base64_encode(_deflate(orjson.dumps(pack(sealed))))
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
            return unpack(Sealed, orjson.loads(_inflate(base64_decode(payload))))
        except (BadData, zlib.error, LookupError, TypeError, ValueError, ArithmeticError, AttributeError):
            raise NotAToken from None


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
