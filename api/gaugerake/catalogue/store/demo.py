"""The demonstration catalogue: invented, and said to be so wherever it is shown."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from gaugerake.catalogue.store.snapshot import Snapshot, snapshot_of
from gaugerake.floor.system import Catalogue


def demo_text() -> str:
    """The file itself."""
    return files(__package__).joinpath("demo.yaml").read_text("utf-8")


@cache
def demo_snapshot() -> Snapshot:
    """The demonstration catalogue with its list prices."""
    return snapshot_of(demo_text())


def demo_catalogue() -> Catalogue:
    """The demonstration catalogue."""
    return demo_snapshot().catalogue
