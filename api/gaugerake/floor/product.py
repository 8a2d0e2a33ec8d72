"""Products: how they are counted, packed, priced and kept, and what they can do to people.

A field that is None is one that the maker does not state.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from decimal import Decimal
from enum import StrEnum

from gaugerake.floor.cure.curve import TimeCurve
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.range import Limits, Triple


class CountedIn(StrEnum):
    """How a product is counted; the base quantity of its needs and packs."""

    MIX = "mix"  # whole mixes
    LIQUID = "liquid"  # m³
    MASS = "mass"  # kg
    PIECE = "piece"  # pieces

    @property
    def figure_kind(self) -> Kind:
        """The kind of figure that a need, or the contents of a pack, is."""
        return _FIGURE_KINDS[self]


_FIGURE_KINDS = {counted_in: Kind(counted_in.value) for counted_in in CountedIn}


class Hazard(StrEnum):
    """What a product can do to people; each has a caution."""

    ISOCYANATE = "isocyanate"
    WET_CEMENT = "wet-cement"
    SILICA_DUST = "silica-dust"
    FLAMMABLE = "flammable"
    AMINE = "amine"
    EXOTHERM = "exotherm"


@dataclass(frozen=True, slots=True, kw_only=True)
class StockItem:
    """What is ordered by a sku of its own: a pack, or one of the parts of a kit; ``weight_kg`` its shipping weight."""

    sku: str
    description: Named
    unit_code: str
    weight_kg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """One pack of a product, which is loaded whole.

    ``contents`` is in the product's base quantity (mixes, m³, kg or pieces); ``contents_text`` as the maker writes it;
    ``unit_code`` is UN/ECE Rec 20 or 21; ``weight_kg`` the shipping weight. A kit is sold as ``parts``, two or more,
    that are counted together; its ``sku`` names all of theirs (``packs.kit.kit_sku``) and is no one's on an order.
    ``ordered_as`` is what stands on an order for it: the parts of a kit, else the pack itself.
    """

    sku: str
    contents: float
    contents_text: str
    unit_code: str
    description: Named
    weight_kg: float | None = None
    colour: str | None = None
    parts: tuple[StockItem, ...] = ()
    ordered_as: tuple[StockItem, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Say once what every order asks for several times."""
        own = StockItem(sku=self.sku, description=self.description, unit_code=self.unit_code, weight_kg=self.weight_kg)
        object.__setattr__(self, "ordered_as", self.parts or (own,))

    @property
    def kit(self) -> str | None:
        """The name of the kit; None for a pack that is sold whole."""
        return self.sku if self.parts else None


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
class Storage:
    """How a product is kept: air temperatures [K], conditioning before mixing [s], shelf life [s]."""

    low_k: float | None = None
    high_k: float | None = None
    condition_s: float | None = None
    shelf_life_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """One product and its packs.

    ``yield_m3`` is the volume that one mix makes [m³]; ``mixing_s`` how long it is mixed [s]; ``open_time`` how long it
    can be worked, from the end of mixing; ``pour_within_s`` the time from the end of mixing to the pour and
    ``roll_within_s`` that from placing to the roller, both at the most [s]; ``pot_life`` that of a batch of a liquid;
    ``temperature_k`` the floor's while it is placed and while it cures [K]; ``humidity_percent`` the air's while it is
    placed [%]; ``wet_film_m`` the film as it is rolled [m]; ``smallest_batch`` in the base quantity of ``counted_in``.
    """

    code: str
    name: Named
    counted_in: CountedIn
    packs: tuple[Pack, ...]
    yield_m3: Triple | None = None
    mixing_s: float | None = None
    mixing_note: Named | None = None
    pour_within_s: float = 120.0
    roll_within_s: float = 300.0
    open_time: TimeCurve | None = None
    pot_life: TimeCurve | None = None
    temperature_k: Limits = Limits()
    humidity_percent: Limits = Limits()
    store: Storage | None = None
    hazards: tuple[Hazard, ...] = ()
    volume_solids_fraction: float | None = None
    wet_film_m: Limits = Limits()
    smallest_batch: float | None = None

    @property
    def skus(self) -> tuple[str, ...]:
        """The sku of each pack, and of each part of a kit."""
        return tuple([part.sku for pack in self.packs for part in pack.ordered_as])

    @property
    def least_mixed(self) -> float | None:
        """The least that is mixed at once, in the base quantity: the smallest batch, else the smallest pack."""
        if self.smallest_batch is not None:
            return self.smallest_batch
        return min((pack.contents for pack in self.packs), default=None)
