"""The parts of the search for packs, each against trying everything."""

import itertools
import random

import pytest

from gaugerake.floor.packs.marginal import lower_hull
from gaugerake.floor.packs.residue import CountBudget, least_reduced_cost
from gaugerake.floor.packs.size import Size, Tier, with_weights
from gaugerake.floor.packs.tables import Departure, Filling, unlimited


def test_what_is_left_is_filled_as_trying_every_count_fills_it() -> None:
    chance = random.Random(4)
    for _ in range(200):
        filling = Filling(
            units=chance.randint(2, 12),
            first=chance.randint(0, 4),
            last=chance.randint(5, 9),
            over=chance.randint(1, 9),
        )
        kinds = [
            Departure(
                units=chance.choice([-7, -3, -1, 1, 4, 5]),
                reduced_cost=chance.randint(1, 30),
                most=chance.randint(1, 5),
            )
            for _ in range(3)
        ]
        left, limit = chance.randint(1, 120), chance.randint(1, 150)
        costs = []
        for counts in itertools.product(*(range(kind.most + 1) for kind in kinds)):
            rest = left - sum(count * kind.units for count, kind in zip(counts, kinds, strict=True))
            paid = sum(count * kind.reduced_cost for count, kind in zip(counts, kinds, strict=True))
            costs += [
                paid + (packs * filling.units - rest) * filling.over
                for packs in range(filling.first, filling.last + 1)
                if packs * filling.units >= rest
            ]
        least = min(costs, default=limit)
        found = least_reduced_cost(
            left=left, filling=filling, departures=kinds, limit=limit, budget=CountBudget(10_000)
        )
        assert (limit if found is None else found[0]) == min(least, limit)
        if found is not None:
            reduced_cost, moved, packs = found
            rest = left - sum(count * kind.units for count, kind in zip(moved, kinds, strict=True))
            over = packs * filling.units - rest
            assert over >= 0
            assert filling.first <= packs <= filling.last
            assert all(0 <= count <= kind.most for count, kind in zip(moved, kinds, strict=True))
            assert reduced_cost == over * filling.over + sum(
                count * kind.reduced_cost for count, kind in zip(moved, kinds, strict=True)
            )


def test_a_table_over_all_tiers_gives_what_trying_every_tier_and_count_gives() -> None:
    """Without limits: each of two sizes in one of three tiers, or in its base count, and as often as residues are."""
    chance = random.Random(7)
    for _ in range(60):
        filling = Filling(units=chance.randint(2, 11), first=0, last=10**6, over=chance.randint(1, 9))
        sizes = [
            [
                Departure(units=units, reduced_cost=chance.randint(1, 6), most=99, jump_units=jump, jump_cost=cost)
                for jump, cost in ((0, 0), (chance.randint(1, 90), chance.randint(1, 20)), (-7, chance.randint(1, 20)))
            ]
            for units in (chance.choice([-5, -2, 1, 3]), chance.choice([-3, 2, 4]))
        ]
        left = chance.randint(500, 900)

        def moved(way: Departure, count: int) -> tuple[int, int]:
            return way.jump_units + count * way.units, way.jump_cost + count * way.reduced_cost

        each = [[moved(way, count) for way in ways for count in range(filling.units)] for ways in sizes]
        least = min(
            one[1] + two[1] + -(left - one[0] - two[0]) % filling.units * filling.over
            for one, two in itertools.product(*each)
        )
        reduced_cost, taken, packs = unlimited(left=left, filling=filling, sizes=sizes)
        assert reduced_cost == least
        assert packs is not None
        choice = [
            (0, 0) if one is None else moved(ways[one[0]], one[1]) for ways, one in zip(sizes, taken, strict=True)
        ]
        over = packs * filling.units + sum(units for units, _ in choice) - left
        assert 0 <= over < filling.units
        assert sum(cost for _, cost in choice) + over * filling.over == least


def test_a_choice_that_limits_forbid_has_no_packs_to_fill() -> None:
    """17 units: singles at 4 each, two of them and three fives for 8; a fourth five would cost 3 units over, 30."""
    spare, scarce = (Departure(units=1, reduced_cost=4, most=most) for most in (2, 1))
    for first, last, single, packs in (
        (0, 9, spare, 3),
        (0, 9, scarce, None),
        (4, 9, spare, None),
        (0, 2, spare, None),
    ):
        filling = Filling(units=5, first=first, last=last, over=10)
        assert unlimited(left=17, filling=filling, sizes=[[single]]) == (8, ((0, 2),), packs)


@pytest.mark.parametrize("seed", range(20))
def test_a_hull_lies_under_every_count_and_touches_its_ends(seed: int) -> None:
    chance = random.Random(seed)
    starts = [0, *sorted(chance.sample(range(1, 30), 2)), 40]
    tiers = [
        Tier(first, end - 1, price, 0)
        for first, end, price in zip(starts, starts[1:], chance.sample(range(50, 99), 3), strict=False)
    ]
    hull = lower_hull(index=0, units=1, tiers=tiers)
    costs = {count: tier.price * count for tier in tiers for count in range(tier.first, tier.last + 1)}
    assert (hull[0].start, hull[-1].stop) == (0, 39)
    assert [segment.slope for segment in hull] == sorted(segment.slope for segment in hull)
    for segment in hull:
        for count in range(segment.start, segment.stop + 1):
            assert costs[segment.start] + segment.slope * (count - segment.start) <= costs[count] + 1e-9


def test_a_choice_that_weighs_less_is_the_better_one() -> None:
    """Cost before packs, packs before what is over, that before the first sku: every pair of 4^3 choices."""
    sizes = [Size(units=units, tiers=((0, 9, price),)) for units, price in ((2, 20), (4, 40), (5, 40))]
    tiers = with_weights(sizes)
    choices = list(itertools.product(range(4), repeat=3))

    def rank(counts: tuple[int, ...]) -> tuple[int, int, int, tuple[int, ...]]:
        held = sum(size.units * count for size, count in zip(sizes, counts, strict=True))
        cost = sum(size.cost(count) for size, count in zip(sizes, counts, strict=True))
        return cost, sum(counts), held, tuple(-count for count in counts)

    def weight(counts: tuple[int, ...]) -> int:
        return sum(tier.weight * count for (tier,), count in zip(tiers, counts, strict=True))

    assert sorted(choices, key=weight) == sorted(choices, key=rank)
    assert len(set(map(weight, choices))) == len(choices)
