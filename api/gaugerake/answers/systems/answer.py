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
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.note import Note


@dataclass(frozen=True, slots=True, kw_only=True)
class ThicknessRange:
    """What the floor may be placed at, wet, before any broadcast."""

    low: Annotated[Figure, "The thinnest that the system may be placed."]
    usual: Annotated[Figure, "What is taken where a job says no thickness."]
    high: Annotated[Figure, "The thickest that the system may be placed."]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeywayRule:
    """A groove that anchors the floor inside every edge."""

    offset: Annotated[Figure, "From the edge to the groove."]
    ratio: Annotated[float, "Width and depth of the groove, as a multiple of the floor's thickness."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileDepth:
    """The mean depth that a surface profile takes before the floor has any thickness."""

    csp: Annotated[int, "Concrete surface profile, 1 to 10 (ICRI 310.2R)."]
    depth: Annotated[Figure, "What the body must fill, on average, before it stands over the peaks."]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChaseNeeds:
    """The least that a crack is opened to before it is filled."""

    width: Annotated[Figure, "Of the cut; a crack that is wider is filled as wide as it is."]
    depth: Annotated[Figure, "Of the cut; a crack that is deeper is filled as deep as it is."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabNeeds:
    """What the slab must be. Null is: not stated, and not checked."""

    age: Annotated[Figure | None, "Of the concrete at the start of the work, at least."]
    compressive_strength: Annotated[Figure | None, "Of the concrete, at least."]
    pull_off: Annotated[Figure | None, "Of the surface, on average, at least."]
    profile_csp: Annotated[Bounds | None, "Concrete surface profile (ICRI 310.2R)."]
    moisture_emission: Annotated[Figure | None, "Of the slab, at most (ASTM F1869)."]
    relative_humidity: Annotated[Figure | None, "Of the slab at a probe's depth, at most, in % (ASTM F2170)."]
    ph: Annotated[Bounds | None, "Of the surface."]
    slope: Annotated[Figure | None, "Fall of the finished floor, at most, in %."]
    temperature: Annotated[Bounds | None, "Of the slab's surface while the floor is laid."]


@dataclass(frozen=True, slots=True, kw_only=True)
class AirNeeds:
    """What the air must be. Null is: not stated, and not checked."""

    temperature: Annotated[Bounds | None, "Of the air while the floor is laid."]
    humidity: Annotated[Bounds | None, "Relative humidity of the air while the floor is laid, in %."]
    dew_point_spread: Annotated[Figure | None, "How far the floor stays above the dew point, at least."]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrafficReturn:
    """When a class of traffic may come back, counted from the end of the last coat's (or body's) work."""

    traffic: Annotated[str, "What work.traffic may name."]
    after: Annotated[tuple[TimeRow, ...], "By the temperature of the floor, the coldest row first."]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorSystem:
    """A floor system that can be quoted."""

    code: Annotated[str, "What a job's system names."]
    name: Annotated[Named, "What people call it."]
    description: Annotated[Named, "What it is and where it is used, for people."]
    invented: Annotated[bool, "Whether it is made up for demonstration."]
    reference_temperature: Annotated[
        Figure, "Of floor and material, for which the maker states its figures; taken where a job says no temperature."
    ]
    thickness: Annotated[ThicknessRange | None, "Of the body; null for a system of films alone."]
    thickness_sd: Annotated[Figure, "Standard deviation of the thickness that a crew places."]
    keyway: Annotated[KeywayRule | None, "Null where the floor is not anchored by a groove."]
    profile_allowance: Annotated[
        tuple[ProfileDepth, ...],
        "For each surface profile, what its roughness takes of the body; empty where the maker states none.",
    ]
    crack_chase: Annotated[
        ChaseNeeds | None, "Null where the maker states none: cracks are filled as wide and as deep as they are."
    ]
    slab_limits: Annotated[SlabNeeds, "What readiness judges the slab by."]
    air_limits: Annotated[AirNeeds, "What readiness judges the air by."]
    layers: Annotated[tuple[SystemLayer, ...], "In the order of the work."]
    colours: Annotated[tuple[str, ...], "What order.colour may name; the first is taken unless one is named."]
    returns: Annotated[tuple[TrafficReturn, ...], "In the order of load, the lightest first."]
    products: Annotated[tuple[ProductForSale, ...], "Those of its layers."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Systems:
    """Every system that can be quoted."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue."]
    engine: Annotated[str, "Version of the arithmetic."]
    catalogue: Annotated[Source, "The catalogue that the systems are from."]
    currency: Annotated[str, "Of every price, as ISO 4217 has it."]
    valid_days: Annotated[int, "How many days a quote holds."]
    price_book: Annotated[str, "The price book that the prices are from."]
    systems: Annotated[tuple[FloorSystem, ...], "In the order of the catalogue."]
    assumptions: Annotated[tuple[Note, ...], "Empty here: nothing is assumed where nothing is calculated."]
    cautions: Annotated[tuple[Note, ...], "What to beware of with all that the catalogue says."]
    missing: Annotated[tuple[Note, ...], "Empty here: nothing is asked that could be left out."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemName:
    """A floor system by its name."""

    code: Annotated[str, "What a job's system names."]
    name: Annotated[Named, "What people call it."]


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemNames:
    """The systems that can be quoted, by name alone."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue."]
    engine: Annotated[str, "The version of the arithmetic."]
    catalogue: Annotated[Source, "The catalogue that the systems are from."]
    names: Annotated[tuple[SystemName, ...], "In the order of the catalogue."]


@dataclass(frozen=True, slots=True, kw_only=True)
class OneSystem:
    """One system that can be quoted."""

    catalogue_revision: Annotated[str, "The SHA-256 of the catalogue."]
    engine: Annotated[str, "Version of the arithmetic."]
    catalogue: Annotated[Source, "The catalogue that the system is from."]
    currency: Annotated[str, "Of every price, as ISO 4217 has it."]
    valid_days: Annotated[int, "How many days a quote holds."]
    price_book: Annotated[str, "The price book that the prices are from."]
    system: Annotated[FloorSystem, "Its layers, products, limits and times."]
    assumptions: Annotated[tuple[Note, ...], "Empty here: nothing is assumed where nothing is calculated."]
    cautions: Annotated[tuple[Note, ...], "What to beware of with all that the catalogue says."]
    missing: Annotated[tuple[Note, ...], "Empty here: nothing is asked that could be left out."]


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
