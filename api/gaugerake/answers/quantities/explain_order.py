"""How each figure of the order came about: needs, packs, money and weight. Made only when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.sources import JOB, OFFER, book_source, both, product_source, said_source
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.quantities.confidence import by_mix
from gaugerake.answers.quantities.lines import OrderLine, Totals
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.floor.layers.need import Demand
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.packs.choice import Offered
from gaugerake.floor.product import Pack, Price
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value, Words
from gaugerake.floor.values.range import Triple

Inputs = dict[str, Value]
Pairs = Iterator[tuple[str, Value]]
_COLUMNS = ("low", "likely", "high")


def explain_lines(
    resolved: ResolvedJob, products: Sequence[ProductOrder], lines: Sequence[OrderLine]
) -> Iterator[Working]:
    """The working of every line."""
    by_code = {one.product.code: one for one in products}
    for index, line in enumerate(lines):
        yield from _LineWorking(resolved, by_code[line.product], products, line, f"/order_lines/{index}").record()


class _LineWorking:
    """The working of one line."""

    def __init__(
        self, resolved: ResolvedJob, one: ProductOrder, products: Sequence[ProductOrder], line: OrderLine, at: str
    ) -> None:
        self.resolved, self.one, self.line, self.at = resolved, one, line, at
        self.mixes = {other.product.code: other.basis.quantity for other in products}
        self.kind = one.product.counted_in.figure_kind
        self.source = product_source(one.product.code)
        self.price = _price_source(resolved, {line.sku})
        self.prices = _price_source(resolved, one.supply.prices.keys())
        self.part = next(part for pack in one.supply.packs for part in pack.ordered_as if part.sku == line.sku)

    def record(self) -> Iterator[Working]:
        line, one = self.line, self.one
        if line.need is not None:
            for column in _COLUMNS:
                yield from self._work(f"need/{column}", *self._column(column), getattr(line.need, column), JOB)
            yield from self._work("need/ordered", *self._ordered(), line.need.ordered, JOB)
            held = {"in packs": self._figure(one.load.contents), "on hand": self._figure(one.supply.on_hand)}
            inputs: Inputs = {**held, "likely": self._figure(one.likely)}
            yield from self._work("left_over", "rule-left-over", inputs, line.left_over, JOB)
        rule = "rule-packs-kits" if any(pack.parts for pack in one.supply.packs) else "rule-packs"
        yield from self._work("packs", rule, self._choice(), line.packs, self.prices)
        yield from self._work("contents", "rule-listed", {"listed": line.contents}, line.contents, self.source)
        yield from self._weigh()
        yield from self._price()

    def _work(self, figure: str, rule: str, inputs: Inputs, result: Value, source: Words) -> Iterator[Working]:
        yield working(f"{self.at}/{figure}", rule, inputs, result, source)

    def _figure(self, value: float) -> Figure:
        return Figure(value, self.kind)

    def _column(self, column: str) -> tuple[str, Inputs]:
        inputs: Inputs = {}
        for number, need in enumerate(self.one.needs, 1):
            if not by_mix(need):
                inputs[f"layer {number} used"] = self._figure(getattr(need, f"rounded_{column}"))
        return "rule-product-need", {**inputs, **dict(self._by_mixes())}

    def _by_mixes(self) -> Pairs:
        for number, need in enumerate(self.one.needs, 1):
            by = need.layer.per_mix
            if by is not None:
                yield f"layer {number} for each mix", by.count
                yield f"layer {number} mixes", Figure(self.mixes.get(by.product, 0.0), Kind.MIX)

    def _ordered(self) -> tuple[str, Inputs]:
        if self.one.basis.chance is None:
            rule, inputs = self._column("likely")
            return rule, inputs
        return f"rule-ordered-{self.one.product.counted_in.value}", {
            "confidence": self.one.basis.confidence,
            "uncertain products": self.one.basis.among,
            **model_of(self.resolved, self.one),
        }

    def _choice(self) -> Inputs:
        inputs: Inputs = {"ordered": self._figure(self.one.ordered), "on hand": self._figure(self.one.supply.on_hand)}
        for number, (pack, offered) in enumerate(zip(self.one.supply.packs, self.one.supply.offered, strict=True), 1):
            inputs.update(_on_offer(f"pack {number}", pack, offered, self.kind))
            for place, part in enumerate(pack.parts, 1):
                inputs[f"pack {number} part {place} sku"] = part.sku
                inputs.update(_priced(f"pack {number} part {place}", self.one.supply.prices.get(part.sku)))
        return inputs

    def _weigh(self) -> Iterator[Working]:
        line = self.line
        if line.weight is not None and self.part.weight_kg is not None:
            inputs: Inputs = {"packs": line.packs, "weight of one": Figure(self.part.weight_kg, Kind.MASS)}
            yield from self._work("weight", "rule-line-weight", inputs, line.weight, self.source)

    def _price(self) -> Iterator[Working]:
        line = self.line
        if line.unit_price is None or line.amount is None:
            return
        prices: Inputs = dict(_priced("pack", self.one.supply.prices.get(self.part.sku)))
        yield from self._work(
            "unit_price", "rule-unit-price", {"packs": line.packs, **prices}, str(line.unit_price), self.price
        )
        inputs: Inputs = {"packs": line.packs, "unit price": str(line.unit_price)}
        yield from self._work("amount", "rule-amount", inputs, str(line.amount), self.price)


def _price_source(resolved: ResolvedJob, skus: Set[str]) -> Words:
    """Where the prices of skus are from: the price book, the offers that came with the job, or both."""
    book = book_source(resolved.supply.book.code)
    own = skus & {each.sku for each in resolved.order.offers if each.price is not None}
    if not own:
        return book
    return OFFER if own == skus else both(book, OFFER)


def _on_offer(name: str, pack: Pack, offered: Offered, kind: Kind) -> Pairs:
    """A pack as it is offered: sku, contents, price and its breaks, stock."""
    yield f"{name} sku", pack.sku
    yield f"{name} contents", Figure(pack.contents, kind)
    yield from _priced(name, offered.price)
    if offered.available is not None:
        yield f"{name} in stock", offered.available


def _priced(name: str, price: Price | None) -> Pairs:
    """A price and its breaks."""
    if price is not None:
        yield f"{name} price", str(price.price)
        for step in price.breaks:
            yield f"{name} price from {step.from_count}", str(step.price)


def model_of(resolved: ResolvedJob, one: ProductOrder, name: str = "") -> Inputs:
    """What makes a product's need uncertain, as inputs; ``name`` goes before each."""
    inputs: Inputs = {}
    if any(need.demand is not None and need.demand.varying > 0 for need in one.needs):
        inputs[f"{name}thickness sd"] = Figure(resolved.system.thickness_sd_fraction * 100, Kind.PERCENT)
    for number, need in enumerate(one.needs, 1):
        if need.demand is not None:
            inputs.update(_demand(f"{name}layer {number}", need, need.demand))
    return inputs


