"""Tokens at the edge: the keys of the running app, what a quote is sealed in, and what an opened one is made from."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from functools import cached_property
from typing import cast

from flask import current_app, g
from marshmallow import ValidationError

from gaugerake import __version__
from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.remarks import Remarks, caution
from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import asked
from gaugerake.answers.quote.answer import WholeQuote, quote
from gaugerake.answers.quote.asked import Quote, quote_parts
from gaugerake.catalogue.errors import UnknownBook, UnknownRevision
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.exchange.errors import NotAToken
from gaugerake.exchange.token import MOST_CHARACTERS, Keys, Sealed
from gaugerake.floor.job import Job
from gaugerake.floor.product import PriceBook
from gaugerake.floor.values.frozen import replace
from gaugerake.web.errors.refusal import QuoteGone
from gaugerake.web.json_in.schemas.job import JOB
from gaugerake.web.snapshots import the_source

EXTENSION = "gaugerake.keyring"
VARIABLE = "GAUGERAKE_SECRETS"
Secrets = Callable[[], Sequence[str]]


class Keyring:
    """The keys, built on first use: their secrets may come from a store that is away just now."""

    def __init__(self, secrets: Secrets) -> None:
        self._secrets = secrets

    @cached_property
    def keys(self) -> Keys:
        """The keys.

        Raises
        ------
        CatalogueError
            When the secrets cannot be had.
        """
        return Keys(self._secrets())


def given_secrets() -> tuple[str, ...]:
    """The secrets that the environment gives, newest first; none when it gives none."""
    parts = os.environ.get(VARIABLE, "").split(",")
    return tuple(secret for part in parts if (secret := part.strip()))


def quote_with_token(resolved: ResolvedJob, *, explained: bool = False) -> Answer[WholeQuote] | Answer[Quote]:
    """The quote of the job that was posted, in the parts that the reader asks for, and the token that opens the whole.

    What is said of the token comes first.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    token, said = token_of(resolved)
    parts = g.reader.parts
    if parts is None:
        whole = quote(resolved, token=token, explained=explained)
        return replace(whole, remarks=(*said, *whole.remarks))
    answer = quote_parts(resolved, parts, token=token, explained=explained)
    return replace(answer, remarks=(*said, *answer.remarks))


def token_of(resolved: ResolvedJob) -> tuple[str | None, Remarks]:
    """The token of the job that was posted, and why there is none."""
    ring = _keyring()
    if ring is None:
        return None, (caution("token-without-secret"),)
    supply = resolved.supply
    sealed = Sealed(
        document=g.document,
        units=g.reader.units.name,
        revision=supply.revision,
        book=supply.book_id,
        engine=__version__,
        lang=g.get("lang"),
    )
    token = ring.keys.seal(sealed)
    return token, () if token is not None else (caution("token-too-long", most=MOST_CHARACTERS),)


def opened(token: str) -> Sealed:
    """What a token holds.

    Raises
    ------
    NotAToken
    """
    ring = _keyring()
    if ring is None:
        raise NotAToken
    return ring.keys.open(token)


def resolved_again(sealed: Sealed) -> tuple[ResolvedJob, Remarks]:
    """The sealed job, read again and resolved from last spring's catalogue and prices, and what is said of that.

    Raises
    ------
    QuoteGone
        When these are no longer kept, or not in a form that is still read.
    """
    source = the_source()
    try:
        snapshot = source.revision(sealed.revision)
        book: PriceBook = snapshot.list_book if sealed.book is None else source.book(sealed.book)
        job: Job = JOB.load(sealed.document)
    except (UnknownRevision, UnknownBook, FileRefused, ValidationError):
        raise QuoteGone from None
    supply = Supply(
        catalogue=snapshot.catalogue, revision=snapshot.revision, price_book=asked(book), book_id=sealed.book
    )
    other = sealed.engine != __version__
    said = (caution("other-engine", made=sealed.engine, now=__version__),) if other else ()
    return resolve(job, supply), said


def _keyring() -> Keyring | None:
    return cast("Keyring | None", current_app.extensions[EXTENSION])
