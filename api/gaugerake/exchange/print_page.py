"""The quote as a page for print, whole in one file: its style stands in it, allowed by its digest."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from functools import cache, partial

from jinja2 import Environment, Template, pass_context
from jinja2.runtime import Context as RenderContext
from markupsafe import Markup

from gaugerake.answers.job.traffic import traffic_words
from gaugerake.answers.pour_plan.answer import Pour
from gaugerake.answers.quantities.lines import Totals
from gaugerake.answers.readiness.checked import Check
from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates
from gaugerake.exchange.beside import Sides, Text, sides_of
from gaugerake.exchange.paper import Paper
from gaugerake.exchange.plain_form import policy
from gaugerake.exchange.print_form import STYLE, TEMPLATE
from gaugerake.exchange.safety import in_brief, in_full
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.figure import Figure, Telling, Told
from gaugerake.floor.values.note import Say, Value

CONTAMINANTS = "contaminants"
"""The check whose own sentences name all that its readings do."""
_FAILED = (Verdict.FIX, Verdict.STOP)
_INLINE = "data:"
POLICY = policy(STYLE, images=_INLINE)
"""What a browser may do with the page."""


def print_page(paper: Paper, *, qr: bytes | None, beside: Language | None = None) -> bytes:
    """The page; ``qr`` is its QR code as SVG, None when there is none. What people read stands ``beside`` as well.

    The code stands in the page, so that the page fetches nothing, wherever it was had from.
    """
    answer, sides = paper.quote, sides_of(paper, beside)
    page = _template().render(
        sides=sides,
        paper=paper,
        title=paper.phrase("print-quote", number=paper.number),
        heading=sides.phrase("print-quote", number=paper.number),
        answer=answer,
        order=answer.quantities,
        phrase=sides.phrase,
        label=paper.phrase,
        verdict=sides.phrase(f"verdict-{answer.readiness.verdict}"),
        plan=answer.pour_plan,
        edge=partial(_edge, sides),
        times=answer.return_times,
        to_do=[check for check in answer.readiness.checks if check.verdict in _FAILED],
        coved=any(room.cove_length.value for room in answer.quantities.rooms),
        sums=[(sides.phrase(code), amount) for code, amount in _sums(answer.quantities.totals)],
        said_first=[sides.says(note) for note in paper.first],
        orderable=sides.write(lambda one: one.orderable),
        floor=sides.write(_floor),
        whose=sides.write(lambda one: one.whose),
        of_what=sides.write(_of_what),
        in_brief=in_brief(sides),
        cautions=in_full(sides),
        assumed=[sides.says(note) for note in paper.envelope.assumptions],
        qr=None if qr is None else f"{_INLINE}image/svg+xml;base64,{b64encode(qr).decode()}",
        style=Markup(STYLE),
    )
    return page.encode()


def _of_what(paper: Paper) -> str:
    """The system and the floor."""
    return f"{paper.writes(paper.system)}, {_floor(paper)}"


def _floor(paper: Paper) -> str:
    """What is covered, of all rooms together, and how thick."""
    rooms = paper.quote.quantities.rooms
    area = Figure(sum(room.area.value for room in rooms), rooms[0].area.kind)
    thick = (paper.writes(room.thickness) for room in rooms if room.thickness is not None)
    return ", ".join((paper.writes(area), *dict.fromkeys(thick)))


def told_of(check: Check) -> tuple[Say, ...]:
    """Why a check does not pass and what to do, then the same of each other reading that fails; each sentence once."""
    failed = [one for one in check.readings if one.verdict in _FAILED and check.check != CONTAMINANTS]
    told = [check.because, check.do, *(text for one in failed for text in (one.because, one.do))]
    return tuple(text for at, text in enumerate(told) if text is not None and text not in told[:at])


def instant_text(instant: datetime | None, language: Language = "en") -> str:
    """An instant as it is read on paper, with its offset.

    >>> instant_text(datetime.fromisoformat("2027-03-09T05:00:00-06:00"))
    'Tue 2027-03-09 05:00 (UTC-06:00)'
    """
    if instant is None:
        return "–"
    day = templates(language)[f"weekday-{instant.isoweekday()}"]
    return f"{day} {instant:%Y-%m-%d %H:%M} (UTC{instant.isoformat(timespec='minutes')[16:]})"


@pass_context
def _instant(context: RenderContext, instant: datetime | None) -> Text:
    """An instant as the reader of the paper reads it."""
    sides: Sides[Paper] = context["sides"]
    return sides.once(lambda paper: instant_text(instant, paper.reader.language))


@pass_context
def _figure(context: RenderContext, value: Value) -> Text:
    """A figure in the reader's units; a dash where there is none."""
    sides: Sides[Paper] = context["sides"]
    return sides.figure(value)


def _edge(sides: Sides[Paper], pour: Pour) -> tuple[Text, Text]:
    """How long the edge waits and the material stays open: rounded apart, as their caution tells them, where it waits
    too long, and else in 4 digits where they would read the same."""
    needed, stays = pour.needed, pour.open_time
    if stays is None:
        return sides.figure(needed), sides.figure(stays)
    if pour.holds is False:
        return sides.figure(Told(*needed, Telling.UP)), sides.figure(Told(*stays, Telling.DOWN))
    if sides.paper.writes(needed) == sides.paper.writes(stays):
        return sides.figure(Told(*needed, Telling.DECIMALS)), sides.figure(Told(*stays, Telling.DECIMALS))
    return sides.figure(needed), sides.figure(stays)


def _sums(totals: Totals) -> Iterator[tuple[str, Decimal]]:
    if totals.lines != totals.net:
        yield "print-sum-lines", totals.lines
    if totals.discount:
        yield "print-sum-discount", -totals.discount
    if totals.delivery:
        yield "print-sum-delivery", totals.delivery
    yield "print-sum-net", totals.net
    yield "print-sum-tax", totals.tax
    yield "print-sum-total", totals.gross


@cache
def _template() -> Template:
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.globals["open_to"] = traffic_words
    environment.filters |= {"instant": _instant, "figure": _figure, "told": told_of}
    return environment.from_string(TEMPLATE)
