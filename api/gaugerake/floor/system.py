"""What the catalogue knows, in SI: products with their packs, systems with their layers, limits and returns.

These are the values that every other room reads. They are made once per catalogue revision and never change.
Notation in the field tables: [unit]; a trailing ``| None`` means that the maker does not state it.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.values.frozen import dataclass


class CountedIn(StrEnum):
    """How a product is counted; the base quantity of its needs and packs."""

    MIX = "mix"  # whole mixes
    LIQUID = "liquid"  # m³
    MASS = "mass"  # kg
    PIECE = "piece"  # pieces


class Hazard(StrEnum):
    """What a product can do to people; each has a caution."""

    ISOCYANATE = "isocyanate"
    WET_CEMENT = "wet-cement"
    SILICA_DUST = "silica-dust"
    FLAMMABLE = "flammable"
    AMINE = "amine"
    EXOTHERM = "exotherm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Triple:
    """A figure with its spread: ``low <= likely <= high``, all in the unit that the field's name says."""

    low: float
    likely: float
    high: float

    @property
    def exact(self) -> bool:
        """Whether the maker states one value rather than a range."""
        return self.low == self.high


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """An inclusive range in the unit that the field's name says; an end that is None is open."""

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """One thing that can be put on the truck.

    ``contents`` is in the product's base quantity (mixes, m³, kg or pieces); ``contents_text`` as the maker writes it;
    ``unit_code`` is UN/ECE Rec 20 or 21; ``weight_kg`` the shipping weight.
    """

    sku: str
    contents: float
    contents_text: str
    unit_code: str
    description: str
    weight_kg: float | None = None
    colour: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """A price for each pack when ``from_count`` or more of the sku are bought; it holds for all of them."""

    from_count: int
    price: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What a sku costs: a list price and its breaks, rising in count."""

    price: Decimal
    breaks: tuple[Break, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """The prices of one branch. A sku that is not in it has no price."""

    code: str
    currency: str
    prices: Mapping[str, Price]


@dataclass(frozen=True, slots=True, kw_only=True)
class Store:
    """How a product is kept: air temperatures [K], conditioning before mixing [s], shelf life [s]."""

    low_k: float | None = None
    high_k: float | None = None
    condition_s: float | None = None
    shelf_life_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """One product and its packs.

    ``yield_m3`` is the volume that one mix makes [m³]; ``mixing_s`` the mixing itself; ``open_time`` how long it can be
    worked after placing; ``pour_within_s`` from the end of mixing to the pour, ``roll_within_s`` from placing to the
    roller; ``pot_life`` of a batch of a liquid; ``temperature_k`` the floor's while it is placed and while it cures;
    ``smallest_batch`` in the base quantity of ``counted_in``.
    """

    code: str
    name: str
    counted_in: CountedIn
    packs: tuple[Pack, ...]
    yield_m3: Triple | None = None
    mixing_s: float | None = None
    mixing_note: str | None = None
    pour_within_s: float = 120.0
    roll_within_s: float = 300.0
    open_time: TimeCurve | None = None
    pot_life: TimeCurve | None = None
    temperature_k: Limits = Limits()
    humidity_percent: Limits = Limits()
    store: Store | None = None
    hazards: tuple[Hazard, ...] = ()
    volume_solids_fraction: float | None = None
    wet_film_m: Limits = Limits()
    smallest_batch: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a system, in the order of the work.

    ``id`` is the kind, numbered when the kind repeats, unless the catalogue gives one. ``cure`` is the time until the
    next layer may go on, from the end of this one's work; ``recoat_closes`` the time after which it must be abraded
    first. ``kind`` is given by the class.
    """

    id: str
    name: str
    product: Product
    optional: bool = False
    cure: TimeCurve | None = None
    recoat_closes: TimeCurve | None = None

    @property
    def kind(self) -> str:
        """The word that the catalogue and the answers use."""
        return LAYER_KINDS[type(self)]


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLayer(Layer):
    """Fills cracks, bridged joints and spalls; its product is counted in mixes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoveLayer(Layer):
    """Turns the floor up the wall: ``thickness_m`` on the wall, and a fillet of ``radius_m``. Counted in mixes."""

    thickness_m: float
    radius_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PrimerLayer(Layer):
    """Rolled under the body; ``spreading_rate_m2_m3`` [m²/m³]."""

    spreading_rate_m2_m3: Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyLayer(Layer):
    """Poured to thickness; ``share_fraction`` of the system's thickness. Counted in mixes."""

    share_fraction: float = 1.0
    broadcast_wait: TimeCurve | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BroadcastLayer(Layer):
    """Aggregate cast to refusal into the layer before it: ``rate_kg_m2`` cast, ``retained_kg_m2`` that stays."""

    rate_kg_m2: Triple
    retained_kg_m2: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatLayer(Layer):
    """A liquid coat; ``spreading_rate_m2_m3`` [m²/m³]."""

    spreading_rate_m2_m3: Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLayer(Layer):
    """Sealant in the moving joints, by the joint's own width and depth."""


