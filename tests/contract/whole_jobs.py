"""Strategies of Hypothesis that draw whole, sound job documents for any catalogue, and `written`, which writes them.

A drawn job is a document with a `Measure` wherever text with a unit would stand; `written` fills these in, in US or SI
units. Things in a room are placed on a grid of metres, each in a cell of its own, and joints run along the grid.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from gaugerake.floor.crew.tasks import Task
from gaugerake.floor.system import Catalogue, System

# (US unit, SI unit, factor, offset): a figure is drawn in the US unit, and SI = US × factor + offset
INCH = ("in", "m", Fraction(254, 10_000), Fraction(0))
FEET = ("ft", "m", Fraction(3048, 10_000), Fraction(0))
AREA = ("ft2", "m2", Fraction(3048, 10_000) ** 2, Fraction(0))
PRESSURE = ("psi", "Pa", Fraction(45_359_237 * 980_665, 10**13) / Fraction(254, 10_000) ** 2, Fraction(0))
HEAT = ("degF", "degC", Fraction(5, 9), Fraction(-160, 9))
HOURS = ("h", "min", Fraction(60), Fraction(0))
DAYS = ("d", "h", Fraction(24), Fraction(0))
SPEED = ("ft2/h", "m2/h", Fraction(3048, 10_000) ** 2, Fraction(0))
PACE = ("ft/h", "m/h", Fraction(3048, 10_000), Fraction(0))
LOAD = ("lb/h", "kg/h", Fraction(45_359_237, 10**8), Fraction(0))
GRAMS = ("g", "kg", Fraction(1, 1000), Fraction(0))
DISH = ("in2", "m2", Fraction(254, 10_000) ** 2, Fraction(0))
EMISSION = ("lb/1000ft2/24h", "g/m2/24h", Fraction(45_359_237, 10**8) / Fraction(3048, 10_000) ** 2, Fraction(0))


@dataclass(frozen=True)
class Measure:
    """A figure in the US unit of its ``kind``, one of the rows above."""

    figure: Fraction
    kind: tuple[str, str, Fraction, Fraction]


def written(document: Any, *, si: bool = False) -> Any:
    """The document with its measures as text, exact to more digits than are read."""
    if isinstance(document, Measure):
        us_unit, si_unit, factor, offset = document.kind
        figure = document.figure * factor + offset if si else document.figure
        return f"{_decimal(figure)} {si_unit if si else us_unit}"
    if isinstance(document, dict):
        return {key: written(value, si=si) for key, value in document.items()}
    if isinstance(document, list):
        return [written(value, si=si) for value in document]
    return document


def _decimal(figure: Fraction) -> str:
    """At least 15 digits of a fraction, without an exponent."""
    places = 18 - len(str(abs(int(figure))))
    scaled = round(figure * 10**places)
    digits = str(abs(scaled)).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".")
    return ("-" if scaled < 0 else "") + text


def measures(kind: Any, low: int, high: int, *, parts: int = 1) -> st.SearchStrategy[Measure]:
    """Figures from ``low`` to ``high``, a whole number of ``parts`` of one."""
    return st.integers(low * parts, high * parts).map(lambda count: Measure(Fraction(count, parts), kind))


def fields(needed: dict[str, Any], **optional: Any) -> st.SearchStrategy[dict[str, Any]]:
    """Objects with all needed fields and any of the optional ones."""
    return st.fixed_dictionaries(needed, optional=optional)


FILLED = st.integers(1, 64).map(lambda sixteenths: Measure(Fraction(sixteenths, 16), INCH))
RUN = measures(FEET, 1, 90, parts=12)
TIMES = st.builds(lambda hour, minute: f"{hour:02d}:{minute:02d}", st.integers(0, 23), st.sampled_from([0, 15, 30, 45]))
MONEY = st.integers(1, 99_999).map(lambda cents: f"{cents / 100:.2f}")
MOSTLY = st.sampled_from([True, True, True, False])
DATES = st.dates(date(2026, 1, 1), date(2031, 12, 31))
WARMTH = measures(HEAT, 44, 92)
# none of them changes its clocks between 04:00 and midnight
ZONES = ["UTC", "America/Chicago", "Europe/Berlin", "Asia/Kolkata", "Australia/Adelaide", "Asia/Kathmandu"]


def _feet(metres: float) -> Measure:
    return Measure(Fraction(metres).limit_denominator(1000) / FEET[2], FEET)


def _at(x: float, y: float) -> list[Measure]:
    return [_feet(x), _feet(y)]


SMALL_SHAPES = st.one_of(
    st.builds(lambda a, b: {"rectangle": {"length": _feet(a / 10), "width": _feet(b / 10)}},
              st.integers(1, 9), st.integers(1, 9)),
    st.builds(lambda a: {"circle": {"diameter": _feet(a / 10)}}, st.integers(1, 9)),
    st.builds(lambda a: {"polygon": {"points": [[0, 0], [a, 0], [0, a]], "unit": "mm"}}, st.integers(50, 900)),
)  # fmt: skip
SMALL_DRAINS = st.one_of(
    st.builds(lambda a: {"round": {"diameter": _feet(a / 100)}}, st.integers(5, 60)),
    st.builds(lambda a, b: {"trench": {"length": _feet(a / 10), "width": _feet(b / 100)}},
              st.integers(2, 9), st.integers(5, 40)),
)  # fmt: skip


@st.composite
def outlines(draw: st.DrawFn) -> tuple[dict[str, Any], tuple[int, int, int, int]]:
    """A shape, and the grid of metres (left, low, right, high) in it on which things may be placed."""
    kind = draw(st.sampled_from(["rectangle", "ell", "circle", "star", "measured"]))
    if kind == "rectangle":
        width, height = draw(st.integers(2, 40)), draw(st.integers(2, 40))
        return {"rectangle": {"length": _feet(width), "width": _feet(height)}}, (0, 0, width, height)
    if kind == "ell":
        left, low = draw(st.integers(2, 15)), draw(st.integers(2, 15))
        more, up = draw(st.integers(1, 20)), draw(st.integers(1, 20))
        points = [[0, 0], [left + more, 0], [left + more, low], [left, low], [left, low + up], [0, low + up]]
        turned = draw(st.sampled_from([1, -1]))
        return {"polygon": {"points": points[::turned], "unit": "m"}}, (0, 0, left, low)
    if kind == "circle":
        radius = draw(st.integers(2, 15))
        half = int(radius / 1.5)
        return {"circle": {"diameter": _feet(2 * radius)}}, (
            radius - half, radius - half, radius + half, radius + half,
        )  # fmt: skip
    if kind == "star":
        corners = draw(st.integers(3, 12))
        reach = draw(st.lists(st.integers(300, 2000), min_size=corners, max_size=corners))
        points = [[round(far * x), round(far * y)] for far, (x, y) in zip(reach, _directions(corners), strict=True)]
        return {"polygon": {"points": points, "unit": "cm"}}, (0, 0, 0, 0)
    area = draw(st.integers(50, 20_000))
    shape = {"area": Measure(Fraction(area), AREA)}
    if draw(st.booleans()):  # a circle's perimeter is 3.545 √A
        shape["perimeter"] = Measure(Fraction(draw(st.integers(36, 90)) * int(area**0.5 + 1), 10), FEET)
    return {"measured": shape}, (0, 0, 0, 0)


def _directions(corners: int) -> Iterable[tuple[float, float]]:
    turns = [2 * math.pi * corner / corners for corner in range(corners)]
    return [(math.cos(turn), math.sin(turn)) for turn in turns]


@st.composite
def rooms(draw: st.DrawFn, system: System) -> dict[str, Any]:
    """A room of any shape, with any of the things that a room may hold."""
    shape, (left, low, right, high) = draw(outlines())
    room: dict[str, Any] = {"shape": shape} | draw(
        fields(
            {},
            name=st.text("abc ØЖ漢'&<", min_size=1, max_size=20).filter(str.strip),
            terminations=st.lists(fields({"length": RUN}), max_size=2),
            cracks=st.lists(fields({"length": RUN, "width": FILLED, "depth": FILLED}), max_size=2),
            spalls=st.lists(fields({"area": measures(AREA, 1, 20, parts=4), "depth": FILLED}), max_size=2),
            cove=fields({"length": RUN, "height": measures(INCH, 2, 8, parts=2)}),
            slope_percent=st.sampled_from([0, 0.5, 1, 2.5]),
            profile_csp=st.integers(1, 10),
            thickness=thicknesses(system),
            joints=st.lists(
                fields({"length": RUN}, kind=st.sampled_from(["moving", "contraction"]), width=FILLED, depth=FILLED),
                max_size=2,
            ),
        )
    )
    if draw(st.booleans()):
        side = draw(st.sampled_from(["left", "right", "bottom", "top"]))
        room["pour"] = {"from": side} | ({"run": draw(RUN)} if "measured" in shape else {})
    if right - left < 2:
        return room
    cells = draw(st.lists(st.tuples(st.integers(left, right - 1), st.integers(low, high - 1)), max_size=4, unique=True))
    for x, y in cells[: len(cells) // 2 * 2 : 2][: (right - left) * (high - low) // 3]:
        room.setdefault("cutouts", []).append(draw(SMALL_SHAPES) | {"at": _at(x + 0.02, y + 0.02)})
    for x, y in cells[1::2][:1]:
        room.setdefault("drains", []).append(draw(SMALL_DRAINS) | {"at": _at(x + 0.02, y + 0.02)})
    if draw(st.booleans()):
        row = draw(st.integers(low + 1, high - 1))
        joint = {"line": [_at(left, row), _at(right, row)]} | draw(fields({}, width=FILLED, depth=FILLED))
        room.setdefault("joints", []).append(joint)
    return room


def thicknesses(system: System) -> st.SearchStrategy[Measure]:
    """What the system may be placed at; anything where it is not poured."""
    if system.thickness is None:
        return measures(INCH, 1, 1)
    low, high = Fraction(system.thickness.low_m), Fraction(system.thickness.high_m)
    return st.integers(0, 8).map(lambda eighth: Measure((low + (high - low) * eighth / 8) / INCH[2], INCH))


DISHES = fields({"gain": measures(GRAMS, 0, 9, parts=10), "hours": st.integers(48, 96), "area": measures(DISH, 40, 90)})
SLABS = fields(
    {},
    substrate=st.sampled_from(["concrete", "asphalt", "old epoxy", "wood"]),
    compressive_strength=measures(PRESSURE, 0, 9000),
    profile_csp=st.integers(1, 10),
    thickness=measures(INCH, 2, 30),
    dries_from=st.sampled_from(["one-side", "both-sides"]),
    moisture_emission=st.lists(
        st.one_of(
            measures(EMISSION, 0, 25, parts=10),
            DISHES,
        ),
        max_size=4,
    ),
    relative_humidity=st.lists(fields({"percent": st.integers(30, 100)}, depth=measures(INCH, 1, 6)), max_size=4),
    pull_off=st.lists(
        st.one_of(
            measures(PRESSURE, 0, 600),
            fields(
                {"strength": measures(PRESSURE, 0, 600)},
                failure=st.sampled_from(["concrete", "bond-line", "laitance", "glue"]),
            ),
        ),
        max_size=4,
    ),
    ph=st.sampled_from([5, 7.5, 9, 11.2, 13]),
    absorbs_water=st.booleans(),
    damp=st.booleans(),
    contaminants=st.lists(st.sampled_from(["oil", "old adhesive", "curing compound", "sugar"]), max_size=3),
    temperature=WARMTH,
)  # fmt: skip


def readings_of(names: list[str]) -> st.SearchStrategy[dict[str, Any]]:
    """Readings of a slab that name their room, some of them, where the job has rooms with names."""
    if not names:
        return st.just({})
    room = {"room": st.sampled_from(names)}
    return fields(
        {},
        moisture_emission=st.lists(fields({"emission": measures(EMISSION, 0, 25, parts=10)}, **room), max_size=4),
        relative_humidity=st.lists(
            fields({"percent": st.integers(30, 100)}, depth=measures(INCH, 1, 6), **room), max_size=4
        ),
        pull_off=st.lists(fields({"strength": measures(PRESSURE, 0, 600)}, **room), max_size=4),
        ph=st.lists(fields({"ph": st.sampled_from([5, 7.5, 9, 11.2, 13])}, **room), min_size=1, max_size=3),
        profile_csp=st.lists(fields({"csp": st.integers(1, 10)}, **room), min_size=1, max_size=3),
    )


CREWS = fields(
    {},
    mixing_stations=st.integers(1, 5),
    minutes_per_mix=st.sampled_from([2, 3.5, 5, 8]),
    placing_rate=measures(SPEED, 100, 2000),
    lane_depth=measures(FEET, 1, 8),
    lane_width=measures(FEET, 3, 60),
    coating_rate=measures(SPEED, 200, 4000),
    clearing_rate=measures(SPEED, 200, 5000),
    prepare_rate=measures(SPEED, 100, 2000),
    saw_rate=measures(PACE, 20, 200),
    chase_rate=measures(PACE, 10, 100),
    patch_rate=measures(SPEED, 5, 80),
    cove_rate=measures(PACE, 10, 60),
    cast_rate=measures(LOAD, 300, 5000),
    seal_rate=measures(PACE, 20, 200),
    people=st.integers(1, 12),
    hands=fields({}, **{task.value: st.integers(1, 4) for task in Task}),
    hourly_cost=MONEY,
)
DAYS_OPEN = st.lists(st.sampled_from(["mon", "tue", "wed", "thu", "fri", "sat", "sun"]), min_size=3, max_size=7,
                     unique=True)  # fmt: skip


@st.composite
def works(draw: st.DrawFn, system: System, slab: dict[str, Any]) -> dict[str, Any]:
    """The ``work`` of a job; it also puts the slab's age, or the day of its pour, into ``slab``."""
    work: dict[str, Any] = draw(
        fields({}, material_temperature=WARMTH, crew=CREWS, preparation=measures(HOURS, 0, 30, parts=2))
    )
    if system.returns:
        work |= draw(fields({}, traffic=st.sampled_from([each.traffic for each in system.returns])))
    hours = draw(st.sampled_from(["usual", "shifts", "always"]))
    if hours == "always":
        work["round_the_clock"] = True
    elif hours == "shifts":
        work["shifts"] = draw(st.lists(fields({"days": DAYS_OPEN, "from": TIMES, "to": TIMES}), min_size=1, max_size=3))
    if not draw(MOSTLY):
        if draw(MOSTLY):
            slab["age"] = draw(measures(DAYS, 0, 400))
        return work
    start = datetime.combine(draw(DATES), time(draw(st.integers(4, 23)), draw(st.sampled_from([0, 15, 50]))))
    work["start"] = start.isoformat(timespec="minutes")
    zone = draw(st.none() | st.sampled_from(ZONES))
    if zone is not None:
        work["zone"] = zone
    work["temperatures"] = draw(temperatures(start))
    if draw(MOSTLY):
        by = (start + timedelta(days=draw(st.integers(1, 40)))).replace(hour=draw(st.integers(4, 23)))
        work["reopen_by"] = by.isoformat(timespec="minutes")
    work["closed"] = [
        (start + timedelta(days=day)).date().isoformat() for day in draw(st.lists(st.integers(0, 20), max_size=3))
    ]
    if draw(st.booleans()):
        slab["poured"] = (start - timedelta(days=draw(st.integers(2, 400)))).date().isoformat()
    return work


