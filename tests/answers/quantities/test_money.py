"""What an order costs, and how sure it is to suffice."""

from decimal import Decimal

import pytest
from tests.answers.quantities.jobs import answer, context, packs
from tests.asked import quantities

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.job import Offer, OnHand


def test_totals_are_worked_in_order_and_rounded_once_each() -> None:
    totals = answer(tax_percent=Decimal("8.25"), discount_percent=Decimal("2.5"), delivery=Decimal("45.00"))["totals"]
    assert totals == {
        "currency": "USD",
        "lines": "1953.00",  # 21 x 90.00 + 21 x 3.00; sand has no price
        "discount": "48.83",  # 48.825, half up
        "delivery": "45.00",
        "net": "1949.17",
        "tax": "160.81",  # 160.806525
        "gross": "2109.98",
        "weight": {"value": 600.0, "unit": "kg"},  # 21 x 20 + 9 x 20; tint states none
        "per_area": {"value": "48.73", "unit": "USD/m2"},  # 48.72925
        "unpriced": ["S-20"],
    }


@pytest.mark.parametrize(
    ("currency", "price", "discount", "expected"),
    [
        ("JPY", "10300", "2.5", ("216363", "5409", "210954", "21095", "5274")),  # 5409.075; 21095.4; 5273.85
        ("KWD", "27.125", "2.5", ("632.625", "15.816", "616.809", "61.681", "15.420")),  # 15.815625; 61.6809; 15.420225
        ("USD", "90.00", "100", ("1953.00", "1953.00", "0.00", "0.00", "0.00")),
        ("USD", "90.10", "0.1", ("1955.10", "1.96", "1953.14", "195.31", "48.83")),  # 1.9551; 195.314; 48.8285
    ],
)
def test_each_currency_is_rounded_to_its_own_minor_unit(
    currency: str, price: str, discount: str, expected: tuple[str, ...]
) -> None:
    totals = answer(
        catalogue={"currency": currency, "price": price}, tax_percent=Decimal(10), discount_percent=Decimal(discount)
    )["totals"]
    assert totals["currency"] == currency
    found = (*(totals[name] for name in ("lines", "discount", "net", "tax")), totals["per_area"]["value"])
    assert found == expected


def test_net_by_area_is_in_the_readers_units() -> None:
    per_area = render(quantities(context()), US_READER)["totals"]["per_area"]
    assert per_area == {"value": "4.54", "unit": "USD/ft2"}  # 1953.00 / 430.5564 ft2 = 4.53599


def test_a_product_without_a_price_has_no_amount_and_is_left_out_of_the_totals() -> None:
    shown = answer()
    sand = shown["order_lines"][1]
    assert (sand["unit_price"], sand["amount"]) == (None, None)
    assert "S-20" in shown["notes"]["no-price"]["text"]
    assert shown["totals"]["lines"] == "1953.00"
    assert shown["totals"]["unpriced"] == ["S-20"]
    assert "T-GREY" in shown["notes"]["no-weight"]["text"]


def test_an_offers_price_stands_for_the_books_and_its_breaks() -> None:
    breaks = {"breaks": ', breaks: [{from: 20, price: "50.00"}]'}
    line = answer(catalogue=breaks, offers=(Offer(sku="B-1", price=Decimal("88.1")),))["order_lines"][0]
    assert (line["packs"], line["unit_price"], line["amount"]) == (21, "88.10", "1850.10")


def test_of_more_than_is_needed_bought_for_a_break_a_pack_fewer_would_do() -> None:
    """Of the 21 mixes needed 24 are cheaper: the last three of them are to spare, the 21st is not."""
    breaks = {"breaks": ', breaks: [{from: 24, price: "70.00"}]'}
    shown = answer(catalogue=breaks)
    body = shown["shortage"][0]
    assert (packs(shown)["B-1"], body["with_order"], body["with_one_pack_fewer"]) == (24, 0.0, 0.0)
    assert body["curve"] == [{"packs": 20, "probability": 1.0}, {"packs": 21, "probability": 0.0}]


