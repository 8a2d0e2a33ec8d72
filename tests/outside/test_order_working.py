"""Every figure of an order, worked again from nothing but its own working.

The answer is read as JSON from another process, and nothing of ours is imported here: the rules below were written from
their words. A chance is found by drawing half a million jobs from the figures that its working gives, packs by trying
every count. What an answer shows has six digits, and so has what goes into it.
"""

import itertools
import json
import math
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

SCRIPT = """
import json, sys
from decimal import Decimal
from tests.asked import Asked
from tests.asked import quantities
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.floor.job import *
from gaugerake.answers.show.reader import SI_READER, US_READER

def answer(system, reader, room, **said):
    snapshot = demo_snapshot()
    job = Job(system=system, rooms=(room,), order=Order(**said))
    context = Asked(
        job=job, catalogue=snapshot.catalogue, revision="r", book=snapshot.list_book, with_working=True
    )
    found = render(quantities(context), reader)
    return {**found, "working": render(context.record.working, reader)}

groove = {"width_m": 0.01, "depth_m": 0.012}
hall = Room(
    shape=Rectangle(length_m=9.5, width_m=6.25),
    joints=(Joint(length_m=6, **groove),),
    cracks=(Crack(length_m=5, **groove),),
    cove=Cove(length_m=20, height_m=0.1),
)
money = {"tax_percent": Decimal("8.25"), "discount_percent": Decimal("2.5"), "delivery": Decimal("45.00")}
stock = {
    "on_hand": (OnHand(sku="NS-55", packs=2), OnHand(sku="CC-1.5", packs=1)),
    "offers": (Offer(sku="LB-24", price=Decimal("2400.00"), available=1), Offer(sku="LB-1", available=3)),
}
json.dump(
    {
        "level us": answer("level-clear", US_READER, hall, optional_layers=("primer",), **money),
        "level si, too little in stock": answer("level-clear", SI_READER, hall, confidence=0.97, **stock),
        "double us": answer("double-quartz", US_READER, hall, confidence=0.75),
        "mortar si": answer("trowelled-mortar", SI_READER, hall, waste_percent=8.0, **money),
    },
    sys.stdout,
)
"""
DRAWS = 500_000
CHANCE = 0.004  # five standard errors of that many draws, and the seventh digit of what goes in

Draws = NDArray[np.float64]
Inputs = dict[str, Any]


@cache
def answers() -> dict[str, Any]:
    run = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, check=True, text=True)
    found: dict[str, Any] = json.loads(run.stdout)
    return found


ORDER = re.compile(r"/(order_lines|shortage|shortage_any|totals)\b.*")
NAMES = ["level us", "level si, too little in stock", "double us", "mortar si"]


def entries(name: str) -> Iterator[dict[str, Any]]:
    for entry in answers()[name]["working"]:
        if ORDER.fullmatch(entry["figure"]):
            yield entry


def number(shown: Any) -> float:
    """A shown figure as it is shown: what goes into a rule is in units of one kind that fit each other."""
    return float(shown["value"] if isinstance(shown, dict) else shown)


# --- drawing jobs ------------------------------------------------------------------------------------------------


def drawn(inputs: Inputs, name: str, thickness: Draws, seed: int) -> Draws:
    """What each of the jobs takes of the product whose figures stand under ``name``."""
    chance = np.random.default_rng(seed)
    layers = sorted({match[1] for key in inputs if (match := re.match(rf"{name}(layer \d+) ", key))})
    one_yield: Draws | None = None
    total = np.zeros(DRAWS)
    for layer in layers:
        given = {
            key.removeprefix(f"{name}{layer} "): value
            for key, value in inputs.items()
            if key.startswith(f"{name}{layer} ")
        }
        need = number(given.get("by thickness", 0.0)) * thickness + number(given["else"])
        if "yield low" in given:
            one_yield = rolled(chance, given, "yield") if one_yield is None else one_yield
            need = need / one_yield
        elif "spreading rate low" in given:
            need = need / rolled(chance, given, "spreading rate")
        elif "rate low" in given:
            need = need * rolled(chance, given, "rate")
        if "smallest" in given:
            need = np.ceil(need / number(given["smallest"]) * (1 - 1e-9)) * number(given["smallest"])
        total += need
    return total