def temperatures(start: datetime) -> st.SearchStrategy[dict[str, Any]]:
    """The floor's temperature in one of its three kinds."""
    waves = st.builds(
        lambda low, span, coldest: {"daily": {"low": Measure(Fraction(low), HEAT),
                                              "high": Measure(Fraction(low + span), HEAT)} | coldest},
        st.integers(46, 75), st.integers(0, 25), fields({}, coldest_at=TIMES),
    )  # fmt: skip
    logs = st.lists(st.tuples(st.integers(1, 48), st.integers(46, 88)), min_size=1, max_size=8).map(
        lambda steps: {"readings": list(_log(start, steps))}
    )
    return st.one_of(WARMTH.map(lambda warmth: {"steady": warmth}), waves, logs)


def _log(start: datetime, steps: list[tuple[int, int]]) -> Iterable[dict[str, Any]]:
    at = start - timedelta(hours=20)
    for hours, degrees in steps:
        at += timedelta(hours=hours)
        yield {"at": at.isoformat(timespec="minutes") + "Z", "temperature": Measure(Fraction(degrees), HEAT)}


@st.composite
def orders(draw: st.DrawFn, system: System) -> dict[str, Any]:
    """An order, with the caller's own prices and stock."""
    products = {layer.product.code: layer.product for layer in system.layers}
    skus = [pack.sku for product in products.values() for pack in product.packs]
    colours = {pack.colour for product in products.values() for pack in product.packs} - {None}
    optional = [layer.id for layer in system.layers if layer.optional]
    some = st.lists(st.sampled_from(skus), unique=True, max_size=3)
    order: dict[str, Any] = draw(
        fields(
            {},
            waste_percent=st.sampled_from([0, 3, 7.5, 12]),
            confidence=st.sampled_from([0.5, 0.75, 0.9, 0.95, 0.99]),
            tax_percent=st.sampled_from([0, 8.25, 19, 25.5]),
            discount_percent=st.sampled_from([0, 2.5, 10, 33.3]),
            delivery=MONEY,
            reference=st.text("PO 4711/-é", min_size=1, max_size=80).filter(str.strip),
            buyer=st.text("Bäckerei & Söhne 4", min_size=1, max_size=80).filter(str.strip),
            issued=DATES.map(str),
            colour=st.sampled_from(sorted(colours) or ["any"]),  # type: ignore[type-var]
        )
    )
    if optional and draw(st.booleans()):
        order["optional_layers"] = optional
    order["on_hand"] = [{"sku": sku, "packs": draw(st.integers(0, 30))} for sku in draw(some)]
    order["offers"] = [
        {"sku": sku} | draw(fields({}, price=MONEY, available=st.sampled_from([0, 1, 10, 100, 5000])))
        for sku in draw(some)
    ]
    return order


@st.composite
def jobs(draw: st.DrawFn, catalogue: Catalogue, *, most_rooms: int = 3) -> dict[str, Any]:
    """A whole job of one of the catalogue's systems."""
    system = draw(st.sampled_from(list(catalogue.systems.values())))
    slab = draw(SLABS)
    drawn_rooms = draw(st.lists(rooms(system), min_size=1, max_size=most_rooms))
    slab |= draw(readings_of([room["name"] for room in drawn_rooms if "name" in room]))
    job: dict[str, Any] = {
        "system": system.code,
        "rooms": drawn_rooms,
        "work": draw(works(system, slab)),
        "slab": slab,
        "order": draw(orders(system)),
    }
    return job | draw(
        fields(
            {},
            thickness=thicknesses(system),
            air=fields({}, temperature=WARMTH, humidity_percent=st.integers(10, 100)),
        )
    )
