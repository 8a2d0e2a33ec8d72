"""The whole answer, of each system of the demonstration."""

from decimal import Decimal
from typing import Any

import jsonschema
import pytest
from tests import builders
from tests.answers.quantities.jobs import ROOM, answer
from tests.asked import Asked, quantities, take_off

from gaugerake.answers.quantities.answer import Quantities
from gaugerake.answers.quantities.order import order_of
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.reader import SI_READER, US_READER
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.floor.job import Cove, Crack, Job, Joint, Offer, Order, Rectangle, Room


def test_hazards_are_told_once_each_with_the_products_that_have_them() -> None:
    notes = answer()["notes"]
    assert notes["hazard-silica-dust"]["text"].startswith("Body, Sand:")
    assert notes["hazard-isocyanate"]["text"].startswith("Body:")


@pytest.mark.parametrize(
    "code", ["kits-never-split", "condition-materials", "condition-first", "store-above", "shelf-life"]
)
def test_how_the_products_are_kept_and_mixed_is_told_with_the_order(code: str) -> None:
    assert code in answer()["notes"]


# --- the whole answer --------------------------------------------------------------------------------------------

FULL = Room(
    shape=Rectangle(length_m=11, width_m=8),
    joints=(Joint(length_m=8, width_m=0.01, depth_m=0.012),),
    cracks=(Crack(length_m=5, width_m=0.01, depth_m=0.012),),
    cove=Cove(length_m=30, height_m=0.1),
)


def demo(system: str, *, working: bool = False, **said: Any) -> Asked:
    snapshot = demo_snapshot()
    job = Job(system=system, rooms=(FULL, ROOM), order=Order(**said))
    return builders.context(job, snapshot, working=working)


SYSTEMS = ["level-clear", "double-quartz", "trowelled-mortar"]


@pytest.mark.parametrize("reader", [US_READER, SI_READER], ids=["us", "si"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_answer_fits_its_own_description(system: str, reader: Any) -> None:
    describer = Describer()
    schema = describer.schema(Quantities)
    shown = render(quantities(demo(system)), reader)
    jsonschema.validate(shown, {**schema, "components": {"schemas": describer.components}})


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_same_job_gives_the_same_answer_every_time(system: str) -> None:
    assert len({repr(render(quantities(demo(system)), US_READER)) for _ in range(3)}) == 1


@pytest.mark.parametrize("system", SYSTEMS)
def test_lines_add_up_to_the_totals_to_the_cent(system: str) -> None:
    shown = quantities(demo(system, tax_percent=Decimal("7.7"), discount_percent=Decimal("3.3")))
    amounts = [line.amount for line in shown.order_lines]
    assert sum((amount for amount in amounts if amount is not None), Decimal(0)) == shown.totals.lines
    assert shown.totals.net == shown.totals.lines - shown.totals.discount + shown.totals.delivery
    assert shown.totals.gross == shown.totals.net + shown.totals.tax


@pytest.mark.parametrize("system", SYSTEMS)
def test_packs_and_stock_cover_what_is_ordered_of_each_product(system: str) -> None:
    context = demo(system)
    for one in order_of(context.resolved, context.shared(take_off)).products:
        assert one.held >= one.ordered * (1 - 1e-9)
        assert one.low <= one.likely <= one.high
        assert one.ordered >= one.low


def leaves(shown: Any, at: str = "") -> list[str]:
    """Where each figure of an answer stands; a measure is one figure."""
    if isinstance(shown, dict):
        if set(shown) == {"value", "unit"}:
            return [at]
        return [place for key, value in shown.items() for place in leaves(value, f"{at}/{key}")]
    if isinstance(shown, list):
        return [place for number, value in enumerate(shown) for place in leaves(value, f"{at}/{number}")]
    return [at] if isinstance(shown, int | float) and not isinstance(shown, bool) else []


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_figure_of_the_order_has_its_working(system: str) -> None:
    made = demo(system, working=True, delivery=Decimal(30))
    shown = render(quantities(made), US_READER)
    worked = {entry["figure"]: entry["result"] for entry in render(tuple(made.record.working or ()), US_READER)}
    order_part = {key: shown[key] for key in ("order_lines", "shortage", "shortage_any", "totals")}
    assert set(leaves(order_part)) <= set(worked)
    money = [f"/totals/{name}" for name in ("lines", "discount", "delivery", "net", "tax", "gross")]
    money += [f"/order_lines/{place}/amount" for place in range(len(shown["order_lines"]))]
    assert set(money) <= set(worked)
    for figure in (*leaves(order_part), *money):
        found: Any = shown
        for key in figure.split("/")[1:]:
            found = found[int(key)] if isinstance(found, list) else found[key]
        assert worked[figure] == found, figure


def test_a_price_that_came_with_the_job_is_not_said_to_be_the_books() -> None:
    offers = (Offer(sku="CC-1.5", price=Decimal("139.60")), Offer(sku="LB-1", available=40))
    made = demo("level-clear", working=True, offers=offers)
    lines = quantities(made).order_lines
    sources = {entry["figure"]: entry["source"] for entry in render(tuple(made.record.working or ()), US_READER)}
    offered, listed = (next(place for place, line in enumerate(lines) if line.sku == sku) for sku in ("CC-1.5", "LB-1"))
    assert sources[f"/order_lines/{offered}/unit_price"] == "the job's own offer"
    assert sources[f"/order_lines/{offered}/amount"] == "the job's own offer"
    assert sources[f"/order_lines/{offered}/packs"] == "price book list; the job's own offer"  # CC-7.5 is the book's
    assert sources[f"/order_lines/{listed}/unit_price"] == "price book list"
    assert sources[f"/order_lines/{listed}/packs"] == "price book list"


def test_working_is_only_made_when_it_is_asked_for() -> None:
    made = demo("level-clear")
    quantities(made)
    assert made.record.working is None
