"""The order: colours, offers, stock, money, what blocks it and what is said beside it."""

from decimal import Decimal
from typing import Any

import jsonschema
import pytest
from tests import builders

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.errors import Refused
from gaugerake.answers.quantities.answer import Quantities, quantities
from gaugerake.answers.quantities.order import order
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.floor.job import Cove, Crack, Job, Joint, Measured, Offer, OnHand, Order, Rectangle, Room
from gaugerake.floor.values.errors import UnknownName
from gaugerake.measure.choice import SI, US

# made up for these tests, with figures that are easy to follow: 10 L to a mix, exact unless it says otherwise
CATALOGUE = """
catalogue: Test figures
invented: true
currency: {currency}
valid_days: 30
products:
  - code: body
    name: Body
    counted_in: mix
    yield: {{low: {low} L, likely: 10 L, high: {high} L}}
    mixing: {{minutes: 3}}
    hazards: [isocyanate, silica-dust]
    store: {{low: 5 degC, condition: 10 h, shelf_life: 6 mo}}
    packs:
      - {{sku: B-1, contents: 1 mix, unit_code: KT, weight: 20 kg, price: "{price}"{breaks}}}
  - code: sand
    name: Sand
    counted_in: mass
    hazards: [silica-dust]
    packs:
      - {{sku: S-20, contents: 20 kg, unit_code: XBG, weight: 20 kg}}
  - code: tint
    name: Tint
    counted_in: piece
    packs:
      - {{sku: T-GREY, colour: grey, contents: 1 piece, unit_code: EA, price: "3"}}
      - {{sku: T-RED, colour: red, contents: 1 piece, unit_code: EA, price: "3"}}
  - code: flake
    name: Flake
    counted_in: piece
    packs:
      - {{sku: F-RED, colour: {flake}, contents: 1 piece, unit_code: EA, price: "1"}}
      - {{sku: F-BLUE, colour: blue, contents: 1 piece, unit_code: EA, price: "1"}}
systems:
  - code: floor
    name: Floor
    thickness: {{low: 4 mm, usual: 5 mm, high: 9 mm}}
    thickness_sd_percent: {sd}
    reference_temperature: 20 degC
    layers:
      - {{layer: body, product: body, broadcast_wait: [{{at: 20 degC, low: 5 min, high: 9 min}}]}}
      - layer: broadcast
        product: sand
        rate: {{low: 4 kg/m2, likely: 4 kg/m2, high: 4 kg/m2}}
        cure: [{{at: 20 degC, likely: 9 h}}]
      - {{layer: sundry, product: tint, per: {{product: body, count: 1}}}}
      - {{layer: sundry, id: flake, product: flake, covers: 50 m2, optional: true}}
    returns: [{{traffic: foot, after: [{{at: 20 degC, likely: 9 h}}]}}]
"""
USD: dict[str, Any] = {
    "currency": "USD",
    "low": 10,
    "high": 10,
    "sd": 0,
    "price": "90.00",
    "breaks": "",
    "flake": "red",
}
ROOM = Room(shape=Measured(area_m2=40.0), joints=())  # 200 L: 20 mixes; with 5 % waste 21. 168 kg of sand: 9 bags.


def context(
    *, catalogue: dict[str, Any] | None = None, room: Room = ROOM, working: bool = False, **said: Any
) -> Context:
    snapshot = snapshot_of(CATALOGUE.format(**{**USD, **(catalogue or {})}))
    job = Job(system="floor", rooms=(room,), order=Order(**said))
    return builders.context(job, snapshot, working=working)


def answer(**said: Any) -> Any:
    made = context(**said)
    shown = render(quantities(made), SI)
    notes = (*made.record.cautions, *made.record.assumptions)
    return {**shown, "notes": {note["code"]: note for note in render(notes, SI)}}


def packs(shown: Any) -> dict[str, int]:
    return {line["sku"]: line["packs"] for line in shown["order_lines"]}


def refusal(**said: Any) -> Any:
    with pytest.raises(Refused) as refused:
        quantities(context(**said))
    return [(fault.pointer, fault.error) for fault in refused.value.faults]


# --- lines -------------------------------------------------------------------------------------------------------


def test_whole_packs_cover_the_need_of_each_product() -> None:
    assert packs(answer()) == {"B-1": 21, "S-20": 9, "T-GREY": 21}


