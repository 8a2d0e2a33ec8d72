"""The order: how much more than the likely need, at which prices, of what is there already."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError

from gaugerake.floor.job import Offer, OnHand, Order
from gaugerake.web.errors.finding import Finding
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Money, Number, Text, Whole
from gaugerake.web.json_in.fields_time import Day


class OnHandSchema(Document):
    """Packs that are on the shelf already."""

    makes = OnHand
    sku = Text(64, required=True, about="Of a pack, or of a part of a kit, as the catalogue has it.")
    packs = Whole(0, 100_000, required=True, about="How many whole ones.")


class OfferSchema(Document):
    """The caller's own price and stock of a sku: the price stands for the book's and its breaks."""

    makes = Offer
    sku = Text(64, required=True, about="Of a pack, or of a part of a kit, as the catalogue has it.")
    price = Money(about="Of one pack, in the catalogue's currency; the book's holds where there is none.")
    available = Whole(0, 1_000_000, about="No more packs than these are chosen.")


class OrderSchema(Document):
    """How the order is made up and priced."""

    makes = Order
    waste_percent = Number(0, 100, about="5 unless given.")
    confidence = Number(0.5, 0.999, about="The chance that the whole order suffices; 0.9 unless given.")
    optional_layers = Items(Text(64), most=50, about="Ids of the system's optional layers that are wanted.")
    colour = Text(64, about="Of what comes in colours, as the catalogue calls it; the first listed unless given.")
    tax_percent = Number(0, 100, exact=True, about="On the net, once; 0 unless given.")
    discount_percent = Number(0, 100, exact=True, about="Off the lines, not off delivery; 0 unless given.")
    delivery = Money(about="Part of the net, so it is taxed; 0 unless given.")
    on_hand = Items(Object(OnHandSchema), most=500, about="It is taken off what is ordered.")
    offers = Items(Object(OfferSchema), most=2000, about="A customer's own prices, or what is in stock.")
    reference = Text(80, about="The caller's own; it comes back with the quote.")
    buyer = Text(80, about="Who buys, by name: a UBL Quotation says it.")
    issued = Day(about="The day of the quote, from which it is valid.")
    price_book = Text(64, about="The code of a price book; the list book unless given.")

    def make(self, values: dict[str, Any]) -> Order:
        """The order; a sku has one shelf and one offer."""
        for name in ("on_hand", "offers"):
            _hold_once(name, values.get(name, ()))
        return Order(**values)


def _hold_once(name: str, entries: tuple[Any, ...]) -> None:
    seen: set[str] = set()
    for index, entry in enumerate(entries):
        if entry.sku in seen:
            raise ValidationError({name: {index: {"sku": [Finding("sku-twice", entry.sku)]}}})
        seen.add(entry.sku)
