"""How each chance of running short came about. Made only when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.sources import JOB
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.quantities.explain_order import Inputs, model_of
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.answers.quantities.shortages import Shortage, curve_amounts, likely_load
from gaugerake.floor.values.figure import Figure


def explain_shortages(
    resolved: ResolvedJob, products: Sequence[ProductOrder], found: Sequence[Shortage], any_short: float
) -> Iterator[Working]:
    """The working of every chance."""
    for index, (one, shortage) in enumerate(zip(products, found, strict=True)):
        yield from _explain_product(resolved, one, shortage, f"/shortage/{index}")
    yield explain_any(resolved, products, any_short)


def explain_any(resolved: ResolvedJob, products: Sequence[ProductOrder], any_short: float) -> Working:
    """The working of the chance that anything runs short."""
    inputs: Inputs = {}
    for number, one in enumerate(products, 1):
        inputs.update(_with(resolved, one, one.held, f"product {number} "))
    return working("/shortage_any", "rule-shortage-any", inputs, any_short, JOB)


def _explain_product(resolved: ResolvedJob, one: ProductOrder, shortage: Shortage, at: str) -> Iterator[Working]:
    rule = "rule-shortage-exact" if one.basis.chance is None else "rule-shortage"
    likely = likely_load(one).contents + one.supply.on_hand
    yield working(f"{at}/with_order", rule, _with(resolved, one, one.held), shortage.with_order, JOB)
    yield working(f"{at}/with_likely_need", rule, _with(resolved, one, likely), shortage.with_likely_need, JOB)
    amounts = curve_amounts(one)
    ordered = sum(one.load.counts)
    if shortage.with_one_pack_fewer is not None:
        fewer = _with(resolved, one, amounts[ordered - 1])
        yield working(f"{at}/with_one_pack_fewer", rule, fewer, shortage.with_one_pack_fewer, JOB)
    for place, point in enumerate(shortage.curve):
        inputs = _with(resolved, one, amounts[point.packs])
        yield working(f"{at}/curve/{place}/probability", rule, inputs, point.probability, JOB)
        steps: Inputs = {"ordered": ordered, "more": point.packs - ordered}
        yield working(f"{at}/curve/{place}/packs", "rule-curve-packs", steps, point.packs, JOB)


def _with(resolved: ResolvedJob, one: ProductOrder, amount: float, name: str = "") -> Inputs:
    kind = one.product.counted_in.figure_kind
    inputs: Inputs = {f"{name}available": Figure(amount, kind)}
    if one.basis.chance is None:
        return {**inputs, f"{name}need": Figure(one.ordered, kind)}
    return {**inputs, **model_of(resolved, one, name)}
