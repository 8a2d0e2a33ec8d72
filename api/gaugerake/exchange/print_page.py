"""The quote as a page for print, whole in one file: its style stands in it, allowed by its digest."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from functools import cache
from hashlib import sha256

from jinja2 import Environment, Template, pass_context
from jinja2.runtime import Context as RenderContext
from markupsafe import Markup

from gaugerake.answers.quantities.lines import Totals
from gaugerake.exchange.paper import Paper
from gaugerake.exchange.print_form import STYLE, TEMPLATE
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.note import Value

_DIGEST = b64encode(sha256(STYLE.encode()).digest()).decode()
POLICY = f"default-src 'none'; style-src 'sha256-{_DIGEST}'; img-src 'self'; base-uri 'none'; frame-ancestors 'none'"
"""What a browser may do with the page."""


def print_page(paper: Paper, *, qr: str | None) -> bytes:
    """The page; ``qr`` is where its QR code is, None when there is none."""
    answer = paper.quote
    notes = paper.envelope
    page = _template().render(
        paper=paper,
        answer=answer,
        order=answer.quantities,
        plan=answer.pour_plan,
        times=answer.return_times,
        to_do=[check for check in answer.readiness.checks if check.verdict in (Verdict.FIX, Verdict.STOP)],
        coved=any(room.cove_length.value for room in answer.quantities.rooms),
        sums=list(_sums(answer.quantities.totals)),
        small=[
            ("Assumed", [paper.says(note) for note in notes.assumptions]),
            ("Beware", [text for note in notes.cautions if (text := paper.says(note)) not in paper.said_first]),
        ],
        qr=qr,
        style=Markup(STYLE),
    )
    return page.encode()


def instant_text(instant: datetime | None) -> str:
    """An instant as it is read on paper, with its offset.

    >>> instant_text(datetime.fromisoformat("2027-03-09T05:00:00-06:00"))
    'Tue 2027-03-09 05:00 (UTC-06:00)'
    """
    if instant is None:
        return "–"
    day = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[instant.weekday()]
    return f"{day} {instant:%Y-%m-%d %H:%M} (UTC{instant.isoformat(timespec='minutes')[16:]})"


@pass_context
def _figure(context: RenderContext, value: Value) -> str:
    """A figure in the reader's units; a dash where there is none."""
    paper: Paper = context["paper"]
    return paper.writes(value) or "–"


def _sums(totals: Totals) -> Iterator[tuple[str, Decimal]]:
    yield "lines", totals.lines
    if totals.discount:
        yield "discount", -totals.discount
    if totals.delivery:
        yield "delivery", totals.delivery
    yield "net", totals.net
    yield "tax", totals.tax
    yield "total", totals.gross


@cache
def _template() -> Template:
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.filters |= {"instant": instant_text, "figure": _figure}
    return environment.from_string(TEMPLATE)