def test_an_offer_of_stock_alone_keeps_the_books_price() -> None:
    line = answer(offers=(Offer(sku="B-1", available=40),))["order_lines"][0]
    assert (line["unit_price"], line["packs"]) == ("90.00", 21)


def test_an_offered_price_prices_what_has_none() -> None:
    shown = answer(offers=(Offer(sku="S-20", price=Decimal("7.125")),))
    assert (shown["order_lines"][1]["unit_price"], shown["order_lines"][1]["amount"]) == ("7.125", "64.13")  # 64.125
    assert "no-price" not in shown["notes"]
    assert shown["totals"]["unpriced"] == []


@pytest.mark.parametrize(
    ("code", "pointer"),
    [
        ("no-tax", "/order/tax_percent"),
        ("no-discount", "/order/discount_percent"),
        ("no-delivery", "/order/delivery"),
    ],
)
def test_what_nobody_said_of_money_is_an_assumption(code: str, pointer: str) -> None:
    assert answer()["notes"][code]["pointer"] == pointer
    said = answer(tax_percent=Decimal(0), discount_percent=Decimal(0), delivery=Decimal(0))
    assert code not in said["notes"]


# --- confidence --------------------------------------------------------------------------------------------------

RANGED = {"low": 9, "high": 11, "sd": 4}


def test_an_exact_need_is_ordered_as_it_is_whatever_the_confidence() -> None:
    assert packs(answer(confidence=0.5)) == packs(answer(confidence=0.999))
    assert "confidence" not in answer()["notes"]


def test_more_confidence_orders_more_of_what_is_uncertain() -> None:
    ordered = [packs(answer(catalogue=RANGED, confidence=asked)) for asked in (0.5, 0.9, 0.99, 0.999)]
    bodies = [one["B-1"] for one in ordered]
    assert bodies == sorted(bodies)
    assert bodies[0] < bodies[-1]
    assert {one["S-20"] for one in ordered} == {9}


def test_tint_goes_by_the_mixes_ordered_not_by_the_likely_ones() -> None:
    ordered = packs(answer(catalogue=RANGED, confidence=0.99))
    assert ordered["T-GREY"] == ordered["B-1"] > 21


def test_the_confidence_unsaid_is_an_assumption() -> None:
    note = answer(catalogue=RANGED)["notes"]["confidence"]
    assert (note["pointer"], note["value"]) == ("/order/confidence", 0.9)
    assert packs(answer(catalogue=RANGED)) == packs(answer(catalogue=RANGED, confidence=0.9))


@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.999])
def test_the_order_runs_short_no_more_often_than_was_asked(confidence: float) -> None:
    assert answer(catalogue=RANGED, confidence=confidence)["shortage_any"] <= 1 - confidence + 1e-4


def test_the_curve_is_the_order_with_fewer_and_more_of_its_smallest_pack() -> None:
    shown = answer(catalogue=RANGED)
    body = shown["shortage"][0]
    curve = {point["packs"]: point["probability"] for point in body["curve"]}
    ordered = packs(shown)["B-1"]
    assert curve[ordered] == body["with_order"]
    assert curve[ordered - 1] == body["with_one_pack_fewer"]
    assert list(curve) == list(range(min(curve), max(curve) + 1))
    assert list(curve.values()) == sorted(curve.values(), reverse=True)
    assert body["with_likely_need"] > body["with_order"]


def test_the_only_uncertain_product_runs_short_as_often_as_anything() -> None:
    shown = answer(catalogue=RANGED)
    assert shown["shortage_any"] == shown["shortage"][0]["with_order"]


def test_stock_on_hand_counts_against_running_short() -> None:
    bought, stocked = answer(catalogue=RANGED), answer(catalogue=RANGED, on_hand=(OnHand(sku="B-1", packs=4),))
    assert packs(stocked)["B-1"] == packs(bought)["B-1"] - 4
    assert stocked["shortage"][0]["with_order"] == bought["shortage"][0]["with_order"]
