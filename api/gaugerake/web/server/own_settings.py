"""The settings of our own that stand in gunicorn's file beside its own. Gunicorn knows them once this is imported."""

from __future__ import annotations

from gunicorn.config import Setting, make_settings, validate_pos_int  # type: ignore[import-untyped]

SECTION = "gaugerake"


class WatchedSeconds(Setting):  # type: ignore[misc]
    """How long a request may be worked on before it is logged."""

    name = "watched_seconds"
    section = SECTION
    validator = validate_pos_int
    type = int
    default = 20
    desc = "After how many seconds of work a request is logged; less than timeout, which ends a silent worker."


class MostMemory(Setting):  # type: ignore[misc]
    """How much memory a worker may keep."""

    name = "most_memory_mb"
    section = SECTION
    validator = validate_pos_int
    type = int
    default = 300
    desc = "Resident memory in MB (10^6 bytes) past which a worker retires between requests; 0 for no bound."


def known() -> frozenset[str]:
    """The names of all settings that stand in the file: gunicorn's and ours."""
    return frozenset(make_settings())