def rolled(chance: np.random.Generator, given: Inputs, name: str) -> Draws:
    low, likely, high = (number(given[f"{name} {end}"]) for end in ("low", "likely", "high"))
    return chance.triangular(low, likely, high, DRAWS) if low < high else np.full(DRAWS, likely)


def thicknesses(inputs: Inputs) -> Draws:
    """One factor a job; every product names the same standard deviation."""
    [sd] = {number(value) / 100 for key, value in inputs.items() if key.endswith("thickness sd")} or {0.0}
    z = np.random.default_rng(7).standard_normal(DRAWS)
    while (outside := np.abs(z) > 3).any():
        z[outside] = np.random.default_rng(8).standard_normal(int(outside.sum()))
    factor: Draws = 1 + sd * z
    return factor


NEEDS: dict[str, Draws] = {}


def needs_of(inputs: Inputs, name: str = "") -> Draws:
    """The draws of one product, made once; what is available is no part of them."""
    model = {
        key: value for key, value in inputs.items() if key not in ("available", "confidence", "uncertain products")
    }
    key = json.dumps([model, name], sort_keys=True)
    if key not in NEEDS:
        NEEDS[key] = drawn(model, name, thicknesses(model), seed=11)
    return NEEDS[key]


def short(inputs: Inputs) -> float:
    return float((needs_of(inputs) > number(inputs["available"]) * (1 + 1e-5)).mean())


def short_of_any(inputs: Inputs) -> float:
    thickness = thicknesses(inputs)
    enough = np.ones(DRAWS, dtype=bool)
    for place in sorted({int(key.split()[1]) for key in inputs}):
        name = f"product {place} "
        available = number(inputs[f"{name}available"]) * (1 + 1e-5)
        if f"{name}need" in inputs:
            enough &= number(inputs[f"{name}need"]) <= available
        else:
            enough &= drawn(inputs, name, thickness, seed=100 + place) <= available
    return float(1 - enough.mean())


# --- packs and money ---------------------------------------------------------------------------------------------


def offers(inputs: Inputs) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for key, value in inputs.items():
        if match := re.match(r"(pack \d+) (.+)", key):
            found.setdefault(match[1], {})[match[2]] = value
    return list(found.values())


def price_at(offer: dict[str, Any], count: int) -> Decimal:
    price = Decimal(offer["price"])
    for key, value in offer.items():
        if (match := re.fullmatch(r"price from (\d+)", key)) and count >= int(match[1]):
            price = Decimal(value)
    return price


def cheapest(inputs: Inputs) -> dict[str, int]:
    """Every count tried; what stock cannot cover takes all there is."""
    shelf = sorted(offers(inputs), key=lambda offer: offer["sku"])
    need = number(inputs["ordered"]) - number(inputs["on hand"])
    ranges = []
    for offer in shelf:
        most = max(
            [
                math.ceil(need / number(offer["contents"])) + 1,
                *(int(key.split()[-1]) for key in offer if " from " in key),
            ]
        )
        ranges.append(range(min(most, offer.get("in stock", most)) + 1))
    best: tuple[Any, tuple[int, ...]] | None = None
    for counts in itertools.product(*ranges):
        held = sum(count * number(offer["contents"]) for count, offer in zip(counts, shelf, strict=True))
        if held < need * (1 - 1e-5):
            continue
        cost = sum((price_at(offer, count) * count for count, offer in zip(counts, shelf, strict=True)), Decimal(0))
        key = (cost, sum(counts), round(held - need, 3), tuple(-count for count in counts))
        if best is None or key < best[0]:
            best = (key, counts)
    counts = best[1] if best else tuple(offer["in stock"] for offer in shelf)
    return {offer["sku"]: count for offer, count in zip(shelf, counts, strict=True)}


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)


