"""The mixes that are left of the order, and the packs that make up what is lacking."""

from __future__ import annotations

import math

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.pour_progress.resolve import ResolvedProgress
from gaugerake.answers.quantities.lines import OrderLine, order_lines
from gaugerake.answers.quantities.order import JobOrder, ProductOrder
from gaugerake.floor.layers.takeoff import LayerNeed
from gaugerake.floor.packs.choice import Offered, choose_packs
from gaugerake.floor.values.errors import MoreThanOrdered
from gaugerake.floor.values.frozen import dataclass, replace
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import GUARD, whole


@dataclass(frozen=True, slots=True, kw_only=True)
class MixesLeft:
    """The mixes for a layer: those that the order brings and that are on hand for it, and those that are left.

    ``held_count`` is None where the job's order does not count, as the asker says what is left.
    """

    held_count: int | None
    left_count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """The packs to buy, as order lines; ``count`` mixes are wanted, of which no stock covers ``lacking``."""

    lines: tuple[OrderLine, ...]
    count: int
    lacking: float


def stock_of(progress: ResolvedProgress, order: ProductOrder, need: LayerNeed) -> MixesLeft:
    """The mixes that are left: as said, else what the order holds for the layer less what is poured.

    Raises
    ------
    Refused
        When more is poured than the order holds, and nobody says what is left.
    """
    said = progress.mixes_left
    if said is not None:
        return MixesLeft(held_count=None, left_count=said)
    others = math.fsum(other.rounded_likely for other in order.needs if other.layer.id != need.layer.id)
    held = max(0, math.floor((order.held - others) * (1 + GUARD)))
    if progress.mix_count > held:
        raise Refused(Fault("/progress/mixes", MoreThanOrdered("mixes", held=held)))
    return MixesLeft(held_count=held, left_count=held - progress.mix_count)


def product_order(order: JobOrder, need: LayerNeed) -> ProductOrder:
    """What is ordered of the product of a layer."""
    return next(one for one in order.products if one.product.code == need.layer.product.code)


def bought(resolved: ResolvedJob, order: ProductOrder, need: LayerNeed, mixes: Triple, stock: MixesLeft) -> Purchase:
    """The cheapest packs that make the end sure: for the high need, less what is left."""
    low, likely, high = (max(0, whole(count) - stock.left_count) for count in (mixes.low, mixes.likely, mixes.high))
    if high == 0:
        return Purchase(lines=(), count=0, lacking=0.0)
    offered = tuple(map(_still_there, order.supply.offered, order.load.counts))
    load = choose_packs(need=high, offered=offered)
    more = replace(
        order,
        needs=(need,),
        low=low,
        likely=likely,
        high=high,
        ordered=high,
        supply=replace(order.supply, offered=offered, on_hand=0.0),
        load=load,
    )
    return Purchase(lines=order_lines(resolved, [more]), count=high, lacking=load.lacking)


def _still_there(offered: Offered, count: int) -> Offered:
    """A pack after the job's own order is taken from its stock."""
    if offered.available is None:
        return offered
    return replace(offered, available=max(0, offered.available - count))