def test_a_line_says_what_it_is_and_where_it_goes() -> None:
    line = answer()["order_lines"][0]
    assert line == {
        "id": "1",
        "product": "body",
        "sku": "B-1",
        "description": line["description"],
        "packs": 21,
        "unit_code": "KT",
        "contents": {"value": 1.0, "unit": "mix"},
        "layers": ["body"],
        "need": {column: {"value": 21.0, "unit": "mix"} for column in ("low", "likely", "high", "ordered")},
        "left_over": {"value": 0.0, "unit": "mix"},
        "weight": {"value": 420.0, "unit": "kg"},
        "unit_price": "90.00",
        "amount": "1890.00",
    }


def test_need_and_left_over_stand_on_the_products_first_line_alone() -> None:
    snapshot = demo_snapshot()
    job = Job(system="level-clear", rooms=(Room(shape=Rectangle(length_m=13, width_m=9)),))
    made = builders.context(job, snapshot)
    lines = quantities(made).order_lines
    body = [line for line in lines if line.product == "levelling-body"]
    assert [line.sku for line in body] == ["LB-1", "LB-24"]
    assert [line.need is None for line in body] == [False, True]
    assert [line.left_over is None for line in body] == [False, True]


def test_what_is_left_over_counts_packs_and_stock_less_the_likely_need() -> None:
    sand = answer(on_hand=(OnHand(sku="S-20", packs=3),))["order_lines"][1]
    assert sand["packs"] == 6
    assert sand["left_over"] == {"value": 12.0, "unit": "kg"}  # 180 - 168


def test_a_break_is_reached_where_that_is_cheaper() -> None:
    line = answer(catalogue={"breaks": ', breaks: [{from: 24, price: "78.00"}]'})["order_lines"][0]
    assert (line["packs"], line["unit_price"], line["amount"]) == (24, "78.00", "1872.00")  # 21 x 90.00 = 1890.00


# --- stock -------------------------------------------------------------------------------------------------------


def test_stock_on_hand_is_taken_off() -> None:
    assert packs(answer(on_hand=(OnHand(sku="B-1", packs=6),)))["B-1"] == 15


def test_a_pack_of_tint_goes_to_every_mix_ordered_before_stock_is_taken_off() -> None:
    assert packs(answer(on_hand=(OnHand(sku="B-1", packs=6),)))["T-GREY"] == 21


def test_a_product_covered_by_stock_has_no_line_and_is_said() -> None:
    shown = answer(on_hand=(OnHand(sku="B-1", packs=30),))
    assert "B-1" not in packs(shown)
    assert "Body" in shown["notes"]["covered-by-stock"]["text"]
    assert shown["shortage"][0]["with_one_pack_fewer"] is None
    assert shown["shortage"][0]["with_order"] == 0.0


def test_an_offer_limits_what_is_chosen_and_what_is_lacking_blocks_the_order() -> None:
    shown = answer(offers=(Offer(sku="T-RED"), Offer(sku="B-1", available=17)))
    assert packs(shown)["B-1"] == 17
    assert shown["orderable"] is False
    assert [(note["code"], note["pointer"]) for note in shown["blockers"]] == [
        ("stock-lacking", "/order/offers/1/available")
    ]
    assert "4 mixes" in shown["blockers"][0]["text"]
    assert (shown["shortage"][0]["with_order"], shown["shortage_any"]) == (1.0, 1.0)


def test_what_cannot_be_had_at_all_is_not_said_to_be_on_hand() -> None:
    shown = answer(offers=(Offer(sku="B-1", available=0),))
    assert "B-1" not in packs(shown)
    assert "covered-by-stock" not in shown["notes"]
    assert "21 mixes short" in shown["blockers"][0]["text"]


def test_enough_in_stock_blocks_nothing() -> None:
    shown = answer(offers=(Offer(sku="B-1", available=21),))
    assert (shown["orderable"], shown["blockers"], shown["shortage_any"]) == (True, [], 0.0)


@pytest.mark.parametrize(
    ("said", "pointer"),
    [
        ({"offers": (Offer(sku="S-20"), Offer(sku="B-11"))}, "/order/offers/1/sku"),
        ({"on_hand": (OnHand(sku="B-11", packs=1),)}, "/order/on_hand/0/sku"),
    ],
)
def test_an_unknown_sku_is_refused_with_the_nearest(said: dict[str, Any], pointer: str) -> None:
    [(found, error)] = refusal(**said)
    assert found == pointer
    assert isinstance(error, UnknownName)
    assert error.nearest == "B-1"


