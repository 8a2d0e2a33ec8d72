"""Tokens at the edge: the keys of the running app, what a quote is sealed in, and what an opened one is made from."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from functools import cached_property
from typing import cast

from flask import current_app, g

from gaugerake import __version__
from gaugerake.answers.job.context import Context
from gaugerake.answers.quote.answer import Quote, quote
from gaugerake.catalogue.errors import UnknownBook, UnknownRevision
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.exchange.errors import NotAToken
from gaugerake.exchange.token import MOST_CHARACTERS, Keys, Sealed
from gaugerake.floor.product import PriceBook
from gaugerake.web.errors.refusal import QuoteGone
from gaugerake.web.snapshots import the_shelf

EXTENSION = "gaugerake.keyring"
VARIABLE = "GAUGERAKE_SECRETS"
Secrets = Callable[[], Sequence[str]]


class Keyring:
    """The keys, made when they are first wanted: their secrets may come from a store that is away just now."""

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


def quote_with_token(context: Context) -> Quote:
    """The quote of a job, and the token that opens it again.

    Raises
    ------
    Refused
        When the job means something that cannot be.
    """
    ring = _keyring()
    if ring is None:
        context.record.caution("token-without-secret")
        return quote(context)
    sealed = Sealed(
        job=context.job,
        units=g.choice.name,
        revision=context.revision,
        book=context.book_id,
        engine=__version__,
    )
    token = ring.keys.seal(sealed)
    if token is None:
        context.record.caution("token-too-long", most=MOST_CHARACTERS)
    return quote(context, token=token)


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


def context_again(sealed: Sealed) -> Context:
    """What the sealed quote is made from: last spring's catalogue and last spring's prices.

    Raises
    ------
    QuoteGone
        When they are no longer kept, or not in a form that is still read.
    """
    shelf = the_shelf()
    try:
        snapshot = shelf.revision(sealed.revision)
        book: PriceBook = snapshot.list_book if sealed.book is None else shelf.book(sealed.book)
    except (UnknownRevision, UnknownBook, FileRefused):
        raise QuoteGone from None
    context = Context(
        job=sealed.job,
        catalogue=snapshot.catalogue,
        revision=snapshot.revision,
        book=book,
        book_id=sealed.book,
    )
    if sealed.engine != __version__:
        context.record.caution("other-engine", made=sealed.engine, now=__version__)
    return context


def _keyring() -> Keyring | None:
    return cast("Keyring | None", current_app.extensions[EXTENSION])
