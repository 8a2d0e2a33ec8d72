"""The job as asked, in SI. A field that the asker left out is None (or empty); nothing is assumed here.

The names are those of the job document, with the SI unit added. Order within tuples is the asker's, so that the index
of a room, a reading or a cutout here is its index in the document.
"""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal
from enum import StrEnum

from gaugerake.floor.values.crew_asked import Crew as Crew
from gaugerake.floor.values.crew_asked import Hands as Hands
from gaugerake.floor.values.frozen import dataclass

Point = tuple[float, float]  # [m], from the lower left of the room's box


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangle [m]."""

    length_m: float
    width_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """A simple polygon, in any winding, its closing point dropped [m]."""

    points_m: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle [m]."""

    diameter_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """An area known as a figure [m²], gross, and perhaps its perimeter [m]."""

    area_m2: float
    perimeter_m: float | None = None


Shape = Rectangle | Polygon | Circle | Measured


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutout:
    """Floor that is left out: a column, a pit. ``at_m`` places the lower left of its box."""

    shape: Shape
    at_m: Point | None = None
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundDrain:
    """A round drain [m]."""

    diameter_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrenchDrain:
    """A trench drain, its length along x when it is placed [m]."""

    length_m: float
    width_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drain:
    """``count`` drains of one size; ``at_m`` (for a single one) places the lower left of its box."""

    shape: RoundDrain | TrenchDrain
    count: int = 1
    at_m: Point | None = None


class JointKind(StrEnum):
    """What becomes of a joint in the slab."""

    MOVING = "moving"  # carried through the floor, sealed, a keyway on both sides
    CONTRACTION = "contraction"  # bridged; filled like a crack when its width and depth are given


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint, as a length or as a line between two points; ``kind`` None is taken as moving."""

    length_m: float | None = None
    line_m: tuple[Point, Point] | None = None
    kind: JointKind | None = None
    width_m: float | None = None
    depth_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Termination:
    """A stop that the outline does not show: a transition, the doorways of a measured room."""

    length_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Crack:
    """A crack as it is opened and filled [m]."""

    length_m: float
    width_m: float
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spall:
    """A patch to fill: area [m²], mean depth [m]."""

    area_m2: float
    depth_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cove:
    """Cove along ``length_m`` of wall, ``height_m`` up it."""

    length_m: float
    height_m: float


class Side(StrEnum):
    """A side of a room's drawing."""

    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"


@dataclass(frozen=True, slots=True, kw_only=True)
class Advance:
    """How the edge of a pour goes through a room: from which side, and how far, which a drawing says itself [m]."""

    side: Side | None = None
    run_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """One room. ``joints`` is None when nothing was said of joints, and empty when there are none."""

    shape: Shape
    name: str | None = None
    cutouts: tuple[Cutout, ...] = ()
    drains: tuple[Drain, ...] = ()
    joints: tuple[Joint, ...] | None = None
    terminations: tuple[Termination, ...] = ()
    cracks: tuple[Crack, ...] = ()
    spalls: tuple[Spall, ...] = ()
    cove: Cove | None = None
    slope_percent: float | None = None
    thickness_m: float | None = None
    profile_csp: int | None = None
    pour: Advance | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EmissionReading:
    """A moisture emission: a rate [kg/(m²·s)], or a dish's gain [kg], exposure [h] and net area [m²] (ASTM F1869)."""

    rate_kg_m2_s: float | None = None
    gain_kg: float | None = None
    exposure_hours: float | None = None
    area_m2: float | None = None
    room: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HumidityReading:
    """A relative humidity in the slab at a probe's depth [m] (ASTM F2170)."""

    percent: float
    depth_m: float | None = None
    room: str | None = None


class PullOffFailure(StrEnum):
    """Where a pull-off test broke."""

    CONCRETE = "concrete"
    BOND_LINE = "bond-line"
    LAITANCE = "laitance"
    GLUE = "glue"


