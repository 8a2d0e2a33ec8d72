"""A room measured: its shape, its keyways, what is placed in it."""
