"""What commands read: files by their names, and the database of the environment."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from gaugerake.cli.outcome import Hindered

if TYPE_CHECKING:
    from gaugerake.catalogue.store.revisions import Store


def the_store() -> Store:
    """The database, made and filled if it is empty.

    Raises
    ------
    CatalogueError
    """
    from gaugerake.catalogue.store.database import database_url
    from gaugerake.catalogue.store.first_start import ensure_ready

    return ensure_ready(database_url())


def read_text(file: str) -> str:
    """The text of a file.

    Raises
    ------
    Hindered
    """
    return _text(file, _bytes(file))


def read_prices(file: str) -> str:
    """A price list as CSV, whose lines are the rows of the sheet when it is one.

    Raises
    ------
    Hindered, FileRefused
    """
    from gaugerake.catalogue.prices.sheet import is_sheet, sheet_text

    data = _bytes(file)
    return sheet_text(data) if is_sheet(data) else _text(file, data)


def _bytes(file: str) -> bytes:
    try:
        return Path(file).read_bytes()
    except OSError as error:
        raise Hindered(f"{file}: {error.strerror}") from None


def _text(file: str, data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Hindered(f"{file}: not UTF-8 at byte {error.start}; save the file as UTF-8") from None