def _demand(name: str, need: LayerNeed, demand: Demand) -> Pairs:
    needed, conversion = need.layer.product.counted_in.figure_kind, need.layer.conversion
    kind = needed if conversion is None else need.layer.quantity_kind
    if demand.varying > 0:
        yield f"{name} by thickness", Figure(demand.varying, kind)
    yield f"{name} else", Figure(demand.fixed, kind)
    if conversion is not None:
        yield from _triple(f"{name} {conversion.name}", conversion.rate, conversion.figure)
    if demand.step is not None:
        yield f"{name} smallest", Figure(demand.step, needed)


def _triple(name: str, triple: Triple, kind: Kind) -> Pairs:
    yield f"{name} low", Figure(triple.low, kind)
    yield f"{name} likely", Figure(triple.likely, kind)
    yield f"{name} high", Figure(triple.high, kind)


def explain_totals(
    resolved: ResolvedJob, lines: Sequence[OrderLine], totals: Totals, area_m2: float
) -> Iterator[Working]:
    """The working of what the lines add up to."""
    order = resolved.order
    amounts: Inputs = {f"line {line.id}": str(line.amount) for line in lines if line.amount is not None}
    yield working("/totals/lines", "rule-lines", amounts, str(totals.lines), JOB)
    percent = str(order.discount_percent.value or 0)
    discount: Inputs = {"lines": str(totals.lines), "percent": percent}
    yield working(
        "/totals/discount", "rule-percent", discount, str(totals.discount), said_source(order.discount_percent)
    )
    stated: Inputs = {"stated": str(order.delivery.value or 0)}
    yield working("/totals/delivery", "rule-money-stated", stated, str(totals.delivery), said_source(order.delivery))
    net: Inputs = {
        "lines": str(totals.lines),
        "discount": str(totals.discount),
        "delivery": str(totals.delivery),
    }
    yield working("/totals/net", "rule-net", net, str(totals.net), JOB)
    tax: Inputs = {"net": str(totals.net), "percent": str(order.tax_percent.value or 0)}
    yield working("/totals/tax", "rule-percent-of-net", tax, str(totals.tax), said_source(order.tax_percent))
    gross: Inputs = {"net": str(totals.net), "tax": str(totals.tax)}
    yield working("/totals/gross", "rule-gross", gross, str(totals.gross), JOB)
    weights: Inputs = {f"line {line.id}": line.weight for line in lines if line.weight is not None}
    yield working("/totals/weight", "rule-weight", weights, totals.weight, JOB)
    by_area: Inputs = {"net": str(totals.net), "area": Figure(area_m2, Kind.AREA)}
    yield working("/totals/per_area", "rule-per-area", by_area, totals.per_area, JOB)