def added(inputs: Inputs) -> Decimal:
    return sum((Decimal(value) for value in inputs.values()), Decimal(0))


def last_break(inputs: Inputs) -> Decimal:
    return price_at({key.removeprefix("pack "): value for key, value in inputs.items()}, inputs["packs"])


MONEY: dict[str, Callable[[Inputs], Decimal]] = {
    "rule-unit-price": last_break,
    "rule-amount": lambda given: cents(given["packs"] * Decimal(given["unit price"])),
    "rule-lines": added,
    "rule-percent": lambda given: cents(Decimal(given["lines"]) * Decimal(given["percent"]) / 100),
    "rule-money-stated": lambda given: cents(Decimal(given["stated"])),
    "rule-net": lambda given: Decimal(given["lines"]) - Decimal(given["discount"]) + Decimal(given["delivery"]),
    "rule-percent-of-net": lambda given: cents(Decimal(given["net"]) * Decimal(given["percent"]) / 100),
    "rule-gross": lambda given: Decimal(given["net"]) + Decimal(given["tax"]),
}


def product_need(given: Inputs) -> float:
    used = sum(number(value) for key, value in given.items() if key.endswith(" used"))
    return used + sum(
        number(value) * number(given[key.replace("for each mix", "mixes")])
        for key, value in given.items()
        if key.endswith(" for each mix")
    )


FIGURES: dict[str, Callable[[Inputs], float]] = {
    "rule-product-need": product_need,
    "rule-listed": lambda given: number(given["listed"]),
    "rule-left-over": lambda given: number(given["in packs"]) + number(given["on hand"]) - number(given["likely"]),
    "rule-line-weight": lambda given: given["packs"] * number(given["weight of one"]),
    "rule-weight": lambda given: math.fsum(map(number, given.values())),
    "rule-per-area": lambda given: float(cents(Decimal(given["net"]) / Decimal(str(given["area"]["value"])))),
    "rule-curve-packs": lambda given: given["ordered"] + given["more"],
    "rule-shortage-exact": lambda given: float(number(given["need"]) > number(given["available"]) * (1 + 1e-5)),
}
CHANCES: dict[str, Callable[[Inputs], float]] = {"rule-shortage": short, "rule-shortage-any": short_of_any}
ORDERED = re.compile(r"rule-ordered-(mix|liquid|mass|piece)")


def check(entry: dict[str, Any]) -> None:
    rule, given, result = entry["rule"], {one["name"]: one["value"] for one in entry["inputs"]}, entry["result"]
    if rule in MONEY:
        assert MONEY[rule](given) == Decimal(result), entry
    elif rule in FIGURES:
        largest = max([abs(number(value)) for value in given.values() if isinstance(value, dict | int | float)] + [1.0])
        assert FIGURES[rule](given) == pytest.approx(number(result), rel=2e-5, abs=1e-5 * largest), entry
    elif rule in CHANCES:
        assert CHANCES[rule](given) == pytest.approx(result, abs=CHANCE), entry
    elif ORDERED.fullmatch(rule):
        suffices(given, number(result))
    else:
        assert rule == "rule-packs", entry


def suffices(given: Inputs, ordered: float) -> None:
    """What is ordered is enough with the chance asked, and the next less is not."""
    each = given["confidence"] ** (1 / given["uncertain products"])
    needs = np.sort(needs_of(given))
    assert np.searchsorted(needs, ordered * (1 + 1e-5), side="right") / DRAWS > each - CHANCE
    assert np.searchsorted(needs, ordered * (1 - 1e-5), side="left") / DRAWS < each + CHANCE


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_of_the_order_follows_from_its_working(name: str) -> None:
    found = list(entries(name))
    assert len(found) > 100
    for entry in found:
        check(entry)


@pytest.mark.parametrize("name", NAMES)
def test_the_packs_of_every_line_are_the_best_that_its_working_offers(name: str) -> None:
    lines = answers()[name]["order_lines"]
    seen = 0
    for entry in entries(name):
        if entry["rule"] == "rule-packs":
            line = lines[int(entry["figure"].split("/")[2])]
            best = cheapest({one["name"]: one["value"] for one in entry["inputs"]})
            assert line["packs"] == entry["result"] == best[line["sku"]], entry
            seen += 1
    assert seen == len(lines)