def test_every_unknown_sku_and_colour_is_told_at_once() -> None:
    faults = refusal(offers=(Offer(sku="X"),), on_hand=(OnHand(sku="Y", packs=1),), colour="green")
    assert [pointer for pointer, _ in faults] == ["/order/offers/0/sku", "/order/on_hand/0/sku", "/order/colour"]


def test_an_offer_and_stock_of_another_colour_change_nothing_and_are_said() -> None:
    shown = answer(offers=(Offer(sku="T-RED", price=Decimal(1)),), on_hand=(OnHand(sku="F-RED", packs=9),))
    assert packs(shown) == packs(answer())
    assert shown["notes"]["offer-unused"]["pointer"] == "/order/offers/0/sku"
    assert shown["notes"]["stock-unused"]["pointer"] == "/order/on_hand/0/sku"


# --- colours -----------------------------------------------------------------------------------------------------


def test_the_colour_asked_is_ordered() -> None:
    shown = answer(colour="red")
    assert packs(shown)["T-RED"] == 21
    assert "colour-first-listed" not in shown["notes"]


def test_a_colour_unsaid_is_the_first_listed_as_an_assumption() -> None:
    note = answer()["notes"]["colour-first-listed"]
    assert (note["pointer"], note["value"]) == ("/order/colour", "grey")


def test_a_colour_is_taken_that_every_coloured_product_comes_in() -> None:
    shown = answer(optional_layers=("flake",))
    assert (packs(shown)["T-RED"], packs(shown)["F-RED"]) == (21, 1)


@pytest.mark.parametrize(("colour", "tint", "flake"), [("red", "T-RED", "F-RED"), ("blue", "T-GREY", "F-BLUE")])
def test_a_product_that_does_not_come_in_the_colour_asked_takes_its_first_and_says_so(
    colour: str, tint: str, flake: str
) -> None:
    """Where one colour is shared by all products, no other can be asked; here none is."""
    shown = answer(catalogue={"flake": "black"}, colour=colour, optional_layers=("flake",))
    assert (packs(shown)[tint], packs(shown)[flake]) == (21, 1)
    note = shown["notes"]["colour-not-made"]
    assert note["pointer"] == "/order/colour"
    assert note["text"].startswith("Flake" if colour == "red" else "Tint")


@pytest.mark.parametrize(("layers", "known"), [((), ("grey", "red")), (("flake",), ("red",))])
def test_an_unknown_colour_is_refused_with_the_list(layers: tuple[str, ...], known: tuple[str, ...]) -> None:
    [(pointer, error)] = refusal(colour="blue", optional_layers=layers)
    assert pointer == "/order/colour"
    assert isinstance(error, UnknownName)
    assert error.known == known


def test_one_lot_of_colour_is_cautioned() -> None:
    assert "Tint in grey" in answer()["notes"]["one-lot-of-colour"]["text"]


# --- money -------------------------------------------------------------------------------------------------------


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
    per_area = render(quantities(context()), US)["totals"]["per_area"]
    assert per_area == {"value": "4.54", "unit": "USD/ft2"}  # 1953.00 / 430.5564 ft2 = 4.53599


def test_a_product_without_a_price_has_no_amount_and_is_left_out_of_the_totals() -> None:
    shown = answer()
    sand = shown["order_lines"][1]
    assert (sand["unit_price"], sand["amount"]) == (None, None)
    assert "S-20" in shown["notes"]["no-price"]["text"]
    assert shown["totals"]["lines"] == "1953.00"
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


# --- what goes with it -------------------------------------------------------------------------------------------


def test_hazards_are_told_once_each_with_the_products_that_have_them() -> None:
    notes = answer()["notes"]
    assert notes["hazard-silica-dust"]["text"].startswith("Body, Sand:")
    assert notes["hazard-isocyanate"]["text"].startswith("Body:")


@pytest.mark.parametrize(
    "code", ["kits-never-split", "condition-materials", "condition-first", "store-above", "shelf-life"]
)
def test_how_the_products_are_kept_and_mixed_is_told_with_the_order(code: str) -> None:
    assert code in answer()["notes"]


# --- the whole answer --------------------------------------------------------------------------------------------

FULL = Room(
    shape=Rectangle(length_m=11, width_m=8),
    joints=(Joint(length_m=8, width_m=0.01, depth_m=0.012),),
    cracks=(Crack(length_m=5, width_m=0.01, depth_m=0.012),),
    cove=Cove(length_m=30, height_m=0.1),
)


