"""The cheapest whole packs that cover a need, in whole numbers.

A branch and bound over price tiers. Its relaxation lets packs be broken up (``marginal``): it names the marginal size
and the price of a unit. At that price each size has a reduced cost and a base count, the count of least reduced cost.
The best choice with every size in the tier of its base count is a group relaxation of the knapsack (``residue``). Where
prices are so alike that other tiers may gain, tables over all tiers (``tables``) give the best choice with the marginal
size in its tier; only its other tiers are branches then. Where limits forbid what the tables give, each choice with
some size in another tier is a branch, which is cut where its reduced cost alone exceeds the best so far.

References
----------
R. E. Gomory, On the relation between integer and noninteger solutions to linear programs, Proc. Natl. Acad. Sci. 53
(1965): the group relaxation; cited from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from operator import mul
from typing import NamedTuple

from gaugerake.floor.packs.marginal import Segment, lower_hull, marginal
from gaugerake.floor.packs.residue import LONGEST, CountBudget, least_reduced_cost
from gaugerake.floor.packs.size import Size, Tier, with_weights
from gaugerake.floor.packs.tables import Departure, Filling, Taken, unlimited
from gaugerake.floor.packs.trial import few, lightest

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
        """Cover the need by one size alone, with more packs than needed where a price break makes those cheaper.

        Beside other sizes such an excess never pays, so only the tiers up to the count that covers the need are kept.
        """
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


class _Start(NamedTuple):
    """The count of least reduced cost of a size in one tier, at the marginal price.

    There ``n`` packs cost ``slope · n``, reduced. The start of the least reduced cost is the base count of the size.
    """

    least: int  # slope · packs
    tier: int
    packs: int
    slope: int


class _Balance:
    """The reduced costs of all sizes in these tiers, at the unit price of one tier of the marginal size."""

    def __init__(self, search: PackSearch, ranges: list[Range], filling: int, tier: int) -> None:
        self.search, self.ranges, self.filling = search, ranges, filling
        self.price, self.scale = search.tiers[filling][tier].weight, search.units[filling]
        self.starts = [
            [_Start(0, tier, 0, 0)] if index == filling else self._starts(index) for index in range(len(search.units))
        ]
        self.bases = [starts[0] for starts in self.starts]
        self.bound = self.price * search.need + sum([base.least for base in self.bases])
        self.left: int = search.need - sum(map(mul, [base.packs for base in self.bases], search.units))

    def _starts(self, index: int) -> list[_Start]:
        """The start of each tier of a size, that of its base count first."""
        tiers, (low, high) = self.search.tiers[index], self.ranges[index]
        marginal_cost, found = self.price * self.search.units[index], []
        for place in range(low, high + 1):
            first, last, _, weight = tiers[place]
            slope = self.scale * weight - marginal_cost
            packs = first if slope >= 0 else last
            found.append(_Start(slope * packs, place, packs, slope))
        return sorted(found)

    def _limit(self) -> int:
        """The reduced cost at which a choice costs as much as the best so far."""
        return self.scale * self.search.weight - self.bound

    def _departures(self, starts: Sequence[Sequence[_Start]]) -> dict[int, list[Departure]]:
        """The departures from these starts whose reduced cost is below the limit, by the sizes that have any."""
        limit, found = self._limit(), {}
        for index, mine in enumerate(starts):
            base, units, tiers, ways = self.bases[index], self.search.units[index], self.search.tiers[index], []
            for start in mine:
                least, tier, packs, slope = start
                first, last, _, _ = tiers[tier]
                reduced_cost, jump_cost = abs(slope), least - base.least
                if jump_cost < limit and (start is not base or (first < last and reduced_cost < limit)):
                    ways.append(
                        Departure(
                            units=units if slope > 0 else -units,
                            reduced_cost=reduced_cost,
                            most=last - first,
                            jump_units=(packs - base.packs) * units,
                            jump_cost=jump_cost,
                        )
                    )
            if ways and index != self.filling:
                found[index] = ways
        return found

    def _filling(self) -> Filling:
        tier = self.search.tiers[self.filling][self.bases[self.filling].tier]
        return Filling(units=self.scale, first=tier.first, last=tier.last, over=self.price)

    def take_best_in_base_tiers(self) -> None:
        """Offer the best choice in which each size is bought in the tier of its base count."""
        if self._limit() <= 0:
            return
        departures = self._departures([[base] for base in self.bases])
        found = least_reduced_cost(
            left=self.left,
            filling=self._filling(),
            departures=[way for (way,) in departures.values()],
            limit=self._limit(),
            budget=self.search.budget,
        )
        if found is not None:
            reduced_cost, departed, filled = found
            self._offer(reduced_cost, departures, [(0, count) for count in departed], filled)

    def _take_best_in_all_tiers(self) -> bool:
        """Offer the best choice with the filling size in this tier, by tables; False where limits forbid theirs."""
        if self.scale > LONGEST:
            return False
        departures, filling = self._fitting(self._departures(self.starts)), self._filling()
        reduced_cost, taken, filled = unlimited(left=self.left, filling=filling, sizes=list(departures.values()))
        if filled is not None:
            self._offer(reduced_cost, departures, taken, filled)
        return filled is not None or reduced_cost >= self._limit()

    def _fitting(self, departures: dict[int, list[Departure]]) -> dict[int, list[Departure]]:
        """Those after which the filling size can still be within its tier, at what may be spent."""
        filling, (rise, fall) = self._filling(), self._reach(departures)
        low = filling.first * self.scale - max(fall, self._limit() // self.price)  # units over the need may be bought
        high = filling.last * self.scale + rise
        found = {
            index: [way for way in ways if low <= self.left - way.jump_units <= high]
            for index, ways in departures.items()
        }
        return {index: ways for index, ways in found.items() if ways}

    def _offer(
        self, reduced_cost: int, departures: dict[int, list[Departure]], taken: Sequence[Taken], filled: int
    ) -> None:
        counts = [base.packs for base in self.bases]
        counts[self.filling] = filled
        for (index, ways), one in zip(departures.items(), taken, strict=True):
            if one is not None:
                way, count = ways[one[0]], one[1]
                counts[index] += (way.jump_units + count * way.units) // self.search.units[index]
        self.search.offer((self.bound + reduced_cost) // self.scale, counts)

    def in_other_tiers(self) -> Iterator[list[Range]]:
        """The branches that may hold a better choice; each choice is in one of them only.

        For one other tier a branch is as fast as tables over all tiers.
        """
        ranges = list(self.ranges)
        others = [index for index, (low, high) in enumerate(ranges) if low < high and index != self.filling]
        if sum([len(self._gaining(index)) for index in others]) > 1 and self._take_best_in_all_tiers():
            others = []
        for index in others:
            base = self.bases[index].tier
            for first, last in _beside(base, ranges[index]):
                if any(first <= tier <= last for tier in self._gaining(index)):
                    yield _with_range(ranges, index, (first, last))
            ranges[index] = base, base
        if ranges[self.filling][0] < ranges[self.filling][1]:
            yield from self._filled_elsewhere(ranges)

    def _gaining(self, index: int) -> list[int]:
        """The other tiers of a size in which buying it may have a reduced cost below the limit."""
        limit = self._limit() + self.bases[index].least
        return [start.tier for start in self.starts[index][1:] if start.least < limit]

    def _filled_elsewhere(self, ranges: list[Range]) -> Iterator[list[Range]]:
        """The branches with the filling size in another tier, and the others in these ranges."""
        starts = [
            [start for start in mine if low <= start.tier <= high]
            for mine, (low, high) in zip(self.starts, ranges, strict=True)
        ]
        rise, fall = self._reach(self._departures(starts))
        for first, last in _beside(self.bases[self.filling].tier, ranges[self.filling]):
            if any(self._may_fill(tier, rise, fall) for tier in range(first, last + 1)):
                yield _with_range(ranges, self.filling, (first, last))

    def _reach(self, departures: dict[int, list[Departure]]) -> tuple[int, int]:
        """By how many units departures below the limit may lower and raise what is left to the filling size."""
        limit, ways = self._limit(), [way for mine in departures.values() for way in mine]
        moves = [(way.units, way.reduced_cost) for way in ways] + [(way.jump_units, way.jump_cost) for way in ways]
        rise = max([limit * units // reduced_cost for units, reduced_cost in moves if units > 0], default=0)
        fall = max([limit * -units // reduced_cost for units, reduced_cost in moves if units < 0], default=0)
        return rise, fall

    def _may_fill(self, tier: int, rise: int, fall: int) -> bool:
        """Whether the filling size, in a tier, may cost less than the limit.

        The other sizes may cover up to ``rise`` units more than their base counts do, or ``fall`` units less.
        """
        first, last, _, weight = self.search.tiers[self.filling][tier]
        count = max(first, -((rise - self.left) // self.scale))
        over = max(0, count * self.scale - self.left - fall) if count == first else 0
        return count <= last and (weight - self.price) * self.scale * count + self.price * over < self._limit()


def _beside(tier: int, part: Range) -> list[Range]:
    """The tiers of a range below this one and above it, if there are any.

    >>> _beside(0, (0, 2)), _beside(1, (0, 2))
    ([(1, 2)], [(0, 0), (2, 2)])
    """
    low, high = part
    return [(first, last) for first, last in ((low, tier - 1), (tier + 1, high)) if first <= last]


def _with_range(ranges: list[Range], index: int, part: Range) -> list[Range]:
    """The ranges, with another range for one size."""
    return [*ranges[:index], part, *ranges[index + 1 :]]