@dataclass(frozen=True, slots=True, kw_only=True)
class PullOff:
    """One pull-off test [Pa] and where it broke."""

    strength_pa: float
    failure: PullOffFailure | None = None
    room: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PhReading:
    """One reading of the surface's pH."""

    ph: float
    room: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileReading:
    """One comparison of the surface with the profile replicas (ICRI 310.2R)."""

    csp: int
    room: str | None = None


class DriesFrom(StrEnum):
    """From how many sides the slab dries."""

    ONE_SIDE = "one-side"
    BOTH_SIDES = "both-sides"


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """What has been seen and tested of the slab; None is untested, an empty tuple of contaminants is none found."""

    substrate: str | None = None
    age_s: float | None = None
    poured: date | None = None
    compressive_strength_pa: float | None = None
    profile_csp: int | tuple[ProfileReading, ...] | None = None
    thickness_m: float | None = None
    dries_from: DriesFrom | None = None
    moisture_emission: tuple[EmissionReading, ...] = ()
    relative_humidity: tuple[HumidityReading, ...] = ()
    pull_off: tuple[PullOff, ...] = ()
    ph: float | tuple[PhReading, ...] | None = None
    absorbs_water: bool | None = None
    damp: bool | None = None
    contaminants: tuple[str, ...] | None = None
    temperature_k: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AirReading:
    """The air's temperature [K] and humidity at a time; a time without an offset is in the job's zone."""

    at: datetime
    temperature_k: float
    humidity_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """The air over the floor: as it stays, or ``readings`` of it, linear between them and held at both ends."""

    temperature_k: float | None = None
    humidity_percent: float | None = None
    readings: tuple[AirReading, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """One floor temperature [K] throughout."""

    temperature_k: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Daily:
    """A daily wave of the floor's temperature [K] on the wall clock, lowest at ``coldest_at``."""

    low_k: float
    high_k: float
    coldest_at: time | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperatureReading:
    """The floor's temperature [K] at a time; a time without an offset is in the job's zone."""

    at: datetime
    temperature_k: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """A forecast or a logger's file, linear between readings and held at both ends."""

    readings: tuple[TemperatureReading, ...]


Temperatures = Steady | Daily | Readings


class Weekday(StrEnum):
    """Days as the document writes them; their order is that of ``date.weekday()``."""

    MON = "mon"
    TUE = "tue"
    WED = "wed"
    THU = "thu"
    FRI = "fri"
    SAT = "sat"
    SUN = "sun"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """Open hours on some weekdays; one that ends at or before its start ends on the next day."""

    days: tuple[Weekday, ...]
    starts: time
    ends: time


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """When and how the work is done; a time without an offset is in ``zone`` (an IANA name)."""

    start: datetime | None = None
    zone: str | None = None
    temperatures: Temperatures | None = None
    material_temperature_k: float | None = None
    shifts: tuple[Shift, ...] | None = None
    round_the_clock: bool | None = None
    closed: tuple[date, ...] = ()
    crew: Crew = Crew()
    preparation_s: float | None = None
    reopen_by: datetime | None = None
    traffic: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """Packs that are on the shelf already."""

    sku: str
    packs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """The caller's own price and stock of a sku; None is: as in the book, and as many as wanted."""

    sku: str
    price: Decimal | None = None
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """How the order is made up and priced."""

    waste_percent: float | None = None
    confidence: float | None = None
    optional_layers: tuple[str, ...] | None = None
    colour: str | None = None
    tax_percent: Decimal | None = None
    discount_percent: Decimal | None = None
    delivery: Decimal | None = None
    on_hand: tuple[OnHand, ...] = ()
    offers: tuple[Offer, ...] = ()
    reference: str | None = None
    buyer: str | None = None
    issued: date | None = None
    price_book: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One job, as asked."""

    system: str
    rooms: tuple[Room, ...]
    thickness_m: float | None = None
    slab: Slab = Slab()
    air: Air = Air()
    work: Work = Work()
    order: Order = Order()
