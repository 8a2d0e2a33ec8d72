"""``python -m gaugerake.cli``: the command line."""

import sys

from gaugerake.cli.main import main

sys.exit(main())
