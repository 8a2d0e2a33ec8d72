"""The catalogue's file: one YAML text in, a whole catalogue and its list prices out, or everything that is wrong.

::

    catalogue: Title         invented: true      currency: USD      valid_days: 30
    products: [{code, name, counted_in: mix | liquid | mass | piece, packs: [{sku, contents, unit_code, price …}], …}]
    systems: [{code, name, reference_temperature, layers: [{layer: body, product: …}, …], …}]

Measures are texts (``3/16 in``), times are tables by temperature (``[{at: 70 degF, low: 8 h, high: 10 h}]``), and a
figure that is uncertain is ``{low, likely, high}`` or one measure. The title may be given in both languages, as names
are; where catalogues are listed by their titles, for whoever keeps them, it is the English one.
"""

from __future__ import annotations

from functools import lru_cache

from gaugerake.catalogue.file.faults import FileRemark, Notebook
from gaugerake.catalogue.file.known import KnownProducts
from gaugerake.catalogue.file.nodes import Node, tree
from gaugerake.catalogue.file.prices import currency
from gaugerake.catalogue.file.products import read_products
from gaugerake.catalogue.file.read import Table, integer, name_of, truth
from gaugerake.catalogue.file.systems import read_systems
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.frozen import dataclass

LIST = "list"
"""The code of the price book that the catalogue itself carries."""

_REQUIRED = ("catalogue", "invented", "currency", "valid_days", "products", "systems")


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A catalogue as read, its list prices, and what may be slips in it."""

    catalogue: Catalogue
    list_book: PriceBook
    cautions: tuple[FileRemark, ...]


@lru_cache(maxsize=2)
def load_text(written: str) -> Loaded:
    """The catalogue that the text of a file holds; kept, as a command that fills an empty database reads it twice.

    Raises
    ------
    FileRefused
        With all faults of the file, each with its line.
    """
    notebook = Notebook()
    table = Table(tree(written.removeprefix("\ufeff"), notebook), required=_REQUIRED)
    title = table.read("catalogue", name_of, "")
    invented = table.read("invented", truth, False)
    money = table.read("currency", currency, "")
    valid_days = table.read("valid_days", integer(1, 3660), None)
    known = table.read("products", lambda node: read_products(node, money), KnownProducts(currency=money))
    systems = table.read("systems", lambda node: _systems(node, known), {})
    notebook.raise_any()
    catalogue = Catalogue(
        title=title,
        invented=invented,
        currency=money,
        valid_days=valid_days or 1,
        products=known.products,
        systems=systems,
    )
    book = PriceBook(code=LIST, currency=money, prices=known.prices)
    return Loaded(catalogue=catalogue, list_book=book, cautions=notebook.told_cautions())


def _systems(node: Node, known: KnownProducts) -> dict[str, System]:
    systems = read_systems(node, known)
    _unused(known, systems)
    return systems


def _unused(known: KnownProducts, systems: dict[str, System]) -> None:
    """Tell of each product that no system uses, where it stands."""
    used = {layer.product.code for system in systems.values() for layer in system.layers}
    for name in known.products.keys() - used:
        known.places[name].caution(f'no system uses the product "{name}"')
