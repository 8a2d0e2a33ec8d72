"""``python -m gaugerake``: the command line."""

import sys

from gaugerake.cli import main

sys.exit(main())
