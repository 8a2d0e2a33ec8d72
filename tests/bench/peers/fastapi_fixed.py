"""The typed peer: FastAPI with pydantic validates the same job and answers with a fixed dictionary of the same size.

As its documentation would have it for speed: the models forbid what they do not know and are built at import, the view
is a coroutine, and the answer goes through orjson in a response class of its own, past the general encoder. It reads
no measure and computes nothing; measures are texts to it. ``/v1/usual`` is the same as whoever begins would write it:
the view returns the dictionary, and FastAPI's own encoder makes the answer.
"""

import os
from pathlib import Path
from typing import Annotated, Any, Literal

import orjson
from fastapi import FastAPI
from fastapi.responses import JSONResponse
from pydantic import BaseModel, ConfigDict, Field

ANSWER: dict[str, Any] = orjson.loads(Path(os.environ["BENCH_ANSWER"]).read_bytes())

Text = Annotated[str, Field(min_length=1, max_length=80)]
Measure = Annotated[str, Field(min_length=1, max_length=32)] | dict[str, Any]
Percent = Annotated[float, Field(ge=0, le=100)]
Place = Annotated[list[Measure], Field(min_length=2, max_length=2)]
Number2 = Annotated[list[float], Field(min_length=2, max_length=2)]


class Strict(BaseModel):
    """No field that is not known."""

    model_config = ConfigDict(extra="forbid")


class Rectangle(Strict):
    """A rectangle."""

    length: Measure
    width: Measure


class Polygon(Strict):
    """A polygon."""

    points: Annotated[list[Number2], Field(min_length=3, max_length=101)]
    unit: Text


class Circle(Strict):
    """A circle."""

    diameter: Measure


class Measured(Strict):
    """An area."""

    area: Measure
    perimeter: Measure | None = None


class Shape(Strict):
    """One of its fields."""

    rectangle: Rectangle | None = None
    polygon: Polygon | None = None
    circle: Circle | None = None
    measured: Measured | None = None


class Cutout(Shape):
    """Floor left out."""

    at: Place | None = None
    count: Annotated[int, Field(ge=1, le=1000)] = 1


class Drain(Strict):
    """Drains."""

    round: Circle | None = None
    trench: Rectangle | None = None
    at: Place | None = None
    count: Annotated[int, Field(ge=1, le=1000)] = 1


class Joint(Strict):
    """A joint."""

    length: Measure | None = None
    line: Annotated[list[Place], Field(min_length=2, max_length=2)] | None = None
    kind: Literal["moving", "contraction"] | None = None
    width: Measure | None = None
    depth: Measure | None = None


class Termination(Strict):
    """A stop."""

    length: Measure


class Crack(Strict):
    """A crack."""

    length: Measure
    width: Measure
    depth: Measure


class Spall(Strict):
    """A patch."""

    area: Measure
    depth: Measure


class Cove(Strict):
    """Cove."""

    length: Measure
    height: Measure


class Room(Strict):
    """A room."""

    name: Text | None = None
    shape: Shape
    cutouts: list[Cutout] = []
    drains: list[Drain] = []
    joints: list[Joint] | None = None
    terminations: list[Termination] = []
    cracks: list[Crack] = []
    spalls: list[Spall] = []
    cove: Cove | None = None
    slope_percent: Percent | None = None
    thickness: Measure | None = None
    profile_csp: Annotated[int, Field(ge=1, le=10)] | None = None


class Dish(Strict):
    """A dish."""

    gain: Measure
    hours: float
    area: Measure


class Probe(Strict):
    """A probe."""

    percent: Percent
    depth: Measure | None = None


class Pull(Strict):
    """A pull."""

    strength: Measure
    failure: Text | None = None


class Slab(Strict):
    """The slab."""

    substrate: Text | None = None
    age: Measure | None = None
    poured: Text | None = None
    compressive_strength: Measure | None = None
    profile_csp: int | None = None
    thickness: Measure | None = None
    dries_from: Text | None = None
    moisture_emission: list[str | Dish] = []
    relative_humidity: list[Probe] = []
    pull_off: list[str | Pull] = []
    ph: float | None = None
    absorbs_water: bool | None = None
    damp: bool | None = None
    contaminants: list[Text] | None = None
    temperature: Measure | None = None


class Air(Strict):
    """The air."""

    temperature: Measure | None = None
    humidity_percent: Percent | None = None


class Daily(Strict):
    """A wave."""

    low: Measure
    high: Measure
    coldest_at: Text | None = None


class Reading(Strict):
    """A reading."""

    at: Text
    temperature: Measure


class Temperatures(Strict):
    """One of its fields."""

    steady: Measure | None = None
    daily: Daily | None = None
    readings: list[Reading] | None = None


class Shift(Strict):
    """A shift."""

    days: list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]]
    from_: Annotated[str, Field(alias="from")]
    to: str


class Crew(Strict):
    """The crew."""

    mixing_stations: Annotated[int, Field(ge=1, le=50)] | None = None
    minutes_per_mix: float | None = None
    placing_rate: Measure | None = None
    lane_depth: Measure | None = None
    lane_width: Measure | None = None
    coating_rate: Measure | None = None
    clearing_rate: Measure | None = None


class Work(Strict):
    """The work."""

    start: Text | None = None
    zone: Text | None = None
    temperatures: Temperatures | None = None
    material_temperature: Measure | None = None
    shifts: list[Shift] | None = None
    round_the_clock: bool | None = None
    closed: list[Text] = []
    crew: Crew | None = None
    preparation: Measure | None = None
    reopen_by: Text | None = None
    traffic: Text | None = None


class OnHand(Strict):
    """Packs."""

    sku: Text
    packs: Annotated[int, Field(ge=0, le=100_000)]


class Offer(Strict):
    """A price."""

    sku: Text
    price: Text | None = None
    available: int | None = None


class Order(Strict):
    """The order."""

    waste_percent: Percent | None = None
    confidence: Annotated[float, Field(ge=0.5, le=0.999)] | None = None
    optional_layers: list[Text] = []
    colour: Text | None = None
    tax_percent: Percent | None = None
    discount_percent: Percent | None = None
    delivery: Text | None = None
    on_hand: list[OnHand] = []
    offers: list[Offer] = []
    reference: Text | None = None
    issued: Text | None = None
    price_book: Text | None = None


class Job(Strict):
    """The job."""

    system: Text
    rooms: Annotated[list[Room], Field(min_length=1, max_length=2000)]
    thickness: Measure | None = None
    slab: Slab | None = None
    air: Air | None = None
    work: Work | None = None
    order: Order | None = None


class Fast(JSONResponse):
    """JSON by orjson."""

    def render(self, content: Any) -> bytes:
        """The bytes."""
        return orjson.dumps(content)


app = FastAPI(openapi_url=None)


@app.post("/v1/quotes", response_class=Fast, response_model=None)
async def quote(job: Job) -> Fast:
    """The same dictionary to everyone."""
    return Fast(ANSWER)


@app.post("/v1/usual")
async def usual(job: Job):  # type: ignore[no-untyped-def]  # the type of an answer would have it validated too
    """The same dictionary to everyone, by the general encoder."""
    return ANSWER
