"""A price list kept as a spreadsheet: the same prices as its CSV, and faults by the row of the sheet."""

import io
import zipfile
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.prices import sheet
from gaugerake.catalogue.prices.price_book import read_price_book
from gaugerake.catalogue.prices.sheet import is_sheet, sheet_text
from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.revisions import Store

ROWS = [("SKU", "Price", "From"), ("BD-1", 64), ("BD-1", 60.5, 12), (), ("CL-2", "90.00"), (1001, 4.0)]
AS_CSV = "sku,price,from\nBD-1,64,\nBD-1,60.5,12\n\nCL-2,90.00,\n1001,4,\n"


def written(rows: Iterable[Iterable[Any]]) -> bytes:
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in rows:
        book.active.append(list(row))
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


def faults(data: bytes) -> list[str]:
    with pytest.raises(FileRefused) as refused:
        read_price_book(sheet_text(data), branch="north", currency="USD", skus={"BD-1", "CL-2", "1001"})
    return [str(fault) for fault in refused.value.faults]


def test_a_sheet_holds_what_its_csv_holds() -> None:
    data = written(ROWS)
    assert is_sheet(data)
    assert not is_sheet(AS_CSV.encode())
    read: Callable[[str], Any] = lambda text: read_price_book(text, branch="north", currency="USD")  # noqa: E731
    assert read(sheet_text(data)) == read(AS_CSV)


def test_faults_are_told_all_at_once_by_their_rows() -> None:
    rows = [
        *ROWS,
        ("BD-2", 1),
        ("CL-2", date(2027, 3, 1)),
        (None, 5),
        ("1001", 3.999),
        ("CL-2", 80, 0),
        ("BD-1", True, 9),
    ]
    told = faults(written(rows))
    assert [int(line.split(":")[0]) for line in told] == [7, 8, 8, 9, 10, 10, 11, 12]
    assert told[0] == '7: BD-2: the catalogue has no such sku. Do you mean "BD-1"?'
    assert told[3] == "9: sku: the sku is missing"


def test_a_price_that_was_worked_out_has_the_digits_that_the_sheet_shows() -> None:
    assert 1.1 * 1.1 != 1.21
    assert "BD-1,1.21\n" in sheet_text(written([("sku", "price"), ("BD-1", 1.1 * 1.1)]))


def test_a_formula_that_was_never_worked_out_is_a_missing_price() -> None:
    assert faults(written([("sku", "price"), ("BD-1", "=1+1")])) == [
        '2: BD-1.price: "" is not an amount of money: write figures alone, such as "84.00"'
    ]


def test_a_table_that_begins_elsewhere_is_told_what_to_do() -> None:
    assert "names the columns" in faults(written([(), ("sku", "price"), ("BD-1", 1)]))[0]


def test_what_is_packed_and_no_spreadsheet_is_told() -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as packed:
        packed.writestr("mimetype", "something else")
    for data in (target.getvalue(), b"PK\x03\x04 and no more", written(ROWS)[:-300]):
        assert "save it again as .xlsx" in faults(data)[0]


def test_parts_that_are_mangled_are_told_and_no_more() -> None:
    sound = written(ROWS)
    with zipfile.ZipFile(io.BytesIO(sound)) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    for name in parts:
        for change in (b"", b"<", parts[name][: len(parts[name]) // 2], parts[name].replace(b"sheet", b"shoot")):
            target = io.BytesIO()
            with zipfile.ZipFile(target, "w") as packed:
                for other, body in parts.items():
                    packed.writestr(other, change if other == name else body)
            try:
                sheet_text(target.getvalue())
            except FileRefused as refused:
                assert "save it again as .xlsx" in str(refused) or "no sheet" in str(refused)


def test_what_would_unpack_to_too_much_is_not_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet1.xml", b" " * (sheet.MOST_UNPACKED_BYTES + 1))
    assert len(target.getvalue()) < 100_000
    assert "unpacks to more" in faults(target.getvalue())[0]
    assert "longer than 2,000,000 bytes" in faults(b"PK\x03\x04" + bytes(2_000_000))[0]
    monkeypatch.setattr(sheet, "MOST_ROWS", 3)
    assert faults(written(ROWS))[0].startswith("4: more than 3 rows")


def test_a_wide_sheet_is_refused_by_its_row() -> None:
    assert faults(written([*ROWS, range(60)]))[0].startswith("7: more than 100,000 rows or 50 columns")


@pytest.fixture()
def store(url: str, small: str) -> Store:
    store = ensure_ready(url)
    store.load(small)
    return store


def test_a_branchs_sheet_stands_beside_the_list(store: Store, tmp_path: Path) -> None:
    loaded = store.load_book("north", sheet_text(written(ROWS[:5])))
    snapshot = store.snapshot(store.state())
    assert snapshot.books["north"] == loaded.book
    assert str(snapshot.books["north"].prices["BD-1"].breaks[0].price) == "60.50"
