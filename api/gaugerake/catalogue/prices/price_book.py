"""A branch's price list: a CSV of ``sku,price,from``, or everything that is wrong with it.

A row without ``from`` (or with 1) is what one pack costs; a row with a count is what each costs from that count on.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Collection, Iterator
from decimal import Decimal

from gaugerake.catalogue.file.faults import MOST_FAULTS, FileRefused, FileRemark, Notebook
from gaugerake.catalogue.file.prices import FREE, MOST_PACKS, BadAmount, amount
from gaugerake.floor.product import Break, Price, PriceBook
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.frozen import dataclass

LONGEST_BYTES = 2_000_000
COLUMNS = ("sku", "price", "from")


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedBook:
    """A price book as read, and what may be slips in it."""

    book: PriceBook
    cautions: tuple[FileRemark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    line: int
    sku: str
    count: int
    price: Decimal


def read_price_book(text: str, *, branch: str, currency: str, skus: Collection[str] | None = None) -> LoadedBook:
    """The prices that a CSV holds; with ``skus``, those that the catalogue has.

    Raises
    ------
    FileRefused
        With all faults of the file, each with its line.

    Examples
    --------
    >>> text = "sku,price,from\\nB-1,90.00,\\nB-1,84.00,20\\n"
    >>> read_price_book(text, branch="north", currency="USD").book.prices["B-1"]
    Price(price=Decimal('90.00'), breaks=(Break(from_count=20, price=Decimal('84.00')),))
    """
    notebook = Notebook()
    rows = [row for row in _rows(text, currency, notebook) if _known(row, skus, notebook) and row.count]
    prices = _prices(rows, notebook)
    if not prices and not notebook.faults:
        notebook.fault(1, "", "there is no price in this file")
    notebook.raise_any()
    lacking = sorted(set(skus or ()) - prices.keys())[:MOST_FAULTS]
    absent = [FileRemark(1, name, "no price in this file: it will be quoted without one") for name in lacking]
    book = PriceBook(code=branch, currency=currency, prices=prices)
    return LoadedBook(book=book, cautions=(*notebook.told_cautions(), *absent))


def _rows(text: str, currency: str, notebook: Notebook) -> Iterator[_Row]:
    if len(text.encode("utf-8", "surrogatepass")) > LONGEST_BYTES:
        raise FileRefused([FileRemark(1, "", f"the file is longer than {LONGEST_BYTES:,} bytes")])
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    try:
        header = [cell.strip().lower() for cell in next(reader, [])]
        if not _header_fits(header, notebook):
            return
        for cells in reader:
            row = _row(header, [cell.strip() for cell in cells], reader.line_num, currency, notebook)
            if row:
                yield row
    except csv.Error as error:
        notebook.fault(reader.line_num, "", f"not CSV: {error}")


def _header_fits(header: list[str], notebook: Notebook) -> bool:
    fits = {"sku", "price"} <= set(header) <= set(COLUMNS) and len(set(header)) == len(header)
    if not fits:
        semicolons = " with commas, not semicolons" if any(";" in cell for cell in header) else ""
        notebook.fault(
            1, "", f"the first line names the columns: write sku,price,from{semicolons} (from may be left out)"
        )
    return fits


def _row(header: list[str], cells: list[str], line: int, currency: str, notebook: Notebook) -> _Row | None:
    if not any(cells):
        return None
    if len(cells) > len(header):
        notebook.fault(line, cells[0], f"{len(cells)} cells under {len(header)} columns: write a price without commas")
        return None
    named = dict(zip(header, cells, strict=False))
    name, written, start = (named.get(column, "") for column in COLUMNS)
    if not name:
        notebook.fault(line, "sku", "the sku is missing")
        return None
    try:
        price = amount(written, currency)
    except BadAmount as error:
        notebook.fault(line, f"{name}.price", str(error))
        price = FREE
    count = _count(start)
    if not count:
        notebook.fault(
            line, f"{name}.from", "write the number of packs from which the price holds, such as 20, or nothing"
        )
    return _Row(line=line, sku=name, count=count, price=price)


def _count(written: str) -> int:
    """The number of packs from which a price holds; 0 when what is written is none.

    >>> _count(""), _count("20"), _count("ten"), _count("0")
    (1, 20, 0, 0)
    """
    if not written:
        return 1
    readable = written.isascii() and written.isdigit() and len(written) < 9
    return int(written) if readable and int(written) <= MOST_PACKS else 0


def _known(row: _Row, skus: Collection[str] | None, notebook: Notebook) -> bool:
    if skus is None or row.sku in skus:
        return True
    notebook.fault(row.line, row.sku, f"the catalogue has no such sku. {_near(row.sku, skus, notebook)}")
    return False


def _near(name: str, skus: Collection[str], notebook: Notebook) -> str:
    hint = notebook.nearest(name, skus)
    return hint if hint.startswith("Do you") else ""


def _prices(rows: list[_Row], notebook: Notebook) -> dict[str, Price]:
    by_sku: dict[str, dict[int, _Row]] = {}
    for row in rows:
        steps = by_sku.setdefault(row.sku, {})
        if row.count in steps:
            notebook.fault(
                row.line, row.sku, f"priced already for this count on line {steps[row.count].line}: leave one out"
            )
        steps.setdefault(row.count, row)
    return {name: price for name, steps in by_sku.items() if (price := _price(name, steps, notebook))}


def _price(name: str, steps: dict[int, _Row], notebook: Notebook) -> Price | None:
    single = steps.get(1)
    if single is None:
        line = min(row.line for row in steps.values())
        notebook.fault(line, name, "a break needs the price that it breaks: add a row with nothing under from")
        return None
    breaks = tuple(Break(from_count=count, price=steps[count].price) for count in sorted(steps) if count > 1)
    if any(step.price > single.price for step in breaks):
        notebook.caution(single.line, name, "costs more each in number than one does: is that meant?")
    return Price(price=single.price, breaks=breaks)


def price_rows(book: PriceBook) -> str:
    """A price book as the CSV that it can be read from.

    Examples
    --------
    >>> rows = "sku,price,from\\nB-1,90.00,\\nB-1,84.00,20\\n"
    >>> price_rows(read_price_book(rows, branch="north", currency="USD").book) == rows
    True
    """
    target = io.StringIO()
    writer = csv.writer(target, lineterminator="\n")
    writer.writerow(COLUMNS)
    for name, price in book.prices.items():
        writer.writerow((name, price.price, ""))
        writer.writerows((name, step.price, step.from_count) for step in price.breaks)
    return target.getvalue()


def descriptions(catalogue: Catalogue) -> dict[str, str]:
    """What each sku of a catalogue is called."""
    return {
        part.sku: part.description
        for product in catalogue.products.values()
        for pack in product.packs
        for part in pack.ordered_as
    }
