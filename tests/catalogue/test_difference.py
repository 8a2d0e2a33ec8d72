"""A difference reads as people of the trade would say it."""

from collections.abc import Callable

import pytest

from gaugerake.catalogue.file.difference import differences
from gaugerake.catalogue.file.summary import summary


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ('"70.00"', '"72.00"', "Body: price of BD-1: 70.00 -> 72.00"),
        ('"66.00"', '"65.00"', "Body: price from 10 packs of BD-1: 66.00 -> 65.00"),
        ("usual: 5 mm", "usual: 5.5 mm", "Probe floor: usual thickness: 5 mm -> 5.5 mm"),
        ("offset: 4.5 in", "offset: 5 in", "Probe floor: keyway offset: 4.5 in -> 5 in"),
        ("5: 0.5 mm}", "5: 0.6 mm}", "Probe floor: profile allowance at CSP 5: 0.5 mm -> 0.6 mm"),
        ("low: 4 h", "low: 5 h", "Probe floor: low cure at 75 degF of coat of clear: 4 h -> 5 h"),
        ("likely: 27 h", "likely: 29 h", "Probe floor: likely return at 70 degF for carts traffic: 27 h -> 29 h"),
        ("{age: 11 d", "{age: 12 d", "Probe floor: slab limits age: 11 d -> 12 d"),
        ("valid_days: 20", "valid_days: 25", "catalogue: valid days: 20 -> 25"),
        ("catalogue: Probe Floors", "catalogue: Probe Sheets", "catalogue: title: Probe Floors -> Probe Sheets"),
        ("    hazards: [wet-cement]\n", "", "Body: no longer there: hazards (was wet-cement)"),
        (
            '      - {sku: CL-8, contents: 8 gal, unit_code: KT, price: "370.00"}\n',
            "",
            "Clear: no longer there: pack CL-8 (was contents 8 gal, unit code KT, price 370.00)",
        ),
        (', price: "99.00"', "", "Clear: no longer there: price of CL-2 (was 99.00)"),
        ("hazards: [wet-cement]", "hazards: [wet-cement, amine]", "Body: new: hazards amine"),
        (
            "yield: {low: 0.30 ft3, likely: 0.31 ft3, high: 0.32 ft3}",
            "yield: 0.31 ft3",
            "Body: yield: low 0.30 ft3, likely 0.31 ft3, high 0.32 ft3 -> 0.31 ft3",
        ),
        (
            'price: "99.00"}',
            'price: "99.00", breaks: [{from: 6, price: "95.00"}, {from: 9, price: "94.00"}]}',
            "Clear: new: breaks of CL-2: from 6, price 95.00; from 9, price 94.00",
        ),
        ("weight: 40 lb", "weight: 40 lb\n        colour: grey", "Body: new: colour of BD-1: grey"),
    ],
)
def test_a_change_is_one_line(old: str, new: str, line: str, small: str, spoiled: Callable[..., str]) -> None:
    assert differences(small, spoiled((old, new))) == [line]


CL_8 = '{sku: CL-8, contents: 8 gal, unit_code: KT, price: "370.00"}'
KIT = """{contents: 8 gal, unit_code: KT, parts: [
        {sku: CL-A, unit_code: XPL, price: "300.00"}, {sku: CL-B, unit_code: XCX, price: "70.00"}]}"""


def test_a_kit_goes_by_the_skus_of_its_parts(spoiled: Callable[..., str]) -> None:
    kit = spoiled((CL_8, KIT))
    dearer = kit.replace("300.00", "310.00")
    assert differences(kit, dearer) == ["Clear: price of CL-A of CL-A + CL-B: 300.00 -> 310.00"]
    gone, new = differences(spoiled(), kit)
    assert gone == "Clear: no longer there: pack CL-8 (was contents 8 gal, unit code KT, price 370.00)"
    assert new.startswith("Clear: new: pack CL-A + CL-B: contents 8 gal, unit code KT, parts (")


def test_a_kit_is_shown_with_its_parts(spoiled: Callable[..., str]) -> None:
    shown = summary("r", spoiled((CL_8, KIT)))
    place = shown.index("    CL-A + CL-B, 8 gal (KT): 370.00")
    assert shown[place + 1 : place + 3] == [
        "      CL-A, Clear, 8 gal, CL-A (XPL): 300.00",
        "      CL-B, Clear, 8 gal, CL-B (XCX): 70.00",
    ]


def test_new_and_gone_products_are_one_line_each(small: str, spoiled: Callable[..., str]) -> None:
    extra = "  - {code: idle, name: Idle, counted_in: piece, packs: [{sku: ID, contents: 1 piece, unit_code: EA}]}\n"
    with_idle = spoiled(("systems:\n", f"{extra}systems:\n"))
    assert differences(small, with_idle) == ["Idle: new product (idle)"]
    assert differences(with_idle, small) == ["Idle: product no longer there (idle)"]


def test_the_same_text_differs_in_nothing(metric: str) -> None:
    assert differences(metric, metric) == []


def test_how_a_file_is_laid_out_is_no_difference(small: str) -> None:
    assert (
        differences(small, "# another comment\n" + small.replace("mixing: {minutes: 2}", "mixing:\n      minutes: 2"))
        == []
    )
