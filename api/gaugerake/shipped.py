"""Files that the service reads beside its code: the page and gunicorn's settings.

In a checkout they stand at the top (``client/``, ``docker/``); a wheel carries copies in ``gaugerake/shipped/``, which
pyproject.toml puts there.
"""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent
CHECKOUT = PACKAGE.parents[1]


def in_checkout() -> bool:
    """Whether the code runs from a checkout, not from what a wheel installs."""
    return (CHECKOUT / "pyproject.toml").is_file() and (CHECKOUT / "client").is_dir()


def shipped(name: str) -> Path:
    """The place of a file or folder, by its path from the top of a checkout.

    >>> shipped("client").name
    'client'
    """
    return (CHECKOUT if in_checkout() else PACKAGE / "shipped") / name
