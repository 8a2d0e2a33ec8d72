"""How each chance of running short came about. Made only when it is asked for."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.answers.job.context import Context
from gaugerake.answers.quantities.explain_order import JOB, Inputs, model_of
from gaugerake.answers.quantities.order import ProductOrder
from gaugerake.answers.quantities.shortages import Shortage, curve_amounts, likely_load
from gaugerake.floor.values.figure import Figure


def work_shortages(
    context: Context, products: Sequence[ProductOrder], found: Sequence[Shortage], any_short: float
) -> None:
    """Record the working of every chance."""
    for index, (one, shortage) in enumerate(zip(products, found, strict=True)):
        _work_product(context, one, shortage, f"/shortage/{index}")
    inputs: Inputs = {}
    for number, one in enumerate(products, 1):
        inputs.update(_with(context, one, one.held, f"product {number} "))
    context.record.work("/shortage_any", "rule-shortage-any", inputs, any_short, JOB)


def _work_product(context: Context, one: ProductOrder, shortage: Shortage, at: str) -> None:
    work = context.record.work
    rule = "rule-shortage-exact" if one.basis.chance is None else "rule-shortage"
    likely = likely_load(one).contents + one.shelf.on_hand
    work(f"{at}/with_order", rule, _with(context, one, one.held), shortage.with_order, JOB)
    work(f"{at}/with_likely_need", rule, _with(context, one, likely), shortage.with_likely_need, JOB)
    amounts = curve_amounts(one)
    ordered = sum(one.load.counts)
    if shortage.with_one_pack_fewer is not None:
        fewer = _with(context, one, amounts[ordered - 1])
        work(f"{at}/with_one_pack_fewer", rule, fewer, shortage.with_one_pack_fewer, JOB)
    for place, point in enumerate(shortage.curve):
        inputs = _with(context, one, amounts[point.packs])
        work(f"{at}/curve/{place}/probability", rule, inputs, point.probability, JOB)
        steps: Inputs = {"ordered": ordered, "more": point.packs - ordered}
        work(f"{at}/curve/{place}/packs", "rule-curve-packs", steps, point.packs, JOB)


def _with(context: Context, one: ProductOrder, amount: float, name: str = "") -> Inputs:
    kind = one.product.counted_in.figure_kind
    inputs: Inputs = {f"{name}available": Figure(amount, kind)}
    if one.basis.chance is None:
        return {**inputs, f"{name}need": Figure(one.ordered, kind)}
    return {**inputs, **model_of(context, one, name)}
