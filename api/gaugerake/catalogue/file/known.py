"""What has been read of a file's products, for the packs and layers that come after."""

from __future__ import annotations

from dataclasses import dataclass, field

from gaugerake.catalogue.file.nodes import Node
from gaugerake.catalogue.file.read import sku
from gaugerake.floor.product import Price, Product


@dataclass(slots=True)
class KnownProducts:
    """What has been read so far: products by code and prices by sku.

    ``doubtful`` are products whose counting or yield could not be read or is told already, so that nothing more is
    said of it; ``places`` is where each product stands.
    """

    currency: str
    products: dict[str, Product] = field(default_factory=dict)
    prices: dict[str, Price] = field(default_factory=dict)
    doubtful: set[str] = field(default_factory=set)
    places: dict[str, Node] = field(default_factory=dict)
    _skus: dict[str, int] = field(default_factory=dict)

    def new_sku(self, node: Node) -> str:
        """The sku at ``node``, which no pack or part before it has."""
        name = sku(node)
        if name in self._skus:
            node.fault(f"this sku stands already on line {self._skus[name]}: each pack and part needs one of its own")
        elif name:
            self._skus[name] = node.line
        return name
