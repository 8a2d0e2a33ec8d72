"""The primer, rolled under the body."""

from __future__ import annotations

from typing import Any, ClassVar

from gaugerake.floor.layers.facts import Asked, Laid, RaisedLimits
from gaugerake.floor.layers.keys import Entry, Group, Key, Measure, Number
from gaugerake.floor.layers.rolled import RolledLayer
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.frozen import dataclass

_EMISSION = Measure(
    dimension="moisture-emission", low="0 g/m2/24h", high="1000 g/m2/24h", figure=Kind.MOISTURE_EMISSION
)
_RAISES = Key(
    name="raises",
    field="raises",
    form=Group(
        keys=(
            Key(
                name="relative_humidity",
                field="relative_humidity_percent",
                form=Number(low=0, high=100),
                example="relative_humidity: 96",
            ),
            Key(name="moisture_emission", field="moisture_emission_kg_m2_s", form=_EMISSION),
        )
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrimerLayer(RolledLayer):
    """Rolled under the body; ``spreading_rate_m2_m3`` [m²/m³], and the moisture limits that it ``raises``."""

    kind: ClassVar[str] = "primer"
    keys: ClassVar[tuple[Key, ...]] = (*RolledLayer.keys, _RAISES)
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset()
    covers_floor: ClassVar[bool] = True
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = True
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False

    raises: RaisedLimits | None = None

    @classmethod
    def read(cls, entry: Entry) -> dict[str, Any]:
        """Its rate, and the limits that it raises."""
        fields = {key.field: entry.read(key) for key in RolledLayer.keys}
        if _RAISES.name not in entry:
            return fields
        return {**fields, "raises": RaisedLimits(**entry.read(_RAISES))}
