"""One order, worked by hand: the quantile, the packs, the chances and the money, with the intermediates.

1200 ft2 at 1/4 in, one coat, 5 % waste. A mix covers 40 to 45 ft2 at 1/8 in, a gallon of the coat 200 to 250 ft2:
common practice, no source. Likely figures are taken in the middle, prices are made up for this sum.

    body   a mix makes 40/96 = 0.416667 to 45/96 = 0.468750, likely 0.442708 ft3
           1200 x 1/48 x 1.05 = 26.25 ft3: 56 to 63 mixes, likely 26.25 / 0.442708 = 59.29, so 60
    coat   1200 x 1.05 / 225 = 5.6 gal, 5.04 to 6.3 gal

The whole order is asked to suffice with 0.81. Two products are uncertain, so each must with the square root, 0.9. A
symmetric triangle from 0 to 1 has 2u2 below u: 0.1 lies below u = 0.223607.

    body   0.416667 + 0.052083 x 0.223607 = 0.428313 ft3, 26.25 / 0.428313 = 61.29: 62 mixes
    coat   200 + 50 x 0.223607 = 211.180 ft2/gal, 1260 / 211.180 = 5.96646 gal: 6 gal in packs of 5 and 1

Chances of running short:

    62 mixes   26.25 / 62 = 0.423387, u = 0.129032, 2u2 = 0.033299
    61 mixes   26.25 / 61 = 0.430328, u = 0.262295, 2u2 = 0.137597
    60 mixes   26.25 / 60 = 0.437500, u = 0.4,      2u2 = 0.32      (what covers the likely need)
    6 gal      1260 / 6   = 210,      u = 0.2,      2u2 = 0.08
    any        1 - (1 - 0.033299) x (1 - 0.08) = 0.110635
"""

from decimal import Decimal

import pytest
from tests.asked import Asked, quantities
from tests.builders import FT, FT2, FT3, GALLON, INCH, POUND, catalogue, liquid, mixes, system, triple

from gaugerake.answers.quantities.answer import Quantities
from gaugerake.floor.job import Job, Measured, Order, Rectangle, Room
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.product import Break, Pack, Price, PriceBook
from gaugerake.floor.system import Thickness


def pack(sku: str, contents: float, weight_lb: float) -> Pack:
    return Pack(
        sku=sku,
        contents=contents,
        contents_text="",
        unit_code="KT",
        description=sku,
        weight_kg=weight_lb * POUND,
    )


BODY = mixes(
    yield_m3=triple(40 / 96 * FT3, 42.5 / 96 * FT3, 45 / 96 * FT3),
    packs=(pack("B-1", 1, 55),),
)
COAT = liquid("coat", packs=(pack("C-5", 5 * GALLON, 48), pack("C-1", GALLON, 10)))
RATE = triple(200 * FT2 / GALLON, 225 * FT2 / GALLON, 250 * FT2 / GALLON)
QUARTER = Thickness(low_m=INCH / 8, usual_m=INCH / 4, high_m=INCH / 2)
FLOOR = system(
    BodyLayer(id="body", name="Body", product=BODY),
    CoatLayer(id="coat", name="Coat", product=COAT, spreading_rate_m2_m3=RATE),
    code="floor",
    reference_temperature_k=295.0,
    thickness=QUARTER,
    thickness_sd_fraction=0.0,
)
CATALOGUE = catalogue(FLOOR, products={"body": BODY, "coat": COAT})
BOOK = PriceBook(
    code="list",
    currency="USD",
    prices={
        "B-1": Price(price=Decimal("95.00"), breaks=(Break(from_count=50, price=Decimal("90.00")),)),
        "C-5": Price(price=Decimal("310.00")),
        "C-1": Price(price=Decimal("75.00")),
    },
)


def ordered(room: Room) -> Quantities:
    said = Order(
        confidence=0.81,
        discount_percent=Decimal(3),
        delivery=Decimal("120.00"),
        tax_percent=Decimal("6.5"),
    )
    job = Job(system="floor", rooms=(room,), order=said)
    return quantities(Asked(job=job, catalogue=CATALOGUE, revision="r", book=BOOK))


@pytest.fixture(scope="module", params=["known by its area", "a rectangle"])
def answer(request: pytest.FixtureRequest) -> Quantities:
    shape = Measured(area_m2=1200 * FT2) if "area" in request.param else Rectangle(length_m=40 * FT, width_m=30 * FT)
    return ordered(Room(shape=shape, joints=()))


def test_needs_and_what_is_ordered(answer: Quantities) -> None:
    body, coat, _ = answer.order_lines
    assert body.need is not None
    assert [figure.value for figure in (body.need.low, body.need.likely, body.need.high)] == [56.0, 60.0, 63.0]
    assert body.need.ordered.value == 62.0
    assert coat.need is not None
    gallons = [figure.value / GALLON for figure in (coat.need.low, coat.need.likely, coat.need.high)]
    assert gallons == pytest.approx([5.04, 5.6, 6.3], rel=1e-9)
    assert coat.need.ordered.value / GALLON == pytest.approx(5.96646, abs=1e-4)


def test_packs_and_what_is_left_over(answer: Quantities) -> None:
    """Five and one gallon at 385.00 against six of one at 450.00 and two of five at 620.00."""
    assert [(line.sku, line.packs) for line in answer.order_lines] == [("B-1", 62), ("C-5", 1), ("C-1", 1)]
    body, coat, _ = answer.order_lines
    assert body.left_over is not None
    assert body.left_over.value == 2.0
    assert coat.left_over is not None
    assert coat.left_over.value / GALLON == pytest.approx(0.4, abs=1e-9)


def test_the_chances_of_running_short(answer: Quantities) -> None:
    body, coat = answer.shortage
    assert body.with_order == pytest.approx(0.033299, abs=1e-6)
    assert body.with_one_pack_fewer == pytest.approx(0.137597, abs=1e-6)
    assert body.with_likely_need == pytest.approx(0.32, abs=1e-6)
    assert (coat.with_order, coat.with_likely_need) == (0.08, 0.08)
    assert coat.with_one_pack_fewer == 1.0  # 5 gal would need 252 ft2/gal
    assert answer.shortage_any == pytest.approx(0.110635, abs=1e-6)


def test_money(answer: Quantities) -> None:
    """62 x 90.00 = 5580.00; 310.00; 75.00. 3 % of 5965.00 is 178.95. 6.5 % of 5906.05 is 383.89325."""
    assert [str(line.amount) for line in answer.order_lines] == ["5580.00", "310.00", "75.00"]
    totals = answer.totals
    assert [str(money) for money in (totals.lines, totals.discount, totals.delivery, totals.net)] == [
        "5965.00",
        "178.95",
        "120.00",
        "5906.05",
    ]
    assert [str(money) for money in (totals.tax, totals.gross)] == ["383.89", "6289.94"]
    assert float(totals.per_area.amount_m2) * FT2 == pytest.approx(5906.05 / 1200, rel=1e-9)


def test_weight(answer: Quantities) -> None:
    assert answer.totals.weight.value / POUND == pytest.approx(62 * 55 + 48 + 10, rel=1e-12)
