"""Which whole packs cover a need at the least cost."""
