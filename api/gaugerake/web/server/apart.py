"""Work that a process of its own does, so that nothing it loads or makes stays in this one.

A first start needs Alembic and reads the demonstration catalogue as text. Done in the service itself, that stayed in
every worker, 12 MB of it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable


def apart(work: Callable[[], int]) -> int:
    """The code with which the work ends: below zero the signal that ended it, 1 where it failed with an exception.

    A fork of this process does it, so this one must hold no lock and no connection.
    """
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    code = 1
    try:
        code = work()
    except Exception:  # noqa: BLE001 - it must not get past the fork, and is shown as Python shows it
        sys.excepthook(*sys.exc_info())
    finally:
        sys.stderr.flush()
        os._exit(code)
