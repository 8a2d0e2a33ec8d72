"""Order lines, stock on hand and offers, and colours."""

from decimal import Decimal

import pytest
from tests import builders
from tests.answers.quantities.jobs import answer, packs, refusal
from tests.asked import quantities

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.floor.job import Job, Offer, OnHand, Rectangle, Room
from gaugerake.floor.values.errors import UnknownName


def test_whole_packs_cover_the_need_of_each_product() -> None:
    assert packs(answer()) == {"B-1": 21, "S-20": 9, "T-GREY": 21}


def test_a_line_says_what_it_is_and_where_it_goes() -> None:
    line = answer()["order_lines"][0]
    assert line == {
        "id": "1",
        "product": "body",
        "sku": "B-1",
        "kit": None,
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


def test_stock_of_an_unknown_sku_is_refused_with_the_nearest() -> None:
    [(found, error)] = refusal(on_hand=(OnHand(sku="B-11", packs=1),))
    assert found == "/order/on_hand/0/sku"
    assert isinstance(error, UnknownName)
    assert error.nearest == "B-1"


def test_every_unknown_sku_of_stock_and_colour_is_told_at_once() -> None:
    faults = refusal(on_hand=(OnHand(sku="X", packs=1), OnHand(sku="Y", packs=1)), colour="green")
    assert [pointer for pointer, _ in faults] == ["/order/on_hand/0/sku", "/order/on_hand/1/sku", "/order/colour"]


def test_an_offer_of_an_unknown_sku_changes_nothing_and_is_said_where_it_stands() -> None:
    """The caller's catalogue may hold more than ours."""
    shown = answer(offers=(Offer(sku="S-20"), Offer(sku="B-11", price=Decimal(1))))
    assert packs(shown) == packs(answer(offers=(Offer(sku="S-20"),)))
    assert shown["notes"]["offer-unknown"]["pointer"] == "/order/offers/1/sku"
    assert "B-11" in shown["notes"]["offer-unknown"]["text"]


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
