"""A price list kept as a spreadsheet (XLSX): its first sheet as CSV, one line a row, so that faults name the row.

The file is opened read-only, for its values and not its formulas. What it would unpack to is bounded beforehand.
"""

from __future__ import annotations

import csv
import io
import warnings
from collections.abc import Iterator
from datetime import date, time
from typing import Any
from zipfile import BadZipFile, ZipFile

from gaugerake.catalogue.file.faults import FileRefused, FileRemark
from gaugerake.catalogue.prices.price_book import LONGEST_BYTES

MOST_UNPACKED_BYTES = 40_000_000
MOST_PARTS = 500
NO_OPENPYXL = "what reads spreadsheets is not installed (pip install 'gaugerake[xlsx]'): install it, or save as CSV"
MOST_ROWS = 100_000
MOST_COLUMNS = 50
_DIGITS = 15  # as many as spreadsheets themselves keep


def is_sheet(data: bytes) -> bool:
    """Whether a file is packed as spreadsheets are."""
    return data.startswith(b"PK\x03\x04")


def sheet_text(data: bytes) -> str:
    """The first sheet as CSV.

    Raises
    ------
    FileRefused
    """
    _bounded(data)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about what the sheet has besides values
            rows = list(_rows(data))
    except FileRefused:
        raise
    except Exception as error:  # the library raises whatever a mangled part makes it raise
        raise _refused(
            f"not a spreadsheet that can be read ({type(error).__name__}): save it again as .xlsx"
        ) from error
    target = io.StringIO()
    csv.writer(target, lineterminator="\n").writerows(rows)
    return target.getvalue()


def _bounded(data: bytes) -> None:
    if len(data) > LONGEST_BYTES:
        raise _refused(f"the file is longer than {LONGEST_BYTES:,} bytes")
    try:
        with ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
    except BadZipFile:
        raise _refused("not a spreadsheet that can be read: save it again as .xlsx") from None
    if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED_BYTES:
        raise _refused("the spreadsheet unpacks to more than a price list can be: keep the prices alone")


def _rows(data: bytes) -> Iterator[list[str]]:
    try:
        from openpyxl import load_workbook  # type: ignore[import-untyped]  # not for a CSV
    except ImportError:
        raise _refused(NO_OPENPYXL) from None

    book = load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
    if not book.worksheets:
        raise _refused("the spreadsheet has no sheet with cells")
    sheet = book.worksheets[0]
    sheet.reset_dimensions()  # what the file says of its size may be wrong
    for number, cells in enumerate(sheet.iter_rows(values_only=True), start=1):
        written = [_written(cell) for cell in cells]
        while written and not written[-1]:
            written.pop()
        if number > MOST_ROWS or len(written) > MOST_COLUMNS:
            raise _refused(f"more than {MOST_ROWS:,} rows or {MOST_COLUMNS} columns: keep the prices alone", number)
        yield written


def _written(cell: Any) -> str:
    """A cell as it would stand in a CSV: one line, a number with the digits that the sheet keeps.

    >>> _written(98.01000000000001), _written(1001), _written(" B-1 "), _written(None)
    ('98.01', '1001', 'B-1', '')
    """
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return str(cell).upper()
    if isinstance(cell, float):
        return f"{cell:.{_DIGITS}g}"
    if isinstance(cell, date | time):
        return cell.isoformat()
    return " ".join(str(cell).split())


def _refused(text: str, row: int = 1) -> FileRefused:
    return FileRefused([FileRemark(row, "", text)])
