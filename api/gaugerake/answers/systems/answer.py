"""What can be quoted: the floor systems of the catalogue, with everything that an integrator needs of them."""

from __future__ import annotations

from typing import Annotated

from gaugerake import __version__
from gaugerake.answers.job.envelope import Source, source_remarks
from gaugerake.answers.job.remarks import sort_remarks
from gaugerake.answers.systems.layers import SystemLayer, system_layer
from gaugerake.answers.systems.products import ProductForSale, product_for_sale
from gaugerake.answers.systems.ranges import Bounds, TimeRow, bounds_of, figure_of, rows_of
from gaugerake.floor.product import PriceBook, Product
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class ThicknessRange:
    """What the floor may be placed at, wet, before any broadcast."""

    low: Figure
    usual: Figure
    high: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class KeywayRule:
    """A groove that anchors the floor inside every edge."""

    offset: Annotated[Figure, "From the edge to the groove."]
    ratio: Annotated[float, "Width and depth of the groove, as a multiple of the floor's thickness."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileDepth:
    """The mean depth that a surface profile takes before the floor has any thickness."""

    csp: int
    depth: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class ChaseNeeds:
    """The least that a crack is opened to before it is filled."""

    width: Figure
    depth: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabNeeds:
    """What the slab must be. Null is: not stated, and not checked."""

    age: Annotated[Figure | None, "At least."]
    compressive_strength: Annotated[Figure | None, "At least."]
    pull_off: Annotated[Figure | None, "At least."]
    profile_csp: Bounds | None
    moisture_emission: Annotated[Figure | None, "At most."]
    relative_humidity: Annotated[Figure | None, "At most."]
    ph: Bounds | None
    slope: Annotated[Figure | None, "At most."]
    temperature: Bounds | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AirNeeds:
    """What the air must be. Null is: not stated, and not checked."""

    temperature: Bounds | None
    humidity: Bounds | None
    dew_point_spread: Annotated[Figure | None, "How far the floor stays above the dew point, at least."]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrafficReturn:
    """When a class of traffic may come back, counted from the end of the last coat's (or body's) work."""

    traffic: Annotated[str, "What work.traffic may name."]
    after: tuple[TimeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorSystem:
    """A floor system that can be quoted."""

    code: Annotated[str, "What a job's system names."]
    name: str
    description: str
    invented: Annotated[bool, "Whether it is made up for demonstration."]
    reference_temperature: Figure
    thickness: ThicknessRange | None
    thickness_sd: Annotated[Figure, "Standard deviation of the thickness that a crew places."]
    keyway: KeywayRule | None
    profile_allowance: tuple[ProfileDepth, ...]
    crack_chase: ChaseNeeds | None
    slab_limits: SlabNeeds
    air_limits: AirNeeds
    layers: Annotated[tuple[SystemLayer, ...], "In the order of the work."]
    colours: Annotated[tuple[str, ...], "What order.colour may name; the first is taken unless one is named."]
    returns: Annotated[tuple[TrafficReturn, ...], "In the order of load, the lightest first."]
    products: Annotated[tuple[ProductForSale, ...], "Those of its layers."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Systems:
    """Every system that can be quoted."""

    catalogue_revision: str
    engine: str
    catalogue: Source
    currency: Annotated[str, "ISO 4217."]
    valid_days: Annotated[int, "How many days a quote holds."]
    price_book: Annotated[str, "The price book that the prices are from."]
    systems: tuple[FloorSystem, ...]
    assumptions: tuple[Note, ...]
    cautions: tuple[Note, ...]
    missing: tuple[Note, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemName:
    """A floor system by its name."""

    code: Annotated[str, "What a job's system names."]
    name: Annotated[str, "What people call it."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemNames:
    """The systems that can be quoted, by name alone."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue."]
    engine: Annotated[str, "The version of the arithmetic."]
    catalogue: Source
    names: Annotated[tuple[SystemName, ...], "In the order of the catalogue."]


@dataclass(frozen=True, slots=True, kw_only=True)
class OneSystem:
    """One system that can be quoted."""

    catalogue_revision: str
    engine: str
    catalogue: Source
    currency: Annotated[str, "ISO 4217."]
    valid_days: Annotated[int, "How many days a quote holds."]
    price_book: Annotated[str, "The price book that the prices are from."]
    system: FloorSystem
    assumptions: tuple[Note, ...]
    cautions: tuple[Note, ...]
    missing: tuple[Note, ...]


def systems(catalogue: Catalogue, *, revision: str, book: PriceBook) -> Systems:
    """All systems, in the order of the catalogue, at the prices of ``book``."""
    return Systems(
        catalogue_revision=revision,
        engine=__version__,
        catalogue=Source(title=catalogue.title, invented=catalogue.invented),
        currency=catalogue.currency,
        valid_days=catalogue.valid_days,
        price_book=book.code,
        systems=tuple(_system(system, catalogue, book) for system in catalogue.systems.values()),
        assumptions=(),
        cautions=sort_remarks(source_remarks(catalogue)).cautions,
        missing=(),
    )


def system_names(catalogue: Catalogue, *, revision: str) -> SystemNames:
    """The code and the name of each system, in the order of the catalogue."""
    return SystemNames(
        catalogue_revision=revision,
        engine=__version__,
        catalogue=Source(title=catalogue.title, invented=catalogue.invented),
        names=tuple(SystemName(code=system.code, name=system.name) for system in catalogue.systems.values()),
    )


def one_system(catalogue: Catalogue, code: str, *, revision: str, book: PriceBook) -> OneSystem:
    """The system ``code``, at the prices of ``book``.

    Raises
    ------
    KeyError
        When there is no such system.
    """
    return OneSystem(
        catalogue_revision=revision,
        engine=__version__,
        catalogue=Source(title=catalogue.title, invented=catalogue.invented),
        currency=catalogue.currency,
        valid_days=catalogue.valid_days,
        price_book=book.code,
        system=_system(catalogue.systems[code], catalogue, book),
        assumptions=(),
        cautions=sort_remarks(source_remarks(catalogue)).cautions,
        missing=(),
    )


def _system(system: System, catalogue: Catalogue, book: PriceBook) -> FloorSystem:
    products = tuple(product_for_sale(product, book) for product in _products(system))
    return FloorSystem(
        code=system.code,
        name=system.name,
        description=system.description,
        invented=catalogue.invented,
        reference_temperature=Figure(system.reference_temperature_k, Kind.TEMPERATURE),
        thickness=_thickness(system),
        thickness_sd=Figure(system.thickness_sd_fraction * 100, Kind.PERCENT),
        keyway=_keyway(system),
        profile_allowance=tuple(
            ProfileDepth(csp=entry.csp, depth=Figure(entry.depth_m, Kind.FILM)) for entry in system.profile_allowance
        ),
        crack_chase=_chase(system),
        slab_limits=_slab_needs(system),
        air_limits=_air_needs(system),
        layers=tuple(system_layer(layer) for layer in system.layers),
        colours=tuple(dict.fromkeys(colour for product in products for colour in product.colours)),
        returns=tuple(
            TrafficReturn(traffic=entry.traffic, after=rows_of(entry.after) or ()) for entry in system.returns
        ),
        products=products,
    )


def _products(system: System) -> tuple[Product, ...]:
    """The products of a system's layers, each once, in the order of the work."""
    return tuple({layer.product.code: layer.product for layer in system.layers}.values())


def _thickness(system: System) -> ThicknessRange | None:
    stated = system.thickness
    if stated is None:
        return None
    low, usual, high = (Figure(value, Kind.SMALL_LENGTH) for value in (stated.low_m, stated.usual_m, stated.high_m))
    return ThicknessRange(low=low, usual=usual, high=high)


def _keyway(system: System) -> KeywayRule | None:
    stated = system.keyway
    if stated is None:
        return None
    return KeywayRule(offset=Figure(stated.offset_m, Kind.SMALL_LENGTH), ratio=stated.ratio)


def _chase(system: System) -> ChaseNeeds | None:
    stated = system.crack_chase
    if stated is None:
        return None
    return ChaseNeeds(width=Figure(stated.width_m, Kind.SMALL_LENGTH), depth=Figure(stated.depth_m, Kind.SMALL_LENGTH))


def _slab_needs(system: System) -> SlabNeeds:
    stated = system.slab_limits
    return SlabNeeds(
        age=figure_of(stated.age_s, Kind.DAYS),
        compressive_strength=figure_of(stated.compressive_strength_pa, Kind.PRESSURE),
        pull_off=figure_of(stated.pull_off_pa, Kind.PRESSURE),
        profile_csp=bounds_of(stated.profile_csp, Kind.CSP),
        moisture_emission=figure_of(stated.moisture_emission_kg_m2_s, Kind.MOISTURE_EMISSION),
        relative_humidity=figure_of(stated.relative_humidity_percent, Kind.PERCENT),
        ph=bounds_of(stated.ph, Kind.PH),
        slope=figure_of(stated.slope_percent, Kind.PERCENT),
        temperature=bounds_of(stated.temperature_k, Kind.TEMPERATURE),
    )


def _air_needs(system: System) -> AirNeeds:
    stated = system.air_limits
    return AirNeeds(
        temperature=bounds_of(stated.temperature_k, Kind.TEMPERATURE),
        humidity=bounds_of(stated.humidity_percent, Kind.PERCENT),
        dew_point_spread=figure_of(stated.dew_point_spread_k, Kind.TEMPERATURE_DIFFERENCE),
    )