class SundryBasis(StrEnum):
    """What a sundry is counted by."""

    AREA = "area"  # m²
    COVE = "cove"  # m
    WALLS = "walls"  # m
    JOINTS = "joints"  # m
    PRODUCT = "product"  # whole mixes ordered of another product


@dataclass(frozen=True, slots=True, kw_only=True)
class SundryLayer(Layer):
    """Something used up by the way: one for each ``covers`` [m² or m] of ``basis``, or ``count`` per mix of a product.

    With ``basis`` PRODUCT, ``per_product`` is the code of the product and ``count`` the pieces (or base quantity) to
    each whole mix of it; otherwise ``covers`` is in the unit of the basis.
    """

    basis: SundryBasis
    covers: float | None = None
    per_product: str | None = None
    count: float | None = None


LAYER_KINDS: Mapping[type[Layer], str] = {
    RepairLayer: "repair",
    CoveLayer: "cove",
    PrimerLayer: "primer",
    BodyLayer: "body",
    BroadcastLayer: "broadcast",
    CoatLayer: "coat",
    JointLayer: "joint",
    SundryLayer: "sundry",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyway:
    """A groove ``offset_m`` inside every edge, ``ratio`` times the floor's thickness wide and as deep."""

    offset_m: float
    ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """What a system may be placed at, wet, before the broadcast [m]."""

    low_m: float
    usual_m: float
    high_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileAllowance:
    """The mean depth [m] that a surface profile takes before the floor has any thickness."""

    csp: int
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabLimits:
    """What the slab must be. A limit that is None (or open at both ends) is not stated: no such check."""

    age_s: float | None = None
    compressive_strength_pa: float | None = None
    pull_off_pa: float | None = None
    profile_csp: Limits = Limits()
    moisture_emission_kg_m2_s: float | None = None
    relative_humidity_percent: float | None = None
    ph: Limits = Limits()
    slope_percent: float | None = None
    temperature_k: Limits = Limits()


@dataclass(frozen=True, slots=True, kw_only=True)
class AirLimits:
    """What the air must be; ``dew_point_spread_k`` is how far the floor must stay above the dew point."""

    temperature_k: Limits = Limits()
    humidity_percent: Limits = Limits()
    dew_point_spread_k: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Return:
    """When a class of traffic may come back, counted from the end of the last coat's (or body's) work."""

    traffic: str
    after: TimeCurve


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """A floor system: its layers in the order of the work, its limits and its returns (in the order of load)."""

    code: str
    name: str
    description: str
    layers: tuple[Layer, ...]
    reference_temperature_k: float
    thickness: Thickness | None = None
    thickness_sd_fraction: float = 0.03
    keyway: Keyway | None = None
    profile_allowance: tuple[ProfileAllowance, ...] = ()
    slab_limits: SlabLimits = SlabLimits()
    air_limits: AirLimits = AirLimits()
    returns: tuple[Return, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """A whole catalogue: its title, whether it is invented, its currency (ISO 4217), how long a quote holds."""

    title: str
    invented: bool
    currency: str
    valid_days: int
    products: Mapping[str, Product]
    systems: Mapping[str, System]
