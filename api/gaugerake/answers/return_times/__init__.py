"""When the work is done and when traffic returns."""
