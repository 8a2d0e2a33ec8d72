"""A file of twice the size takes no more than twice as long, whatever it holds."""

import io
from collections.abc import Callable

import openpyxl
import pytest
from tests.growth import MOST_RATIO, ratio

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.prices.price_book import read_price_book
from gaugerake.catalogue.prices.sheet import sheet_text

LENGTH = 40_000

FILES: dict[str, tuple[str, str, str]] = {
    "keys that are unknown": ("", "k{n}: 1\n", ""),
    "one key, often": ("", "a: 1\n", ""),
    "openings of lists": ("", "[", ""),
    "openings on lines of their own": ("", "[\n", ""),
    "openings of mappings": ("a: ", "{{a: ", ""),
    "dashes": ("", "- ", ""),
    "a long list": ("a: [", "1, ", "]"),
    "a list of lines": ("a:\n", "- 1\n", ""),
    "products that are none": ("products:\n", "- {{a: 1}}\n", ""),
    "products of one code": ("products:\n", "- {{code: a}}\n", ""),
    "systems that are none": ("systems:\n", "- {{code: s{n}, layers: [{{layer: x}}]}}\n", ""),
    "a long word": ("catalogue: ", "x", ""),
    "a string that never ends": ('a: "', "x", ""),
    "escaped quotes that never end": ('a: "', '\\"', ""),
    "escapes": ('catalogue: "', "\\u0041", '"'),
    "a folded string": ('catalogue: "', "x\n\n", '"'),
    "a block of lines": ("catalogue: |\n", "  x\n", ""),
    "spaces": ("a: ", " ", "x"),
    "lines": ("a: 1", "\n", "@"),
    "comments": ("", "#\n", ""),
    "names": ("", "k{n}: &a{n} 1\n", ""),
    "one name, often": ("a:\n", "- &a 1\n", ""),
    "tags": ("%TAG !a! tag:x\n---\na:\n", "- !a!b 1\n", ""),
    "keys with a mark": ("", "? x\n", ""),
    "documents": ("", "---\n", ""),
    "a fault at the end": ("products:\n", "- {{a: 1}}\n", "- ]"),
    "words": ("", "a ", ""),
    "colons": ("", ":", ""),
    "lists beside one another, and a fault": ("a: [", "[[[[[[]]]]]],\n", "@"),
    "digits": ("valid_days: ", "1", ""),
    "an amount": ("products: [{{code: A, packs: [{{sku: A, price: ", "1", "}}]}}]"),
    "a currency": ("currency: ", "A", ""),
}


def _growth(call: Callable[[str], object], written: Callable[[int], str]) -> float:
    once, twice = written(LENGTH), written(2 * LENGTH)
    return ratio(lambda: _tried(call, once), lambda: _tried(call, twice))


def _tried(call: Callable[[str], object], text: str) -> object:
    try:
        return call(text)
    except FileRefused as refused:
        return refused


def _written(parts: tuple[str, str, str], length: int) -> str:
    begins, part, ends = parts
    count = length // len(part.format(n=10_000))
    return begins.format() + "".join(part.format(n=number) for number in range(count)) + ends.format()


@pytest.mark.parametrize("parts", FILES.values(), ids=FILES)
def test_reading_a_catalogue(parts: tuple[str, str, str]) -> None:
    assert _growth(load_text.__wrapped__, lambda length: _written(parts, length)) < MOST_RATIO


SHEETS: dict[str, tuple[str, str, str]] = {
    "rows": ("sku,price\n", "A-{n},1.00\n", ""),
    "rows of one sku": ("sku,price,from\n", "A,1.00,{n}\n", ""),
    "skus that are unknown": ("sku,price\n", "B-{n},1.00\n", ""),
    "rows without a price": ("sku,price\n", "A\n", ""),
    "cells": ("sku,price\n", "A,", ""),
    "columns": ("", "sku,", ""),
    "quotes": ("sku,price\n", '"', ""),
    "a cell that never ends": ('sku,price\n"', "A\n", ""),
    "digits": ("sku,price\nA,", "1", ""),
    "stops": ("sku,price\nA,-", ".", "x"),
    "spaces": ("sku,price\nA,", " ", "1"),
    "lines": ("sku,price\n", "\n", ""),
}


@pytest.mark.parametrize("parts", SHEETS.values(), ids=SHEETS)
def test_reading_a_price_book(parts: tuple[str, str, str]) -> None:
    skus = [f"A-{number}" for number in range(2_000)]

    def reading(text: str) -> object:
        return read_price_book(text, branch="north", currency="USD", skus=skus)

    assert _growth(reading, lambda length: _written(parts, length)) < MOST_RATIO


ROWS: dict[str, tuple[object, ...]] = {
    "prices": ("A-1", "1.00"),
    "numbers": ("A-1", 1.25, 7),
    "words that are formulas": ("A-1", "=1+2"),
    "long words": ("A" * 400, "1.00"),
    "empty cells at the end": ("A-1", "1.00", *[None] * 30),
    "cells far to the right": (*[None] * 40, "1"),
}


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_reading_a_spreadsheet(row: tuple[object, ...]) -> None:
    once, twice = _spreadsheet(row, 1_000), _spreadsheet(row, 2_000)
    assert ratio(lambda: sheet_text(once), lambda: sheet_text(twice)) < MOST_RATIO


def _spreadsheet(row: tuple[object, ...], count: int) -> bytes:
    book, target = openpyxl.Workbook(write_only=True), io.BytesIO()
    sheet = book.create_sheet()
    sheet.append(["sku", "price"])
    for _ in range(count):
        sheet.append(row)
    book.save(target)
    return target.getvalue()
