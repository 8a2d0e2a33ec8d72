"""A job goes into a token and comes out the same, to the last digit."""

from dataclasses import is_dataclass
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import orjson
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.answers.quote.fingerprint import canonical
from gaugerake.exchange.packing import codec, pack, unpack
from gaugerake.floor.job import (
    Circle,
    Crew,
    Cutout,
    Daily,
    Drain,
    Job,
    Measured,
    Offer,
    Order,
    Readings,
    Rectangle,
    Room,
    RoundDrain,
    Steady,
    TemperatureReading,
    TrenchDrain,
    Work,
)

OFFSETS = st.none() | st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
PLAIN: dict[Any, st.SearchStrategy[Any]] = {
    int: st.integers(0, 10**6),
    float: st.floats(allow_nan=False, allow_infinity=False),
    str: st.text(max_size=8),
    Decimal: st.decimals(allow_nan=False, allow_infinity=False),
    datetime: st.tuples(st.datetimes(), OFFSETS).map(lambda parts: parts[0].replace(tzinfo=parts[1])),
}


@cache
def anything(hint: Any) -> st.SearchStrategy[Any]:
    """Values of a type hint of the job's, with every field that may be left out both given and not."""
    inner = get_args(hint)
    if get_origin(hint) in (Union, UnionType):
        return st.one_of(*map(anything, inner))
    if inner[1:] == (Ellipsis,):
        return st.lists(anything(inner[0]), max_size=2).map(tuple)
    if inner:
        return st.tuples(*map(anything, inner))
    if is_dataclass(hint) and isinstance(hint, type):
        return st.builds(hint, **{name: anything(of) for name, of in get_type_hints(hint).items()})
    return PLAIN.get(hint, st.from_type(hint))


def through_json(job: Any) -> Any:
    return unpack(type(job), orjson.loads(orjson.dumps(pack(job))))


@settings(max_examples=60, deadline=None)
@given(anything(Job))
def test_a_job_comes_out_as_it_went_in(job: Job) -> None:
    assert through_json(job) == job


@settings(max_examples=60, deadline=None)
@given(anything(Job))
def test_it_has_the_same_canonical_form_and_so_the_same_fingerprint(job: Job) -> None:
    assert canonical(through_json(job)) == canonical(job)


@settings(max_examples=30, deadline=None)
@given(anything(Order))
def test_money_keeps_the_digits_that_were_written(order: Order) -> None:
    back = through_json(order)
    assert [str(offer.price) for offer in back.offers] == [str(offer.price) for offer in order.offers]


@pytest.mark.parametrize("zone", [None, UTC, timezone(timedelta(hours=-6)), timezone(timedelta(minutes=345))])
def test_a_moment_keeps_its_offset_or_its_want_of_one(zone: timezone | None) -> None:
    start = datetime(2027, 3, 5, 6, 0, 1, 250000, tzinfo=zone)
    back = through_json(Work(start=start)).start
    assert (back, back.tzinfo) == (start, zone)


@pytest.mark.parametrize("shape", [Rectangle(length_m=2.0, width_m=2.0), Circle(diameter_m=2.0), Measured(area_m2=4)])
def test_a_shape_keeps_its_class(shape: Any) -> None:
    assert type(through_json(Cutout(shape=shape)).shape) is type(shape)


def test_drains_and_temperatures_keep_their_classes() -> None:
    round_one, trench = RoundDrain(diameter_m=0.2), TrenchDrain(length_m=6.0, width_m=0.15)
    assert through_json(Drain(shape=round_one)) == Drain(shape=round_one)
    assert through_json(Drain(shape=trench)) == Drain(shape=trench)
    reading = TemperatureReading(at=datetime(2027, 1, 1, tzinfo=UTC), temperature_k=290.0)
    for temperatures in (Steady(temperature_k=290.0), Daily(low_k=280.0, high_k=290.0), Readings(readings=(reading,))):
        assert through_json(Work(temperatures=temperatures)).temperatures == temperatures


def test_what_was_left_out_takes_no_room() -> None:
    job = Job(system="level", rooms=(Room(shape=Measured(area_m2=111.483648)),))
    assert pack(job) == {"system": "level", "rooms": [{"shape": {"Measured": {"area_m2": 111.483648}}}]}


def test_none_found_is_not_nothing_said() -> None:
    said, unsaid = Room(shape=Measured(area_m2=1.0), joints=()), Room(shape=Measured(area_m2=1.0))
    assert through_json(said).joints == ()
    assert through_json(unsaid).joints is None


def test_a_whole_number_for_a_float_stays_what_it_was() -> None:
    assert repr(through_json(Crew(minutes_per_mix=4.0))) == repr(Crew(minutes_per_mix=4.0))
    assert repr(through_json(Offer(sku="A", price=Decimal("45.00"), available=3))) == repr(
        Offer(sku="A", price=Decimal("45.00"), available=3)
    )


def test_what_has_no_packed_form_is_refused_when_the_codec_is_made() -> None:
    with pytest.raises(TypeError, match="has no packed form"):
        codec(dict[str, float])
    with pytest.raises(TypeError, match="complex has no packed form"):
        codec(complex)


@pytest.mark.parametrize(
    "plain",
    [{}, {"rooms": [], "system": "a", "colour": 1}, {"rooms": [{"shape": {"Oval": {}}}], "system": "a"}, [], None, 3],
)
def test_what_was_not_packed_from_a_job_is_not_unpacked(plain: Any) -> None:
    with pytest.raises((LookupError, TypeError, ValueError, AttributeError)):
        unpack(Job, plain)
