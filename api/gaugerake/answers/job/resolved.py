"""The job with every value present: what the answers are computed from. Nothing after it assumes anything."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time
from decimal import Decimal

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolve_readings import ProfileOf
from gaugerake.answers.job.taken import Taken
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.crew.rates import RateKind, Rates
from gaugerake.floor.crew.tasks import Manning, Task
from gaugerake.floor.cure.course import Course, SteadyCourse
from gaugerake.floor.job import (
    Advance,
    Cove,
    Crack,
    Cutout,
    Drain,
    DriesFrom,
    Job,
    Joint,
    JointKind,
    Offer,
    OnHand,
    Shape,
    Shift,
    Slab,
    Spall,
    Termination,
)
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.product import PriceBook, Product
from gaugerake.floor.slab.air_course import AirCourse
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import Zone
from gaugerake.floor.values.note import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """What a job is answered from: one revision of the catalogue, and one price book.

    ``book_id`` names the content of a branch's book; None is the revision's own prices.
    """

    catalogue: Catalogue
    revision: str
    price_book: Taken[PriceBook]
    book_id: str | None = None

    @property
    def book(self) -> PriceBook:
        """The price book.

        Raises
        ------
        Refused
            When the job names one that there is not.
        """
        return self.price_book.value


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedRoom:
    """One room.

    ``thickness_m`` is None where nobody states one and the system pours no body. ``profile_csp`` is the roughest of the
    ``profiles`` that the job says of the room; it holds None where nothing depends on it. ``joints`` is None when
    nothing was said of joints; else each has its kind, and ``joint_kinds`` is where that came from, in their order.
    ``slope_percent`` is None when it was not said, and so is ``advance``, the way of the pour's edge. ``cracks`` are as
    stated, ``opened_cracks`` as they are opened and filled.
    """

    index: int
    name: Words
    shape: Shape
    cutouts: tuple[Cutout, ...]
    drains: tuple[Drain, ...]
    joints: tuple[Joint, ...] | None
    joint_kinds: tuple[Taken[JointKind], ...]
    terminations: tuple[Termination, ...]
    cracks: tuple[Crack, ...]
    opened_cracks: Taken[tuple[Crack, ...]]
    spalls: tuple[Spall, ...]
    cove: Cove | None
    slope_percent: float | None
    thickness_m: Taken[float] | None
    profile_csp: Taken[int | None]
    profiles: tuple[ProfileOf, ...]
    advance: Taken[Advance | None]

    @property
    def pointer(self) -> str:
        """Its place in the job document (RFC 6901)."""
        return f"/rooms/{self.index}"


_RATES = {
    RateKind.STATIONS: "mixing_stations",
    RateKind.PLACING: "placing_rate_m2_s",
    RateKind.CASTING: "cast_rate_kg_s",
    RateKind.COATING: "coating_rate_m2_s",
    RateKind.CLEARING: "clearing_rate_m2_s",
    RateKind.CHASING: "chase_rate_m_s",
    RateKind.PATCHING: "patch_rate_m2_s",
    RateKind.COVING: "cove_rate_m_s",
    RateKind.SEALING: "seal_rate_m_s",
}
"""The fields of a crew that say its rates; a mix's own cycle is by product."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedCrew:
    """Who does the work, and how fast.

    ``hands`` are those of each task (of ``mix``, at each station), ``hands_unsaid`` the tasks of which the job names
    none. ``people`` and ``hourly_cost`` hold None where the job does not say: nothing is judged or priced then.
    By code of each product that is mixed, as a layer's rates hold ``CYCLE``: ``mixing_s`` is how long a mix is mixed,
    ``cycle_s`` from one mix of a station to its next [s].
    """

    mixing_stations: Taken[int]
    prepare_rate_m2_s: Taken[float]
    saw_rate_m_s: Taken[float]
    chase_rate_m_s: Taken[float]
    patch_rate_m2_s: Taken[float]
    cove_rate_m_s: Taken[float]
    placing_rate_m2_s: Taken[float]
    cast_rate_kg_s: Taken[float]
    coating_rate_m2_s: Taken[float]
    clearing_rate_m2_s: Taken[float]
    seal_rate_m_s: Taken[float]
    lane_depth_m: Taken[float]
    lane_width_m: float | None
    hands: Taken[Mapping[Task, int]]
    hands_unsaid: frozenset[Task]
    people: int | None
    hourly_cost: Decimal | None
    mixing_s: Mapping[str, Taken[float]]
    cycle_s: Mapping[str, Taken[float]]

    def manning(self, station_count: int | None = None) -> Manning:
        """The hands of each task, with its own mixing stations or another number of them."""
        stations = self.mixing_stations.value if station_count is None else station_count
        return Manning(hands=self.hands.value, mixing_stations=stations)

    def seconds_per_mix(self, product: Product) -> Taken[float]:
        """The time from one mix of a station to its next [s]."""
        return self.cycle_s[product.code]

    def remarks_on(self, rate: RateKind, product: Product) -> Remarks:
        """What is said where the work with a product depends on a rate."""
        if rate is RateKind.CYCLE:
            return self.cycle_s[product.code].remarks
        taken: Taken[float] = getattr(self, _RATES[rate])
        return taken.remarks

    def rates(self) -> Rates:
        """The crew as the layers read it."""
        return Rates(
            mixing_stations=self.mixing_stations.value,
            prepare_rate_m2_s=self.prepare_rate_m2_s.value,
            saw_rate_m_s=self.saw_rate_m_s.value,
            chase_rate_m_s=self.chase_rate_m_s.value,
            patch_rate_m2_s=self.patch_rate_m2_s.value,
            cove_rate_m_s=self.cove_rate_m_s.value,
            placing_rate_m2_s=self.placing_rate_m2_s.value,
            cast_rate_kg_s=self.cast_rate_kg_s.value,
            coating_rate_m2_s=self.coating_rate_m2_s.value,
            clearing_rate_m2_s=self.clearing_rate_m2_s.value,
            seal_rate_m_s=self.seal_rate_m_s.value,
            cycle_s={code: taken.value for code, taken in self.cycle_s.items()},
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What the clock runs on. Without a start of the job ``timed`` is False: hours count from ``start_s``, no more."""

    hours: OpenHours
    course: Course
    start_s: float
    timed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedAir:
    """The air over the floor at the start of the work, None where it is not known.

    ``course`` is the air over time where the job has readings of it; None is air that stays as it is.
    """

    temperature_k: Taken[float | None]
    humidity_percent: Taken[float | None]
    course: Taken[AirCourse] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedWork:
    """When and how the work is done.

    ``start`` and ``reopen_by`` hold None where the job does not say; ``listed_shifts`` holds None round the clock;
    ``coldest_at`` is the hour at which a daily wave is lowest; ``traffic`` is whose return the deadline is for.
    ``preparation_s`` holds None where it follows from the rooms and the crew's rate.
    ``hours`` are those that the crew works in; ``basis`` is what the clock runs on, with or without a start.
    ``course`` is stated where the job says the floor's temperatures over the work.
    """

    zone: Taken[Zone]
    start: Taken[datetime | None]
    reopen_by: Taken[datetime | None]
    traffic: Taken[str | None]
    coldest_at: Taken[time]
    course: Taken[Course]
    air: ResolvedAir
    listed_shifts: Taken[tuple[Shift, ...] | None]
    closed: tuple[date, ...]
    hours: Taken[OpenHours]
    basis: Taken[Basis]
    crew: ResolvedCrew
    material_temperature_k: Taken[float]
    preparation_s: Taken[float | None]

    @property
    def floor_varies(self) -> bool:
        """Whether the job says temperatures of the floor that change over the work."""
        return self.course.stated and not isinstance(self.course.found, SteadyCourse)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedOrder:
    """How the order is made up and priced.

    ``reference``, ``buyer``, ``issued`` and ``colour`` are None, ``offers`` and ``on_hand`` empty, where the job
    does not say.
    """

    reference: str | None
    buyer: str | None
    issued: date | None
    colour: str | None
    offers: tuple[Offer, ...]
    on_hand: tuple[OnHand, ...]
    waste_fraction: Taken[float]
    confidence: Taken[float]
    tax_percent: Taken[Decimal]
    discount_percent: Taken[Decimal]
    delivery: Taken[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedJob:
    """One job, its system and its supply, with every value present.

    ``slab`` is what was seen and tested: there None is untested, and nothing is assumed. ``age_s`` is the slab's age
    when the work starts [s], as said or from the date of the pour; it holds None where neither tells. ``substrate`` is
    what the slab is made of, in the job's words; how deep a humidity probe must sit depends on ``dries_from``.
    ``named_rooms`` are the names that readings may give as their room. ``layers`` are those of the system that take
    part. ``thickness_m`` is that of the rooms that state none of their own; None as there. ``asked`` is the job as it
    came, for its fingerprint and echo; no answer reads it.
    """

    asked: Job
    supply: Supply
    chosen: Taken[System]
    slab: Slab
    age_s: Taken[float | None]
    substrate: Taken[str]
    dries_from: Taken[DriesFrom]
    named_rooms: Taken[frozenset[str]]
    thickness_m: Taken[float] | None
    rooms: tuple[ResolvedRoom, ...]
    layers: Taken[tuple[Layer, ...]]
    work: ResolvedWork
    order: ResolvedOrder

    @property
    def system(self) -> System:
        """The floor system.

        Raises
        ------
        Refused
            When the catalogue has none of the name.
        """
        return self.chosen.value

    @property
    def unknown(self) -> tuple[Fault, ...]:
        """The system and the price book, as far as the job names one that there is not."""
        return *self.chosen.faults, *self.supply.price_book.faults

    @property
    def poured(self) -> bool:
        """Whether a layer that takes part is poured to the thickness of the floor."""
        return any(layer.pour is not None for layer in self.layers.found or ())

    @property
    def air(self) -> ResolvedAir:
        """The air over the floor while the work is done."""
        return self.work.air