def asked_of(name: str) -> dict[str, float]:
    """By the figure of each chance, what is available for it."""
    return {
        entry["figure"]: number(entry["inputs"][0]["value"])
        for entry in entries(name)
        if entry["rule"] in ("rule-shortage", "rule-shortage-exact")
    }


def ordered_of(name: str) -> Iterator[tuple[str, dict[str, Any], list[dict[str, Any]], Inputs]]:
    """Of each product that is ordered: where its chances stand, they, its lines, and what its packs are chosen from."""
    answer = answers()[name]
    choices = {entry["figure"]: entry["inputs"] for entry in entries(name) if entry["rule"] == "rule-packs"}
    for place, shortage in enumerate(answer["shortage"]):
        lines = [line for line in answer["order_lines"] if line["product"] == shortage["product"]]
        if lines:
            given = choices[f"/order_lines/{int(lines[0]['id']) - 1}/packs"]
            yield f"/shortage/{place}", shortage, lines, {one["name"]: one["value"] for one in given}


@pytest.mark.parametrize("name", NAMES)
def test_a_pack_more_or_fewer_is_one_of_the_smallest_ordered_as_far_as_stock_goes(name: str) -> None:
    available = asked_of(name)
    for at, shortage, lines, given in ordered_of(name):
        least = min(lines, key=lambda line: number(line["contents"]))
        held, contents = available[f"{at}/with_order"], number(least["contents"])
        packs = sum(line["packs"] for line in lines)
        assert available[f"{at}/with_one_pack_fewer"] == pytest.approx(held - contents, rel=2e-5, abs=1e-9)
        for place, point in enumerate(shortage["curve"]):
            amount = held + (point["packs"] - packs) * contents
            assert available[f"{at}/curve/{place}/probability"] == pytest.approx(amount, rel=2e-5, abs=1e-9)
        stock = next(offer.get("in stock", math.inf) for offer in offers(given) if offer["sku"] == least["sku"])
        assert least["packs"] + shortage["curve"][-1]["packs"] - packs <= stock


@pytest.mark.parametrize("name", NAMES)
def test_the_likely_need_is_covered_by_its_own_cheapest_packs_and_what_is_on_hand(name: str) -> None:
    available = asked_of(name)
    for at, _, lines, given in ordered_of(name):
        contents = {offer["sku"]: number(offer["contents"]) for offer in offers(given)}
        best = cheapest({**given, "ordered": lines[0]["need"]["likely"]})
        amount = sum(contents[sku] * packs for sku, packs in best.items()) + number(given["on hand"])
        assert available[f"{at}/with_likely_need"] == pytest.approx(amount, rel=2e-5)


def test_the_orders_have_smaller_packs_left_out_and_stock_that_ends() -> None:
    """Without them the two tests above could not fail."""
    found = [(lines, offers(given)) for name in NAMES for _, _, lines, given in ordered_of(name)]
    sold = [({line["sku"]: number(line["contents"]) for line in lines}, shelf) for lines, shelf in found]
    assert any(len(lines) > 1 for lines, _ in sold)
    assert any(number(offer["contents"]) < min(lines.values()) for lines, shelf in sold for offer in shelf)
    assert any("in stock" in offer and offer["sku"] in lines for lines, shelf in sold for offer in shelf)


@pytest.mark.parametrize("name", NAMES)
def test_results_are_the_figures_that_the_answer_shows(name: str) -> None:
    for entry in entries(name):
        found: Any = answers()[name]
        for key in entry["figure"].split("/")[1:]:
            found = found[int(key)] if isinstance(found, list) else found[key]
        assert found == entry["result"], entry


@pytest.mark.parametrize("name", NAMES)
def test_words_and_source_are_given_for_every_figure(name: str) -> None:
    assert all(len(entry["words"]) > 12 and entry["source"] for entry in entries(name))
