"""The name of an answer: a digest of everything that it is a function of."""

from __future__ import annotations

import hashlib
from decimal import Decimal
from typing import Any

import orjson

from gaugerake import __version__
from gaugerake.answers.job.resolved import ResolvedJob


def _plain(value: Any) -> str:
    """What the encoder has no form for: money, so that 45.0 and 45.00 are one."""
    if isinstance(value, Decimal):
        return format(value.normalize(), "f")
    raise TypeError(f"a job holds a {type(value).__name__}, which has no canonical form")


def canonical(value: object) -> bytes:
    """A job (or any frozen value) in SI with its keys sorted; equal values give equal bytes.

    >>> from gaugerake.floor.job import Rectangle
    >>> canonical(Rectangle(length_m=3.0, width_m=2.5))
    b'{"length_m":3.0,"width_m":2.5}'
    """
    return orjson.dumps(value, default=_plain, option=orjson.OPT_SORT_KEYS)


def fingerprint(resolved: ResolvedJob) -> str:
    """SHA-256, in hex, of the canonical job, the catalogue revision, the price book and the engine.

    A branch's book goes in by its content: other prices under the same name are another quote.
    """
    digest = hashlib.sha256(canonical(resolved.asked))
    supply = resolved.supply
    for part in (supply.revision, supply.book_id or supply.book.code, __version__):
        digest.update(b"\n" + part.encode())
    return digest.hexdigest()
