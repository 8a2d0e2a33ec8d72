"""The cheapest whole packs that cover a need, in whole numbers.

A branch and bound over price tiers. Its relaxation lets packs be broken up (``marginal``): it names the marginal size
and the price of a unit. At that price each size has a reduced cost and a base count, the count of least reduced cost.
The best choice with every size in the tier of its base count is a group relaxation of the knapsack (``residue``). Each
choice with some size in another tier is a branch, which is cut where its reduced cost alone exceeds the best so far.

References
----------
R. E. Gomory, On the relation between integer and noninteger solutions to linear programs, Proc. Natl. Acad. Sci. 53
(1965): the group relaxation; cited from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import mul

from gaugerake.floor.packs.marginal import Segment, lower_hull, marginal
from gaugerake.floor.packs.residue import CountBudget, Departure, Filling, least_reduced_cost
from gaugerake.floor.packs.size import Size, Tier, with_weights
from gaugerake.floor.packs.trial import few, lightest
from gaugerake.floor.values.frozen import dataclass

_FEW = 40  # choices that are all tried

Range = tuple[int, int]  # the places of the first and the last tier that a size may be bought in


class Assortment:
    """Sizes, in the order of their skus, made ready to search for any need."""

    def __init__(self, sizes: Sequence[Size]) -> None:
        self.length = len(sizes)
        self.kept = [place for place, size in enumerate(sizes) if size.most > 0]
        self.units = [sizes[place].units for place in self.kept]
        self.tiers = with_weights([sizes[place] for place in self.kept])
        order = sorted(range(len(self.kept)), key=self.units.__getitem__, reverse=True)
        self.falling = order, [self.units[index] for index in order], [self.tiers[index] for index in order]
        self.all_counts = [tiers[-1].last for tiers in self.tiers]
        self.all_units = sum(map(mul, self.all_counts, self.units))
        self.all_weight = sum([tiers[-1].weight * tiers[-1].last for tiers in self.tiers])


class PackSearch:
    """One search for ``need`` units, in which ``allowed`` counts may be compared.

    Examples
    --------
    >>> small, large = Size(units=1, tiers=((0, 99, 28),)), Size(units=5, tiers=((0, 99, 120),))
    >>> PackSearch(Assortment([small, large]), need=9, allowed=1000).best()
    (4, 1)
    """

    def __init__(self, assortment: Assortment, *, need: int, allowed: int) -> None:
        self.assortment, self.need, self.budget = assortment, need, CountBudget(allowed)
        self.units = assortment.units
        self.counts, self.weight = assortment.all_counts, assortment.all_weight
        self.tiers: list[list[Tier]] = []
        self.hulls: dict[tuple[int, Range], list[Segment]] = {}

    def best(self) -> tuple[int, ...] | None:
        """Counts in the order of the sizes as given; None when all there is does not cover the need."""
        if self.need > self.assortment.all_units:
            return None
        if not self._try_all():
            for index in range(len(self.units)):
                self._take_alone(index)
            self._branch([(0, len(tiers) - 1) for tiers in self.tiers])
        counts = [0] * self.assortment.length
        for place, count in zip(self.assortment.kept, self.counts, strict=True):
            counts[place] = count
        return tuple(counts)

    def offer(self, weight: int, counts: list[int]) -> None:
        """Keep a choice that weighs less than the best so far."""
        if weight < self.weight:
            self.weight, self.counts = weight, counts

    def _try_all(self) -> bool:
        """Whether the choices are so few that all were tried."""
        order, units, tiers = self.assortment.falling
        if not few(need=self.need, units=units, tiers=tiers, most=_FEW):
            return False
        found = lightest(need=self.need, units=units, tiers=tiers)
        assert found is not None  # best() has seen that all there is covers the need
        self.offer(found[0], [count for _, count in sorted(zip(order, found[1], strict=True))])
        return True

    def _take_alone(self, index: int) -> None:
        """Cover the need by one size. Only alone is more of it bought than that takes: to reach a break."""
        enough, reached = -(-self.need // self.units[index]), []
        for tier in self.assortment.tiers[index]:
            first, last, price, weight = tier
            count = max(first, enough)
            if count <= last and weight * count < self.weight:
                counts = [0] * len(self.units)
                counts[index] = count
                self.offer(weight * count, counts)
            if first <= enough:
                reached.append(tier if last <= enough else Tier(first, enough, price, weight))
        self.tiers.append(reached)

    def _branch(self, ranges: list[Range]) -> None:
        """Search the choices with each size in this range of its tiers."""
        if self.budget.left < 0:
            return
        least = [tiers[low].first for tiers, (low, _) in zip(self.tiers, ranges, strict=True)]
        left = self.need - sum(map(mul, least, self.units))
        if left <= 0:
            self._take_least(ranges)
            return
        found = marginal(left=left, units=self.units, hulls=[self._hull(*place) for place in enumerate(ranges)])
        if found is None:
            return
        segment, count = found
        index, (low, high) = segment.size, ranges[segment.size]
        tier = next(i for i in range(low, high + 1) if segment.stop <= self.tiers[index][i].last)
        first = self.tiers[index][tier].first
        if first <= segment.start or (segment.start == 0 and first <= count):
            balance = _Balance(self, ranges, index, tier)
            balance.take_best_in_base_tiers()
            parts = balance.in_other_tiers()
        else:  # at the margin no whole packs cost what the hull says
            parts = (_with_range(ranges, index, part) for part in ((tier, high), (low, tier - 1)))
        for part in parts:
            self._branch(part)

    def _hull(self, index: int, part: Range) -> list[Segment]:
        hull = self.hulls.get((index, part))
        if hull is None:
            tiers = self.tiers[index][part[0] : part[1] + 1]
            hull = self.hulls[index, part] = lower_hull(index=index, units=self.units[index], tiers=tiers)
        return hull

    def _take_least(self, ranges: list[Range]) -> None:
        """Offer the least counts of these tiers, which cover the need by themselves: of each size, the lightest."""
        cheapest = [
            min((tier.weight * tier.first, tier.first) for tier in tiers[low : high + 1])
            for tiers, (low, high) in zip(self.tiers, ranges, strict=True)
        ]
        self.offer(sum(weight for weight, _ in cheapest), [count for _, count in cheapest])


@dataclass(frozen=True, slots=True)
class _Base:
    """The base count of a size at the marginal price, and the tier that holds it.

    In that tier, ``n`` packs have the reduced cost ``slope · n − least``; it is 0 at ``n = count``.
    """

    tier: int
    count: int
    slope: int
    least: int


class _Balance:
    """The reduced costs of all sizes in these tiers, at the unit price of one tier of the marginal size."""

    def __init__(self, search: PackSearch, ranges: list[Range], filling: int, tier: int) -> None:
        self.search, self.ranges, self.filling = search, ranges, filling
        self.price, self.scale = search.tiers[filling][tier].weight, search.units[filling]
        self.bases = [
            _Base(tier, 0, 0, 0) if index == filling else self._base(index) for index in range(len(search.units))
        ]
        self.bound = self.price * search.need + sum([base.least for base in self.bases])
        self.left: int = search.need - sum(map(mul, [base.count for base in self.bases], search.units))

    def _slope(self, index: int, tier: int) -> int:
        """The reduced cost of one pack, not yet less that of the base count."""
        search = self.search
        return self.scale * search.tiers[index][tier].weight - self.price * search.units[index]

    def _base(self, index: int) -> _Base:
        low, high = self.ranges[index]
        bases = []
        for tier in range(low, high + 1):
            slope, (first, last, _, _) = self._slope(index, tier), self.search.tiers[index][tier]
            count = first if slope >= 0 else last
            bases.append((slope * count, tier, count, slope))
        least, tier, count, slope = min(bases)
        return _Base(tier, count, slope, least)

    def _limit(self) -> int:
        """The reduced cost at which a choice costs as much as the best so far."""
        return self.scale * self.search.weight - self.bound

    def _departures(self) -> Iterator[tuple[int, Departure]]:
        """The departures within the base tiers whose reduced cost is below the limit."""
        limit = self._limit()
        for index, base in enumerate(self.bases):
            tier, reduced_cost = self.search.tiers[index][base.tier], abs(base.slope)
            most = tier.last - tier.first
            if index != self.filling and most and reduced_cost < limit:
                units = self.search.units[index]
                yield index, Departure(units=units if base.slope > 0 else -units, reduced_cost=reduced_cost, most=most)

    def take_best_in_base_tiers(self) -> None:
        """Offer the best choice in which each size is bought in the tier of its base count."""
        if self._limit() <= 0:
            return
        search, kinds = self.search, list(self._departures())
        tier = search.tiers[self.filling][self.bases[self.filling].tier]
        filling = Filling(units=self.scale, first=tier.first, last=tier.last, over=self.price)
        found = least_reduced_cost(
            left=self.left,
            filling=filling,
            departures=[kind for _, kind in kinds],
            limit=self._limit(),
            budget=search.budget,
        )
        if found is None:
            return
        reduced_cost, departed, filled = found
        counts = [base.count for base in self.bases]
        counts[self.filling] = filled
        for (index, kind), count in zip(kinds, departed, strict=True):
            counts[index] += count if kind.units > 0 else -count
        search.offer((self.bound + reduced_cost) // self.scale, counts)

    def in_other_tiers(self) -> Iterator[list[Range]]:
        """The branches that may hold a better choice; each choice is in one of them only."""
        ranges = self.ranges
        order = [index for index, (low, high) in enumerate(ranges) if low < high]
        order.sort(key=lambda index: index == self.filling)
        for index in order:
            base, (low, high) = self.bases[index].tier, ranges[index]
            for part in ((low, base - 1), (base + 1, high)):
                if any(self._may_gain(index, tier) for tier in range(part[0], part[1] + 1)):
                    yield _with_range(ranges, index, part)
            ranges = _with_range(ranges, index, (base, base))

    def _may_gain(self, index: int, tier: int) -> bool:
        """Whether buying a size in this other tier may have a reduced cost below the limit."""
        slope, (first, last, _, _) = self._slope(index, tier), self.search.tiers[index][tier]
        if index != self.filling:
            return slope * (first if slope >= 0 else last) - self.bases[index].least < self._limit()
        return self._may_fill(slope, first, last)

    def _may_fill(self, slope: int, first: int, last: int) -> bool:
        """The same for the filling size, with all others in their base tiers."""
        limit, kinds = self._limit(), [kind for _, kind in self._departures()]
        rise = max((limit * kind.units // kind.reduced_cost for kind in kinds if kind.units > 0), default=0)
        fall = max((limit * -kind.units // kind.reduced_cost for kind in kinds if kind.units < 0), default=0)
        count = max(first, -((rise - self.left) // self.scale))
        over = max(0, count * self.scale - self.left - fall) if count == first else 0
        return count <= last and slope * count + self.price * over < limit


def _with_range(ranges: list[Range], index: int, part: Range) -> list[Range]:
    """The ranges, with another range for one size."""
    return [*ranges[:index], part, *ranges[index + 1 :]]
