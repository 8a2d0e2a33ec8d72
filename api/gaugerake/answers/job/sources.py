"""Where a figure comes from, as its working and its check name it: a phrase of ours, or the name of a standard."""

from __future__ import annotations

from typing import Any

from gaugerake.answers.job.taken import Origin, Taken
from gaugerake.floor.system import System
from gaugerake.floor.values.note import Say, Words

JOB = Say(code="source-job")
UNSAID = Say(code="source-unsaid")
CREW_RATES = Say(code="source-crew-rates")
OFFER = Say(code="source-offer")
LIMITS = Say(code="source-limits")
PRACTICE = Say(code="source-practice")
GEOMETRY = Say(code="source-geometry")
CLOCK = Say(code="source-clock")
CLOCK_AGAIN = Say(code="source-clock-again")
MATURITY = Say(code="source-maturity")


def system_source(code: str) -> Say:
    """A system of the catalogue."""
    return Say(code="source-system", params={"code": code})


def taken_source(taken: Taken[Any], system: System) -> Say:
    """Where a value of the resolved job comes from: the job, the system, or common practice.

    >>> from gaugerake.answers.job.taken import asked
    >>> taken_source(asked(0.006), System(code="c", name="", description="", layers=(), reference_temperature_k=293.0))
    Say(code='source-job', params={})
    """
    return {Origin.ASKED: JOB, Origin.CATALOGUE: system_source(system.code), Origin.ASSUMED: PRACTICE}[taken.origin]


def said_source(taken: Taken[Any]) -> Say:
    """Where an amount of the order comes from: the job, or an assumption.

    >>> from gaugerake.answers.job.taken import asked
    >>> said_source(asked(8.25))
    Say(code='source-job', params={})
    """
    return JOB if taken.origin is Origin.ASKED else UNSAID


def product_source(code: str) -> Say:
    """A product of the catalogue."""
    return Say(code="source-product", params={"code": code})


def book_source(code: str) -> Say:
    """A price book."""
    return Say(code="source-price-book", params={"code": code})


def both(first: Words, second: Words) -> Say:
    """Two sources of one figure."""
    return Say(code="source-both", params={"first": first, "second": second})
