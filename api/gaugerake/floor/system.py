"""What the catalogue knows, in SI: systems with their layers, limits and returns.

These values are made once per catalogue revision and never change. A field that is None is one that the maker does not
state.
"""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.floor.clock.timetable import Return
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.volumes import CrackChase, ProfileAllowance
from gaugerake.floor.product import Product
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.name import Named
from gaugerake.floor.values.range import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """What a system may be placed at, wet, before the broadcast [m]."""

    low_m: float
    usual_m: float
    high_m: float


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
class System:
    """A floor system: its layers in the order of the work, its limits and its returns (in the order of load)."""

    code: str
    name: Named
    description: Named
    layers: tuple[Layer, ...]
    reference_temperature_k: float
    thickness: Thickness | None = None
    thickness_sd_fraction: float = 0.03
    keyway: Keyway | None = None
    profile_allowance: tuple[ProfileAllowance, ...] = ()
    crack_chase: CrackChase | None = None
    slab_limits: SlabLimits = SlabLimits()
    air_limits: AirLimits = AirLimits()
    returns: tuple[Return, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """A whole catalogue: its title, whether it is invented, its currency (ISO 4217), how long a quote holds."""

    title: Named
    invented: bool
    currency: str
    valid_days: int
    products: Mapping[str, Product]
    systems: Mapping[str, System]