def demo(system: str, *, working: bool = False, **said: Any) -> Context:
    snapshot = demo_snapshot()
    job = Job(system=system, rooms=(FULL, ROOM), order=Order(**said))
    return builders.context(job, snapshot, working=working)


SYSTEMS = ["level-clear", "double-quartz", "trowelled-mortar"]


@pytest.mark.parametrize("choice", [US, SI], ids=["us", "si"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_answer_fits_its_own_description(system: str, choice: Any) -> None:
    describer = Describer()
    schema = describer.schema(Quantities)
    shown = render(quantities(demo(system)), choice)
    jsonschema.validate(shown, {**schema, "components": {"schemas": describer.components}})


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_same_job_gives_the_same_answer_every_time(system: str) -> None:
    assert len({repr(render(quantities(demo(system)), US)) for _ in range(3)}) == 1


@pytest.mark.parametrize("system", SYSTEMS)
def test_lines_add_up_to_the_totals_to_the_cent(system: str) -> None:
    shown = quantities(demo(system, tax_percent=Decimal("7.7"), discount_percent=Decimal("3.3")))
    amounts = [line.amount for line in shown.order_lines]
    assert sum((amount for amount in amounts if amount is not None), Decimal(0)) == shown.totals.lines
    assert shown.totals.net == shown.totals.lines - shown.totals.discount + shown.totals.delivery
    assert shown.totals.gross == shown.totals.net + shown.totals.tax


@pytest.mark.parametrize("system", SYSTEMS)
def test_packs_and_stock_cover_what_is_ordered_of_each_product(system: str) -> None:
    for one in demo(system).shared(order):
        assert one.held >= one.ordered * (1 - 1e-9)
        assert one.low <= one.likely <= one.high
        assert one.ordered >= one.low


def leaves(shown: Any, at: str = "") -> list[str]:
    """Where each figure of an answer stands; a measure is one figure."""
    if isinstance(shown, dict):
        if set(shown) == {"value", "unit"}:
            return [at]
        return [place for key, value in shown.items() for place in leaves(value, f"{at}/{key}")]
    if isinstance(shown, list):
        return [place for number, value in enumerate(shown) for place in leaves(value, f"{at}/{number}")]
    return [at] if isinstance(shown, int | float) and not isinstance(shown, bool) else []


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_figure_of_the_order_has_its_working(system: str) -> None:
    made = demo(system, working=True, delivery=Decimal(30))
    shown = render(quantities(made), US)
    worked = {entry["figure"]: entry["result"] for entry in render(tuple(made.record.working or ()), US)}
    order_part = {key: shown[key] for key in ("order_lines", "shortage", "shortage_any", "totals")}
    assert set(leaves(order_part)) <= set(worked)
    money = [f"/totals/{name}" for name in ("lines", "discount", "delivery", "net", "tax", "gross")]
    money += [f"/order_lines/{place}/amount" for place in range(len(shown["order_lines"]))]
    assert set(money) <= set(worked)
    for figure in (*leaves(order_part), *money):
        found: Any = shown
        for key in figure.split("/")[1:]:
            found = found[int(key)] if isinstance(found, list) else found[key]
        assert worked[figure] == found, figure


def test_a_price_that_came_with_the_job_is_not_said_to_be_the_books() -> None:
    offers = (Offer(sku="CC-1.5", price=Decimal("139.60")), Offer(sku="LB-1", available=40))
    made = demo("level-clear", working=True, offers=offers)
    lines = quantities(made).order_lines
    sources = {entry["figure"]: entry["source"] for entry in render(tuple(made.record.working or ()), US)}
    offered, listed = (next(place for place, line in enumerate(lines) if line.sku == sku) for sku in ("CC-1.5", "LB-1"))
    assert sources[f"/order_lines/{offered}/unit_price"] == "the job's own offer"
    assert sources[f"/order_lines/{offered}/amount"] == "the job's own offer"
    assert sources[f"/order_lines/{offered}/packs"] == "price book list; the job's own offer"  # CC-7.5 is the book's
    assert sources[f"/order_lines/{listed}/unit_price"] == "price book list"
    assert sources[f"/order_lines/{listed}/packs"] == "price book list"


def test_working_is_only_made_when_it_is_asked_for() -> None:
    made = demo("level-clear")
    quantities(made)
    assert made.record.working is None
