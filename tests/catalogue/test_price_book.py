"""A branch's prices come from a CSV, or it is refused with everything that is wrong with it."""

from decimal import Decimal

import pytest

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.prices.price_book import LONGEST_BYTES, LoadedBook, read_price_book
from gaugerake.floor.product import Break, Price

SKUS = frozenset({"BD-1", "CL-2"})


def read(text: str, currency: str = "USD") -> LoadedBook:
    return read_price_book(text, branch="north", currency=currency, skus=SKUS)


def test_rows_become_prices_and_breaks_in_any_order() -> None:
    loaded = read("from,sku,price\n20,BD-1,60\n,BD-1,70.00\n10,BD-1,65.5\n1,CL-2,9.00\n")
    assert loaded.book.prices == {
        "BD-1": Price(
            price=Decimal("70.00"),
            breaks=(Break(from_count=10, price=Decimal("65.50")), Break(from_count=20, price=Decimal("60.00"))),
        ),
        "CL-2": Price(price=Decimal("9.00")),
    }
    assert (loaded.book.code, loaded.book.currency, loaded.cautions) == ("north", "USD", ())


def test_what_a_spreadsheet_adds_does_no_harm() -> None:
    text = '\ufeffSKU,Price\r\n"BD-1", 70.00 \r\n\r\nCL-2,9\r\n,\r\n'
    assert read(text).book.prices.keys() == SKUS


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", 1, "write sku,price,from"),
        ("sku;price;from\nBD-1;1;\n", 1, "not semicolons"),
        ("sku,cost\nBD-1,1\n", 1, "write sku,price,from"),
        ("sku,price,price\nBD-1,1,1\n", 1, "write sku,price,from"),
        ("sku,price\n", 1, "no price in this file"),
        ("sku,price\nBD-1,1\nCL-3,2\n", 3, 'Do you mean "CL-2"?'),
        ("sku,price\nBD-1,1\nzzz,2\n", 3, "no such sku."),
        ("sku,price\nBD-1,1\n,2\n", 3, "the sku is missing"),
        ("sku,price\nBD-1,-1\n", 2, "cannot be negative"),
        ("sku,price\nBD-1,\n", 2, "not an amount"),
        ("sku,price\nBD-1,1.001\n", 2, "USD has 2 decimals"),
        ("sku,price\nBD-1,1 EUR\n", 2, "another currency"),
        ("sku,price\nBD-1,1,250.00\n", 2, "without commas"),
        ("sku,price,from\nBD-1,1,\nBD-1,1,ten\n", 3, "number of packs"),
        ("sku,price,from\nBD-1,1,\nBD-1,1,0\n", 3, "number of packs"),
        ("sku,price,from\nBD-1,1,\nBD-1,1,９\n", 3, "number of packs"),
        ("sku,price,from\nBD-1,1,\nBD-1,1,1\n", 3, "priced already for this count on line 2"),
        ("sku,price,from\nBD-1,1,9\n", 2, "needs the price that it breaks"),
        ('sku,price\n"BD-1,1\n', 2, "not CSV"),
        ("sku,price\n" + "#" * LONGEST_BYTES, 1, "longer than"),
    ],
    ids=lambda value: repr(value)[:32],
)
def test_a_fault_is_told_at_its_line(text: str, line: int, words: str) -> None:
    with pytest.raises(FileRefused) as refused:
        read(text)
    told = [(fault.line, words in fault.text) for fault in refused.value.faults]
    assert (line, True) in told, refused.value.faults


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(FileRefused) as refused:
        read("sku,price\nBD-1,-1\nCL-3,2\n,3\n")
    assert [fault.line for fault in refused.value.faults] == [2, 3, 4]


def test_all_faults_of_one_row_are_told() -> None:
    with pytest.raises(FileRefused) as refused:
        read("sku,price,from\nCL-3,1 EUR,ten\n")
    assert [fault.path for fault in refused.value.faults] == ["CL-3", "CL-3.from", "CL-3.price"]


@pytest.mark.parametrize(("currency", "example"), [("USD", '"84.00"'), ("JPY", '"84"'), ("KWD", '"84.000"')])
def test_the_amount_shown_to_be_written_is_one_of_the_currency(currency: str, example: str) -> None:
    with pytest.raises(FileRefused) as refused:
        read("sku,price\nBD-1,¥84\n", currency)
    assert refused.value.faults[0].text.endswith(f"such as {example}")


def test_a_sku_without_a_price_and_a_dearer_break_are_cautions() -> None:
    cautions = read("sku,price,from\nBD-1,1,\nBD-1,2,9\n").cautions
    assert [caution.path for caution in cautions] == ["BD-1", "CL-2"]
