"""The order lines as CSV (RFC 4180): a header and a row for each sku, the same columns whatever the order.

The heads are codes, named as the fields of the JSON answer where there is one, and the same in every language, so that
a program reads them by name.

What holds for the whole quote stands in every row, so that no row can be read without it. An order without a line has
one row that says so. A spreadsheet runs a cell that begins with one of ``= + - @`` as a formula: such text gets an
apostrophe before it, which spreadsheets show as text. Some part the cells at semicolons or tabs, and then a cell begins
after each of them.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from gaugerake.answers.quantities.lines import OrderLine
from gaugerake.exchange.paper import Paper

COLUMNS = (
    "quote",
    "reference",
    "issued",
    "valid_until",
    "orderable",
    "line",
    "sku",
    "kit",
    "description",
    "packs",
    "unit_code",
    "contents",
    "contents_unit",
    "unit_price",
    "amount",
    "currency",
    "notes",
)
_LINE_COLUMNS = COLUMNS[COLUMNS.index("line") : COLUMNS.index("currency")]
_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_PARTINGS = (";", "\t")


def order_csv(paper: Paper) -> bytes:
    """The order lines of a quote."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in _rows(paper):
        writer.writerow([harmless(cell) for cell in row])
    return text.getvalue().encode()


def harmless(cell: str) -> str:
    """The text of a cell, so that no spreadsheet takes it for a formula.

    >>> harmless("=1+2"), harmless("PO 4711"), harmless(" @x"), harmless("PO;=1+2;")
    ("'=1+2", 'PO 4711', "' @x", "PO;'=1+2;")
    """
    for parting in _PARTINGS:
        cell = parting.join(map(_text, cell.split(parting)))
    return cell


def _text(part: str) -> str:
    """What would be a cell where the line is parted; quotes before a formula may be lost on the way."""
    return f"'{part}" if part.lstrip(' "').startswith(_STARTS) else part


def _rows(paper: Paper) -> Iterator[list[str]]:
    answer = paper.quote
    order = answer.quantities
    before = [
        paper.number,
        answer.reference or "",
        "" if paper.issued is None else paper.issued.isoformat(),
        "" if answer.valid_until is None else answer.valid_until.isoformat(),
        paper.writes(order.orderable),
    ]
    after = [order.totals.currency, " ".join(paper.said_first)]
    for line in order.order_lines:
        yield [*before, *_line(line, paper), *after]
    if not order.order_lines:
        yield [*before, *("" for _ in _LINE_COLUMNS), *after]


def _line(line: OrderLine, paper: Paper) -> list[str]:
    contents, unit = paper.reader.units.show(line.contents.value, line.contents.kind)
    return [
        line.id,
        line.sku,
        line.kit or "",
        paper.writes(line.description),
        str(line.packs),
        line.unit_code,
        f"{contents:g}",
        unit,
        "" if line.unit_price is None else str(line.unit_price),
        "" if line.amount is None else str(line.amount),
    ]
