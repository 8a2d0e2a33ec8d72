"""When each step of the work is done and when traffic returns."""
