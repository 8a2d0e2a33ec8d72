"""The command line: serve the API, and look after the catalogue.

Exit codes: 0 done, 1 a file with faults, 2 a command that cannot be read, 3 something else that stands in the way.

Decisions:

* A command returns its `Outcome`; `main` alone prints it, for people or, with ``--json``, for programs. So no command
  can print in the one form what it leaves out of the other.
* What a command needs beyond the standard library is imported when it runs: ``gaugerake --version`` loads no database.
"""

from gaugerake.cli.main import main

__all__ = ["main"]
