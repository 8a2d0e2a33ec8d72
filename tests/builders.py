"""Builders that many test files share: job documents, products, systems, catalogues and clients of an app.

The figures that a test is about stay in that test. Tests that must not import the code they check (much of
``outside``) do not use this module, as it imports what it builds.
"""

import json
import re
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from types import MappingProxyType
from typing import Any

from flask.testing import FlaskClient
from tests.asked import Asked

from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.cure.curve import TimeCurve, time_curve, time_point
from gaugerake.floor.job import Job
from gaugerake.floor.product import CountedIn, PriceBook, Product
from gaugerake.floor.system import Catalogue, System
from gaugerake.floor.values.range import Triple
from gaugerake.web.server.app import create_app

FT, INCH, POUND = 0.3048, 0.0254, 0.45359237
FT2, FT3, GALLON, MIL = FT**2, FT**3, 231 * INCH**3, INCH / 1000
MINUTE, HOUR, DAY = 60.0, 3600.0, 86_400.0
EXAMPLES = Path(__file__).parents[1] / "openapi" / "examples"
NO_PRICES = PriceBook(code="list", currency="USD", prices={})


def example(name: str) -> dict[str, Any]:
    """A job document of ``openapi/examples``."""
    found: dict[str, Any] = json.loads((EXAMPLES / f"{name}.json").read_text("utf-8"))
    return found


def retitled(title: str) -> str:
    """The demonstration's file with ``title`` before its own title: the same floors, as another revision."""
    text, found = re.subn(r"(?m)^  en: ", f"  en: {title} ", demo_text(), count=1)
    assert found == 1
    return text


def measured(area: str = "1200 sq ft", **said: Any) -> dict[str, Any]:
    """A room of a job document, known by its area."""
    return {"shape": {"measured": {"area": area}}, **said}


def rectangle(length: str, width: str, **said: Any) -> dict[str, Any]:
    """A room of a job document with four walls."""
    return {"shape": {"rectangle": {"length": length, "width": width}}, **said}


def document(*rooms: dict[str, Any], of: str = "level-clear", **parts: Any) -> dict[str, Any]:
    """A job document for a system of the demonstration; where no room is given, with one of 1,200 ft²."""
    return {"system": of, "rooms": list(rooms) or [measured()], **parts}


def fahrenheit(degrees: float) -> float:
    """Degrees Fahrenheit in K."""
    return (degrees + 459.67) * 5 / 9


def curve(*rows: tuple[float, float, float], unit_s: float = HOUR) -> TimeCurve:
    """A table of times from rows of °F, low and high; times are in hours unless ``unit_s`` [s] is given."""
    return time_curve(
        time_point(temperature_k=fahrenheit(at), low_s=low * unit_s, high_s=high * unit_s) for at, low, high in rows
    )


def triple(low: float, likely: float | None = None, high: float | None = None) -> Triple:
    """An uncertain figure; what is not given is ``low``, so that one value alone is exact."""
    return Triple(low=low, likely=low if likely is None else likely, high=low if high is None else high)


def product(code: str, counted_in: CountedIn, **said: Any) -> Product:
    """A product; what is not given has its default, and there are no packs."""
    return Product(**{"code": code, "name": code.capitalize(), "counted_in": counted_in, "packs": (), **said})


def mixes(code: str = "body", **said: Any) -> Product:
    """A product counted in mixes."""
    return product(code, CountedIn.MIX, **said)


def liquid(code: str = "clear", **said: Any) -> Product:
    """A product counted by volume [m³]."""
    return product(code, CountedIn.LIQUID, **said)


def aggregate(code: str = "sand", **said: Any) -> Product:
    """A product counted by mass [kg]."""
    return product(code, CountedIn.MASS, **said)


def pieces(code: str, **said: Any) -> Product:
    """A product counted by the piece."""
    return product(code, CountedIn.PIECE, **said)


def system(*layers: Any, code: str = "test", **said: Any) -> System:
    """A system of these layers, without limits of slab and air unless they are given."""
    return System(**{"code": code, "name": code.capitalize(), "description": "", "layers": layers, **said})


def catalogue(*systems: System, products: Mapping[str, Product] = MappingProxyType({})) -> Catalogue:
    """A catalogue of these systems."""
    return Catalogue(
        title="Test",
        invented=True,
        currency="USD",
        valid_days=30,
        products=products,
        systems={one.code: one for one in systems},
    )


def context(job: Job, of: Snapshot | Catalogue | System, *, working: bool = False) -> Asked:
    """A job to be answered from a snapshot at its list prices, or from a system or a catalogue without prices."""
    if isinstance(of, Snapshot):
        return Asked(job=job, catalogue=of.catalogue, revision=of.revision, book=of.list_book, with_working=working)
    held = catalogue(of) if isinstance(of, System) else of
    return Asked(job=job, catalogue=held, revision="r", book=NO_PRICES, with_working=working)


class Held:
    """A source of the catalogue for an app (`SnapshotSource`): always the same snapshot, and no branch's book."""

    stale_since: datetime | None = None

    def __init__(self, snapshot: Snapshot) -> None:
        self.current = snapshot

    def revision(self, revision: str) -> Snapshot:
        """The only revision that there is."""
        assert revision == self.current.revision
        return self.current

    def book(self, book_id: str) -> PriceBook:
        """No book is kept: a test that asks for one fails."""
        raise KeyError(book_id)


def ask(client: FlaskClient, path: str, job: dict[str, Any]) -> Any:
    """The answer to a job."""
    response = client.post(f"/v1/{path}", json=job)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_json()


def client_of(snapshot: Snapshot, **settings: Any) -> FlaskClient:
    """A client of an app in this process that answers from this snapshot."""
    return create_app(Held(snapshot), **settings).test_client()
