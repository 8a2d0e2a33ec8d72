"""Aggregate cast to refusal, against a synthesis of highway practice.

NCHRP Synthesis 423, Long-Term Performance of Polymer Concrete for Bridge Decks (2011), p. 36: a two-layer overlay takes
10 lb/yd2 of aggregate on the first layer of binder and 14 lb/yd2 on the second.
"""

import pytest
from tests.asked import take_off
from tests.builders import aggregate, context, liquid, system, triple

from gaugerake.floor.job import Job, Measured, Order, Room
from gaugerake.floor.layers.aggregate import cast_mass, cleared_mass
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read

FIRST, SECOND = (read(text, Dimension.AREAL_MASS) for text in ("10 lb/yd2", "14 lb/yd2"))
YARD2 = read("1 yd2", Dimension.AREA)


def test_ten_pounds_a_square_yard_in_other_units() -> None:
    # computed from the definitions of the pound and the yard
    assert US.show(FIRST, "areal-mass")[0] == pytest.approx(1.1111, rel=1e-4)
    assert SI.show(FIRST, "areal-mass")[0] == pytest.approx(5.4249, rel=1e-5)


def test_a_deck_of_a_hundred_square_yards_takes_1000_and_1400_pounds() -> None:
    masses = [cast_mass(area_m2=100 * YARD2, rate_kg_m2=rate) for rate in (FIRST, SECOND)]
    assert [US.show(mass, "mass")[0] for mass in masses] == pytest.approx([1000, 1400])


def test_what_is_not_retained_is_cleared_away() -> None:
    # invented: three quarters of the first layer stay
    cleared = cleared_mass(area_m2=100 * YARD2, rate_kg_m2=FIRST, retained_kg_m2=0.75 * FIRST)
    assert US.show(cleared, "mass")[0] == pytest.approx(250)


def test_the_same_deck_as_a_job_with_a_tenth_of_waste() -> None:
    sand, binder, spread = aggregate(), liquid("binder"), triple(1000)
    layers = []
    for number, rate in enumerate((FIRST, SECOND), 1):
        layers += [
            CoatLayer(id=f"coat-{number}", name="Binder", product=binder, spreading_rate_m2_m3=spread),
            BroadcastLayer(id=f"broadcast-{number}", name="Cast", product=sand, rate_kg_m2=triple(rate)),
        ]
    deck = system(*layers, code="deck", reference_temperature_k=294.0)
    job = Job(system="deck", rooms=(Room(shape=Measured(area_m2=100 * YARD2)),), order=Order(waste_percent=10.0))
    needs = context(job, deck).shared(take_off).layers
    pounds = {need.layer.id: US.show(need.likely, "mass")[0] for need in needs if need.layer.product is sand}
    assert pounds == pytest.approx({"broadcast-1": 1100, "broadcast-2": 1540})
