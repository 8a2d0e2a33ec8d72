"""Where people reach this service: ``GAUGERAKE_ADDRESS``, else the address that the request was sent to.

The latter is the ``Host`` of the request, which `GAUGERAKE_TRUSTED_HOSTS` judges and which else is whatever its sender
wrote: it goes back to that sender alone.
"""

from __future__ import annotations

from flask import current_app, request


def own_address() -> str:
    """The address, without a slash at its end."""
    said: str | None = current_app.config["ADDRESS"]
    return (said or request.host_url).rstrip("/")
